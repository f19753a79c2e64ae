//! Arcs found again in rings that were flattened.

use crate::{Contour, P2, Segment, V2};

/// Corners of a flattened arc lie on it; this much is rounding of the steps that made them, mm.
const ON_CIRCLE: f64 = 0.001;
/// Fewer chords than this stay chords: three points lie on some circle, and four may by chance.
const LEAST_CHORDS: usize = 4;
/// An arc turns no farther than a little over a half circle, so that its ends tell it well.
const MOST_TURN: f64 = 3.2;

impl Contour {
    /// The outline through the corners of a ring in which runs of short chords become the arcs that they stand for.
    ///
    /// Corners within 0.001 mm of a circle whose chords are nowhere farther than `chord` mm from it are such a run, so
    /// that no part of the outline is farther than that from the ring. The corners of a regular polygon stay corners,
    /// unless its sides are as short as chords.
    pub fn with_arcs(ring: &[P2], chord: f64) -> Self {
        let Some(&start) = ring.first() else { return Self::polygon(ring) };
        // Back at the start at last.
        let at = |k: usize| ring[k % ring.len()];
        let mut segments = Vec::new();
        let mut from = 0;
        while from < ring.len() {
            let run = (from + 2..=ring.len())
                .map_while(|to| arc_through(&(from..=to).map(at).collect::<Vec<_>>(), chord).map(|arc| (to, arc)))
                .last();
            match run.filter(|(to, _)| to - from >= LEAST_CHORDS) {
                Some((to, arc)) => {
                    segments.push(arc);
                    from = to;
                }
                None => {
                    segments.push(Segment::Line { to: at(from + 1) });
                    from += 1;
                }
            }
        }
        Self::new(start, segments)
    }
}

/// The arc along all of some points, if there is one.
fn arc_through(points: &[P2], chord: f64) -> Option<Segment> {
    let (&first, &to) = (points.first()?, points.last()?);
    let centre = centre(first, points[points.len() / 2], to)?;
    let radius = (first - centre).norm();
    let mut sweep = 0.0_f64;
    for pair in points.windows(2) {
        let (a, b) = (pair[0] - centre, pair[1] - centre);
        let turn = a.perp(&b).atan2(a.dot(&b));
        let sagitta = radius * (1.0 - (turn / 2.0).cos());
        let on_circle = (a.norm() - radius).abs() <= ON_CIRCLE && (b.norm() - radius).abs() <= ON_CIRCLE;
        if !on_circle || sagitta > chord || turn * sweep < 0.0 || turn == 0.0 {
            return None;
        }
        sweep += turn;
    }
    (sweep.abs() <= MOST_TURN).then_some(Segment::Arc { to, centre, sweep })
}

/// The centre of the circle through three points; none where they lie on a line.
fn centre(p: P2, q: P2, r: P2) -> Option<P2> {
    let (a, b) = (q - p, r - p);
    let double_area = a.perp(&b);
    if double_area.abs() <= 1e-9 * a.norm() * b.norm() {
        return None;
    }
    // a·c = a²/2 and b·c = b²/2, c from p.
    let (aa, bb) = (a.norm_squared() / 2.0, b.norm_squared() / 2.0);
    Some(p + V2::new(aa * b.y - bb * a.y, a.x * bb - b.x * aa) / double_area)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn arcs(contour: &Contour) -> usize {
        contour.segments().iter().filter(|s| matches!(s, Segment::Arc { .. })).count()
    }

    /// Closed forms of area and length, which the flattened ring misses.
    #[test]
    fn a_flattened_door_gets_its_half_circle_back_whichever_way_it_runs() {
        let door = Contour::round_headed(P2::new(0.0, 0.0), P2::new(40.0, 70.0)).unwrap();
        let mut ring = door.flatten(0.005);
        for sense in [1.0, -1.0] {
            let found = Contour::with_arcs(&ring, 0.02);
            assert_eq!((arcs(&found), found.segments().len()), (1, 4), "{found:?}");
            assert!((found.area() - sense * (40.0 * 50.0 + PI * 200.0)).abs() < 1e-6);
            assert!((found.length() - (140.0 + PI * 20.0)).abs() < 1e-6);
            ring.reverse();
        }
    }

    #[test]
    fn a_circle_is_whole_wherever_its_ring_begins() {
        let mut ring = Contour::circle(P2::new(3.0, 4.0), 15.0).flatten(0.02);
        for turn in [0, 1, 7] {
            ring.rotate_left(turn);
            let found = Contour::with_arcs(&ring, 0.02);
            assert!(arcs(&found) >= 2 && arcs(&found) == found.segments().len(), "{found:?}");
            assert!((found.area() - PI * 225.0).abs() < 1e-6);
        }
    }

    /// A regular polygon of 24 sides, 150 mm wide: 75 (1 - cos 7.5°) = 0.64 mm lie between its sides and its circle.
    #[test]
    fn polygons_stay_polygons() {
        let tower = crate::regular_polygon(24, 150.0);
        assert_eq!(arcs(&Contour::with_arcs(&tower, 0.02)), 0);
        let square = [(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)].map(|(x, y)| P2::new(x, y));
        assert_eq!(Contour::with_arcs(&square, 0.02), Contour::polygon(&square));
        assert!(Contour::with_arcs(&[], 0.02).segments().is_empty());
    }
}
