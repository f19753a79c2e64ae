//! Broken and absurd places of parts, and every word that is said about them.
//!
//! Each case is an edit of a sound file: what is taken out, what is put in, and the whole message.

mod broken;

use broken::{STATION, assert_messages_of, message};

const WING: &str =
    "{ \"part\": \"main\", \"side\": \"front\", \"from\": \"left\", \"distance\": 20, \"out\": 60, \"turn\": -5 }";

#[test]
fn the_station_is_sound() {
    assert_eq!(message(STATION), "sound");
}

#[test]
fn ways_to_stand() {
    assert_messages_of(
        STATION,
        &[
            ("\"against\"", "\"agianst\"", "parts[1].place.agianst: this key is not known; did you mean \"against\"?"),
            (
                "\"against\"",
                "\"beside\"",
                "parts[1].place.beside: this key is not known; known here: x, y, turn, against, on-slope, astride, on-top",
            ),
            (
                "\"against\"",
                "\"x\": 3, \"turn\": 9, \"against\"",
                "parts[1].place.x: \"against\" says where it stands already; take it away, or put it into \"against\" if it belongs there\nparts[1].place.turn: \"against\" says where it stands already; take it away, or put it into \"against\" if it belongs there",
            ),
            (
                "\"against\"",
                "\"astride\": { \"part\": \"main\" }, \"against\"",
                "parts[1].place: it stands in several ways: against, astride; keep one of them",
            ),
            (WING, "\"main\"", "parts[1].place.against: expected a group in braces, found \"main\""),
            (
                WING,
                "{}",
                "parts[1].place.against.part: it is missing\nparts[1].place.against.side: it is missing\nparts[1].place.against.out: it is missing",
            ),
            (", \"up\": 15", "", "parts[2].place.on-slope.up: it is missing"),
            (
                "\"out\": 60",
                "\"out\": 60, \"up\": 60",
                "parts[1].place.against.up: this key is not known; known here: part, side, from, distance, out, turn",
            ),
            (
                "\"up\": 15",
                "\"up\": 15, \"out\": 60",
                "parts[2].place.on-slope.out: this key is not known; known here: part, side, from, distance, up, turn",
            ),
            (
                "\"along\": 70",
                "\"distance\": 70",
                "parts[3].place.astride.distance: this key is not known; known here: part, along, turn",
            ),
            ("\"x\": 1,", "\"z\": 1,", "parts[4].place.on-top.z: this key is not known; known here: part, x, y, turn"),
            (
                "\"from\": \"left\"",
                "\"from\": \"front\"",
                "parts[1].place.against.from: \"front\" is not known; it may be middle, left, right",
            ),
            (", \"from\": \"left\", \"distance\": 20", "", "sound"),
            (", \"along\": 70", "", "sound"),
        ],
    );
}

#[test]
fn hosts() {
    assert_messages_of(
        STATION,
        &[
            (
                "\"against\": { \"part\": \"main\"",
                "\"against\": { \"part\": \"mian\"",
                "parts[1].place.against.part: the house has no part \"mian\"; did you mean \"main\"?",
            ),
            (
                "\"astride\": { \"part\": \"main\"",
                "\"astride\": { \"part\": \"boat-shed\"",
                "parts[3].place.astride.part: the house has no part \"boat-shed\"; its parts are main, wing, dormer, chimney, lantern, lookout",
            ),
            (
                "\"on-slope\": { \"part\": \"main\"",
                "\"on-slope\": { \"part\": 1",
                "parts[2].place.on-slope.part: expected text in quotes, found 1",
            ),
            (
                "\"against\": { \"part\": \"main\"",
                "\"against\": { \"part\": \"wing\"",
                "parts[1].place.against.part: a part cannot stand by itself; name another part, or place it on the base board",
            ),
            (
                "\"on-top\": { \"part\": \"chimney\"",
                "\"on-top\": { \"part\": \"lantern\"",
                "parts[4].place.on-top.part: a part cannot stand by itself; name another part, or place it on the base board",
            ),
            (
                "\"side\": \"front\"",
                "\"side\": \"frond\"",
                "parts[1].place.against.side: part \"main\" has no side \"frond\"; did you mean \"front\"?",
            ),
            (
                "\"side\": \"back\"",
                "\"side\": \"7\"",
                "parts[2].place.on-slope.side: part \"main\" has no side \"7\"; its sides are front, right, back, left",
            ),
            (
                "\"id\": \"chimney\"",
                "\"id\": \"lantern\"",
                "parts[4].id: parts[3] is called \"lantern\" already; give it another id\nparts[4].place.on-top.part: the house has no part \"chimney\"; its parts are main, wing, dormer, lantern, lantern, lookout",
            ),
            // What cannot be read is the one fault; who stands by it is not blamed.
            ("\"id\": \"chimney\"", "\"id\": 5", "parts[3].id: expected text in quotes, found 5"),
            (
                "\"kind\": \"rectangle\", \"width\": 220",
                "\"width\": 220",
                "parts[0].outline.kind: it is missing; it may be rectangle, polygon, half-polygon or free",
            ),
        ],
    );
    let text = STATION.replacen("{\n      \"id\": \"main\"", "5, {\n      \"id\": \"main\"", 1);
    assert_eq!(message(&text), "parts[0]: expected a group in braces, found 5");
}

