//! What the order of assembly gives reason to say.

use crate::{Guide, Held, Plan, Stuck, Why, plan};
use gable_measure::{Finding, Severity};
use gable_shell::{JointEnd, Solved, Wish};
use gable_words::{mark, say, tr};
use std::collections::BTreeMap;

/// What to do about pieces that hook into each other when they are cut without a gap for icing: most then come free.
const GIVE_ROOM: &str =
    mark!("allow a gap for icing, let the other part be cut, or cut the hook away and fill it with icing");
/// The same when there is a gap already.
const GIVE_UP_HOOK: &str =
    mark!("let the other part be cut, move one of the two, or cut the hook away and fill it with icing");
/// What to do about pieces that rest on one that comes after them.
const PROP: &str =
    mark!("move the part so that they reach what they stand on, or hold them up with a prop until the icing has set");
/// What to do about a piece that touches nothing.
const LEAVE_OUT: &str = mark!("leave it out, or move the part");

/// What to do about a wish that cannot be had.
const STRIKE: &str = mark!("strike out this wish, or ask for another order");
/// What to do where a wanted order keeps hands out.
const ICE_BEFORE: &str = mark!("ice these joints well before, or strike out a wish about the order");

/// Findings about the order of assembly: pieces that no straight move brings to their place, pieces that touch nothing, and
/// wishes that cannot be had or that keep hands out. Not asked of a house that cannot be built.
pub fn check(solved: &Solved) -> Vec<Finding> {
    if solved.blocking().next().is_some() {
        return Vec::new();
    }
    match plan(solved, &solved.wishes) {
        Err(stuck) => found(solved, &stuck),
        Ok(Plan { kept, refused, .. }) if kept.is_empty() => refused.iter().map(|(w, why)| no_wish(w, why)).collect(),
        Ok(plan) => {
            let guide = Guide::of_plan(solved, plan);
            of_guide(solved, &guide)
        }
    }
}

/// The same of a guide that is known already.
pub(crate) fn of_guide(solved: &Solved, guide: &Guide) -> Vec<Finding> {
    let mut told: Vec<Finding> = guide.refused.iter().map(|(wish, why)| no_wish(wish, why)).collect();
    told.extend(out_of_reach(solved, guide));
    told
}

/// A wish that cannot be had.
fn no_wish(wish: &Wish, why: &[Held]) -> Finding {
    Finding {
        kind: "order-impossible",
        severity: Severity::Caution,
        place: format!("order[{}]", wish.index),
        what: tr!("{} cannot be had: {}", wish.words, because(why)),
        remedy: say(STRIKE).to_owned(),
    }
}

/// Why a wish cannot be had, by the first of the reasons: 'Main body: left wall could not be slid in past Porch: roof'.
pub(crate) fn because(why: &[Held]) -> String {
    let Some(held) = why.first() else {
        return tr!("no order of straight moves was found with it").to_owned();
    };
    match &held.why {
        Why::InTheWay(others) => tr!("{} could not be slid in past {}", held.name, few(others)),
        Why::Carries(others) => tr!("nothing would carry {} without {}", few(others), held.name),
        Why::UnderItsRoof => tr!("{} comes before the roof over it, so that it can be set", held.name),
        Why::Wanted(others) => tr!("another wish has {} before {}", held.name, and(others)),
        Why::Floats => tr!("{} would rest on nothing", held.name),
    }
}

