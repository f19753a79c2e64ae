//! The two sides of a plan that carry the slopes of a ridged roof.

use crate::{Outline, Part, Top};
use gable_plane::{P2, V2};

/// Lengths nearer than this are alike, mm: below what anybody types.
pub(super) const ALIKE: f64 = 1e-6;

/// Directions nearer than this are parallel, radians: a thousandth of a degree.
const PARALLEL: f64 = 2e-5;

/// Pairs of parallel sides, by index, the lower one first.
pub(super) fn parallel(outline: &Outline) -> Vec<(usize, usize)> {
    let along = directions(outline);
    let count = along.len();
    let opposed = |a: usize, b: usize| along[a].perp(&along[b]).abs() < PARALLEL && along[a].dot(&along[b]) < 0.0;
    (0..count).flat_map(|a| (a + 1..count).map(move |b| (a, b))).filter(|&(a, b)| opposed(a, b)).collect()
}

/// The pair that carries the slopes now, or else the one with the narrower span; of equals the sides to left and right,
/// so that a gable looks to the front.
pub(super) fn eaves(part: &Part) -> Option<(usize, usize)> {
    let pairs = parallel(&part.outline);
    let slopes = |k: usize| matches!(part.sides.get(k).map(|s| s.top), Some(Top::Eave { .. } | Top::Knee { .. }));
    let only = |&&(a, b): &&(usize, usize)| (0..part.sides.len()).all(|k| slopes(k) == (k == a || k == b));
    let along = directions(&part.outline);
    let better = |x: &&(usize, usize), y: &&(usize, usize)| {
        let (sx, sy) = (span(&part.outline, **x), span(&part.outline, **y));
        // How nearly the side runs from front to back.
        let (fx, fy) = (along[x.0].y.abs(), along[y.0].y.abs());
        if (sx - sy).abs() > ALIKE { sx.total_cmp(&sy) } else { fy.total_cmp(&fx) }
    };
    pairs.iter().find(only).or_else(|| pairs.iter().min_by(better)).copied()
}

/// The pair whose first side is nearest to the front, for roofs that have a low back.
pub(super) fn front_and_back(part: &Part) -> Option<(usize, usize)> {
    let along = directions(&part.outline);
    let pairs = parallel(&part.outline);
    // The front runs from left to right.
    let front = |k: usize| along[k].x;
    let ordered = pairs.iter().map(|&(a, b)| if front(a) >= front(b) { (a, b) } else { (b, a) });
    ordered.max_by(|x, y| front(x.0).total_cmp(&front(y.0)))
}

/// The side that looks most to the front.
pub(super) fn front(outline: &Outline) -> usize {
    let along = directions(outline);
    // The first of equals.
    (0..along.len()).rev().max_by(|&a, &b| along[a].x.total_cmp(&along[b].x)).unwrap_or_default()
}

/// Distance between two parallel sides, mm.
pub(super) fn span(outline: &Outline, (a, b): (usize, usize)) -> f64 {
    let corners = outline.corners();
    let along = directions(outline);
    along[a].perp(&(corners[b] - corners[a])).abs()
}

/// How far a plan reaches from a side, mm.
pub(super) fn depth_from(outline: &Outline, side: usize) -> f64 {
    let corners = outline.corners();
    let along = directions(outline);
    corners.iter().map(|p| along[side].perp(&(p - corners[side]))).fold(0.0, f64::max)
}

/// Unit directions of the sides, each from its corner to the next; nought for a side without length.
pub(super) fn directions(outline: &Outline) -> Vec<V2> {
    let corners: Vec<P2> = outline.corners();
    let next = |k: usize| corners[(k + 1) % corners.len()];
    (0..corners.len()).map(|k| (next(k) - corners[k]).try_normalize(ALIKE).unwrap_or_else(V2::zeros)).collect()
}
