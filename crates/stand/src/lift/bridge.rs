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
    let turns_in = |k: usize| {
        let (a, b, c) = (ring[(k + count - 1) % count], ring[k], ring[(k + 1) % count]);
        (b - a).perp(&(c - b)) < 0.0
    };
    let mut found: Option<Bridge> = None;
    for k in (0..count).filter(|&k| turns_in(k)) {
        let p = ring[k];
        for e in (0..count).filter(|&e| e != k && (e + 1) % count != k) {
            let near = nearest(&p, &ring[e], &ring[(e + 1) % count]);
            let (width, middle) = ((near - p).norm(), nalgebra::center(&p, &near));
            if width > 1e-6
                && found.is_none_or(|f| width < f.width)
                && ring_contains(ring, middle)
                && crosses_none(ring, p, near)
            {
                found = Some(Bridge { width, at: middle });
            }
        }
    }
    found
}

/// Whether the straight way between two points of a ring stays inside: a few points of it are.
fn crosses_none(ring: &[P2], a: P2, b: P2) -> bool {
    [0.1, 0.3, 0.7, 0.9].iter().all(|s| ring_contains(ring, a + (b - a) * *s))
}

fn nearest(p: &P2, a: &P2, b: &P2) -> P2 {
    let way: V2 = b - a;
    let length = way.norm_squared();
    let share = if length > 0.0 { ((p - a).dot(&way) / length).clamp(0.0, 1.0) } else { 0.0 };
    a + way * share
}
