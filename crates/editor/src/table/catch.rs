//! A frame that is drawn on the empty table and selects what lies wholly within it.

use super::Desk;
use super::paper::Paper;
use crate::selection::Selection;
use egui::{PointerButton, Rect, Response, Stroke, StrokeKind, Ui};

/// Shows the frame while it is drawn, and selects once it is done: openings if there are any in it, else parts, else what stands
/// beside the house, else ornaments. With Ctrl or
/// Shift they are selected beside what is selected already.
pub(super) fn show(ui: &Ui, paper: &Paper, desk: &mut Desk<'_, '_>, background: &Response) {
    let (from, to) = ui.input(|i| (i.pointer.press_origin(), i.pointer.latest_pos()));
    let id = background.id.with("frame");
    if background.dragged_by(PointerButton::Primary)
        && let Some((from, to)) = from.zip(to)
    {
        let frame = Rect::from_two_pos(from, to);
        ui.data_mut(|d| d.insert_temp(id, frame));
        let colour = desk.palette.selected;
        ui.painter().rect(frame, 2.0, colour.gamma_multiply(0.12), Stroke::new(1.5, colour), StrokeKind::Inside);
        for (low, high) in within(paper, desk, frame) {
            let rect = Rect::from_two_pos(paper.at(low), paper.at(high));
            ui.painter().rect_stroke(rect.expand(3.0), 4.0, Stroke::new(2.0, colour), StrokeKind::Outside);
        }
    }
    if !background.drag_stopped() {
        return;
    }
    if let Some(frame) = ui.data_mut(|d| {
        let frame = d.get_temp::<Rect>(id);
        d.remove::<Rect>(id);
        frame
    }) {
        let more = ui.input(|i| i.modifiers.command || i.modifiers.shift);
        let caught = caught(paper, desk, frame);
        desk.company.take(desk.selection, caught, more, desk.house);
    }
}

/// What lies wholly within a frame.
fn caught(paper: &Paper, desk: &Desk<'_, '_>, frame: Rect) -> Vec<Selection> {
    let inside = |m: &&super::Member| {
        let (low, high) = m.bounds;
        frame.contains_rect(Rect::from_two_pos(paper.at(low), paper.at(high)))
    };
    let found = desk.members.iter().filter(inside).map(|m| m.what.clone());
    let (openings, rest): (Vec<_>, Vec<_>) = found.partition(|s| matches!(s, Selection::Opening(..)));
    let (parts, rest): (Vec<_>, Vec<_>) = rest.into_iter().partition(|s| matches!(s, Selection::Part(_)));
    let (extras, ornaments): (Vec<_>, Vec<_>) = rest.into_iter().partition(|s| matches!(s, Selection::Extra(_)));
    [openings, parts, extras, ornaments].into_iter().find(|found| !found.is_empty()).unwrap_or_default()
}

/// The boxes of it, on the drawing.
fn within(paper: &Paper, desk: &Desk<'_, '_>, frame: Rect) -> Vec<(gable_plane::P2, gable_plane::P2)> {
    let caught = caught(paper, desk, frame);
    desk.members.iter().filter(|m| caught.contains(&m.what)).map(|m| m.bounds).collect()
}
