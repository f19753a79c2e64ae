//! What came out of the oven, in the editor.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_measure::Length;
use gable_shell::{Batch, Measure, Measured, PartId};
use kitchen::{Kitchen, kitchen, plain, press, type_into};

fn thickness(kitchen: &Kitchen) -> Option<f64> {
    let house = kitchen.state().house().unwrap();
    house.baked_batch(&PartId("main".into()), Batch::Walls)?.thickness.map(Length::mm)
}

#[test]
fn baked_walls_are_entered_and_let_go_of() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Main body");
    assert!(kitchen.query_by_label("Walls came out thick").is_none());
    press(&mut kitchen, "Its walls are baked");
    assert_eq!(kitchen.state().house().unwrap().baked.len(), 1);
    // The usual dough, rolled to a quarter of an inch: 6.35 mm times 1.25.
    type_into(&mut kitchen, "Walls came out thick", "8 + 1.5");
    assert_eq!(thickness(&kitchen), Some(9.5));
    type_into(&mut kitchen, "Walls came out thick", "-3");
    assert_eq!(thickness(&kitchen), Some(9.5));
    kitchen.key_press(egui::Key::Escape);
    kitchen.run();
    // The typed width is the plan's, whatever came out.
    type_into(&mut kitchen, "Width as they stand", "165");
    let width = Measured { part: PartId("main".into()), measure: Measure::Width };
    assert_eq!(kitchen.state().house().unwrap().size_of(&width), plain().size_of(&width));
    press(&mut kitchen, "Undo");
    press(&mut kitchen, "Undo");
    assert_eq!(thickness(&kitchen), None);
    press(&mut kitchen, "Undo");
    assert_eq!(kitchen.state().house().unwrap().baked, []);
    press(&mut kitchen, "Redo");
    press(&mut kitchen, "Its walls are baked");
    assert_eq!(kitchen.state().house().unwrap().baked, []);
}
