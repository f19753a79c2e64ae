//! What is stuck on: selected on its face, in the list and in the view, made larger, copied, taken away.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use gable_measure::Length;
use gable_shell::{Extra, ExtraKind, House, OpeningId, Ornament, OrnamentKind, SideId, Spot};
use kitchen::{Kitchen, drag_from, keys, kitchen, plain, press};

/// The plain house with two windows in its left wall, a sill under the first and shutters beside it.
fn dressed() -> House {
    let mut house = plain();
    let part = house.parts[0].id.clone();
    let mm = Length::mm_of;
    for (name, from_left) in [("one", 40.0), ("two", 100.0)] {
        let mut window = house.parts[0].openings[0].clone();
        (window.id, window.side) = (OpeningId(name.to_owned()), SideId("left".to_owned()));
        name.clone_into(&mut window.name);
        (window.width, window.height, window.sill) = (mm(20.0), mm(24.0), mm(30.0));
        window.placing = gable_shell::Placing::FromLeft { distance: mm(from_left) };
        window.settle();
        house.parts[0].openings.push(window);
    }
    for kind in [OrnamentKind::Sill, OrnamentKind::Shutters] {
        let own = Ornament::usual(kind, part.clone());
        house.dressing.ornaments.push(Ornament { opening: Some(OpeningId("one".to_owned())), ..own });
    }
    house
}

fn sizes(kitchen: &Kitchen) -> Vec<(OrnamentKind, f64)> {
    let ornaments = &kitchen.state().house().unwrap().dressing.ornaments;
    ornaments.iter().map(|o| (o.kind, (o.size.mm() * 1e6).round() / 1e6)).collect()
}

fn at_the_left_wall() -> Kitchen {
    let mut kitchen = kitchen(dressed());
    press(&mut kitchen, "Sill of one, ornament");
    assert!(kitchen.query_by_label("Sizes: Sill of one").is_some());
    assert!(
        kitchen.query_by_label_contains("Drawing table: ").unwrap().accesskit_node().label().unwrap().contains("left")
    );
    kitchen
}

const SILL: &str = "one: sill, to be made larger or smaller";

#[test]
fn an_ornament_is_made_larger_by_dragging_and_by_keys() {
    let mut kitchen = at_the_left_wall();
    let usual = OrnamentKind::Sill.usual_size().mm();
    let from = |kitchen: &Kitchen| kitchen.get_by_label_contains(SILL).rect();
    kitchen.get_by_label_contains(SILL).focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::ArrowDown);
    assert_eq!(sizes(&kitchen)[0], (OrnamentKind::Sill, usual + 0.5));
    keys(&mut kitchen, Modifiers::SHIFT, Key::ArrowDown);
    assert_eq!(sizes(&kitchen)[0], (OrnamentKind::Sill, usual + 5.5));
    keys(&mut kitchen, Modifiers::COMMAND, Key::Z);
    keys(&mut kitchen, Modifiers::COMMAND, Key::Z);
    assert_eq!(sizes(&kitchen)[0], (OrnamentKind::Sill, usual));
    // The shutters lie as high as the window, 24 mm: what a millimetre is on the table.
    let shutter = kitchen.query_all_by_label_contains("shutters, left").next().unwrap().rect();
    let scale = shutter.height() / 24.0;
    let at = from(&kitchen).center();
    drag_from(&mut kitchen, at, egui::vec2(0.0, 4.0 * scale));
    let (_, size) = sizes(&kitchen)[0];
    assert!((size - usual - 4.0).abs() <= 0.5, "{size}: a drag of 4 mm down");
    press(&mut kitchen, "Edit");
    assert!(kitchen.query_by_label_contains("Undo change of an ornament").is_some(), "one drag is one act");
    keys(&mut kitchen, Modifiers::NONE, Key::Escape);
    keys(&mut kitchen, Modifiers::COMMAND, Key::Z);
    assert_eq!(sizes(&kitchen)[0], (OrnamentKind::Sill, usual));
}

#[test]
fn ornaments_are_copied_and_taken_away_alone_and_together() {
    let mut kitchen = at_the_left_wall();
    press(&mut kitchen, "The same on others");
    let of = |kitchen: &Kitchen, k: usize| kitchen.state().house().unwrap().dressing.ornaments[k].opening.clone();
    // The other window has none; doors take no sill of a window.
    assert_eq!((sizes(&kitchen).len(), of(&kitchen, 2)), (3, Some(OpeningId("two".to_owned()))));
    assert!(kitchen.query_by_label("The same on others").is_none(), "there are no others left");
    keys(&mut kitchen, Modifiers::COMMAND, Key::A);
    assert!(kitchen.query_by_label("3 ornaments selected").is_some());
    kitchen.get_by_label_contains(SILL).focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::ArrowDown);
    let grown: Vec<f64> = sizes(&kitchen).iter().map(|(kind, size)| size - kind.usual_size().mm()).collect();
    assert!(grown.iter().all(|by| (by - 0.5).abs() < 1e-6), "{grown:?}: all that is selected");
    keys(&mut kitchen, Modifiers::NONE, Key::Delete);
    assert_eq!(sizes(&kitchen), []);
    press(&mut kitchen, "Undo");
    assert_eq!(sizes(&kitchen).len(), 3);
    press(&mut kitchen, "Shutters of one, ornament");
    keys(&mut kitchen, Modifiers::NONE, Key::Delete);
    let left: Vec<OrnamentKind> = sizes(&kitchen).iter().map(|(kind, _)| *kind).collect();
    assert_eq!(left, [OrnamentKind::Sill, OrnamentKind::Sill]);
    assert!(kitchen.query_by_label("Sizes: one").is_some(), "what it belonged to");
}

#[test]
fn ornaments_of_a_locked_part_stay_as_they_are() {
    let mut house = dressed();
    house.parts[0].locked = true;
    let before = house.dressing.ornaments.len();
    let mut kitchen = kitchen(house);
    press(&mut kitchen, "Sill of one, ornament");
    let size = sizes(&kitchen);
    kitchen.get_by_label_contains(SILL).focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::ArrowDown);
    keys(&mut kitchen, Modifiers::NONE, Key::Delete);
    assert_eq!((sizes(&kitchen).len(), sizes(&kitchen)), (before, size));
}

/// The camera looks at the middle of what it shows: a tree alone in the middle of the picture is met by a click there.
#[test]
fn what_stands_free_is_picked_in_the_view() {
    let mut house = plain();
    // Before the front, where nothing hides it, far taller than the house.
    let spot = Spot { x: Length::mm_of(0.0), y: Length::mm_of(-140.0), ..Spot::default() };
    let tree = Extra::usual(ExtraKind::Tree);
    house.dressing.extras = vec![Extra { spot, height: Length::mm_of(260.0), width: Length::mm_of(200.0), ..tree }];
    let mut kitchen = kitchen(house);
    keys(&mut kitchen, Modifiers::COMMAND, Key::Num2);
    let middle = kitchen.get_by_label_contains("The house in space").rect().center();
    kitchen.hover_at(middle);
    kitchen.run();
    kitchen.drag_at(middle);
    kitchen.run();
    kitchen.drop_at(middle);
    kitchen.run();
    assert!(kitchen.query_by_label("Sizes: Tree 1").is_some());
}
