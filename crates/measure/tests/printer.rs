//! What is printed, and that it can be read again.

use gable_measure::{Angle, InchStep, Length, Pitch, Unit, read_length, read_pitch};
use proptest::prelude::*;

const MM: Unit = Unit::Millimetre;
const SIXTEENTH: Unit = Unit::Inch(InchStep::Sixteenth);
const THIRTY_SECOND: Unit = Unit::Inch(InchStep::ThirtySecond);

#[test]
fn millimetres_to_a_tenth_and_typed_hundredths_as_typed() {
    for (mm, text) in [
        (216.0, "216 mm"),
        (216.041, "216 mm"),
        (216.061, "216.1 mm"),
        (199.961, "200 mm"),
        (0.0, "0 mm"),
        (-0.041, "0 mm"),
        // A quarter inch, typed.
        (6.35, "6.35 mm"),
        (-6.35, "-6.35 mm"),
        (216.04, "216.04 mm"),
        (-3.5, "-3.5 mm"),
        (f64::NAN, "? mm"),
    ] {
        assert_eq!(MM.print(Length::mm_of(mm)), text);
    }
}

#[test]
fn inches_to_the_nearest_fraction() {
    for (inches, step, text) in [
        (4.25, SIXTEENTH, "4 1/4\""),
        (8.5, SIXTEENTH, "8 1/2\""),
        (0.8125, SIXTEENTH, "13/16\""),
        (7.0 + 31.0 / 32.0, THIRTY_SECOND, "7 31/32\""),
        (7.0 + 31.0 / 32.0, SIXTEENTH, "8\""),
        (7.999, THIRTY_SECOND, "8\""),
        (-7.999, THIRTY_SECOND, "-8\""),
        (-4.25, SIXTEENTH, "-4 1/4\""),
        (-0.01, SIXTEENTH, "0\""),
        (0.03, SIXTEENTH, "0\""),
        (0.03, THIRTY_SECOND, "1/32\""),
        (12.0, SIXTEENTH, "12\""),
        (f64::INFINITY, SIXTEENTH, "?\""),
    ] {
        assert_eq!(step.print(Length::inches(inches)), text);
    }
    assert_eq!(SIXTEENTH.print_bare(Length::inches(4.25)), "4 1/4");
    assert_eq!(MM.print_bare(Length::mm_of(216.0)), "216");
}

#[test]
fn pitches() {
    assert_eq!(Pitch::Angle(Angle::degrees(35.0)).print(MM), "35°");
    assert_eq!(Pitch::Angle(Angle::degrees(33.690_067_5)).print(MM), "33.69°");
    assert_eq!(Pitch::RiseInRun { rise: 8.0, run: 12.0 }.print(MM), "8 in 12");
    assert_eq!(Pitch::RiseInRun { rise: 8.5, run: 12.0 }.print(SIXTEENTH), "8.5 in 12");
    assert_eq!(Pitch::RidgeHeight(Length::mm_of(216.0)).print(MM), "ridge 216 mm");
    assert_eq!(Pitch::RidgeHeight(Length::inches(8.5)).print(SIXTEENTH), "ridge 8 1/2\"");
}

/// Text in which the reader's own signs and words are likely.
fn likely_text() -> impl Strategy<Value = String> {
    let pieces = prop::sample::select(vec![
        "1",
        "0",
        "12",
        "8.5",
        "1/2",
        "½",
        " ",
        "-",
        "+",
        "*",
        "/",
        "(",
        ")",
        ":",
        "in",
        "mm",
        "'",
        "\"",
        "°",
        "ridge",
        "at",
        ",",
        ".",
        "x",
        "é",
        "1,200",
        "99999999999999999999",
    ]);
    prop::collection::vec(pieces, 0..24).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn printed_millimetres_read_back(tenths in -1_000_000_i64..1_000_000) {
        let length = Length::mm_of(tenths as f64 / 10.0);
        prop_assert_eq!(read_length(&MM.print(length), SIXTEENTH), Ok(length));
        prop_assert_eq!(read_length(&MM.print_bare(length), MM), Ok(length));
    }

    #[test]
    fn printed_inches_read_back(parts in -60_000_i64..60_000, fine: bool) {
        let step = if fine { InchStep::ThirtySecond } else { InchStep::Sixteenth };
        let length = Length::inches(parts as f64 / f64::from(step.parts()));
        prop_assert_eq!(read_length(&Unit::Inch(step).print(length), MM), Ok(length));
        prop_assert_eq!(read_length(&Unit::Inch(step).print_bare(length), Unit::Inch(step)), Ok(length));
    }

    #[test]
    fn printing_is_never_off_by_more_than_half_a_step(mm in -3000.0..3000.0_f64) {
        let length = Length::mm_of(mm);
        for (unit, half) in [(MM, 0.05), (SIXTEENTH, 25.4 / 32.0), (THIRTY_SECOND, 25.4 / 64.0)] {
            let back = read_length(&unit.print(length), unit).unwrap();
            prop_assert!((back - length).abs().mm() <= half + 1e-9);
        }
    }

    #[test]
    fn printed_pitches_read_back(rise in 1_u32..4000, run in 1_u32..4000, hundredths in 1_u32..9000, tenths in 1_u32..9999) {
        let pitches = [
            Pitch::RiseInRun { rise: f64::from(rise) / 8.0, run: f64::from(run) / 8.0 },
            Pitch::Angle(Angle::degrees(f64::from(hundredths) / 100.0)),
            Pitch::RidgeHeight(Length::mm_of(f64::from(tenths) / 10.0)),
        ];
        for pitch in pitches {
            prop_assert_eq!(read_pitch(&pitch.print(MM), MM), Ok(pitch));
        }
    }

    #[test]
    fn no_text_panics(text in likely_text(), noise: String) {
        for text in [text, noise] {
            for unit in [MM, SIXTEENTH] {
                if let Err(error) = read_length(&text, unit) {
                    prop_assert!(text.get(error.range()).is_some() && !error.to_string().is_empty());
                }
                let _ = read_pitch(&text, unit).map(|pitch| pitch.print(unit));
            }
        }
    }
}
