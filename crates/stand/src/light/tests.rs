use super::*;
use gable_bake::{About, Notebook};
use gable_dress::dress;
use gable_shell::demo;

fn told(house: &House) -> Vec<(LitRoom, Told)> {
    let solved = solve(house);
    let (dressed, notebook) = (dress(house, &solved), Notebook::default());
    let about = About { house, solved: &solved, dressed: &dressed, guide: None, board: None };
    let site = Site::new(about, &notebook);
    rooms(&site).into_iter().zip(answers(&site)).collect()
}

/// Every glazed opening is in exactly one room, and the cable comes up in one room at most.
#[test]
fn every_window_is_lit_from_one_room() {
    for name in demo::names() {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let glazed = solved.pieces.iter().flat_map(|p| &p.openings).filter(|o| o.mode == Mode::Glazed).count();
        let all = told(&house);
        assert_eq!(all.iter().map(|(r, _)| r.windows.len()).sum::<usize>(), glazed, "{name}");
        assert!(all.iter().filter(|(r, _)| r.has_cable).count() <= 1);
    }
}

/// Without passages every part is a room of its own, and what had light through one has none.
#[test]
fn light_goes_through_passages() {
    let house = demo::house("pilot-house").unwrap();
    let mut shut = house.clone();
    shut.parts.iter_mut().for_each(|p| p.behind = gable_shell::Behind::default());
    let cable = |all: &[(LitRoom, Told)]| all.iter().find(|(r, _)| r.has_cable).map_or(0, |(r, _)| r.windows.len());
    let (open, closed) = (told(&house), told(&shut));
    assert!(open.len() <= closed.len());
    assert!(cable(&open) >= cable(&closed), "{} {}", cable(&open), cable(&closed));
    assert!(closed.iter().all(|(r, _)| r.parts.len() == 1));
}

#[test]
fn a_hand_reaches_through_an_open_door_and_not_through_panes() {
    let mut house = demo::house("boat-hut").unwrap();
    let at = |house: &House| {
        let solved = solve(house);
        hand_reaches(&glazed_shut(house), &[lamp(&solved, &house.parts[0].id).unwrap()])
    };
    assert_eq!(at(&house), [true], "the slip doors are wide");
    let mut panes = house.clone();
    panes.parts[0].openings.iter_mut().for_each(|o| o.mode = Mode::Glazed);
    assert_eq!(at(&panes), [false]);
    house.parts[0].openings.clear();
    assert_eq!(at(&house), [false]);
}

/// A lamp comes up through the board unless a floor shuts it off.
#[test]
fn a_floor_shuts_the_board_off() {
    let mut house = demo::house("boat-hut").unwrap();
    let below = |house: &House| told(house).iter().map(|(room, _)| room.from_below).collect::<Vec<_>>();
    assert_eq!(below(&house), [true]);
    house.parts[0].floor.kind = gable_shell::FloorKind::Inside;
    assert_eq!(below(&house), [false]);
}
