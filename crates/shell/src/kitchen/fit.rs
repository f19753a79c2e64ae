//! Whether an outline fits a rectangle.

use gable_plane::{P2, V2, convex_hull};
use std::f64::consts::{FRAC_PI_2, PI};

/// What sticks out by less fits, mm.
const EVEN: f64 = 1e-9;

/// Whether points, turned whichever way, fit a rectangle.
///
/// What matters is the reach of their hull along two square directions, as both turn. Between two turns at which an edge of
/// the hull lies along one of them, each reach is that of one pair of corners, a concave piece of a cosine. So the turns
/// at which a reach is small enough end at such a turn or where the cosine is just the side of the rectangle, and if any
/// turn fits, one of those does.
pub(super) fn fits(points: &[P2], width: f64, depth: f64) -> bool {
    let hull = convex_hull(points);
    let fit = |turn: f64| {
        reach(&hull, turn).along(turn) <= width + EVEN
            && reach(&hull, turn + FRAC_PI_2).along(turn + FRAC_PI_2) <= depth + EVEN
    };
    let turns = along_edges(&hull);
    if turns.is_empty() {
        return true;
    }
    let middles = (0..turns.len()).map(|k| {
        let next = turns.get(k + 1).copied().unwrap_or(turns[0] + PI);
        (turns[k] + next) / 2.0
    });
    let just = middles.flat_map(|middle| {
        let square = middle + FRAC_PI_2;
        let [a, b] = reach(&hull, middle).turns_at(width);
        let [c, d] = reach(&hull, square).turns_at(depth);
        [a, b, c.map(|t| t - FRAC_PI_2), d.map(|t| t - FRAC_PI_2)]
    });
    turns.iter().copied().chain(just.flatten()).any(fit)
}

/// The turns, from 0 to π, at which an edge of a hull lies along one of the two directions, in order.
fn along_edges(hull: &[P2]) -> Vec<f64> {
    let edges = (0..hull.len()).map(|k| hull[(k + 1) % hull.len()] - hull[k]);
    let mut turns: Vec<f64> = edges
        .filter(|e| e.norm() > 0.0)
        .map(|e| e.y.atan2(e.x))
        .flat_map(|turn| [turn.rem_euclid(PI), (turn + FRAC_PI_2).rem_euclid(PI)])
        .collect();
    turns.sort_by(f64::total_cmp);
    turns
}

/// From one end of a hull to the other, seen along a direction.
struct Reach(V2);

fn reach(hull: &[P2], turn: f64) -> Reach {
    let along = V2::new(turn.cos(), turn.sin());
    let end = |sign: f64| {
        let best = hull.iter().copied().reduce(|a, b| if (b - a).dot(&along) * sign > 0.0 { b } else { a });
        best.unwrap_or_else(P2::origin)
    };
    Reach(end(1.0) - end(-1.0))
}

impl Reach {
    fn along(&self, turn: f64) -> f64 {
        self.0.dot(&V2::new(turn.cos(), turn.sin()))
    }

    /// The directions along which these two ends are just so far apart.
    fn turns_at(&self, length: f64) -> [Option<f64>; 2] {
        let (own, turn) = (self.0.norm(), self.0.y.atan2(self.0.x));
        if own < length {
            return [None, None];
        }
        let off = (length / own).acos();
        [Some(turn + off), Some(turn - off)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rectangle(width: f64, depth: f64) -> Vec<P2> {
        vec![P2::origin(), P2::new(width, 0.0), P2::new(width, depth), P2::new(0.0, depth)]
    }

    #[test]
    fn a_rectangle_fits_itself_both_ways_and_nothing_smaller() {
        let ring = rectangle(300.0, 200.0);
        assert!(fits(&ring, 300.0, 200.0) && fits(&ring, 200.0, 300.0));
        assert!(!fits(&ring, 299.999, 200.0) && !fits(&ring, 300.0, 199.999));
    }

    /// A strip lies across: W. B. Carver, American Mathematical Monthly 64, 1957, problem E 1225 (from memory): a rectangle
    /// p × q with p > a fits a × b, a >= b, just when b >= (2pqa + (p² - q²)√(p² + q² - a²)) / (p² + q²).
    #[test]
    fn a_strip_lies_across() {
        for (p, q, a) in
            [(500.0_f64, 20.0_f64, 430.0_f64), (450.0, 60.0, 430.0), (440.0, 5.0, 430.0), (600.0, 1.0, 430.0)]
        {
            let squares = p * p + q * q;
            let least = (2.0 * p * q * a + (p * p - q * q) * (squares - a * a).sqrt()) / squares;
            assert!(fits(&rectangle(p, q), a, least + 1e-6), "{p} × {q} in {a} × {least}");
            assert!(!fits(&rectangle(p, q), a, least - 1e-6), "{p} × {q} in {a} × {least}");
        }
    }

    #[test]
    fn nothing_and_points_fit() {
        assert!(fits(&[], 1.0, 1.0));
        assert!(fits(&[P2::origin()], 1.0, 1.0));
        assert!(fits(&[P2::origin(), P2::new(1.0, 1.0)], 1.0, 1.0));
        assert!(!fits(&[P2::origin(), P2::new(2.0, 2.0)], 1.0, 1.0));
    }
}
