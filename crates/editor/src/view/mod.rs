//! The view: the house in space, to be turned, folded and clicked on.

mod camera;
mod inside;
mod letters;
mod model;
mod parts;
mod pick;
mod scene;
mod section;
mod signs;
mod stage;
mod switches;
mod things;

use gable_words::tr;
pub(crate) use stage::close;

use crate::marks::{Mark, Marking, Marks};
use crate::theme::Palette;
use camera::Camera;
pub(crate) use camera::Direction;
use egui::{
    Align, Align2, FontId, Key, Layout, PointerButton, Rect, Response, Sense, Slider, Ui, UiBuilder, WidgetInfo,
    accesskit::Role, vec2,
};
use gable_dress::Dressed;
use gable_measure::Finding;
use gable_mesh::Fold;
use gable_plane::Rigid;
use gable_raise::{Guide, Stuck};
use gable_shell::{House, Remedy, Solved};
use model::Model;
pub(crate) use model::Thing;
pub(crate) use pick::Picked;
use scene::Scene;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, OnceLock};

/// A house as it is shown: worked out, with its triangles.
#[derive(Clone, Debug)]
pub(crate) struct Shown {
    /// Number of the answer: another number, another house.
    pub(crate) number: u64,
    /// Worked out.
    pub(crate) solved: Arc<Solved>,
    /// What is put on its pieces.
    pub(crate) dressed: Arc<Dressed>,
    /// As triangles.
    pub(crate) model: Arc<Model>,
    /// The way from flat to standing. Finding it takes many times as long as all else, so it may come later.
    fold: Arc<OnceLock<Option<Fold>>>,
    /// What puts findings right, once it has been looked for.
    remedies: Arc<OnceLock<Vec<Remedy>>>,
    /// How it is put up, once that is known; with what there is to say of it.
    raising: Arc<OnceLock<Raising>>,
}

/// How a house is put up, with what there is to say of it.
type Raising = (Option<Result<Guide, Stuck>>, Vec<Finding>);

impl Shown {
    /// Works a house out.
    pub(crate) fn of(number: u64, house: &House) -> Self {
        let solved = gable_shell::solve(house);
        let dressed = gable_dress::dress(house, &solved);
        let model = Arc::new(Model::of(&solved, &dressed));
        Self {
            number,
            model,
            fold: Arc::default(),
            remedies: Arc::default(),
            raising: Arc::default(),
            dressed: Arc::new(dressed),
            solved: Arc::new(solved),
        }
    }

    /// Finds the way from flat to standing, unless it is known. `None` by a fault of the program, which must not cost the
    /// person the house: it then only stands.
    pub(crate) fn find_fold(&self) -> Option<&Fold> {
        let find = || catch_unwind(AssertUnwindSafe(|| Fold::of(&self.solved))).ok();
        self.fold.get_or_init(find).as_ref()
    }

    /// Looks for what puts findings right, as long as `go_on` says so; what is half found is not kept. A fault of the program
    /// leaves the findings without remedies.
    pub(crate) fn find_remedies(&self, house: &House, go_on: impl Fn() -> bool) {
        let find = || gable_shell::remedies(house, &self.solved, &go_on);
        let found = catch_unwind(AssertUnwindSafe(find)).unwrap_or_default();
        if go_on() {
            self.remedies.get_or_init(|| found);
        }
    }

    /// Finds how the house is put up. A fault of the program costs no more than that.
    pub(crate) fn find_raising(&self) {
        let find = || {
            let guide = Guide::of(&self.solved);
            let built = self.solved.blocking().next().is_none();
            let told = match &guide {
                Ok(guide) if built => guide.findings(&self.solved),
                _ => gable_raise::check(&self.solved),
            };
            (Some(guide), told)
        };
        self.raising.get_or_init(|| catch_unwind(AssertUnwindSafe(find)).unwrap_or_default());
    }

    /// How the house is put up, once that is known.
    pub(crate) fn guide(&self) -> Option<&Result<Guide, Stuck>> {
        self.raising.get().and_then(|(guide, _)| guide.as_ref())
    }

    /// What there is to say of how it is put up, as far as that is known.
    pub(crate) fn raising_findings(&self) -> &[Finding] {
        self.raising.get().map(|(_, told)| told.as_slice()).unwrap_or_default()
    }

