//! Broken and absurd parts, and every word that is said about them.
//!
//! Each case is an edit of a sound file: what is taken out, what is put in, and the whole message.

mod broken;

use broken::{HUT, assert_messages, edited, message};

#[test]
fn parts() {
    assert_messages(&[
        (
            "\"parts\": [",
            "\"partz\": [",
            "parts: it is missing; describe at least one part\npartz: this key is not known; did you mean \"parts\"?",
        ),
        (
            "\"id\": \"main\"",
            "\"id\": \"Main Body\"",
            "parts[0].id: \"Main Body\" is not an id; use lower-case letters a to z and figures, joined by hyphens, such as north-wing",
        ),
        ("\"id\": \"main\",", "", "parts[0].id: it is missing"),
        (
            "\"Main body\"",
            "\"Main\\tbody\"",
            "parts[0].name: it has a line break or another control character; take it away",
        ),
        (
            "\"corners\": \"lap\"",
            "\"corners\": \"miter\"",
            "parts[0].corners: \"miter\" is not known; it may be lap, lap-around, mitre, square-mitre; did you mean \"mitre\"?",
        ),
        ("\"corners\": \"lap\"", "\"corners\": true", "parts[0].corners: expected text in quotes, found true"),
        (
            "\"corners\": \"lap\"",
            "\"wall_dough\": \"wall\"",
            "parts[0].wall_dough: the house has no dough \"wall\"; did you mean \"walls\"?\nparts[0].floor.dough: the house has no dough \"wall\"; did you mean \"walls\"?",
        ),
        (
            "\"corners\": \"lap\"",
            "\"level_eaves\": \"yes\"",
            "parts[0].level_eaves: expected true or false, found \"yes\"",
        ),
        (
            "\"corners\": \"lap\"",
            "\"lid\": { \"height\": 90, \"overhang\": -1, \"parapet\": { \"height\": 1 } }",
            "parts[0].lid.overhang: -1 mm is below zero\nparts[0].lid.parapet.height: 1 mm is less than 2 mm",
        ),
        (
            "\"corners\": \"lap\"",
            "\"lid\": { \"hieght\": 90 }",
            "parts[0].lid.height: it is missing\nparts[0].lid.hieght: this key is not known; did you mean \"height\"?",
        ),
        ("\"x\": 0", "\"x\": 1e6", "parts[0].place.x: 1000000 mm is more than 10000 mm; is the unit right?"),
        (
            "\"x\": 0",
            "\"z\": 0",
            "parts[0].place.z: this key is not known; known here: x, y, turn, against, on-slope, astride, on-top",
        ),
        ("\"turn\": 90", "\"turn\": 1000", "parts[0].place.turn: 1000 is more than a full turn"),
        (
            "\"turn\": 90",
            "\"turn\": \"a bit\"",
            "parts[0].place.turn: \"a bit\" cannot be read: \"a\" is not understood here; expected a number, a unit or a sign such as +",
        ),
        (
            "\"kind\": \"inside\"",
            "\"kind\": \"outside\"",
            "parts[0].floor.kind: \"outside\" is not known; it may be none, inside, under",
        ),
        (
            "\"kind\": \"inside\"",
            "\"dough\": \"ginger\"",
            "parts[0].floor.dough: the house has no dough \"ginger\"; its doughs are walls, roofs",
        ),
    ]);
    let two = edited("\"parts\": [", "\"parts\": [ 5, ");
    assert_eq!(message(&two), "parts[0]: expected a group in braces, found 5");
    let part = HUT[HUT.find("\"parts\": [").unwrap() + 10..HUT.rfind(']').unwrap()].to_owned();
    assert_eq!(
        message(&edited("\"parts\": [", &format!("\"parts\": [{part},"))),
        "parts[1].id: parts[0] is called \"main\" already; give it another id"
    );
}

