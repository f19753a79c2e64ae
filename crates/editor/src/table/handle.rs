use super::paper::Paper;
use super::snap;
use crate::theme::Palette;
use egui::{CursorIcon, Key, Rect, Response, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, accesskit::Role, vec2};
use gable_measure::{InchStep, Length, Unit};
use gable_plane::{P2, V2};
use gable_words::tr;

/// Something on the drawing that can be dragged to change one length.
pub(super) struct Handle<'a> {
    /// Its own name within the drawing.
    pub(super) key: &'a str,
    /// What assistive technology calls it.
    pub(super) name: &'a str,
    /// Where it is, mm.
    pub(super) at: P2,
    /// Unit direction in which the length grows.
    pub(super) grows: V2,
    /// How much the length grows for each millimetre of the drag.
    pub(super) rate: f64,
    /// The length as it is.
    pub(super) value: Length,
    /// What undo calls a change.
    pub(super) undo: &'a str,
    /// Lengths that a drag holds on to, and what to say of each.
    pub(super) marks: &'a [(Length, String)],
}

/// A change made with a handle.
#[derive(Clone, Debug)]
pub(super) struct Pulled<T> {
    /// The new value.
    pub(super) value: T,
    /// The drag it belongs to; `None` for a key.
    pub(super) gesture: Option<egui::Id>,
}

/// The step to which dragged lengths are rounded, and that an arrow key makes.
pub(super) fn step(unit: Unit) -> Length {
    match unit {
        Unit::Millimetre => Length::mm_of(1.0),
        Unit::Inch(InchStep::Sixteenth) => Length::inches(1.0 / 16.0),
        Unit::Inch(InchStep::ThirtySecond) => Length::inches(1.0 / 32.0),
    }
}

/// A length rounded to a whole number of steps.
pub(crate) fn rounded(length: Length, unit: Unit) -> Length {
    step(unit) * (length / step(unit)).round()
}

/// Shows a handle that moves one way; gives the new length while it is pulled.
pub(super) fn pull(ui: &mut Ui, paper: &Paper, unit: Unit, handle: &Handle<'_>) -> Option<Pulled<Length>> {
    let label = format!("{}: {}", handle.name, unit.print(handle.value));
    let response = knob(ui, paper, handle.key, &label, handle.at);
    let level = handle.grows.x.abs() > handle.grows.y.abs();
    let cursor = if level { CursorIcon::ResizeHorizontal } else { CursorIcon::ResizeVertical };
    mark(ui, &response, paper.way(handle.grows));
    let response = response.on_hover_and_drag_cursor(cursor).on_hover_text(tr!("Drag: {}", handle.undo));
    if let Some((start, drag)) = dragged(ui, &response, V2::new(handle.value.mm(), 0.0)) {
        let along = paper.span(drag).dot(&handle.grows) * handle.rate;
        let value =
            held_on(ui, paper, handle, start.x + along).unwrap_or(rounded(Length::mm_of(start.x + along), unit));
        return Some(Pulled { value, gesture: Some(response.id) });
    }
    let steps = keys(ui, &response).map(|way| way.dot(&handle.grows))?;
    (steps != 0.0).then(|| Pulled { value: handle.value + step(unit) * steps.round(), gesture: None })
}

/// The length that a drag to `mm` holds on to, unless Alt is held; shown as a line through the handle with its word.
fn held_on(ui: &Ui, paper: &Paper, handle: &Handle<'_>, mm: f64) -> Option<Length> {
    let reach = f64::from(snap::REACH / paper.scale) * handle.rate;
    let off = |mark: &&(Length, String)| (mark.0.mm() - mm).abs();
    let nearest = handle.marks.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
    if off(&nearest) > reach || ui.input(|i| i.modifiers.alt) {
        return None;
    }
    let there = handle.at + handle.grows * ((nearest.0 - handle.value).mm() / handle.rate);
    snap::line_across(ui.painter(), paper, there, handle.grows, &nearest.1);
    Some(nearest.0)
}

