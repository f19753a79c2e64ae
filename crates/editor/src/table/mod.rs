//! The drawing table: the plan and every face, flat, with sizes and handles.

mod beside;
mod carry;
mod catch;
mod dimension;
mod draw;
mod face;
mod face_handles;
mod guests;
mod guides;
mod handle;
mod measure;
mod members;
mod opening_handles;
pub(crate) mod ornaments;
mod paper;
mod plan;
mod plan_handles;
mod snap;
mod stress;
mod strip;

pub(crate) use dimension::letter;
pub(crate) use draw::drawing;
use gable_words::tr;
pub(crate) use handle::rounded;
pub(crate) use members::{Member, members, movers};
pub(crate) use paper::Paper;

use crate::fields::Form;
use crate::selection::Selection;
use crate::several::Company;
use crate::theme::Palette;
use egui::{Key, PointerButton, Rect, Response, Sense, Ui, WidgetInfo, accesskit::Role, vec2};
use gable_drawing::Drawing;
use gable_dress::Dressed;
use gable_plane::{P2, V2};
use gable_shell::{House, PieceId, Solved};
use measure::Measured;
use std::collections::BTreeMap;

/// What lies on the table.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Sheet {
    /// The plan of the house.
    #[default]
    Plan,
    /// One face.
    Face(PieceId),
}

/// What is on the table and how it is looked at.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    /// What lies on it.
    pub(crate) sheet: Sheet,
    zoom: f32,
    /// How far the drawing is moved, mm.
    pan: V2,
    /// What is measured, while something is.
    measured: Option<Measured>,
    /// Box that fills the table at zoom 1. Kept while something is dragged, so that the paper lies still.
    frame: Option<(P2, P2)>,
}

impl Default for Table {
    fn default() -> Self {
        Self { sheet: Sheet::Plan, zoom: 1.0, pan: V2::zeros(), measured: None, frame: None }
    }
}

/// How far an arrow key moves the drawing, in points.
const STEP: f64 = 40.0;

/// A drag or a key on a handle.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Gesture(pub(crate) Option<egui::Id>);

/// What the table works on.
pub(super) struct Desk<'a, 'b> {
    pub(super) solved: &'a Solved,
    /// What is put on it and beside it.
    pub(super) dressed: &'a Dressed,
    pub(super) house: &'a mut House,
    pub(super) form: &'a mut Form<'b>,
    pub(super) selection: &'a mut Selection,
    /// What is selected with it.
    pub(super) company: &'a mut Company,
    /// What lies on the table.
    pub(super) sheet: &'a Sheet,
    /// What of it can be selected together.
    pub(super) members: &'a [Member],
    pub(super) gesture: Gesture,
    pub(super) palette: Palette,
}

impl Table {
    /// Shows all of the drawing again.
    pub(crate) fn fit(&mut self) {
        (self.zoom, self.pan, self.frame) = (1.0, V2::zeros(), None);
    }

    /// Begins to measure, or ends it.
    pub(crate) fn switch_measuring(&mut self) {
        self.measured = if self.measured.is_none() { Some(Measured::default()) } else { None };
    }

    /// Whether clicks measure.
    pub(crate) fn is_measuring(&self) -> bool {
        self.measured.is_some()
    }

    /// Corners of what lies on the table.
    fn corners(&self, solved: &Solved) -> Vec<P2> {
        match &self.sheet {
            Sheet::Plan => plan::corners(solved),
            Sheet::Face(id) => solved.pieces.iter().find(|p| &p.id == id).map_or_else(Vec::new, face::corners),
        }
    }

    /// Puts another drawing on the table.
    pub(crate) fn lay(&mut self, sheet: Sheet) {
        if self.sheet != sheet {
            self.sheet = sheet;
            self.measured = self.measured.map(|_| Measured::default());
            self.fit();
        }
    }

