//! The question before a pack is made, and the pack that is written.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::{NodeT, Queryable};
use gable_measure::Length;
use kitchen::{Kitchen, kitchen, plain, press, type_into};

#[test]
fn the_pack_is_written_beside_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    press(&mut kitchen, "Paper: A4, 210 × 297 mm");
    press(&mut kitchen, "Letter, 215.9 × 279.4 mm");
    press(&mut kitchen, "Choose where it goes…");
    // It is not there yet.
    let place = folder.path().join("new").join("pack");
    type_into(&mut kitchen, "Folder", place.to_str().unwrap());
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(60);
    while kitchen.query_by_label_contains("The pack is ready").is_none() {
        assert!(std::time::Instant::now() < deadline, "no pack after a minute");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run();
    }
    let files: Vec<_> = std::fs::read_dir(place).unwrap().map(|e| e.unwrap().path()).collect();
    assert_eq!(files.len(), 1);
    // A PDF begins with its version (ISO 32000-1, 7.5.2).
    assert!(std::fs::read(&files[0]).unwrap().starts_with(b"%PDF-"));
}

#[test]
fn margins_of_the_pack_can_be_typed() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    type_into(&mut kitchen, "Left margin", "1/2 in");
    // 1/2 in = 12.7 mm.
    assert_eq!(kitchen.get_by_label("Left margin").value().as_deref(), Some("12.7 mm"));
    press(&mut kitchen, "All as the left one");
    assert_eq!(kitchen.get_by_label("Bottom margin").value().as_deref(), Some("12.7 mm"));
    let can_go = |k: &Kitchen| !k.get_by_label("Choose where it goes…").accesskit_node().is_disabled();
    assert!(can_go(&kitchen));
    type_into(&mut kitchen, "Top margin", "a hand");
    assert!(kitchen.query_by_label_contains("Top margin: ").is_some());
    assert!(!can_go(&kitchen));
    type_into(&mut kitchen, "Top margin", "300");
    assert!(kitchen.query_by_label_contains("The margins leave").is_some());
    assert!(!can_go(&kitchen));
    press(&mut kitchen, "Usual margins");
    assert!(can_go(&kitchen));
}

/// What the bars of the calibration page measure is typed; what cannot be is told, and a pack to share needs none of it.
#[test]
fn the_pack_makes_up_for_a_printer() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    press(&mut kitchen, "Make up for my printer");
    let can_go = |k: &Kitchen| !k.get_by_label("Choose where it goes…").accesskit_node().is_disabled();
    assert!(can_go(&kitchen));
    type_into(&mut kitchen, "Level bar", "170");
    assert!(can_go(&kitchen));
    type_into(&mut kitchen, "Level bar", "90");
    assert!(kitchen.query_by_label_contains("too far off").is_some());
    assert!(!can_go(&kitchen));
    press(&mut kitchen, "To share, without my printer and my oven");
    assert!(kitchen.query_by_label("Level bar").is_none() && can_go(&kitchen));
    press(&mut kitchen, "Calibration page");
    assert!(can_go(&kitchen));
}

/// Every page can be looked at before anything is saved.
#[test]
fn pages_are_looked_at_before_they_are_saved() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    press(&mut kitchen, "Look at the pages");
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(60);
    let at = |kitchen: &Kitchen, page: usize| {
        (1..10).any(|count| kitchen.query_by_label_contains(&format!("Page {page} of {count}")).is_some())
    };
    while !at(&kitchen, 1) {
        assert!(std::time::Instant::now() < deadline, "no pages after a minute");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run();
    }
    press(&mut kitchen, "Next page");
    assert!(at(&kitchen, 2));
    press(&mut kitchen, "Page before");
    press(&mut kitchen, "Back to the choices");
    assert!(kitchen.query_by_label("Choose where it goes…").is_some());
}

/// What the dough does is typed, in hundredths and as a length; what no dough does is told, and nothing of it is shared.
#[test]
fn the_pack_makes_up_for_dough_that_spreads() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    press(&mut kitchen, "Make up for dough that spreads");
    let can_go = |k: &Kitchen| !k.get_by_label("Choose where it goes…").accesskit_node().is_disabled();
    type_into(&mut kitchen, "Grows in proportion by", "2");
    type_into(&mut kitchen, "Grows at each edge by", "0.8");
    assert!(can_go(&kitchen));
    type_into(&mut kitchen, "Grows in proportion by", "90 %");
    assert!(kitchen.query_by_label_contains("Dough does not grow by 90.0 %").is_some() && !can_go(&kitchen));
    press(&mut kitchen, "To share, without my printer and my oven");
    assert!(kitchen.query_by_label("Grows in proportion by").is_none() && can_go(&kitchen));
}

#[test]
fn a_pack_goes_into_a_folder_that_is_made_for_it() {
    let folder = tempfile::tempdir().unwrap();
    let new = folder.path().join("winter").join("pack");
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    press(&mut kitchen, "Choose where it goes…");
    // First where none can be made: the question stays, with what was typed.
    std::fs::write(folder.path().join("winter-list"), "flour").unwrap();
    let wrong = folder.path().join("winter-list").join("pack");
    type_into(&mut kitchen, "Folder", wrong.to_str().unwrap());
    wait_for(&mut kitchen, "a file stands where a folder should be");
    assert_eq!(kitchen.get_by_label("Folder").value().as_deref(), wrong.to_str());
    type_into(&mut kitchen, "Folder", new.to_str().unwrap());
    wait_for(&mut kitchen, "The pack is ready");
    assert!(new.join("house-a4.pdf").is_file());
}

fn wait_for(kitchen: &mut Kitchen, words: &str) {
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(60);
    while kitchen.query_by_label_contains(words).is_none() {
        assert!(std::time::Instant::now() < deadline, "{words} was not said within a minute");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run();
    }
}

#[test]
fn files_for_other_programs_go_into_a_folder_of_their_own() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "House");
    kitchen.get_by_label_contains("Write other files…").click();
    kitchen.run();
    type_into(&mut kitchen, "Folder", folder.path().to_str().unwrap());
    wait_for(&mut kitchen, "files are written");
    let own = folder.path().join("house-files");
    // A binary glTF begins with its name (glTF 2.0, 4.4.2).
    assert!(std::fs::read(own.join("house.glb")).unwrap().starts_with(b"glTF"));
    for kind in ["svg", "dxf", "stl", "csv"] {
        assert!(std::fs::read_dir(own.join(kind)).unwrap().count() > 0, "{kind}");
    }
}

#[test]
fn nothing_is_printed_of_a_house_that_cannot_be_built() {
    let mut house = plain();
    house.parts[0].openings[0].height = Length::mm_of(190.0);
    let mut kitchen = kitchen(house);
    press(&mut kitchen, "Make the pack…");
    assert!(kitchen.get_by_label("Choose where it goes…").accesskit_node().is_disabled());
}
