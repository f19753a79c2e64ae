//! The plan: what stands beside the house is selected, moved, copied and taken away there, and what is dragged holds on to
//! what is near.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use gable_measure::Length;
use gable_shell::{Extra, ExtraKind, House, Outline, PartId, Place, SideId, Spot, demo};
use kitchen::{Kitchen, drag_from, keys, kitchen, plain, press};

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

fn at(kind: ExtraKind, x: f64, y: f64) -> Extra {
    Extra { spot: Spot { x: mm(x), y: mm(y), ..Spot::default() }, ..Extra::usual(kind) }
}

/// The plain house, 120 by 160 mm about the middle of the board, with two trees and a fence.
fn wooded() -> House {
    let mut house = plain();
    let trees = [at(ExtraKind::Tree, 150.0, 20.0), at(ExtraKind::Tree, -150.0, 40.0)];
    house.dressing.extras = trees.into_iter().chain([at(ExtraKind::Fence, 0.0, -150.0)]).collect();
    house
}

fn spots(kitchen: &Kitchen) -> Vec<(f64, f64)> {
    let extras = &kitchen.state().house().unwrap().dressing.extras;
    extras.iter().map(|e| (e.spot.x.mm(), e.spot.y.mm())).collect()
}

/// Points for each millimetre of the plan, where two handles are so far from each other.
fn scale(kitchen: &Kitchen, left: &str, right: &str, mm: f32) -> f32 {
    let x = |name: &str| {
        let exact = kitchen.query_by_label(name);
        exact.unwrap_or_else(|| kitchen.get_by_label_contains(name)).rect().center().x
    };
    (x(right) - x(left)) / mm
}

/// Drags something of the plan by so many mm, with keys held.
fn drag(kitchen: &mut Kitchen, name: &str, scale: f32, by: (f32, f32), held: Modifiers) {
    let exact = kitchen.query_by_label(name);
    let from = exact.unwrap_or_else(|| kitchen.get_by_label_contains(name)).rect().center();
    kitchen.event(egui::Event::ModifiersChanged(held));
    drag_from(kitchen, from, egui::vec2(by.0, -by.1) * scale);
    kitchen.event(egui::Event::ModifiersChanged(Modifiers::NONE));
    kitchen.run();
}

#[test]
fn what_stands_beside_the_house_is_moved_copied_and_taken_away_in_the_plan() {
    let mut kitchen = kitchen(wooded());
    press(&mut kitchen, "Tree 1, beside");
    assert!(kitchen.query_by_label("Sizes: Tree 1").is_some());
    kitchen.get_by_label("Tree 1, to be moved").focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::ArrowRight);
    keys(&mut kitchen, Modifiers::SHIFT, Key::ArrowUp);
    assert_eq!(spots(&kitchen), [(151.0, 30.0), (-150.0, 40.0), (0.0, -150.0)]);
    press(&mut kitchen, "Edit");
    assert!(kitchen.query_by_label_contains("Undo move of a thing beside the house").is_some());
    keys(&mut kitchen, Modifiers::COMMAND, Key::Z);
    keys(&mut kitchen, Modifiers::COMMAND, Key::Z);
    assert_eq!(spots(&kitchen)[0], (150.0, 20.0));
    press(&mut kitchen, "Another like it");
    assert!(kitchen.query_by_label("Sizes: Tree 4").is_some());
    // Its width of 60 mm and 10 mm of air beside it.
    assert_eq!(spots(&kitchen)[3], (220.0, 20.0));
    keys(&mut kitchen, Modifiers::COMMAND, Key::A);
    assert!(kitchen.query_by_label("4 things beside the house selected").is_some());
    kitchen.get_by_label("Tree 4, to be moved").focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::ArrowDown);
    assert_eq!(spots(&kitchen), [(150.0, 19.0), (-150.0, 39.0), (0.0, -151.0), (220.0, 19.0)]);
    keys(&mut kitchen, Modifiers::NONE, Key::Delete);
    assert_eq!(spots(&kitchen), []);
    press(&mut kitchen, "Undo");
    assert_eq!(spots(&kitchen).len(), 4);
}

#[test]
fn a_tree_that_is_dragged_holds_on_to_the_middle_of_the_house() {
    let mut kitchen = kitchen(wooded());
    let scale = scale(&kitchen, "Handle of the left wall", "Handle of the right wall", 120.0);
    // The middle of the house is at 0; 1.4 mm short of it is near enough.
    drag(&mut kitchen, "Tree 1, to be moved", scale, (0.0, -18.6), Modifiers::NONE);
    assert_eq!(spots(&kitchen)[0], (150.0, 0.0));
    assert!(kitchen.query_by_label("Sizes: Tree 1").is_some());
    press(&mut kitchen, "Undo");
    drag(&mut kitchen, "Tree 1, to be moved", scale, (0.0, -18.6), Modifiers::ALT);
    assert_eq!(spots(&kitchen)[0], (150.0, 1.0), "not with Alt: a whole step");
}

