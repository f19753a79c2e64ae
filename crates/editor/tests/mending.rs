//! Remedies beside findings, and porches in the window.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_measure::Length;
use gable_shell::{DoughId, House, Outline, demo};
use kitchen::{Kitchen, kitchen, plain, press, type_into};

/// The pilot house with a chimney whose legs are thinner than their dough.
fn with_thin_legs() -> House {
    let mut house = demo::house("pilot-house").unwrap();
    let chimney = house.parts.iter_mut().find(|p| p.id.0 == "chimney").unwrap();
    chimney.outline = Outline::Rectangle { width: Length::mm_of(36.0), depth: Length::mm_of(38.0) };
    chimney.wall_dough = DoughId("walls".into());
    house
}

fn depth(kitchen: &Kitchen) -> f64 {
    let chimney = kitchen.state().house().unwrap().parts.iter().find(|p| p.id.0 == "chimney").unwrap();
    let Outline::Rectangle { depth, .. } = chimney.outline else { panic!() };
    depth.mm()
}

fn press_first(kitchen: &mut Kitchen, name: &str) {
    kitchen.query_all_by_label(name).next().unwrap().click();
    kitchen.run();
}

const WORDS: &str = "Make Chimney 8 mm deeper";

#[test]
fn a_remedy_is_one_act_that_can_be_undone() {
    let mut kitchen = kitchen(with_thin_legs());
    press_first(&mut kitchen, WORDS);
    assert_eq!(depth(&kitchen), 46.0);
    assert_eq!(kitchen.query_all_by_label(WORDS).count(), 0, "both findings are gone");
    press(&mut kitchen, "Undo");
    assert_eq!(depth(&kitchen), 38.0);
    assert_eq!(kitchen.query_all_by_label(WORDS).count(), 2);
}

#[test]
fn what_is_only_tried_changes_nothing_of_the_house() {
    let mut kitchen = kitchen(with_thin_legs());
    let tried = format!("Try: {WORDS}");
    press_first(&mut kitchen, &tried);
    assert_eq!(depth(&kitchen), 38.0);
    assert!(!kitchen.state().is_changed());
    assert_eq!(kitchen.query_all_by_label(WORDS).count(), 2, "the findings of the house as it is stay");
    press_first(&mut kitchen, &tried);
    press_first(&mut kitchen, WORDS);
    assert_eq!(depth(&kitchen), 46.0);
}

#[test]
fn a_porch_comes_with_posts_and_a_floor_whose_sizes_can_be_typed() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Add a part");
    press(&mut kitchen, "Porch");
    let porch = kitchen.state().house().unwrap().parts[1].clone();
    assert_eq!(porch.sides[0].posts.map(|p| p.count), Some(2));
    assert_eq!(porch.steps().map(|s| s.sides.len()), Some(1));
    press(&mut kitchen, "Front, posts");
    type_into(&mut kitchen, "Posts in a row", "3");
    type_into(&mut kitchen, "Strips in a post", "1");
    let posts = kitchen.state().house().unwrap().parts[1].sides[0].posts.unwrap();
    assert_eq!((posts.count, posts.strips), (3, 1));
    press(&mut kitchen, "Undo");
    press(&mut kitchen, "Undo");
    assert_eq!(kitchen.state().house().unwrap().parts[1], porch);
}
