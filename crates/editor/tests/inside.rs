//! Looking into the house: a cut through it, walls seen through, and how it is put up stage by stage.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use kitchen::{Kitchen, keys, kitchen, plain, press, type_into};

fn field(kitchen: &Kitchen, name: &str) -> String {
    kitchen.get_by_label(name).value().unwrap_or_default()
}

#[test]
fn the_house_is_cut_where_a_field_or_keys_say_and_stays_as_it_is() {
    let house = plain();
    let mut kitchen = kitchen(house.clone());
    assert!(kitchen.query_by_label("Where the house is cut").is_none());
    keys(&mut kitchen, Modifiers::COMMAND, Key::R);
    assert!(kitchen.query_by_label("Where the house is cut").is_some());
    let middle: f64 = field(&kitchen, "From the left").trim_end_matches(" mm").parse().unwrap();
    // The plain house is 120 mm wide, and its roof reaches out as far on both sides.
    assert!((60.0..80.0).contains(&middle), "{middle}");
    type_into(&mut kitchen, "From the left", "2 * 15");
    assert_eq!(field(&kitchen, "From the left"), "30 mm");
    kitchen.get_by_label_contains("The house in space").focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::PageUp);
    assert_eq!(field(&kitchen, "From the left"), "35 mm");
    // Beyond the house there is nothing to cut.
    type_into(&mut kitchen, "From the left", "5000");
    let most: f64 = field(&kitchen, "From the left").trim_end_matches(" mm").parse().unwrap();
    assert!((most / middle - 2.0).abs() < 0.02, "{most} {middle}");
    press(&mut kitchen, "Cut from the front");
    assert!(kitchen.query_by_label("From the front").is_some());
    assert!(!kitchen.state().is_changed() && kitchen.state().house() == Some(&house));
    keys(&mut kitchen, Modifiers::COMMAND, Key::R);
    assert!(kitchen.query_by_label("Where the house is cut").is_none());
}

#[test]
fn the_house_is_put_up_stage_by_stage_with_the_words_of_the_guide() {
    let mut kitchen = kitchen(plain());
    keys(&mut kitchen, Modifiers { shift: true, ..Modifiers::COMMAND }, Key::P);
    kitchen.run_steps(4);
    let slider = |k: &Kitchen| {
        let node = k.get_by_label_contains("Stages that are put up, of ");
        (node.accesskit_node().numeric_value().unwrap(), node.accesskit_node().label().unwrap())
    };
    let (first, words) = slider(&kitchen);
    let last: f64 = words.rsplit(' ').next().unwrap().parse().unwrap();
    assert!(last >= 2.0 && first == 1.0, "walls before the roof, and they come first: {first}, {words}");
    let said = |k: &Kitchen, text: &str| k.query_all_by_label_contains(text).next().is_some();
    assert!(said(&kitchen, &format!("1 of {last}: ")) && said(&kitchen, "Put up, in this order:"));
    kitchen.get_by_label_contains("The house in space").focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::PageUp);
    assert!(said(&kitchen, &format!("2 of {last}: ")));
}
