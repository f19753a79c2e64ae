//! Opening, saving and leaving: nothing is lost unasked.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_measure::Unit;
use gable_shell::{House, file};
use kitchen::{kitchen, plain, press, type_into, width};

#[test]
fn what_is_saved_is_what_is_opened() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("my.house.json");
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Width", "133.5");
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    type_into(&mut kitchen, "File", path.to_str().unwrap());
    assert_eq!(kitchen.state().path(), Some(path.as_path()));
    assert!(!kitchen.state().is_changed());
    let saved = kitchen.state().house().unwrap().clone();
    assert_eq!(file::parse(&std::fs::read_to_string(&path).unwrap()).unwrap(), saved);

    let mut other = kitchen::choosing();
    press(&mut other, "Open a house of mine…");
    type_into(&mut other, "File", path.to_str().unwrap());
    assert_eq!(other.state().house(), Some(&saved));
    // Opened, not begun: nothing to save.
    assert!(!other.state().is_changed());
}

/// Folder and ending stay: whoever types at once types the name.
#[test]
fn another_name_is_typed_over_the_one_that_is_offered() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("my.house.json");
    std::fs::write(&path, file::write(&plain())).unwrap();
    let mut kitchen = kitchen::opened(&path);
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND | egui::Modifiers::SHIFT, egui::Key::S);
    kitchen.run_steps(4);
    kitchen.event(egui::Event::Text("other".to_owned()));
    kitchen.run();
    kitchen.key_press(egui::Key::Enter);
    kitchen.run();
    assert_eq!(kitchen.state().path(), Some(folder.path().join("other.house.json").as_path()));
}

#[test]
fn what_is_told_of_saving_moves_nothing_and_goes_by_itself() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("my.house.json");
    std::fs::write(&path, file::write(&plain())).unwrap();
    let mut kitchen = kitchen::opened(&path);
    let place = |kitchen: &kitchen::Kitchen| kitchen.get_by_label_contains("What we noticed").rect();
    let before = place(&kitchen);
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run_steps(4);
    assert!(kitchen.query_by_label_contains("Saved as").is_some());
    assert_eq!(place(&kitchen), before);
    // Frames of a quarter of a second: it stays for six.
    kitchen.run_steps(40);
    assert!(kitchen.query_by_label_contains("Saved as").is_none());
}

#[test]
fn saving_takes_what_is_still_being_typed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("typed.house.json");
    std::fs::write(&path, file::write(&plain())).unwrap();
    let mut kitchen = kitchen::opened(&path);
    kitchen.get_by_label("Width").focus();
    kitchen.run();
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    kitchen.get_by_label("Width").type_text("141");
    kitchen.run();
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    let saved = file::parse(&std::fs::read_to_string(&path).unwrap()).unwrap();
    assert_eq!(Some(&saved), kitchen.state().house());
    assert!((width(&kitchen) - 141.0).abs() < 1e-9);
}

#[test]
fn changes_are_not_thrown_away_unasked() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Width", "111");
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::N);
    kitchen.run();
    assert!(kitchen.query_by_label("Keep your changes?").is_some());
    press(&mut kitchen, "Back to the house");
    assert!((width(&kitchen) - 111.0).abs() < 1e-9);
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Q);
    kitchen.run();
    assert!(!kitchen.state().is_leaving());
    press(&mut kitchen, "Throw them away");
    assert!(kitchen.state().is_leaving());
}

#[test]
fn an_unchanged_house_closes_at_once() {
    let mut kitchen = kitchen(plain());
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Q);
    kitchen.run();
    assert!(kitchen.state().is_leaving());
}

#[test]
fn a_house_is_chosen_from_its_picture() {
    let mut kitchen = kitchen::choosing();
    assert!(kitchen.state().house().is_none());
    press(&mut kitchen, "Plain house");
    assert_eq!(kitchen.state().house(), Some(&House::simple(Unit::Millimetre)));
}

#[test]
fn the_close_button_asks_first_when_something_would_be_lost() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Width", "118");
    let root = kitchen.input_mut().viewports.get_mut(&egui::ViewportId::ROOT).unwrap();
    root.events.push(egui::ViewportEvent::Close);
    kitchen.run();
    assert!(kitchen.query_by_label("Keep your changes?").is_some());
    assert!(!kitchen.state().is_leaving());
}

#[test]
fn a_file_that_cannot_be_read_says_why() {
    let mut kitchen = kitchen::choosing();
    press(&mut kitchen, "Open a house of mine…");
    type_into(&mut kitchen, "File", "/no/such.house.json");
    assert!(kitchen.query_by_label_contains("there is no such file").is_some());
    assert!(kitchen.state().house().is_none());
    press(&mut kitchen, "Not now");
    assert!(kitchen.query_by_label("What shall we bake?").is_some());
}

#[test]
fn a_name_that_cannot_be_saved_to_is_asked_for_again() {
    let folder = tempfile::tempdir().unwrap();
    let wrong = folder.path().join("nosuch").join("my.house.json");
    let mut kitchen = kitchen(plain());
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    type_into(&mut kitchen, "File", wrong.to_str().unwrap());
    assert!(kitchen.query_by_label_contains("There is no folder").is_some());
    assert!(kitchen.query_by_label_contains("os error").is_none());
    assert_eq!(kitchen.get_by_label("File").value().as_deref(), wrong.to_str());
    let right = folder.path().join("my.house.json");
    type_into(&mut kitchen, "File", right.to_str().unwrap());
    assert_eq!(kitchen.state().path(), Some(right.as_path()));
    // A house without a title goes by the name of its file.
    assert!(kitchen.query_by_label("my").is_some());
}
