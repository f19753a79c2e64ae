//! Several things that are selected at once: by keys and clicks, by a frame, by the list; moved, lined up, spaced and taken
//! away together.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use gable_measure::Length;
use gable_shell::{House, Mode, Opening, OpeningId, Place, Placing, SideId, file};
use kitchen::{Kitchen, drag_from, keys, kitchen, plain, press, type_into};

const CTRL_SHIFT: Modifiers = Modifiers { shift: true, ..Modifiers::COMMAND };

/// The plain house with three windows in its left wall, which is 160 mm long, each measured in another way.
fn windowed() -> House {
    let mut house = plain();
    let mm = Length::mm_of;
    let own = [
        ("one", Placing::FromLeft { distance: mm(10.0) }, 20.0, 20.0, 30.0),
        ("two", Placing::Centred { offset: mm(-12.5) }, 16.0, 24.0, 28.0),
        ("three", Placing::FromRight { distance: mm(12.0) }, 24.0, 18.0, 33.0),
    ];
    for (name, placing, width, height, sill) in own {
        house.parts[0].openings.push(Opening {
            id: OpeningId(name.to_owned()),
            name: format!("Window {name}"),
            side: SideId("left".to_owned()),
            placing,
            width: mm(width),
            height: mm(height),
            sill: mm(sill),
            mode: Mode::Cut,
            ..Opening::default()
        });
    }
    house
}

/// Left edge from the left corner, and sill, of the windows in the left wall, mm.
fn places(kitchen: &Kitchen) -> Vec<(f64, f64)> {
    let part = &kitchen.state().house().unwrap().parts[0];
    let own = part.openings.iter().filter(|o| o.side.0 == "left");
    own.map(|o| (o.placing.left_edge(o.width.mm(), 160.0), o.sill.mm())).collect()
}

fn on_left_wall() -> Kitchen {
    let mut kitchen = kitchen(windowed());
    press(&mut kitchen, "Left, eave");
    assert_eq!(places(&kitchen), [(10.0, 30.0), (59.5, 28.0), (124.0, 33.0)]);
    kitchen
}

fn click_with(kitchen: &mut Kitchen, at: egui::Pos2, modifiers: Modifiers) {
    kitchen.hover_at(at);
    kitchen.run();
    kitchen.event(egui::Event::ModifiersChanged(modifiers));
    for pressed in [true, false] {
        let button = egui::PointerButton::Primary;
        kitchen.event(egui::Event::PointerButton { pos: at, button, pressed, modifiers });
        kitchen.run();
    }
    kitchen.event(egui::Event::ModifiersChanged(Modifiers::NONE));
    kitchen.run();
}

#[test]
fn all_windows_of_a_wall_are_moved_by_keys_and_by_the_pointer_and_keep_their_distances() {
    let mut kitchen = on_left_wall();
    keys(&mut kitchen, Modifiers::COMMAND, Key::A);
    assert!(kitchen.query_by_label("3 openings selected").is_some());
    kitchen.get_by_label("Window one, to be moved").focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::ArrowRight);
    assert_eq!(places(&kitchen), [(11.0, 30.0), (60.5, 28.0), (125.0, 33.0)]);
    press(&mut kitchen, "Undo");
    let at = kitchen.get_by_label("Window one, to be moved").rect().center();
    drag_from(&mut kitchen, at, egui::vec2(12.0, 15.0));
    let now = places(&kitchen);
    let (right, up) = (now[0].0 - 10.0, now[0].1 - 30.0);
    assert!(right >= 2.0 && up <= -2.0 && right == right.round(), "{now:?}");
    for (now, before) in now.iter().zip([(10.0, 30.0), (59.5, 28.0), (124.0, 33.0)]) {
        assert!((now.0 - before.0 - right).abs() < 1e-6 && (now.1 - before.1 - up).abs() < 1e-6, "{now:?}");
    }
    // How each was typed stays.
    let part = &kitchen.state().house().unwrap().parts[0];
    assert!(matches!(part.openings.last().unwrap().placing, Placing::FromRight { .. }));
    press(&mut kitchen, "Undo");
    assert_eq!(places(&kitchen), [(10.0, 30.0), (59.5, 28.0), (124.0, 33.0)], "a drag is one step");
    kitchen.get_by_label("Window one, to be moved").focus();
    kitchen.run();
    // Down as far as the ground, together.
    for _ in 0..4 {
        keys(&mut kitchen, Modifiers::SHIFT, Key::ArrowDown);
    }
    assert_eq!(places(&kitchen).iter().map(|p| p.1).collect::<Vec<_>>(), [2.0, 0.0, 5.0]);
}

#[test]
fn a_frame_on_the_empty_table_selects_what_is_wholly_within_it() {
    let mut kitchen = on_left_wall();
    let [one, two] = ["one", "two"].map(|n| kitchen.get_by_label(&format!("Window {n}, to be moved")).rect());
    let (from, to) = (one.union(two).min - egui::vec2(6.0, 6.0), one.union(two).max + egui::vec2(6.0, 6.0));
    drag_from(&mut kitchen, from, to - from);
    assert!(kitchen.query_by_label("2 openings selected").is_some());
    press(&mut kitchen, "Remove 2 openings");
    assert_eq!(places(&kitchen), [(124.0, 33.0)]);
    press(&mut kitchen, "Edit");
    assert!(kitchen.query_by_label_contains("Undo removed 2 openings").is_some());
    keys(&mut kitchen, Modifiers::COMMAND, Key::Z);
    assert_eq!(places(&kitchen).len(), 3);
}

