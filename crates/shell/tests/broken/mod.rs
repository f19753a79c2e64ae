//! A sound file, edits of it, and what the reader says.

#![expect(dead_code, reason = "each of the test files that share this uses a part of it")]

use gable_shell::file;

/// A small sound file.
pub(crate) const HUT: &str = include_str!("../hut.house.json");

/// A sound file of several parts.
pub(crate) const STATION: &str = include_str!("../station.house.json");

/// The hut with one thing replaced once.
pub(crate) fn edited(from: &str, to: &str) -> String {
    replaced(HUT, from, to)
}

fn replaced(text: &str, from: &str, to: &str) -> String {
    assert!(text.contains(from), "there is no {from}");
    text.replacen(from, to, 1)
}

pub(crate) fn message(text: &str) -> String {
    file::parse(text).map_or_else(|errors| errors.to_string(), |_| "sound".to_owned())
}

pub(crate) fn assert_messages(cases: &[(&str, &str, &str)]) {
    assert_messages_of(HUT, cases);
}

/// Edits of a sound file: what is taken out, what is put in, and the whole message.
pub(crate) fn assert_messages_of(sound: &str, cases: &[(&str, &str, &str)]) {
    let mut wrong = vec![];
    for (from, to, expected) in cases {
        let found = message(&replaced(sound, from, to));
        if found != *expected {
            wrong.push(format!("{from} -> {to}\n{found}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}
