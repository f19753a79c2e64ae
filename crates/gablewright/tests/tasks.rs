//! Tasks that a baker does, each within a number of acts: clicks, drags, keys, and words typed in one go.
//!
//! Once through what assistive technology is told, and once more with a real window on a virtual screen, worked by a real
//! mouse and keyboard in step with it; both must end with the same house.
#![cfg(target_os = "linux")]
#![allow(
    missing_docs,
    unreachable_pub,
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a check says by stopping that it failed"
)]

mod hand;
mod screen;

use gable_measure::{Length, Pitch, Unit};
use gable_shell::{House, Measure, Outline, Place, Placing, Starter, Top};
use hand::Baker;

/// What somebody wants to do.
struct Task {
    name: &'static str,
    /// The house that is there; the opening page if there is none.
    house: Option<fn() -> House>,
    /// The most acts that it may take.
    budget: usize,
    way: fn(&mut Baker),
}

fn cottage() -> House {
    Starter::Cottage.house(Unit::Millimetre)
}

fn chapel() -> House {
    Starter::Chapel.house(Unit::Millimetre)
}

const TASKS: &[Task] = &[
    Task { name: "make the roof steeper", house: Some(cottage), budget: 4, way: steeper },
    Task { name: "move a door to the middle", house: Some(cottage), budget: 6, way: to_the_middle },
    Task { name: "pull a wall until the house is longer", house: Some(cottage), budget: 1, way: longer },
    Task { name: "add a dormer", house: Some(cottage), budget: 2, way: dormer },
    Task { name: "match the ridge to the eave", house: Some(cottage), budget: 6, way: ridge_to_eave },
    Task { name: "take a part away, and that back", house: Some(cottage), budget: 5, way: undone },
    Task { name: "roll a dough thicker", house: Some(cottage), budget: 7, way: thicker },
    Task { name: "make it fit my tray", house: Some(chapel), budget: 9, way: fits_my_tray },
    Task { name: "print on Letter", house: Some(cottage), budget: 7, way: on_letter },
    Task { name: "recover after a kill", house: Some(cottage), budget: 5, way: recovered },
    Task { name: "plan the days", house: Some(cottage), budget: 9, way: days },
    Task { name: "first print from the opening page", house: None, budget: 15, way: first_print },
];

fn steeper(baker: &mut Baker) {
    baker.fill("Roof pitch", "50");
    let house = baker.saved();
    let pitches = house.parts[0].sides.iter().filter_map(|side| match side.top {
        Top::Eave { pitch: Pitch::Angle(angle), .. } => Some(angle.deg()),
        _ => None,
    });
    let pitches: Vec<f64> = pitches.collect();
    assert!(pitches.len() == 2 && pitches.iter().all(|pitch| (pitch - 50.0).abs() < 1e-9), "{pitches:?}");
}

fn to_the_middle(baker: &mut Baker) {
    let place = |house: &House| house.parts[0].openings.iter().find(|o| o.name == "Door").unwrap().placing;
    baker.click("Door");
    baker.drag("Door, to be moved", egui::vec2(40.0, 0.0));
    assert!(place(&baker.saved()) != place(&cottage()), "it has been moved");
    baker.fill("Right of the middle", "0");
    assert_eq!(place(&baker.saved()), Placing::Centred { offset: Length::ZERO });
}

fn longer(baker: &mut Baker) {
    baker.drag("Handle of the right wall", egui::vec2(60.0, 0.0));
    assert!(width(&baker.saved()) > width(&cottage()) + 5.0);
}

fn dormer(baker: &mut Baker) {
    let before = cottage().parts.len();
    baker.choose("Add a part", "Dormer");
    let house = baker.saved();
    assert_eq!(house.parts.len(), before + 1);
    assert!(matches!(house.parts[before].place, Place::OnSlope { .. }));
}

fn ridge_to_eave(baker: &mut Baker) {
    baker.choose("Add a part", "Wing");
    baker.wheel("Shape", 11);
    baker.click("Let sizes follow other parts");
    baker.choose("Ridge follows", "eave");
    let house = baker.saved();
    let [relation] = house.relations.as_slice() else { panic!("one size follows another") };
    assert_eq!((relation.follower.measure.clone(), relation.offset), (Measure::Ridge, Length::ZERO));
    assert!(matches!(relation.leader.measure, Measure::Eave(_)));
}