    /// Shows the table, with maps of what is asked of biscuit if there are any. Changes to the house are told by the form; the gesture
    /// tells which drag they belong to.
    pub(crate) fn show(
        &mut self,
        ui: &mut Ui,
        (solved, dressed, maps): (&Solved, &Dressed, Option<&BTreeMap<PieceId, Drawing>>),
        house: &mut House,
        form: &mut Form<'_>,
        (selection, company): (&mut Selection, &mut Company),
    ) -> Gesture {
        self.strip(ui, solved, selection);
        let size = ui.available_size().max(vec2(60.0, 60.0));
        let (rect, response) = ui.allocate_exact_size(size, Sense::click_and_drag());
        let palette = Palette::of(ui.ctx());
        let edge = egui::Stroke::new(1.0, palette.edge);
        ui.painter().rect(rect, 8.0, palette.paper, edge, egui::StrokeKind::Inside);
        let mapped = matches!(&self.sheet, Sheet::Face(id) if maps.is_some_and(|maps| maps.contains_key(id)));
        let with = if mapped { tr!(", with what is asked of its biscuit") } else { "" };
        let name = tr!("Drawing table: {}{with}", self.title(solved));
        response.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, &name));
        let Some(bounds) = self.bounds(solved, dressed) else { return Gesture::default() };
        let pressed = ui.input(|i| i.pointer.any_down());
        if !pressed || self.frame.is_none() {
            self.frame = Some(bounds);
        }
        let paper = self.paper(ui, rect, &response, bounds);
        let members = members((solved, dressed), house, &self.sheet);
        let (sheet, gesture) = (&self.sheet, Gesture::default());
        let mut desk =
            Desk { solved, dressed, house, form, selection, company, sheet, members: &members, gesture, palette };
        let mut inner = ui.new_child(egui::UiBuilder::new().max_rect(rect).id_salt("sheet"));
        inner.set_clip_rect(rect.intersect(ui.clip_rect()));
        match &self.sheet {
            Sheet::Plan => plan::show(&mut inner, &paper, &mut desk, &response),
            Sheet::Face(id) => {
                if let Some(piece) = solved.pieces.iter().find(|p| &p.id == id) {
                    let map = maps.and_then(|maps| maps.get(id));
                    face::show(&mut inner, &paper, &mut desk, (piece, map), &response);
                    if maps.is_some() {
                        stress::key(&inner, rect, map.is_some(), &palette);
                    }
                }
            }
        }
        catch::show(&inner, &paper, &mut desk, &response);
        let (gesture, unit) = (desk.gesture, desk.house.unit);
        let corners = self.corners(solved);
        if let Some(measured) = &mut self.measured {
            measure::show(&mut inner, &paper, (measured, &corners), unit);
        }
        gesture
    }

    fn title(&self, solved: &Solved) -> String {
        match &self.sheet {
            Sheet::Plan => tr!("a drawing" => "plan").to_owned(),
            Sheet::Face(id) => solved.pieces.iter().find(|p| &p.id == id).map_or_else(String::new, |p| p.name.clone()),
        }
    }

    fn bounds(&self, solved: &Solved, dressed: &Dressed) -> Option<(P2, P2)> {
        match &self.sheet {
            Sheet::Plan => plan::bounds(solved, dressed),
            Sheet::Face(id) => solved.pieces.iter().find(|p| &p.id == id).and_then(face::bounds),
        }
    }

    /// The buttons that choose what lies on the table.
    fn strip(&mut self, ui: &mut Ui, solved: &Solved, selection: &mut Selection) {
        if matches!(&self.sheet, Sheet::Face(id) if solved.pieces.iter().all(|p| &p.id != id)) {
            self.lay(Sheet::Plan);
        }
        let names: Vec<String> = solved.pieces.iter().map(|p| face::short_name(p, solved)).collect();
        let chosen = if strip::fits(ui, &names) {
            strip::buttons(ui, &names, self.laid(solved))
        } else {
            strip::list(ui, &names, self.laid(solved))
        };
        match chosen {
            Some(None) => self.lay(Sheet::Plan),
            Some(Some(k)) => {
                if let Some(piece) = solved.pieces.get(k) {
                    *selection = Selection::of_piece(piece);
                    self.lay(Sheet::Face(piece.id.clone()));
                }
            }
            None => {}
        }
    }

    /// Number of the piece that lies on the table; `None` for the plan.
    fn laid(&self, solved: &Solved) -> Option<usize> {
        match &self.sheet {
            Sheet::Plan => None,
            Sheet::Face(id) => solved.pieces.iter().position(|p| &p.id == id),
        }
    }

    /// Arrow keys move the drawing, plus and minus step nearer and back.
    fn keys(&mut self, ui: &Ui, response: &Response, paper: &Paper) {
        let filter = egui::EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
        ui.memory_mut(|m| m.set_focus_lock_filter(response.id, filter));
        let line = egui::Stroke::new(2.0, Palette::of(ui.ctx()).accent);
        ui.painter().rect_stroke(response.rect.shrink(1.0), 8.0, line, egui::StrokeKind::Inside);
        let pressed = |key| ui.input(|i| i.key_pressed(key));
        let ways = [
            (Key::ArrowLeft, V2::new(-1.0, 0.0)),
            (Key::ArrowRight, V2::new(1.0, 0.0)),
            (Key::ArrowUp, V2::new(0.0, 1.0)),
            (Key::ArrowDown, V2::new(0.0, -1.0)),
        ];
        let way: V2 = ways.iter().filter(|(key, _)| pressed(*key)).map(|(_, way)| way).sum();
        self.pan += way * (STEP / f64::from(paper.scale));
        let nearer = if pressed(Key::Plus) || pressed(Key::Equals) { 1.15 } else { 1.0 };
        let back = if pressed(Key::Minus) { 1.15 } else { 1.0 };
        self.zoom = (self.zoom * nearer / back).clamp(0.2, 20.0);
    }

    fn paper(&mut self, ui: &Ui, rect: Rect, response: &Response, bounds: (P2, P2)) -> Paper {
        // Room for dimensions, whose words lie level.
        let part = rect.size() * 0.17;
        let margin = vec2(part.x.clamp(72.0, 110.0), part.y.clamp(46.0, 90.0));
        let mut paper = Paper::fitted(rect, self.frame.unwrap_or(bounds), margin);
        let whole = paper.scale;
        paper.scale *= self.zoom;
        if response.dragged_by(PointerButton::Middle) || response.dragged_by(PointerButton::Secondary) {
            self.pan -= paper.span(response.drag_delta());
        }
        if response.hovered() {
            let (wheel, pinch) = ui.input(|i| (i.smooth_scroll_delta().y, i.zoom_delta()));
            self.zoom = (self.zoom * pinch * (wheel * 0.003).exp()).clamp(0.2, 20.0);
            paper.scale = whole * self.zoom;
        }
        if response.double_clicked() {
            self.fit();
        }
        if response.has_focus() {
            self.keys(ui, response, &paper);
            paper.scale = whole * self.zoom;
        }
        paper.middle += self.pan;
        paper
    }
}
