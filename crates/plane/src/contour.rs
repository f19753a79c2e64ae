use crate::{P2, V2, bounds, ring_area};

/// One step along a contour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// Straight to a point.
    Line {
        /// Where it ends.
        to: P2,
    },
    /// Along a circle.
    Arc {
        /// Where it ends.
        to: P2,
        /// Centre of the circle.
        centre: P2,
        /// Angle run through, radians; positive is counter-clockwise.
        sweep: f64,
    },
}

impl Segment {
    /// Where the segment ends.
    pub fn to(&self) -> P2 {
        match *self {
            Self::Line { to } | Self::Arc { to, .. } => to,
        }
    }

    /// The ends of chords along a segment that starts at `from`, none of them farther than `tolerance` mm from it; the last
    /// one is its end.
    pub fn chords(&self, from: P2, tolerance: f64) -> Vec<P2> {
        let steps = match self {
            Self::Line { .. } => 1,
            Self::Arc { centre, sweep, .. } => arc_steps((from - centre).norm(), *sweep, tolerance),
        };
        (1..=steps).map(|k| self.point_at(from, f64::from(k) / f64::from(steps))).collect()
    }

    /// The point at a share of the way along a segment that starts at `from`; exact at both ends.
    pub fn point_at(&self, from: P2, share: f64) -> P2 {
        match *self {
            _ if share <= 0.0 => from,
            _ if share >= 1.0 => self.to(),
            Self::Line { to } => from + (to - from) * share,
            Self::Arc { centre, sweep, .. } => centre + turned(from - centre, sweep * share),
        }
    }
}

/// A closed outline of straight lines and exact arcs.
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    start: P2,
    segments: Vec<Segment>,
}

impl Contour {
    /// A closed outline from a start and the segments that lead back to it.
    ///
    /// A closing line is added when the last segment does not end at the start.
    pub fn new(start: P2, mut segments: Vec<Segment>) -> Self {
        let end = segments.last().map_or(start, Segment::to);
        if (end - start).norm() > crate::SAME_POINT {
            segments.push(Segment::Line { to: start });
        }
        Self { start, segments }
    }

    /// A closed polygon; the first corner is not repeated.
    pub fn polygon(corners: &[P2]) -> Self {
        let start = corners.first().copied().unwrap_or_else(P2::origin);
        let segments = corners.iter().skip(1).map(|&to| Segment::Line { to }).collect();
        Self::new(start, segments)
    }

    /// An upright rectangle, counter-clockwise.
    pub fn rectangle(low: P2, high: P2) -> Self {
        Self::polygon(&[low, P2::new(high.x, low.y), high, P2::new(low.x, high.y)])
    }

    /// A rectangle under a half circle: `high` is the top of the arch. The half circle is as wide as the opening,
    /// so an opening lower than half its width has no straight sides and is refused.
    pub fn round_headed(low: P2, high: P2) -> Option<Self> {
        let radius = (high.x - low.x) / 2.0;
        let spring = high.y - radius;
        if radius <= 0.0 || spring < low.y {
            return None;
        }
        let centre = P2::new(low.x + radius, spring);
        let mut segments = vec![Segment::Line { to: P2::new(high.x, low.y) }];
        segments.push(Segment::Line { to: P2::new(high.x, spring) });
        segments.push(Segment::Arc { to: P2::new(low.x, spring), centre, sweep: std::f64::consts::PI });
        segments.push(Segment::Line { to: low });
        Some(Self::new(low, segments))
    }

    /// Where the outline starts and ends.
    pub fn start(&self) -> P2 {
        self.start
    }

    /// The segments in order; the last one ends at the start.
    pub fn segments(&self) -> &[Segment] {
        &self.segments
    }

