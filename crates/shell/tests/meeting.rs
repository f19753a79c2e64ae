//! What is said where parts meet: heights that nearly line up, covered windows, narrow bridges.
#![allow(clippy::unwrap_used, reason = "a check says by stopping that it failed")]

use gable_measure::{Finding, Length};
use gable_shell::{DoughId, House, Mode, Opening, OpeningId, Outline, Placing, SideId, Top, demo, solve};

fn pilot_house() -> House {
    demo::house("pilot-house").unwrap()
}

fn said<'a>(findings: &'a [Finding], kind: &str, about: &str) -> Vec<&'a str> {
    let found = findings.iter().filter(|f| f.kind == kind && f.what.contains(about));
    found.map(|f| f.what.as_str()).collect()
}

/// The pilot house with the eaves of its lean-to at a height, mm.
fn with_lean_to(height: f64) -> Vec<Finding> {
    let mut house = pilot_house();
    let lean_to = house.parts.iter_mut().find(|p| p.id.0 == "lean-to").unwrap();
    for side in &mut lean_to.sides {
        if let Top::Eave { height: eave, .. } = &mut side.top {
            *eave = Length::mm_of(height);
        }
    }
    solve(&house).findings
}

#[test]
fn heights_that_nearly_line_up_are_noted_and_level_ones_are_not() {
    // The eaves of the main body are at 100 mm.
    let about = "the eave of Lean-to";
    let kind = "heights-nearly-level";
    let near = with_lean_to(97.0);
    let near = said(&near, kind, about);
    assert_eq!(near.first(), Some(&"the eave of Lean-to is only 3 mm below the eave of Main body"), "{near:?}");
    assert_eq!(said(&with_lean_to(100.0), kind, about), [""; 0]);
    assert_eq!(said(&with_lean_to(70.0), kind, about), [""; 0]);
}

#[test]
fn a_window_behind_another_part_is_named() {
    let mut house = pilot_house();
    let window = Opening {
        id: OpeningId("hidden".into()),
        name: "Hidden window".into(),
        side: SideId("left".into()),
        placing: Placing::Centred { offset: Length::mm_of(0.0) },
        sill: Length::mm_of(15.0),
        width: Length::mm_of(14.0),
        height: Length::mm_of(16.0),
        ..house.parts[0].openings[0].clone()
    };
    assert_eq!(window.mode, Mode::Cut);
    house.parts[0].openings = vec![window];
    for part in &mut house.parts {
        part.behind = gable_shell::Behind::Whole;
    }
    let findings = solve(&house).findings;
    assert_eq!(said(&findings, "opening-behind", "Hidden window").len(), 1, "{findings:?}");
    house.parts[0].openings[0].side = SideId("right".into());
    let findings = solve(&house).findings;
    assert_eq!(said(&findings, "opening-behind", "Hidden window"), [""; 0]);
}

#[test]
fn the_thin_leg_of_a_chimney_in_an_open_ridge_is_named() {
    let mut house = pilot_house();
    let chimney = house.parts.iter_mut().find(|p| p.id.0 == "chimney").unwrap();
    chimney.outline = Outline::Rectangle { width: Length::mm_of(36.0), depth: Length::mm_of(36.0) };
    chimney.wall_dough = DoughId("walls".into());
    let findings = solve(&house).findings;
    assert_eq!(said(&findings, "narrow-bridge", "Chimney").len(), 2, "{findings:?}");
}

#[test]
fn a_dormer_that_rises_above_the_ridge_is_said_to_be_open_behind() {
    let raised = |by: f64| {
        let mut house = pilot_house();
        let dormer = house.parts.iter_mut().find(|p| p.id.0.starts_with("dormer")).unwrap();
        for side in &mut dormer.sides {
            if let Top::Eave { height, .. } = &mut side.top {
                *height = Length::mm_of(height.mm() + by);
            }
        }
        solve(&house).findings
    };
    assert_eq!(said(&raised(0.0), "open-behind", ""), [""; 0]);
    let high = raised(60.0);
    let said = said(&high, "open-behind", "above the roof of Main body at its back, which stays open");
    assert_eq!(said.len(), 1, "{high:?}");
}

/// The lean-to is 96 mm wide under a gable of 45° whose eaves, at 100 mm, are 75 mm from the middle; the upper face of its roof
/// of 7.62 mm, raised by the gap of 0.8 mm, is (7.62 + 0.8) √2 above that line: at 138.9 mm over the corners of the lean-to.
/// Their inside ends 46 tan 30° + 0.8 / cos 30° = 27.5 mm above its eaves.
#[test]
fn a_lean_to_whose_corners_come_out_of_the_gable_is_said_to_be_open_behind() {
    let out = |height: f64| {
        let corner = height + 46.0 * 30f64.to_radians().tan() + 0.8 / 30f64.to_radians().cos();
        (corner - (100.0 + 75.0 - 48.0) - 8.42 * 2f64.sqrt()) / 2f64.sqrt()
    };
    assert!(out(112.0) < 0.5 && (out(113.0) - 1.1).abs() < 0.05 && out(117.0) > 2.0);
    let high = with_lean_to(113.0);
    let found = said(&high, "open-behind", "Lean-to");
    assert_eq!(
        found,
        ["the inside of Lean-to comes 1.1 mm out of Main body at its back, which stays open"],
        "{high:?}"
    );
    // Under the roof, or far above it, where the side is open on purpose.
    for height in [48.0, 112.0, 117.0] {
        assert_eq!(said(&with_lean_to(height), "open-behind", "Lean-to"), [""; 0], "{height}");
    }
}
