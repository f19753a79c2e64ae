//! Which pieces are in the way of another.

use gable_mesh::Body;
use gable_plane::{P3, V3};

/// Pieces may rub off this much of each other on the way, mm: what rounding leaves of faces that touch.
const FILM: f64 = 1e-3;

/// A piece as an obstacle: its convex chunks and the box round them.
pub(crate) struct Obstacle {
    chunks: Vec<(Body, P3, P3)>,
    low: P3,
    high: P3,
}

impl Obstacle {
    pub(crate) fn new(bodies: &[Body]) -> Self {
        let boxed = |body: &Body| {
            let (low, high) = corners(body.corners().iter().copied());
            (body.clone(), low, high)
        };
        let (low, high) = corners(bodies.iter().flat_map(|b| b.corners().iter().copied()));
        Self { chunks: bodies.iter().map(boxed).collect(), low, high }
    }

    /// Whether the piece, moved along `way` without end, meets another.
    pub(crate) fn is_stopped(&self, way: &V3, other: &Self) -> bool {
        // Along each axis the moved box goes on for ever one way, or stays as long as it is.
        let ahead = |from: (&P3, &P3), to: (&P3, &P3)| {
            let axis = |k: usize| (way[k] < -1e-9 || from.0[k] < to.1[k]) && (way[k] > 1e-9 || from.1[k] > to.0[k]);
            (0..3).all(axis)
        };
        ahead((&self.low, &self.high), (&other.low, &other.high))
            && self.chunks.iter().any(|(mine, low, high)| {
                let meets =
                    |(its, l, h): &(Body, P3, P3)| ahead((low, high), (l, h)) && mine.swept_meets(way, its, FILM);
                other.chunks.iter().any(meets)
            })
    }
}

fn corners(points: impl Iterator<Item = P3>) -> (P3, P3) {
    points.fold((P3::from([f64::INFINITY; 3]), P3::from([f64::NEG_INFINITY; 3])), |(low, high), p| {
        (low.coords.inf(&p.coords).into(), high.coords.sup(&p.coords).into())
    })
}
