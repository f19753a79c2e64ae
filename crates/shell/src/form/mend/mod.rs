//! Remedies: changes to the house that were tried with the solver and put a finding right.

mod change;
#[cfg(test)]
mod tests;
mod tries;

pub use change::Change;

use crate::{House, Solved, file, solve};
use gable_measure::{Finding, Severity};

/// A change that puts a finding right and brings no other.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// Index into [`Solved::findings`].
    pub finding: usize,
    /// What to change.
    pub change: Change,
}

/// Most changes tried for one finding.
const MOST_TRIES: usize = 50;
/// Most changes tried for a house of one part; a house of many parts takes longer to solve and gets fewer.
const MOST_IN_ALL: usize = 1600;

/// What puts findings right, each at most once, in the order of the findings.
///
/// Nothing is guessed: each change is made to a copy of the house, and counts only when the solver does not come to that
/// finding any more, nor to a new one. The smallest changes are tried first. As a house is solved dozens of times, call it
/// away from the window; it ends early when `go_on` says no.
///
/// ```
/// # use gable_shell::{demo, remedies, solve};
/// let house = demo::house("boat-hut").unwrap();
/// assert_eq!(remedies(&house, &solve(&house), || true), []);
/// ```
pub fn remedies(house: &House, solved: &Solved, go_on: impl Fn() -> bool) -> Vec<Remedy> {
    let mut found = Vec::new();
    let mut left = (MOST_IN_ALL / house.parts.len().max(1)).clamp(MOST_TRIES / 4, 4 * MOST_TRIES);
    for finding in 0..solved.findings.len() {
        // What mended one finding often mends its neighbour too.
        let known: Vec<Change> = found.iter().map(|r: &Remedy| r.change.clone()).collect();
        let new = tries::for_finding(house, solved, finding).into_iter().take(MOST_TRIES);
        for change in known.into_iter().chain(new) {
            if left == 0 || !go_on() {
                return found;
            }
            left -= 1;
            if mends(house, &solved.findings, finding, &change) {
                found.push(Remedy { finding, change });
                break;
            }
        }
    }
    found
}

/// What a finding is about, without the sizes in it.
fn subject(finding: &Finding) -> (&'static str, &str, &str) {
    let about = finding.what.split_once(" is only ").map_or(finding.what.as_str(), |(about, _)| about);
    (finding.kind, finding.place.as_str(), about)
}

/// Whether a finding is gone after a change, and nothing has come up that was not there.
fn mends(house: &House, before: &[Finding], finding: usize, change: &Change) -> bool {
    let mut changed = house.clone();
    change.apply(&mut changed);
    if !file::check(&changed).is_empty() {
        return false;
    }
    let after = solve(&changed).findings;
    let was_there = |f: &Finding| before.iter().any(|b| subject(b) == subject(f) && b.severity >= f.severity);
    let gone = before.get(finding).is_some_and(|mended| after.iter().all(|f| subject(f) != subject(mended)));
    gone && after.iter().all(|f| was_there(f) && f.severity < Severity::Blocking)
}
