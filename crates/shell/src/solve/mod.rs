//! The solver: from sizes to pieces that close. Geometry in mm and radians; z up; plans counter-clockwise.
//!
//! Everything is convex until the last moment. Each part is worked out in its own coordinates, so that a moved or
//! turned part gives the very same pieces, and is put into the house at the end.

mod checks;
mod draft;
mod findings;
mod finish;
mod group;
mod icing;
mod joints;
mod openings;
mod part;
mod plan;
mod plate;
mod ring;
mod roof;
mod slopes;
#[cfg(test)]
mod tests;

use crate::{House, Solved};
use findings::Findings;

/// Works out every piece of a house.
///
/// Never fails: what cannot be built is a finding of severity [`gable_measure::Severity::Blocking`], and the part it
/// is about may then have no pieces.
///
/// ```
/// let house = gable_shell::demo::house("boat-hut").unwrap();
/// let solved = gable_shell::solve(&house);
/// assert!(solved.pieces.iter().any(|p| p.id.0 == "hut/wall-front"));
/// ```
pub fn solve(house: &House) -> Solved {
    let mut solved = Solved {
        unit: house.unit,
        gap: house.gap,
        parts: Vec::new(),
        pieces: Vec::new(),
        joints: Vec::new(),
        groups: Vec::new(),
        findings: Vec::new(),
    };
    for (index, part) in house.parts.iter().enumerate() {
        let mut findings = Findings::new(house, index);
        let solution = part::solve(house, part, &mut findings);
        solved.findings.extend(findings.into_vec());
        finish::add(&mut solved, part, solution);
    }
    finish::letter(&mut solved);
    solved.groups = group::group(&mut solved.pieces);
    solved
}