/// Joints that no hand reaches because of what the person wants, by what keeps it out.
fn out_of_reach(solved: &Solved, guide: &Guide) -> Vec<Finding> {
    let Some(first) = guide.kept.first() else { return Vec::new() };
    let Ok(usual) = plan(solved, &[]) else { return Vec::new() };
    let usual = Guide::of_plan(solved, usual);
    let shut = |g: &Guide, j: usize| g.stages.iter().any(|s| s.out_of_reach.contains(&j));
    let stages =
        |g: &Guide| -> Vec<usize> { (0..solved.pieces.len()).map(|k| g.stage_of(k).unwrap_or(usize::MAX)).collect() };
    let (now, before) = (stages(guide), stages(&usual));
    let mut by_cause: BTreeMap<Vec<usize>, Vec<usize>> = BTreeMap::new();
    for j in (0..solved.joints.len()).filter(|&j| shut(guide, j) && !shut(&usual, j)) {
        let ends =
            solved.joints[j].ends.iter().filter_map(|e| if let JointEnd::Piece(k) = e { Some(*k) } else { None });
        let ends: Vec<usize> = ends.collect();
        let made = |when: &[usize]| ends.iter().map(|&k| when[k]).max().unwrap_or(0);
        let early = |&k: &usize| !ends.contains(&k) && now[k] <= made(&now) && before[k] > made(&before);
        by_cause.entry((0..solved.pieces.len()).filter(early).collect()).or_default().push(j);
    }
    let told = |(early, joints): (Vec<usize>, Vec<usize>)| {
        let wish = guide.kept.iter().find(|w| w.first.iter().any(|k| early.contains(k))).unwrap_or(first);
        let letters: Vec<String> = joints.iter().map(|&j| solved.joints[j].letter.clone()).collect();
        let names: Vec<String> = early.iter().map(|&k| solved.pieces[k].name.clone()).collect();
        let cause = if names.is_empty() { String::new() } else { tr!(": {} would be in the way", few(&names)) };
        let joints = and(&letters);
        Finding {
            kind: "order-out-of-reach",
            severity: Severity::Caution,
            place: format!("order[{}]", wish.index),
            what: tr!(
                "with {} no hand reaches the inside of joint {joints}{cause}"
                    | "with {} no hand reaches the inside of joints {joints}{cause}" % letters.len(),
                wish.words
            ),
            remedy: say(ICE_BEFORE).to_owned(),
        }
    };
    by_cause.into_iter().map(told).collect()
}

/// Some names; of many only how many more there are.
fn few(names: &[String]) -> String {
    const FEW: usize = 3;
    match names.len().checked_sub(FEW) {
        Some(more) if more > 1 => tr!("{} and {more} more", names[..FEW].join(", ")),
        _ => and(names),
    }
}

fn found(solved: &Solved, stuck: &Stuck) -> Vec<Finding> {
    let remedy = if solved.gap.mm() > 0.0 { GIVE_UP_HOOK } else { GIVE_ROOM };
    let finding = |held: &Held, kind, what, remedy: &'static str| {
        let place = solved.pieces.get(held.piece).map(|p| p.id.0.clone()).unwrap_or_default();
        Finding { kind, severity: Severity::Caution, place, what, remedy: say(remedy).to_owned() }
    };
    let cause = |held: &Held| match &held.why {
        Why::InTheWay(others) => {
            let what = tr!("{} hooks into {}: no straight move parts them", held.name, and(others));
            Some(finding(held, "no-order", what, remedy))
        }
        Why::Floats => Some(finding(held, "touches-no-piece", tr!("{} touches no other piece", held.name), LEAVE_OUT)),
        Why::Carries(_) | Why::UnderItsRoof | Why::Wanted(_) => None,
    };
    let causes: Vec<Finding> = stuck.left.iter().filter_map(cause).collect();
    if !causes.is_empty() {
        return causes;
    }
    // Nothing is in the way, but what belongs under a piece rests on it: where the fewest do.
    let carried = stuck.left.iter().filter_map(|held| match &held.why {
        Why::Carries(others) => Some((held, others)),
        _ => None,
    });
    let least = carried.min_by_key(|(_, others)| others.len());
    let told = least.map(|(held, others)| {
        let what = tr!("nothing holds {} before {} is in its place", and(others), held.name);
        finding(held, "no-order", what, PROP)
    });
    told.into_iter().collect()
}

/// Names with commas and an 'and'.
fn and(names: &[String]) -> String {
    match names {
        [] => tr!("the others").to_owned(),
        [one] => one.clone(),
        [first @ .., last] => tr!("{} and {last}", first.join(", ")),
    }
}
