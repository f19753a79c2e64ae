//! The first minute: four questions, houses to start from, files that are dropped, settings that are kept.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::{NodeT, Queryable};
use gable_editor::{Editor, Start};
use gable_measure::{InchStep, Unit};
use gable_shell::{House, Starter, file, kitchen as trays};
use kitchen::{Kitchen, plain, press, shown, type_into, width};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A start with this folder of settings.
fn start(home: &Path) -> Kitchen {
    let editor = Editor::without_window(Start::Choose).unwrap().at_home(home.join("kitchen.json"));
    shown(editor, egui::vec2(1440.0, 1800.0))
}

/// Chooses from a folded list by its name and the words of a choice.
fn choose(kitchen: &mut Kitchen, list: &str, words: &str) {
    kitchen.get_by_label_contains(list).click();
    kitchen.run();
    let last = kitchen.query_all_by_label_contains(words).last().unwrap();
    last.click();
    kitchen.run();
}

/// A file that is held over the window, or let go there.
#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|e| e.to_string())
    }
}

fn drop_on(kitchen: &mut Kitchen, path: &Path) {
    kitchen.input_mut().dropped_files.push(Arc::new(Dropped(path.to_owned())));
    kitchen.run();
    kitchen.input_mut().dropped_files.clear();
    kitchen.run();
}

#[test]
fn four_questions_are_asked_once_and_the_answers_count() {
    let home = tempfile::tempdir().unwrap();
    let mut first = start(home.path());
    assert!(first.query_by_label("Welcome to your kitchen").is_some());
    choose(&mut first, "Usual unit", "Inches to 1/16");
    choose(&mut first, "Paper:", "Letter, ");
    type_into(&mut first, "Dough rolled to", "1/8 + 1/16");
    choose(&mut first, "Largest tray", "Half sheet pan");
    press(&mut first, "Keep this");
    press(&mut first, "Cottage");
    let house = first.state().house().unwrap();
    let sixteenths = Unit::Inch(InchStep::Sixteenth);
    assert_eq!(house.unit, sixteenths);
    // 3/16 in by hand.
    assert!(house.doughs.iter().all(|d| (d.rolled.in_inches() - 0.1875).abs() < 1e-9));
    assert_eq!(house.parts, Starter::Cottage.house(sixteenths).parts);
    let kept = trays::read(&std::fs::read_to_string(home.path().join("kitchen.json")).unwrap()).unwrap();
    assert_eq!(kept.trays.iter().map(|t| t.name.as_str()).collect::<Vec<_>>(), ["Half sheet pan"]);
    press(&mut first, "Make the pack…");
    assert!(first.query_by_label_contains("Paper: Letter").is_some());
    drop(first);

    let next = start(home.path());
    assert!(next.query_by_label("Welcome to your kitchen").is_none(), "asked once");
    assert!(next.query_by_label("What shall we bake?").is_some());
}

#[test]
fn whoever_answers_later_begins_at_once_and_is_not_asked_again() {
    let home = tempfile::tempdir().unwrap();
    let mut first = start(home.path());
    press(&mut first, "Later");
    press(&mut first, "Plain house");
    assert_eq!(first.state().house(), Some(&House::simple(Unit::Millimetre)));
    assert!(start(home.path()).query_by_label("What shall we bake?").is_some());
}

#[test]
fn impossible_dough_and_trays_are_not_kept() {
    let home = tempfile::tempdir().unwrap();
    let mut first = start(home.path());
    type_into(&mut first, "Dough rolled to", "80");
    assert!(first.query_by_label_contains("Dough is rolled between").is_some());
    assert!(first.get_by_label("Keep this").accesskit_node().is_disabled());
    type_into(&mut first, "Dough rolled to", "5");
    choose(&mut first, "Largest tray", "Another size");
    type_into(&mut first, "Width inside", "4");
    assert!(first.query_by_label_contains("A tray is between").is_some());
    type_into(&mut first, "Width inside", "380");
    press(&mut first, "Keep this");
    assert!(first.query_by_label("What shall we bake?").is_some());
}

#[test]
fn houses_that_were_open_are_offered_as_pictures() {
    let home = tempfile::tempdir().unwrap();
    let path = home.path().join("mine.house.json");
    std::fs::write(&path, file::write(&plain())).unwrap();
    let mut first = start(home.path());
    press(&mut first, "Later");
    assert!(first.query_by_label("Your houses").is_none());
    drop_on(&mut first, &path);
    assert_eq!(first.state().path(), Some(path.as_path()));
    drop(first);

    let mut next = start(home.path());
    assert!(next.query_by_label("Your houses").is_some());
    press(&mut next, "mine.house.json, saved just now");
    assert_eq!(next.state().path(), Some(path.as_path()));
    drop(next);
    std::fs::remove_file(&path).unwrap();
    let next = start(home.path());
    assert!(next.query_by_label("Your houses").is_none(), "what is gone is not offered");
}

#[test]
fn a_dropped_pack_opens_as_a_house_and_what_is_neither_says_so() {
    let home = tempfile::tempdir().unwrap();
    let house = Starter::Chapel.house(Unit::Millimetre);
    let solved = gable_shell::solve(&house);
    let pdf = gable_export::pack_pdf(&solved, &house, &gable_export::PackOptions::default()).unwrap();
    let pack = home.path().join("chapel.pdf");
    std::fs::write(&pack, pdf).unwrap();
    let mut kitchen = start(home.path());
    press(&mut kitchen, "Later");
    let other = home.path().join("note.txt");
    std::fs::write(&other, "flour").unwrap();
    drop_on(&mut kitchen, &other);
    assert!(kitchen.query_by_label_contains("note.txt").is_some());
    drop_on(&mut kitchen, &pack);
    assert_eq!(kitchen.state().house().unwrap().parts, house.parts);
    assert_eq!(kitchen.state().path(), None, "a pack is never saved over");
    // Changes are not thrown away for it.
    kitchen.get_by_label("Nave").click();
    kitchen.run();
    type_into(&mut kitchen, "Width", "104");
    drop_on(&mut kitchen, &pack);
    assert!(kitchen.query_by_label("Keep your changes?").is_some());
    drop_on(&mut kitchen, &pack);
    press(&mut kitchen, "Throw them away");
    assert_eq!(kitchen.state().house().unwrap().parts, house.parts);
}

