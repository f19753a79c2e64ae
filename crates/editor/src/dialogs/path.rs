use super::asking;
use egui::text::{CCursor, CCursorRange};
use egui::{Context, Key, ScrollArea, TextEdit, Ui};
use gable_words::tr;
use std::path::{Path, PathBuf};

/// What a file name is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PathUse {
    /// To open a house.
    Open,
    /// To bake another house with it.
    Another,
    /// To save the house.
    Save,
    /// To save what is seen of the house.
    Picture,
    /// To make a card of all keys.
    KeyCard,
    /// To take the outline of an opening from a drawing.
    Outline,
    /// To write the pack into a folder.
    PackFolder,
    /// To write files for other programs into a folder.
    FilesFolder,
    /// To save the days of a bake as a calendar.
    Calendar,
    /// To save them as a table.
    Table,
    /// To save the shopping list as a table.
    ShoppingList,
}

impl PathUse {
    /// Whether a folder is asked for.
    fn is_folder(self) -> bool {
        matches!(self, Self::PackFolder | Self::FilesFolder)
    }

    /// How the names of such files end.
    fn ending(self) -> &'static str {
        match self {
            Self::Outline => ".svg",
            Self::KeyCard => ".pdf",
            Self::Picture => ".png",
            Self::Calendar => ".ics",
            Self::Table | Self::ShoppingList => ".csv",
            Self::Open | Self::Another | Self::Save | Self::PackFolder | Self::FilesFolder => ".house.json",
        }
    }
}

/// Our own question for a file name, where the desktop has none to offer.
#[derive(Clone, Debug)]
pub(crate) struct PathBox {
    /// What it is for.
    pub(crate) purpose: PathUse,
    text: String,
    error: Option<String>,
    /// Whether it was shown before.
    seen: bool,
}

impl PathBox {
    /// Asks, with a name to begin with.
    pub(crate) fn new(purpose: PathUse, begin: &Path) -> Self {
        Self { purpose, text: begin.display().to_string(), error: None, seen: false }
    }

    /// Asks again, saying why the last answer would not do.
    pub(crate) fn again(mut self, error: String) -> Self {
        self.error = Some(error);
        self
    }
}

/// What the person said: a path, or `None` for 'not now'.
pub(crate) fn path_box(ctx: &Context, question: &mut PathBox) -> Option<Option<PathBuf>> {
    let (title, go) = match question.purpose {
        PathUse::Open => (tr!("Open a house"), tr!("Open")),
        PathUse::Another => (tr!("Bake another house with it"), tr!("Choose this house")),
        PathUse::Save => (tr!("Save the house"), tr!("Save")),
        PathUse::Picture => (tr!("Save the picture"), tr!("Save")),
        PathUse::KeyCard => (tr!("Make a key card"), tr!("Make it")),
        PathUse::Outline => (tr!("Take an outline from an SVG file"), tr!("Take it")),
        PathUse::PackFolder => (tr!("Where should the pack go?"), tr!("Choose this folder")),
        PathUse::FilesFolder => (tr!("Where should the files go?"), tr!("Choose this folder")),
        PathUse::Calendar => (tr!("Save the days as a calendar"), tr!("Save")),
        PathUse::Table => (tr!("Save the days as a table"), tr!("Save")),
        PathUse::ShoppingList => (tr!("Save the shopping list as a table"), tr!("Save")),
    };
    let mut answer = None;
    let modal = asking(ctx, "path").show(ctx, |ui| {
        ui.set_width(520.0);
        ui.heading(title);
        let name = ui.label(if question.purpose.is_folder() { tr!("Folder") } else { tr!("File") });
        let line = ui
            .add(TextEdit::singleline(&mut question.text).desired_width(f32::INFINITY).align(egui::Align2::LEFT_CENTER))
            .labelled_by(name.id);
        let entered = line.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
        if !entered && ui.memory(|m| m.focused().is_none()) {
            line.request_focus();
        }
        if !std::mem::replace(&mut question.seen, true) {
            choose_name(ctx, line.id, question);
        }
        if let Some(error) = &question.error {
            ui.colored_label(ui.visuals().error_fg_color, error);
        }
        neighbours(ui, question);
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            let full = !question.text.trim().is_empty();
            if ui.add_enabled(full, egui::Button::new(go)).clicked() || (entered && full) {
                answer = Some(Some(finished(&question.text, question.purpose)));
            }
            if ui.button(tr!("Not now")).clicked() {
                answer = Some(None);
            }
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(None));
    }
    answer
}

/// The name without its folder and its ending is chosen, so that typing puts another in its place.
fn choose_name(ctx: &Context, line: egui::Id, question: &PathBox) {
    let count = |text: &str| text.chars().count();
    let whole = count(&question.text);
    let name = Path::new(&question.text).file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = name.strip_suffix(question.purpose.ending());
    let (from, to) = match stem {
        Some(stem) => (whole - count(&name), whole - count(&name) + count(stem)),
        None => (whole, whole),
    };
    let mut state = TextEdit::load_state(ctx, line).unwrap_or_default();
    let range = CCursorRange::two(CCursor::new(from), CCursor::new(to));
    state.cursor.set_char_range(Some(range));
    state.store(ctx, line);
}

/// House files or drawings, and folders, beside the one that is named, to click on.
fn neighbours(ui: &mut Ui, question: &mut PathBox) {
    let typed = PathBuf::from(question.text.trim());
    let folder = if typed.is_dir() { typed } else { typed.parent().map_or_else(PathBuf::new, Path::to_path_buf) };
    let Ok(entries) = std::fs::read_dir(&folder) else { return };
    let mut found: Vec<PathBuf> =
        entries.filter_map(|e| e.ok().map(|e| e.path())).filter(|p| worth_showing(p, question.purpose)).collect();
    found.sort();
    found.truncate(200);
    ScrollArea::vertical().max_height(180.0).show(ui, |ui| {
        if folder.parent().is_some() && ui.button(tr!("One folder up")).clicked() {
            question.text = folder.parent().map_or_else(String::new, |p| p.display().to_string());
        }
        for path in found {
            let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
            let name = if path.is_dir() { format!("{name}/") } else { name };
            if ui.selectable_label(false, name).clicked() {
                question.text = path.display().to_string();
            }
        }
    });
}

fn worth_showing(path: &Path, purpose: PathUse) -> bool {
    let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    !name.starts_with('.') && (path.is_dir() || name.ends_with(purpose.ending()))
}

fn finished(text: &str, purpose: PathUse) -> PathBuf {
    let path = PathBuf::from(text.trim());
    let ended = || PathBuf::from(format!("{}{}", text.trim(), purpose.ending()));
    match purpose {
        PathUse::Save | PathUse::KeyCard | PathUse::Calendar | PathUse::Table | PathUse::ShoppingList
            if path.extension().is_none() =>
        {
            ended()
        }
        // It is written as PNG, whatever it is called.
        PathUse::Picture if path.extension().is_none_or(|e| !e.eq_ignore_ascii_case("png")) => ended(),
        _ => path,
    }
}
