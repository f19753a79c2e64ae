//! An editor to try things in.

pub mod language;

use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use gable_editor::{Editor, Start};
use gable_measure::Unit;
use gable_shell::{House, demo};
use std::path::Path;

pub type Kitchen = Harness<'static, Editor>;

/// The house that a new design starts from.
pub fn plain() -> House {
    House::simple(Unit::Millimetre)
}

/// The plain house and the built-in ones.
pub fn houses() -> Vec<House> {
    std::iter::once(plain()).chain(demo::names().filter_map(demo::house)).collect()
}

fn started(start: Start) -> Kitchen {
    started_in(start, egui::vec2(1440.0, 1800.0))
}

fn started_in(start: Start, size: egui::Vec2) -> Kitchen {
    shown(Editor::without_window(start).unwrap(), size)
}

/// A window of this size with an editor in it.
pub fn shown(editor: Editor, size: egui::Vec2) -> Kitchen {
    let mut kitchen = Harness::builder()
        .with_size(size)
        // Sheets that scroll take a few frames to find their size.
        .with_max_steps(12)
        .build_ui_state(|ui, editor: &mut Editor| editor.ui(ui), editor);
    kitchen.run();
    // Sheets with questions find their middle in a few frames.
    kitchen.run_steps(4);
    kitchen
}

/// An editor with a house.
pub fn kitchen(house: House) -> Kitchen {
    started(Start::House(Box::new(house)))
}

/// An editor with a house, and what is kept for a person in this file.
pub fn kitchen_at(house: House, file: &Path) -> Kitchen {
    let editor = Editor::without_window(Start::House(Box::new(house))).unwrap();
    shown(editor.at_home(file.to_owned()), egui::vec2(1440.0, 1800.0))
}

/// An editor with a house in a window of this size.
pub fn sized(house: House, size: egui::Vec2) -> Kitchen {
    started_in(Start::House(Box::new(house)), size)
}

/// An editor with a file.
pub fn opened(path: &Path) -> Kitchen {
    started(Start::File(path.to_owned()))
}

/// An editor that asks what to begin with.
pub fn choosing() -> Kitchen {
    started(Start::Choose)
}

/// Presses a button.
pub fn press(kitchen: &mut Kitchen, name: &str) {
    kitchen.get_by_label(name).click();
    kitchen.run();
}

/// Puts the cursor into a field, replaces what is there, and presses Enter.
pub fn type_into(kitchen: &mut Kitchen, name: &str, text: &str) {
    kitchen.get_by_label(name).focus();
    kitchen.run();
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    kitchen.run();
    kitchen.get_by_label(name).type_text(text);
    kitchen.run();
    kitchen.key_press(egui::Key::Enter);
    kitchen.run();
}

/// Width of the first part, a rectangle, mm.
pub fn width(kitchen: &Kitchen) -> f64 {
    match kitchen.state().house().unwrap().parts[0].outline {
        gable_shell::Outline::Rectangle { width, .. } => width.mm(),
        _ => panic!("not a rectangle"),
    }
}

/// Presses a key while others are held.
pub fn keys(kitchen: &mut Kitchen, modifiers: egui::Modifiers, key: egui::Key) {
    kitchen.key_press_modifiers(modifiers, key);
    kitchen.run();
}

/// Drags from a place of the window, by points, in four steps.
pub fn drag_from(kitchen: &mut Kitchen, from: egui::Pos2, by: egui::Vec2) {
    kitchen.hover_at(from);
    kitchen.run();
    kitchen.drag_at(from);
    kitchen.run();
    for k in 1..=4 {
        kitchen.hover_at(from + by * (k as f32 / 4.0));
        kitchen.run();
    }
    kitchen.drop_at(from + by);
    kitchen.run();
}