/// A second part on the board, out of the way, from 70 mm to the right on.
fn with_shed() -> House {
    let mut house = plain();
    let mut shed = house.parts[0].clone();
    shed.id = PartId("shed".to_owned());
    "Shed".clone_into(&mut shed.name);
    shed.openings.clear();
    shed.outline = Outline::Rectangle { width: mm(152.0), depth: mm(60.0) };
    shed.place = Place::Ground(Spot { x: mm(146.0), y: mm(200.0), ..Spot::default() });
    house.parts.push(shed);
    house
}

#[test]
fn a_wall_that_is_dragged_holds_on_to_edges_and_sizes_of_other_parts() {
    let width = |by: f32, held: Modifiers| {
        let mut kitchen = kitchen(with_shed());
        let scale = scale(&kitchen, "Handle of the left wall", "Handle of the right wall", 120.0);
        drag(&mut kitchen, "Handle of the right wall", scale, (by, 0.0), held);
        kitchen::width(&kitchen)
    };
    // The shed begins at 146 - 152 / 2 = 70 mm, and the house grows about its middle: 140 mm.
    assert_eq!(width(9.4, Modifiers::NONE), 140.0);
    assert_eq!(width(9.4, Modifiers::ALT), 139.0);
    // As wide as the shed.
    assert_eq!(width(15.6, Modifiers::NONE), 152.0);
}

#[test]
fn a_corner_that_is_dragged_holds_on_to_lines_of_other_corners() {
    let corner = |by: (f32, f32), held: Modifiers| {
        let mut house = with_shed();
        let corners = [(-60.0, -80.0), (50.5, -70.0), (60.0, 80.0), (-60.0, 80.0)];
        house.parts[0].outline = Outline::Free { corners: corners.map(|(x, y)| (mm(x), mm(y))).to_vec() };
        house.parts[0].openings.clear();
        for (k, side) in house.parts[0].sides.iter_mut().enumerate() {
            side.id = SideId((k + 1).to_string());
        }
        let mut kitchen = kitchen(house);
        let scale = scale(&kitchen, "Corner 4", "Corner 3", 120.0);
        drag(&mut kitchen, "Corner 2", scale, by, held);
        match &kitchen.state().house().unwrap().parts[0].outline {
            Outline::Free { corners } => (corners[1].0.mm(), corners[1].1.mm()),
            other => panic!("{other:?}"),
        }
    };
    // Up to the right of it is corner 3, at 60 mm; to its left corner 1, 80 mm before the middle.
    assert_eq!(corner((8.6, 0.0), Modifiers::NONE), (60.0, -70.0));
    assert_eq!(corner((8.6, -9.0), Modifiers::NONE), (60.0, -80.0));
    assert_eq!(corner((8.6, 0.0), Modifiers::ALT), (59.0, -70.0));
    // The shed begins 70 mm to the right.
    assert_eq!(corner((18.9, 0.0), Modifiers::NONE), (70.0, -70.0));
}

/// What hangs on the house goes along with it in any case; so everything like a dormer is what stands by the same part.
#[test]
fn everything_on_the_plan_is_everything_like_what_is_selected() {
    let house = demo::house("pilot-house").unwrap();
    let host = |id: &str| house.parts.iter().find(|p| p.id.0 == id).unwrap().place.host().cloned();
    let count = |like: &str| house.parts.iter().filter(|p| p.place.host() == host(like).as_ref()).count();
    let selected = |id: &str| {
        let name = &house.parts.iter().find(|p| p.id.0 == id).unwrap().name;
        let mut kitchen = kitchen(house.clone());
        kitchen.get_by_label(name).scroll_to_me();
        kitchen.run_steps(20);
        press(&mut kitchen, name);
        keys(&mut kitchen, Modifiers::COMMAND, Key::A);
        let many = (2..20).find(|n| kitchen.query_by_label(&format!("{n} parts selected")).is_some());
        many.unwrap_or(1)
    };
    assert!(count("dormer-1") > 1);
    assert_eq!(selected("dormer-1"), count("dormer-1"));
    let first = &house.parts[0].id.0;
    assert_eq!(selected(first), count(first));
    assert!(count(first) + count("dormer-1") <= house.parts.len());
}
