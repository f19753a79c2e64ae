//! Heights of parts that meet and nearly line up.

use super::Body;
use crate::solve::findings::Findings;
use crate::solve::part::PartSolution;
use crate::{House, Part, Top};

/// Heights nearer than this are the same, mm.
const LEVEL: f64 = 0.05;

/// A height of a part that the eye follows.
struct Level {
    what: String,
    /// Above the board, mm.
    height: f64,
    /// Where it is typed.
    place: String,
}

/// Says which eaves and ridges of parts that meet differ by less than the dough is thick.
pub(super) fn near(house: &House, solutions: &[Option<PartSolution>], bodies: &[Body], findings: &mut [Findings]) {
    let levels = |k: usize| solutions[k].as_ref().map_or_else(Vec::new, |s| levels(&house.parts[k], s));
    for (guest, body) in bodies.iter().enumerate().filter(|(_, b)| !b.hosts.is_empty()) {
        let own = levels(guest);
        let thickness = house.dough(&house.parts[guest].wall_dough).map_or(0.0, |d| d.baked().mm());
        for other in body.hosts.iter().flat_map(|&h| levels(h)) {
            let apart = |l: &Level| (l.height - other.height).abs();
            let near = own.iter().filter(|l| (LEVEL..thickness).contains(&apart(l)));
            // Where one of the heights is met already the other is meant to differ.
            let Some(level) = near.min_by(|a, b| apart(a).total_cmp(&apart(b))) else { continue };
            if own.iter().any(|l| apart(l) < LEVEL) {
                continue;
            }
            let by = findings[guest].print(apart(level));
            let way = if level.height > other.height { "above" } else { "below" };
            let what = format!("{} is only {by} {way} {}", level.what, other.what);
            findings[guest].note("heights-nearly-level", &level.place, what, "make them level, or more different");
        }
    }
}

/// The heights of a part, each once.
fn levels(part: &Part, solution: &PartSolution) -> Vec<Level> {
    let base = solution.stand.house_from_part.translation.z;
    let mut found: Vec<Level> = Vec::new();
    let mut add = |what: String, height: f64, place: String| {
        let height = base + height;
        if found.iter().all(|l| (l.height - height).abs() > LEVEL) {
            found.push(Level { what, height, place });
        }
    };
    for side in &part.sides {
        if let Top::Eave { height, .. } | Top::Knee { height, .. } = side.top {
            add(format!("the eave of {}", part.name), height.mm(), format!("sides.{}.height", side.id.0));
        }
    }
    match part.lid {
        Some(lid) => add(format!("the top of {}", part.name), lid.height.mm(), "lid.height".to_owned()),
        None => add(format!("the ridge of {}", part.name), solution.ridge_height, String::new()),
    }
    found
}
