use super::*;
use crate::{DoughId, Outline, Top, demo};
use gable_measure::Length;

fn mm(length: f64) -> Length {
    Length::mm_of(length)
}

fn pilot() -> House {
    demo::house("pilot-house").unwrap()
}

fn part<'a>(house: &'a mut House, id: &str) -> &'a mut crate::Part {
    house.parts.iter_mut().find(|p| p.id.0 == id).unwrap()
}

/// Every remedy does what it says, found out by solving the changed house here.
fn assert_mended(house: &House, kind: &str) -> Vec<Remedy> {
    let solved = solve(house);
    let found = remedies(house, &solved, || true);
    assert!(found.iter().any(|r| solved.findings[r.finding].kind == kind), "{:?}: {found:?}", solved.findings);
    for remedy in &found {
        let mut changed = house.clone();
        remedy.change.apply(&mut changed);
        assert_ne!(&changed, house);
        let after = solve(&changed).findings;
        let mended = &solved.findings[remedy.finding];
        assert!(!after.iter().any(|f| f.what == mended.what), "{}: {after:?}", mended.what);
        assert!(after.len() < solved.findings.len(), "{after:?}");
    }
    found
}

#[test]
fn a_chimney_with_a_thin_leg_is_made_deeper_by_no_more_than_it_needs() {
    let mut house = pilot();
    let chimney = part(&mut house, "chimney");
    chimney.outline = Outline::Rectangle { width: mm(36.0), depth: mm(38.0) };
    chimney.wall_dough = DoughId("walls".into());
    let found = assert_mended(&house, "narrow-bridge");
    let words: Vec<String> = found.iter().map(|r| r.change.words(&house)).collect();
    assert!(words.contains(&"Make Chimney 8 mm deeper".to_owned()), "{words:?}");
    // The step before is not enough.
    let mut less = house.clone();
    part(&mut less, "chimney").outline = Outline::Rectangle { width: mm(36.0), depth: mm(42.0) };
    assert!(solve(&less).findings.iter().any(|f| f.kind == "narrow-bridge"));
}

#[test]
fn heights_nearly_level_are_made_level_only_where_nothing_else_suffers() {
    let mut house = pilot();
    for side in &mut part(&mut house, "lean-to").sides {
        if let Top::Eave { height, .. } = &mut side.top {
            *height = mm(96.0);
        }
    }
    let solved = solve(&house);
    for remedy in remedies(&house, &solved, || true) {
        let mut changed = house.clone();
        remedy.change.apply(&mut changed);
        assert!(solve(&changed).findings.len() < solved.findings.len(), "{:?}", remedy.change);
    }
}

#[test]
fn the_askew_wing_as_it_was_is_lowered() {
    let mut house = demo::house("askew-house").unwrap();
    for side in &mut part(&mut house, "wing").sides {
        if let Top::Eave { height, .. } = &mut side.top {
            *height = Length::inches(3.5);
        }
    }
    let found = assert_mended(&house, "narrow-bridge");
    let words: Vec<String> = found.iter().map(|r| r.change.words(&house)).collect();
    assert!(words.iter().all(|w| w.contains("Askew wing") || w.contains("Main body")), "{words:?}");
}

#[test]
fn locked_parts_and_sound_houses_are_left_alone() {
    let mut house = pilot();
    assert_eq!(remedies(&house, &solve(&house), || true), []);
    let chimney = part(&mut house, "chimney");
    chimney.outline = Outline::Rectangle { width: mm(36.0), depth: mm(38.0) };
    chimney.wall_dough = DoughId("walls".into());
    chimney.locked = true;
    let found = remedies(&house, &solve(&house), || true);
    assert!(found.iter().all(|r| r.change.part().0 != "chimney"), "{found:?}");
    assert_eq!(remedies(&house, &solve(&house), || false), []);
}