/// Shows a handle that moves both ways; gives the new place, of which `now` is the old one in any units of mm.
pub(super) fn shift(
    ui: &mut Ui,
    paper: &Paper,
    unit: Unit,
    (key, name): (&str, &str),
    at: P2,
    now: V2,
) -> Option<Pulled<V2>> {
    let response = knob(ui, paper, key, name, at).on_hover_and_drag_cursor(CursorIcon::Move);
    mark(ui, &response, Vec2::ZERO);
    moved(ui, paper, unit, &response, now)
}

/// Where something that is dragged or nudged goes; `now` is where it is.
///
/// A drag counts from where the thing was when it was picked up, so that a picture that lags behind does no harm.
fn moved(ui: &Ui, paper: &Paper, unit: Unit, response: &Response, now: V2) -> Option<Pulled<V2>> {
    if let Some((start, drag)) = dragged(ui, response, now) {
        return Some(Pulled { value: start + paper.span(drag), gesture: Some(response.id) });
    }
    let way = keys(ui, response)?;
    (way != V2::zeros()).then(|| Pulled { value: now + way * step(unit).mm(), gesture: None })
}

fn knob(ui: &mut Ui, paper: &Paper, key: &str, name: &str, at: P2) -> Response {
    let rect = Rect::from_center_size(paper.at(at), Vec2::splat(24.0));
    let response = ui.interact(rect, ui.scope_id().with(("handle", key)), Sense::click_and_drag());
    if response.clicked() {
        response.request_focus();
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    response
}

/// A little bun with a ring round it when it has the keyboard.
fn mark(ui: &Ui, response: &Response, way: Vec2) {
    let palette = Palette::of(ui.ctx());
    let (centre, painter) = (response.rect.center(), ui.painter());
    let busy = response.hovered() || response.dragged();
    let size =
        if way == Vec2::ZERO { vec2(12.0, 12.0) } else { vec2(8.0, 8.0) + 10.0 * vec2(way.y.abs(), way.x.abs()) };
    let bun = Rect::from_center_size(centre, size * if busy { 1.2 } else { 1.0 });
    painter.rect(bun, 5.0, palette.accent, Stroke::new(1.5, palette.paper), StrokeKind::Outside);
    if response.has_focus() {
        painter.rect_stroke(bun.expand(4.0), 7.0, Stroke::new(2.0, palette.accent), StrokeKind::Outside);
    }
}

/// While something is dragged: the value kept when the drag began, and the whole drag so far.
fn dragged(ui: &Ui, response: &Response, now: V2) -> Option<(V2, Vec2)> {
    let id = response.id.with(tr!("picked up"));
    if response.drag_started() {
        ui.data_mut(|d| d.insert_temp(id, [now.x, now.y]));
    }
    let drag = whole_drag(ui, response)?;
    let start = ui.data(|d| d.get_temp::<[f64; 2]>(id)).map_or(now, |[x, y]| V2::new(x, y));
    Some((start, drag))
}

/// While something is dragged: the whole drag so far.
pub(super) fn whole_drag(ui: &Ui, response: &Response) -> Option<Vec2> {
    let (origin, pointer) = ui.input(|i| (i.pointer.press_origin(), i.pointer.latest_pos()));
    if response.dragged() { Some(pointer? - origin?) } else { None }
}

/// Arrow keys on something that has the keyboard: steps in the drawing, ten with shift.
pub(super) fn keys(ui: &Ui, response: &Response) -> Option<V2> {
    if !response.has_focus() {
        return None;
    }
    let filter = egui::EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
    ui.memory_mut(|m| m.set_focus_lock_filter(response.id, filter));
    ui.input(|i| {
        let ways = [
            (Key::ArrowLeft, V2::new(-1.0, 0.0)),
            (Key::ArrowRight, V2::new(1.0, 0.0)),
            (Key::ArrowUp, V2::new(0.0, 1.0)),
            (Key::ArrowDown, V2::new(0.0, -1.0)),
        ];
        let sum: V2 = ways.iter().filter(|(key, _)| i.key_pressed(*key)).map(|(_, way)| way).sum();
        Some(sum * if i.modifiers.shift { 10.0 } else { 1.0 })
    })
}
