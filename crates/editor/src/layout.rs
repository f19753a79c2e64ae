//! Where things stand in the window: parts and sizes on the left, drawing table and view in the middle, what we
//! noticed below.

use crate::actions::Action;
use crate::app::Editor;
use crate::dialogs;
use crate::fields::Form;
use crate::marks::{Marking, Marks};
use crate::panels::{self, Added, Heeded, Notice, TopBar};
use crate::selection::Selection;
use crate::several::Company;
use crate::table::{Gesture, Sheet};
use crate::theme::{Palette, TARGET};
use crate::view::{Picked, Shown, Thing};
use egui::{
    Button, CentralPanel, CursorIcon, Frame, Key, Margin, Panel, Rect, ScrollArea, Sense, Ui, WidgetInfo, vec2,
};
use gable_measure::{Severity, Unit};
use gable_shell::{House, PartId, Piece, PieceId, Role};
use gable_words::tr;
use std::collections::BTreeMap;

/// What is shown where there is room for one, and how room for two is shared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Layout {
    /// What is shown below.
    lower: Lower,
    /// The drawing table instead of the view, where there is no room for both.
    table: bool,
    /// What is shown where there is room for only one thing.
    only: Only,
    /// How much of the room for both the view has.
    share: f32,
}

impl Layout {
    /// Shows the house in space, where it may be turned away.
    pub(crate) fn turn_to_view(&mut self) {
        (self.table, self.only) = (false, Only::View);
    }
}

impl Default for Layout {
    fn default() -> Self {
        Self { lower: Lower::Noticed, table: false, only: Only::View, share: 0.54 }
    }
}

/// What may be shown below drawing table and view.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Lower {
    /// What the checks noticed.
    Noticed,
    /// Every piece with its size.
    Pieces,
    /// The order of assembly.
    Stages,
}

/// What may have a narrow window for itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Only {
    Parts,
    Sizes,
    Table,
    View,
    Below,
}

/// Narrower than this, everything takes turns: a small window, or large text.
const ROOM_FOR_PANELS: f32 = 660.0;

/// Lower than this, what we noticed goes to the parts and sizes' turn.
const ROOM_BELOW: f32 = 420.0;

/// Narrower than this, table and view take turns.
const ROOM_FOR_BOTH: f32 = 620.0;

/// What is changed in one frame.
struct Draft<'a> {
    house: House,
    form: Form<'a>,
    next: Selection,
    company: Company,
    /// What was asked for beside the sizes.
    asked: Option<Action>,
    gesture: Gesture,
}

/// Shows everything but the dialogs; returns what was asked for.
pub(crate) fn show(editor: &mut Editor, ui: &mut Ui) -> Option<Action> {
    let palette = Palette::of(ui.ctx());
    let mut unit = editor.house().map_or_else(Unit::default, |h| h.unit);
    let mut steps = 0;
    let bar_on_top = Panel::top("bar").frame(bar(palette.table));
    let asked = bar_on_top.show(ui, |ui| top(editor, ui, &mut unit, &mut steps)).inner;
    if steps != 0 {
        editor.go_through_history(steps);
    }
    tell(editor, ui);
    follow_standing(editor, ui);
    let Some(house) = editor.house().cloned() else {
        CentralPanel::default().frame(bar(palette.table)).show(ui, |ui| {
            // It lies there under questions too.
            let chosen = dialogs::page(ui, editor.offer.drawn());
            editor.offer.chosen = chosen.filter(|_| editor.is_opening());
        });
        return asked;
    };
    let mut fields = std::mem::take(&mut editor.fields);
    let findings = editor.findings.clone();
    let followed = panels::followed(&house, editor.selection.part());
    let form = Form {
        fields: &mut fields,
        unit: house.unit,
        findings: &findings,
        touched: None,
        followed,
        let_go: None,
        wants_outline: false,
    };
    let (next, company) = (editor.selection.clone(), editor.company.clone());
    let mut draft = Draft { house, form, next, company, asked: None, gesture: Gesture::default() };
    if unit != draft.house.unit {
        draft.house.unit = unit;
        draft.form.touch("unit", tr!("change of unit"));
    }
    if ui.available_width() < ROOM_FOR_PANELS || ui.available_height() < ROOM_BELOW {
        take_turns(editor, ui, &mut draft);
    } else {
        side_by_side(editor, ui, &mut draft);
    }
    let Draft { house, form, next, mut company, asked: wanted, gesture } = draft;
    let (touched, wants_outline) = (form.touched, form.wants_outline);
    editor.fields = fields;
    let next = next.within(&house);
    if company == editor.company {
        company.follow(&editor.selection, &next);
    }
    company.settle(&next, &house);
    if company != editor.company {
        editor.fields.clear();
    }
    editor.company = company;
    if wants_outline {
        editor.ask_outline(ui.ctx());
    }
    editor.commit(house, touched, gesture);
    if next != editor.selection {
        editor.fields.clear();
        editor.selection = next;
        lay_selected(editor);
    }
    asked.or(wanted)
}

