//! The editor through the tree that assistive technology sees.

#![allow(missing_docs, unreachable_pub, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::accesskit::{Action, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use gable_measure::{Length, Unit};
use gable_shell::{House, Outline, file};
use kitchen::{Kitchen, kitchen, plain, press, type_into};

fn width(kitchen: &Kitchen) -> f64 {
    match kitchen.state().house().unwrap().parts[0].outline {
        Outline::Rectangle { width, .. } => width.mm(),
        _ => panic!("not a rectangle"),
    }
}

#[test]
fn a_length_can_be_typed_as_a_sum_and_taken_back() {
    let mut kitchen = kitchen(plain());
    let before = width(&kitchen);
    type_into(&mut kitchen, "Width", "8 1/2 in / 2");
    // 8 1/2 in / 2 = 4 1/4 in = 107.95 mm, by hand.
    assert!((width(&kitchen) - 107.95).abs() < 1e-9);
    assert!(kitchen.state().is_changed());
    press(&mut kitchen, "Undo");
    assert_eq!(width(&kitchen), before);
    assert!(!kitchen.state().is_changed());
    press(&mut kitchen, "Redo");
    assert!((width(&kitchen) - 107.95).abs() < 1e-9);
}

#[test]
fn undo_is_named_after_what_was_done() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Depth", "150");
    press(&mut kitchen, "Edit");
    assert!(kitchen.query_by_label_contains("Undo change of depth").is_some());
}

#[test]
fn what_is_saved_is_what_is_opened() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("my.house.json");
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Width", "133.5");
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    type_into(&mut kitchen, "File", path.to_str().unwrap());
    assert_eq!(kitchen.state().path(), Some(path.as_path()));
    assert!(!kitchen.state().is_changed());
    let saved = kitchen.state().house().unwrap().clone();
    assert_eq!(file::parse(&std::fs::read_to_string(&path).unwrap()).unwrap(), saved);

    let mut other = kitchen::choosing();
    press(&mut other, "Open a house of mine…");
    type_into(&mut other, "File", path.to_str().unwrap());
    assert_eq!(other.state().house(), Some(&saved));
    // Opened, not begun: nothing to save.
    assert!(!other.state().is_changed());
}

#[test]
fn saving_takes_what_is_still_being_typed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("typed.house.json");
    std::fs::write(&path, file::write(&plain())).unwrap();
    let mut kitchen = kitchen::opened(&path);
    kitchen.get_by_label("Width").focus();
    kitchen.run();
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    kitchen.get_by_label("Width").type_text("141");
    kitchen.run();
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    let saved = file::parse(&std::fs::read_to_string(&path).unwrap()).unwrap();
    assert_eq!(Some(&saved), kitchen.state().house());
    assert!((width(&kitchen) - 141.0).abs() < 1e-9);
}

#[test]
fn a_wrong_entry_stays_and_says_why() {
    let mut kitchen = kitchen(plain());
    let house = kitchen.state().house().unwrap().clone();
    type_into(&mut kitchen, "Width", "12 + x");
    assert_eq!(kitchen.state().house(), Some(&house));
    assert_eq!(kitchen.get_by_label("Width").value().as_deref(), Some("12 + x"));
    // The reader of lengths says what it does not understand.
    assert!(kitchen.query_by_label_contains("\"x\" is not understood here").is_some());
}

#[test]
fn an_impossible_value_leaves_the_last_good_house() {
    let mut kitchen = kitchen(plain());
    let house = kitchen.state().house().unwrap().clone();
    let pieces = kitchen.state().pieces_shown();
    assert!(pieces >= 6, "four walls and two slopes");
    type_into(&mut kitchen, "Width", "-5");
    assert_eq!(kitchen.state().house(), Some(&house));
    assert_eq!(kitchen.state().pieces_shown(), pieces);
    assert!(kitchen.query_by_label_contains("is less than 5 mm").is_some());
    assert_eq!(kitchen.get_by_label("Width").value().as_deref(), Some("-5"));
    type_into(&mut kitchen, "Width", "125");
    assert!((width(&kitchen) - 125.0).abs() < 1e-9);
    assert!(kitchen.query_by_label_contains("is less than 5 mm").is_none());
}

