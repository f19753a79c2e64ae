//! Parts that are moved along what they stand by, with the pointer and with the keyboard.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_shell::{House, Place, Placing, file};
use kitchen::{Kitchen, drag_from, kitchen, press};

fn pilot_house() -> House {
    file::parse(include_str!("../../../demo/pilot-house.house.json")).unwrap()
}

fn place(kitchen: &Kitchen, part: &str) -> Place {
    let house = kitchen.state().house().unwrap();
    house.parts.iter().find(|p| p.id.0 == part).unwrap().place.clone()
}

/// Along its host and out or up, mm.
fn at(kitchen: &Kitchen, part: &str) -> (f64, f64) {
    match place(kitchen, part) {
        Place::Against { along: Placing::Centred { offset }, out, .. } => (offset.mm(), out.mm()),
        Place::OnSlope { along: Placing::Centred { offset }, up, .. } => (offset.mm(), up.mm()),
        Place::Astride { along, .. } => (along.mm(), 0.0),
        other => panic!("{other:?}"),
    }
}

fn drag(kitchen: &mut Kitchen, name: &str, by: egui::Vec2) {
    let from = kitchen.get_by_label(name).rect().center();
    drag_from(kitchen, from, by);
}

#[test]
fn a_lean_to_is_dragged_along_its_wall_and_away_from_it_in_one_step() {
    let mut kitchen = kitchen(pilot_house());
    let before = place(&kitchen, "lean-to");
    let (along, out) = at(&kitchen, "lean-to");
    // It stands against the left wall: down in the plan is to its right, left is out.
    drag(&mut kitchen, "Lean-to, to be moved", egui::vec2(-8.0, 30.0));
    let (now, reach) = at(&kitchen, "lean-to");
    assert!(now > along + 5.0 && reach > out + 1.0, "{along} {now}, {out} {reach}");
    assert_eq!(now, now.round(), "round millimetres");
    assert!(kitchen.query_by_label("Sizes: Lean-to").is_some(), "what is moved is selected");
    press(&mut kitchen, "Undo");
    assert_eq!(place(&kitchen, "lean-to"), before);
}

#[test]
fn a_chimney_is_dragged_along_the_ridge_only() {
    let mut kitchen = kitchen(pilot_house());
    let before = at(&kitchen, "chimney");
    drag(&mut kitchen, "Chimney, to be moved", egui::vec2(24.0, 24.0));
    let now = at(&kitchen, "chimney");
    assert!(now.0 > before.0 + 5.0, "{before:?} {now:?}");
}

#[test]
fn a_dormer_is_dragged_on_the_drawing_of_its_slope_along_and_up() {
    let mut kitchen = kitchen(pilot_house());
    press(&mut kitchen, "Back, eave");
    press(&mut kitchen, "Face: Main body: Wall back");
    press(&mut kitchen, "Main body: Roof back");
    let before = at(&kitchen, "dormer-2");
    let pieces = kitchen.state().pieces_shown();
    drag(&mut kitchen, "Second dormer, to be moved", egui::vec2(-12.0, -8.0));
    let now = at(&kitchen, "dormer-2");
    assert!(now.0 < before.0 - 2.0 && now.1 > before.1 + 1.0, "{before:?} {now:?}");
    assert_eq!(kitchen.state().pieces_shown(), pieces);
    // The slope stays on the table.
    assert!(kitchen.query_by_label("Face: Main body: Roof back").is_some());
    press(&mut kitchen, "Undo");
    assert_eq!(at(&kitchen, "dormer-2"), before);
}

#[test]
fn a_part_is_nudged_with_the_arrow_keys_and_a_locked_one_is_not_offered() {
    let mut house = pilot_house();
    house.parts.iter_mut().filter(|p| p.id.0 == "chimney").for_each(|p| p.locked = true);
    let mut kitchen = kitchen(house);
    assert!(kitchen.query_by_label("Chimney, to be moved").is_none());
    // Alone on the board, it would only take the whole house along.
    assert!(kitchen.query_by_label("Main body, to be moved").is_none());
    let before = at(&kitchen, "porch");
    kitchen.get_by_label("Porch, to be moved").focus();
    kitchen.run();
    kitchen.key_press(egui::Key::ArrowRight);
    kitchen.run();
    let now = at(&kitchen, "porch");
    // From 41.5 mm to the next whole millimetre.
    assert_eq!((before, now), ((41.5, 36.0), (43.0, 36.0)));
}
