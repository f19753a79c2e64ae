//! Makes a picture of every screen of the window, to be looked at. Not a check: `GABLE_PICTURES` says into which folder,
//! `GABLE_TEXT=200` how large the text is in percent, `GABLE_DARK=1` takes the dark kitchen, `GABLE_SCREENS=pack` only the
//! rounds whose name has that in it.
#![cfg(target_os = "linux")]
#![allow(
    missing_docs,
    unreachable_pub,
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "it says by stopping that it failed"
)]

mod hand;
mod screen;

use gable_shell::{House, demo, file};
use hand::{Baker, Taste};
use std::path::PathBuf;

/// What is clicked or pressed one after another, and the name of the picture of it.
type Way = (&'static str, &'static [&'static str]);

/// Ways to screens, each from a house that was just opened. `^` stands before keys, `~` for a while that is waited, `=` before a field and what is typed
/// into it.
const WAYS: &[(&str, &[Way])] = &[
    (
        "faces",
        &[
            ("plan", &["Drawing"]),
            ("list", &["Choose a face"]),
            ("wall", &["Main body: Wall front"]),
            ("roof", &["Main body: Wall front", "Main body: Roof front"]),
            ("back", &["Main body: Roof front", "Main body: Wall back"]),
        ],
    ),
    (
        "turns",
        &[
            ("parts", &["Parts"]),
            ("sizes", &["Sizes"]),
            ("noticed", &["Noticed ("]),
            ("pieces", &["Pieces ("]),
            ("order", &["Putting it up"]),
        ],
    ),
    (
        "troubles",
        &[
            ("nonsense", &["Sizes", "=Width:wide"]),
            ("impossible", &["^ctrl+a", "=Width:1", "~"]),
            ("told", &["Noticed (", "What we noticed"]),
            ("stands", &["^ctrl+z", "=Wall height:30", "~"]),
        ],
    ),
    (
        "menus",
        &[
            ("house", &["House"]),
            ("edit", &["^Escape", "Edit"]),
            ("selected", &["^Escape", "Selected"]),
            ("space", &["^Escape", "In space"]),
            ("look", &["^Escape", "Look"]),
            ("help", &["^Escape", "Help"]),
            ("add", &["^Escape", "Add a part"]),
            ("arrange", &["^Escape", "Arrange"]),
        ],
    ),
    ("below", &[("noticed", &["What we noticed"]), ("pieces", &["Pieces ("]), ("order", &["Putting it up"])]),
    (
        "colours",
        &[
            ("noticed", &["^ctrl+u"]),
            ("alike", &["^ctrl+u", "In space", "Colour what bakes alike"]),
            ("narrow", &["In space", "Colour narrow strips"]),
            ("weak", &["In space", "Colour what is weak", "~"]),
        ],
    ),
    (
        "view",
        &[
            ("front", &["^ctrl+2"]),
            ("above", &["^ctrl+6"]),
            ("parallel", &["^ctrl+1", "^ctrl+7"]),
            ("letters", &["^ctrl+7", "^ctrl+j"]),
            ("clear", &["^ctrl+j", "^ctrl+h"]),
            ("cut", &["^ctrl+h", "^ctrl+r"]),
            ("evening", &["^ctrl+r", "^ctrl+e"]),
            ("flat", &["^ctrl+e", "^ctrl+8"]),
            ("stages", &["^ctrl+9", "^ctrl+shift+p", "~"]),
            ("later", &["Next stage", "Next stage", "Next stage", "Next stage"]),
        ],
    ),
    (
        "sheets",
        &[
            ("keys", &["^F1"]),
            ("new", &["^Escape", "^ctrl+n"]),
            ("open", &["^Escape", "^ctrl+o"]),
            ("save-as", &["^Escape", "^ctrl+shift+s"]),
            ("files", &["^Escape", "House", "Write other files…"]),
            ("settings", &["^Escape", "^ctrl+comma"]),
            ("kitchen", &["^Escape", "^ctrl+k"]),
            ("resize", &["^Escape", "Edit", "Larger or smaller…", "~"]),
            ("picture", &["^Escape", "^ctrl+shift+i"]),
            ("card", &["^Escape", "Help", "Make a key card…"]),
        ],
    ),
    (
        "bake",
        &[
            ("amounts", &["^ctrl+b", "~"]),
            ("recipes", &["Recipes"]),
            ("trays", &["Trays"]),
            ("shopping", &["Shopping"]),
            ("hours", &["Who and when"]),
            ("days", &["Days"]),
            ("today", &["Today"]),
            ("biscuits", &["Test biscuits"]),
            ("figures", &["Figures"]),
            ("cautions", &["Cautions"]),
        ],
    ),
    ("pack", &[("sheet", &["^ctrl+p", "~"]), ("pages", &["Look at the pages", "~", "~"])]),
    (
        "stand",
        &[
            ("answers", &["House", "Will it stand?…", "~"]),
            ("everything", &["Everything"]),
            ("room", &["Room and way"]),
            ("assumptions", &["Assumptions"]),
            ("snap", &["Snap test"]),
        ],
    ),
];

fn folder() -> PathBuf {
    std::env::var_os("GABLE_PICTURES").map_or_else(std::env::temp_dir, PathBuf::from)
}

fn taste() -> Taste {
    let text = std::env::var("GABLE_TEXT").ok().and_then(|text| text.parse().ok());
    Taste {
        dark: std::env::var_os("GABLE_DARK").is_some(),
        text: text.unwrap_or(100),
        still: true,
        notebook: Some(notebook()),
    }
}

/// The notebook of two helpers with two kitchens, who have mixed dough an hour ago and have three weeks left.
fn notebook() -> &'static str {
    let now = jiff::Zoned::now().datetime();
    let at = |when: jiff::Span| now.checked_add(when).unwrap().strftime("%Y-%m-%dT%H:00").to_string();
    let text = NOTEBOOK.replace("READY", &at(jiff::ToSpan::days(21))).replace("DONE", &at(jiff::ToSpan::hours(-1)));
    Box::leak(text.into_boxed_str())
}

const NOTEBOOK: &str = r#"{ "format": "gablewright-notebook", "version": 2,
  "kitchens": [
    { "name": "At home", "ovens": 1, "shelves": 2, "trays": 3, "freezer": 1, "table": 120 },
    { "name": "The parish hall", "trays": 4 }
  ],
  "people": [
    { "name": "Ida", "hours": ["mon-fri 18:00-21:30", "sat 9:00-17:00"] },
    { "name": "Ole", "hours": ["sun 10:00-16:00 in The parish hall"] }
  ],
  "at_home": ["salt", "baking-soda"], "prices": { "flour": 0.89 }, "currency": "EUR",
  "bakes": [
    { "house": "Pilot house", "ready_by": "READY", "carried": true,
      "done": [ { "task": "mix-dough/walls", "kind": "mix-dough", "usual": 30, "done": "DONE", "minutes": 35 } ] }
  ]
}"#;

