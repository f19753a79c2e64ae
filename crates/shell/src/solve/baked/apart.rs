//! How far two shapes of a piece are apart.

use crate::{CutPiece, Piece, Solved};
use gable_plane::{P2, V2, bounds};

/// Shapes nearer than this are the same, mm: a knife is thicker.
pub(super) const SAME: f64 = 0.05;

/// Arcs are flattened within this, mm: well below what counts as a difference.
const FLATNESS: f64 = 0.01;

/// Outline and openings of a piece, in its own coordinates.
pub(super) struct Rings {
    pub(super) outline: Vec<P2>,
    pub(super) openings: Vec<Vec<P2>>,
}

/// The rings of a piece.
pub(super) fn rings(piece: &Piece) -> Rings {
    let openings = piece.openings.iter().map(|o| o.contour.flatten(FLATNESS)).collect();
    Rings { outline: piece.outline.clone(), openings }
}

fn rings_of(cut: &CutPiece) -> Rings {
    Rings { outline: cut.outline.clone(), openings: cut.openings.clone() }
}

/// The middle of the foot of a ring, from which pieces are measured when they are laid on each other.
fn foot(ring: &[P2]) -> V2 {
    bounds(ring).map_or_else(V2::zeros, |(low, high)| V2::new((low.x + high.x) / 2.0, low.y))
}

/// How far the farthest point of two shapes is from the other one, mm; an opening that only one has counts as far as it
/// is wide.
pub(super) fn between(one: &Rings, other: &Rings) -> f64 {
    in_place(&laid(one), &laid(other))
}

/// The rings with the middle of their foot at the origin.
fn laid(rings: &Rings) -> Rings {
    let foot = foot(&rings.outline);
    let laid = |ring: &Vec<P2>| ring.iter().map(|p| p - foot).collect::<Vec<_>>();
    Rings { outline: laid(&rings.outline), openings: rings.openings.iter().map(laid).collect() }
}

/// The same of two shapes where they lie.
pub(super) fn in_place(one: &Rings, other: &Rings) -> f64 {
    openings_apart(&one.openings, &other.openings).max(ring_apart(&one.outline, &other.outline))
}

pub(super) fn openings_apart(ours: &[Vec<P2>], theirs: &[Vec<P2>]) -> f64 {
    let nearest = |ring: &Vec<P2>, among: &[Vec<P2>]| {
        let width = bounds(ring).map_or(0.0, |(low, high)| (high - low).norm());
        among.iter().map(|other| ring_apart(ring, other)).fold(width, f64::min)
    };
    let all = ours.iter().map(|r| nearest(r, theirs)).chain(theirs.iter().map(|r| nearest(r, ours)));
    all.fold(0.0, f64::max)
}

/// The farthest that a corner of one ring is from the other ring.
pub(super) fn ring_apart(one: &[P2], other: &[P2]) -> f64 {
    let far = |from: &[P2], to: &[P2]| from.iter().map(|p| to_ring(p, to)).fold(0.0, f64::max);
    far(one, other).max(far(other, one))
}

fn to_ring(p: &P2, ring: &[P2]) -> f64 {
    let edge = |k: usize| {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        let along = b - a;
        let share = (p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE);
        (a + along * share.clamp(0.0, 1.0) - p).norm()
    };
    (0..ring.len()).map(edge).fold(f64::INFINITY, f64::min)
}

/// How far a plan is from a piece as it was cut, mm; of a piece that is gone, how wide it was.
pub(super) fn from_cut(plan: &Solved, cut: &CutPiece) -> f64 {
    match plan.pieces.iter().find(|p| p.id == cut.piece) {
        Some(piece) => between(&rings(piece), &rings_of(cut)),
        None => bounds(&cut.outline).map_or(0.0, |(low, high)| (high - low).norm()),
    }
}
