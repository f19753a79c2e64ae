//! Judges schedules by counting, and knows nothing of how they are made.

use super::{Hands, Need, Place, Placed, Project, Schedule};
use std::collections::{BTreeMap, BTreeSet};

/// Everything that is wrong with a schedule; `whole` if every job must have its time and be done when it is due.
pub(crate) fn wrong(project: &Project, schedule: &Schedule, whole: bool) -> Vec<String> {
    let mut wrong = Vec::new();
    if schedule.placed.len() != project.jobs.len() {
        return vec!["not as many times as jobs".to_owned()];
    }
    for (k, placed) in schedule.placed.iter().enumerate() {
        match placed {
            Some(placed) => job(project, k, placed, whole, &mut wrong),
            None if whole => wrong.push(format!("{} has no time", project.jobs[k].name)),
            None => {}
        }
    }
    links(project, schedule, &mut wrong);
    people(project, schedule, &mut wrong);
    places(project, schedule, &mut wrong);
    wrong
}

fn job(project: &Project, k: usize, placed: &Placed, whole: bool, wrong: &mut Vec<String>) {
    let job = &project.jobs[k];
    let mut say = |what: &str| wrong.push(format!("{} ({k}): {what} in {placed:?}", job.name));
    let (first, last) = (placed.spans[0].0, placed.spans[placed.spans.len() - 1].1);
    if placed.spans.iter().map(|(from, to)| to - from).sum::<i64>() != job.minutes {
        say("wrong number of minutes");
    }
    if placed.spans.windows(2).any(|pair| pair[0].1 >= pair[1].0) {
        say("its spans touch or overlap");
    }
    match job.split {
        None if placed.spans.len() != 1 => say("it was laid down"),
        Some(least) if placed.spans.iter().any(|(from, to)| to - from < least.min(job.minutes)) => {
            say("too short a piece")
        }
        _ => {}
    }
    if first < project.start || job.not_before.is_some_and(|t| first < t) {
        say("too early");
    }
    if whole && last > project.due {
        say("too late");
    }
    if job.kitchen.is_some_and(|own| own != placed.kitchen) || placed.kitchen >= project.kitchens {
        say("wrong kitchen");
    }
    let team: BTreeSet<_> = placed.people.iter().collect();
    let hands = if let Hands::Work(hands) = job.hands { hands } else { 0 };
    if team.len() != hands || placed.people.len() != hands {
        say("wrong number of people");
    }
    if !job.who.is_empty() && placed.people.iter().any(|p| !job.who.contains(p)) {
        say("somebody who cannot");
    }
    let there = |p: usize, t: i64| {
        project.people[p].hours.iter().any(|h| h.kitchen == placed.kitchen && h.from <= t && t < h.to)
    };
    for t in placed.spans.iter().flat_map(|&(from, to)| from..to) {
        if placed.people.iter().any(|&p| !there(p, t)) {
            say("outside the hours of somebody");
            break;
        }
        if job.hands == Hands::Watched && !(0..project.people.len()).any(|p| there(p, t)) {
            say("nobody watches");
            break;
        }
    }
}

fn links(project: &Project, schedule: &Schedule, wrong: &mut Vec<String>) {
    for link in &project.links {
        let (before, after) = (&schedule.placed[link.before], &schedule.placed[link.after]);
        let Some(after) = after else { continue };
        let Some(before) = before else {
            wrong.push(format!("{link:?}: the first has no time"));
            continue;
        };
        let lag = after.spans[0].0 - before.spans[before.spans.len() - 1].1;
        let carry = if before.kitchen == after.kitchen { 0 } else { project.carry };
        if lag < link.least + carry || link.most.is_some_and(|most| lag > most) {
            wrong.push(format!("{link:?}: {lag} minutes"));
        }
    }
    for (a, one) in project.jobs.iter().enumerate() {
        for (b, other) in project.jobs.iter().enumerate() {
            if let (Some(x), Some(y)) = (&schedule.placed[a], &schedule.placed[b])
                && one.block.is_some()
                && one.block == other.block
                && x.kitchen != y.kitchen
            {
                wrong.push(format!("{} and {} in different kitchens", one.name, other.name));
            }
        }
    }
}

fn people(project: &Project, schedule: &Schedule, wrong: &mut Vec<String>) {
    for (person, own) in project.people.iter().enumerate() {
        let mine = schedule.placed.iter().flatten().filter(|p| p.people.contains(&person));
        let mut spans: Vec<_> = mine.flat_map(|p| &p.spans).filter(|(from, to)| from < to).collect();
        spans.sort();
        if spans.windows(2).any(|pair| pair[0].1 > pair[1].0) {
            wrong.push(format!("{} does two things at once", own.name));
        }
    }
}

fn places(project: &Project, schedule: &Schedule, wrong: &mut Vec<String>) {
    // Kitchen, from, to, what.
    let mut uses: Vec<(usize, i64, i64, Need)> = Vec::new();
    for (job, placed) in project.jobs.iter().zip(&schedule.placed) {
        let Some(placed) = placed else { continue };
        let (from, to) = (placed.spans[0].0, placed.spans[placed.spans.len() - 1].1);
        uses.extend(job.needs.iter().map(|need| (placed.kitchen, from, to, *need)));
    }
    uses.extend(project.taken.iter().map(|t| (t.kitchen, t.from, t.to, t.need)));
    for hold in &project.holds {
        if let (Some(from), Some(to)) = (&schedule.placed[hold.from], &schedule.placed[hold.to]) {
            let end = to.spans[to.spans.len() - 1].1;
            uses.push((from.kitchen, from.spans[0].0, end, hold.need));
        }
    }
    for &(kitchen, at, until, Need { kind, .. }) in uses.iter().filter(|own| own.1 < own.2) {
        let here: Vec<&Place> = project.places.iter().filter(|p| p.kitchen == kitchen && p.kind == kind).collect();
        let all: u32 = here.iter().map(|p| p.units).sum();
        let together = here.iter().map(|p| p.more).min().unwrap_or(1);
        // What of each sort is there at this moment, each in whole ovens of its own.
        let mut sorts: BTreeMap<Option<usize>, u32> = BTreeMap::new();
        for (.., need) in uses.iter().filter(|u| u.0 == kitchen && u.3.kind == kind && u.1 <= at && at < u.2) {
            *sorts.entry(need.sort).or_default() += need.units;
        }
        let whole = |(sort, units): (&Option<usize>, &u32)| match sort {
            Some(_) => units.div_ceil(together) * together,
            None => *units,
        };
        let taken: u32 = sorts.iter().map(whole).sum();
        if taken > all {
            wrong.push(format!("kind {kind} in kitchen {kitchen}: {taken} of {all} taken from {at} to {until}"));
        }
    }
}
