//! Sizes, roofs, openings and parts are changed in the window, through the tree that assistive technology sees.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::{NodeT, Queryable};
use gable_measure::{Length, Unit};
use gable_shell::file;
use kitchen::{Kitchen, kitchen, plain, press, type_into, width};

#[test]
fn a_length_can_be_typed_as_a_sum_and_taken_back() {
    let mut kitchen = kitchen(plain());
    let before = width(&kitchen);
    type_into(&mut kitchen, "Width", "8 1/2 in / 2");
    // 8 1/2 in / 2 = 4 1/4 in = 107.95 mm, by hand.
    assert!((width(&kitchen) - 107.95).abs() < 1e-9);
    assert!(kitchen.state().is_changed());
    press(&mut kitchen, "Undo");
    assert_eq!(width(&kitchen), before);
    assert!(!kitchen.state().is_changed());
    press(&mut kitchen, "Redo");
    assert!((width(&kitchen) - 107.95).abs() < 1e-9);
}

#[test]
fn undo_is_named_after_what_was_done() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Depth", "150");
    press(&mut kitchen, "Edit");
    assert!(kitchen.query_by_label_contains("Undo change of depth").is_some());
}

#[test]
fn a_wrong_entry_stays_and_says_why() {
    let mut kitchen = kitchen(plain());
    let house = kitchen.state().house().unwrap().clone();
    type_into(&mut kitchen, "Width", "12 + x");
    assert_eq!(kitchen.state().house(), Some(&house));
    assert_eq!(kitchen.get_by_label("Width").value().as_deref(), Some("12 + x"));
    // The reader of lengths says what it does not understand.
    assert!(kitchen.query_by_label_contains("\"x\" is not understood here").is_some());
}

#[test]
fn an_impossible_value_leaves_the_last_good_house() {
    let mut kitchen = kitchen(plain());
    let house = kitchen.state().house().unwrap().clone();
    let pieces = kitchen.state().pieces_shown();
    assert!(pieces >= 6, "four walls and two slopes");
    type_into(&mut kitchen, "Width", "-5");
    assert_eq!(kitchen.state().house(), Some(&house));
    assert_eq!(kitchen.state().pieces_shown(), pieces);
    assert!(kitchen.query_by_label_contains("is less than 5 mm").is_some());
    assert_eq!(kitchen.get_by_label("Width").value().as_deref(), Some("-5"));
    type_into(&mut kitchen, "Width", "125");
    assert!((width(&kitchen) - 125.0).abs() < 1e-9);
    assert!(kitchen.query_by_label_contains("is less than 5 mm").is_none());
}

#[test]
fn a_roof_can_be_given_three_ways() {
    let mut kitchen = kitchen(plain());
    for typed in ["35°", "8 in 12", "ridge 150 mm"] {
        type_into(&mut kitchen, "Roof pitch", typed);
        assert_eq!(kitchen.get_by_label("Roof pitch").value().as_deref(), Some(typed));
    }
}

#[test]
fn the_unit_can_be_switched_and_lengths_stay() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Width", "127");
    press(&mut kitchen, "Unit: Millimetres");
    press(&mut kitchen, "Inches to 1/16");
    assert!(matches!(kitchen.state().house().unwrap().unit, Unit::Inch(_)));
    assert_eq!(kitchen.get_by_label("Width").value().as_deref(), Some("5\""));
    assert!((width(&kitchen) - 127.0).abs() < 1e-9);
    press(&mut kitchen, "Undo");
    assert_eq!(kitchen.state().house().unwrap().unit, Unit::Millimetre);
}