/// What there is to tell, at the foot of the window. What goes away by itself lies over the rest, so that nothing moves
/// from under the pointer when it goes.
fn tell(editor: &mut Editor, ui: &mut Ui) {
    let Some(mut notice) = editor.notice.take() else { return };
    let fill = Palette::of(ui.ctx()).table;
    let away = if notice.passes() {
        let over =
            egui::Area::new(egui::Id::unique("notice over all")).anchor(egui::Align2::RIGHT_BOTTOM, [-12.0, -10.0]);
        let sheet = Frame::popup(ui.style()).fill(fill);
        over.show(ui.ctx(), |ui| sheet.show(ui, |ui| panels::notice(ui, &mut notice)).inner).inner
    } else {
        Panel::bottom("notice").frame(bar(fill)).show(ui, |ui| panels::notice(ui, &mut notice)).inner
    };
    if away {
        ui.ctx().request_repaint();
    } else {
        editor.notice = Some(notice);
    }
}

fn side_by_side(editor: &mut Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    let fill = Palette::of(ui.ctx()).panel;
    let left = Panel::left("parts and sizes").frame(card(fill)).default_size(348.0).size_range(280.0..=480.0);
    left.show(ui, |ui| parts_and_sizes(editor, ui, draft));
    // Lists get more room than what we noticed, which is often a line.
    let (name, room) = if editor.layout.lower == Lower::Noticed { ("noticed", 148.0) } else { ("lists", 236.0) };
    let lower = Panel::bottom(name).frame(card(fill)).resizable(true).default_size(room).min_size(70.0);
    lower.show(ui, |ui| below(editor, ui, draft));
    middle(editor, ui, draft);
}

/// One thing at a time, chosen above.
fn take_turns(editor: &mut Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    let palette = Palette::of(ui.ctx());
    let turns = Panel::top("turns").frame(bar(palette.table));
    turns.show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0;
            let noticed = tr!("Noticed ({})", editor.findings.len());
            let words = [
                (Only::Parts, tr!("Parts")),
                (Only::Sizes, tr!("Sizes")),
                (Only::Table, tr!("Drawing")),
                (Only::View, tr!("View")),
                (Only::Below, noticed.as_str()),
            ];
            for (only, words) in words {
                ui.selectable_value(&mut editor.layout.only, only, words);
            }
        });
    });
    let fill = if matches!(editor.layout.only, Only::Table | Only::View) { palette.table } else { palette.panel };
    CentralPanel::default().frame(card(fill)).show(ui, |ui| match editor.layout.only {
        Only::Parts => {
            ui.horizontal(|ui| part_buttons(editor, ui, draft));
            ScrollArea::vertical().id_salt("parts").auto_shrink([false, false]).show(ui, |ui| {
                panels::parts(ui, &draft.house, (&mut draft.next, &mut draft.company));
            });
        }
        Only::Sizes => sizes(editor, ui, draft),
        Only::Table => table(editor, ui, draft),
        Only::View => view(editor, ui, draft),
        Only::Below => below(editor, ui, draft),
    });
}