#[test]
fn outlines() {
    let kind = "{ \"kind\": \"rectangle\", \"width\": 120, \"depth\": 160 }";
    assert_messages(&[
        ("\"width\": 120", "\"width\": 4", "parts[0].outline.width: 4 mm is less than 5 mm"),
        (
            "\"width\": 120",
            "\"width\": 120000",
            "parts[0].outline.width: 120000 mm is more than 3000 mm; is the unit right?",
        ),
        (
            "\"width\": 120",
            "\"width\": \"wide\"",
            "parts[0].outline.width: \"wide\" cannot be read: \"wide\" is not understood here; expected a number, a unit or a sign such as +",
        ),
        (
            "\"width\": 120",
            "\"width\": 15",
            "parts[0].outline: it is 15 mm across, not more than two walls of 7.9375 mm baked; make the part wider, or roll the dough thinner",
        ),
        (
            "\"width\": 120",
            "\"witdh\": 120",
            "parts[0].outline.width: it is missing\nparts[0].outline.witdh: this key is not known; did you mean \"width\"?",
        ),
        ("\"width\": 120, ", "", "parts[0].outline.width: it is missing"),
        (
            "\"kind\": \"rectangle\"",
            "\"kind\": \"square\"",
            "parts[0].outline.kind: \"square\" is not known; it may be rectangle, polygon, half-polygon, free",
        ),
        (
            "\"kind\": \"rectangle\", ",
            "",
            "parts[0].outline.kind: it is missing; it may be rectangle, polygon, half-polygon or free",
        ),
        (kind, "\"rectangle\"", "parts[0].outline: expected a group in braces, found \"rectangle\""),
        (
            kind,
            "{ \"kind\": \"polygon\", \"sides\": 2, \"side\": 60 }",
            "parts[0].outline.sides: it can have 3 to 24 sides, not 2",
        ),
        (
            kind,
            "{ \"kind\": \"polygon\", \"sides\": 8.5, \"side\": 60 }",
            "parts[0].outline.sides: expected a whole number, found 8.5",
        ),
        (
            kind,
            "{ \"kind\": \"polygon\", \"sides\": 300, \"side\": 60 }",
            "parts[0].outline.sides: it can have 3 to 24 sides, not 300",
        ),
        (
            kind,
            "{ \"kind\": \"half-polygon\", \"sides\": 1, \"width\": 60 }",
            "parts[0].outline.sides: it can have 2 to 12 sides, not 1",
        ),
        (
            kind,
            "{ \"kind\": \"free\", \"corners\": [[0, 0], [0, 160], [120, 160], [120, 0]] }",
            "parts[0].sides.front: the outline has no such side; its sides are 1, 2, 3, 4\nparts[0].sides.right: the outline has no such side; its sides are 1, 2, 3, 4\nparts[0].sides.back: the outline has no such side; its sides are 1, 2, 3, 4\nparts[0].sides.left: the outline has no such side; its sides are 1, 2, 3, 4\nparts[0].sides.1.top: it is missing; it may be eave, half-hip, knee or gable\nparts[0].sides.2.top: it is missing; it may be eave, half-hip, knee or gable\nparts[0].sides.3.top: it is missing; it may be eave, half-hip, knee or gable\nparts[0].sides.4.top: it is missing; it may be eave, half-hip, knee or gable\nparts[0].outline.corners: the corners run clockwise; list them in the other order, counter-clockwise",
        ),
        (
            kind,
            "{ \"kind\": \"free\", \"corners\": [[0, 0], [120, 0]] }",
            "parts[0].outline.corners: there can be 3 to 24 corners, not 2",
        ),
        (
            kind,
            "{ \"kind\": \"free\", \"corners\": [[0, 0], [120, 0], [60]] }",
            "parts[0].outline.corners[2]: expected two lengths in square brackets, such as [0, 120], found a list",
        ),
    ]);
}

/// Outlines with sides 1 to n; what is said about the sides of the hut is left out.
#[test]
fn free_outlines() {
    for (corners, expected) in [
        (
            "[0, 0], [0, 160], [120, 160], [120, 0]",
            "parts[0].outline.corners: the corners run clockwise; list them in the other order, counter-clockwise",
        ),
        (
            "[0, 0], [120, 0], [60, 40], [60, 160]",
            "parts[0].outline.corners[2]: the outline bends inwards here; a part has no corner that points inwards; make two parts of it",
        ),
        (
            "[0, 0], [60, 0], [120, 0], [120, 160]",
            "parts[0].outline.corners[1]: it lies straight between its neighbours; leave it out",
        ),
        (
            "[0, 0], [120, 160], [120, 0], [0, 160]",
            "parts[0].outline.corners: the outline crosses itself; list the corners in order round the part",
        ),
        (
            "[0, 0], [120, 0], [120, 0], [120, 160]",
            "parts[0].outline.corners[2]: it is only 0 mm from corner [1]; leave one of the two out",
        ),
        (
            "[0, 0], [120, 0], [120, 160], [0, 1e5]",
            "parts[0].outline.corners[3][1]: 100000 mm is more than 10000 mm; is the unit right?",
        ),
        (
            "[0, 0], [5000, 0], [5000, 160], [0, 160]",
            "parts[0].outline: it is 5000 mm across, more than 3 m; is the unit right?",
        ),
        (
            "[0, 0], [120, 0], [120, 3], [0, 3]",
            "parts[0].outline: it is only 3 mm across, less than 5 mm; is the unit right?",
        ),
        (
            "[0, -73.2], [43, 59.2], [-69.6, -22.6], [69.6, -22.6], [-43, 59.2]",
            "parts[0].outline.corners: the outline crosses itself; list the corners in order round the part",
        ),
    ] {
        let kind = "{ \"kind\": \"rectangle\", \"width\": 120, \"depth\": 160 }";
        let text = edited(kind, &format!("{{ \"kind\": \"free\", \"corners\": [{corners}] }}"));
        let found = message(&text);
        let said: Vec<&str> = found.lines().filter(|l| l.starts_with("parts[0].outline")).collect();
        assert_eq!(said.join("\n"), expected, "{corners}");
    }
}

