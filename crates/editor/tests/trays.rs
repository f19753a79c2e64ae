//! A person's trays: written down in the window, kept beside no house, and what fits on none of them.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::{NodeT, Queryable};
use gable_shell::kitchen as trays;
use kitchen::{Kitchen, kitchen, kitchen_at, plain, press, type_into};

fn ask(kitchen: &mut Kitchen) {
    press(kitchen, "House");
    kitchen.get_by_label_contains("Your kitchen…").click();
    kitchen.run();
    kitchen.run_steps(4);
}

fn noticed(kitchen: &Kitchen) -> usize {
    kitchen.query_all_by_label_contains("is larger than").count()
}

#[test]
fn what_fits_on_no_tray_is_noticed_as_soon_as_trays_are_known() {
    let mut kitchen = kitchen(plain());
    let house = kitchen.state().house().unwrap().clone();
    assert_eq!(noticed(&kitchen), 0, "nobody has said what trays there are");
    ask(&mut kitchen);
    press(&mut kitchen, "Oven tray, 430 × 350 mm");
    type_into(&mut kitchen, "Width of tray 1", "4 in");
    type_into(&mut kitchen, "Depth of tray 1", "90");
    press(&mut kitchen, "Keep this");
    assert!(noticed(&kitchen) > 0);
    assert_eq!(kitchen.state().house(), Some(&house), "the house knows nothing of it");
    assert!(!kitchen.state().is_changed());
    ask(&mut kitchen);
    press(&mut kitchen, "Remove");
    press(&mut kitchen, "Keep this");
    assert_eq!(noticed(&kitchen), 0);
}

#[test]
fn a_tray_that_is_none_is_not_taken() {
    let mut kitchen = kitchen(plain());
    ask(&mut kitchen);
    press(&mut kitchen, "Oven tray, 430 × 350 mm");
    for (typed, words) in [("5", "Give 20 mm to"), ("a cup", "not understood")] {
        type_into(&mut kitchen, "Width of tray 1", typed);
        assert!(kitchen.query_by_label_contains(words).is_some(), "{typed}");
        assert!(kitchen.get_by_label("Keep this").accesskit_node().is_disabled());
    }
    press(&mut kitchen, "Not now");
    assert_eq!(noticed(&kitchen), 0);
}

#[test]
fn trays_are_kept_for_the_next_house() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("gablewright").join("kitchen.json");
    let mut first = kitchen_at(plain(), &file);
    ask(&mut first);
    press(&mut first, "Oven tray, 430 × 350 mm");
    type_into(&mut first, "Width of tray 1", "100");
    type_into(&mut first, "Depth of tray 1", "100");
    type_into(&mut first, "Tray 1", "Toaster");
    press(&mut first, "Keep this");
    let kept = trays::read(&std::fs::read_to_string(&file).unwrap()).unwrap();
    assert_eq!(kept.trays[0].name, "Toaster");
    assert!((kept.trays[0].width.mm() - 100.0).abs() < 1e-9);
    assert!(noticed(&kitchen_at(plain(), &file)) > 0);

    std::fs::write(&file, "{ half a").unwrap();
    let broken = kitchen_at(plain(), &file);
    assert!(broken.query_by_label_contains("your kitchen could not be read").is_some());
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "{ half a", "it is left for the person to look at");
}

#[test]
fn what_is_cut_with_belongs_to_the_kitchen() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("kitchen.json");
    let mut first = kitchen_at(plain(), &file);
    let house = first.state().house().unwrap().clone();
    let near = |k: &Kitchen| k.query_all_by_label_contains("of biscuit is left beside").count();
    let before = near(&first);
    ask(&mut first);
    type_into(&mut first, "Least biscuit to leave", "a hand");
    assert!(first.get_by_label("Keep this").accesskit_node().is_disabled());
    type_into(&mut first, "Least biscuit to leave", "60");
    press(&mut first, "Keep this");
    first.run_steps(4);
    assert!(near(&first) > before, "more is too near an edge");
    assert_eq!(first.state().house(), Some(&house), "the house knows nothing of it");
    let kept = trays::read(&std::fs::read_to_string(&file).unwrap()).unwrap();
    assert_eq!(kept.tools.unwrap().bridge.map(|b| b.mm().round()), Some(60.0));
    assert!(near(&kitchen_at(plain(), &file)) > before);
}

#[test]
fn what_an_old_file_says_of_tools_is_taken_over() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("kitchen.json");
    let mut old = plain();
    old.dressing.glazier.blade = gable_measure::Length::mm_of(9.0);
    let taken = kitchen_at(old.clone(), &file);
    assert!(taken.query_by_label_contains("that is kept in your kitchen now").is_some());
    let kept = trays::read(&std::fs::read_to_string(&file).unwrap()).unwrap();
    assert!((kept.tools.unwrap().blade.mm() - 9.0).abs() < 1e-9);
    assert!(!taken.state().is_changed());
    old.dressing.glazier.blade = gable_measure::Length::mm_of(4.0);
    let other = kitchen_at(old, &file);
    assert!(other.query_by_label_contains("and that counts").is_some());
}
