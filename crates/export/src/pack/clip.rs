//! Strokes cut off at an upright rectangle; arcs stay arcs.

use gable_drawing::Stroke;
use gable_plane::{P2, SAME_POINT, Segment, V2};

/// An upright rectangle on a page, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Window {
    /// Lower left corner.
    pub(super) low: P2,
    /// Upper right corner.
    pub(super) high: P2,
}

impl Window {
    /// Width and height.
    pub(super) fn size(&self) -> V2 {
        self.high - self.low
    }

    /// Whether a point is inside or on the rim.
    pub(super) fn holds(&self, p: &P2) -> bool {
        let e = SAME_POINT;
        p.x >= self.low.x - e && p.x <= self.high.x + e && p.y >= self.low.y - e && p.y <= self.high.y + e
    }

    /// The rectangle drawn in by a distance on every side.
    pub(super) fn shrunk(&self, by: f64) -> Self {
        let v = V2::new(by, by);
        Self { low: self.low + v, high: self.high - v }
    }

    /// The part of a stroke inside, as one stroke if all of it is, otherwise as open ones.
    pub(super) fn clip(&self, stroke: &Stroke) -> Vec<Stroke> {
        let mut found: Vec<Stroke> = Vec::new();
        let mut whole = true;
        let mut from = stroke.start;
        for segment in &stroke.segments {
            let parts = self.parts(from, segment);
            whole &= !parts.is_empty();
            for (start, part, complete) in parts {
                whole &= complete;
                match found.last_mut() {
                    Some(last) if end_of(last) == start => last.segments.push(part),
                    _ => found.push(Stroke { start, segments: vec![part], closed: false, ..stroke.clone() }),
                }
            }
            from = segment.to();
        }
        if whole && found.len() == 1 {
            return vec![stroke.clone()];
        }
        join_ends(&mut found, stroke);
        found
    }

    /// The parts of a segment inside: start, the part, and whether it is all of the segment.
    fn parts(&self, from: P2, segment: &Segment) -> Vec<(P2, Segment, bool)> {
        let mut cuts = vec![0.0, 1.0];
        match *segment {
            Segment::Line { to } => cuts.extend(self.line_cuts(from, to)),
            Segment::Arc { centre, sweep, .. } => cuts.extend(self.arc_cuts(from, centre, sweep)),
        }
        cuts.retain(|t| (0.0..=1.0).contains(t));
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
        let kept: Vec<(f64, f64)> = cuts
            .windows(2)
            .map(|w| (w[0], w[1]))
            .filter(|(a, b)| self.holds(&segment.point_at(from, (a + b) / 2.0)))
            .fold(Vec::new(), |mut list, (a, b)| {
                match list.last_mut() {
                    Some((_, end)) if *end == a => *end = b,
                    _ => list.push((a, b)),
                }
                list
            });
        kept.into_iter()
            .map(|(a, b)| (segment.point_at(from, a), part(from, segment, a, b), a <= 0.0 && b >= 1.0))
            .collect()
    }