    /// What puts findings right, as far as it is known.
    pub(crate) fn remedies(&self) -> &[Remedy] {
        self.remedies.get().map(Vec::as_slice).unwrap_or_default()
    }

    /// Where the pieces are, from flat on the table (0) to standing (1); standing while the way is not known.
    fn pose(&self, fold: f64) -> Vec<Rigid> {
        let way = self.fold.get().and_then(Option::as_ref).filter(|_| fold < 1.0);
        let standing = || self.solved.pieces.iter().map(|p| p.house_from_piece).collect();
        way.map_or_else(standing, |way| way.at(fold))
    }
}

/// Number of a house, its fold, and whether the way of folding is known.
type PoseKey = (u64, f64, bool);

/// What letters depend on: house and fold, eye, picture, chosen pieces.
type LettersKey = (PoseKey, Camera, Rect, Vec<bool>);

/// What signs depend on: what letters do, left-out pieces instead of chosen ones, and what is told.
type SignsKey = (LettersKey, Vec<Option<Mark>>);

/// How high the eye stands over a standing house, and over pieces on the table, radians.
const STANDING: f64 = 0.42;
const FLAT: f64 = 1.15;

/// How the house is looked at.
#[derive(Clone, Debug)]
pub(crate) struct View {
    camera: Camera,
    /// From flat on the table (0) to standing (1).
    fold: f64,
    icing: bool,
    /// Whether only what is selected is shown.
    only: bool,
    /// Whether it is evening.
    evening: bool,
    /// By what pieces are coloured, if they are.
    marking: Option<Marking>,
    /// What is told of each piece.
    marks: Marks,
    signs: Option<(SignsKey, Vec<signs::Sign>)>,
    /// Where the house is cut through.
    cut: Option<section::Section>,
    /// The house as it was cut last.
    cut_house: Option<section::Kept>,
    /// Whether walls are seen through.
    clear: bool,
    /// How many stages of the assembly stand, while that is shown; counted from 1.
    stage: Option<usize>,
    /// Whether joints show their letters.
    lettered: bool,
    letters: Option<(LettersKey, Vec<letters::Letter>)>,
    fit_asked: bool,
    /// What was fitted: shape of the picture, house and fold; `None` once the person has stepped
    /// nearer or aside.
    fitted: Option<(f32, u64, f64)>,
    /// Whether the person has chosen how high the eye stands.
    turned: bool,
    pose: Option<(PoseKey, Arc<Vec<Rigid>>)>,
    /// Whether nothing but the picture is shown, because it is saved; where it was drawn so.
    pub(super) bare: (bool, Option<Rect>),
    /// Number of the house that was prepared for the graphics card.
    prepared: Option<u64>,
    /// The last house of which the fold was known.
    folding: Option<Shown>,
}

/// The button in the corner of the picture that shows all of it.
fn whole_house(ui: &mut Ui, picture: Rect) -> bool {
    let corner =
        Rect::from_min_max(picture.right_bottom() - vec2(130.0, 40.0), picture.right_bottom() - vec2(8.0, 8.0));
    let mut inner = ui.new_child(UiBuilder::new().max_rect(corner).layout(Layout::right_to_left(Align::Max)));
    inner.button(tr!("Whole house")).on_hover_text(tr!("Step back until all of it is in the picture")).clicked()
}

/// The button in the other corner that ends showing only what is selected.
fn everything(ui: &mut Ui, picture: Rect) -> bool {
    let corner =
        Rect::from_min_max(picture.left_bottom() + vec2(8.0, -40.0), picture.left_bottom() + vec2(150.0, -8.0));
    let mut inner = ui.new_child(UiBuilder::new().max_rect(corner).layout(Layout::left_to_right(Align::Max)));
    inner.button(tr!("Show everything")).on_hover_text(tr!("Only what is selected is shown")).clicked()
}

impl Default for View {
    fn default() -> Self {
        Self {
            camera: Camera::default(),
            fold: 1.0,
            icing: true,
            only: false,
            evening: false,
            marking: None,
            marks: Marks::default(),
            signs: None,
            cut: None,
            cut_house: None,
            clear: false,
            stage: None,
            lettered: false,
            letters: None,
            fit_asked: true,
            fitted: None,
            turned: false,
            pose: None,
            bare: (false, None),
            prepared: None,
            folding: None,
        }
    }
}

impl View {
    /// Steps back until the whole house is in the picture, at the next frame.
    pub(crate) fn fit(&mut self) {
        self.fit_asked = true;
    }

