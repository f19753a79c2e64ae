//! Whether a baked piece lies within the room that is worked out for it, and what it leaves of that.

use super::shape::Shape;
use crate::Piece;
use gable_plane::{P2, V2, bounds, ring_contains};

/// Points nearer to a ring than this are on it, mm.
const ON: f64 = 1e-6;
/// Strips of room narrower than this are none, mm.
const NARROW: f64 = 1e-6;

/// A place where a piece sticks out of its room.
pub(super) struct Stray {
    /// How far, mm.
    pub(super) by: f64,
    /// The way out there.
    pub(super) out: V2,
    /// The edge of the room that it sticks out of.
    pub(super) edge: usize,
}

/// The point of an edge of a ring that is nearest to a point.
fn on_edge(p: &P2, ring: &[P2], k: usize) -> P2 {
    let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
    let along = b - a;
    let share = (p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE);
    a + along * share.clamp(0.0, 1.0)
}

/// The edge of a ring that is nearest to a point, and how far off it is.
pub(super) fn nearest(p: &P2, ring: &[P2]) -> (usize, f64) {
    let all = (0..ring.len()).map(|k| (k, (on_edge(p, ring, k) - p).norm()));
    all.min_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((0, f64::INFINITY))
}

/// The edge of a ring that an edge lies along: that which both its ends and its middle are nearest to.
pub(super) fn alongside(ends: &[P2; 2], ring: &[P2]) -> usize {
    let middle = nalgebra::center(&ends[0], &ends[1]);
    let off = |k: usize| [ends[0], middle, ends[1]].iter().map(|p| (on_edge(p, ring, k) - p).norm()).sum::<f64>();
    (0..ring.len()).min_by(|a, b| off(*a).total_cmp(&off(*b))).unwrap_or(0)
}

/// Direction out of a ring over edge k.
fn outward(ring: &[P2], k: usize) -> V2 {
    let along = ring[(k + 1) % ring.len()] - ring[k];
    V2::new(along.y, -along.x) / along.norm().max(f64::MIN_POSITIVE)
}

/// Where a piece sticks out of its room: corners of the piece beyond the room, and inward corners of the room within
/// the piece.
pub(super) fn strays(piece: &[P2], room: &[P2]) -> Vec<Stray> {
    let beyond = piece.iter().filter(|p| !ring_contains(room, **p)).map(|p| beyond(p, room));
    let bitten = (0..room.len()).filter(|&k| ring_contains(piece, room[k])).map(|k| {
        let (own, by) = nearest(&room[k], piece);
        let out = outward(piece, own);
        let before = (k + room.len() - 1) % room.len();
        let edge = if outward(room, k).dot(&out) > outward(room, before).dot(&out) { k } else { before };
        Stray { by, out, edge }
    });
    beyond.chain(bitten).filter(|stray| stray.by > ON).collect()
}

/// How far a point is beyond a ring. At a corner two edges are equally near: it is beyond the one that it is farther from.
fn beyond(p: &P2, ring: &[P2]) -> Stray {
    let (_, least) = nearest(p, ring);
    let near = (0..ring.len()).filter(|&k| (on_edge(p, ring, k) - p).norm() < least + ON);
    let strays = near.map(|edge| {
        let out = outward(ring, edge);
        Stray { by: (p - ring[edge]).dot(&out), out, edge }
    });
    let most = strays.max_by(|a, b| a.by.total_cmp(&b.by));
    most.unwrap_or(Stray { by: least, out: V2::zeros(), edge: 0 })
}

/// How far a piece sticks out of its room at most, mm.
fn worst(piece: &[P2], room: &[P2]) -> f64 {
    strays(piece, room).iter().map(|s| s.by).fold(0.0, f64::max)
}

/// A baked piece where it lies best in its room. Walls can be pushed along until they are glued, so of all places the one
/// in which least of it sticks out; up and down it stands where it stands, `raised` above where it was worked out.
pub(super) fn laid(shape: &Shape, room: &Piece, raised: f64) -> Shape {
    let (front, back) = (&room.outline, &room.outline_back);
    let shape = &shape.thick(room.thickness.mm());
    let (Some((low, high)), Some((own_low, own_high))) = (bounds(front), bounds(&shape.outline)) else {
        return shape.clone();
    };
    let (left, right) = (low.x - own_low.x, high.x - own_high.x);
    let ways = [(left + right) / 2.0, left, right, 0.0].into_iter().chain(steps(left, right));
    let moved = |x: f64| shape.moved(V2::new(x, raised));
    let out = |shape: &Shape| worst(&shape.outline, front).max(worst(&shape.back, back));
    let laid = ways.map(moved).map(|shape| (out(&shape), shape));
    laid.reduce(|best, next| if next.0 < best.0 - ON { next } else { best }).map_or_else(|| shape.clone(), |l| l.1)
}

/// Places between two.
fn steps(from: f64, to: f64) -> impl Iterator<Item = f64> {
    const STEPS: u8 = 8;
    (1..STEPS).map(move |k| from + (to - from) * f64::from(k) / f64::from(STEPS))
}

/// What a piece leaves of its room: trapezoids with upright sides, between any two corners that follow each other from
/// left to right.
pub(super) fn left_over(room: &[P2], piece: &[P2]) -> Vec<Vec<P2>> {
    let mut xs: Vec<f64> = room.iter().chain(piece).map(|p| p.x).collect();
    xs.sort_by(f64::total_cmp);
    xs.dedup_by(|a, b| (*a - *b).abs() < NARROW);
    xs.windows(2).flat_map(|w| strips(room, piece, w[0], w[1])).collect()
}

/// The trapezoids between two uprights.
fn strips(room: &[P2], piece: &[P2], from: f64, to: f64) -> Vec<Vec<P2>> {
    let middle = (from + to) / 2.0;
    let mut lines: Vec<(f64, [P2; 2], bool)> = Vec::new();
    for (ring, is_room) in [(room, true), (piece, false)] {
        for k in 0..ring.len() {
            let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
            if (a.x < middle) != (b.x < middle) {
                let at = |x: f64| P2::new(x, a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x));
                lines.push((at(middle).y, [at(from), at(to)], is_room));
            }
        }
    }
    lines.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut in_room, mut in_piece) = (false, false);
    let mut found = Vec::new();
    for pair in lines.windows(2) {
        let (below, above) = (&pair[0], &pair[1]);
        if below.2 {
            in_room = !in_room
        } else {
            in_piece = !in_piece
        }
        if in_room && !in_piece && above.0 - below.0 > NARROW {
            let mut ring = vec![below.1[0], below.1[1], above.1[1], above.1[0]];
            ring.dedup_by(|a, b| (*a - *b).norm() < NARROW);
            if ring.len() > 1 && (ring[0] - ring[ring.len() - 1]).norm() < NARROW {
                ring.pop();
            }
            found.extend(Some(ring).filter(|r| r.len() >= 3));
        }
    }
    found
}
