//! Every screen: each control has a name and a role and is large enough to be hit, and whatever is dragged goes by keys.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::accesskit::{Action, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use gable_editor::{Editor, Start};
use gable_shell::demo;
use kitchen::{Kitchen, kitchen, plain, press, shown};
use std::time::{Duration, Instant};

/// Least width and height of what is pressed, in points (WCAG 2.2, 2.5.8, level AA).
const TARGET: f64 = 24.0;

/// Ways through the menus to every screen, from a house with everything on it.
const WAYS: &[&[&str]] = &[
    &[],
    &["House"],
    &["Edit"],
    &["In space"],
    &["Look"],
    &["Help"],
    &["Help", "All keys…"],
    &["Help", "Make a key card…"],
    &["House", "New house…"],
    &["House", "Open…"],
    &["House", "Save as…"],
    &["House", "Write other files…"],
    &["House", "Settings…"],
    &["House", "Settings…", "Your kitchen…"],
    &["House", "The bake…"],
    &["House", "The bake…", "Recipes"],
    &["House", "The bake…", "Trays"],
    &["House", "The bake…", "Shopping"],
    &["House", "The bake…", "Who and when"],
    &["House", "The bake…", "Days"],
    &["House", "The bake…", "Today"],
    &["House", "The bake…", "Test biscuits"],
    &["House", "The bake…", "Figures"],
    &["House", "The bake…", "Cautions"],
    &["House", "Will it stand?…"],
    &["House", "Will it stand?…", "Everything"],
    &["House", "Will it stand?…", "Room and way"],
    &["House", "Will it stand?…", "Assumptions"],
    &["House", "Will it stand?…", "Snap test"],
    &["Selected"],
    &["In space", "Cut through the house"],
    &["In space", "Stage by stage"],
    &["In space", "Walls seen through"],
    &["Front, gable", "Add a window", "Selected", "Select everything on the table"],
    &["Make the pack…"],
    &["Make the pack…", "Look at the pages"],
    &["Edit", "Larger or smaller…"],
    &["Add a part"],
    &["Arrange"],
    &["Front, gable"],
    &["Front, gable", "Add a window"],
    &["Pieces ("],
    &["Putting it up"],
];

fn go(kitchen: &mut Kitchen, way: &[&str]) -> bool {
    for name in way {
        let exact = kitchen.query_all_by_label(name).next();
        let Some(node) = exact.or_else(|| kitchen.query_all_by_label_contains(name).next()) else { return false };
        node.click();
        kitchen.run();
        kitchen.run_steps(4);
        answered(kitchen);
    }
    true
}

/// Waits for what is worked out beside the window.
fn answered(kitchen: &mut Kitchen) {
    let deadline = Instant::now() + Duration::from_secs(120);
    while kitchen.query_all_by_label_contains("Working it out").next().is_some() {
        assert!(Instant::now() < deadline, "still at it after two minutes");
        std::thread::sleep(Duration::from_millis(30));
        kitchen.run_steps(2);
    }
}

/// What is wrong with what is on the screen.
fn faults(kitchen: &Kitchen, screen: &str) -> Vec<String> {
    let mut faults = Vec::new();
    let mut seen = 0;
    for node in kitchen.root().children_recursive() {
        let node = node.accesskit_node();
        let pressed = node.data().supports_action(Action::Click) || node.data().supports_action(Action::Focus);
        // Whatever a scroll bar does, the wheel does, and keys do by going through what is scrolled (2.5.8, 'equivalent').
        let layout = [
            Role::ScrollBar,
            Role::ScrollView,
            Role::Window,
            Role::Pane,
            Role::GenericContainer,
            Role::Label,
            Role::TextRun,
        ];
        if !pressed || layout.contains(&node.role()) {
            continue;
        }
        seen += 1;
        let Some(rect) = node.bounding_box() else { continue };
        let name = node.label().unwrap_or_default();
        if name.trim().is_empty() {
            faults.push(format!("{screen}: {:?} without a name at {rect:?}", node.role()));
        }
        if node.role() == Role::Unknown {
            faults.push(format!("{screen}: '{name}' without a role"));
        }
        let least = rect.width().min(rect.height());
        if least < TARGET - 0.01 {
            faults.push(format!("{screen}: {:?} '{name}' is only {least:.1} points", node.role()));
        }
    }
    assert!(seen > 4, "{screen}: only {seen} controls were seen");
    faults
}

