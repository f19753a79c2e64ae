//! A house made larger and smaller in the window.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::{NodeT, Queryable};
use gable_shell::{Resizing, demo, resized};
use kitchen::{Kitchen, kitchen, press, type_into, width};

fn ask(kitchen: &mut Kitchen) {
    press(kitchen, "Edit");
    kitchen.get_by_label_contains("Larger or smaller…").click();
    kitchen.run();
    kitchen.run_steps(4);
}

/// Waits until the comparison is there.
fn wait(kitchen: &mut Kitchen) {
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(120);
    while kitchen.query_by_label("Working it out…").is_some() {
        assert!(std::time::Instant::now() < deadline, "no comparison after two minutes");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run();
    }
}

fn can_take(kitchen: &Kitchen) -> bool {
    !kitchen.get_by_label("Take this size").accesskit_node().is_disabled()
}

#[test]
fn a_house_is_resized_in_one_step_and_back() {
    let hut = demo::house("boat-hut").unwrap();
    let mut kitchen = kitchen(hut.clone());
    ask(&mut kitchen);
    let place = |kitchen: &Kitchen| kitchen.get_by_label("Not now").rect();
    let before = place(&kitchen);
    assert!(kitchen.query_by_label("Working it out…").is_some());
    wait(&mut kitchen);
    kitchen.run_steps(4);
    assert_eq!(place(&kitchen), before, "nothing moves from under the pointer");
    assert!(!can_take(&kitchen), "it has that size already");
    type_into(&mut kitchen, "Share", "a lot");
    assert!(kitchen.query_by_label_contains("Give a share such as 75%").is_some() && !can_take(&kitchen));
    type_into(&mut kitchen, "Share", "150%");
    wait(&mut kitchen);
    assert!(kitchen.query_by_label("150 %").is_some() && can_take(&kitchen));
    press(&mut kitchen, "Doors and windows keep their size");
    wait(&mut kitchen);
    press(&mut kitchen, "Take this size");
    let rules = Resizing { keeps_openings: true, ..Resizing::default() };
    assert_eq!(kitchen.state().house(), Some(&resized(&hut, 1.5, rules)));
    assert!((width(&kitchen) - 210.0).abs() < 1e-9);
    press(&mut kitchen, "Undo");
    assert_eq!(kitchen.state().house(), Some(&hut));
}

#[test]
fn the_largest_for_a_tray_is_found() {
    let mut kitchen = kitchen(demo::house("boat-hut").unwrap());
    ask(&mut kitchen);
    press(&mut kitchen, "How large: So much of its size");
    press(&mut kitchen, "The largest for my tray");
    type_into(&mut kitchen, "Flat inside of the tray", "200x150");
    wait(&mut kitchen);
    press(&mut kitchen, "Take this size");
    let solved = gable_shell::solve(kitchen.state().house().unwrap());
    let tray = gable_export::flat("200x150", gable_measure::Unit::Millimetre).unwrap();
    assert!(solved.pieces.iter().all(|p| tray.holds(&p.outline)));
    ask(&mut kitchen);
    press(&mut kitchen, "Not now");
}
