//! What the reader says about openings that cannot be.

mod broken;

use broken::assert_messages;

#[test]
fn shapes() {
    let wide = "\"width\": 30";
    let shape = |text: &'static str, said: &'static str| (wide, text, said);
    assert_messages(&[
        shape("\"width\": 30, \"shape\": \"segmental\", \"rise\": 5", "sound"),
        shape("\"width\": 30, \"shape\": \"segmental\"", "parts[0].openings[0].rise: it is missing"),
        shape(
            "\"width\": 30, \"shape\": \"segmental\", \"rise\": 16",
            "parts[0].openings[0].rise: an arc of 30 mm rises at most half as high; lower it, or choose a round head",
        ),
        shape("\"width\": 30, \"shape\": \"pointed\"", "sound"),
        shape(
            "\"width\": 30, \"shape\": \"pointed\", \"radius\": 0.5",
            "parts[0].openings[0].radius: the radius is 0.51 to 10 times the width, not 0.5; 1 is an equilateral arch",
        ),
        shape(
            "\"width\": 30, \"shape\": \"pointed\", \"radius\": 4",
            "parts[0].openings[0].height: a pointed arch of 30 mm needs at least 58.094750193 mm of height, not 57.15 mm; make it taller or narrower",
        ),
        shape(
            "\"width\": 30, \"shape\": \"circle\"",
            "parts[0].openings[0].height: this shape 30 mm wide is 30 mm high, not 57.15 mm; leave the height out, or choose another shape",
        ),
        shape("\"width\": 57.15, \"shape\": \"circle\", \"sill\": 10", "sound"),
        shape(
            "\"width\": 30, \"shape\": \"free\", \"corners\": [[0, 0], [1, 0], [0.5, 1], [0.5]]",
            "parts[0].openings[0].corners[3]: expected two numbers, found 1; write it as [x, y]",
        ),
        shape("\"width\": 30, \"shape\": \"free\", \"corners\": [[0, 0], [1, 0], [0.5, 1]]", "sound"),
        shape(
            "\"width\": 30, \"shape\": \"free\", \"corners\": [[0, 0], [0.9, 0], [0.5, 1]]",
            "parts[0].openings[0].corners: the corners must reach from 0 to 1 both ways; they are shares of the width and of the height",
        ),
        shape(
            "\"width\": 30, \"shape\": \"free\", \"corners\": [[0, 0], [0.5, 1], [1, 0]]",
            "parts[0].openings[0].corners: its edges cross or touch each other, or it runs clockwise; give the corners one after another, counter-clockwise seen from outside",
        ),
        shape("\"width\": 30, \"shape\": \"path\", \"path\": \"M0 0 L10 0 L5 -10 Z\"", "sound"),
        shape(
            "\"width\": 30, \"shape\": \"path\", \"path\": \"M0 0 L10 0 L5 -10\"",
            "parts[0].openings[0].path: the path does not come back to where it begins; end it with Z",
        ),
        shape(
            "\"width\": 30, \"shape\": \"path\", \"path\": \"M0 0 L10 10 V0 L0 10 Z\"",
            "parts[0].openings[0].path: the path crosses or touches itself near x 5.0000, y 5.0000; draw it so that the outline goes round once",
        ),
        shape("\"width\": 30, \"shape\": \"path\"", "parts[0].openings[0].path: it is missing"),
        shape(
            "\"width\": 30, \"rise\": 4",
            "parts[0].openings[0].rise: this key is not known; known here: id, shape, name, side, face, mode, glass, bars, door, width, height, sill, from, distance, repeat",
        ),
    ]);
}

#[test]
fn faces_rows_glass_and_doors() {
    let wide = "\"width\": 30";
    let with = |text: &'static str, said: &'static str| (wide, text, said);
    assert_messages(&[
        with("\"width\": 30, \"face\": \"slope\"", "sound"),
        with(
            "\"width\": 30, \"face\": \"roof\"",
            "parts[0].openings[0].face: \"roof\" is not known; it may be wall, slope, lower-slope, upper-slope",
        ),
        with("\"width\": 30, \"repeat\": { \"across\": 2 }", "sound"),
        with(
            "\"width\": 30, \"repeat\": { \"across\": 0, \"gap\": -1 }",
            "parts[0].openings[0].repeat.across: it must be from 1 to 40, not 0\nparts[0].openings[0].repeat.gap: -1 mm is below zero",
        ),
        with("\"width\": 30, \"mode\": \"glazed\", \"bars\": { \"kind\": \"fan\" }", "sound"),
        with(
            "\"width\": 30, \"bars\": { \"kind\": \"fan\", \"rays\": 1 }",
            "parts[0].openings[0].bars.rays: it must be from 2 to 40, not 1",
        ),
        with(
            "\"width\": 30, \"bars\": { \"kind\": \"fan\", \"up\": 2 }",
            "parts[0].openings[0].bars.up: this key is not known; known here: kind, rays",
        ),
        with("\"width\": 30, \"door\": { \"ajar\": 30 }", "sound"),
        with(
            "\"width\": 30, \"door\": { \"ajar\": 190, \"clearance\": -1 }",
            "parts[0].openings[0].door.clearance: -1 mm is below zero\nparts[0].openings[0].door.ajar: a door stands open by 0 to 180 degrees, not 190",
        ),
        ("\"parts\"", "\"glazing\": { \"margin\": 5 }, \"parts\"", "sound"),
        (
            "\"parts\"",
            "\"glazing\": { \"margin\": 50 }, \"parts\"",
            "glazing.margin: a leaf this small is all margin; make the margin smaller",
        ),
    ]);
}
