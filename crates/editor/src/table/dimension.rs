use super::Desk;
use super::paper::Paper;
use crate::theme::{Palette, TARGET};
use egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, Ui, UiBuilder, Vec2, WidgetInfo, accesskit::Role,
};
use gable_measure::Length;
use gable_plane::{P2, V2};
use gable_words::tr;

/// Size of labels, in points.
const LABEL: f32 = 13.5;

/// A dimension between two places, drawn so many points to the side of them.
///
/// `aside` is the direction in the drawing in which the line stands off. Returns where the middle of the words is.
pub(super) fn dimension(
    painter: &Painter,
    paper: &Paper,
    [from, to]: [P2; 2],
    aside: V2,
    off: f32,
    words: &str,
    palette: &Palette,
) -> Pos2 {
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
    let middle = p + (q - p) / 2.0;
    label(painter, middle, words, palette);
    middle
}

/// Lines that tell what is wrong with a size are at most so long, points.
const TROUBLE_WIDTH: f32 = 260.0;

/// The words of a dimension as a field: a click into it, and what is typed takes their place. `key` is its place in the house,
/// `name` what it is called, `undo` what a change is called. Returns what was typed once it counts.
pub(super) fn typed_over(
    ui: &mut Ui,
    desk: &mut Desk<'_, '_>,
    (at, words): (Pos2, &str),
    (key, name, undo): (&str, &str, &str),
) -> Option<Length> {
    let size = Vec2::new(label_width(ui.painter(), words) + 16.0, TARGET);
    let rect = Rect::from_center_size(at, size);
    // The words that are drawn there would show beside those of the field.
    let palette = desk.palette;
    ui.painter().rect_filled(rect.shrink2(Vec2::new(4.0, 3.0)), 3.0, palette.paper);
    let mut field = ui.new_child(UiBuilder::new().max_rect(rect).id_salt(key));
    let (response, typed) = desk.form.on_drawing(&mut field, (key, undo), words, FontId::proportional(LABEL));
    response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, name));
    let response = response.on_hover_text(tr!("Click and type another size"));
    if response.hovered() || response.has_focus() {
        let pen = Stroke::new(1.5, palette.accent);
        ui.painter().rect_stroke(rect, 4.0, pen, egui::StrokeKind::Inside);
    }
    if let Some(why) = desk.form.fields.error(key) {
        trouble(ui.painter(), rect, why, &Palette { ink: palette.blocking, ..palette });
    }
    typed
}

/// What is wrong with what stands in a field, in lines beneath it, or above it at the foot of the table; never beyond the table.
fn trouble(painter: &Painter, field: Rect, words: &str, palette: &Palette) {
    let table = painter.clip_rect().shrink(6.0);
    let width = TROUBLE_WIDTH.min(table.width());
    let galley = painter.layout(words.to_owned(), FontId::proportional(LABEL), palette.ink, width);
    let size = galley.size();
    let below = field.bottom() + 4.0;
    let y = if below + size.y <= table.bottom() { below } else { field.top() - 4.0 - size.y };
    let x = (field.center().x - size.x / 2.0).min(table.right() - size.x).max(table.left());
    let rect = Rect::from_min_size(Pos2::new(x, y), size);
    painter.rect_filled(rect.expand(3.0), 3.0, palette.paper);
    painter.galley(rect.min, galley, palette.ink);
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