#[test]
fn windows_are_chosen_with_ctrl_on_the_table_and_in_the_list_and_lined_up_with_the_last() {
    let mut kitchen = on_left_wall();
    let at = |k: &Kitchen, n: &str| k.get_by_label(&format!("Window {n}, to be moved")).rect().center();
    let (one, two) = (at(&kitchen, "one"), at(&kitchen, "two"));
    click_with(&mut kitchen, one, Modifiers::NONE);
    click_with(&mut kitchen, two, Modifiers::COMMAND);
    assert!(kitchen.query_by_label("2 openings selected").is_some());
    let row = kitchen.get_all_by_label("Window three").next().unwrap().rect().center();
    click_with(&mut kitchen, row, Modifiers::COMMAND);
    assert!(kitchen.query_by_label("Line up with Window three:").is_some());
    keys(&mut kitchen, CTRL_SHIFT, Key::D);
    assert!(places(&kitchen).iter().all(|p| p.1 == 33.0), "{:?}", places(&kitchen));
    keys(&mut kitchen, CTRL_SHIFT, Key::A);
    // By hand: from 10 to 148 mm, of which the windows fill 20 + 16 + 24, so two spaces of 39 mm.
    let across: Vec<f64> = places(&kitchen).iter().map(|p| p.0).collect();
    assert_eq!(across, [10.0, 69.0, 124.0]);
    press(&mut kitchen, "Equal spaces over the whole wall");
    // 160 mm less 60 mm in four spaces of 25 mm.
    let across: Vec<f64> = places(&kitchen).iter().map(|p| p.0).collect();
    assert_eq!(across, [25.0, 70.0, 111.0]);
    type_into(&mut kitchen, "All up by", "2 + 1.5");
    assert!(places(&kitchen).iter().all(|p| p.1 == 36.5));
    // A plain click lets go of the rest.
    let one = at(&kitchen, "one");
    click_with(&mut kitchen, one, Modifiers::NONE);
    keys(&mut kitchen, Modifiers::NONE, Key::Delete);
    assert_eq!(places(&kitchen).len(), 2);
}

#[test]
fn what_fields_need_keys_for_is_left_to_them() {
    let mut kitchen = on_left_wall();
    let row = kitchen.get_all_by_label("Window one").map(|n| n.rect().center()).min_by(|a, b| a.y.total_cmp(&b.y));
    click_with(&mut kitchen, row.unwrap(), Modifiers::NONE);
    kitchen.get_by_label("Name").focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::Delete);
    keys(&mut kitchen, Modifiers::COMMAND, Key::A);
    assert_eq!(places(&kitchen).len(), 3);
    assert!(kitchen.query_by_label("3 openings selected").is_none());
}

#[test]
fn parts_are_moved_lined_up_and_taken_away_together() {
    let house = file::parse(include_str!("../../../demo/pilot-house.house.json")).unwrap();
    let mut kitchen = kitchen(house);
    let numbers = |k: &Kitchen, part: &str| {
        let house = k.state().house().unwrap();
        match house.parts.iter().find(|p| p.id.0 == part).map(|p| p.place.clone()) {
            Some(Place::OnSlope { along: Placing::Centred { offset }, up, .. }) => Some((offset.mm(), up.mm())),
            Some(other) => panic!("{other:?}"),
            None => None,
        }
    };
    let names = ["dormer-1", "dormer-2"].map(|id| {
        let parts = &kitchen.state().house().unwrap().parts;
        (id, parts.iter().find(|p| p.id.0 == id).map(|p| p.name.clone()))
    });
    let (first, second) = (names[0].1.clone(), names[1].1.clone());
    let (Some(first), Some(second)) = (first, second) else { panic!("{names:?}") };
    kitchen.get_by_label(&first).scroll_to_me();
    kitchen.run_steps(20);
    press(&mut kitchen, &first);
    kitchen.get_by_label(&second).scroll_to_me();
    kitchen.run_steps(20);
    let row = kitchen.get_by_label(&second).rect().center();
    click_with(&mut kitchen, row, Modifiers::COMMAND);
    assert!(kitchen.query_by_label("2 parts selected").is_some());
    let before = [numbers(&kitchen, "dormer-1").unwrap(), numbers(&kitchen, "dormer-2").unwrap()];
    kitchen.get_by_label(&format!("{second}, to be moved")).focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::ArrowRight);
    let now = [numbers(&kitchen, "dormer-1").unwrap(), numbers(&kitchen, "dormer-2").unwrap()];
    let by = now[1].0 - before[1].0;
    // Both are on the back slope: right in the plan is left as one stands before it.
    assert_eq!((by, now[0].0 - before[0].0), (-1.0, -1.0), "{before:?} {now:?}");
    assert_eq!([now[0].1, now[1].1], [before[0].1, before[1].1]);
    kitchen.get_by_label("Remove 2 parts");
    keys(&mut kitchen, Modifiers::NONE, Key::ArrowUp);
    let up = [numbers(&kitchen, "dormer-1").unwrap().1, numbers(&kitchen, "dormer-2").unwrap().1];
    keys(&mut kitchen, CTRL_SHIFT, Key::L);
    assert_eq!(numbers(&kitchen, "dormer-1").unwrap().0, numbers(&kitchen, "dormer-2").unwrap().0);
    assert_eq!(up, [2.0, 2.0], "down the back slope is up in the plan");
    press(&mut kitchen, "Undo");
    press(&mut kitchen, "Remove 2 parts");
    assert_eq!(numbers(&kitchen, "dormer-1"), None);
    press(&mut kitchen, "Undo");
    assert!(numbers(&kitchen, "dormer-1").is_some() && numbers(&kitchen, "dormer-2").is_some());
}