/// Puts what was selected on the table, unless a face of it lies there already.
fn lay_selected(editor: &mut Editor) {
    let Some((shown, house)) = editor.shown.as_ref().zip(editor.document.as_ref().map(|d| d.house())) else { return };
    let held: Vec<_> = shown.solved.pieces.iter().filter(|p| editor.selection.holds(p, house)).collect();
    if let Selection::Ornament(k) = &editor.selection {
        let on = |piece: &Piece| crate::table::ornaments::is_on(&shown.solved, &shown.dressed, *k, piece);
        let faces: Vec<PieceId> = shown.solved.pieces.iter().filter(|p| on(p)).map(|p| p.id.clone()).collect();
        let lies = matches!(&editor.table.sheet, Sheet::Face(id) if faces.contains(id));
        if let Some(first) = faces.into_iter().next().filter(|_| !lies) {
            editor.table.lay(Sheet::Face(first));
        }
        return;
    }
    if matches!(&editor.table.sheet, Sheet::Face(id) if held.iter().any(|p| &p.id == id) || shows(editor, id)) {
        return;
    }
    let wall = held.iter().find(|p| matches!(p.role, Role::Wall(_) | Role::Post(..))).or(held.first());
    let sheet = wall.map_or(Sheet::Plan, |p| Sheet::Face(p.id.clone()));
    editor.table.lay(sheet);
}

/// Whether a face shows the part that is selected: it is its floor or lid, or the part stands by the face's part.
fn shows(editor: &Editor, face: &PieceId) -> bool {
    let Selection::Part(id) = &editor.selection else { return false };
    let host = editor.house().and_then(|h| h.part(id)).and_then(|p| p.place.host());
    let mut pieces = editor.shown.iter().flat_map(|s| &s.solved.pieces);
    let found = pieces.find(|p| &p.id == face);
    found.is_some_and(|p| Some(&p.part) == host || Selection::of_piece(p) == editor.selection)
}

fn bar(fill: egui::Color32) -> Frame {
    Frame::new().fill(fill).inner_margin(Margin::symmetric(10, 6))
}

fn card(fill: egui::Color32) -> Frame {
    Frame::new().fill(fill).inner_margin(Margin::symmetric(12, 10))
}

/// What is switched on, for menus.
fn switched_on(editor: &Editor) -> Vec<Action> {
    let mut on = editor.view.switched_on();
    on.extend(editor.table.is_measuring().then_some(Action::Measure));
    on
}

fn top(editor: &Editor, ui: &mut Ui, unit: &mut Unit, steps: &mut isize) -> Option<Action> {
    let document = editor.document.as_ref();
    let title = document.map_or_else(String::new, |d| d.title());
    let bar = TopBar {
        title: &title,
        changed: editor.is_changed(),
        wide: ui.available_width() >= ROOM_FOR_PANELS,
        undo: document.and_then(|d| d.history().undo_name()),
        redo: document.and_then(|d| d.history().redo_name()),
        done: document.map_or_else(Vec::new, |d| d.history().done().collect()),
        undone: document.map_or_else(Vec::new, |d| d.history().undone().collect()),
        on: switched_on(editor),
        idle: editor.idle_actions(),
        has_house: document.is_some(),
    };
    panels::topbar(ui, &bar, unit, steps)
}

/// What can be done with the parts as such.
fn part_buttons(editor: &mut Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    let made = panels::add_part(ui, &mut draft.form, &mut draft.house, &editor.selection);
    let made = panels::arrange(ui, &mut draft.form, &mut draft.house, &editor.selection).or(made);
    match made {
        Some(Added::Part(selection)) => draft.next = selection,
        Some(Added::Refused(words)) => editor.notice = Some(Notice::trouble(words)),
        None => {}
    }
}