/// Whether a round is asked for.
fn asked(name: &str) -> bool {
    std::env::var("GABLE_SCREENS").map_or(true, |asked| name.contains(&asked))
}

fn show(baker: &Baker, name: &str) {
    // Out of the way, so that no hint hangs over the picture and no other menu opens.
    baker.point_to_the_corner();
    baker.picture(&folder().join(format!("{name}.png")));
}

/// Goes where a step says; false when there is no such thing.
fn step(baker: &mut Baker, step: &str) -> bool {
    if let Some((field, words)) = step.strip_prefix('=').and_then(|s| s.split_once(':')) {
        baker.click_if_there(field) && {
            baker.key("ctrl+a");
            baker.words(words);
            baker.key("Return");
            true
        }
    } else if let Some(key) = step.strip_prefix('^') {
        baker.key(key);
        true
    } else if step == "~" {
        baker.wait_a_while();
        true
    } else {
        baker.click_if_there(step)
    }
}

fn round(name: &str, ways: &[Way], house: &House) {
    let mut baker = Baker::with_taste(Some(house), true, taste());
    for (screen, way) in ways {
        for what in *way {
            if !step(&mut baker, what) {
                eprintln!("{name}-{screen}: there is no '{what}' in sight");
            }
        }
        show(&baker, &format!("{name}-{screen}"));
    }
}

/// The opening page, work that was not saved and a file that something else has changed.
fn questions(house: &House) {
    let baker = Baker::with_taste(None, true, taste());
    show(&baker, "questions-opening");
    let mut baker = Baker::with_taste(Some(house), true, taste());
    baker.click_if_there("Sizes");
    step(&mut baker, "=Width:240");
    baker.killed();
    baker.wait_a_while();
    show(&baker, "questions-rescue");
    let mut baker = Baker::with_taste(Some(house), true, taste());
    let other = file::write(&demo::house("boat-hut").unwrap());
    std::fs::write(baker.place().house_file(), other).unwrap();
    baker.wait_a_while();
    show(&baker, "questions-changed");
}

#[test]
#[ignore = "writes pictures"]
fn gallery() {
    std::fs::create_dir_all(folder()).unwrap();
    let house = demo::house("pilot-house").unwrap();
    for (name, ways) in WAYS.iter().filter(|(name, _)| asked(name)) {
        round(name, ways, &house);
    }
    if asked("questions") {
        questions(&house);
    }
}