#[test]
fn a_roof_can_be_given_three_ways() {
    let mut kitchen = kitchen(plain());
    for typed in ["35°", "8 in 12", "ridge 150 mm"] {
        type_into(&mut kitchen, "Roof pitch", typed);
        assert_eq!(kitchen.get_by_label("Roof pitch").value().as_deref(), Some(typed));
    }
}

#[test]
fn the_unit_can_be_switched_and_lengths_stay() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Width", "127");
    press(&mut kitchen, "Unit: Millimetres");
    press(&mut kitchen, "Inches to 1/16");
    assert!(matches!(kitchen.state().house().unwrap().unit, Unit::Inch(_)));
    assert_eq!(kitchen.get_by_label("Width").value().as_deref(), Some("5\""));
    assert!((width(&kitchen) - 127.0).abs() < 1e-9);
    press(&mut kitchen, "Undo");
    assert_eq!(kitchen.state().house().unwrap().unit, Unit::Millimetre);
}

#[test]
fn changes_are_not_thrown_away_unasked() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Width", "111");
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::N);
    kitchen.run();
    assert!(kitchen.query_by_label("Keep your changes?").is_some());
    press(&mut kitchen, "Back to the house");
    assert!((width(&kitchen) - 111.0).abs() < 1e-9);
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Q);
    kitchen.run();
    assert!(!kitchen.state().is_leaving());
    press(&mut kitchen, "Throw them away");
    assert!(kitchen.state().is_leaving());
}

#[test]
fn an_unchanged_house_closes_at_once() {
    let mut kitchen = kitchen(plain());
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Q);
    kitchen.run();
    assert!(kitchen.state().is_leaving());
}

#[test]
fn a_window_can_be_added_moved_and_removed() {
    let mut kitchen = kitchen(plain());
    let count = |k: &Kitchen| k.state().house().unwrap().parts[0].openings.len();
    let before = count(&kitchen);
    press(&mut kitchen, "Left, eave");
    press(&mut kitchen, "Add a window");
    assert_eq!(count(&kitchen), before + 1);
    type_into(&mut kitchen, "Right of the middle", "12");
    press(&mut kitchen, "Wall left");
    let sill = kitchen.state().house().unwrap().parts[0].openings[before].sill;
    kitchen.get_by_label("Window 1, to be moved").focus();
    kitchen.run();
    kitchen.key_press(egui::Key::ArrowUp);
    kitchen.run();
    let moved = kitchen.state().house().unwrap().parts[0].openings[before].sill;
    assert!((moved - sill - Length::mm_of(1.0)).abs() < Length::mm_of(1e-9));
    press(&mut kitchen, "Remove this opening");
    assert_eq!(count(&kitchen), before);
}

#[test]
fn a_wall_can_be_dragged_and_one_drag_is_one_step() {
    let mut kitchen = kitchen(plain());
    let before = width(&kitchen);
    let at = kitchen.get_by_label_contains("Handle of the right wall").rect().center();
    kitchen.hover_at(at);
    kitchen.run();
    kitchen.drag_at(at);
    kitchen.run();
    for k in 1..=4 {
        kitchen.hover_at(at + egui::vec2(8.0 * k as f32, 0.0));
        kitchen.run();
    }
    kitchen.drop_at(at + egui::vec2(32.0, 0.0));
    kitchen.run();
    assert!(width(&kitchen) > before + 4.0, "{} {}", before, width(&kitchen));
    press(&mut kitchen, "Undo");
    assert_eq!(width(&kitchen), before);
}

#[test]
fn everything_that_takes_the_keyboard_has_a_name() {
    for house in kitchen::houses() {
        let mut kitchen = kitchen(house);
        check_names(&kitchen);
        for place in ["Front, gable", "Side 1, eave", "Wall front"] {
            // Houses of several parts have some of these more than once.
            if kitchen.query_all_by_label(place).map(|node| node.click()).next().is_some() {
                kitchen.run();
                check_names(&kitchen);
            }
        }
    }
    check_names(&kitchen::choosing());
}

#[test]
fn questions_lists_and_narrow_windows_name_their_controls_too() {
    for way in [
        &["Make the pack…"][..],
        &["Roof form"],
        &["Shape"],
        &["House"],
        &["Edit"],
        &["Look"],
        &["House", "New house…"],
        &["House", "Save as…"],
        &["Front, gable", "Add a window"],
        &["The whole house"],
        &["Pieces (6)"],
    ] {
        let mut kitchen = kitchen(plain());
        for name in way {
            // Menus say the keys, too.
            let exact = kitchen.query_all_by_label(name).next();
            exact.or_else(|| kitchen.query_all_by_label_contains(name).next()).expect(name).click();
            kitchen.run();
            check_names(&kitchen);
        }
    }
    let mut narrow = kitchen::sized(plain(), egui::vec2(512.0, 350.0));
    for turn in ["Parts", "Sizes", "Drawing", "View", "Noticed (0)"] {
        press(&mut narrow, turn);
        check_names(&narrow);
    }
}

