//! Lines that what is dragged holds on to, and how they are shown.

use super::dimension::label;
use super::paper::Paper;
use crate::theme::Palette;
use egui::{Painter, Shape, Stroke};
use gable_plane::{P2, V2};
use gable_words::tr;

/// Nearer than this, something holds on, in points.
pub(super) const REACH: f32 = 7.0;

/// A box that may be held on to: lower left and upper right corner, and what it is called.
pub(super) type Named = ((P2, P2), String);

/// What else may be held on to on a drawing.
#[derive(Clone, Debug, Default)]
pub(super) struct Lines {
    /// Lines for middles: where, and what to say.
    pub(super) middles: Vec<(Axis, f64, String)>,
    /// Lines for lower and upper edges: where, and what to say.
    pub(super) edges: Vec<(Axis, f64, String)>,
    /// Ends of what things lie in from left to right, such as those of a wall.
    pub(super) ends: Option<(f64, f64)>,
}

/// A direction of the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Axis {
    /// To the right.
    Across,
    /// Upwards.
    Up,
}

impl Axis {
    /// The unit direction.
    pub(super) fn way(self) -> V2 {
        if self == Self::Across { V2::x() } else { V2::y() }
    }

    fn span(self, (low, high): (P2, P2)) -> (f64, f64) {
        if self == Self::Across { (low.x, high.x) } else { (low.y, high.y) }
    }

    fn other(self) -> Self {
        if self == Self::Across { Self::Up } else { Self::Across }
    }
}

/// What is held on to.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Held {
    /// How far it is to there from where the pointer would have it, mm.
    pub(super) by: f64,
    axis: Axis,
    /// Where the line is; nothing for equal spaces.
    at: Option<f64>,
    /// Spaces that are equal.
    gaps: Vec<(f64, f64)>,
    words: String,
}

/// What a box nearest to it holds on to along an axis, within so many mm. Of what is equally near, the first counts:
/// middles of what it is in, equal spaces, lines of others.
pub(super) fn hold(own: (P2, P2), axis: Axis, others: &[Named], lines: &Lines, reach: f64) -> Option<Held> {
    let (low, high) = axis.span(own);
    let middle = (low + high) / 2.0;
    let line = |at: f64, from: f64, words: String| Held { by: at - from, axis, at: Some(at), gaps: Vec::new(), words };
    let on_axis = |l: &&(Axis, f64, String)| l.0 == axis;
    let mut all: Vec<Held> =
        lines.middles.iter().filter(on_axis).map(|(_, at, w)| line(*at, middle, w.clone())).collect();
    // A corner has no size, and nothing to be spaced.
    if high > low {
        all.extend(equal_spaces(own, axis, others, lines.ends.filter(|_| axis == Axis::Across)));
    }
    for (other, name) in others {
        let (other_low, other_high) = axis.span(*other);
        let [first, last] = match axis {
            Axis::Across => [tr!("left edge of {name}"), tr!("right edge of {name}")],
            Axis::Up => [tr!("lower edge of {name}"), tr!("upper edge of {name}")],
        };
        all.push(line((other_low + other_high) / 2.0, middle, tr!("middle of {name}")));
        all.push(line(other_low, low, first));
        all.push(line(other_high, high, last));
    }
    for (_, at, words) in lines.edges.iter().filter(on_axis) {
        all.extend([low, high].map(|edge| line(*at, edge, words.clone())));
    }
    all.retain(|held| held.by.abs() <= reach);
    all.into_iter().reduce(|best, held| if held.by.abs() < best.by.abs() - 1e-6 { held } else { best })
}

/// Places where a space becomes equal to one beside it. Only what lies beside a box counts, not what is above or below.
fn equal_spaces(own: (P2, P2), axis: Axis, others: &[Named], ends: Option<(f64, f64)>) -> Vec<Held> {
    let (low, high) = axis.span(own);
    let (middle, size) = ((low + high) / 2.0, high - low);
    let beside = |b: (P2, P2)| {
        let (a, b) = (axis.other().span(own), axis.other().span(b));
        a.0 < b.1 && b.0 < a.1
    };
    let mut spans: Vec<(f64, f64)> = others.iter().map(|o| o.0).filter(|b| beside(*b)).map(|b| axis.span(b)).collect();
    spans.extend(ends.into_iter().flat_map(|(from, to)| [(from, from), (to, to)]));
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    let before: Vec<(f64, f64)> = spans.iter().copied().filter(|s| s.0 + s.1 < 2.0 * middle).collect();
    let after: Vec<(f64, f64)> = spans.iter().copied().filter(|s| s.0 + s.1 >= 2.0 * middle).collect();
    let held = |to: f64, gaps: Vec<(f64, f64)>| {
        let fits = gaps.iter().all(|(from, to)| to - from > 1e-6);
        fits.then(|| Held { by: to - low, axis, at: None, gaps, words: tr!("equal spaces").to_owned() })
    };
    let mut found = Vec::new();
    if let (Some(left), Some(right)) = (before.last(), after.first()) {
        let to = (left.1 + right.0 - size) / 2.0;
        found.extend(held(to, vec![(left.1, to), (to + size, right.0)]));
    }
    if let [.., far, near] = before.as_slice() {
        let to = near.1 + near.0 - far.1;
        found.extend(held(to, vec![(far.1, near.0), (near.1, to)]));
    }
    if let [near, far, ..] = after.as_slice() {
        let to = near.0 - (far.0 - near.1) - size;
        found.extend(held(to, vec![(to + size, near.0), (near.1, far.0)]));
    }
    found
}

