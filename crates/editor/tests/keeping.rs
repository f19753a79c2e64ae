//! Unsaved work: kept beside the file, offered again after the program was killed; files that are open twice or are
//! changed by something else. A window that is dropped here ends as one that is killed: nothing is tidied up.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_editor::{Editor, Start};
use gable_shell::file;
use kitchen::{Kitchen, plain, press, shown, type_into, width};
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// A folder with a house file and one for the records of windows.
struct Place {
    folder: tempfile::TempDir,
}

impl Place {
    fn new() -> Self {
        let place = Self { folder: tempfile::tempdir().unwrap() };
        fs::write(place.file(), file::write(&plain())).unwrap();
        place
    }

    fn file(&self) -> PathBuf {
        self.folder.path().join("hut.house.json")
    }

    fn copy(&self) -> PathBuf {
        self.folder.path().join(".hut.unsaved.house.json")
    }

    fn records(&self) -> PathBuf {
        self.folder.path().join("windows")
    }

    fn window(&self, start: Start) -> Kitchen {
        let editor = Editor::without_window(start).unwrap().keeping_in(&self.records());
        shown(editor, egui::vec2(1440.0, 1800.0))
    }

    fn open(&self) -> Kitchen {
        self.window(Start::File(self.file()))
    }

    fn choosing(&self) -> Kitchen {
        self.window(Start::Choose)
    }

    /// Everything that is kept for windows.
    fn kept(&self) -> usize {
        fs::read_dir(self.records()).unwrap().count()
    }
}

fn read_width(path: &Path) -> f64 {
    match file::parse(&fs::read_to_string(path).unwrap()).unwrap().parts[0].outline {
        gable_shell::Outline::Rectangle { width, .. } => width.mm(),
        _ => panic!("not a rectangle"),
    }
}

fn written(path: &Path, hours_ago: u64) {
    let when = SystemTime::now() - Duration::from_secs(hours_ago * 3600 + 60);
    File::options().write(true).open(path).unwrap().set_modified(when).unwrap();
}

fn asks(kitchen: &Kitchen, words: &str) -> bool {
    kitchen.query_all_by_label_contains(words).next().is_some()
}

#[test]
fn what_was_in_no_file_is_offered_by_the_next_window() {
    let place = Place::new();
    let mut first = place.choosing();
    press(&mut first, "Plain house");
    assert_eq!(place.kept(), 2, "an unchanged house needs no copy");
    type_into(&mut first, "Width", "133");
    assert_eq!(place.kept(), 3);
    drop(first);

    let mut next = place.choosing();
    assert!(asks(&next, "Unsaved work was found"));
    assert!(asks(&next, "In no file yet, changed just now"));
    press(&mut next, "Not now");
    drop(next);

    let mut next = place.choosing();
    press(&mut next, "Go on with it");
    assert!((width(&next) - 133.0).abs() < 1e-9);
    assert!(next.state().is_changed());
    assert_eq!(place.kept(), 3, "the copy of this window, and nothing of the last");
    drop(next);

    let mut next = place.choosing();
    press(&mut next, "Throw it away");
    assert!(next.query_by_label("What shall we bake?").is_some());
    drop(next);
    assert!(place.choosing().query_by_label("What shall we bake?").is_some());
}

#[test]
fn changes_of_a_file_are_offered_beside_what_was_saved() {
    let place = Place::new();
    let mut first = place.open();
    assert!(!asks(&first, "Unsaved work"));
    type_into(&mut first, "Width", "133");
    assert!((read_width(&place.copy()) - 133.0).abs() < 1e-9);
    drop(first);
    written(&place.file(), 2);

    // Offered without naming the file, and with it.
    let next = place.choosing();
    assert!(asks(&next, "As saved, 2 hours ago"));
    assert!(asks(&next, "With the changes that were not saved, just now"));
    drop(next);
    let mut next = place.open();
    press(&mut next, "Go on with the changes");
    assert!((width(&next) - 133.0).abs() < 1e-9);
    assert_eq!(next.state().path(), Some(place.file().as_path()));
    press(&mut next, "Undo");
    assert!((width(&next) - 120.0).abs() < 1e-9);
    press(&mut next, "Redo");
    assert!((read_width(&place.copy()) - 133.0).abs() < 1e-9);
    assert!((read_width(&place.file()) - 120.0).abs() < 1e-9, "nothing is saved unasked");
    drop(next);

    let mut next = place.open();
    press(&mut next, "Go on as saved");
    assert!((width(&next) - 120.0).abs() < 1e-9);
    assert!(!place.copy().exists());
    press(&mut next, "Redo");
    assert!((width(&next) - 133.0).abs() < 1e-9);
}