fn check_names(kitchen: &Kitchen) {
    let root = kitchen.root();
    let mut seen = 0;
    for node in root.children_recursive() {
        let node = node.accesskit_node();
        let fields = [Role::TextInput, Role::MultilineTextInput, Role::Slider, Role::ComboBox];
        if node.data().supports_action(Action::Focus) || fields.contains(&node.role()) {
            seen += 1;
            let name = node.label().unwrap_or_default();
            assert!(!name.trim().is_empty(), "{:?} without a name at {:?}", node.role(), node.bounding_box());
        }
    }
    assert!(seen > 4, "only {seen} controls were seen");
}

#[test]
fn a_house_is_chosen_from_its_picture() {
    let mut kitchen = kitchen::choosing();
    assert!(kitchen.state().house().is_none());
    press(&mut kitchen, "Plain house");
    assert_eq!(kitchen.state().house(), Some(&House::simple(Unit::Millimetre)));
}

#[test]
fn the_close_button_asks_first_when_something_would_be_lost() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Width", "118");
    let root = kitchen.input_mut().viewports.get_mut(&egui::ViewportId::ROOT).unwrap();
    root.events.push(egui::ViewportEvent::Close);
    kitchen.run();
    assert!(kitchen.query_by_label("Keep your changes?").is_some());
    assert!(!kitchen.state().is_leaving());
}

#[test]
fn the_pack_is_written_beside_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    press(&mut kitchen, "Letter, 215.9 × 279.4 mm");
    press(&mut kitchen, "Choose where it goes…");
    // It is not there yet.
    let place = folder.path().join("new").join("pack");
    type_into(&mut kitchen, "Folder", place.to_str().unwrap());
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(60);
    while kitchen.query_by_label_contains("The pack is ready").is_none() {
        assert!(std::time::Instant::now() < deadline, "no pack after a minute");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run();
    }
    let files: Vec<_> = std::fs::read_dir(place).unwrap().map(|e| e.unwrap().path()).collect();
    assert_eq!(files.len(), 1);
    // A PDF begins with its version (ISO 32000-1, 7.5.2).
    assert!(std::fs::read(&files[0]).unwrap().starts_with(b"%PDF-"));
}

#[test]
fn margins_of_the_pack_can_be_typed() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    type_into(&mut kitchen, "Left margin", "1/2 in");
    // 1/2 in = 12.7 mm.
    assert_eq!(kitchen.get_by_label("Left margin").value().as_deref(), Some("12.7 mm"));
    press(&mut kitchen, "All as the left one");
    assert_eq!(kitchen.get_by_label("Bottom margin").value().as_deref(), Some("12.7 mm"));
    let can_go = |k: &Kitchen| !k.get_by_label("Choose where it goes…").accesskit_node().is_disabled();
    assert!(can_go(&kitchen));
    type_into(&mut kitchen, "Top margin", "a hand");
    assert!(kitchen.query_by_label_contains("Top margin: ").is_some());
    assert!(!can_go(&kitchen));
    type_into(&mut kitchen, "Top margin", "300");
    assert!(kitchen.query_by_label_contains("The margins leave").is_some());
    assert!(!can_go(&kitchen));
    press(&mut kitchen, "Usual margins");
    assert!(can_go(&kitchen));
}

#[test]
fn a_file_that_cannot_be_read_says_why() {
    let mut kitchen = kitchen::choosing();
    press(&mut kitchen, "Open a house of mine…");
    type_into(&mut kitchen, "File", "/no/such.house.json");
    assert!(kitchen.query_by_label_contains("there is no such file").is_some());
    assert!(kitchen.state().house().is_none());
    press(&mut kitchen, "Not now");
    assert!(kitchen.query_by_label("What shall we bake?").is_some());
}

