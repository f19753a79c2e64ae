use crate::{P2, SAME_POINT, V2};

/// A line that keeps the points with `normal · p <= offset`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClipLine<L> {
    /// Unit direction out of what is kept.
    pub normal: V2,
    /// Distance of the line from the origin along `normal`, mm.
    pub offset: f64,
    /// What this line stands for; the edge that lies on it carries it on.
    pub label: L,
}

impl<L> ClipLine<L> {
    /// The same line, standing for something else.
    pub fn with<M>(&self, label: M) -> ClipLine<M> {
        ClipLine { normal: self.normal, offset: self.offset, label }
    }

    /// How far a point is past the line, mm; negative on the side that is kept.
    pub fn excess(&self, p: &P2) -> f64 {
        self.normal.dot(&p.coords) - self.offset
    }
}

/// A convex polygon, counter-clockwise, that knows which line made each edge.
#[derive(Clone, Debug, PartialEq)]
pub struct ConvexPolygon<L> {
    /// Corners in order.
    pub corners: Vec<P2>,
    /// `labels[k]` is the line of the edge from `corners[k]` to the next corner.
    pub labels: Vec<L>,
}

impl<L: Copy> ConvexPolygon<L> {
    /// A square of half side `reach` mm round the origin, all edges labelled `label`.
    pub fn square(reach: f64, label: L) -> Self {
        let r = reach;
        let corners = vec![P2::new(-r, -r), P2::new(r, -r), P2::new(r, r), P2::new(-r, r)];
        Self { corners, labels: vec![label; 4] }
    }

    /// What all the lines keep; `None` when nothing of any size is left.
    pub fn within(reach: f64, label: L, lines: &[ClipLine<L>]) -> Option<Self> {
        lines.iter().try_fold(Self::square(reach, label), |polygon, line| polygon.clip(line))
    }

    /// The part on the kept side of a line; `None` when nothing of any size is left.
    ///
    /// Corners within [`SAME_POINT`] of the line count as on it, so that a line through a corner adds no sliver.
    pub fn clip(&self, line: &ClipLine<L>) -> Option<Self> {
        let excess: Vec<f64> = self.corners.iter().map(|p| line.excess(p)).collect();
        if excess.iter().all(|&e| e <= SAME_POINT) {
            return Some(self.clone());
        }
        let count = self.corners.len();
        let (mut corners, mut labels) = (Vec::new(), Vec::new());
        for k in 0..count {
            let next = (k + 1) % count;
            let (here, there) = (excess[k], excess[next]);
            if here <= SAME_POINT {
                corners.push(self.corners[k]);
                // An edge that leaves from a corner on the line: from here on the line itself is the edge.
                labels.push(if here >= -SAME_POINT && there > SAME_POINT { line.label } else { self.labels[k] });
            }
            let crosses = (here < -SAME_POINT && there > SAME_POINT) || (here > SAME_POINT && there < -SAME_POINT);
            if crosses {
                let share = here / (here - there);
                corners.push(self.corners[k] + (self.corners[next] - self.corners[k]) * share);
                labels.push(if here < 0.0 { line.label } else { self.labels[k] });
            }
        }
        Self { corners, labels }.without_spikes(line).without_short_edges()
    }

    /// Drops corners on a line between corners on it: what is left along the line of a ring with a notch there.
    fn without_spikes(self, line: &ClipLine<L>) -> Self {
        let count = self.corners.len();
        let on = |k: usize| line.excess(&self.corners[k % count]).abs() <= 2.0 * SAME_POINT;
        let kept: Vec<usize> = (0..count).filter(|&k| !(on(k) && on(k + 1) && on(k + count - 1))).collect();
        Self {
            corners: kept.iter().map(|&k| self.corners[k]).collect(),
            labels: kept.iter().map(|&k| self.labels[k]).collect(),
        }
    }

