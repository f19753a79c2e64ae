//! Commands: the list of keys and its card, the history in the menu, what is looked at and from where.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use kitchen::{kitchen, plain, press, type_into, width};

#[test]
fn the_list_of_keys_opens_with_a_key_and_makes_a_card() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = kitchen(plain());
    kitchen.key_press(egui::Key::F1);
    kitchen.run();
    kitchen.run_steps(4);
    assert!(kitchen.query_all_by_label("All keys").next().is_some());
    for words in ["Make the pack", "Ctrl+P", "Undo", "Evening light", "Ctrl+,"] {
        assert!(kitchen.query_all_by_label_contains(words).next().is_some(), "{words}");
    }
    press(&mut kitchen, "Make a key card…");
    let path = folder.path().join("keys");
    type_into(&mut kitchen, "File", path.to_str().unwrap());
    let pdf = std::fs::read(path.with_extension("pdf")).unwrap();
    assert!(pdf.starts_with(b"%PDF-"));
    assert!(kitchen.query_by_label_contains("The key card is ready").is_some());
}

#[test]
fn several_steps_are_taken_back_and_done_again_at_once_and_survive_saving() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("hut.house.json");
    std::fs::write(&path, gable_shell::file::write(&plain())).unwrap();
    let mut kitchen = kitchen::opened(&path);
    type_into(&mut kitchen, "Width", "130");
    type_into(&mut kitchen, "Depth", "170");
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    assert!(!kitchen.state().is_changed());
    type_into(&mut kitchen, "Width", "140");
    press(&mut kitchen, "Edit");
    for name in ["1. change of width", "2. change of depth", "3. change of width"] {
        assert!(kitchen.query_by_label(name).is_some(), "{name}");
    }
    press(&mut kitchen, "3. change of width");
    assert_eq!(kitchen.state().house(), Some(&plain()));
    press(&mut kitchen, "Edit");
    press(&mut kitchen, "2. change of depth");
    assert!((width(&kitchen) - 130.0).abs() < 1e-9);
    assert!(!kitchen.state().is_changed(), "that is what was saved");
}

#[test]
fn commands_that_need_a_house_do_nothing_without_one() {
    let mut kitchen = kitchen::choosing();
    for key in [egui::Key::P, egui::Key::B, egui::Key::Z, egui::Key::E, egui::Key::M, egui::Key::Num2, egui::Key::D] {
        kitchen.key_press_modifiers(egui::Modifiers::COMMAND, key);
        kitchen.run();
    }
    assert!(kitchen.query_by_label("What shall we bake?").is_some());
}