#[test]
fn a_window_can_be_added_moved_and_removed() {
    let mut kitchen = kitchen(plain());
    let count = |k: &Kitchen| k.state().house().unwrap().parts[0].openings.len();
    let before = count(&kitchen);
    press(&mut kitchen, "Left, eave");
    press(&mut kitchen, "Add a window");
    assert_eq!(count(&kitchen), before + 1);
    type_into(&mut kitchen, "Right of the middle", "12");
    press(&mut kitchen, "Wall left");
    let sill = kitchen.state().house().unwrap().parts[0].openings[before].sill;
    kitchen.get_by_label("Window 1, to be moved").focus();
    kitchen.run();
    kitchen.key_press(egui::Key::ArrowUp);
    kitchen.run();
    let moved = kitchen.state().house().unwrap().parts[0].openings[before].sill;
    assert!((moved - sill - Length::mm_of(1.0)).abs() < Length::mm_of(1e-9));
    press(&mut kitchen, "Remove this opening");
    assert_eq!(count(&kitchen), before);
}

#[test]
fn a_wall_can_be_dragged_and_one_drag_is_one_step() {
    let mut kitchen = kitchen(plain());
    let before = width(&kitchen);
    let at = kitchen.get_by_label_contains("Handle of the right wall").rect().center();
    kitchen.hover_at(at);
    kitchen.run();
    kitchen.drag_at(at);
    kitchen.run();
    for k in 1..=4 {
        kitchen.hover_at(at + egui::vec2(8.0 * k as f32, 0.0));
        kitchen.run();
    }
    kitchen.drop_at(at + egui::vec2(32.0, 0.0));
    kitchen.run();
    assert!(width(&kitchen) > before + 4.0, "{} {}", before, width(&kitchen));
    press(&mut kitchen, "Undo");
    assert_eq!(width(&kitchen), before);
}

#[test]
fn a_clicked_finding_shows_its_place() {
    let mut house = plain();
    house.parts[0].openings[0].height = Length::mm_of(190.0);
    let mut kitchen = kitchen(house);
    let name = kitchen.state().house().unwrap().parts[0].openings[0].name.clone();
    assert!(kitchen.query_all_by_label("Cannot be built").next().is_some());
    // The first is in the list of parts, the second in the findings.
    let places: Vec<_> = kitchen.get_all_by_label(&name).collect();
    places.last().unwrap().click();
    kitchen.run();
    assert!(kitchen.query_by_label("Above the ground").is_some());
}

#[test]
fn the_roof_form_is_named_and_can_be_changed() {
    let mut kitchen = kitchen(plain());
    let slopes = |k: &Kitchen| {
        let tops = k.state().house().unwrap().parts[0].sides.clone().into_iter();
        tops.filter(|s| matches!(s.top, gable_shell::Top::Eave { .. })).count()
    };
    assert_eq!(slopes(&kitchen), 2);
    press(&mut kitchen, "Roof form");
    press(&mut kitchen, "Hip");
    assert_eq!(slopes(&kitchen), 4);
    press(&mut kitchen, "Undo");
    assert_eq!(slopes(&kitchen), 2);
}

#[test]
fn another_plan_keeps_the_openings() {
    let mut kitchen = kitchen(plain());
    let openings = kitchen.state().house().unwrap().parts[0].openings.clone();
    assert!(!openings.is_empty());
    press(&mut kitchen, "Shape");
    press(&mut kitchen, "Regular polygon");
    let part = kitchen.state().house().unwrap().parts[0].clone();
    assert_eq!(part.openings.len(), openings.len());
    assert!(part.openings.iter().all(|o| part.sides.iter().any(|s| s.id == o.side)));
    press(&mut kitchen, "Undo");
    assert_eq!(kitchen.state().house().unwrap().parts[0].openings, openings);
}

#[test]
fn after_a_wrong_size_the_cursor_stays_and_escape_brings_the_old_one_back() {
    for wrong in ["abc", "0.5"] {
        let mut kitchen = kitchen(plain());
        let old = kitchen.get_by_label("Width").value();
        type_into(&mut kitchen, "Width", wrong);
        kitchen.run();
        assert!(kitchen.get_by_label("Width").accesskit_node().is_focused(), "{wrong}");
        kitchen.key_press(egui::Key::Escape);
        kitchen.run();
        assert_eq!(kitchen.get_by_label("Width").value(), old);
    }
}

