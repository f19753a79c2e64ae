//! What the order of assembly gives reason to say, in the window: it comes after the quick checks.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use gable_editor::{Editor, Start};
use gable_shell::{House, file};
use kitchen::{Kitchen, kitchen, plain, press, shown};
use std::time::{Duration, Instant};

/// The lid of a bay reaches round the roof of the main body, without a gap for icing.
fn hooked() -> House {
    file::parse(include_str!("houses/hooked.house.json")).unwrap()
}

/// Of a parapet only a scrap is left, clear of all else.
fn loose() -> House {
    file::parse(include_str!("houses/loose.house.json")).unwrap()
}

fn said(kitchen: &Kitchen, words: &str) -> usize {
    kitchen.query_all_by_label_contains(words).count()
}

const HOOK: &str = "no straight move parts them";

#[test]
fn pieces_that_hook_into_each_other_are_told_with_what_to_do() {
    let mut kitchen = kitchen(hooked());
    assert_eq!(said(&kitchen, "Main: left roof hooks into Bay: lid"), 1);
    assert_eq!(said(&kitchen, "Bay: lid hooks into Main: left roof"), 1);
    assert!(said(&kitchen, "llow a gap for icing") > 0);
    // With room for icing the same pieces come together.
    kitchen.get_by_role_and_label(Role::Button, "A bay that hooks under a roof").click();
    kitchen.run();
    kitchen::type_into(&mut kitchen, "Gap for icing", "0.8");
    assert_eq!(said(&kitchen, HOOK), 0);
    press(&mut kitchen, "Undo");
    assert_eq!(said(&kitchen, HOOK), 2);
}

#[test]
fn a_piece_that_touches_nothing_is_told_and_a_plain_house_says_nothing() {
    assert_eq!(said(&kitchen(loose()), "Tower: side 5 parapet touches no other piece"), 1);
    assert_eq!(said(&kitchen(plain()), HOOK) + said(&kitchen(plain()), "touches no other piece"), 0);
}

#[test]
fn beside_the_window_it_comes_by_itself() {
    let ctx = egui::Context::default();
    let editor = Editor::beside(&ctx, Start::House(Box::new(hooked()))).unwrap();
    let mut kitchen = shown(editor, egui::vec2(1440.0, 1800.0));
    let end = Instant::now() + Duration::from_secs(60);
    while said(&kitchen, HOOK) == 0 && Instant::now() < end {
        std::thread::sleep(Duration::from_millis(20));
        kitchen.step();
    }
    assert_eq!(said(&kitchen, HOOK), 2);
    assert!(said(&kitchen, "is only") > 0, "what the quick checks noticed is still there");
}
