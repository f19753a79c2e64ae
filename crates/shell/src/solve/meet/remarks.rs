//! What the meeting of parts gives reason to say.

use super::Body;
use super::contacts::Contact;
use crate::solve::findings::Findings;
use crate::solve::part::PartSolution;
use crate::solve::plate::Cause;
use crate::{House, Place, Role};

/// A foot in the air shorter than this is not worth a word, mm.
const SHORT: f64 = 2.0;

pub(super) fn all(
    house: &House,
    solutions: &[Option<PartSolution>],
    bodies: &[Body],
    contacts: &[Contact],
    findings: &mut [Findings],
) {
    for (k, part) in house.parts.iter().enumerate() {
        let Some(solution) = &solutions[k] else { continue };
        if bodies[k].pieces.is_empty() {
            continue;
        }
        let name = &part.name;
        if solution.drafts.iter().all(|d| d.is_gone()) {
            let what = format!("nothing of {name} shows: it lies inside another part");
            findings[k].caution("part-hidden", "place", what, "move it out, make it larger, or take it away");
        } else if part.place.host().is_some() && !contacts.iter().any(|c| c.first.0 == k || c.second.0 == k) {
            let what = format!("{name} touches nothing of the part that it stands by");
            findings[k].caution("touches-nothing", "place", what, "move it nearer, or place it on the board");
        } else if !matches!(part.place, Place::Ground(_)) && !solution.stand.on_board {
            let what = format!("part of the walls of {name} hangs in the air");
            if in_the_air(solution) {
                findings[k].caution(
                    "hangs-in-the-air",
                    "place",
                    what,
                    "move it further onto the roof, or make it smaller",
                );
            }
        }
    }
}

/// Whether a wall of a part off the board still has some of its foot: nothing was there to cut it.
fn in_the_air(solution: &PartSolution) -> bool {
    let walls = solution.drafts.iter().filter(|d| matches!(d.role, Role::Wall(_)));
    walls.into_iter().any(|wall| {
        let feet = wall.edges_of(Cause::Base).into_iter().map(|e| wall.edge_in_part(e));
        feet.map(|[a, b]| (b - a).norm()).sum::<f64>() > SHORT
    })
}