    fn line_cuts(&self, from: P2, to: P2) -> Vec<f64> {
        let d = to - from;
        let at = |edge: f64, start: f64, step: f64| (step.abs() > f64::EPSILON).then(|| (edge - start) / step);
        [
            at(self.low.x, from.x, d.x),
            at(self.high.x, from.x, d.x),
            at(self.low.y, from.y, d.y),
            at(self.high.y, from.y, d.y),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn arc_cuts(&self, from: P2, centre: P2, sweep: f64) -> Vec<f64> {
        let arm = from - centre;
        let (radius, first) = (arm.norm(), arm.y.atan2(arm.x));
        let mut cuts = Vec::new();
        let mut add = |angle: f64| {
            let run = if sweep >= 0.0 { angle - first } else { first - angle };
            cuts.push(run.rem_euclid(std::f64::consts::TAU) / sweep.abs());
        };
        for x in [self.low.x, self.high.x] {
            let cos = (x - centre.x) / radius;
            if cos.abs() < 1.0 {
                add(cos.acos());
                add(-cos.acos());
            }
        }
        for y in [self.low.y, self.high.y] {
            let sin = (y - centre.y) / radius;
            if sin.abs() < 1.0 {
                add(sin.asin());
                add(std::f64::consts::PI - sin.asin());
            }
        }
        cuts
    }
}

fn end_of(stroke: &Stroke) -> P2 {
    stroke.segments.last().map_or(stroke.start, Segment::to)
}

/// A closed outline may start in the middle of a visible stretch: its last part leads on into its first.
fn join_ends(parts: &mut Vec<Stroke>, stroke: &Stroke) {
    let through = parts.len() > 1
        && stroke.closed
        && parts.first().is_some_and(|p| p.start == stroke.start)
        && parts.last().is_some_and(|p| (end_of(p) - stroke.start).norm() < SAME_POINT);
    if through && let Some(mut last) = parts.pop() {
        let first = parts.remove(0);
        last.segments.extend(first.segments);
        parts.push(last);
    }
}

fn part(from: P2, segment: &Segment, a: f64, b: f64) -> Segment {
    let to = segment.point_at(from, b);
    match *segment {
        Segment::Line { .. } => Segment::Line { to },
        Segment::Arc { centre, sweep, .. } => Segment::Arc { to, centre, sweep: sweep * (b - a) },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_drawing::{Layer, LineRole};
    use gable_plane::Contour;

    fn length(strokes: &[Stroke]) -> f64 {
        let one = |s: &Stroke| Contour::new(s.start, s.segments.clone()).length();
        let closing = |s: &Stroke| if s.closed { 0.0 } else { (end_of(s) - s.start).norm() };
        strokes.iter().map(|s| one(s) - closing(s)).sum()
    }

    fn window(x0: f64, y0: f64, x1: f64, y1: f64) -> Window {
        Window { low: P2::new(x0, y0), high: P2::new(x1, y1) }
    }

    #[test]
    fn windows_side_by_side_share_out_an_outline_without_loss() {
        let door = Contour::round_headed(P2::new(10.0, 5.0), P2::new(50.0, 80.0)).unwrap();
        let stroke = Stroke::contour(Layer::Cut, LineRole::Edge, &door);
        let mut total = 0.0;
        for (x0, x1) in [(0.0, 25.0), (25.0, 60.0)] {
            for (y0, y1) in [(0.0, 33.0), (33.0, 70.0), (70.0, 90.0)] {
                let parts = window(x0, y0, x1, y1).clip(&stroke);
                assert!(parts.iter().flat_map(|p| &p.segments).all(|s| window(x0, y0, x1, y1).holds(&s.to())));
                total += length(&parts);
            }
        }
        assert!((total - door.length()).abs() < 1e-9, "{total} against {}", door.length());
    }

    #[test]
    fn what_is_inside_stays_closed_and_what_is_outside_goes() {
        let door = Contour::round_headed(P2::new(10.0, 5.0), P2::new(50.0, 80.0)).unwrap();
        let stroke = Stroke::contour(Layer::Cut, LineRole::Edge, &door);
        assert_eq!(window(0.0, 0.0, 90.0, 90.0).clip(&stroke), vec![stroke.clone()]);
        assert!(window(60.0, 0.0, 90.0, 90.0).clip(&stroke).is_empty());
        // All corners inside, the arch above the window: closed form 2 r (π/2 - acos(15/20)) is what stays of the arc.
        let cut = window(0.0, 0.0, 90.0, 75.0).clip(&stroke);
        assert_eq!(cut.len(), 1);
        let arc = 2.0 * 20.0 * (15.0f64 / 20.0).asin();
        assert!((length(&cut) - (40.0 + 2.0 * 55.0 + arc)).abs() < 1e-9);
    }
}
