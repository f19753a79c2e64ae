//! How near rings are to each other.

use gable_plane::{Contour, P2, ring_contains};

/// How closely arcs are followed where openings are compared with each other, mm.
const LOOK: f64 = 0.02;

pub(super) fn edge(ring: &[P2], k: usize) -> [P2; 2] {
    [ring[k], ring[(k + 1) % ring.len()]]
}

/// Distance between two edges, mm; 0 where they cross.
pub(super) fn edge_distance(one: [P2; 2], other: [P2; 2]) -> f64 {
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

/// Distance between two outlines, mm; 0 where they share room. Where the boxes round them are farther apart than
/// `enough`, that distance is good enough.
pub(super) fn between(a: &Contour, b: &Contour, enough: f64) -> f64 {
    let boxes = between_boxes(a, b);
    if boxes > enough {
        return boxes;
    }
    let (a, b) = (a.flatten(LOOK), b.flatten(LOOK));
    let holds = |ring: &[P2], other: &[P2]| other.first().is_some_and(|p| ring_contains(ring, *p));
    if holds(&a, &b) || holds(&b, &a) {
        return 0.0;
    }
    let pairs = (0..a.len()).flat_map(|j| (0..b.len()).map(move |k| (j, k)));
    pairs.map(|(j, k)| edge_distance(edge(&a, j), edge(&b, k))).fold(f64::INFINITY, f64::min)
}

/// Distance between the boxes round two openings, mm; 0 where they overlap.
fn between_boxes(a: &Contour, b: &Contour) -> f64 {
    let ((al, ah), (bl, bh)) = (a.bounds(), b.bounds());
    let apart =
        |low: f64, high: f64, other_low: f64, other_high: f64| (low - other_high).max(other_low - high).max(0.0);
    apart(al.x, ah.x, bl.x, bh.x).hypot(apart(al.y, ah.y, bl.y, bh.y))
}
