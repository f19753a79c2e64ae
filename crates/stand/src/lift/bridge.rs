//! The narrowest strip of biscuit of a piece: between an opening and an edge, or between two openings.

use crate::weights::through;
use gable_plane::{P2, V2, ring_contains};
use gable_shell::Piece;

/// A strip of biscuit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bridge {
    /// How narrow it is, mm.
    pub width: f64,
    /// Its middle, in the piece.
    pub at: P2,
}

/// The narrowest strip beside the openings of a piece; nothing without openings.
pub fn narrowest(piece: &Piece) -> Option<Bridge> {
    let openings: Vec<Vec<P2>> = through(piece).collect();
    let mut found: Option<Bridge> = None;
    let mut look = |a: &[P2], b: &[P2]| {
        for p in a {
            for (k, from) in b.iter().enumerate() {
                let near = nearest(p, from, &b[(k + 1) % b.len()]);
                let width = (near - p).norm();
                if found.is_none_or(|f| width < f.width) {
                    found = Some(Bridge { width, at: nalgebra::center(p, &near) });
                }
            }
        }
    };
    for (k, opening) in openings.iter().enumerate() {
        let others = openings.iter().skip(k + 1);
        for ring in std::iter::once(&piece.outline).chain(others) {
            look(opening, ring);
            look(ring, opening);
        }
    }
    found
}

/// The narrowest strip between two edges of the outline itself that lie across biscuit from each other, as beside a door cut
/// to the foot; nothing where the outline is convex.
pub fn beside_notch(piece: &Piece) -> Option<Bridge> {
    let ring = &piece.outline;
    let count = ring.len();
    let edge = |k: usize| (ring[k % count], ring[(k + 1) % count]);
    let mut found: Option<Bridge> = None;
    for k in (0..count).filter(|&k| turns_in(edge(k + count - 1), edge(k))) {
        let p = ring[k];
        for e in (0..count).filter(|&e| e != k && (e + 1) % count != k) {
            let (a, b) = edge(e);
            let near = nearest(&p, &a, &b);
            let (Some(way), width) = ((near - p).try_normalize(1e-6), (near - p).norm()) else { continue };
            // Through biscuit from face to face: in by one edge at the corner, out by the other; not along a step.
            let enters = [edge(k + count - 1), edge(k)].into_iter().any(|own| outward(own).dot(&way) < -SQUARELY);
            let leaves = outward((a, b)).dot(&way) > SQUARELY;
            let nearer = found.is_none_or(|f| width < f.width);
            if nearer && enters && leaves && stays_inside(ring, p, near) {
                found = Some(Bridge { width, at: nalgebra::center(&p, &near) });
            }
        }
    }
    found
}

/// How squarely a strip is crossed, as a cosine.
const SQUARELY: f64 = 0.7;

/// Whether a ring turns inwards between two edges that follow each other.
fn turns_in(before: (P2, P2), after: (P2, P2)) -> bool {
    let directions = [before, after].map(|(a, b)| (b - a).try_normalize(1e-9).unwrap_or_default());
    directions[0].perp(&directions[1]) < 0.0
}

/// Out of biscuit, square to an edge of a ring that runs counter-clockwise.
fn outward((a, b): (P2, P2)) -> V2 {
    let way = (b - a).try_normalize(1e-9).unwrap_or_default();
    V2::new(way.y, -way.x)
}

/// Whether the straight way between two points of a ring stays inside: a few points of it are.
fn stays_inside(ring: &[P2], a: P2, b: P2) -> bool {
    [0.1, 0.3, 0.5, 0.7, 0.9].iter().all(|s| ring_contains(ring, a + (b - a) * *s))
}

fn nearest(p: &P2, a: &P2, b: &P2) -> P2 {
    let way: V2 = b - a;
    let length = way.norm_squared();
    let share = if length > 0.0 { ((p - a).dot(&way) / length).clamp(0.0, 1.0) } else { 0.0 };
    a + way * share
}
