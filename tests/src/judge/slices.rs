//! Distances of bodies, measured in flat slices.

use crate::body::{Body, Cell, to_edge};
use gable_plane::{P2, P3, V3};

/// A plane across a joint, with directions to measure along.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Slice {
    pub(crate) at: P3,
    along: V3,
    x: V3,
    y: V3,
}

/// Distances nearer than this are the same, mm.
const SAME: f64 = 1e-6;

/// How near two bodies are in a slice.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Near {
    /// mm.
    pub(crate) distance: f64,
    /// Whether nothing of the second is so near to an edge of the first: the offset of a corner of the first is round.
    pub(crate) corners: bool,
}

impl Near {
    /// The smaller distance; of equal ones that from an edge of the first.
    fn nearer(self, other: Self) -> Self {
        if (self.distance - other.distance).abs() < SAME {
            let corners = self.corners && other.corners;
            return Self { distance: self.distance.min(other.distance), corners };
        }
        if self.distance < other.distance { self } else { other }
    }
}

impl Slice {
    /// The plane through `at` across the unit direction `along`.
    pub(crate) fn new(at: P3, along: V3) -> Self {
        let other = if along.z.abs() < 0.9 { V3::z() } else { V3::x() };
        let x = along.cross(&other).normalize();
        Self { at, along, x, y: along.cross(&x) }
    }

    /// Distance of two bodies in this plane, the first the one that the other is cut to; `None` when the plane misses one.
    pub(crate) fn distance(&self, a: &Body, b: &Body) -> Option<Near> {
        let sections = |body: &Body| -> Vec<Vec<P2>> {
            body.cells.iter().map(|cell| self.section(cell)).filter(|s| s.len() >= 2).collect()
        };
        let (a, b) = (sections(a), sections(b));
        let pairs = a.iter().flat_map(|p| b.iter().map(move |q| ring_distance(p, q)));
        pairs.reduce(Near::nearer)
    }

    /// Lowest point of a body in this plane; `None` when the plane misses it.
    pub(crate) fn lowest(&self, body: &Body) -> Option<f64> {
        let points = body.cells.iter().flat_map(|cell| self.section(cell));
        points.map(|p| self.at.z + p.x * self.x.z + p.y * self.y.z).reduce(f64::min)
    }

    /// Where the plane cuts a convex chunk: a convex ring.
    fn section(&self, cell: &Cell) -> Vec<P2> {
        let height: Vec<f64> = cell.points.iter().map(|p| (p - self.at).dot(&self.along)).collect();
        let mut found = Vec::new();
        for &[i, j] in &cell.edges {
            let (a, b) = (height[i], height[j]);
            if (a <= 0.0 && b > 0.0) || (b <= 0.0 && a > 0.0) {
                let p = cell.points[i] + (cell.points[j] - cell.points[i]) * (a / (a - b)) - self.at;
                found.push(P2::new(p.dot(&self.x), p.dot(&self.y)));
            }
        }
        ring_round(found)
    }
}

/// The convex ring round some points, counter-clockwise (Andrew's monotone chain).
fn ring_round(mut points: Vec<P2>) -> Vec<P2> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup_by(|a, b| (*a - *b).norm() < 1e-9);
    if points.len() < 3 {
        return points;
    }
    let half = |points: &mut dyn Iterator<Item = P2>| {
        let mut chain: Vec<P2> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..] {
                if (b - a).perp(&(p - b)) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut ring = half(&mut points.iter().copied());
    ring.extend(half(&mut points.iter().rev().copied()));
    ring
}

fn ring_distance(a: &[P2], b: &[P2]) -> Near {
    if a.first().is_some_and(|p| inside(b, p)) || b.first().is_some_and(|p| inside(a, p)) {
        return Near { distance: 0.0, corners: false };
    }
    let one_way = |a: &[P2], b: &[P2]| {
        let edges = (0..b.len()).map(|k| (b[k], b[(k + 1) % b.len()]));
        let pairs = edges.flat_map(|(from, to)| a.iter().map(move |p| near_edge(p, &from, &to)));
        pairs.reduce(Near::nearer).unwrap_or(Near { distance: f64::INFINITY, corners: false })
    };
    Near { corners: true, ..one_way(a, b) }.nearer(one_way(b, a))
}

fn near_edge(p: &P2, from: &P2, to: &P2) -> Near {
    let distance = to_edge(p, from, to);
    let to_ends = (p - from).norm().min((p - to).norm());
    Near { distance, corners: to_ends < distance + SAME }
}

fn inside(ring: &[P2], p: &P2) -> bool {
    ring.len() >= 3 && (0..ring.len()).all(|k| (ring[(k + 1) % ring.len()] - ring[k]).perp(&(p - ring[k])) >= 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distance_of_squares_corner_to_edge_and_overlapping() {
        let square = |x: f64, y: f64| {
            ring_round([(0., 0.), (1., 0.), (1., 1.), (0., 1.), (0.5, 0.)].map(|(a, b)| P2::new(x + a, y + b)).to_vec())
        };
        assert_eq!(square(0.0, 0.0).len(), 4);
        assert!((ring_distance(&square(0.0, 0.0), &square(4.0, 5.0)).distance - 5.0).abs() < 1e-12);
        assert!((ring_distance(&square(0.0, 0.0), &square(1.5, 0.2)).distance - 0.5).abs() < 1e-12);
        assert_eq!(ring_distance(&square(0.0, 0.0), &square(0.5, 0.5)).distance, 0.0);
        assert!(ring_distance(&square(0.0, 0.0), &square(4.0, 5.0)).corners);
        assert!(!ring_distance(&square(0.0, 0.0), &square(1.5, 0.2)).corners);
        let turned = ring_round([(2., 0.5), (2.5, 0.), (3., 0.5), (2.5, 1.)].map(|(x, y)| P2::new(x, y)).to_vec());
        assert!(!ring_distance(&square(0.0, 0.0), &turned).corners, "a corner of the second at an edge of the first");
        assert!(ring_distance(&turned, &square(0.0, 0.0)).corners, "a corner of the first at an edge of the second");
    }
}
