//! How late one could begin at best, worked out apart from the planner: the longest way, and whoever or whatever is busiest.

use crate::timetable::plan::{Hands, Project};

/// Minutes from the latest moment at which anything could begin to `end`, if everything is done by `end`.
pub(super) fn least_span(project: &Project, end: i64) -> i64 {
    let way = longest_way(project, end);
    let people = busiest(&spans(project), needed(project), end);
    let ovens = project.places.iter().map(|place| {
        let minutes =
            project.jobs.iter().filter(|job| job.needs.iter().any(|n| n.kind == place.kind)).map(|j| j.minutes);
        let all: u32 = project.places.iter().filter(|p| p.kind == place.kind).map(|p| p.units).sum();
        let used: i64 = if place.kind == 0 { minutes.sum() } else { 0 };
        used / i64::from(all.max(1))
    });
    way.max(people).max(ovens.max().unwrap_or(0))
}

fn spans(project: &Project) -> Vec<(i64, i64)> {
    project.people.iter().flat_map(|p| &p.hours).map(|h| (h.from, h.to)).collect()
}

fn needed(project: &Project) -> i64 {
    project.jobs.iter().map(|j| if let Hands::Work(n) = j.hands { n as i64 * j.minutes } else { 0 }).sum()
}

/// Minutes before `end` from which on all people together have so many minutes.
fn busiest(hours: &[(i64, i64)], needed: i64, end: i64) -> i64 {
    let there = |from: i64| hours.iter().map(|h| (h.1.min(end) - h.0.max(from)).max(0)).sum::<i64>();
    (0..100_000).find(|&span| there(end - span) >= needed).unwrap_or(100_000)
}

/// The longest way backwards through the hours in which anybody at all is there.
fn longest_way(project: &Project, end: i64) -> i64 {
    let hours = spans(project);
    let there: Vec<bool> = {
        let first = end - 100_000;
        let mut there = vec![false; 100_000];
        for (from, to) in hours {
            for t in from.max(first)..to.min(end) {
                there[(t - first) as usize] = true;
            }
        }
        there
    };
    let is_there = |t: i64| there.get((t - end + 100_000) as usize).copied().unwrap_or(false);
    let mut latest = vec![None; project.jobs.len()];
    (0..project.jobs.len()).map(|k| end - begin(project, k, end, &is_there, &mut latest)).max().unwrap_or(0)
}

/// The latest beginning of a job.
fn begin(project: &Project, k: usize, end: i64, there: &impl Fn(i64) -> bool, latest: &mut Vec<Option<i64>>) -> i64 {
    if let Some(known) = latest[k] {
        return known;
    }
    let after: Vec<_> = project.links.iter().filter(|l| l.before == k).copied().collect();
    let mut t = end;
    for link in after {
        t = t.min(begin(project, link.after, end, there, latest) - link.least);
    }
    let job = &project.jobs[k];
    let from = match job.hands {
        Hands::Alone => t - job.minutes,
        _ if job.split.is_some() => {
            let (mut left, mut at) = (job.minutes, t);
            while left > 0 && at > end - 100_000 {
                at -= 1;
                left -= i64::from(there(at));
            }
            at
        }
        _ => {
            let mut at = t;
            while at - job.minutes > end - 100_000 && !(at - job.minutes..at).all(there) {
                at -= 1;
            }
            at - job.minutes
        }
    };
    latest[k] = Some(from);
    from
}
