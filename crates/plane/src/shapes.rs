//! Outlines of doors and windows, from the box round them. All run counter-clockwise; those with a level foot start at its
//! left end, so that their first segment is the foot.

use crate::{Contour, P2, Segment, V2};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// How far the circular arcs that stand for an ellipse may be from it, mm.
pub const ELLIPSE_TOLERANCE: f64 = 0.005;

/// Shorter upright sides under an arch are left out, mm.
const NO_SIDE: f64 = crate::SAME_POINT;

impl Contour {
    /// A rectangle under an arc that rises `rise` mm above the ends of it, r = (w²/4 + rise²) / (2 rise).
    ///
    /// `None` when the arc is higher than a half circle or than the box, or does not rise at all.
    pub fn segmental(low: P2, high: P2, rise: f64) -> Option<Self> {
        let half = (high.x - low.x) / 2.0;
        let spring = high.y - rise;
        if !(rise > 0.0 && rise <= half + NO_SIDE && spring >= low.y - NO_SIDE) {
            return None;
        }
        let radius = (half * half + rise * rise) / (2.0 * rise);
        let sweep = 2.0 * (half / radius).clamp(-1.0, 1.0).asin();
        let centre = P2::new(low.x + half, high.y - radius);
        let arc = Segment::Arc { to: P2::new(low.x, spring), centre, sweep };
        Some(arched(low, high.x, spring, vec![arc]))
    }

    /// A rectangle under a pointed arch of two arcs whose radius is `radius` times the width: 1 for an equilateral arch,
    /// less for a drop arch, more for a lancet. The arch is w √(radius - 1/4) high.
    ///
    /// `None` when the radius is not more than half the width (that is a round head), or the arch higher than the box.
    pub fn pointed(low: P2, high: P2, radius: f64) -> Option<Self> {
        let width = high.x - low.x;
        let spring = high.y - width * (radius - 0.25).max(0.0).sqrt();
        if !(width > 0.0 && radius > 0.5 && radius.is_finite() && spring >= low.y - NO_SIDE) {
            return None;
        }
        let r = radius * width;
        // From the springing to the point, as seen from the centre on the springing line.
        let sweep = ((r - width / 2.0) / r).clamp(-1.0, 1.0).acos();
        let apex = P2::new(low.x + width / 2.0, high.y);
        let right = Segment::Arc { to: apex, centre: P2::new(high.x - r, spring), sweep };
        let left = Segment::Arc { to: P2::new(low.x, spring), centre: P2::new(low.x + r, spring), sweep };
        Some(arched(low, high.x, spring, vec![right, left]))
    }

    /// A circle of four quarters, from its lowest point.
    pub fn circle(centre: P2, radius: f64) -> Self {
        let at = |turn: V2| centre + turn * radius;
        let tops = [V2::x(), V2::y(), -V2::x(), -V2::y()];
        let quarter = |turn: V2| Segment::Arc { to: at(turn), centre, sweep: FRAC_PI_2 };
        Self::new(at(-V2::y()), tops.map(quarter).to_vec())
    }

    /// An ellipse that touches all sides of a box, as circular arcs that are within [`ELLIPSE_TOLERANCE`] of it and meet
    /// on it; from its lowest point. A circle where the box is square.
    pub fn ellipse(low: P2, high: P2) -> Self {
        let middle = nalgebra::center(&low, &high);
        let half = (high - low) / 2.0;
        if (half.x - half.y).abs() < crate::SAME_POINT {
            return Self::circle(middle, half.x);
        }
        let mut right: Vec<(P2, Option<P2>)> = Vec::new();
        quadrant(half, (-FRAC_PI_2, 0.0), &mut right);
        let flipped = |x: f64, y: f64, p: P2| P2::new(middle.x + x * p.x, middle.y + y * p.y);
        let start = flipped(1.0, 1.0, P2::new(0.0, -half.y));
        // The four quarters by mirroring, every second one backwards.
        let mut segments = Vec::new();
        for (x, y, backwards) in [(1.0, 1.0, false), (1.0, -1.0, true), (-1.0, -1.0, false), (-1.0, 1.0, true)] {
            let mut from = segments.last().map_or(start, Segment::to);
            let count = right.len();
            for k in 0..count {
                let (own, next) = if backwards { (count - 1 - k, count.checked_sub(k + 2)) } else { (k, Some(k)) };
                let end = next.map_or(P2::new(0.0, -half.y), |n| right[n].0);
                let (to, centre) = (flipped(x, y, end), right[own].1.map(|c| flipped(x, y, c)));
                segments.push(centre.map_or(Segment::Line { to }, |centre| arc(from, to, centre)));
                from = to;
            }
        }
        Self::new(start, segments)
    }

    /// The upper half of a circle over a level foot.
    pub fn half_circle(left: P2, width: f64) -> Self {
        let right = P2::new(left.x + width, left.y);
        let centre = nalgebra::center(&left, &right);
        let quarter = |to: P2| Segment::Arc { to, centre, sweep: FRAC_PI_2 };
        let top = centre + V2::new(0.0, width / 2.0);
        Self::new(left, vec![Segment::Line { to: right }, quarter(top), quarter(left)])
    }

