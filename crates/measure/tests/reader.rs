//! What people type, and what the reader makes of it. Expected values are plain arithmetic with 25.4 mm to the inch.

use gable_measure::{Angle, InchStep, Length, Pitch, Unit, read_angle, read_length, read_pitch};

const MM: Unit = Unit::Millimetre;
const INCH: Unit = Unit::Inch(InchStep::Sixteenth);

fn assert_reads(text: &str, unit: Unit, mm: f64) {
    let length = read_length(text, unit).map(Length::mm).map_err(|e| e.to_string());
    assert!(length.as_ref().is_ok_and(|l| (l - mm).abs() < 1e-9), "{text}: {length:?} is not {mm}");
}

#[test]
fn lengths_in_millimetres() {
    let table = [
        ("216", 216.0),
        ("216 mm", 216.0),
        ("216mm", 216.0),
        ("  216 MM  ", 216.0),
        ("21,6 cm", 216.0),
        ("21.6cm", 216.0),
        ("0.216 m", 216.0),
        (".5", 0.5),
        (",5", 0.5),
        ("216.", 216.0),
        ("0,125", 0.125),
        ("1.200 mm", 1.2),
        ("-3", -3.0),
        ("\u{2212}3 mm", -3.0),
        ("216 + 3mm", 219.0),
        ("216 - 3", 213.0),
        ("216/2", 108.0),
        ("216 / 2 mm", 108.0),
        ("216 × 2 ÷ 4", 108.0),
        ("2 * (100 + 8 mm)", 216.0),
        ("(100 + 8) mm * 2", 216.0),
        ("100 mm * 2 + 16", 216.0),
        ("1 + 2 * 3 - 4 / 2", 5.0),
        ("2 * -3 + 10", 4.0),
        ("--5", 5.0),
        ("1/2", 0.5),
        ("10 - 1/2", 9.5),
    ];
    for (text, mm) in table {
        assert_reads(text, MM, mm);
    }
}

#[test]
fn lengths_in_inches() {
    let table = [
        ("8.5\"", 8.5),
        ("8,5 in", 8.5),
        ("8 1/2 in", 8.5),
        ("8-1/2\"", 8.5),
        ("8\u{2013}1/2″", 8.5),
        ("8½\"", 8.5),
        ("8 ½ inches", 8.5),
        ("8 1\u{2044}2", 8.5),
        ("½", 0.5),
        ("⅜", 0.375),
        ("⅓ ft", 4.0),
        ("1/4\"", 0.25),
        ("1 / 4 in", 0.25),
        ("1' 2 3/4\"", 14.75),
        ("1'2 3/4\"", 14.75),
        ("1′ 2¾″", 14.75),
        ("1' 2''", 14.0),
        ("1'-2\"", 14.0),
        ("1' - 2\"", 10.0),
        ("1 ft 2 in", 14.0),
        ("1 1/2 feet", 18.0),
        ("-1' 2\"", -14.0),
        ("8 1/2 in / 2", 4.25),
        ("14\" - 2*1/4\"", 13.5),
        ("14\"-1/2\"", 13.5),
        ("8 - 1/2\"", 7.5),
        ("8 -1/2\"", 7.5),
        ("10-8/2\"", 6.0),
        ("8.5-1/2\"", 8.0),
        ("1/2-1/4\"", 0.25),
        ("12 * 3/4 in", 9.0),
        ("8", 8.0),
        ("8 + 25.4 mm", 9.0),
        ("(1 + 1)'", 24.0),
    ];
    for (text, inches) in table {
        assert_reads(text, INCH, inches * 25.4);
    }
}

#[test]
fn wrong_lengths_name_the_place() {
    let deep = "(".repeat(100);
    let long = "1+".repeat(400) + "1";
    let huge = "9".repeat(400);
    let table = [
        ("", "nothing is written here; expected a length such as 216 mm or 8 1/2 in"),
        ("   ", "nothing is written here; expected a length such as 216 mm or 8 1/2 in"),
        ("216 x", "\"x\" is not understood here; expected a number, a unit or a sign such as +"),
        ("½ x", "\"x\" is not understood here; expected a number, a unit or a sign such as +"),
        ("216 mmm", "\"mmm\" is not understood here; expected a number, a unit or a sign such as +"),
        ("216 5", "\"5\" is not understood here; expected a unit or a sign such as +"),
        ("216 +", "something is missing at the end; expected a number"),
        ("216 + * 2", "\"*\" is not understood here; expected a number"),
        ("mm", "\"mm\" is not understood here; expected a number"),
        ("(216", "something is missing at the end; expected a closing bracket"),
        ("(216 mm) mm", "at character 10: there is a unit already"),
        ("216)", "\")\" is not understood here; expected a unit or a sign such as +"),
        ("3 mm * 4 mm", "one of two things that are multiplied must be a plain number"),
        ("1 + 3 mm * 4 mm", "at character 5: one of two things that are multiplied must be a plain number"),
        ("3 mm / 4 mm", "only a plain number can stand after the division sign"),
        ("3 / 0", "this divides by zero"),
        ("3/0 mm", "at character 1: this divides by zero"),
        ("8 1/0\"", "at character 3: this divides by zero"),
        ("3 / (2 - 2)", "this divides by zero"),
        ("1,200", "a comma before three figures can be read in two ways; write 1200 or 1.2, without the comma"),
        ("101 m", "this is longer than 100 m"),
        (huge.as_str(), "this number is too large"),
        ("1000000 * 1000000 * 1000000", "this number is too large"),
        ("35°", "this is an angle, not a length"),
        ("35° + 2 mm", "a length and an angle cannot be added"),
        (deep.as_str(), "at character 33: too many brackets within brackets"),
        (long.as_str(), "this is too long to be a length or an angle"),
        ("NaN", "\"NaN\" is not understood here; expected a number, a unit or a sign such as +"),
        ("1e5", "\"e\" is not understood here; expected a number, a unit or a sign such as +"),
        ("🍪", "\"🍪\" is not understood here; expected a number, a unit or a sign such as +"),
    ];
    for (text, message) in table {
        assert_eq!(read_length(text, MM).map_err(|e| e.to_string()), Err(message.to_owned()), "{text}");
    }
}

