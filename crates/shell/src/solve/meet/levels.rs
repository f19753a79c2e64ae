//! Heights of parts that meet and nearly line up.

use super::Body;
use crate::solve::findings::Findings;
use crate::solve::part::PartSolution;
use crate::{Batch, Gives, House, Measure, Measured, Part, Relation, Top};
use gable_measure::Length;
use gable_words::tr;

/// Heights nearer than this are the same, mm.
const LEVEL: f64 = 0.05;

/// A height of a part that the eye follows.
struct Level {
    what: Measured,
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
        let thickness = house.dough_of(&house.parts[guest], Batch::Walls).map_or(0.0, |d| d.baked().mm());
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
            let what = tr!("{} is only {by} {way} {}", level.what.words(house), other.what.words(house));
            findings[guest].note("heights-nearly-level", &level.place, what, tr!("make them level, or more different"));
            findings[guest].offer(offer(house, level, &other));
        }
    }
}

/// How the two could be kept level; none where that would go round in a circle.
fn offer(house: &House, level: &Level, other: &Level) -> Option<Relation> {
    let (follower, leader) = (level.what.clone(), other.what.clone());
    let walls = Measured { part: follower.part.clone(), measure: Measure::Eave(None) };
    let walls_follow = house.followed(&walls).is_some();
    let gives = if follower.measure == Measure::Ridge && walls_follow { Gives::Pitch } else { Gives::Walls };
    let relation = Relation { follower, leader, offset: Length::ZERO, gives };
    let possible = house.followed(&relation.follower).is_none() && house.can_follow(&relation);
    possible.then_some(relation)
}

fn eave(top: &Top) -> Option<Length> {
    match *top {
        Top::Eave { height, .. } | Top::Knee { height, .. } => Some(height),
        Top::HalfHip { .. } | Top::Gable { .. } => None,
    }
}

/// The heights of a part, each once.
fn levels(part: &Part, solution: &PartSolution) -> Vec<Level> {
    if part.is_bare_floor() {
        return Vec::new();
    }
    let base = solution.stand.house_from_part.translation.z;
    let mut found: Vec<Level> = Vec::new();
    let mut add = |measure: Measure, height: f64, place: String| {
        let height = base + height;
        if found.iter().all(|l| (l.height - height).abs() > LEVEL) {
            let what = Measured { part: part.id.clone(), measure };
            found.push(Level { what, height, place });
        }
    };
    let eaves = part.sides.iter().filter_map(|s| eave(&s.top));
    let alike = eaves.clone().zip(eaves.skip(1)).all(|(a, b)| a == b);
    for side in &part.sides {
        if let Some(height) = eave(&side.top) {
            let measure = Measure::Eave((!alike).then(|| side.id.clone()));
            add(measure, height.mm(), format!("sides.{}.height", side.id.0));
        }
    }
    match part.lid {
        Some(lid) => add(Measure::Lid, lid.height.mm(), "lid.height".to_owned()),
        None => add(Measure::Ridge, solution.ridge_height, String::new()),
    }
    found
}
