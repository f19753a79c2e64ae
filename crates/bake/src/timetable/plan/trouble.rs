use super::answer::{Answer, plan};
use super::block::units_of;
use super::improve::Ends;
use super::{Hands, Hours, Person, Project, Schedule};
use gable_words::tr;
use std::collections::BTreeSet;

/// Why a project cannot be done in time.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// What can be done, and when, with the hours that there are after it is due; jobs without a time do not fit at all.
    pub schedule: Schedule,
    /// What there is not enough of, the worst first.
    pub short: Vec<Short>,
}

/// What there is not enough of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Short {
    /// No kitchen has the people and places that these jobs take.
    Nowhere(Vec<usize>),
    /// The longest row of jobs that wait for each other takes so many minutes too long, with as many people and places as
    /// one likes in the same hours.
    Time(i64),
    /// There are not enough hours of people for these jobs, however they are done.
    NoHours(Vec<usize>),
    /// All jobs together take more minutes of people than there are.
    People {
        /// Minutes of work.
        needed: i64,
        /// Minutes until it is due.
        there: i64,
    },
    /// A kind of place is too small, counted in minutes of one.
    Place {
        /// Index of a place of this kind.
        place: usize,
        /// Minutes needed.
        needed: i64,
        /// Minutes until it is due.
        there: i64,
    },
    /// Nothing of it alone: it is only that all comes at once.
    Crowded,
}

/// What could be changed so that it can be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// More hours of a person.
    Hours(usize, Hours),
    /// One more of a place, by index.
    Place(usize),
    /// Another pair of hands, with the same hours as a person.
    Helper(usize),
    /// What could be left out, by index into [`Project::spare`].
    LeaveOut(usize),
    /// So many minutes later.
    Later(i64),
}

/// Something that was tried and that makes it possible.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Help {
    /// What is changed; several only where fewer do not help.
    pub changes: Vec<Change>,
    /// When everything is then done.
    pub end: i64,
}

pub(super) fn trouble(ends: &Ends, schedule: Schedule) -> Trouble {
    let project = ends.ahead.project;
    let mut short = Vec::new();
    let nowhere: Vec<usize> =
        ends.ahead.blocks.blocks.iter().filter(|b| b.kitchens.is_empty()).flat_map(|b| b.jobs.clone()).collect();
    let blocked = !nowhere.is_empty();
    if blocked {
        short.push(Short::Nowhere(nowhere));
    }
    let free = ends.unhindered();
    let without: Vec<usize> = (0..free.placed.len()).filter(|&k| free.placed[k].is_none()).collect();
    match free.end() {
        Some(end) if without.is_empty() && end > project.due => short.push(Short::Time(end - project.due)),
        _ if !without.is_empty() && !blocked => short.push(Short::NoHours(without)),
        _ => {}
    }
    short.extend(people(project));
    short.extend(places(project));
    if short.is_empty() {
        short.push(Short::Crowded);
    }
    Trouble { schedule, short }
}

fn people(project: &Project) -> Option<Short> {
    let work = |job: &super::Job| match job.hands {
        Hands::Work(hands) => job.minutes * hands as i64,
        Hands::Watched | Hands::Alone => 0,
    };
    let needed = project.jobs.iter().map(work).sum();
    let hours = project.people.iter().flat_map(|p| &p.hours);
    let there = hours.map(|h| (h.to.min(project.due) - h.from.max(project.start)).max(0)).sum();
    (needed > there).then_some(Short::People { needed, there })
}

/// Kinds of places that all jobs together take for longer than there is time; a lower bound, as it does not count hours.
fn places(project: &Project) -> Vec<Short> {
    let kinds: BTreeSet<usize> = project.places.iter().map(|p| p.kind).collect();
    let of_kind = |kind: usize| {
        let needs =
            |job: &super::Job| job.needs.iter().filter(|n| n.kind == kind).map(|n| i64::from(n.units)).sum::<i64>();
        let needed: i64 = project.jobs.iter().map(|job| job.minutes * needs(job)).sum();
        let units: i64 = (0..project.kitchens).map(|k| i64::from(units_of(project, k, kind))).sum();
        let there = units * (project.due - project.start).max(0);
        let place = project.places.iter().position(|p| p.kind == kind)?;
        (needed > there).then_some(Short::Place { place, needed, there })
    };
    kinds.into_iter().filter_map(of_kind).collect()
}

/// What would help with a project that cannot be done in time. Each was tried, and makes it possible. Besides `offers` it is
/// tried with one more of each kind of place, with another pair of hands and with leaving out what can be.
pub fn helps(project: &Project, offers: &[Change], rounds: usize) -> Vec<Help> {
    let mut kinds = BTreeSet::new();
    let places =
        (0..project.places.len()).filter(|&k| kinds.insert((project.places[k].kitchen, project.places[k].kind)));
    let singles: Vec<Change> = (offers.iter().cloned())
        .chain(places.map(Change::Place))
        .chain((0..project.people.len()).map(Change::Helper))
        .chain((0..project.spare.len()).map(Change::LeaveOut))
        .collect();
    let attempt = |changes: &[Change]| {
        let changed = changes.iter().fold(project.clone(), |own, change| own.with(change));
        match plan(&changed, rounds) {
            Ok(Answer::Fits(plan)) => Some(Help { changes: changes.to_vec(), end: plan.end() }),
            _ => None,
        }
    };
    let mut helps: Vec<Help> = singles.iter().filter_map(|one| attempt(std::slice::from_ref(one))).collect();
    let hours: Vec<Change> = offers.iter().filter(|c| matches!(c, Change::Hours(..))).cloned().collect();
    if helps.iter().all(|help| !matches!(help.changes[..], [Change::Hours(..)])) {
        helps.extend((2..=hours.len()).find_map(|count| attempt(&hours[..count])));
    }
    if let Ok(Answer::DoesNotFit(trouble)) = plan(project, rounds)
        && trouble.schedule.is_whole()
        && let Some(end) = trouble.schedule.end()
        && end > project.due
    {
        helps.extend(attempt(&[Change::Later(end - project.due)]));
    }
    helps
}

impl Project {
    /// The same with a change.
    #[must_use]
    pub fn with(mut self, change: &Change) -> Self {
        match *change {
            Change::Hours(person, hours) => {
                if let Some(person) = self.people.get_mut(person) {
                    person.hours.push(hours);
                }
            }
            Change::Place(place) => {
                if let Some(place) = self.places.get_mut(place) {
                    place.units = place.units.saturating_add(place.more);
                }
            }
            Change::Helper(person) => self.add_helper(person),
            Change::LeaveOut(spare) => {
                for job in self.spare.get(spare).map(|s| s.jobs.clone()).unwrap_or_default() {
                    if let Some(job) = self.jobs.get_mut(job) {
                        (job.minutes, job.hands, job.split) = (0, Hands::Alone, None);
                        job.needs.clear();
                    }
                }
            }
            Change::Later(minutes) => self.due += minutes,
        }
        self
    }

    fn add_helper(&mut self, person: usize) {
        let Some(like) = self.people.get(person) else { return };
        let helper = Person { name: tr!("helper beside {}", like.name), hours: like.hours.clone() };
        self.people.push(helper);
    }
}