#[test]
fn circles() {
    let main = "\"outline\": { \"kind\": \"rectangle\", \"width\": 220, \"depth\": 150 }";
    let stands_by = |host: &str| format!("{main}, \"place\": {{ \"astride\": {{ \"part\": \"{host}\" }} }}");
    let hint = "place one of them on the base board";
    assert_messages_of(
        STATION,
        &[
            (
                main,
                &stands_by("wing"),
                &format!(
                    "parts[0].place.astride.part: these parts stand by each other in a circle: main, wing, main; {hint}"
                ),
            ),
            // The wing and the dormer only hang on the circle.
            (
                main,
                &stands_by("lantern"),
                &format!(
                    "parts[0].place.astride.part: these parts stand by each other in a circle: main, lantern, chimney, main; {hint}"
                ),
            ),
        ],
    );
    let two = STATION
        .replace("{ \"astride\": { \"part\": \"main\"", "{ \"astride\": { \"part\": \"lantern\"")
        .replace(main, &stands_by("dormer"));
    assert_eq!(
        message(&two),
        format!(
            "parts[0].place.astride.part: these parts stand by each other in a circle: main, dormer, main; {hint}\n\
             parts[3].place.astride.part: these parts stand by each other in a circle: chimney, lantern, chimney; {hint}"
        )
    );
}

#[test]
fn sizes_of_places() {
    assert_messages_of(
        STATION,
        &[
            (
                "\"out\": 60",
                "\"out\": 6000",
                "parts[1].place.against.out: 6000 mm is more than 3000 mm; is the unit right?",
            ),
            (
                "\"distance\": 20",
                "\"distance\": -1e9",
                "parts[1].place.against.distance: -1000000000 mm is less than -3000 mm",
            ),
            ("\"turn\": -5", "\"turn\": 500", "parts[1].place.against.turn: 500 is more than a full turn"),
            (
                "\"up\": 15",
                "\"up\": 1e4",
                "parts[2].place.on-slope.up: 10000 mm is more than 3000 mm; is the unit right?",
            ),
            ("\"distance\": 40", "\"distance\": -40", "sound"),
            (
                "\"along\": 70",
                "\"along\": \"7 km\"",
                "parts[3].place.astride.along: \"7 km\" cannot be read: \"km\" is not understood here; expected a number, a unit or a sign such as +",
            ),
            (
                "\"along\": 70",
                "\"along\": 7000",
                "parts[3].place.astride.along: 7000 mm is more than 3000 mm; is the unit right?",
            ),
            (
                "\"x\": 1,",
                "\"x\": 1e5,",
                "parts[4].place.on-top.x: 100000 mm is more than 10000 mm; is the unit right?",
            ),
            ("\"turn\": 15", "\"turn\": -400", "parts[4].place.on-top.turn: -400 is more than a full turn"),
            ("\"raised\": 12", "\"raised\": -12", "parts[5].raised: -12 mm is below zero"),
            ("\"raised\": 12", "\"raised\": 3001", "parts[5].raised: 3001 mm is more than 3000 mm; is the unit right?"),
            (
                "\"raised\": 12",
                "\"raised\": true",
                "parts[5].raised: expected a length in mm, or text such as \"21.6 cm\", found true",
            ),
        ],
    );
}