#[test]
fn what_is_wrong_is_said_once() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Wall height", "0.5");
    // Both walls that end under the slopes have this fault.
    assert!(kitchen.query_by_label_contains("is less than 5 mm").is_some());
    assert!(kitchen.query_by_label_contains("5 mm. 0.5 mm is less").is_none());
}

#[test]
fn an_opening_that_cannot_be_built_is_still_on_its_wall_to_be_moved() {
    let mut house = plain();
    let mut second = house.parts[0].openings[0].clone();
    (second.id.0, second.name) = ("second".to_owned(), "Second door".to_owned());
    house.parts[0].openings.push(second);
    let mut kitchen = kitchen(house);
    press(&mut kitchen, "Wall front");
    assert!(kitchen.query_by_label("Second door, to be moved").is_some());
}

#[test]
fn the_edit_menu_shows_what_cannot_be_done_yet() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Edit");
    let greyed = kitchen.query_all_by_label_contains("Undo").filter(|n| n.accesskit_node().is_disabled());
    assert_eq!(greyed.count(), 2, "in the bar and in the menu");
}

#[test]
fn a_part_is_moved_by_its_host_and_goes_with_it() {
    let text = include_str!("../../../demo/pilot-house.house.json");
    let mut house = file::parse(text).unwrap();
    house.parts.retain(|p| ["main", "lean-to"].contains(&p.id.0.as_str()));
    house.parts.iter_mut().for_each(|p| p.openings.clear());
    let mut kitchen = kitchen(house);
    let parts = |k: &Kitchen| k.state().house().unwrap().parts.clone();
    let before = parts(&kitchen);
    press(&mut kitchen, "Lean-to");
    type_into(&mut kitchen, "Reaches out", "40");
    let moved = parts(&kitchen).into_iter().find(|p| p.id.0 == "lean-to").unwrap();
    assert!(matches!(moved.place, gable_shell::Place::Against { out, .. } if (out.mm() - 40.0).abs() < 1e-9));
    press(&mut kitchen, "Undo");
    assert_eq!(parts(&kitchen), before);
    // Below the finishes and ornaments, beyond the lower end of the list.
    kitchen.get_by_label("Remove this part").scroll_to_me();
    kitchen.run();
    press(&mut kitchen, "Remove this part");
    assert_eq!(parts(&kitchen).len(), before.len() - 1);
    press(&mut kitchen, "Undo");
    assert_eq!(parts(&kitchen), before);
    // Everything stands by the main body: without it nothing would be left.
    press(&mut kitchen, "Main body");
    assert!(kitchen.query_by_label("Remove this part").is_none());
}

/// What stands on the drawing is a field of its own: a click into it, and the new size takes its place.
#[test]
fn sizes_on_the_drawing_are_clicked_and_typed_over() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "On the drawing: width", "7 1/2 in");
    assert_eq!(width(&kitchen), 190.5);
    assert!(kitchen.query_by_label_contains("Undo").is_some());
    // What cannot be read stays, with the reason beside it, and the house as it was.
    type_into(&mut kitchen, "On the drawing: width", "wide");
    assert_eq!(width(&kitchen), 190.5);
    kitchen::keys(&mut kitchen, egui::Modifiers::NONE, egui::Key::Escape);
    press(&mut kitchen, "Left, eave");
    type_into(&mut kitchen, "On the drawing: wall height", "88");
    let heights: Vec<f64> = kitchen.state().house().unwrap().parts[0]
        .sides
        .iter()
        .filter_map(|side| match side.top {
            gable_shell::Top::Eave { height, .. } => Some(height.mm()),
            _ => None,
        })
        .collect();
    assert_eq!(heights, [88.0, 88.0]);
}