    /// Folds: flat on the table (0), standing (1).
    pub(crate) fn fold_to(&mut self, fold: f64) {
        (self.fold, self.fit_asked, self.turned) = (fold, true, false);
    }

    /// Whether the house is not just standing.
    pub(crate) fn is_folded(&self) -> bool {
        self.fold < 1.0
    }

    /// The house to show: the latest, or the last one that can be folded until the fold of the latest is known. `aside`
    /// tells that somebody is finding it.
    pub(crate) fn shown(&mut self, latest: &Shown, aside: bool) -> Shown {
        if !self.is_folded() {
            return latest.clone();
        }
        if aside && latest.fold.get().is_none() {
            return self.folding.as_ref().unwrap_or(latest).clone();
        }
        latest.find_fold();
        self.folding = Some(latest.clone());
        latest.clone()
    }

    /// Forgets the last house.
    pub(crate) fn clear(&mut self) {
        self.folding = None;
        self.fit();
    }

    /// Shows the view. `drawn` is false where there is no graphics driver. Of pieces and things those that are
    /// selected are marked. Returns what was clicked.
    pub(crate) fn show(
        &mut self,
        ui: &mut Ui,
        shown: &Shown,
        (chosen, things): (Vec<bool>, &[Thing]),
        drawn: bool,
    ) -> Option<Picked> {
        let pose = self.pose_of(shown);
        let standing = self.standing(shown);
        // What is new in a stage stands out as what is selected does otherwise.
        let chosen = match &standing {
            Some(all) => all.iter().map(|s| *s == inside::Standing::New).collect(),
            None => chosen,
        };
        let size = ui.available_size().max(vec2(60.0, 60.0));
        let (rect, response) = ui.allocate_exact_size(size, Sense::click_and_drag());
        let count = shown.solved.pieces.len();
        let marked = if self.marks.words.is_empty() { String::new() } else { format!(" {}", self.marks.words) };
        let name = tr!("The house in space, one piece.{marked} Arrow keys walk round, plus and minus step nearer."
            | "The house in space, {n} pieces.{marked} Arrow keys walk round, plus and minus step nearer." % count);
        response.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, &name));
        let shape = rect.width() / rect.height();
        // While a size is dragged the picture holds still, so that one sees it grow.
        let held = ui.input(|i| i.pointer.any_down());
        let now = (shape, shown.number, self.fold);
        self.fit_asked |=
            self.fitted.is_some_and(|(s, n, f)| s != shape || f != self.fold || (n != shown.number && !held));
        if std::mem::take(&mut self.fit_asked) {
            if !self.turned {
                // What lies flat is looked at from higher up.
                self.camera.above = STANDING + (FLAT - STANDING) * (1.0 - self.fold);
            }
            if self.camera.fit(&shown.model.outermost(&pose), f64::from(shape)) {
                self.fitted = Some(now);
            }
        }
        let before = self.camera;
        self.steer(ui, &response);
        let there = |c: &Camera| (c.target, c.distance);
        if there(&self.camera) != there(&before) {
            self.fitted = None;
        }
        self.turned |= self.camera.above != before.above;
        let hidden = match standing {
            Some(all) => all.iter().map(|s| *s == inside::Standing::Not).collect(),
            None => self.hidden(&chosen),
        };
        let cut = self.cut.and_then(|section| {
            let key = (shown.number, self.fold, shown.fold.get().is_some());
            section::cut_off(shown, (key, &pose), section, self.camera.eye(), &mut self.cut_house)
        });
        let shown = cut.as_ref().unwrap_or(shown);
        // What is selected is marked for who works on it, not in a picture.
        let edged = if self.bare.0 && self.stage.is_none() { vec![false; chosen.len()] } else { chosen.clone() };
        self.paint(ui, rect, shown, Arc::clone(&pose), (edged, hidden.clone()), drawn);
        if self.lettered {
            self.letter(ui, rect, shown, &pose, chosen);
        }
        if !self.marks.of.is_empty() {
            self.sign(ui, rect, shown, &pose, &hidden);
        }
        if self.bare.0 {
            self.bare.1 = Some(rect);
            return None;
        }
        if response.has_focus() {
            let line = egui::Stroke::new(2.0, Palette::of(ui.ctx()).accent);
            ui.painter().rect_stroke(rect.shrink(1.0), 8.0, line, egui::StrokeKind::Inside);
        }
        let dressed = self.fold > 0.999 && !hidden.contains(&true);
        if dressed {
            let painter = ui.painter().with_clip_rect(rect);
            things::outline(&painter, (&self.camera, rect), (&shown.model, things), Palette::of(ui.ctx()).selected);
        }
        self.fit_asked |= self.fitted.is_none() && whole_house(ui, rect);
        if self.stage.is_none() && hidden.iter().any(|h| *h) && everything(ui, rect) {
            self.only = false;
        }
        let at = response.interact_pointer_pos().filter(|_| response.clicked())?;
        pick::pick(&shown.model, &pose, (&hidden, dressed), &self.camera.ray(rect, at))
    }

    /// The switches over the picture.
    pub(crate) fn controls(&mut self, ui: &mut Ui) {
        ui.horizontal(|ui| {
            if ui.button(tr!("Flat")).on_hover_text(tr!("Every piece on the table")).clicked() {
                self.fold_to(0.0);
            }
            // Room for what follows on the right.
            ui.spacing_mut().slider_width = (ui.available_width() - 280.0).clamp(40.0, 260.0);
            let slider = ui.add(Slider::new(&mut self.fold, 0.0..=1.0).show_value(false));
            let fold = self.fold;
            slider.widget_info(|| WidgetInfo::slider(true, fold, tr!("Fold up")));
            slider.on_hover_text(tr!("Fold up: from flat on the table to standing"));
            if ui.button(tr!("Standing")).on_hover_text(tr!("The finished house")).clicked() {
                self.fold_to(1.0);
            }
            ui.checkbox(&mut self.icing, tr!("Icing")).on_hover_text(tr!("Show the icing of a standing house"));
            let tip = tr!("Show the letters of the joints; of what is selected alone if something is");
            ui.checkbox(&mut self.lettered, tr!("Letters")).on_hover_text(tip);
        });
    }

    /// Letters of joints over the picture, worked out anew only when something has moved.
    fn letter(&mut self, ui: &Ui, picture: Rect, shown: &Shown, pose: &[Rigid], chosen: Vec<bool>) {
        let standing = (shown.number, self.fold, shown.fold.get().is_some());
        let key = (standing, self.camera, picture, chosen);
        if self.letters.as_ref().is_none_or(|(old, _)| *old != key) {
            let shot = letters::Shot {
                solved: &shown.solved,
                model: &shown.model,
                pose,
                standing: self.fold > 0.999,
                chosen: &key.3,
                camera: &self.camera,
                picture,
            };
            let found = letters::letters(&shot);
            self.letters = Some((key, found));
        }
        let (painter, palette) = (ui.painter().with_clip_rect(picture), Palette::of(ui.ctx()));
        for (at, word) in self.letters.iter().flat_map(|(_, letters)| letters) {
            crate::table::letter(&painter, *at, word, &palette);
        }
    }

    /// Signs on coloured pieces with their key, worked out anew only when something has moved.
    fn sign(&mut self, ui: &Ui, picture: Rect, shown: &Shown, pose: &[Rigid], hidden: &[bool]) {
        let standing = (shown.number, self.fold, shown.fold.get().is_some());
        let key = ((standing, self.camera, picture, hidden.to_vec()), self.marks.of.clone());
        if self.signs.as_ref().is_none_or(|(old, _)| *old != key) {
            let shot = letters::Shot {
                solved: &shown.solved,
                model: &shown.model,
                pose,
                standing: self.fold > 0.999,
                chosen: hidden,
                camera: &self.camera,
                picture,
            };
            let found = signs::signs(&shot, &self.marks.of);
            self.signs = Some((key, found));
        }
        let (painter, palette) = (ui.painter().with_clip_rect(picture), Palette::of(ui.ctx()));
        let all = self.signs.iter().flat_map(|(_, signs)| signs);
        signs::paint(&painter, picture, (all, &self.marks), &palette);
    }

    fn pose_of(&mut self, shown: &Shown) -> Arc<Vec<Rigid>> {
        let key = (shown.number, self.fold, shown.fold.get().is_some());
        match &self.pose {
            Some((old, pose)) if *old == key => Arc::clone(pose),
            _ => {
                let pose = Arc::new(shown.pose(self.fold));
                self.pose = Some((key, Arc::clone(&pose)));
                pose
            }
        }
    }

    fn steer(&mut self, ui: &Ui, response: &Response) {
        let shift = ui.input(|i| i.modifiers.shift);
        let drag = response.drag_delta();
        if response.dragged_by(PointerButton::Primary) && !shift {
            self.camera.turn(drag);
        } else if response.dragged() {
            self.camera.pan(drag, response.rect.height());
        }
        if response.hovered() {
            let (wheel, pinch) = ui.input(|i| (i.smooth_scroll_delta().y, i.zoom_delta()));
            self.camera.zoom(f64::from(pinch) * (f64::from(wheel) * 0.003).exp());
        }
        if response.has_focus() {
            self.keys(ui, response);
        }
    }

    fn keys(&mut self, ui: &Ui, response: &Response) {
        let filter = egui::EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
        ui.memory_mut(|m| m.set_focus_lock_filter(response.id, filter));
        let step = 12.0;
        let moves = [
            (Key::ArrowLeft, vec2(step, 0.0)),
            (Key::ArrowRight, vec2(-step, 0.0)),
            (Key::ArrowUp, vec2(0.0, step)),
            (Key::ArrowDown, vec2(0.0, -step)),
        ];
        let shift = ui.input(|i| i.modifiers.shift);
        for (_, way) in moves.into_iter().filter(|(key, _)| ui.input(|i| i.key_pressed(*key))) {
            if shift {
                self.camera.pan(way, response.rect.height());
            } else {
                self.camera.turn(way);
            }
        }
        let nearer = ui.input(|i| i.key_pressed(Key::Plus) || i.key_pressed(Key::Equals));
        let farther = ui.input(|i| i.key_pressed(Key::Minus));
        let pages = ui.input(|i| (i.key_pressed(Key::PageUp), i.key_pressed(Key::PageDown)));
        self.page(f64::from(u8::from(pages.0)) - f64::from(u8::from(pages.1)));
        self.camera.zoom(if nearer { 1.15 } else { 1.0 } / if farther { 1.15 } else { 1.0 });
    }

    fn paint(
        &self,
        ui: &Ui,
        rect: Rect,
        shown: &Shown,
        pose: Arc<Vec<Rigid>>,
        pieces: (Vec<bool>, Vec<bool>),
        drawn: bool,
    ) {
        let palette = Palette::of(ui.ctx());
        let painter = ui.painter().with_clip_rect(rect);
        let round = if self.bare.0 { 0.0 } else { 8.0 };
        painter.rect_filled(rect, round, if self.evening { palette.dusk } else { palette.sky });
        if shown.solved.pieces.is_empty() || !drawn {
            let words = if drawn { tr!("Nothing to see yet.") } else { tr!("The picture needs a screen.") };
            painter.text(rect.center(), Align2::CENTER_CENTER, words, FontId::proportional(15.0), palette.ink);
            return;
        }
        let inner = if self.bare.0 { rect } else { rect.shrink(3.0) };
        painter.add(stage::callback(inner, self.scene(shown, pose, pieces, palette.theme)));
    }

    fn scene(
        &self,
        shown: &Shown,
        pose: Arc<Vec<Rigid>>,
        (chosen, hidden): (Vec<bool>, Vec<bool>),
        theme: gable_mesh::Theme,
    ) -> Scene {
        let walls = shown.solved.pieces.iter().map(|p| self.clear && p.role.is_upright());
        Scene {
            hidden,
            clear: walls.collect(),
            cut: self.cut.and(self.cut_house.as_ref()).map_or(0, |k| k.number),
            evening: self.evening,
            tones: self.marks.of.iter().map(|mark| mark.as_ref().map(|m| m.tone)).collect(),
            number: shown.number,
            model: Arc::clone(&shown.model),
            pose,
            chosen,
            icing: self.icing && self.fold > 0.999,
            standing: self.fold > 0.999,
            camera: self.camera,
            theme,
        }
    }

    /// Makes all that the graphics card is given, unless it was made before; how many corners that is.
    pub(crate) fn prepare(&mut self, shown: &Shown) -> usize {
        if self.prepared.replace(shown.number) == Some(shown.number) {
            return 0;
        }
        let pose = self.pose_of(shown);
        let chosen = vec![false; shown.solved.pieces.len()];
        let hidden = chosen.clone();
        parts::count(&self.scene(shown, pose, (chosen, hidden), gable_mesh::Theme::Light))
    }
}