/// Drags something by so many mm, with a key held, where `wide` mm of it are as wide as it is on the table.
fn drag_mm(kitchen: &mut Kitchen, name: &str, wide: f64, by: (f64, f64), held: Modifiers) {
    let rect = kitchen.get_by_label(name).rect();
    let scale = rect.width() / wide as f32;
    let (from, by) = (rect.center(), egui::vec2(by.0 as f32, -by.1 as f32) * scale);
    kitchen.event(egui::Event::ModifiersChanged(held));
    drag_from(kitchen, from, by);
    kitchen.event(egui::Event::ModifiersChanged(Modifiers::NONE));
    kitchen.run();
}

#[test]
fn what_is_dragged_holds_on_to_the_middle_of_the_wall_to_equal_spaces_and_to_others() {
    let mut house = windowed();
    house.parts[0].openings.retain(|o| o.id.0 != "two");
    let three = "Window three, to be moved";
    let dragged = |by: (f64, f64), held: Modifiers| {
        let mut kitchen = kitchen(house.clone());
        press(&mut kitchen, "Left, eave");
        assert_eq!(places(&kitchen), [(10.0, 30.0), (124.0, 33.0)]);
        drag_mm(&mut kitchen, three, 24.0, by, held);
        places(&kitchen)[1]
    };
    // Its left edge is at 68 mm when its middle is at 80 mm, the middle of 160 mm.
    assert_eq!(dragged((-54.6, 0.0), Modifiers::NONE), (68.0, 33.0));
    assert_eq!(dragged((-54.6, 0.0), Modifiers::ALT), (69.0, 33.0), "69.4 mm to a whole millimetre");
    // The first window leaves 10 mm to the corner and ends at 30 mm.
    assert_eq!(dragged((-83.4, 0.0), Modifiers::NONE), (40.0, 33.0));
    // Half-way between that window and the other corner: (30 + 160 - 24) / 2 mm.
    assert_eq!(dragged((-42.2, 0.0), Modifiers::NONE), (83.0, 33.0));
    // Its lower edge as high as that of the first window, straight down.
    assert_eq!(dragged((0.0, -2.8), Modifiers::NONE), (124.0, 30.0));
    // Far from everything: to a whole millimetre.
    assert_eq!(dragged((-20.2, 0.0), Modifiers::NONE), (104.0, 33.0));
}

#[test]
fn a_wall_that_is_drawn_up_holds_on_to_the_height_of_another_part() {
    let house = file::parse(include_str!("../../../demo/pilot-house.house.json")).unwrap();
    let height = |house: &House, part: &str| {
        let part = house.parts.iter().find(|p| p.id.0 == part).unwrap();
        part.sides.iter().find_map(|s| match s.top {
            gable_shell::Top::Eave { height, .. } => Some(height.mm()),
            _ => None,
        })
    };
    let (main, wing) = (height(&house, "main").unwrap(), height(&house, "lean-to").unwrap());
    assert!(main - wing > 8.0, "{main} {wing}");
    let mut kitchen = kitchen(house);
    kitchen.get_by_label("Lean-to").scroll_to_me();
    kitchen.run_steps(20);
    press(&mut kitchen, "Lean-to");
    press(&mut kitchen, "Face: Choose a face");
    kitchen.get_by_label("Lean-to: Wall front").scroll_to_me();
    kitchen.run_steps(20);
    press(&mut kitchen, "Lean-to: Wall front");
    let handle = kitchen.get_by_label_contains("Handle of the wall's top").rect().center();
    let window = kitchen.get_by_label("Window, to be moved").rect().height();
    let tall = kitchen
        .state()
        .house()
        .unwrap()
        .parts
        .iter()
        .find(|p| p.id.0 == "lean-to")
        .unwrap()
        .openings
        .iter()
        .find(|o| o.name == "Window")
        .unwrap()
        .height;
    let by = (main - wing - 1.4) as f32 * window / tall.mm() as f32;
    drag_from(&mut kitchen, handle, egui::vec2(0.0, -by));
    assert_eq!(height(kitchen.state().house().unwrap(), "lean-to"), Some(main));
}
