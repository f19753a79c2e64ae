//! Every control has a name, in every size of window and of text.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::accesskit::{Action, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use kitchen::{Kitchen, kitchen, plain, press, type_into, width};

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
        &["House", "Your kitchen…", "Oven tray, 430 × 350 mm"],
        &["Edit", "Larger or smaller…"],
        &["House", "Save as…"],
        &["House", "Write other files…"],
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