    /// The same outline run through the other way. What was the first segment stays the first.
    pub fn reversed(&self) -> Self {
        let back = |(from, segment): (P2, Segment)| match segment {
            Segment::Line { .. } => Segment::Line { to: from },
            Segment::Arc { centre, sweep, .. } => Segment::Arc { to: from, centre, sweep: -sweep },
        };
        let mut segments: Vec<Segment> = self.pairs().map(back).collect();
        let start = self.segments().first().map_or(self.start(), Segment::to);
        if !segments.is_empty() {
            segments[1..].reverse();
        }
        Self::new(start, segments)
    }
}

/// Corners of a regular polygon with a level foot `width` mm wide over all, from the left end of the foot; its lower left
/// corner of the box round it is the origin. None with fewer than three corners.
pub fn regular_polygon(corners: u8, width: f64) -> Vec<P2> {
    let half = PI / f64::from(corners.max(3));
    let on_circle: Vec<V2> = (0..corners.max(3))
        .map(|k| {
            let (sin, cos) = (half * (2.0 * f64::from(k) - 1.0) - FRAC_PI_2).sin_cos();
            V2::new(cos, sin)
        })
        .collect();
    let widest = on_circle.iter().map(|c| c.x).fold(0.0, f64::max);
    let low = -half.cos();
    let radius = width / (2.0 * widest);
    on_circle.iter().map(|c| P2::new(c.x * radius + width / 2.0, (c.y - low) * radius)).collect()
}

/// A foot, two upright sides where there is room for them, and the segments over them.
fn arched(low: P2, right: f64, spring: f64, over: Vec<Segment>) -> Contour {
    let mut segments = vec![Segment::Line { to: P2::new(right, low.y) }];
    let sides = spring > low.y + NO_SIDE;
    if sides {
        segments.push(Segment::Line { to: P2::new(right, spring) });
    }
    segments.extend(over);
    if sides {
        segments.push(Segment::Line { to: low });
    }
    Contour::new(low, segments)
}

/// The shorter way round a centre.
fn arc(from: P2, to: P2, centre: P2) -> Segment {
    let (a, b) = (from - centre, to - centre);
    Segment::Arc { to, centre, sweep: a.perp(&b).atan2(a.dot(&b)) }
}

/// Arcs along an ellipse about the origin between two parameters: where each ends, and its centre. Halved until each is
/// within the tolerance.
fn quadrant(half: V2, (from, to): (f64, f64), found: &mut Vec<(P2, Option<P2>)>) {
    /// Points of an arc that are looked at.
    const LOOKS: u32 = 16;
    /// No arc is halved below this, radians of the parameter: 4 µm on the largest opening.
    const LEAST: f64 = TAU / 1e6;
    let at = |t: f64| P2::new(half.x * t.cos(), half.y * t.sin());
    let middle = (from + to) / 2.0;
    let centre = circle_through(at(from), at(middle), at(to));
    let off = |c: P2| {
        let radius = (at(from) - c).norm();
        let look = |k: u32| ((at(from + (to - from) * f64::from(k) / f64::from(LOOKS)) - c).norm() - radius).abs();
        (0..=LOOKS).map(look).fold(0.0, f64::max)
    };
    let near = centre.is_some_and(|c| off(c) < 0.9 * ELLIPSE_TOLERANCE);
    if near || to - from < LEAST {
        found.push((at(to), centre));
        return;
    }
    quadrant(half, (from, middle), found);
    quadrant(half, (middle, to), found);
}

