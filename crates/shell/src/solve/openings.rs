//! Doors and windows: from their placing to outlines in the wall, and cutting doors through the foot.

use super::draft::Draft;
use super::findings::Findings;
use super::plan::PlanSide;
use super::plate::Cause;
use crate::{Mode, Opening, Part, PieceOpening, Placing, Shape};
use gable_plane::{Contour, P2, SAME_POINT};

/// How closely the arcs of a door that reaches the foot are followed by the outline, mm.
const ARC_TOLERANCE: f64 = 0.005;

/// Puts the openings of a part into the walls of its sides. `walls[k]` is the draft of side k.
pub(super) fn place(
    part: &Part,
    sides: &[PlanSide],
    walls: &[Option<usize>],
    drafts: &mut [Draft],
    findings: &mut Findings,
) {
    for (index, opening) in part.openings.iter().enumerate() {
        let place = format!("openings[{index}]");
        let side = part.sides.iter().position(|s| s.id == opening.side);
        let Some((k, wall)) = side.and_then(|k| Some((k, walls[k]?))) else {
            let what = format!("{} is on side {}, where no wall stands", opening.name, opening.side.0);
            findings.block("opening-without-wall", &place, what, "let a wall stand there, or move the opening");
            continue;
        };
        let foot = foot_of(&drafts[wall]);
        let Some(contour) = contour(opening, sides[k].length(), foot) else {
            let what = format!("{} is lower than half its width, too low for a round head", opening.name);
            findings.block("head-too-low", &place, what, "make it higher or narrower, or square-headed");
            continue;
        };
        let (id, name, mode) = (opening.id.clone(), opening.name.clone(), opening.mode);
        let found = PieceOpening { id, name, contour, mode };
        fit(&mut drafts[wall], found, &place, findings);
    }
}

fn foot_of(draft: &Draft) -> f64 {
    draft.plate.extent(gable_plane::V2::y()).0
}

/// Outline in the wall's piece, whose x runs from the right corner to the left one seen from outside.
/// A wall that stands on a floor slab has its foot above the sill line of a door: the door starts at the foot.
fn contour(opening: &Opening, wall_length: f64, foot: f64) -> Option<Contour> {
    let width = opening.width.mm();
    let left = match opening.placing {
        Placing::Centred { offset } => (wall_length - width) / 2.0 + offset.mm(),
        Placing::FromLeft { distance } => distance.mm(),
        Placing::FromRight { distance } => wall_length - distance.mm() - width,
    };
    let high_x = wall_length - left;
    let low = P2::new(high_x - width, opening.sill.mm().max(foot));
    let high = P2::new(high_x, opening.sill.mm() + opening.height.mm());
    match opening.shape {
        Shape::Rectangle => Some(Contour::rectangle(low, high)),
        Shape::RoundHeaded => Contour::round_headed(low, high),
    }
}