#[test]
fn sides() {
    let left = "\"left\": { \"top\": \"eave\", \"height\": 90, \"pitch\": 40 }";
    let knee = |lower, knee, upper| {
        format!(
            "\"left\": {{ \"top\": \"knee\", \"height\": 90, \"lower\": {lower}, \"knee\": {knee}, \"upper\": {upper} }}"
        )
    };
    assert_messages(&[
        ("\"pitch\": 40", "\"pitch\": 95", "parts[0].sides.left.pitch: 95 is steeper than 80 degrees"),
        (
            "\"pitch\": 40",
            "\"pitch\": 3",
            "parts[0].sides.left.pitch: 3 is flatter than 5 degrees; a flat roof is a lid",
        ),
        (
            "\"pitch\": 40",
            "\"pitch\": \"20 in 2\"",
            "parts[0].sides.left.pitch: 20 in 2 (84.3 degrees) is steeper than 80 degrees",
        ),
        (
            "\"pitch\": 40",
            "\"pitch\": \"steep\"",
            "parts[0].sides.left.pitch: \"steep\" cannot be read: \"steep\" is not understood here; expected a number, a unit or a sign such as +",
        ),
        (
            "\"pitch\": 40",
            "\"pitch\": \"ridge 4 m\"",
            "parts[0].sides.left.pitch: 4000 mm is more than 3000 mm; is the unit right?",
        ),
        (
            "\"pitch\": 40",
            "\"pitsch\": 40",
            "parts[0].sides.left.pitsch: this key is not known; did you mean \"pitch\"?\nparts[0].sides.left.pitch: it is missing; an eave needs it",
        ),
        (", \"pitch\": 40", "", "parts[0].sides.left.pitch: it is missing; an eave needs it"),
        ("\"height\": 90", "\"height\": -90", "parts[0].sides.right.height: -90 mm is less than 5 mm"),
        (
            "\"height\": 90",
            "\"height\": 1e300",
            "parts[0].sides.right.height: 1e300 mm is more than 3000 mm; is the unit right?",
        ),
        (
            "\"height\": 90",
            "\"height\": \"90 / 0\"",
            "parts[0].sides.right.height: \"90 / 0\" cannot be read: this divides by zero",
        ),
        ("\"overhang\": 10", "\"overhang\": -10", "parts[0].sides.all.overhang: -10 mm is below zero"),
        (
            "\"overhang\": 10",
            "\"overhang\": 10, \"start\": 5",
            "parts[0].sides.all.start: no side of this part uses it; take it away",
        ),
        (
            "\"front\": { \"top\": \"gable\" }",
            "\"front\": { \"top\": \"gable\", \"pitch\": 40 }",
            "parts[0].sides.front.pitch: a gable has no pitch; take it away, or make the top eave or half-hip",
        ),
        (
            "\"front\": { \"top\": \"gable\" }",
            "\"front\": { \"top\": \"gabel\" }",
            "parts[0].sides.front.top: \"gabel\" is not known; it may be eave, half-hip, knee, gable; did you mean \"gable\"?",
        ),
        (
            "\"front\": { \"top\": \"gable\" }",
            "\"front\": { }",
            "parts[0].sides.front.top: it is missing; it may be eave, half-hip, knee or gable",
        ),
        (
            "\"front\": { \"top\": \"gable\" }",
            "\"front\": \"gable\"",
            "parts[0].sides.front: expected a group in braces, found \"gable\"",
        ),
        (
            "\"front\": { \"top\": \"gable\" }",
            "\"frnt\": { \"top\": \"gable\" }",
            "parts[0].sides.frnt: the outline has no such side; did you mean \"front\"?\nparts[0].sides.front.top: it is missing; it may be eave, half-hip, knee or gable",
        ),
        (
            "\"front\": { \"top\": \"gable\" }",
            "\"north\": { \"top\": \"gable\" }",
            "parts[0].sides.north: the outline has no such side; its sides are front, right, back, left\nparts[0].sides.front.top: it is missing; it may be eave, half-hip, knee or gable",
        ),
        ("\"all\": { \"overhang\": 10 },", "", "sound"),
        (
            "\"all\": { \"overhang\": 10 },\n        \"front\": { \"top\": \"gable\" },",
            "",
            "parts[0].sides.front: this side is missing; describe it, or all sides at once under \"all\"",
        ),
        (
            "\"front\": { \"top\": \"gable\" }",
            "\"front\": { \"top\": \"gable\", \"wall\": 1 }",
            "parts[0].sides.front.wall: expected true or false, found 1",
        ),
        (left, &knee("60", "80", "30"), "parts[0].sides.left.knee: the knee at 80 mm is not above the wall of 90 mm"),
        (
            left,
            &knee("30", "120", "60"),
            "parts[0].sides.left.upper: the upper slope of 60.0 degrees is not flatter than the lower one of 30.0",
        ),
        (
            left,
            &knee("60", "120", "\"12 in 6\""),
            "parts[0].sides.left.upper: the upper slope of 63.4 degrees is not flatter than the lower one of 60.0",
        ),
        (
            left,
            &knee("null", "120", "30"),
            "parts[0].sides.left.lower: expected degrees, or text such as \"8 in 12\" or \"ridge 216 mm\", found null",
        ),
    ]);
}

