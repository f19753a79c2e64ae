use gable_plane::{P2, SAME_POINT, ring_area};
use gable_shell::Piece;
use nalgebra::Point;

/// A piece between its two faces, cut openings taken out.
///
/// Ring 0 is the outside, counter-clockwise; the others are holes, clockwise. Ring k of the back has as many
/// corners as ring k of the front, and the solid joins them corner by corner.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Region {
    /// On the reference face, z = 0.
    pub(crate) front: Vec<Vec<P2>>,
    /// On the other face, z = thickness.
    pub(crate) back: Vec<Vec<P2>>,
    /// Indices of the openings that the holes come from, in their order.
    pub(crate) cut: Vec<usize>,
    /// Indices of cut openings that meet another one or the outline and so are no holes.
    pub(crate) left_out: Vec<usize>,
}

impl Region {
    /// Cuts the openings of a piece, arcs turned into chords that are off by at most `tolerance` mm.
    pub(crate) fn of(piece: &Piece, tolerance: f64) -> Self {
        let mut region = Self {
            front: vec![piece.outline.clone()],
            back: vec![piece.outline_back.clone()],
            cut: Vec::new(),
            left_out: Vec::new(),
        };
        for (k, opening) in piece.openings.iter().enumerate().filter(|(_, o)| o.mode.goes_through()) {
            let hole = clockwise(opening.contour.flatten(tolerance));
            let lies_free = inside(&piece.outline, &hole) && inside(&piece.outline_back, &hole);
            if lies_free && region.front[1..].iter().all(|other| rings_apart(other, &hole)) {
                region.front.push(hole.clone());
                region.back.push(hole);
                region.cut.push(k);
            } else {
                region.left_out.push(k);
            }
        }
        region
    }

    /// The same with fewer corners round notches: corners that dent the outline are left out as long as the biscuit
    /// gains less than `tolerance` mm there.
    pub(crate) fn with_coarse_notches(mut self, tolerance: f64) -> Self {
        let kept = coarse(&self.front[0], tolerance);
        for rings in [&mut self.front, &mut self.back] {
            rings[0] = kept.iter().filter_map(|&k| rings[0].get(k).copied()).collect();
        }
        self
    }
}

fn clockwise(mut ring: Vec<P2>) -> Vec<P2> {
    if ring_area(&ring) > 0.0 {
        ring.reverse();
    }
    ring
}

/// The corners to keep, in order. A run of dents is bridged only as a whole: every corner passed over is a dent that
/// lies within the tolerance of the bridge.
fn coarse(ring: &[P2], tolerance: f64) -> Vec<usize> {
    let count = ring.len();
    let dent = |k: usize| {
        let [p, q, r] = [count - 1, 0, 1].map(|d| ring[(k + d) % count]);
        (q - p).perp(&(r - q)) < 0.0
    };
    let mut kept: Vec<usize> = vec![0];
    for next in 1..count {
        let last = kept[kept.len() - 1];
        let bridge = |to: usize| {
            (last + 1..to).all(|k| dent(k) && distance(ring[k], [ring[last], ring[to % count]]) <= tolerance)
        };
        if !bridge(next + 1) {
            kept.push(next);
        }
    }
    kept
}

/// Whether a ring lies inside another and clear of it.
fn inside(outer: &[P2], ring: &[P2]) -> bool {
    ring.first().is_some_and(|p| holds(outer, *p)) && edges_clear(outer, ring)
}

/// Whether two rings neither meet nor hold each other.
fn rings_apart(a: &[P2], b: &[P2]) -> bool {
    let (Some(p), Some(q)) = (a.first(), b.first()) else { return true };
    !holds(a, *q) && !holds(b, *p) && edges_clear(a, b)
}

/// Whether a ring goes round a point (even-odd rule).
pub(crate) fn holds(ring: &[P2], p: P2) -> bool {
    let crosses = |[a, b]: [P2; 2]| (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y);
    edges(ring).filter(|e| crosses(*e)).count() % 2 == 1
}

pub(crate) fn edges(ring: &[P2]) -> impl Iterator<Item = [P2; 2]> + '_ {
    (0..ring.len()).map(|k| [ring[k], ring[(k + 1) % ring.len()]])
}

fn edges_clear(a: &[P2], b: &[P2]) -> bool {
    edges(a).all(|e| edges(b).all(|f| segments_clear(e, f)))
}

fn segments_clear(e: [P2; 2], f: [P2; 2]) -> bool {
    let side = |s: [P2; 2], p: P2| (s[1] - s[0]).perp(&(p - s[0]));
    let splits = |s: [P2; 2], t: [P2; 2]| side(s, t[0]) * side(s, t[1]) < 0.0;
    if splits(e, f) && splits(f, e) {
        return false;
    }
    let reach = [distance(e[0], f), distance(e[1], f), distance(f[0], e), distance(f[1], e)];
    reach.iter().all(|&d| d > SAME_POINT)
}

/// Distance of a point from a segment, mm, in the plane or in space.
pub(crate) fn distance<const D: usize>(p: Point<f64, D>, [a, b]: [Point<f64, D>; 2]) -> f64 {
    let along = b - a;
    let share = ((p - a).dot(&along) / along.norm_squared()).clamp(0.0, 1.0);
    if share.is_finite() { (a + along * share - p).norm() } else { (a - p).norm() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arched_notch_loses_most_of_its_corners_and_nothing_else() {
        let mut ring = vec![P2::new(0.0, 0.0), P2::new(100.0, 0.0), P2::new(100.0, 80.0), P2::new(0.0, 80.0)];
        let arch = (0..=60).map(|k| (f64::from(k) * std::f64::consts::PI / 60.0).sin_cos());
        ring.splice(1..1, arch.map(|(sin, cos)| P2::new(50.0 - 20.0 * cos, 20.0 * sin)));
        let kept = coarse(&ring, 0.2);
        assert!(kept.len() < 20, "{}", kept.len());
        let rest: Vec<P2> = kept.iter().map(|&k| ring[k]).collect();
        assert!((ring_area(&rest) - ring_area(&ring)).abs() < 0.2 * 63.0);
        assert!(ring_area(&rest) > ring_area(&ring));
        assert!(
            [P2::new(30.0, 0.0), P2::new(70.0, 0.0), P2::new(100.0, 80.0)]
                .iter()
                .all(|p| { rest.iter().any(|q| (p - q).norm() < 1e-9) })
        );
    }
}
