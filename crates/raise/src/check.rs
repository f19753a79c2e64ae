//! What the order of assembly gives reason to say.

use crate::{Held, Stuck, Why, order};
use gable_measure::{Finding, Severity};
use gable_shell::Solved;

/// What to do about pieces that hook into each other when they are cut without a gap for icing: most then come free.
const GIVE_ROOM: &str = "allow a gap for icing, let the other part be cut, or cut the hook away and fill it with icing";
/// The same when there is a gap already.
const GIVE_UP_HOOK: &str =
    "let the other part be cut, move one of the two, or cut the hook away and fill it with icing";
/// What to do about pieces that rest on one that comes after them.
const PROP: &str =
    "move the part so that they reach what they stand on, or hold them up with a prop until the icing has set";
/// What to do about a piece that touches nothing.
const LEAVE_OUT: &str = "leave it out, or move the part";

/// Findings about the order of assembly: pieces that no straight move brings to their place, and pieces that touch nothing.
/// Empty for a house that [`order`] has an order for. Not asked of a house that cannot be built.
pub fn check(solved: &Solved) -> Vec<Finding> {
    match order(solved) {
        Err(stuck) if solved.blocking().next().is_none() => found(solved, &stuck),
        _ => Vec::new(),
    }
}

fn found(solved: &Solved, stuck: &Stuck) -> Vec<Finding> {
    let remedy = if solved.gap.mm() > 0.0 { GIVE_UP_HOOK } else { GIVE_ROOM };
    let finding = |held: &Held, kind, what, remedy: &str| {
        let place = solved.pieces.get(held.piece).map(|p| p.id.0.clone()).unwrap_or_default();
        Finding { kind, severity: Severity::Caution, place, what, remedy: remedy.to_owned() }
    };
    let cause = |held: &Held| match &held.why {
        Why::InTheWay(others) => {
            let what = format!("{} hooks into {}: no straight move parts them", held.name, and(others));
            Some(finding(held, "no-order", what, remedy))
        }
        Why::Floats => {
            Some(finding(held, "touches-no-piece", format!("{} touches no other piece", held.name), LEAVE_OUT))
        }
        Why::Carries(_) | Why::UnderItsRoof => None,
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
        let what = format!("nothing holds {} before {} is in its place", and(others), held.name);
        finding(held, "no-order", what, PROP)
    });
    told.into_iter().collect()
}

/// Names with commas and an 'and'.
fn and(names: &[String]) -> String {
    match names {
        [] => "the others".to_owned(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}
