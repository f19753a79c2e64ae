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
    let margin = clearance(draft, &ring, at_foot);
    let strip = findings.print(margin);
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

/// Least distance of an opening from the edges of its wall (the foot not counted for a door), on either face; 0 where it
/// reaches out. The wall may have a notch.
fn clearance(draft: &Draft, opening: &[P2], at_foot: bool) -> f64 {
    let plate = &draft.plate;
    let counted = |k: &usize| !(at_foot && plate.causes[*k] == Cause::Base);
    let to_face = |wall: &Vec<P2>| {
        let above = opening.iter().filter(|p| !at_foot || p.y > foot_of(draft) + SAME_POINT);
        if above.into_iter().any(|p| !inside(wall, p)) {
            return 0.0;
        }
        let edges = (0..plate.count()).filter(counted).map(|k| edge(wall, k));
        let pairs = edges.flat_map(|e| (0..opening.len()).map(move |j| edge_distance(e, edge(opening, j))));
        pairs.fold(f64::INFINITY, f64::min)
    };
    to_face(&plate.front).min(to_face(&plate.back))
}

fn edge(ring: &[P2], k: usize) -> [P2; 2] {
    [ring[k], ring[(k + 1) % ring.len()]]
}

/// Whether a point is inside a ring: a line from it to the right meets an odd number of edges.
fn inside(ring: &[P2], p: &P2) -> bool {
    let meets = |[a, b]: [P2; 2]| (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y);
    (0..ring.len()).filter(|&k| meets(edge(ring, k))).count() % 2 == 1
}

/// Distance between two edges, mm; 0 where they cross.
fn edge_distance(one: [P2; 2], other: [P2; 2]) -> f64 {
    let crosses = |[a, b]: [P2; 2], ends: [P2; 2]| {
        let side = ends.map(|p| (b - a).perp(&(p - a)));
        side[0] * side[1] < 0.0
    };
    let far = |[a, b]: [P2; 2], p: P2| {
        let along = b - a;
        let share = ((p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        (p - (a + along * share)).norm()
    };
    let ends = other.map(|p| far(one, p)).into_iter().chain(one.map(|p| far(other, p)));
    let nearest = ends.fold(f64::INFINITY, f64::min);
    if crosses(one, other) && crosses(other, one) { 0.0 } else { nearest }
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
