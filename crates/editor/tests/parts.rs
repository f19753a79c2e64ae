//! Houses of several parts in the editor.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::{NodeT, Queryable};
use gable_shell::{House, Part, file};
use kitchen::{Kitchen, kitchen, plain, press};

fn pilot_house() -> House {
    file::parse(include_str!("../../../demo/pilot-house.house.json")).unwrap()
}

fn parts(kitchen: &Kitchen) -> Vec<Part> {
    kitchen.state().house().unwrap().parts.clone()
}

#[test]
fn a_part_of_every_kind_that_fits_can_be_added_and_taken_back() {
    for kind in ["Wing", "Lean-to", "Porch", "Bay", "Tower", "Dormer", "Chimney"] {
        let mut kitchen = kitchen(plain());
        let before = parts(&kitchen);
        let pieces = kitchen.state().pieces_shown();
        press(&mut kitchen, "Add a part");
        press(&mut kitchen, kind);
        let after = parts(&kitchen);
        assert_eq!(after.len(), 2, "{kind}");
        assert_eq!(after[1].name, kind);
        assert!(kitchen.state().pieces_shown() > pieces, "{kind}");
        // What was added is selected: its sizes are shown.
        assert!(kitchen.query_by_label(&format!("Sizes: {kind}")).is_some(), "{kind}");
        press(&mut kitchen, "Undo");
        assert_eq!(parts(&kitchen), before, "{kind}");
    }
}

#[test]
fn a_kind_that_cannot_stand_there_says_why() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Add a part");
    assert!(kitchen.get_by_label("Lantern").accesskit_node().is_disabled());
    assert!(kitchen.query_by_label_contains("A lantern stands on a flat roof or on the point of a roof").is_some());
    kitchen.key_press(egui::Key::Escape);
    kitchen.run();
    // The front is a gable: no slope rises from it.
    press(&mut kitchen, "Front, gable");
    press(&mut kitchen, "Add a part");
    assert!(kitchen.get_by_label("Dormer").accesskit_node().is_disabled());
    assert!(kitchen.query_by_label_contains("none rises from the front of Main body").is_some());
}

#[test]
fn a_part_for_which_there_is_no_room_is_refused_with_the_reason() {
    let mut house = plain();
    let side = gable_shell::SideId("front".to_owned());
    while let Ok(part) = house.guest(gable_shell::GuestKind::Bay, &house.parts[0].id, Some(&side)) {
        house.parts.push(part);
    }
    house.parts.iter_mut().skip(1).for_each(|p| p.name = format!("{} of old", p.name));
    let mut kitchen = kitchen(house);
    let before = parts(&kitchen);
    press(&mut kitchen, "Front, gable");
    press(&mut kitchen, "Add a part");
    press(&mut kitchen, "Bay");
    assert_eq!(parts(&kitchen), before);
    assert!(kitchen.query_by_label_contains("There is no room for a bay at the front of Main body").is_some());
}

fn arrange(kitchen: &mut Kitchen, deed: &str) {
    press(kitchen, "Arrange");
    press(kitchen, deed);
}

fn names(kitchen: &Kitchen) -> Vec<String> {
    parts(kitchen).into_iter().map(|p| p.name).collect()
}

/// The plain house with a dormer, which is selected.
fn with_dormer() -> Kitchen {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Add a part");
    press(&mut kitchen, "Dormer");
    kitchen
}

#[test]
fn a_dormer_is_repeated_in_a_row_in_one_step() {
    let mut kitchen = with_dormer();
    let before = parts(&kitchen);
    arrange(&mut kitchen, "  3  ");
    assert_eq!(names(&kitchen), ["Main body", "Dormer", "Dormer 2", "Dormer 3"]);
    press(&mut kitchen, "Undo");
    assert_eq!(parts(&kitchen), before);
}

