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