#[test]
fn a_clicked_finding_shows_its_place() {
    let mut house = plain();
    house.parts[0].openings[0].height = Length::mm_of(190.0);
    let mut kitchen = kitchen(house);
    let name = kitchen.state().house().unwrap().parts[0].openings[0].name.clone();
    assert!(kitchen.query_all_by_label("Cannot be built").next().is_some());
    // The first is in the list of parts, the second in the findings.
    let places: Vec<_> = kitchen.get_all_by_label(&name).collect();
    places.last().unwrap().click();
    kitchen.run();
    assert!(kitchen.query_by_label("Above the ground").is_some());
}

#[test]
fn the_roof_form_is_named_and_can_be_changed() {
    let mut kitchen = kitchen(plain());
    let slopes = |k: &Kitchen| {
        let tops = k.state().house().unwrap().parts[0].sides.clone().into_iter();
        tops.filter(|s| matches!(s.top, gable_shell::Top::Eave { .. })).count()
    };
    assert_eq!(slopes(&kitchen), 2);
    press(&mut kitchen, "Roof form");
    press(&mut kitchen, "Hip");
    assert_eq!(slopes(&kitchen), 4);
    press(&mut kitchen, "Undo");
    assert_eq!(slopes(&kitchen), 2);
}

#[test]
fn text_can_be_made_larger_and_everything_stays_in_reach() {
    let mut kitchen = kitchen::sized(plain(), egui::vec2(1024.0, 700.0));
    let zoom = |k: &Kitchen| k.ctx.zoom_factor();
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Equals);
    kitchen.run();
    assert!((zoom(&kitchen) - 1.1).abs() < 1e-6);
    for _ in 0..9 {
        kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Plus);
        kitchen.run();
    }
    assert!((zoom(&kitchen) - 2.0).abs() < 1e-6);
    for turn in ["Parts", "Sizes", "Drawing", "View", "Noticed (0)"] {
        let place = kitchen.get_by_label(turn).rect();
        assert!(place.right() <= 512.0 && place.bottom() <= 350.0, "{turn} at {place:?}");
    }
    press(&mut kitchen, "Sizes");
    type_into(&mut kitchen, "Width", "131");
    assert!((width(&kitchen) - 131.0).abs() < 1e-9);
    press(&mut kitchen, "Drawing");
    assert!(kitchen.query_by_label_contains("Handle of the right wall").is_some());
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::Num0);
    kitchen.run();
    assert!((zoom(&kitchen) - 1.0).abs() < 1e-6);
    assert!(kitchen.query_by_label("Parts of the house").is_some());
}

#[test]
fn another_plan_keeps_the_openings() {
    let mut kitchen = kitchen(plain());
    let openings = kitchen.state().house().unwrap().parts[0].openings.clone();
    assert!(!openings.is_empty());
    press(&mut kitchen, "Shape");
    press(&mut kitchen, "Regular polygon");
    let part = kitchen.state().house().unwrap().parts[0].clone();
    assert_eq!(part.openings.len(), openings.len());
    assert!(part.openings.iter().all(|o| part.sides.iter().any(|s| s.id == o.side)));
    press(&mut kitchen, "Undo");
    assert_eq!(kitchen.state().house().unwrap().parts[0].openings, openings);
}

#[test]
fn a_pack_goes_into_a_folder_that_is_made_for_it() {
    let folder = tempfile::tempdir().unwrap();
    let new = folder.path().join("winter").join("pack");
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Make the pack…");
    press(&mut kitchen, "Choose where it goes…");
    // First where none can be made: the question stays, with what was typed.
    std::fs::write(folder.path().join("winter-list"), "flour").unwrap();
    let wrong = folder.path().join("winter-list").join("pack");
    type_into(&mut kitchen, "Folder", wrong.to_str().unwrap());
    wait_for(&mut kitchen, "a file stands where a folder should be");
    assert_eq!(kitchen.get_by_label("Folder").value().as_deref(), wrong.to_str());
    type_into(&mut kitchen, "Folder", new.to_str().unwrap());
    wait_for(&mut kitchen, "The pack is ready");
    assert!(new.join("house-a4.pdf").is_file());
}

fn wait_for(kitchen: &mut Kitchen, words: &str) {
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(60);
    while kitchen.query_by_label_contains(words).is_none() {
        assert!(std::time::Instant::now() < deadline, "{words} was not said within a minute");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run();
    }
}