/// Shows what is held on to: a line over the whole drawing, or the spaces that are equal, each with a word.
pub(super) fn paint(painter: &Painter, paper: &Paper, own: (P2, P2), held: &Held, palette: &Palette) {
    let pen = Stroke::new(1.5, palette.accent);
    let place = |along: f64, across: f64| match held.axis {
        Axis::Across => paper.at(P2::new(along, across)),
        Axis::Up => paper.at(P2::new(across, along)),
    };
    if let Some(at) = held.at {
        let (spot, rect) = (place(at, 0.0), paper.rect);
        let ends = match held.axis {
            Axis::Across => [egui::pos2(spot.x, rect.top()), egui::pos2(spot.x, rect.bottom())],
            Axis::Up => [egui::pos2(rect.left(), spot.y), egui::pos2(rect.right(), spot.y)],
        };
        painter.extend(Shape::dashed_line(&ends, pen, 6.0, 4.0));
        words_at(painter, paper, held, ends[0]);
        return;
    }
    let (low, high) = held.axis.other().span(own);
    for (from, to) in &held.gaps {
        let (a, b) = (place(*from, (low + high) / 2.0), place(*to, (low + high) / 2.0));
        painter.line_segment([a, b], pen);
        let tick = (b - a).normalized().rot90() * 5.0;
        for end in [a, b] {
            painter.line_segment([end - tick, end + tick], pen);
        }
    }
    let (from, to) = held.gaps.first().copied().unwrap_or_default();
    let middle = place((from + to) / 2.0, (low + high) / 2.0);
    let aside = if held.axis == Axis::Across { egui::vec2(0.0, -14.0) } else { egui::vec2(48.0, 0.0) };
    label(painter, middle + aside, &held.words, palette);
}

/// A line over the whole drawing through a place, across the direction in which something grows, with its word.
pub(super) fn line_across(painter: &Painter, paper: &Paper, at: P2, grows: V2, words: &str) {
    let level = grows.y.abs() > grows.x.abs();
    let (axis, along) = if level { (Axis::Up, at.y) } else { (Axis::Across, at.x) };
    let held = Held { by: 0.0, axis, at: Some(along), gaps: Vec::new(), words: words.to_owned() };
    paint(painter, paper, (at, at), &held, &Palette::of(painter.ctx()));
}

/// The word of a line, at its end within the paper.
fn words_at(painter: &Painter, paper: &Paper, held: &Held, end: egui::Pos2) {
    let palette = Palette::of(painter.ctx());
    let half = super::dimension::label_width(painter, &held.words) / 2.0 + 6.0;
    let rect = paper.rect;
    let at = match held.axis {
        Axis::Across => {
            egui::pos2(end.x.clamp(rect.left() + half, (rect.right() - half).max(rect.left() + half)), end.y + 16.0)
        }
        Axis::Up => egui::pos2(end.x + half, end.y - 10.0),
    };
    label(painter, at, &held.words, &palette);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(x: f64, y: f64, width: f64) -> (P2, P2) {
        (P2::new(x, y), P2::new(x + width, y + 10.0))
    }

    fn wall() -> Lines {
        Lines {
            middles: vec![(Axis::Across, 50.0, "middle of the wall".to_owned())],
            edges: vec![(Axis::Up, 31.0, "sill of another".to_owned())],
            ends: Some((0.0, 100.0)),
        }
    }

    #[test]
    fn what_is_nearest_is_held_on_to_and_what_is_far_is_not() {
        let others = [(at(10.0, 30.0, 20.0), "Window".to_owned())];
        // Its middle is at 49 mm, 1 mm from that of the wall.
        let held = hold(at(44.0, 3.0, 10.0), Axis::Across, &others, &wall(), 2.0).unwrap();
        assert_eq!((held.by, held.words.as_str()), (1.0, "middle of the wall"));
        assert_eq!(hold(at(61.0, 3.0, 10.0), Axis::Across, &others, &wall(), 2.0), None);
        // Right edge at 31 mm over one at 30 mm.
        let held = hold(at(21.0, 3.0, 10.0), Axis::Across, &others, &wall(), 1.5).unwrap();
        assert_eq!((held.by, held.words.as_str()), (-1.0, "right edge of Window"));
        let held = hold(at(61.0, 30.6, 10.0), Axis::Up, &others, &wall(), 1.0).unwrap();
        assert!((held.by - 0.4).abs() < 1e-9 && held.words == "sill of another");
    }

    /// Worked by hand on a wall of 100 mm with windows from 10 to 30 and from 70 to 80 mm.
    #[test]
    fn spaces_become_equal_to_those_beside() {
        let others = [(at(10.0, 0.0, 20.0), "a".to_owned()), (at(70.0, 0.0, 10.0), "b".to_owned())];
        let places = |x: f64, width: f64| -> Vec<f64> {
            let found = equal_spaces(at(x, 2.0, width), Axis::Across, &others, Some((0.0, 100.0)));
            found.iter().map(|held| x + held.by).collect()
        };
        // Between them: half-way; as far from a as a is from the corner; as far from b as b is from the corner.
        assert_eq!(places(45.0, 10.0), [45.0, 40.0, 40.0]);
        // What lies above counts for nothing.
        let above = equal_spaces(at(45.0, 20.0, 10.0), Axis::Across, &others, None);
        assert!(above.is_empty());
    }
}