#[test]
fn what_stays_whole() {
    assert_messages_of(
        STATION,
        &[
            ("\"stays_whole\": true", "\"stays_whole\": 1", "parts[3].stays_whole: expected true or false, found 1"),
            (
                "\"stays_whole\": true",
                "\"stays-whole\": true",
                "parts[3].stays-whole: this key is not known; did you mean \"stays_whole\"?",
            ),
            (", \"rim\": 8", "", "parts[1].behind.rim: it is missing"),
            ("\"rim\": 8", "\"rim\": -1", "parts[1].behind.rim: -1 mm is below zero"),
            ("\"rim\": 8", "\"rim\": \"8 in\"", "parts[1].behind.rim: 203.2 mm is more than 100 mm"),
            (
                "\"passage\"",
                "\"whole\"",
                "parts[1].behind.rim: what stays whole has no rim; take it away, or make the kind passage",
            ),
            ("\"kind\": \"passage\", ", "", "parts[1].behind.kind: it is missing; it may be whole or passage"),
            (
                "\"passage\"",
                "\"pasage\"",
                "parts[1].behind.kind: \"pasage\" is not known; it may be whole, passage; did you mean \"passage\"?",
            ),
            ("{ \"kind\": \"passage\", \"rim\": 8 }", "{ \"kind\": \"whole\" }", "sound"),
            (
                "{ \"kind\": \"passage\", \"rim\": 8 }",
                "\"passage\"",
                "parts[1].behind: expected a group in braces, found \"passage\"",
            ),
        ],
    );
}

#[test]
fn wishes_about_the_order_of_assembly() {
    let with = |more: &str| format!("\"order\": [{more}],\n  \"parts\": [");
    let case = |more: &str| message(&STATION.replacen("\"parts\": [", &with(more), 1));
    for (more, words) in [
        ("{ \"first\": \"wing/walls\", \"then\": \"main/roof-left\" }", "sound"),
        // What is gone is told of the house, not of the file.
        ("{ \"first\": \"gone\", \"then\": \"main\" }", "sound"),
        ("{ \"first\": \"wing\" }", "order[0].then: it is missing"),
        (
            "{ \"first\": \"wing\", \"then\": \"wing\" }",
            "order[0]: nothing comes before itself; name two different things",
        ),
        (
            "{ \"first\": \"the wing\", \"then\": \"main\" }",
            "order[0].first: this names no part and no piece; write a part, such as \"porch\", or \"porch/roof\"",
        ),
        (
            "{ \"first\": \"wing\", \"then\": \"main\" }, { \"first\": \"wing\", \"then\": \"main\" }",
            "order[1]: order[0] says the same; keep one of them",
        ),
    ] {
        assert_eq!(case(more), words, "{more}");
    }
}

#[test]
fn decided_pairs() {
    let pair = "{ \"whole\": \"wing\", \"cut\": \"main\" }";
    let with = |more: &str| format!("{pair}, {more}");
    assert_messages_of(
        STATION,
        &[
            (
                "\"whole\": \"wing\"",
                "\"whole\": \"wings\"",
                "decided[0].whole: the house has no part \"wings\"; did you mean \"wing\"?",
            ),
            (
                "\"cut\": \"main\"",
                "\"cut\": \"porch\"",
                "decided[0].cut: the house has no part \"porch\"; its parts are main, wing, dormer, chimney, lantern, lookout",
            ),
            (
                "\"cut\": \"main\"",
                "\"cut\": \"wing\"",
                "decided[0].cut: it is the part that stays whole; name two different parts",
            ),
            ("\"whole\": \"wing\", ", "", "decided[0].whole: it is missing"),
            (pair, "5", "decided[0]: expected a group in braces, found 5"),
            (pair, &with("{ \"whole\": \"chimney\", \"cut\": \"main\" }"), "sound"),
            (pair, &with(pair), "decided[1]: decided[0] says the same; keep one of them"),
            (
                pair,
                &with("{ \"whole\": \"main\", \"cut\": \"wing\" }"),
                "decided[1]: decided[0] says the opposite: \"wing\" stays whole and \"main\" is cut to fit; keep one of them",
            ),
        ],
    );
}