#[test]
fn a_dormer_is_mirrored_to_the_opposite_slope() {
    let mut kitchen = with_dormer();
    arrange(&mut kitchen, "Mirror to the opposite side");
    let side = |k: usize| match &parts(&kitchen)[k].place {
        gable_shell::Place::OnSlope { side, .. } => side.0.clone(),
        other => panic!("{other:?}"),
    };
    let both = [side(1), side(2)];
    assert!(both.contains(&"left".to_owned()) && both.contains(&"right".to_owned()), "{both:?}");
    assert!(kitchen.query_by_label("Sizes: Dormer 2").is_some());
    // In the middle of its slope there is no other end.
    let before = parts(&kitchen);
    arrange(&mut kitchen, "Mirror to the other end");
    assert_eq!(parts(&kitchen), before);
    assert!(kitchen.query_by_label_contains("stands in the middle").is_some());
}

#[test]
fn parts_are_copied_and_change_their_order() {
    let mut kitchen = with_dormer();
    arrange(&mut kitchen, "Copy");
    assert_eq!(names(&kitchen), ["Main body", "Dormer", "Dormer 2"]);
    arrange(&mut kitchen, "Earlier in the list");
    assert_eq!(names(&kitchen), ["Main body", "Dormer 2", "Dormer"]);
    arrange(&mut kitchen, "Later in the list");
    arrange(&mut kitchen, "Remove");
    assert_eq!(names(&kitchen), ["Main body", "Dormer"]);
}

#[test]
fn a_locked_part_cannot_be_changed_until_it_is_unlocked() {
    let mut kitchen = with_dormer();
    arrange(&mut kitchen, "Lock");
    assert!(parts(&kitchen)[1].locked);
    assert!(kitchen.get_by_label("Width").accesskit_node().is_disabled());
    assert!(kitchen.query_by_label_contains("Handle of the right wall").is_none());
    assert!(kitchen.query_by_label("Dormer, locked").is_some());
    press(&mut kitchen, "Arrange");
    assert!(kitchen.get_by_label("Remove").accesskit_node().is_disabled());
    press(&mut kitchen, "Unlock");
    assert!(!parts(&kitchen)[1].locked);
    assert!(!kitchen.get_by_label("Width").accesskit_node().is_disabled());
    assert!(kitchen.query_by_label_contains("Handle of the right wall").is_some());
    // Its host takes it along all the same, so it must not go with it.
    arrange(&mut kitchen, "Lock");
    press(&mut kitchen, "Unlock it");
    assert!(!parts(&kitchen)[1].locked);
}

#[test]
fn a_piece_clicked_in_the_view_is_selected_everywhere() {
    let mut kitchen = kitchen(pilot_house());
    // The part that is selected at first says nothing of a side.
    assert!(kitchen.query_by_label("Sizes: Main body").is_some());
    let at = kitchen.get_by_label_contains("The house in space").rect().center();
    kitchen.hover_at(at);
    kitchen.run();
    kitchen.drag_at(at);
    kitchen.drop_at(at);
    kitchen.run();
    let rows = kitchen.query_all(egui_kittest::kittest::By::new().role(egui::accesskit::Role::Button));
    let chosen: Vec<String> = rows
        .filter(|n| n.accesskit_node().toggled() == Some(egui::accesskit::Toggled::True))
        .filter_map(|n| n.accesskit_node().label())
        .collect();
    // A row of the list, and no longer the plan.
    assert!(
        chosen.iter().any(|l| ["eave", "gable", "no wall", "posts"].iter().any(|top| l.ends_with(top))),
        "{chosen:?}"
    );
    assert!(kitchen.query_by_label("Drawing table: plan").is_none());
    assert!(kitchen.query_by_label_contains("Face: ").is_some());
}

#[test]
fn a_word_about_room_goes_once_there_is_room() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Front, gable");
    for _ in 0..20 {
        if kitchen.query_by_label_contains("There is no room").is_some() {
            break;
        }
        press(&mut kitchen, "Add a door");
        press(&mut kitchen, "Front, gable");
    }
    assert!(kitchen.query_by_label_contains("There is no room").is_some());
    press(&mut kitchen, "Undo");
    press(&mut kitchen, "Front, gable");
    assert!(kitchen.query_by_label_contains("There is no room").is_none());
}
