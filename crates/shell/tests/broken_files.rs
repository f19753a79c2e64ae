//! Broken and absurd house files, and every word that is said about them.
//!
//! Each case is an edit of a sound file: what is taken out, what is put in, and the whole message.

mod broken;

use broken::{HUT, assert_messages, edited, message};

#[test]
fn the_hut_is_sound() {
    assert_eq!(message(HUT), "sound");
    assert_eq!(message(&format!("\u{feff}{HUT}")), "sound");
}

#[test]
fn not_a_house_at_all() {
    let deep = "[".repeat(200);
    let endless = HUT.trim_end().trim_end_matches('}');
    let long = " ".repeat(17 * 1024 * 1024);
    for (text, expected) in [
        ("", "file: it is empty; it may have been cut off while it was saved; look for a copy"),
        (" \n\t", "file: it is empty; it may have been cut off while it was saved; look for a copy"),
        ("null", "file: this is not a Gablewright house; open another file"),
        ("[]", "file: this is not a Gablewright house; open another file"),
        ("42", "file: this is not a Gablewright house; open another file"),
        ("{}", "file: this is not a Gablewright house; open another file"),
        ("{\"name\": \"something else\"}", "file: this is not a Gablewright house; open another file"),
        ("<html></html>", "line 1, column 1: this is not JSON: expected value; look at what stands just before"),
        ("{'format': 1}", "line 1, column 2: this is not JSON: key must be a string; look at what stands just before"),
        (
            "{\"format\": \"gablewright-house\",}",
            "line 1, column 32: this is not JSON: trailing comma; look at what stands just before",
        ),
        ("{\"format\": 1e999}", "line 1, column 16: this number is too large"),
        ("{\"format\": NaN}", "line 1, column 12: this is not JSON: expected value; look at what stands just before"),
        (
            "{\"format\": \"a\nb\"}",
            "line 2, column 0: this is not JSON: control character (\\u0000-\\u001F) found while parsing a string; look at what stands just before",
        ),
        (
            "{\"format\": \"\\ud800\"}",
            "line 1, column 19: this is not JSON: unexpected end of hex escape; look at what stands just before",
        ),
        (deep.as_str(), "line 1, column 128: braces within braces within braces, too deep for a house"),
        (
            endless,
            "line 31, column 0: the file ends too early; it may have been cut off while it was saved or sent; look for a copy",
        ),
        (long.as_str(), "file: it is larger than 16 MB; no house is; is this the right file?"),
        (&format!("{HUT}}}"), "line 32, column 1: something follows after the end of the house; delete it"),
        (&format!("{HUT}{HUT}"), "line 32, column 1: something follows after the end of the house; delete it"),
        ("{\"format\": \"gablewright-house\", \"version\": 1}", "parts: it is missing; describe at least one part"),
    ] {
        assert_eq!(message(text), expected, "{}", &text[..text.len().min(60)]);
    }
}

#[test]
fn marker_version_and_owner() {
    assert_messages(&[
        (
            "\"gablewright-house\"",
            "\"other-house\"",
            "format: this is not a Gablewright house; one says \"gablewright-house\" here; open another file",
        ),
        (
            "\"format\": \"gablewright-house\",",
            "",
            "format: it is missing; a house says \"format\": \"gablewright-house\"",
        ),
        (
            "\"format\": \"gablewright-house\"",
            "\"format\": 7",
            "format: this is not a Gablewright house; one says \"gablewright-house\" here; open another file",
        ),
        (
            "\"version\": 1",
            "\"version\": 7",
            "version: this house was saved by a newer version of Gablewright (file version 7; this one reads up to 6); open it with the newer version",
        ),
        ("\"version\": 1", "\"version\": 0", "version: expected a whole number from 1 to 6, found 0"),
        ("\"version\": 1", "\"version\": \"1\"", "version: expected a whole number from 1 to 6, found \"1\""),
        ("\"version\": 1", "\"version\": 1.5", "version: expected a whole number from 1 to 6, found 1.5"),
        ("\"version\": 1", "\"version\": 2", "sound"),
        ("\"version\": 1", "\"version\": 3", "sound"),
        ("\"version\": 1", "\"version\": 6", "sound"),
        ("\"version\": 1,", "", "version: it is missing; write \"version\": 6"),
        ("\"title\": \"Boat hut\"", "\"title\": 5", "title: expected text in quotes, found 5"),
        (
            "\"title\": \"Boat hut\"",
            "\"title\": \"Boat\\nhut\"",
            "title: it has a line break or another control character; take it away",
        ),
        ("\"title\"", "\"titel\"", "titel: this key is not known; did you mean \"title\"?"),
        (
            "\"title\"",
            "\"colour\"",
            "colour: this key is not known; known here: format, version, title, edition, credit, after, licence, notes, unit, gap, doughs, parts, decided, relations, order, baked, dressing, glazing",
        ),
        ("\"unit\": \"mm\"", "\"unit\": \"cm\"", "unit: \"cm\" is not known; it may be mm, in, in/32"),
        ("\"unit\": \"mm\"", "\"unit\": null", "unit: expected text in quotes, found null"),
        (
            "\"unit\": \"mm\",",
            "\"unit\": \"mm\", \"unit\": \"in\",",
            "unit: it is there more than once; keep one of them",
        ),
    ]);
}

