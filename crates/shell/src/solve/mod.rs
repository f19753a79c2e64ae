//! The solver: from sizes to pieces that close. Geometry in mm and radians; z up; plans counter-clockwise.
//!
//! Everything is convex until the last moment. Each part is worked out in its own coordinates, and the house as if its first
//! part stood in the middle of the board, so that what is moved or turned has the very same pieces.

mod baked;
mod checks;
mod draft;
mod findings;
mod finish;
mod group;
mod heights;
mod icing;
mod joints;
mod layers;
mod meet;
mod openings;
mod part;
mod place;
mod plan;
mod plate;
mod posts;
mod ring;
mod roof;
mod settle;
mod slopes;
mod surface;
#[cfg(test)]
mod tests;
mod wishes;

use crate::{House, Part, Solved, Spot};
pub use baked::as_it_stands;
use findings::Findings;
use gable_measure::Finding;
use gable_words::tr;
use part::PartSolution;
use place::Lost;
use rayon::prelude::*;
pub use settle::settle;
pub(crate) use surface::Surface;

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
    let (settled, told);
    let (house, told) = if house.relations.is_empty() {
        (house, Vec::new())
    } else {
        (settled, told) = settle(house);
        (&settled, told)
    };
    let mut solved = if house.baked.is_empty() { plain(house, told) } else { baked::solve(house, told) };
    wishes::find(house, &mut solved);
    solved
}

/// Works out a house with all sizes as they are typed; `told` is what was noticed before.
fn plain(house: &House, told: Vec<Finding>) -> Solved {
    let mut solved = Solved {
        unit: house.unit,
        gap: house.gap,
        parts: Vec::new(),
        pieces: Vec::new(),
        joints: Vec::new(),
        groups: Vec::new(),
        findings: told,
        wishes: Vec::new(),
        offers: Vec::new(),
        changes: Vec::new(),
    };
    let mut findings: Vec<Findings> = (0..house.parts.len()).map(|k| Findings::new(house, k)).collect();
    let start = place::start(house);
    let mut solutions = parts(house, &start, &mut findings);
    let contacts = meet::meet(house, &mut solutions, &mut findings);
    let mut pieces = Vec::new();
    for ((part, solution), findings) in house.parts.iter().zip(solutions).zip(findings) {
        findings.hand_over(&mut solved);
        let added = solution.map(|solution| finish::add(house, &mut solved, part, solution));
        pieces.push(added.unwrap_or_default());
    }
    finish::add_contacts(&mut solved, &pieces, contacts);
    finish::letter(&mut solved);
    solved.groups = group::group(&mut solved.pieces);
    finish::put(&mut solved, &place::at_spot(&start, 0.0));
    solved
}

/// Solves every part for itself, hosts before guests, those that wait for no other side by side; none for a part that cannot be placed.
fn parts(house: &House, start: &Spot, findings: &mut [Findings]) -> Vec<Option<PartSolution>> {
    let host_of = |index: usize| {
        let host = house.parts[index].place.host();
        host.and_then(|id| house.parts.iter().position(|p| &p.id == id))
    };
    let mut solutions: Vec<Option<PartSolution>> = house.parts.iter().map(|_| None).collect();
    let mut waiting = place::order(house);
    let tongue = gable_words::spoken();
    while !waiting.is_empty() {
        let waits = |index: usize| host_of(index).is_some_and(|host| waiting.iter().any(|(k, _)| *k == host));
        let (mut ready, mut later) = (Vec::new(), Vec::new());
        let able: Vec<bool> = waiting.iter().map(|(k, lost)| lost.is_some() || !waits(*k)).collect();
        for (entry, able) in waiting.into_iter().zip(able) {
            if able { ready.push(entry) } else { later.push(entry) }
        }
        if ready.is_empty() {
            break;
        }
        let one = |(index, lost): (usize, Option<Lost>)| {
            let host = host_of(index).and_then(|h| Some((&house.parts[h], solutions[h].as_ref()?)));
            let mut own = Findings::new(house, index);
            let solution = tongue.while_speaking(|| placed(house, start, (index, lost), host, &mut own));
            (index, solution, own)
        };
        for (index, solution, own) in ready.into_par_iter().map(one).collect::<Vec<_>>() {
            (solutions[index], findings[index]) = (solution, own);
        }
        waiting = later;
    }
    solutions
}

/// One part, with its host where that is solved.
fn placed(
    house: &House,
    start: &Spot,
    (index, lost): (usize, Option<Lost>),
    host: Option<(&Part, &PartSolution)>,
    findings: &mut Findings,
) -> Option<PartSolution> {
    let part = &house.parts[index];
    let placed = lost.map_or_else(|| place::place_from(start, part, host), Err);
    match placed {
        Ok(stand) => Some(part::solve(house, part, stand, findings)),
        Err(lost) => {
            report_lost(part, lost, findings);
            None
        }
    }
}

fn report_lost(part: &Part, lost: Lost, findings: &mut Findings) {
    let name = &part.name;
    let (kind, what, remedy) = match lost {
        Lost::NoHost(host) => {
            let what = tr!("{name} stands by a part called {host}, and there is none");
            ("no-such-host", what, tr!("choose one of the parts of the house, or place it on the board"))
        }
        Lost::Circle(names) => {
            let what = tr!("these parts stand on each other in a circle: {}", names.join(", "));
            ("standing-in-a-circle", what, tr!("place one of them on the board"))
        }
        Lost::NoSide(side) => {
            let what = tr!("{name} stands by side {side} of another part, which has no such side");
            ("no-such-side", what, tr!("choose one of the sides of that part"))
        }
        Lost::HostFailed => {
            let what = tr!("{name} cannot be placed, because the part that it stands by cannot be built");
            ("host-cannot-be-built", what, tr!("mend that part first"))
        }
    };
    findings.block(kind, "place", what, remedy);
}