/// Centre of the circle through three points; `None` when they lie on a line.
fn circle_through(a: P2, b: P2, c: P2) -> Option<P2> {
    let (p, q) = (b - a, c - a);
    let twice = 2.0 * p.perp(&q);
    let (pp, qq) = (p.norm_squared(), q.norm_squared());
    let centre = a + V2::new(q.y * pp - p.y * qq, p.x * qq - q.x * pp) / twice;
    (twice.abs() > f64::MIN_POSITIVE && centre.coords.iter().all(|c| c.is_finite())).then_some(centre)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const LOW: P2 = P2::new(3.0, 5.0);

    /// Closed forms: segment of a circle r²/2 (θ - sin θ), for 40 wide and 10 high r = 25, θ = 2 asin 0.8.
    #[test]
    fn segmental_heads_measure_as_segments() {
        let window = Contour::segmental(LOW, P2::new(43.0, 65.0), 10.0).unwrap();
        let angle = 2.0 * 0.8f64.asin();
        let area = 40.0 * 50.0 + 625.0 / 2.0 * (angle - angle.sin());
        assert!((window.area() - area).abs() < 1e-9, "{} {area}", window.area());
        assert!((window.length() - (40.0 + 100.0 + 25.0 * angle)).abs() < 1e-9);
        let (low, high) = window.bounds();
        assert!((low - LOW).norm() < 1e-9 && (high - P2::new(43.0, 65.0)).norm() < 1e-3);
        for rise in [0.0, -1.0, 20.1, f64::NAN] {
            assert_eq!(Contour::segmental(LOW, P2::new(43.0, 65.0), rise), None, "{rise}");
        }
        let half = Contour::segmental(LOW, P2::new(43.0, 25.0), 20.0).unwrap();
        assert!((half.area() - 200.0 * PI).abs() < 1e-9 && half.segments().len() == 2);
    }

    /// Closed form of an equilateral arch of width w: two sectors of 60° less the triangle, w² (π/3 - √3/4). For a radius
    /// of k w: two sectors of angle acos(1 - 1/(2k)), less the triangle of height w √(k - 1/4) on the line between centres.
    #[test]
    fn pointed_arches_measure_as_sectors() {
        let equilateral = Contour::pointed(LOW, P2::new(33.0, 65.0), 1.0).unwrap();
        let arch = 900.0 * (PI / 3.0 - 3f64.sqrt() / 4.0);
        let straight = 60.0 - 30.0 * 3f64.sqrt() / 2.0;
        assert!((equilateral.area() - (30.0 * straight + arch)).abs() < 1e-9);
        for k in [0.6, 0.75, 1.5, 3.0] {
            let window = Contour::pointed(LOW, P2::new(33.0, 105.0), k).unwrap();
            let (radius, high) = (30.0 * k, 30.0 * (k - 0.25f64).sqrt());
            let angle = (1.0 - 1.0 / (2.0 * k)).acos();
            let arch = 2.0 * (radius * radius * angle / 2.0 - (radius - 15.0) * high / 2.0);
            assert!((window.area() - (30.0 * (100.0 - high) + arch)).abs() < 1e-9, "{k}");
            assert!((window.bounds().1 - P2::new(33.0, 105.0)).norm() < 1e-6);
        }
        assert_eq!(Contour::pointed(LOW, P2::new(33.0, 65.0), 0.5), None);
        assert_eq!(Contour::pointed(LOW, P2::new(33.0, 25.0), 1.0), None);
    }

    /// Closed forms: π a b; and every point of the arcs against (x/a)² + (y/b)² = 1.
    #[test]
    fn ellipses_are_within_their_tolerance() {
        for (a, b) in [(30.0, 20.0), (8.0, 40.0), (300.0, 2.0), (1.0, 1.0), (50.0, 49.99)] {
            let (low, high) = (P2::new(-a, -b), P2::new(a, b));
            let ellipse = Contour::ellipse(low, high);
            let perimeter_bound = 4.0 * (a + b);
            assert!((ellipse.area() - PI * a * b).abs() < ELLIPSE_TOLERANCE * perimeter_bound, "{a} {b}");
            for (from, segment) in ellipse.pairs() {
                for k in 0..=20 {
                    let p = segment.point_at(from, f64::from(k) / 20.0);
                    let value = (p.x / a).powi(2) + (p.y / b).powi(2) - 1.0;
                    let slope = V2::new(2.0 * p.x / (a * a), 2.0 * p.y / (b * b)).norm();
                    assert!((value / slope).abs() < ELLIPSE_TOLERANCE, "{a} {b}: {}", value / slope);
                }
            }
            let reached = ellipse.bounds();
            assert!((reached.0 - low).norm() < 1e-9 && (reached.1 - high).norm() < 1e-9);
        }
        assert!(Contour::ellipse(P2::new(-30.0, -20.0), P2::new(30.0, 20.0)).segments().len() <= 64);
    }

    /// Closed form: n/2 r² sin(2π/n).
    #[test]
    fn regular_polygons_measure_by_their_circle() {
        for n in [3u8, 4, 5, 6, 8, 12] {
            let ring = regular_polygon(n, 40.0);
            let radius = ring.iter().map(|p| (p - crate::ring_centroid(&ring)).norm()).fold(0.0, f64::max);
            let area = f64::from(n) / 2.0 * radius * radius * (TAU / f64::from(n)).sin();
            assert!((crate::ring_area(&ring) - area).abs() < 1e-9, "{n}");
            let (low, high) = crate::bounds(&ring).unwrap();
            assert!(low.coords.norm() < 1e-9 && (high.x - 40.0).abs() < 1e-9);
            assert!((ring[0].y - ring[1].y).abs() < 1e-9 && ring[0].x < ring[1].x);
        }
    }

    #[test]
    fn reversed_twice_is_the_same_and_the_foot_stays_first() {
        let door = Contour::pointed(LOW, P2::new(33.0, 65.0), 1.0).unwrap();
        let back = door.reversed();
        assert!((back.area() + door.area()).abs() < 1e-9);
        assert_eq!(back.start(), P2::new(33.0, 5.0));
        assert_eq!(back.segments()[0].to(), LOW);
        assert_eq!(back.reversed(), door);
    }

    proptest! {
        #[test]
        fn no_numbers_make_a_shape_fail(x in -1e4f64..1e4, y in -1e4f64..1e4, k in -1.0f64..9.0) {
            let (low, high) = (P2::new(-x, -y), P2::new(x, y));
            let shapes = [Contour::segmental(low, high, k * 10.0), Contour::pointed(low, high, k), Some(Contour::ellipse(low, high))];
            for shape in shapes.into_iter().flatten() {
                prop_assert!(shape.area().is_finite());
            }
        }
    }
}