#[test]
fn doughs() {
    assert_messages(&[
        ("\"gap\": 0.8", "\"gap\": -0.8", "gap: -0.8 mm is below zero"),
        ("\"gap\": 0.8", "\"gap\": \"1 in\"", "gap: 25.4 mm is more than 10 mm"),
        (
            "\"gap\": 0.8",
            "\"gap\": \"0.8 mmm\"",
            "gap: \"0.8 mmm\" cannot be read: \"mmm\" is not understood here; expected a number, a unit or a sign such as +",
        ),
        ("\"gap\": 0.8", "\"gap\": [0.8]", "gap: expected a length in mm, or text such as \"21.6 cm\", found a list"),
        ("\"rolled\": 6.35", "\"rolled\": 0", "doughs[0].rolled: 0 mm is less than 1 mm"),
        ("\"rolled\": 6.35", "\"rolled\": 63.5", "doughs[0].rolled: 63.5 mm is more than 30 mm"),
        ("\"rolled\": 6.35, ", "", "doughs[0].rolled: it is missing"),
        (
            "\"rise\": 1.25",
            "\"rise\": 0.2",
            "doughs[0].rise: 0.2 is less than 0.5; it is the baked thickness over the rolled one; bake a test biscuit and measure",
        ),
        (
            "\"rise\": 1.25",
            "\"rise\": 125",
            "doughs[0].rise: 125 is more than 3; it is the baked thickness over the rolled one; bake a test biscuit and measure",
        ),
        ("\"rise\": 1.25", "\"rise\": \"more\"", "doughs[0].rise: expected a number, found \"more\""),
        ("\"roofs\"", "\"walls\"", "doughs[1].id: doughs[0] is called \"walls\" already; give it another id"),
        (
            "\"roofs\"",
            "\"My Roofs\"",
            "doughs[1].id: \"My Roofs\" is not an id; use lower-case letters a to z and figures, joined by hyphens, such as north-wing",
        ),
        (
            "\"id\": \"roofs\"",
            "\"id\": \"\"",
            "doughs[1].id: it is empty; use lower-case letters a to z and figures, joined by hyphens, such as north-wing",
        ),
        ("{ \"id\": \"roofs\", \"rolled\": 5 }", "7", "doughs[1]: expected a group in braces, found 7"),
    ]);
    let none = HUT.replace(&HUT[HUT.find("\"doughs\"").unwrap()..HUT.find("\"parts\"").unwrap()], "\"doughs\": [], ");
    assert_eq!(message(&none), "doughs: a house needs at least one dough");
}

#[test]
fn in_inches_the_bounds_are_told_in_both() {
    let text = edited("\"unit\": \"mm\"", "\"unit\": \"in\"");
    assert_eq!(
        message(&text).lines().collect::<Vec<_>>(),
        [
            "gap: 0.8 in is more than 10 mm (about 3/8\")",
            "doughs[0].rolled: 6.35 in is more than 30 mm (about 1 3/16\")",
            "doughs[1].rolled: 5 in is more than 30 mm (about 1 3/16\")",
            "parts[0].outline.width: 120 in is more than 3000 mm (about 118 1/8\"); is the unit right?",
            "parts[0].outline.depth: 160 in is more than 3000 mm (about 118 1/8\"); is the unit right?",
        ]
    );
}

/// Nothing hides behind the first fault.
#[test]
fn all_faults_at_once() {
    let text = HUT
        .replace("\"gap\": 0.8", "\"gap\": -1")
        .replace("\"title\"", "\"titel\"")
        .replace("\"pitch\": 40", "\"pitch\": 95")
        .replace("\"width\": 120", "\"width\": \"wide\"")
        .replace("\"side\": \"front\"", "\"side\": \"frond\"")
        .replace("\"rise\": 1.25", "\"rise\": 9");
    assert_eq!(
        message(&text).lines().collect::<Vec<_>>(),
        [
            "titel: this key is not known; did you mean \"title\"?",
            "gap: -1 mm is below zero",
            "doughs[0].rise: 9 is more than 3; it is the baked thickness over the rolled one; bake a test biscuit and measure",
            "parts[0].outline.width: \"wide\" cannot be read: \"wide\" is not understood here; expected a number, a unit or a sign such as +",
            "parts[0].sides.left.pitch: 95 is steeper than 80 degrees",
            "parts[0].openings[0].side: the outline has no side \"frond\"; did you mean \"front\"?",
        ]
    );
}

/// A file of nothing but faults takes no longer than its length allows, and nobody has to read them all.
#[test]
fn countless_faults_are_counted() {
    let keys: String = (0..20_000).map(|k| format!("\"key-{k}\": 1,")).collect();
    let many = HUT.replacen('{', &format!("{{{keys}"), 1).replace("\"all\": {", &format!("{keys} \"all\": {{"));
    let found = message(&many);
    let lines: Vec<&str> = found.lines().collect();
    assert_eq!(lines.len(), 501);
    assert_eq!(lines[500], "file: there are 39500 more faults; mend these first");
}