#[test]
fn sizes_that_follow() {
    let ridge = "\"measure\": \"ridge\", \"gives\": \"pitch\"";
    assert_messages_of(
        STATION,
        &[
            (
                "\"part\": \"lookout\", \"measure\"",
                "\"part\": \"outlook\", \"measure\"",
                "relations[1].part: the house has no part \"outlook\"; its parts are main, wing, dormer, chimney, lantern, lookout",
            ),
            (
                "{ \"part\": \"main\", \"measure\": \"eave\" }",
                "{ \"part\": \"mein\", \"measure\": \"eave\" }",
                "relations[0].follows.part: the house has no part \"mein\"; did you mean \"main\"?",
            ),
            (
                "{ \"part\": \"main\", \"measure\": \"eave\" }",
                "{ \"part\": \"main\", \"measure\": \"eave\", \"side\": \"frnt\" }",
                "relations[0].follows.side: \"main\" has no side \"frnt\"; did you mean \"front\"?",
            ),
            (
                "{ \"part\": \"main\", \"measure\": \"eave\" }",
                "{ \"part\": \"main\", \"measure\": \"lid\", \"side\": \"front\" }",
                "relations[0].follows.side: only an eave has a side; take it away",
            ),
            (
                "{ \"part\": \"main\", \"measure\": \"eave\" }",
                "{ \"part\": \"main\", \"measure\": \"width\" }",
                "relations[0].follows.measure: a height follows heights, and a size of the plan sizes of plans; choose another size to follow",
            ),
            (
                ridge,
                "\"measure\": \"roof\"",
                "relations[0].measure: \"roof\" is not known; it may be width, depth, eave, ridge, lid",
            ),
            (
                ridge,
                "\"gives\": \"pitch\"",
                "relations[0].measure: it is missing; it may be width, depth, eave, ridge or lid",
            ),
            (
                ridge,
                "\"measure\": \"ridge\", \"gives\": \"way\"",
                "relations[0].gives: \"way\" is not known; it may be walls, pitch",
            ),
            (
                ridge,
                "\"measure\": \"eave\", \"gives\": \"pitch\"",
                "relations[0].gives: only a ridge has something that gives; take it away",
            ),
            (
                "\"follows\": { \"part\": \"main\", \"measure\": \"depth\" }, ",
                "",
                "relations[1].follows: it is missing",
            ),
            ("\"offset\": -4.5", "\"offset\": -45000", "relations[1].offset: -45000 mm is less than -3000 mm"),
            (
                "\"offset\": -4.5",
                "\"ofset\": -4.5",
                "relations[1].ofset: this key is not known; did you mean \"offset\"?",
            ),
            (
                "\"part\": \"main\", \"measure\": \"depth\"",
                "\"part\": \"lookout\", \"measure\": \"width\"",
                "relations[1].follows: it follows itself; name another size",
            ),
            (
                "\"part\": \"lookout\", \"measure\": \"width\"",
                "\"part\": \"wing\", \"measure\": \"ridge\"",
                "relations[1].follows.measure: a height follows heights, and a size of the plan sizes of plans; choose another size to follow\n\
                 relations[1]: relations[0] says what this size follows; keep one of them",
            ),
            (ridge, "\"measure\": \"eave\", \"side\": \"left\"", "sound"),
        ],
    );
}

/// Two thousand parts that all name a missing one take no time, and the hints stay short.
#[test]
fn many_lost_parts() {
    let part = |k: usize| {
        format!(
            "{{ \"id\": \"part-{k}\", \"outline\": {{ \"kind\": \"rectangle\", \"width\": 60, \"depth\": 60 }}, \
             \"sides\": {{ \"all\": {{ \"top\": \"eave\", \"height\": 50, \"pitch\": 40 }} }}, \
             \"place\": {{ \"astride\": {{ \"part\": \"lost-{k}\" }} }} }}"
        )
    };
    let parts: Vec<String> = (0..2000).map(part).collect();
    let found =
        message(&format!("{{ \"format\": \"gablewright-house\", \"version\": 2, \"parts\": [{}] }}", parts.join(",")));
    let lines: Vec<&str> = found.lines().collect();
    assert_eq!(lines.len(), 501);
    assert_eq!(lines[0], "parts[0].place.astride.part: the house has no part \"lost-0\"");
    assert_eq!(lines[500], "file: there are 1500 more faults; mend these first");
}
