use crate::convex::drop_short_edges;
use crate::{ClipLine, ConvexPolygon, P2, ring_area};

/// A simple ring that knows what made each edge, not always convex: what is left of a polygon after a tool.
#[derive(Clone, Debug, PartialEq)]
pub struct Rest<L> {
    /// Corners, counter-clockwise; of a hole clockwise.
    pub corners: Vec<P2>,
    /// `labels[k]` is the line of the edge from `corners[k]` to the next corner.
    pub labels: Vec<L>,
}

/// Where an edge of the common part comes from: edge k of the polygon, or line k of the tool.
#[derive(Clone, Copy, Debug, PartialEq)]
enum From {
    Polygon(usize),
    Tool(usize),
}

impl<L: Copy> ConvexPolygon<L> {
    /// What is left outside a convex tool, given by the lines round it; largest rest first.
    ///
    /// Exact: every corner is a corner of the polygon or a crossing of two of the lines. `None` when the tool lies wholly
    /// inside and would cut a hole.
    ///
    /// The common part is convex. Each run of tool edges along it, from a point P to a point Q of the polygon's rim,
    /// parts it from one rest: the rim from P on to Q, and back along the run.
    pub fn without(&self, tool: &[ClipLine<L>]) -> Option<Vec<Rest<L>>> {
        let whole = || vec![Rest { corners: self.corners.clone(), labels: self.labels.clone() }];
        let numbered = ConvexPolygon {
            corners: self.corners.clone(),
            labels: (0..self.corners.len()).map(From::Polygon).collect(),
        };
        let lines = tool.iter().enumerate().map(|(k, line)| line.with(From::Tool(k)));
        let Some(common) = lines.into_iter().try_fold(numbered, |p, line| p.clip(&line)) else { return Some(whole()) };
        let count = common.corners.len();
        let of_tool = |k: usize| matches!(common.labels[k % count], From::Tool(_));
        if (0..count).all(of_tool) {
            return None;
        }
        let starts = (0..count).filter(|&k| of_tool(k) && !of_tool(k + count - 1));
        let mut rests: Vec<Rest<L>> = starts.filter_map(|start| self.rest(&common, start, tool)).collect();
        rests.sort_by(|a, b| ring_area(&b.corners).total_cmp(&ring_area(&a.corners)));
        Some(rests)
    }

    /// The rest along the run of tool edges that starts at edge `start` of the common part.
    fn rest(&self, common: &ConvexPolygon<From>, start: usize, tool: &[ClipLine<L>]) -> Option<Rest<L>> {
        let count = common.corners.len();
        let edge = |k: usize| common.labels[k % count];
        let run = (start..start + count).take_while(|&k| matches!(edge(k), From::Tool(_))).count();
        let (From::Polygon(from), From::Polygon(to)) = (edge(start + count - 1), edge(start + run)) else {
            return None;
        };
        // Round the rim from P, on edge `from`, to Q, on edge `to`.
        let rim = self.corners.len();
        // With both on one edge, a notch, that is all the way round.
        let steps = if from == to { rim } else { (to + rim - from) % rim };
        let mut corners = vec![common.corners[start % count]];
        let mut labels = vec![self.labels[from]];
        for step in 1..=steps {
            corners.push(self.corners[(from + step) % rim]);
            labels.push(self.labels[(from + step) % rim]);
        }
        // And back along the run: its edges in reverse.
        for k in (start..start + run).rev() {
            let From::Tool(line) = edge(k) else { return None };
            corners.push(common.corners[(k + 1) % count]);
            labels.push(tool[line].label);
        }
        drop_short_edges(&mut corners, &mut labels).then_some(Rest { corners, labels })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::V2;

    fn line(x: f64, y: f64, offset: f64) -> ClipLine<u8> {
        ClipLine { normal: V2::new(x, y).normalize(), offset, label: 9 }
    }

    fn tool(low: (f64, f64), high: (f64, f64)) -> [ClipLine<u8>; 4] {
        [line(-1.0, 0.0, -low.0), line(0.0, -1.0, -low.1), line(1.0, 0.0, high.0), line(0.0, 1.0, high.1)]
    }

    fn areas(low: (f64, f64), high: (f64, f64)) -> Option<Vec<f64>> {
        let square = ConvexPolygon { labels: vec![0, 1, 2, 3], ..ConvexPolygon::square(1.0, 0) };
        square.without(&tool(low, high)).map(|rests| rests.iter().map(|r| ring_area(&r.corners)).collect())
    }

    #[test]
    fn corners_notches_cuts_and_holes() {
        assert_eq!(areas((0.5, 0.5), (2.0, 2.0)), Some(vec![3.75]));
        assert_eq!(areas((-2.0, -2.0), (-0.5, 2.0)), Some(vec![3.0]));
        assert_eq!(areas((-0.5, 0.5), (0.5, 2.0)), Some(vec![3.5]));
        assert_eq!(areas((-0.25, -2.0), (0.5, 2.0)), Some(vec![1.5, 1.0]));
        assert_eq!(areas((-0.5, -0.5), (0.5, 0.5)), None);
        assert_eq!(areas((3.0, 3.0), (4.0, 4.0)), Some(vec![4.0]));
        assert_eq!(areas((-2.0, -2.0), (2.0, 2.0)), Some(vec![]));
        assert_eq!(areas((-2.0, -2.0), (1.0, 0.0)), Some(vec![2.0]));
    }

    #[test]
    fn edges_keep_their_lines() {
        let square = ConvexPolygon { labels: vec![0, 1, 2, 3], ..ConvexPolygon::square(1.0, 0) };
        let rests = square.without(&tool((0.5, 0.25), (2.0, 2.0))).unwrap();
        let Rest { corners, labels } = &rests[0];
        for (k, label) in labels.iter().enumerate() {
            let (a, b) = (corners[k], corners[(k + 1) % corners.len()]);
            let on = |x: f64, y: f64, at: f64| [a, b].iter().all(|p| (p.x * x + p.y * y - at).abs() < 1e-12);
            let right = match label {
                0 => on(0.0, 1.0, -1.0),
                1 => on(1.0, 0.0, 1.0),
                2 => on(0.0, 1.0, 1.0),
                3 => on(1.0, 0.0, -1.0),
                _ => on(1.0, 0.0, 0.5) || on(0.0, 1.0, 0.25),
            };
            assert!(right, "edge {k} from {a} to {b} is not on line {label}");
        }
        assert_eq!(corners.len(), 6);
    }
}