#[test]
fn openings() {
    assert_messages(&[
        ("\"width\": 30", "\"width\": 0", "parts[0].openings[0].width: 0 mm is less than 2 mm"),
        (
            "\"side\": \"front\"",
            "\"side\": \"frond\"",
            "parts[0].openings[0].side: the outline has no side \"frond\"; did you mean \"front\"?",
        ),
        (
            "\"side\": \"front\"",
            "\"side\": \"7\"",
            "parts[0].openings[0].side: the outline has no side \"7\"; its sides are front, right, back, left",
        ),
        ("\"side\": \"front\", ", "", "parts[0].openings[0].side: it is missing"),
        (
            "\"id\": \"door\"",
            "\"id\": \"Door!\"",
            "parts[0].openings[0].id: \"Door!\" is not an id; use lower-case letters a to z and figures, joined by hyphens, such as north-wing",
        ),
        (
            "\"width\": 30",
            "\"width\": 30, \"shape\": \"round\"",
            "parts[0].openings[0].shape: \"round\" is not known; it may be rectangle, round-headed, segmental, pointed, circle, ellipse, fanlight, regular, free, path, whole-face",
        ),
        (
            "\"width\": 30",
            "\"width\": 130, \"shape\": \"round-headed\"",
            "parts[0].openings[0].height: a round head of 130 mm needs at least 65 mm of height, not 57.15 mm; make it taller or narrower",
        ),
        ("\"width\": 30", "\"width\": 30, \"sill\": -5", "parts[0].openings[0].sill: -5 mm is below zero"),
        (
            "\"width\": 30",
            "\"width\": 30, \"from\": \"left\", \"distance\": -5",
            "parts[0].openings[0].distance: -5 mm is below zero",
        ),
        (
            "\"width\": 30",
            "\"width\": 30, \"from\": \"centre\"",
            "parts[0].openings[0].from: \"centre\" is not known; it may be middle, left, right",
        ),
        (
            "\"width\": 30",
            "\"width\": 30, \"mode\": \"stamped\"",
            "parts[0].openings[0].mode: \"stamped\" is not known; it may be cut, glazed, pressed",
        ),
        (
            "\"openings\": [",
            "\"openings\": [ { \"id\": \"door\", \"side\": \"back\", \"width\": 9, \"height\": 9 },",
            "parts[0].openings[1].id: parts[0].openings[0] is called \"door\" already; give it another id",
        ),
        ("\"openings\": [", "\"openings\": [ [],", "parts[0].openings[0]: expected a group in braces, found a list"),
    ]);
}
