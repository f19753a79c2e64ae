//! A sound file, edits of it, and what the reader says.

use gable_shell::file;

/// A small sound file.
pub(crate) const HUT: &str = include_str!("../hut.house.json");

/// The hut with one thing replaced once.
pub(crate) fn edited(from: &str, to: &str) -> String {
    assert!(HUT.contains(from), "the hut has no {from}");
    HUT.replacen(from, to, 1)
}

pub(crate) fn message(text: &str) -> String {
    file::parse(text).map_or_else(|errors| errors.to_string(), |_| "sound".to_owned())
}

pub(crate) fn assert_messages(cases: &[(&str, &str, &str)]) {
    let mut wrong = vec![];
    for (from, to, expected) in cases {
        let found = message(&edited(from, to));
        if found != *expected {
            wrong.push(format!("{from} -> {to}\n{found}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}