fn parts_and_sizes(editor: &mut Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    ui.heading(tr!("Parts of the house"));
    ui.horizontal(|ui| part_buttons(editor, ui, draft));
    // A whole number of rows.
    let room = ((ui.available_height() * 0.36).max(90.0) / panels::PART_ROW).floor() * panels::PART_ROW;
    ScrollArea::vertical().id_salt("parts").max_height(room).auto_shrink([false, true]).show(ui, |ui| {
        panels::parts(ui, &draft.house, (&mut draft.next, &mut draft.company));
    });
    ui.separator();
    sizes(editor, ui, draft);
}

fn sizes(editor: &Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    let held = if editor.company.is_empty() { Vec::new() } else { editor.held_together() };
    if held.len() > 1 {
        let names: Vec<Selection> = held.iter().map(|m| m.what.clone()).collect();
        ui.heading(tr!("{} selected", crate::several::count_words(&names)));
        ScrollArea::vertical().id_salt("several").auto_shrink([false, false]).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 8.0);
            draft.asked = panels::several(ui, &mut draft.form, &mut draft.house, &held);
        });
        return;
    }
    ui.heading(tr!("Sizes: {}", name_of(&editor.selection, &draft.house)));
    // A place of its own for everything that can be selected, so that each begins at its top.
    let place = ("sizes", format!("{:?}", editor.selection));
    ScrollArea::vertical().id_salt(place).auto_shrink([false, false]).show(ui, |ui| {
        ui.set_max_width(ui.available_width() - 8.0);
        let dressed = editor.shown.as_ref().map(|s| &*s.dressed);
        panels::sizes(ui, &mut draft.form, &mut draft.house, (&editor.selection, &mut draft.next), dressed);
        ui.add_space(12.0);
    });
}

fn below(editor: &mut Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    let worst = editor.findings.iter().map(|f| f.severity).max();
    ui.horizontal(|ui| {
        let count = editor.findings.len();
        let words = if count == 0 { tr!("What we noticed").to_owned() } else { tr!("What we noticed ({count})") };
        let stages = editor.shown.as_ref().and_then(|s| s.guide()?.as_ref().ok()).map(|g| g.stages.len());
        let choices = [
            (Lower::Noticed, words),
            (Lower::Pieces, tr!("Pieces ({})", editor.pieces_shown())),
            (Lower::Stages, stages.map_or_else(|| tr!("Putting it up").to_owned(), |n| tr!("Putting it up ({n})"))),
        ];
        for (lower, words) in choices {
            if ui.add(Button::selectable(editor.layout.lower == lower, words)).clicked() {
                editor.layout.lower = lower;
            }
        }
        if editor.stale {
            let words = tr!("As it is the house cannot be built; the picture shows the last one that could.");
            ui.colored_label(Palette::of(ui.ctx()).blocking, words);
        } else if let Some(worst) = worst.filter(|w| *w == Severity::Blocking) {
            ui.colored_label(Palette::of(ui.ctx()).blocking, panels::severity_word(worst));
        }
    });
    if editor.layout.lower == Lower::Stages {
        let Some(shown) = editor.shown.clone() else { return };
        if let Some(id) = panels::stages(ui, &mut draft.form, &mut draft.house, &shown) {
            choose(editor, draft, &id);
        }
        return;
    }
    if editor.layout.lower == Lower::Pieces {
        let Some(shown) = &editor.shown else { return };
        let chosen = match &editor.table.sheet {
            Sheet::Face(id) => Some(id.clone()),
            Sheet::Plan => None,
        };
        if let Some(id) = panels::pieces(ui, &shown.solved, chosen.as_ref()) {
            choose(editor, draft, &id);
        }
        return;
    }
    let pieces = editor.shown.as_ref().map(|s| s.solved.pieces.as_slice()).unwrap_or_default();
    let name = |place: &str| name_of(&Selection::of_place(place, &draft.house, pieces), &draft.house);
    let tried = editor.trying.as_ref().map(|t| &t.remedy);
    let heeded = panels::findings(ui, &editor.findings, (&draft.house, &editor.remedies, tried), name);
    if let Some(Heeded::Take(remedy)) = heeded {
        draft.next = Selection::Part(remedy.change.part().clone());
        let name = remedy.change.words(&draft.house);
        let name = name.chars().take(1).flat_map(char::to_lowercase).chain(name.chars().skip(1)).collect::<String>();
        remedy.change.apply(&mut draft.house);
        draft.form.touch("", &name);
    } else if let Some(Heeded::Try(remedy)) = heeded {
        editor.try_out(remedy);
    } else if let Some(Heeded::Show(place)) = heeded {
        draft.next = Selection::of_place(&place, &draft.house, pieces);
        let at = pieces.iter().find(|p| p.id.0 == place).or(pieces.iter().find(|p| draft.next.holds(p, &draft.house)));
        if let Some(id) = at.map(|p| p.id.clone()) {
            editor.table.lay(Sheet::Face(id));
        }
    }
}