fn undone(baker: &mut Baker) {
    let before = baker.saved();
    baker.wheel("Front, eave", 12);
    baker.click("Chimney");
    baker.choose("Arrange", "Remove");
    assert_eq!(baker.saved().parts.len(), 1);
    baker.key("ctrl+z");
    assert!(baker.saved() == before);
}

fn thicker(baker: &mut Baker) {
    baker.click("The whole house");
    baker.wheel("Drawn by", 20);
    baker.fill("Rolled to", "8");
    let house = baker.saved();
    assert_eq!(house.doughs.iter().filter(|d| d.rolled == Length::mm_of(8.0)).count(), 1);
}

fn fits_my_tray(baker: &mut Baker) {
    baker.choose("Edit", "Larger or smaller…");
    baker.wait_a_while();
    baker.choose("How large", "The largest for my tray");
    baker.fill("Flat inside of the tray", "130x100");
    baker.wait_a_while();
    baker.click("Take this size");
    let house = baker.saved();
    assert!(width(&house) < width(&chapel()), "smaller than it was");
    let tray = gable_export::flat("130x100", Unit::Millimetre).unwrap();
    assert!(gable_shell::solve(&house).pieces.iter().all(|piece| tray.holds(&piece.outline)));
}

fn on_letter(baker: &mut Baker) {
    baker.key("ctrl+p");
    baker.choose("Paper: ", "Letter, ");
    baker.click("Choose where it goes…");
    baker.key("ctrl+a");
    baker.path("pages");
    baker.key("Return");
    let pdf = baker.wait_for(".pdf");
    // Letter is 8 1/2 by 11 inches (ANSI/ASME Y14.1, size A), a point of PDF is 1/72 inch.
    let text = String::from_utf8_lossy(&pdf);
    assert!(text.contains("612") && text.contains("792"), "pages of 612 by 792 points");
}

fn recovered(baker: &mut Baker) {
    baker.fill("Roof pitch", "50");
    baker.killed();
    baker.click("Go on with the changes");
    assert!(baker.saved() != cottage());
}

fn days(baker: &mut Baker) {
    baker.key("ctrl+b");
    baker.wait_a_while();
    baker.click("Who and when");
    let day = jiff::Zoned::now().date().saturating_add(jiff::Span::new().days(28));
    baker.fill("Must stand by", &format!("{day} 15:00"));
    baker.wait_a_while();
    baker.click("Days");
    let notebook = String::from_utf8(baker.wait_for("notebook.json")).unwrap();
    assert!(notebook.contains(&format!("{day}T15:00")), "{notebook}");
}

fn first_print(baker: &mut Baker) {
    baker.click("Later");
    baker.click("Cottage");
    baker.fill("Width", "180");
    baker.click("Make the pack…");
    baker.click("Choose where it goes…");
    baker.key("ctrl+a");
    baker.path("pages");
    baker.key("Return");
    assert!(baker.wait_for(".pdf").starts_with(b"%PDF-"));
}

/// Width of the first part, a rectangle, mm.
fn width(house: &House) -> f64 {
    match house.parts[0].outline {
        Outline::Rectangle { width, .. } => width.mm(),
        _ => panic!("not a rectangle"),
    }
}

/// Does every task; those with these words in their names, if there are any in `GABLE_TASKS`.
fn work(seen: bool) {
    let wanted = std::env::var("GABLE_TASKS").unwrap_or_default();
    for task in TASKS.iter().filter(|task| task.name.contains(&wanted)) {
        let mut baker = Baker::new(task.house.map(|house| house()).as_ref(), seen);
        (task.way)(&mut baker);
        assert!(baker.acts <= task.budget, "'{}' took {} acts, more than {}", task.name, baker.acts, task.budget);
    }
}

#[test]
fn tasks_are_done_within_their_acts() {
    work(false);
}

#[test]
fn tasks_are_done_in_a_real_window_with_the_same_end() {
    work(true);
}