    /// Each segment with the point it starts from.
    pub fn pairs(&self) -> impl Iterator<Item = (P2, Segment)> + '_ {
        let starts = std::iter::once(self.start).chain(self.segments.iter().map(Segment::to));
        starts.zip(self.segments.iter().copied())
    }

    /// The corners of a polygon no part of which is farther than `tolerance` mm from the outline.
    ///
    /// Arc points lie on the arc, so a flattened circle is a little small: by at most the tolerance.
    pub fn flatten(&self, tolerance: f64) -> Vec<P2> {
        let mut ring = Vec::new();
        for (from, segment) in self.pairs() {
            ring.push(from);
            let Segment::Arc { centre, sweep, .. } = segment else { continue };
            let steps = arc_steps((from - centre).norm(), sweep, tolerance);
            ring.extend((1..steps).map(|k| segment.point_at(from, f64::from(k) / f64::from(steps))));
        }
        ring
    }

    /// Signed area, mm², exact: positive when counter-clockwise.
    pub fn area(&self) -> f64 {
        let corners: Vec<P2> = self.pairs().map(|(from, _)| from).collect();
        let caps: f64 = self
            .pairs()
            .map(|(from, segment)| match segment {
                Segment::Line { .. } => 0.0,
                Segment::Arc { centre, sweep, .. } => (from - centre).norm_squared() * (sweep - sweep.sin()) / 2.0,
            })
            .sum();
        ring_area(&corners) + caps
    }

    /// Length all round, mm, exact.
    pub fn length(&self) -> f64 {
        self.pairs()
            .map(|(from, segment)| match segment {
                Segment::Line { to } => (to - from).norm(),
                Segment::Arc { centre, sweep, .. } => (from - centre).norm() * sweep.abs(),
            })
            .sum()
    }

    /// The outline with every point sent through `map`, which must turn, move, mirror or scale evenly.
    /// `mirrors` says whether it mirrors: then arcs change their sense.
    pub fn mapped(&self, mirrors: bool, map: impl Fn(P2) -> P2) -> Self {
        let sense = if mirrors { -1.0 } else { 1.0 };
        let segments = self.segments.iter().map(|s| match *s {
            Segment::Line { to } => Segment::Line { to: map(to) },
            Segment::Arc { to, centre, sweep } => {
                Segment::Arc { to: map(to), centre: map(centre), sweep: sweep * sense }
            }
        });
        Self { start: map(self.start), segments: segments.collect() }
    }

    /// Lowest and highest corner of the box round the outline, arcs included to 0.001 mm.
    pub fn bounds(&self) -> (P2, P2) {
        bounds(&self.flatten(0.001)).unwrap_or((self.start, self.start))
    }
}

fn turned(arm: V2, angle: f64) -> V2 {
    nalgebra::Rotation2::new(angle) * arm
}

/// Chords with a sagitta of at most `tolerance`: s = r (1 - cos(a/2)).
fn arc_steps(radius: f64, sweep: f64, tolerance: f64) -> u32 {
    let half = (1.0 - (tolerance / radius).clamp(1e-9, 1.0)).acos();
    let steps = (sweep.abs() / (2.0 * half)).ceil();
    if steps.is_finite() { (steps as u32).clamp(1, 4096) } else { 1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_headed_measures_as_rectangle_and_half_circle() {
        let door = Contour::round_headed(P2::new(0.0, 0.0), P2::new(40.0, 70.0)).unwrap();
        let pi = std::f64::consts::PI;
        assert!((door.area() - (40.0 * 50.0 + pi * 200.0)).abs() < 1e-9);
        assert!((door.length() - (40.0 + 100.0 + pi * 20.0)).abs() < 1e-9);
        let flat = door.flatten(0.02);
        assert!(ring_area(&flat) < door.area() && door.area() - ring_area(&flat) < 0.02 * pi * 20.0);
        assert!((Contour::polygon(&flat).length() - door.length()).abs() < 0.2);
    }

    #[test]
    fn mirrored_arcs_keep_their_size_and_turn_the_other_way() {
        let door = Contour::round_headed(P2::new(0.0, 0.0), P2::new(40.0, 70.0)).unwrap();
        let mirrored = door.mapped(true, |p| P2::new(-p.x, p.y));
        assert!((mirrored.area() + door.area()).abs() < 1e-9);
    }
}