#[test]
fn every_control_of_every_screen_has_a_name_a_role_and_room_to_be_hit() {
    let mut found = Vec::new();
    for way in WAYS {
        let mut kitchen = kitchen(plain());
        assert!(go(&mut kitchen, way), "there is no way {way:?}");
        found.extend(faults(&kitchen, &format!("{way:?}")));
    }
    for name in demo::names() {
        found.extend(faults(&kitchen(demo::house(name).unwrap()), name));
    }
    let home = tempfile::tempdir().unwrap();
    let first = Editor::without_window(Start::Choose).unwrap().at_home(home.path().join("kitchen.json"));
    let mut first = shown(first, egui::vec2(1024.0, 700.0));
    found.extend(faults(&first, "first questions"));
    press(&mut first, "Later");
    found.extend(faults(&first, "opening page"));
    found.sort();
    found.dedup();
    assert!(found.is_empty(), "{} faults:\n{}", found.len(), found.join("\n"));
}

#[test]
fn the_table_can_be_moved_and_stepped_nearer_to_by_keys() {
    let mut kitchen = kitchen(plain());
    let table = |k: &Kitchen| k.get_by_label_contains("Drawing table: plan").rect();
    let handle = |k: &Kitchen| k.get_by_label_contains("Handle of the right wall").rect().center();
    let before = (table(&kitchen), handle(&kitchen));
    kitchen.get_by_label_contains("Drawing table: plan").focus();
    kitchen.run();
    kitchen.key_press(egui::Key::ArrowRight);
    kitchen.run();
    let moved = handle(&kitchen);
    assert!(moved.x < before.1.x - 5.0, "the paper goes to the left, as one goes to the right");
    kitchen.key_press(egui::Key::Plus);
    kitchen.run();
    let middle = table(&kitchen).center();
    assert!((handle(&kitchen) - middle).length() > (moved - middle).length() * 1.05);
    assert_eq!(table(&kitchen), before.0);
}

#[test]
fn two_places_are_measured_by_clicks_and_by_keys() {
    let mut kitchen = kitchen(plain());
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::M);
    kitchen.run();
    let handles = ["Handle of the left wall", "Handle of the right wall"];
    let spots = handles.map(|name| kitchen.get_by_label_contains(name).rect().center());
    let click = |kitchen: &mut Kitchen, at: egui::Pos2| {
        kitchen.hover_at(at);
        kitchen.run();
        for pressed in [true, false] {
            let button = egui::PointerButton::Primary;
            let event = egui::Event::PointerButton { pos: at, button, pressed, modifiers: egui::Modifiers::NONE };
            kitchen.event(event);
            kitchen.run();
        }
    };
    for at in spots {
        click(&mut kitchen, at);
    }
    // The plain house is 120 mm wide; a click is as exact as a point of the screen.
    let said = kitchen.get_by_label_contains("Measure: ").accesskit_node().label().unwrap();
    let mm: f64 = said.trim_start_matches("Measure: ").split(' ').next().unwrap().parse().unwrap();
    assert!((mm - 120.0).abs() < 1.0, "{said}");
    assert!((kitchen::width(&kitchen) - 120.0).abs() < 1e-9, "measuring changes nothing");
    // From corner to corner of the plan: 120 × 160 mm.
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::M);
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::M);
    kitchen.run();
    kitchen.get_by_label_contains("Measure: ").focus();
    kitchen.run();
    kitchen.key_press(egui::Key::ArrowUp);
    kitchen.run();
    let mut told = Vec::new();
    for _ in 0..3 {
        kitchen.key_press(egui::Key::ArrowRight);
        kitchen.run();
        told.push(kitchen.get_by_label_contains("Measure: ").accesskit_node().label().unwrap());
    }
    assert!(told[1].contains("Measure: 120 mm") || told[1].contains("Measure: 160 mm"), "{told:?}");
    // Diagonal of 120 and 160 by Pythagoras.
    assert!(told.iter().any(|said| said.contains("200 mm (120 mm across, 160 mm up)")), "{told:?}");
}