/// Selects a piece: its sizes on the left, its face on the table.
fn choose(editor: &mut Editor, draft: &mut Draft<'_>, id: &PieceId) {
    let Some(shown) = &editor.shown else { return };
    if let Some(piece) = shown.solved.pieces.iter().find(|p| &p.id == id) {
        draft.next = Selection::of_piece(piece);
        editor.table.lay(Sheet::Face(id.clone()));
    }
}

fn middle(editor: &mut Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    let fill = Palette::of(ui.ctx()).table;
    if ui.available_width() > ROOM_FOR_BOTH {
        let width = ui.available_width() * editor.layout.share;
        let right = Panel::right("view").frame(card(fill)).resizable(false).exact_size(width);
        let edge = right.show(ui, |ui| view(editor, ui, draft)).response.rect;
        split(editor, ui, edge);
        CentralPanel::default().frame(card(fill)).show(ui, |ui| table(editor, ui, draft));
        return;
    }
    CentralPanel::default().frame(card(fill)).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.selectable_value(&mut editor.layout.table, false, tr!("The house in space"));
            ui.selectable_value(&mut editor.layout.table, true, tr!("Drawing table"));
        });
        if editor.layout.table {
            table(editor, ui, draft);
        } else {
            view(editor, ui, draft);
        }
    });
}

/// The edge between table and view can be moved; it stands at a share of the room, whatever the size of the window.
fn split(editor: &mut Editor, ui: &Ui, view: Rect) {
    let room = ui.max_rect().union(view).width();
    let grip = Rect::from_center_size(view.left_center(), vec2(TARGET, view.height()));
    let response = ui.interact(grip, ui.scope_id().with("split"), Sense::drag());
    let response = response.on_hover_and_drag_cursor(CursorIcon::ResizeHorizontal);
    let share = editor.layout.share;
    response.widget_info(|| WidgetInfo::slider(true, f64::from(share), tr!("Edge between drawing table and view")));
    let (left, right) = if response.has_focus() {
        ui.input(|i| (i.key_pressed(Key::ArrowLeft), i.key_pressed(Key::ArrowRight)))
    } else {
        (false, false)
    };
    let keys = f32::from(u8::from(right)) - f32::from(u8::from(left));
    let moved = response.drag_delta().x + keys * 20.0;
    editor.layout.share = (share - moved / room.max(1.0)).clamp(0.25, 0.75);
}

/// What is told of each piece in the picture.
fn marks(editor: &mut Editor, ui: &Ui, shown: &Shown, house: &House) -> Marks {
    match editor.view.marking() {
        None => Marks::default(),
        Some(Marking::Noticed) => {
            let revision = editor.document.as_ref().map_or(0, |d| d.revision());
            editor.noticed.of(shown, &editor.findings, (house, revision))
        }
        Some(Marking::Standing) => {
            let classes = editor.asker.last_said().map(|said| &said.classes);
            Marks::standing(&shown.solved, classes.unwrap_or(&BTreeMap::new()), editor.asker.said().is_some())
        }
        Some(Marking::Alike) => {
            let held = ui.input(|i| i.pointer.any_down());
            editor.sorted.follow(shown, house, editor.home.notes.notebook(), held);
            Marks::alike(&shown.solved, &editor.sorted)
        }
        Some(Marking::Narrow) => editor.strips.of(shown),
    }
}

