use super::paper::Paper;
use crate::theme::Palette;
use egui::{Align2, Color32, FontId, Painter, Pos2, Shape, Stroke, Vec2};
use gable_plane::{P2, V2};

/// Size of labels, in points.
const LABEL: f32 = 13.5;

/// A dimension between two places, drawn so many points to the side of them.
///
/// `aside` is the direction in the drawing in which the line stands off.
pub(super) fn dimension(
    painter: &Painter,
    paper: &Paper,
    [from, to]: [P2; 2],
    aside: V2,
    off: f32,
    words: &str,
    palette: &Palette,
) {
    let away = paper.way(aside);
    let (a, b) = (paper.at(from), paper.at(to));
    let (p, q) = (a + away * off, b + away * off);
    let pen = Stroke::new(1.0, palette.faint_ink);
    for (foot, end) in [(a, p), (b, q)] {
        painter.line_segment([foot + away * 5.0, end + away * 5.0], pen);
    }
    painter.line_segment([p, q], pen);
    let along = (q - p).normalized();
    let tick = (along + along.rot90()).normalized() * 5.0;
    for end in [p, q] {
        painter.line_segment([end - tick, end + tick], Stroke::new(1.6, palette.faint_ink));
    }
    label(painter, p + (q - p) / 2.0, words, palette);
}

/// How wide a label of these words is, in points.
pub(super) fn label_width(painter: &Painter, words: &str) -> f32 {
    painter.layout_no_wrap(words.to_owned(), FontId::proportional(LABEL), Color32::BLACK).size().x
}

/// Words on a patch of paper.
pub(super) fn label(painter: &Painter, at: Pos2, words: &str, palette: &Palette) {
    let galley = painter.layout_no_wrap(words.to_owned(), FontId::proportional(LABEL), palette.ink);
    let rect = Align2::CENTER_CENTER.anchor_size(at, galley.size());
    painter.rect_filled(rect.expand2(Vec2::new(3.0, 0.0)), 3.0, palette.paper);
    painter.galley(rect.min, galley, palette.ink);
}

/// The letter of a joint in a ring.
pub(crate) fn letter(painter: &Painter, at: Pos2, letter: &str, palette: &Palette) {
    painter.add(Shape::circle_filled(at, 9.5, palette.paper));
    painter.add(Shape::circle_stroke(at, 9.5, Stroke::new(1.0, palette.faint_ink)));
    painter.text(at, Align2::CENTER_CENTER, letter, FontId::proportional(11.5), palette.ink);
}
