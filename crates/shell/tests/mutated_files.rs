//! Files that were damaged at random: the reader says something, and never panics.

use gable_measure::{InchStep, Unit};
use gable_shell::{House, RoofForm, file};
use proptest::prelude::*;

/// What is done to the bytes of a file.
#[derive(Clone, Debug)]
enum Damage {
    Delete { at: usize, count: usize },
    Change { at: usize, to: u8 },
    Repeat { at: usize, count: usize },
    Insert { at: usize, what: &'static str },
    Cut { at: usize },
}

fn damage() -> impl Strategy<Value = Damage> {
    let at = 0_usize..4000;
    let words = vec![
        "-",
        "0",
        "9",
        "1e308",
        "1e999",
        "null",
        "true",
        "{}",
        "[]",
        "\"",
        "\\",
        ",",
        ":",
        "}",
        "]",
        "\"eave\"",
        "\"knee\"",
        "\"free\"",
        "\"polygon\"",
        "\u{feff}",
        "\u{0}",
        "½",
        "\"8 in 12\"",
        "\"ridge 9\"",
        "\"all\": {},",
        "\"main\"",
        "\"wing\"",
        "\"against\"",
        "\"astride\"",
        "\"ridge\"",
        "999999999",
    ];
    prop_oneof![
        (at.clone(), 1_usize..40).prop_map(|(at, count)| Damage::Delete { at, count }),
        (at.clone(), any::<u8>()).prop_map(|(at, to)| Damage::Change { at, to }),
        (at.clone(), 1_usize..300).prop_map(|(at, count)| Damage::Repeat { at, count }),
        (at.clone(), prop::sample::select(words)).prop_map(|(at, what)| Damage::Insert { at, what }),
        at.prop_map(|at| Damage::Cut { at }),
    ]
}

fn damaged(text: &str, damages: &[Damage]) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for damage in damages {
        let len = bytes.len();
        if len == 0 {
            break;
        }
        match *damage {
            Damage::Delete { at, count } => drop(bytes.drain(at % len..(at % len + count).min(len))),
            Damage::Change { at, to } => bytes[at % len] = to,
            Damage::Repeat { at, count } => {
                let piece = bytes[at % len..(at % len + count).min(len)].to_vec();
                bytes.splice(at % len..at % len, piece);
            }
            Damage::Insert { at, what } => drop(bytes.splice(at % len..at % len, what.bytes())),
            Damage::Cut { at } => bytes.truncate(at % len),
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

/// A sound file with every kind of entry: by hand for even numbers, as it is written for odd ones.
fn sound(number: usize) -> String {
    let unit = if number % 4 == 1 { Unit::Millimetre } else { Unit::Inch(InchStep::Sixteenth) };
    let mut house = House::simple(unit);
    RoofForm::ALL[number % RoofForm::ALL.len()].apply_in(&mut house.parts[0], unit);
    match number % 4 {
        0 => include_str!("hut.house.json").to_owned(),
        2 => include_str!("station.house.json").to_owned(),
        _ => file::write(&house),
    }
}

proptest! {
    // PROPTEST_CASES=1000000 for a million.
    #![proptest_config(ProptestConfig {
        failure_persistence: None,
        cases: 4000,
        ..ProptestConfig::default()
    })]

    #[test]
    fn no_damage_panics(number in 0_usize..40, damages in prop::collection::vec(damage(), 1..5)) {
        let text = damaged(&sound(number), &damages);
        match file::parse(&text) {
            Ok(house) => {
                // Whatever is still read is sound, and goes round.
                prop_assert_eq!(file::check(&house), []);
                let written = file::write(&house);
                prop_assert_eq!(file::parse(&written).map_err(|e| e.to_string()), Ok(house));
            }
            Err(errors) => {
                prop_assert!(!errors.faults().is_empty());
                for fault in errors.faults() {
                    prop_assert!(!fault.path.is_empty() && !fault.what.is_empty());
                    prop_assert!(!fault.to_string().contains('\n'));
                }
            }
        }
    }

    #[test]
    fn no_noise_panics(text: String) {
        let _ = file::parse(&text);
    }
}