/// While it is shown how well pieces will do, that is worked out beside the window.
fn follow_standing(editor: &mut Editor, ui: &Ui) {
    let Some(document) = editor.document.as_ref() else { return };
    if editor.view.marking() == Some(Marking::Standing) {
        let asked = (document.house(), document.revision(), &editor.home.baker());
        editor.asker.follow(ui.ctx(), asked);
    }
}

fn view(editor: &mut Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    let Some(latest) = editor.shown.as_ref() else {
        ui.label(tr!("Working it out…"));
        return;
    };
    let aside = editor.solver.finds_fold(editor.view.is_folded());
    let shown = editor.view.shown(latest, aside);
    // The only part of a house is all that one sees, and needs no colour.
    let whole = |id: &PartId| shown.solved.parts.len() > 1 && editor.selection == Selection::Part(id.clone());
    let beside = |p: &Piece| {
        let all = editor.company.with(&editor.selection);
        !editor.company.is_empty()
            && all.iter().any(|s| s.holds(p, &draft.house) || *s == Selection::Part(p.part.clone()))
    };
    let held = |p: &Piece| editor.selection.holds(p, &draft.house) || whole(&p.part) || beside(p);
    let chosen = shown.solved.pieces.iter().map(held).collect();
    let marks = marks(editor, ui, &shown, &draft.house);
    editor.view.mark(marks);
    editor.view.controls(ui);
    editor.view.inside(ui, &mut draft.form, &draft.house, &shown);
    let all = editor.company.with(&editor.selection);
    let things: Vec<Thing> = all.iter().filter_map(thing_of).collect();
    match editor.view.show(ui, &shown, (chosen, &things), editor.drawn) {
        Some(Picked::Piece(k)) => {
            if let Some(piece) = shown.solved.pieces.get(k) {
                choose(editor, draft, &piece.id.clone());
            }
        }
        Some(Picked::Thing(Thing::Ornament(k))) => draft.next = Selection::Ornament(k),
        Some(Picked::Thing(Thing::Extra(k))) => draft.next = Selection::Extra(k),
        None => {}
    }
}

fn table(editor: &mut Editor, ui: &mut Ui, draft: &mut Draft<'_>) {
    let Some(shown) = editor.shown.clone() else { return };
    let Draft { house, form, next, company, gesture, .. } = draft;
    let marked = editor.view.marking() == Some(Marking::Standing);
    let maps = editor.asker.said().filter(|_| marked).map(|said| &said.maps);
    let made = editor.table.show(ui, (&shown.solved, &shown.dressed, maps), house, form, (next, company));
    if made != Gesture::default() {
        *gesture = made;
    }
}

/// What is selected, if it is stuck on or stands free.
fn thing_of(what: &Selection) -> Option<Thing> {
    match what {
        Selection::Ornament(k) => Some(Thing::Ornament(*k)),
        Selection::Extra(k) => Some(Thing::Extra(*k)),
        _ => None,
    }
}

/// What people call a selection.
pub(crate) fn name_of(selection: &Selection, house: &House) -> String {
    match selection {
        Selection::House => tr!("The whole house").to_owned(),
        Selection::Extra(k) => panels::extra_name(house, *k),
        Selection::Ornament(k) => panels::ornament_name(house, *k),
        Selection::Part(id) => house.part(id).map_or_else(String::new, |p| p.name.clone()),
        Selection::Side(id, side) => {
            let part = house.part(id).map_or_else(String::new, |p| p.name.clone());
            format!("{part}: {}", panels::side_name(&side.0).to_lowercase())
        }
        Selection::Opening(id, opening) => {
            let part = house.part(id);
            let name = part.and_then(|p| p.openings.iter().find(|o| &o.id == opening)).map(|o| o.name.clone());
            name.unwrap_or_default()
        }
    }
}