    /// Convex parts of a ring that may have notches: cut along the edge before each inward corner.
    ///
    /// The ring must be simple, and each cut must leave two pieces, as with a few notches at the ends of a wall.
    pub fn convex_parts(&self) -> Vec<Self> {
        let count = self.corners.len();
        let corner = |k: usize| self.corners[k % count];
        let inward = (0..count).find(|&k| {
            let (before, after) = (corner(k) - corner(k + count - 1), corner(k + 1) - corner(k));
            before.perp(&after) < -SAME_POINT * before.norm().max(after.norm()).max(1.0)
        });
        let Some(k) = inward else { return vec![self.clone()] };
        let along = (corner(k) - corner(k + count - 1)).normalize();
        let label = self.labels[(k + count - 1) % count];
        let normal = V2::new(along.y, -along.x);
        let line = ClipLine { normal, offset: normal.dot(&corner(k).coords), label };
        let other = ClipLine { normal: -line.normal, offset: -line.offset, label };
        let halves = [self.clip(&line), self.clip(&other)].into_iter().flatten();
        // A half with all corners of the whole was not cut: to cut it again would go on for ever.
        halves.flat_map(|h| if h.corners == self.corners { vec![h] } else { h.convex_parts() }).collect()
    }

    fn without_short_edges(mut self) -> Option<Self> {
        drop_short_edges(&mut self.corners, &mut self.labels).then_some(self)
    }

    /// The edges: start, end and the line that made it.
    pub fn edges(&self) -> impl Iterator<Item = (P2, P2, L)> + '_ {
        let count = self.corners.len();
        (0..count).map(move |k| (self.corners[k], self.corners[(k + 1) % count], self.labels[k]))
    }
}

/// Drops edges without length from a counter-clockwise ring, each with the corner it starts from; false when nothing of
/// any size is left.
pub(crate) fn drop_short_edges<L>(corners: &mut Vec<P2>, labels: &mut Vec<L>) -> bool {
    let mut k = 0;
    while corners.len() >= 3 && k < corners.len() {
        let next = (k + 1) % corners.len();
        if (corners[next] - corners[k]).norm() <= SAME_POINT {
            corners.remove(k);
            labels.remove(k);
        } else {
            k += 1;
        }
    }
    corners.len() >= 3 && crate::ring_area(corners) > SAME_POINT
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(x: f64, y: f64, offset: f64, label: u8) -> ClipLine<u8> {
        ClipLine { normal: V2::new(x, y).normalize(), offset, label }
    }

    #[test]
    fn labels_stay_with_their_edges() {
        let cut = ConvexPolygon::within(10.0, 0, &[line(1.0, 1.0, 0.0, 1), line(0.0, -1.0, 5.0, 2)]).unwrap();
        for (a, b, label) in cut.edges() {
            match label {
                1 => assert!((a.x + a.y).abs() < 1e-9 && (b.x + b.y).abs() < 1e-9),
                2 => assert!((a.y + 5.0).abs() < 1e-9 && (b.y + 5.0).abs() < 1e-9),
                _ => {}
            }
        }
        assert_eq!(cut.corners.len(), 3);
    }

    #[test]
    fn a_line_through_two_corners_keeps_its_label() {
        let half = ConvexPolygon::square(10.0, 0).clip(&line(1.0, 1.0, 0.0, 7)).unwrap();
        assert_eq!(half.corners.len(), 3);
        assert_eq!(half.labels.iter().filter(|&&l| l == 7).count(), 1);
    }

    #[test]
    fn an_l_falls_into_two_convex_parts() {
        let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)];
        let corners: Vec<P2> = corners.iter().map(|&(x, y)| P2::new(x, y)).collect();
        let parts = ConvexPolygon { labels: vec![0; corners.len()], corners }.convex_parts();
        let areas: Vec<f64> = parts.iter().map(|p| crate::ring_area(&p.corners)).collect();
        assert_eq!(parts.len(), 2);
        assert!((areas.iter().sum::<f64>() - 6.0).abs() < 1e-12);
        assert!(parts.iter().all(|p| p.convex_parts().len() == 1));
    }

    #[test]
    fn nothing_left_is_none() {
        assert!(ConvexPolygon::square(10.0, 0).clip(&line(1.0, 0.0, -10.0, 1)).is_none());
        assert!(ConvexPolygon::square(10.0, 0).clip(&line(1.0, 0.0, -11.0, 1)).is_none());
    }
}
