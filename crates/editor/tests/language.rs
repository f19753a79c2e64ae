//! Every word on every screen comes from the catalogue: the window speaks a language that nobody speaks, and whatever is still
//! in English, or is cut because it became longer, is told.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::accesskit::Role;
use egui_kittest::kittest::NodeT;
use gable_editor::{Editor, Start};
use kitchen::language::{MENUS, WAYS, answered, at_home, click, left_over};
use kitchen::{Kitchen, kitchen_at, plain, shown};
use std::collections::{BTreeMap, BTreeSet};

/// What a person has typed, or what has no words: names of the plain house and of files, languages by their own names.
const NOBODYS: &[&str] = &[
    "Gablewright",
    "English",
    "SVG",
    "SIL",
    "PDF",
    "CSV",
    "DXF",
    "STL",
    "OBJ",
    "glTF",
    "JSON",
    "ICS",
    "PNG",
    "Main",
    "body",
    "Door",
    "benches",
    "examples",
    "src",
    "tests",
];

/// What stays English on a screen as a whole, and why.
const ENGLISH: &[(&str, &str)] = &[
    ("Askew cottage", "a name: of a house that comes with the program"),
    ("Boat hut", "a name: of a house that comes with the program"),
    ("Lookout", "a name: of a house that comes with the program"),
    ("Net store", "a name: of a house that comes with the program"),
    ("Pilot house", "a name: of a house that comes with the program"),
    ("The house", "a house without a name: the notebook finds its bake by it, whatever is spoken"),
    (
        "Resize panel",
        "said by the library for windows (egui 0.37) of its edge between two panels; it takes no other words",
    ),
];

fn names(kitchen: &Kitchen) -> BTreeSet<String> {
    let nodes = kitchen.root().children_recursive();
    let said = nodes.flat_map(|node| {
        let node = node.accesskit_node();
        // Plain text has no name, but is read out all the same.
        let text = (node.role() == Role::Label).then(|| node.value()).flatten();
        [node.label(), text]
    });
    said.flatten().filter(|name| !name.trim().is_empty()).collect()
}

/// Words of a screen that are not from the catalogue.
fn english(kitchen: &Kitchen, screen: &str, found: &mut BTreeMap<String, String>) {
    for name in names(kitchen) {
        let words = left_over(&name);
        let stays = ENGLISH.iter().any(|(name, _)| *name == words);
        if !stays && words.split(' ').any(|word| !word.is_empty() && !NOBODYS.contains(&word)) {
            found.entry(words).or_insert_with(|| format!("'{name}' of {screen}"));
        }
    }
}

#[test]
fn no_screen_says_anything_that_is_not_in_the_catalogue() {
    let home = tempfile::tempdir().unwrap();
    at_home(home.path());
    let fresh = || kitchen_at(plain(), &home.path().join("kitchen.json"));
    let mut found = BTreeMap::new();
    english(&fresh(), "the window", &mut found);
    for menu in MENUS {
        let mut kitchen = fresh();
        assert!(click(&mut kitchen, menu), "there is no menu {menu}");
        english(&kitchen, menu, &mut found);
    }
    for way in WAYS {
        let mut kitchen = fresh();
        for step in *way {
            assert!(click(&mut kitchen, step), "there is no way {way:?}: {:?}", names(&kitchen));
            answered(&mut kitchen);
        }
        english(&kitchen, &format!("{way:?}"), &mut found);
    }
    let first = Editor::without_window(Start::Choose).unwrap().at_home(home.path().join("kitchen.json"));
    english(&shown(first, egui::vec2(1024.0, 700.0)), "opening page", &mut found);
    let list: String = found.iter().map(|(words, place)| format!("{words}: {place}\n")).collect();
    println!("{} still in English:\n{list}", found.len());
    assert!(found.is_empty(), "{} names are not from the catalogue:\n{list}", found.len());
}