#[test]
fn the_error_points_at_its_bytes() {
    let error = read_length("½ + x", MM).unwrap_err();
    assert_eq!(&"½ + x"[error.range()], "x");
    assert_eq!(error.expected(), Some("a number, a unit or a sign such as +"));
}

#[test]
fn angles() {
    for (text, degrees) in [
        ("35", 35.0),
        ("35°", 35.0),
        ("35 deg", 35.0),
        ("22 1/2°", 22.5),
        ("90/4", 22.5),
        ("90° / 4 + 1", 23.5),
        ("-45 degrees", -45.0),
        ("(180 - 110) / 2", 35.0),
    ] {
        let angle = read_angle(text, MM).unwrap_or_else(|e| panic!("{text}: {e}"));
        assert!((angle.deg() - degrees).abs() < 1e-12, "{text}");
    }
    for (text, message) in [
        ("35 mm", "this is a length, not an angle"),
        ("361", "this is more than a full turn"),
        ("", "nothing is written here; expected an angle such as 35"),
    ] {
        assert_eq!(read_angle(text, MM).map_err(|e| e.to_string()), Err(message.to_owned()));
    }
}

#[test]
fn pitches_keep_the_way_they_are_given() {
    let rise = |rise, run| Pitch::RiseInRun { rise, run };
    let ridge = |mm| Pitch::RidgeHeight(Length::mm_of(mm));
    for (text, unit, pitch) in [
        ("35", MM, Pitch::Angle(Angle::degrees(35.0))),
        ("35 deg", MM, Pitch::Angle(Angle::degrees(35.0))),
        ("90/2", MM, Pitch::Angle(Angle::degrees(45.0))),
        ("8 in 12", MM, rise(8.0, 12.0)),
        ("8in12", INCH, rise(8.0, 12.0)),
        ("8 1/2 in 12", INCH, rise(8.5, 12.0)),
        ("8:12", MM, rise(8.0, 12.0)),
        ("2:3", MM, rise(2.0, 3.0)),
        ("8/12", MM, rise(8.0, 12.0)),
        ("8 in in 12 in", INCH, rise(8.0, 12.0)),
        ("100 mm : 15 cm", MM, rise(100.0, 150.0)),
        ("ridge 216 mm", MM, ridge(216.0)),
        ("Ridge height 216", MM, ridge(216.0)),
        ("ridge at 8 1/2 in", MM, Pitch::RidgeHeight(Length::inches(8.5))),
        ("ridge 8 1/2", INCH, Pitch::RidgeHeight(Length::inches(8.5))),
        ("ridge 200 + 16", MM, ridge(216.0)),
    ] {
        assert_eq!(read_pitch(text, unit), Ok(pitch), "{text}");
    }
}

#[test]
fn wrong_pitches_name_the_place() {
    for (text, message) in [
        ("", "nothing is written here; expected a pitch such as 35, 8 in 12 or ridge 216 mm"),
        ("steep", "\"steep\" is not understood here; expected a number, a unit or a sign such as +"),
        ("8 in 12 in 3", "\"3\" is not understood here; expected a unit or a sign such as +"),
        ("8 in 0", "at character 6: this must be more than zero"),
        ("-8:12", "at character 2: this must be more than zero"),
        ("8:", "something is missing at the end; expected a number"),
        (":12", "\":\" is not understood here; expected a number"),
        ("8 mm in 12", "rise and run must be two plain numbers or two lengths"),
        ("ridge", "something is missing at the end; expected a number"),
        ("ridge 30°", "at character 7: this is an angle, not a length"),
        ("ridge -3", "at character 8: this must be more than zero"),
        ("8 in", "this is a length, not an angle"),
    ] {
        assert_eq!(read_pitch(text, MM).map_err(|e| e.to_string()), Err(message.to_owned()), "{text}");
    }
}
