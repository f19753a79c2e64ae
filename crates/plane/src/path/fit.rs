//! Steps of a path as lines and circular arcs.

use super::{CURVE_TOLERANCE, Placed, Step};
use crate::{P2, Segment, V2};
use kurbo::{Arc, ParamCurve, ParamCurveExtrema};
use std::f64::consts::{FRAC_PI_2, PI};

/// Points of a curve that are compared with the arc that stands for it.
const LOOKS: u32 = 12;
/// An arc turns no farther than this, so that it cannot stand for the other way round.
const MOST_TURN: f64 = FRAC_PI_2;
/// No curve is halved more often: an arc for every 4000th part of it.
const MOST_HALVES: u32 = 12;
/// Flatter than this over its chord a curve is a line, mm.
const FLAT: f64 = 1e-4;

/// Where a step reaches farthest to any side, and its ends.
pub(super) fn reach(from: P2, step: &Step) -> Vec<P2> {
    let mut points = vec![from, step.to()];
    points.extend(extremes(step).iter().map(|t| at(from, step, *t)));
    points
}

/// Appends a step, placed; `from` is where it begins there.
pub(super) fn segments(from: P2, step: &Step, place: &Placed, found: &mut Vec<Segment>) {
    let to = place.point(step.to());
    match step {
        Step::Line(_) if (to - from).norm() > crate::SAME_POINT => found.push(Segment::Line { to }),
        Step::Line(_) => {}
        Step::Arc(arc, _) => match round(arc, place) {
            Some((centre, sweep)) => quarters(from, to, centre, sweep, found),
            None => curve(from, step, place, found),
        },
        Step::Quad(_) | Step::Cubic(_) => curve(from, step, place, found),
    }
}

/// Centre and sweep of an elliptical arc that the placing makes circular.
fn round(arc: &Arc, place: &Placed) -> Option<(P2, f64)> {
    let (u, v) = axes(arc);
    let (u, v) = (u.component_mul(&place.scale), v.component_mul(&place.scale));
    let size = u.norm_squared().max(v.norm_squared());
    let even = (u.norm_squared() - v.norm_squared()).abs() < size * 1e-9 && u.dot(&v).abs() < size * 1e-9;
    even.then(|| (place.point(P2::new(arc.center.x, arc.center.y)), arc.sweep_angle * u.perp(&v).signum()))
}

/// The half axes of an ellipse: its points are centre + u cos t + v sin t.
fn axes(arc: &Arc) -> (V2, V2) {
    let (sin, cos) = arc.x_rotation.sin_cos();
    (V2::new(cos, sin) * arc.radii.x, V2::new(-sin, cos) * arc.radii.y)
}

/// A circular arc in equal pieces of at most a quarter.
fn quarters(from: P2, to: P2, centre: P2, sweep: f64, found: &mut Vec<Segment>) {
    let count = (sweep.abs() / FRAC_PI_2 - 1e-9).ceil().clamp(1.0, 4.0);
    let each = sweep / count;
    let point = |k: f64| centre + nalgebra::Rotation2::new(each * k) * (from - centre);
    let ends = (1..count as u32).map(|k| point(f64::from(k))).chain([to]);
    found.extend(ends.map(|to| Segment::Arc { to, centre, sweep: each }));
}

/// A curve between its extremes, halved until arcs are near enough.
fn curve(from: P2, step: &Step, place: &Placed, found: &mut Vec<Segment>) {
    let mut cuts = extremes(step);
    cuts.sort_by(f64::total_cmp);
    cuts.retain(|t| *t > 1e-6 && *t < 1.0 - 1e-6);
    cuts.dedup_by(|a, b| *a - *b < 1e-6);
    let begin = match step {
        Step::Quad(c) => P2::new(c.p0.x, c.p0.y),
        Step::Cubic(c) => P2::new(c.p0.x, c.p0.y),
        _ => P2::origin(),
    };
    let follow = |t: f64| match t {
        0.0 => from,
        1.0 => place.point(step.to()),
        _ => place.point(at(begin, step, t)),
    };
    let mut last = 0.0;
    for next in cuts.into_iter().chain([1.0]) {
        halve(&follow, (last, next), MOST_HALVES, found);
        last = next;
    }
}

fn halve(follow: &impl Fn(f64) -> P2, (from, to): (f64, f64), left: u32, found: &mut Vec<Segment>) {
    let at = |share: f64| follow(if share >= 1.0 { to } else { from + (to - from) * share });
    let (start, end) = (at(0.0), at(1.0));
    let segment = through(start, at(0.5), end);
    let near = (1..LOOKS).all(|k| off(start, &segment, at(f64::from(k) / f64::from(LOOKS))) < CURVE_TOLERANCE);
    let wide = matches!(segment, Segment::Arc { sweep, .. } if sweep.abs() > MOST_TURN);
    if left > 0 && (wide || !near) {
        let middle = f64::midpoint(from, to);
        halve(follow, (from, middle), left - 1, found);
        halve(follow, (middle, to), left - 1, found);
    } else if (end - start).norm() > crate::SAME_POINT {
        found.push(segment);
    }
}

/// The arc through three points, or the line where they lie on one.
fn through(start: P2, middle: P2, end: P2) -> Segment {
    let (a, b) = (middle - start, end - start);
    let double_area = a.perp(&b);
    if double_area.abs() <= FLAT * b.norm() {
        return Segment::Line { to: end };
    }
    // The centre c of the circle: a·c = a²/2 and b·c = b²/2, both from the start.
    let (aa, bb) = (a.norm_squared() / 2.0, b.norm_squared() / 2.0);
    let centre = start + V2::new(aa * b.y - bb * a.y, a.x * bb - b.x * aa) / double_area;
    let turn = |p: P2, q: P2| (p - centre).perp(&(q - centre)).atan2((p - centre).dot(&(q - centre)));
    Segment::Arc { to: end, centre, sweep: turn(start, middle) + turn(middle, end) }
}

/// How far a point is from a segment.
fn off(from: P2, segment: &Segment, p: P2) -> f64 {
    match *segment {
        Segment::Arc { centre, .. } => ((p - centre).norm() - (from - centre).norm()).abs(),
        Segment::Line { to } => {
            let along = to - from;
            let share = ((p - from).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
            (p - (from + along * share)).norm()
        }
    }
}

fn at(from: P2, step: &Step, t: f64) -> P2 {
    let p = match step {
        Step::Line(to) => return from + (to - from) * t,
        Step::Quad(curve) => curve.eval(t),
        Step::Cubic(curve) => curve.eval(t),
        Step::Arc(arc, _) => arc.eval(t),
    };
    P2::new(p.x, p.y)
}

/// Parameters within a step where it reaches farthest to a side.
fn extremes(step: &Step) -> Vec<f64> {
    match step {
        Step::Line(_) => Vec::new(),
        Step::Quad(curve) => curve.extrema().to_vec(),
        Step::Cubic(curve) => curve.extrema().to_vec(),
        Step::Arc(arc, _) => {
            let (u, v) = axes(arc);
            // d/dt of u cos t + v sin t is nought where tan t = v/u.
            let turns = [v.x.atan2(u.x), v.y.atan2(u.y)];
            let all = turns.iter().flat_map(|t| (-4..=4).map(move |k| t + PI * f64::from(k)));
            all.map(|t| (t - arc.start_angle) / arc.sweep_angle).filter(|s| *s > 0.0 && *s < 1.0).collect()
        }
    }
}
