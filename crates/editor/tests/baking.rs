//! How a house is baked, seen in the window.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_shell::demo;
use kitchen::{Kitchen, kitchen, press};

fn ask(kitchen: &mut Kitchen) {
    press(kitchen, "House");
    kitchen.get_by_label_contains("The bake…").click();
    kitchen.run();
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(120);
    kitchen.run_steps(4);
    while kitchen.query_by_label("Working it out…").is_some() {
        assert!(std::time::Instant::now() < deadline, "no plan after two minutes");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run();
    }
}

#[test]
fn the_bake_is_seen_part_by_part() {
    let mut kitchen = kitchen(demo::house("boat-hut").unwrap());
    ask(&mut kitchen);
    for (part, words) in [
        ("How much", "to make: 909 g with 20 % for trimming"),
        ("Recipes", "500 g (4 cups) Wheat flour, plain, 100 %"),
        ("Shopping", "Piping bags"),
        ("Cautions", "Contains wheat (gluten), eggs."),
        ("Assumptions", "mass of rolled dough: 1.25 g/cm³"),
    ] {
        press(&mut kitchen, part);
        assert!(kitchen.query_all_by_label_contains(words).next().is_some(), "{part}: {words}");
    }
    press(&mut kitchen, "Trays");
    assert!(kitchen.query_all_by_label_contains("Picture of tray 1: ").next().is_some());
    press(&mut kitchen, "Close the bake");
    assert!(kitchen.query_by_label("The bake").is_none());
}