#[test]
fn saving_undoing_and_throwing_away_leave_nothing_to_be_offered() {
    let place = Place::new();
    let mut kitchen = place.open();
    type_into(&mut kitchen, "Width", "133");
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    assert!(!place.copy().exists());
    assert!((read_width(&place.file()) - 133.0).abs() < 1e-9);
    // What was done before saving can still be taken back; that again is no saved house.
    press(&mut kitchen, "Undo");
    assert!((width(&kitchen) - 120.0).abs() < 1e-9);
    assert!(place.copy().exists());
    press(&mut kitchen, "Redo");
    assert!(!place.copy().exists());
    type_into(&mut kitchen, "Width", "134");
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Q);
    kitchen.run();
    press(&mut kitchen, "Throw them away");
    assert_eq!(place.kept(), 0);
    assert!(!place.copy().exists());
}

#[test]
fn a_second_window_says_that_the_file_is_open() {
    let place = Place::new();
    let first = place.open();
    let mut second = place.open();
    assert!(asks(&second, "This house is open in another window"));
    assert!(second.query_by_label_contains(&format!("process {}", std::process::id())).is_some());
    press(&mut second, "Work on a copy");
    assert_eq!(second.state().path(), None);
    assert_eq!(second.state().house(), first.state().house());
    // Nor may it be saved over from there.
    second.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    second.run();
    type_into(&mut second, "File", place.file().to_str().unwrap());
    assert!(asks(&second, "open in another window. Choose another name."));
    drop(second);
    let mut third = place.open();
    press(&mut third, "Open it here too");
    type_into(&mut third, "Width", "140");
    assert!(!place.copy().exists(), "the copy beside the file is that of the first window");
    drop(third);
    drop(first);
    // Killed windows hold nothing; what the third had is found by the name of the file all the same.
    let mut next = place.open();
    press(&mut next, "Go on with the changes");
    assert!((width(&next) - 140.0).abs() < 1e-9);
}

#[test]
fn a_file_that_something_else_writes_is_noticed() {
    let place = Place::new();
    let mut other = plain();
    other.parts[0].outline = gable_shell::Outline::Rectangle {
        width: gable_measure::Length::mm_of(99.0),
        depth: gable_measure::Length::mm_of(140.0),
    };
    let mut kitchen = place.open();
    type_into(&mut kitchen, "Width", "133");
    // The same house written anew is nothing to ask about.
    fs::write(place.file(), file::write(&plain()) + "\n").unwrap();
    kitchen.run();
    assert!(!asks(&kitchen, "The file has changed"));
    fs::write(place.file(), file::write(&other)).unwrap();
    kitchen.run();
    assert!(asks(&kitchen, "The file has changed"));
    press(&mut kitchen, "Go on with mine");
    assert!((width(&kitchen) - 133.0).abs() < 1e-9);
    assert!((read_width(&place.file()) - 99.0).abs() < 1e-9);

    written(&place.file(), 1);
    kitchen.run();
    press(&mut kitchen, "Take the one in the file");
    assert!((width(&kitchen) - 99.0).abs() < 1e-9);
    assert!(!kitchen.state().is_changed());
    press(&mut kitchen, "Undo");
    assert!((width(&kitchen) - 133.0).abs() < 1e-9);

    fs::remove_file(place.file()).unwrap();
    kitchen.run();
    assert!(asks(&kitchen, "Your house is still here; Save writes it again."));
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    assert!((read_width(&place.file()) - 133.0).abs() < 1e-9);
}

#[test]
fn a_copy_that_cannot_be_read_is_put_aside() {
    let place = Place::new();
    fs::write(place.copy(), "half a hou").unwrap();
    let mut kitchen = place.open();
    assert!(asks(&kitchen, "cannot be read"));
    type_into(&mut kitchen, "Width", "133");
    let aside = place.folder.path().join(".hut.unsaved.house.json.unreadable");
    assert_eq!(fs::read_to_string(aside).unwrap(), "half a hou");
}
