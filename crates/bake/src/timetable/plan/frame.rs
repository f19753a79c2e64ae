use super::block::{Blocks, units_of};
use super::profile::Room;
use super::{Hands, Job, Project};
use std::collections::BTreeMap;

/// From when to when, in order.
pub(super) type Spans = Vec<(i64, i64)>;

/// A project laid out for planning.
#[derive(Clone, Debug)]
pub(super) struct Frame<'a> {
    pub(super) project: &'a Project,
    pub(super) blocks: Blocks,
    /// Hours per person and kitchen, in order, those that touch joined.
    pub(super) hours: Vec<Vec<Spans>>,
    /// Per kitchen when anybody is there.
    pub(super) anybody: Vec<Spans>,
    /// How much there is, per kitchen and kind.
    pub(super) units: BTreeMap<(usize, usize), Room>,
    /// Per job the teams that may do it.
    pub(super) teams: Vec<Vec<Vec<usize>>>,
}

impl<'a> Frame<'a> {
    pub(super) fn of(project: &'a Project) -> Result<Self, String> {
        let blocks = Blocks::of(project)?;
        let own = |p: usize, k: usize| {
            let hours = project.people[p].hours.iter().filter(|h| h.kitchen == k);
            // Nothing is done before the start.
            hours.map(|h| (h.from.max(project.start), h.to)).filter(|(from, to)| from < to).collect::<Spans>()
        };
        let kitchens = 0..project.kitchens;
        let people = 0..project.people.len();
        let hours = people.clone().map(|p| kitchens.clone().map(|k| joined(own(p, k))).collect()).collect();
        let anybody = kitchens.map(|k| joined(people.clone().flat_map(|p| own(p, k)).collect())).collect();
        let mut units = BTreeMap::new();
        for place in &project.places {
            let key = (place.kitchen, place.kind);
            let together = units.get(&key).map_or(place.more, |room: &Room| room.together.min(place.more));
            units.insert(key, Room { units: units_of(project, place.kitchen, place.kind), together });
        }
        let teams = project.jobs.iter().map(|job| teams(job, project.people.len())).collect();
        Ok(Self { project, blocks, hours, anybody, units, teams })
    }
}

/// Spans in order, those that touch or overlap joined.
fn joined(mut spans: Spans) -> Spans {
    spans.sort_unstable();
    let mut joined: Spans = Vec::new();
    for (from, to) in spans {
        match joined.last_mut() {
            Some(last) if last.1 >= from => last.1 = last.1.max(to),
            _ => joined.push((from, to)),
        }
    }
    joined
}

/// The teams that may do a job: all choices of so many of those who can.
fn teams(job: &Job, people: usize) -> Vec<Vec<usize>> {
    let Hands::Work(hands) = job.hands else { return Vec::new() };
    let able: Vec<usize> = (0..people).filter(|p| job.who.is_empty() || job.who.contains(p)).collect();
    let mut teams: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in 0..hands {
        let longer = |team: &Vec<usize>| {
            let next = able.iter().copied().filter(|p| team.last().is_none_or(|last| p > last));
            next.map(|p| [team.clone(), vec![p]].concat()).collect::<Vec<_>>()
        };
        teams = teams.iter().flat_map(longer).collect();
    }
    teams
}

/// From when on spans have so many minutes without a break.
pub(super) fn run(spans: &[(i64, i64)], low: i64, minutes: i64) -> Option<i64> {
    let from = spans.partition_point(|span| span.1 <= low);
    spans[from..]
        .iter()
        .map(|&(from, to)| (from.max(low), to))
        .find(|&(from, to)| from + minutes <= to)
        .map(|span| span.0)
}
