//! Broken and absurd steps and posts, and every word that is said about them.

mod broken;

use broken::{assert_messages_of, edited, message};
use gable_shell::{StepsHigh, file};

/// The hut with a floor of three steps, and posts instead of its front wall.
fn porch() -> String {
    let steps = "\"steps\": { \"count\": 3, \"plates\": 2, \"tread\": 18, \"sides\": [\"front\", \"left\"] }";
    let open = edited("\"kind\": \"inside\"", &format!("\"kind\": \"under\", {steps}"));
    let posts = "\"posts\": { \"count\": 4, \"width\": 12, \"strips\": 2, \"at_ends\": false }";
    open.replacen("\"front\": {", &format!("\"front\": {{ \"wall\": false, {posts},"), 1)
}

#[test]
fn what_is_written_is_read() {
    let house = file::parse(&porch()).unwrap();
    let part = &house.parts[0];
    let steps = part.steps().unwrap();
    assert_eq!((steps.high, steps.plates, steps.tread.mm()), (StepsHigh::Count(3), 2, 18.0));
    assert_eq!(steps.sides.iter().map(|s| s.0.as_str()).collect::<Vec<_>>(), ["front", "left"]);
    let posts = part.sides[0].posts.unwrap();
    assert_eq!((posts.count, posts.width.mm(), posts.strips, posts.at_ends), (4, 12.0, 2, false));
    assert!(part.sides[1..].iter().all(|s| s.posts.is_none()));
    assert_eq!(file::parse(&file::write(&house)), Ok(house));
}

#[test]
fn what_is_left_out_has_usual_values() {
    let short = porch().replace("\"plates\": 2, \"tread\": 18, \"sides\": [\"front\", \"left\"]", "\"plates\": 1");
    let steps = file::parse(&short).unwrap().parts[0].steps().unwrap().clone();
    assert_eq!((steps.plates, steps.tread, steps.sides.len()), (1, file::limits::USUAL_TREAD, 0));
    let short = porch().replace(", \"strips\": 2, \"at_ends\": false", "");
    let posts = file::parse(&short).unwrap().parts[0].sides[0].posts.unwrap();
    assert_eq!((posts.strips, posts.at_ends), (1, true));
}

#[test]
fn steps() {
    assert_messages_of(
        &porch(),
        &[
            (
                "\"kind\": \"under\"",
                "\"kind\": \"inside\"",
                "parts[0].floor.steps: only a floor under the walls is built up of several plates; make the floor's kind under, or take the steps away",
            ),
            ("\"count\": 3", "\"count\": 0", "parts[0].floor.steps.count: 0 is less than 1"),
            ("\"count\": 3", "\"count\": 21", "parts[0].floor.steps.count: it is more than 20"),
            ("\"count\": 3", "\"count\": 1e9", "parts[0].floor.steps.count: it is more than 20"),
            ("\"count\": 3", "\"count\": 2.5", "parts[0].floor.steps.count: expected a whole number, found 2.5"),
            ("\"count\": 3, ", "", "parts[0].floor.steps.count: it is missing; give a count of steps, or a height"),
            (
                "\"count\": 3",
                "\"count\": 3, \"height\": 30",
                "parts[0].floor.steps.height: both a count and a height are given; keep one of them",
            ),
            ("\"count\": 3", "\"height\": 0", "parts[0].floor.steps.height: 0 mm is less than 1 mm"),
            ("\"count\": 3", "\"height\": 9999", "parts[0].floor.steps.height: 9999 mm is more than 500 mm"),
            ("\"plates\": 2", "\"plates\": 11", "parts[0].floor.steps.plates: it is more than 10"),
            ("\"tread\": 18", "\"tread\": 0.5", "parts[0].floor.steps.tread: 0.5 mm is less than 1 mm"),
            (
                "\"front\", \"left\"",
                "\"front\", \"lefd\"",
                "parts[0].floor.steps.sides[1]: the part has no side \"lefd\"; did you mean \"left\"?",
            ),
            (
                "\"front\", \"left\"",
                "\"front\", \"front\"",
                "parts[0].floor.steps.sides[1]: \"front\" is there twice; keep one of them",
            ),
            ("\"front\", \"left\"", "\"front\", 7", "parts[0].floor.steps.sides[1]: expected text in quotes, found 7"),
            (
                "\"tread\"",
                "\"going\"",
                "parts[0].floor.steps.going: this key is not known; known here: count, height, plates, tread, sides",
            ),
        ],
    );
}

#[test]
fn posts() {
    assert_messages_of(
        &porch(),
        &[
            (
                "\"wall\": false",
                "\"wall\": true",
                "parts[0].sides.front.posts: posts stand only where there is no wall; write \"wall\": false, or take the posts away",
            ),
            ("\"count\": 4", "\"count\": 0", "parts[0].sides.front.posts.count: 0 is less than 1"),
            ("\"count\": 4", "\"count\": 100", "parts[0].sides.front.posts.count: it is more than 60"),
            ("\"count\": 4, ", "", "parts[0].sides.front.posts.count: it is missing"),
            ("\"width\": 12, ", "", "parts[0].sides.front.posts.width: it is missing"),
            ("\"width\": 12,", "\"width\": 1,", "parts[0].sides.front.posts.width: 1 mm is less than 2 mm"),
            ("\"strips\": 2", "\"strips\": 12", "parts[0].sides.front.posts.strips: it is more than 10"),
            (
                "\"at_ends\": false",
                "\"at_ends\": \"no\"",
                "parts[0].sides.front.posts.at_ends: expected true or false, found \"no\"",
            ),
            (
                "\"posts\": {",
                "\"posts\": [], \"posts\": {",
                "parts[0].sides.front.posts: it is there more than once; keep one of them\nparts[0].sides.front.posts: expected a group in braces, found a list",
            ),
        ],
    );
    assert_eq!(message(&porch()), "sound");
}
