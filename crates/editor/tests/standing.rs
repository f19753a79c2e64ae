//! Will it stand, asked in the window: answers come in words, go by the room, and close with a key.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_editor::{Editor, Start};
use gable_shell::demo;
use kitchen::{Kitchen, press, shown};
use std::time::{Duration, Instant};

fn asked(name: &str) -> Kitchen {
    let house = demo::house(name).unwrap();
    let editor = Editor::without_window(Start::House(Box::new(house))).unwrap();
    let mut kitchen = shown(editor, egui::vec2(1440.0, 2400.0));
    press(&mut kitchen, "House");
    kitchen.get_by_label_contains("Will it stand?…").click();
    kitchen.run();
    answered(&mut kitchen);
    kitchen
}

fn answered(kitchen: &mut Kitchen) {
    let deadline = Instant::now() + Duration::from_secs(120);
    kitchen.run_steps(4);
    while kitchen.query_by_label_contains("likely to break:").is_none() {
        assert!(Instant::now() < deadline, "no answer after two minutes");
        std::thread::sleep(Duration::from_millis(50));
        kitchen.run_steps(2);
    }
}

/// Every part of the answers says something, and that nothing of it is a promise stands under each.
#[test]
fn answers_are_told_in_four_parts() {
    let mut kitchen = asked("boat-hut");
    for (part, said) in [
        ("Everything", "Joints that have set"),
        ("Room and way", "To carry it"),
        ("Assumptions", "Taken as"),
        ("What needs care", "in a room of 50 % humidity"),
    ] {
        press(&mut kitchen, part);
        assert!(kitchen.query_all_by_label_contains(said).next().is_some(), "{part}: {said}");
        assert!(kitchen.query_all_by_label_contains("none of this is a promise").next().is_some(), "{part}");
    }
    press(&mut kitchen, "Close");
    assert!(kitchen.query_by_label_contains("likely to break:").is_none());
}
