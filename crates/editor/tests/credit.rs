//! Who drew a house, in the editor.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_shell::demo;
use kitchen::{Kitchen, kitchen, press, type_into};

fn credits(kitchen: &Kitchen) -> String {
    kitchen.state().house().unwrap().owner.credits()
}

#[test]
fn whoever_changes_somebody_elses_house_draws_after_them() {
    let hut = demo::house("boat-hut").unwrap();
    let pilots = hut.owner.credit.clone();
    let mut kitchen = kitchen(hut);
    press(&mut kitchen, "House");
    kitchen.get_by_label_contains("Your kitchen…").click();
    kitchen.run();
    kitchen.run_steps(4);
    type_into(&mut kitchen, "Your name", "Ada");
    press(&mut kitchen, "Keep this");
    assert_eq!(credits(&kitchen), pilots, "nothing is changed yet");
    type_into(&mut kitchen, "Width", "150");
    assert_eq!(credits(&kitchen), format!("Ada, after a design by {pilots}"));
    press(&mut kitchen, "Undo");
    assert_eq!(credits(&kitchen), pilots, "one step back");
}

#[test]
fn another_name_put_in_place_of_one_follows_it() {
    let hut = demo::house("boat-hut").unwrap();
    let (title, pilots) = (hut.owner.title.clone(), hut.owner.credit.clone());
    let mut kitchen = kitchen(hut);
    // The title stands in the bar on top too.
    let house = kitchen.query_all_by_label(&title).last().unwrap();
    house.click();
    kitchen.run();
    type_into(&mut kitchen, "Drawn by", "Ada");
    assert_eq!(credits(&kitchen), format!("Ada, after a design by {pilots}"));
    type_into(&mut kitchen, "After a design by", "the pilots");
    assert_eq!(credits(&kitchen), "Ada, after a design by the pilots");
}