#[test]
fn a_name_that_cannot_be_saved_to_is_asked_for_again() {
    let folder = tempfile::tempdir().unwrap();
    let wrong = folder.path().join("nosuch").join("my.house.json");
    let mut kitchen = kitchen(plain());
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    kitchen.run();
    type_into(&mut kitchen, "File", wrong.to_str().unwrap());
    assert!(kitchen.query_by_label_contains("There is no folder").is_some());
    assert!(kitchen.query_by_label_contains("os error").is_none());
    assert_eq!(kitchen.get_by_label("File").value().as_deref(), wrong.to_str());
    let right = folder.path().join("my.house.json");
    type_into(&mut kitchen, "File", right.to_str().unwrap());
    assert_eq!(kitchen.state().path(), Some(right.as_path()));
    // A house without a title goes by the name of its file.
    assert!(kitchen.query_by_label("my").is_some());
}

#[test]
fn after_a_wrong_size_the_cursor_stays_and_escape_brings_the_old_one_back() {
    for wrong in ["abc", "0.5"] {
        let mut kitchen = kitchen(plain());
        let old = kitchen.get_by_label("Width").value();
        type_into(&mut kitchen, "Width", wrong);
        kitchen.run();
        assert!(kitchen.get_by_label("Width").accesskit_node().is_focused(), "{wrong}");
        kitchen.key_press(egui::Key::Escape);
        kitchen.run();
        assert_eq!(kitchen.get_by_label("Width").value(), old);
    }
}

#[test]
fn what_is_wrong_is_said_once() {
    let mut kitchen = kitchen(plain());
    type_into(&mut kitchen, "Wall height", "0.5");
    // Both walls that end under the slopes have this fault.
    assert!(kitchen.query_by_label_contains("is less than 5 mm").is_some());
    assert!(kitchen.query_by_label_contains("5 mm. 0.5 mm is less").is_none());
}

#[test]
fn an_opening_that_cannot_be_built_is_still_on_its_wall_to_be_moved() {
    let mut house = plain();
    let mut second = house.parts[0].openings[0].clone();
    (second.id.0, second.name) = ("second".to_owned(), "Second door".to_owned());
    house.parts[0].openings.push(second);
    let mut kitchen = kitchen(house);
    press(&mut kitchen, "Wall front");
    assert!(kitchen.query_by_label("Second door, to be moved").is_some());
}

#[test]
fn the_edit_menu_shows_what_cannot_be_done_yet() {
    let mut kitchen = kitchen(plain());
    press(&mut kitchen, "Edit");
    let greyed = kitchen.query_all_by_label_contains("Undo").filter(|n| n.accesskit_node().is_disabled());
    assert_eq!(greyed.count(), 2, "in the bar and in the menu");
}

#[test]
fn a_part_is_moved_by_its_host_and_goes_with_it() {
    let text = include_str!("../../../demo/pilot-house.house.json");
    let mut house = file::parse(text).unwrap();
    house.parts.retain(|p| ["main", "lean-to"].contains(&p.id.0.as_str()));
    house.parts.iter_mut().for_each(|p| p.openings.clear());
    let mut kitchen = kitchen(house);
    let parts = |k: &Kitchen| k.state().house().unwrap().parts.clone();
    let before = parts(&kitchen);
    press(&mut kitchen, "Lean-to");
    type_into(&mut kitchen, "Reaches out", "40");
    let moved = parts(&kitchen).into_iter().find(|p| p.id.0 == "lean-to").unwrap();
    assert!(matches!(moved.place, gable_shell::Place::Against { out, .. } if (out.mm() - 40.0).abs() < 1e-9));
    press(&mut kitchen, "Undo");
    assert_eq!(parts(&kitchen), before);
    press(&mut kitchen, "Remove this part");
    assert_eq!(parts(&kitchen).len(), before.len() - 1);
    press(&mut kitchen, "Undo");
    assert_eq!(parts(&kitchen), before);
    // Everything stands by the main body: without it nothing would be left.
    press(&mut kitchen, "Main body");
    assert!(kitchen.query_by_label("Remove this part").is_none());
}

#[test]
fn nothing_is_printed_of_a_house_that_cannot_be_built() {
    let mut house = plain();
    house.parts[0].openings[0].height = Length::mm_of(190.0);
    let mut kitchen = kitchen(house);
    press(&mut kitchen, "Make the pack…");
    assert!(kitchen.get_by_label("Choose where it goes…").accesskit_node().is_disabled());
}