/// Colour is never all that tells: the picture's name says how many pieces are meant, the list below says which.
#[test]
fn what_was_noticed_is_coloured_in_the_picture() {
    let home = tempfile::tempdir().unwrap();
    let tray = |mm: f64| gable_shell::kitchen::Tray {
        name: "Tray".to_owned(),
        width: gable_measure::Length::mm_of(mm),
        depth: gable_measure::Length::mm_of(mm),
    };
    let marked = |mm: f64| {
        let own = gable_shell::kitchen::Kitchen { trays: vec![tray(mm)], ..Default::default() };
        let file = home.path().join("kitchen.json");
        std::fs::write(&file, gable_shell::kitchen::write(&own)).unwrap();
        let mut kitchen = kitchen::kitchen_at(plain(), &file);
        assert!(kitchen.query_by_label_contains("What we noticed: ").is_none(), "only when asked for");
        kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::U);
        kitchen.run();
        kitchen.get_by_label_contains("What we noticed: ").accesskit_node().label().unwrap()
    };
    assert!(marked(400.0).contains("nothing of any piece."));
    // Walls and slopes of 120 × 160 mm and more lie on no tray of 90 mm: all six pieces.
    assert!(marked(90.0).contains(": 6."), "{}", marked(90.0));
}

/// What is kept between frames is found anew when the house changes.
#[test]
fn colours_of_what_was_noticed_follow_the_house() {
    let home = tempfile::tempdir().unwrap();
    let file = home.path().join("kitchen.json");
    let mm = gable_measure::Length::mm_of;
    let tray = gable_shell::kitchen::Tray { name: "Tray".to_owned(), width: mm(300.0), depth: mm(300.0) };
    let own = gable_shell::kitchen::Kitchen { trays: vec![tray], ..Default::default() };
    std::fs::write(&file, gable_shell::kitchen::write(&own)).unwrap();
    let mut kitchen = kitchen::kitchen_at(plain(), &file);
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::U);
    kitchen.run();
    let name = |k: &Kitchen| k.get_by_label_contains("What we noticed: ").accesskit_node().label().unwrap();
    assert!(name(&kitchen).contains("nothing of any piece."), "{}", name(&kitchen));
    // Gables of 500 mm are longer than the diagonal of the tray, 424 mm.
    kitchen::type_into(&mut kitchen, "Width", "500");
    assert!(!name(&kitchen).contains("nothing of any piece."), "{}", name(&kitchen));
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Z);
    kitchen.run();
    assert!(name(&kitchen).contains("nothing of any piece."), "{}", name(&kitchen));
}

/// What bakes alike and how narrow strips are is told in words as in colours.
#[test]
fn what_bakes_alike_and_narrow_strips_are_told_of_the_picture() {
    let mut kitchen = kitchen::kitchen(gable_shell::demo::house("pilot-house").unwrap());
    for (item, begins, says) in [
        ("Colour what bakes alike", "What bakes alike: ", "large pieces rolled "),
        ("Colour narrow strips", "Narrowest strips: ", "without a narrow strip: "),
    ] {
        for told in [true, false] {
            kitchen::press(&mut kitchen, "In space");
            kitchen.get_by_label_contains(item).click();
            kitchen.run();
            let name = kitchen.get_by_label_contains("The house in space").accesskit_node().label().unwrap();
            assert_eq!(name.contains(begins) && name.contains(says), told, "{item}: {name}");
        }
    }
}

/// As with text of twice its size in a window of 1440 by 900: the last thing in the longest menu can be had all the same.
#[test]
fn menus_longer_than_the_window_can_be_scrolled() {
    let window = egui::vec2(720.0, 450.0);
    let mut kitchen = kitchen::sized(plain(), window);
    kitchen::press(&mut kitchen, "In space");
    kitchen.run_steps(4);
    let first = kitchen.get_by_label_contains("Show the whole house").rect();
    assert!(first.top() > kitchen.get_by_label("In space").rect().bottom() - 8.0, "{first:?}");
    kitchen.get_by_label_contains("Colour what bakes alike").scroll_to_me();
    kitchen.run_steps(20);
    let last = kitchen.get_by_label_contains("Colour what bakes alike").rect();
    assert!(last.bottom() <= window.y, "{last:?}");
    kitchen.get_by_label_contains("Colour what bakes alike").click();
    kitchen.run();
    assert!(kitchen.query_by_label_contains("What bakes alike: ").is_some());
}