#[test]
fn settings_count_at_once_and_are_kept() {
    let home = tempfile::tempdir().unwrap();
    let mut first = start(home.path());
    press(&mut first, "Later");
    first.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Comma);
    first.run();
    first.run_steps(4);
    press(&mut first, "Dark");
    assert_eq!(first.ctx.theme(), egui::Theme::Dark);
    choose(&mut first, "Size of text: ", "125 %");
    assert!((first.ctx.zoom_factor() - 1.25).abs() < 1e-6);
    press(&mut first, "Nothing moves by itself");
    assert!(first.ctx.global_style().animation_time == 0.0);
    press(&mut first, "Done");
    drop(first);

    let mut next = start(home.path());
    assert_eq!(next.ctx.theme(), egui::Theme::Dark);
    assert!((next.ctx.zoom_factor() - 1.25).abs() < 1e-6);
    // Keys for it change the settings too.
    next.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::L);
    next.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Num0);
    next.run();
    drop(next);
    let last = start(home.path());
    assert_eq!(last.ctx.theme(), egui::Theme::Light);
    assert!((last.ctx.zoom_factor() - 1.0).abs() < 1e-6);
}

#[test]
fn settings_that_cannot_be_read_are_told_and_cost_nothing() {
    let home = tempfile::tempdir().unwrap();
    std::fs::write(home.path().join("settings.json"), "{ }").unwrap();
    let mut kitchen = start(home.path());
    assert!(kitchen.query_by_label_contains("your settings could not be read").is_some());
    press(&mut kitchen, "Tower");
    assert!(kitchen.state().pieces_shown() > 8);
}

/// A person at the window, whose acts are counted: a click, a key, or words typed in one go.
struct Newcomer {
    kitchen: Kitchen,
    acts: usize,
}

impl Newcomer {
    fn click(&mut self, name: &str) {
        self.acts += 1;
        self.kitchen.get_by_label(name).click();
        self.kitchen.run();
        self.kitchen.run_steps(4);
    }

    fn key(&mut self, key: egui::Key) {
        self.acts += 1;
        self.kitchen.key_press(key);
        self.kitchen.run();
    }

    fn type_words(&mut self, name: &str, words: &str) {
        self.acts += 1;
        self.kitchen.get_by_label(name).type_text(words);
        self.kitchen.run();
    }

    fn replace_all(&mut self) {
        self.acts += 1;
        self.kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
        self.kitchen.run();
    }
}

#[test]
fn a_newcomer_has_a_changed_house_and_its_pages_within_fifteen_acts() {
    let home = tempfile::tempdir().unwrap();
    let folder = home.path().join("pages");
    let mut person = Newcomer { kitchen: start(home.path()), acts: 0 };
    person.click("Later");
    person.click("Cottage");
    person.click("Width");
    person.replace_all();
    person.type_words("Width", "180");
    person.key(egui::Key::Enter);
    person.click("Make the pack…");
    person.click("Choose where it goes…");
    person.replace_all();
    person.type_words("Folder", folder.to_str().unwrap());
    person.key(egui::Key::Enter);
    assert!((width(&person.kitchen) - 180.0).abs() < 1e-9);
    for _ in 0..600 {
        if folder.is_dir() && person.kitchen.query_by_label_contains("The pack is ready").is_some() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(100));
        person.kitchen.run();
    }
    let pages: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|e| e.unwrap().path()).collect();
    assert_eq!(pages.len(), 1, "{pages:?}");
    assert!(std::fs::read(&pages[0]).unwrap().starts_with(b"%PDF-"));
    assert!(person.acts <= 15, "{} acts", person.acts);
}

/// One file that cannot be read does not hide another.
#[test]
fn everything_that_cannot_be_read_is_told_and_stays() {
    let place = tempfile::tempdir().unwrap();
    let files = ["kitchen.json", "notebook.json", "settings.json"].map(|name| place.path().join(name));
    files.iter().for_each(|file| std::fs::write(file, "[").unwrap());
    let editor = Editor::without_window(Start::Choose).unwrap().at_home(files[0].clone());
    let kitchen = shown(editor, egui::vec2(1440.0, 1100.0));
    for what in ["kitchen", "notebook", "settings"] {
        assert!(kitchen.query_by_label_contains(&format!("your {what} could not be read")).is_some(), "{what}");
    }
    assert!(files.iter().all(|file| std::fs::read_to_string(file).unwrap() == "["));
}

/// A file that was clicked on in the desktop and cannot be read is told of beside what there is to choose from.
#[test]
fn a_file_that_cannot_be_read_is_told_of_in_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("broken.house.json");
    std::fs::write(&file, "{\"broken\": tru").unwrap();
    let words = Editor::without_window(Start::File(file)).map(|_| ()).unwrap_err();
    let editor = Editor::without_window(Start::Choose).unwrap().telling(Some(words));
    let window = kitchen::shown(editor, egui::vec2(1360.0, 860.0));
    assert!(window.query_by_label_contains("the file ends too early").is_some());
    assert!(window.query_by_label("Plain house").is_some());
}
