//! Sizes that follow others, in the editor.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_measure::{Angle, Length, Pitch};
use gable_shell::{House, Measure, Measured, Outline, Part, PartId, Place, Spot, Top};
use kitchen::{Kitchen, kitchen, plain, press, type_into};

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

/// The plain house and a shed beside it, whose walls are 60 mm high.
fn two() -> House {
    let mut house = plain();
    let top = Top::Eave { height: mm(60.0), pitch: Pitch::Angle(Angle::degrees(40.0)), overhang: mm(5.0) };
    let mut shed = Part::plain("shed", "Shed", Outline::Rectangle { width: mm(80.0), depth: mm(70.0) }, top);
    shed.place = Place::Ground(Spot { x: mm(400.0), ..Spot::default() });
    house.parts.push(shed);
    house
}

fn size(kitchen: &Kitchen, part: &str, measure: Measure) -> f64 {
    kitchen.state().house().unwrap().size_of(&Measured { part: PartId(part.into()), measure }).unwrap().mm()
}

fn relations(kitchen: &Kitchen) -> usize {
    kitchen.state().house().unwrap().relations.len()
}

/// The shed's width follows the main body.
fn following() -> Kitchen {
    let mut kitchen = kitchen(two());
    press(&mut kitchen, "Shed");
    press(&mut kitchen, "Let sizes follow other parts");
    kitchen.run_steps(8);
    press(&mut kitchen, "Width follows");
    press(&mut kitchen, "As wide as Main body");
    kitchen
}

#[test]
fn a_size_follows_and_is_let_go_of() {
    let mut kitchen = following();
    let wide = size(&kitchen, "main", Measure::Width);
    assert_eq!(size(&kitchen, "shed", Measure::Width), wide);
    assert!(kitchen.query_by_label("As wide as Main body.").is_some());
    press(&mut kitchen, "Main body");
    type_into(&mut kitchen, "Width", "180");
    assert_eq!(size(&kitchen, "shed", Measure::Width), 180.0);
    press(&mut kitchen, "Shed");
    press(&mut kitchen, "Let go of the width of Shed");
    assert_eq!(relations(&kitchen), 0);
    assert_eq!(size(&kitchen, "shed", Measure::Width), 180.0);
    assert!(kitchen.query_by_label("As wide as Main body.").is_none());
    for expected in [(1, 180.0), (1, wide), (0, 80.0)] {
        press(&mut kitchen, "Undo");
        assert_eq!((relations(&kitchen), size(&kitchen, "shed", Measure::Width)), expected);
    }
}

#[test]
fn typing_over_a_size_that_follows_lets_go_and_says_so() {
    let mut kitchen = following();
    type_into(&mut kitchen, "Width", "95");
    assert_eq!((relations(&kitchen), size(&kitchen, "shed", Measure::Width)), (0, 95.0));
    let words = "The width of Shed was as wide as Main body and follows no longer, because you changed it. Undo takes \
                 it back.";
    assert!(kitchen.query_by_label(words).is_some());
    press(&mut kitchen, "Undo");
    assert_eq!(relations(&kitchen), 1);
}

#[test]
fn heights_that_nearly_line_up_are_made_level_with_one_click() {
    let mut house = two();
    let host = PartId(house.parts[0].id.0.clone());
    let eave = house.size_of(&Measured { part: host.clone(), measure: Measure::Eave(None) }).unwrap();
    let front = house.parts[0].sides[0].id.clone();
    let along = gable_shell::Placing::Centred { offset: Length::ZERO };
    let shed = &mut house.parts[1];
    shed.place = Place::Against { host, side: front, along, out: mm(60.0), turn: Angle::ZERO };
    for side in &mut shed.sides {
        let Top::Eave { height, .. } = &mut side.top else { panic!() };
        *height = eave - mm(1.5);
    }
    let mut kitchen = kitchen(house);
    press(&mut kitchen, "Make them level");
    assert_eq!(size(&kitchen, "shed", Measure::Eave(None)), eave.mm());
    assert!(kitchen.query_by_label("Make them level").is_none());
    assert!(kitchen.query_by_label("Level with the eave of Main body.").is_some());
    press(&mut kitchen, "Undo");
    assert_eq!(relations(&kitchen), 0);
}

#[test]
fn removed_parts_take_their_relations_along() {
    let mut kitchen = following();
    press(&mut kitchen, "Arrange");
    press(&mut kitchen, "Copy");
    assert_eq!(relations(&kitchen), 2);
    press(&mut kitchen, "Arrange");
    press(&mut kitchen, "Remove");
    assert_eq!(relations(&kitchen), 1);
}