/// Adds an opening to its wall: inside the outline, or cut through the foot.
fn fit(draft: &mut Draft, opening: PieceOpening, place: &str, findings: &mut Findings) {
    let foot = foot_of(draft);
    let (low, _) = opening.contour.bounds();
    let at_foot = low.y <= foot + SAME_POINT;
    let ring: Vec<P2> = opening.contour.flatten(ARC_TOLERANCE);
    let above = ring.iter().filter(|p| !at_foot || p.y > foot + SAME_POINT);
    let margin = above.map(|p| clearance(draft, *p, at_foot)).fold(f64::INFINITY, f64::min);
    let strip = findings.print(margin.max(0.0));
    if margin < SAME_POINT {
        let what = format!("{} reaches out of its wall", opening.name);
        findings.block("opening-outside-wall", place, what, "move it, make it smaller, or make the wall larger");
        return;
    }
    if let Some(other) = draft.openings.iter().chain(&draft.notches).find(|o| overlap(&o.contour, &opening.contour)) {
        let what = format!("{} and {} overlap", opening.name, other.name);
        findings.block("openings-overlap", place, what, "move one of them, or make it smaller");
        return;
    }
    let bridge = draft.openings.iter().chain(&draft.notches).map(|o| between(&o.contour, &opening.contour));
    if let Some(width) = bridge.reduce(f64::min).filter(|&w| w < draft.plate.thickness && opening.mode == Mode::Cut) {
        let width = findings.print(width);
        let what = format!(
            "only {width} of biscuit is left between {} and its neighbour, less than it is thick",
            opening.name
        );
        findings.caution("openings-near-each-other", place, what, "move them apart, or make one smaller");
    }
    if margin < draft.plate.thickness && opening.mode == Mode::Cut {
        let what = format!("only {strip} of biscuit is left beside {}, less than it is thick", opening.name);
        findings.caution("opening-near-edge", place, what, "move it away from the edge, or make it smaller");
    }
    if at_foot && opening.mode == Mode::Cut {
        cut_through_foot(draft, &ring, foot);
        draft.notches.push(opening);
    } else {
        draft.openings.push(opening);
    }
}

/// Least distance of a point inside the wall from its edges (the foot not counted for a door), on either face.
fn clearance(draft: &Draft, p: P2, at_foot: bool) -> f64 {
    let plate = &draft.plate;
    let rings = [&plate.front, &plate.back];
    let edge = |ring: &Vec<P2>, k: usize| {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        (b - a).normalize().perp(&(p - a))
    };
    let counted = (0..plate.count()).filter(|&k| !(at_foot && plate.causes[k] == Cause::Base));
    counted.flat_map(|k| rings.map(|r| edge(r, k))).fold(f64::INFINITY, f64::min)
}

/// Whether the boxes round two openings overlap. Both shapes touch all four sides of their boxes; beside the arch of
/// a round head the box claims a little more.
fn overlap(a: &Contour, b: &Contour) -> bool {
    let ((al, ah), (bl, bh)) = (a.bounds(), b.bounds());
    al.x < bh.x && bl.x < ah.x && al.y < bh.y && bl.y < ah.y
}

/// Distance between the boxes round two openings that do not overlap, mm.
fn between(a: &Contour, b: &Contour) -> f64 {
    let ((al, ah), (bl, bh)) = (a.bounds(), b.bounds());
    let apart =
        |low: f64, high: f64, other_low: f64, other_high: f64| (low - other_high).max(other_low - high).max(0.0);
    apart(al.x, ah.x, bl.x, bh.x).hypot(apart(al.y, ah.y, bl.y, bh.y))
}

/// Cuts the ring of a door out of the foot of the outline: its path up, over and down is put into the foot's edge.
fn cut_through_foot(draft: &mut Draft, ring: &[P2], foot: f64) {
    let xs = || ring.iter().map(|p| p.x);
    let (left, right) = (xs().fold(f64::INFINITY, f64::min), xs().fold(f64::NEG_INFINITY, f64::max));
    let spans = |k: &usize| {
        let next = draft.front[(k + 1) % draft.front.len()];
        draft.causes[*k] == Cause::Base && draft.front[*k].x < left && right < next.x
    };
    let Some(k) = (0..draft.front.len()).find(spans) else { return };
    // The door's ring runs counter-clockwise from its lower left corner; the outline goes round it the other way.
    let mut path = vec![P2::new(left, foot)];
    path.extend(ring.iter().skip(1).rev().filter(|p| p.y > foot + SAME_POINT));
    path.push(P2::new(right, foot));
    let mut causes = vec![Cause::Open; path.len()];
    if let Some(last) = causes.last_mut() {
        *last = Cause::Base;
    }
    draft.front.splice(k + 1..k + 1, path.iter().copied());
    draft.back.splice(k + 1..k + 1, path);
    draft.causes.splice(k + 1..k + 1, causes);
}
