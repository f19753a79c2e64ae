//! The order of assembly in the editor.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::{NodeT, Queryable};
use gable_raise::Guide;
use gable_shell::{Before, Raised, demo, solve};
use kitchen::{Kitchen, kitchen};

fn stages(kitchen: &Kitchen) -> Vec<String> {
    let solved = solve(kitchen.state().house().unwrap());
    Guide::of(&solved).unwrap().stages.iter().map(|s| s.name(&solved)).collect()
}

/// Presses a button, also one that a list has to be scrolled for.
fn press(kitchen: &mut Kitchen, name: &str) {
    kitchen.get_by_label(name).click_accesskit();
    kitchen.run();
}

fn order(kitchen: &Kitchen) -> Vec<Before> {
    kitchen.state().house().unwrap().order.clone()
}

#[test]
fn stages_are_moved_and_taken_back() {
    let mut kitchen = kitchen(demo::house("boat-hut").unwrap());
    kitchen.get_by_label_contains("Putting it up").click();
    kitchen.run();
    let before = stages(&kitchen);
    assert!(kitchen.get_by_label(&format!("Earlier: {}", before[0])).accesskit_node().is_disabled());
    let last = before.last().unwrap().clone();
    assert!(kitchen.get_by_label(&format!("Later: {last}")).accesskit_node().is_disabled());
    // Two slopes of the roof change places.
    let k = before.windows(2).position(|w| w.iter().all(|n| n.ends_with("roof"))).unwrap();
    press(&mut kitchen, &format!("Earlier: {}", before[k + 1]));
    let mut wanted = before.clone();
    wanted.swap(k, k + 1);
    assert_eq!(stages(&kitchen)[..=k + 1], wanted[..=k + 1]);
    assert_eq!(order(&kitchen).len(), 1);
    press(&mut kitchen, "Undo");
    assert_eq!((order(&kitchen), stages(&kitchen)), (vec![], before.clone()));
    press(&mut kitchen, "Redo");
    press(&mut kitchen, "The usual order");
    assert_eq!((order(&kitchen), stages(&kitchen)), (vec![], before));
}

#[test]
fn what_cannot_be_had_is_said_and_struck_out() {
    let mut house = demo::house("askew-house").unwrap();
    house.order = vec![Before { first: Raised::read("chimney"), then: Raised::read("main/roof") }];
    let mut kitchen = kitchen(house);
    assert!(kitchen.query_by_label_contains("cannot be had: nothing would carry").is_some());
    kitchen.get_by_label_contains("Putting it up").click();
    kitchen.run();
    assert!(kitchen.query_by_label_contains("Cannot be had: nothing would carry").is_some());
    let button = kitchen.query_all_by_label_contains("Strike out:").next().unwrap();
    button.click_accesskit();
    kitchen.run();
    assert_eq!(order(&kitchen), []);
    assert!(kitchen.query_by_label_contains("annot be had").is_none());
}
