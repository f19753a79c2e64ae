//! Finishes and ornaments in the file: that they go round, and what is said about broken ones.

mod broken;

use broken::{HUT, STATION, message};
use gable_measure::Length;
use gable_shell::{
    Covering, Faces, Finish, OpeningId, Ornament, OrnamentKind, PartId, Rates, Share, SideId, Stuff, Style, Tint,
    Where, file,
};
use proptest::prelude::*;

/// The hut with something put onto it.
fn dressed(text: &str) -> String {
    let body = HUT.trim_end();
    format!("{}, \"dressing\": {text} }}", body.strip_suffix('}').unwrap_or(body).trim_end())
}

#[test]
fn what_is_left_out_is_usual() {
    let text = dressed("{ \"finishes\": [{ \"kind\": \"brick\", \"height\": \"1/4 in\" }] }");
    let house = file::parse(&text).unwrap_or_else(|errors| panic!("{errors}"));
    let mut expected = Finish::usual(Covering::USUAL[1].1, Faces::default());
    for (key, length) in expected.covering.sizes_mut() {
        if key == "height" {
            *length = Length::inches(0.25);
        }
    }
    assert_eq!(house.dressing.finishes, [expected]);
    assert!(file::parse(HUT).unwrap().dressing.finishes.is_empty());
}

#[test]
fn broken_finishes() {
    let say = |finish: &str| message(&dressed(&format!("{{ \"finishes\": [{{ {finish} }}] }}")));
    let at = |rest: &str| format!("dressing.finishes[0].{rest}");
    let cases = [
        (
            "\"on\": \"walls\"",
            "kind: it is missing; it may be tiles, brick, stone, weatherboard, board-and-batten, half-timber, snow",
        ),
        (
            "\"kind\": \"bricks\"",
            "kind: \"bricks\" is not known; it may be tiles, brick, stone, weatherboard, board-and-batten, half-timber, snow; did you mean \"brick\"?",
        ),
        (
            "\"kind\": \"brick\", \"exposure\": 5",
            "exposure: brick has no exposure; take it away; brick has length, height, joint, bond",
        ),
        ("\"kind\": \"brick\", \"side\": \"front\"", "side: it is a side of no part; say which part"),
        ("\"kind\": \"brick\", \"joint\": 8", "joint: 8 mm is too much for the length; make it smaller"),
        ("\"kind\": \"brick\", \"height\": 0.2", "height: 0.2 mm is less than 1 mm"),
        ("\"kind\": \"brick\", \"seed\": 1.5", "seed: expected a whole number from 0 to 4294967295, found 1.5"),
        ("\"kind\": \"brick\", \"shades\": []", "shades: a finish needs at least one shade"),
        (
            "\"kind\": \"brick\", \"shades\": [{ \"tint\": \"honey\", \"share\": 0 }]",
            "shades[0].share: 0 is not from 0.001 to 1000",
        ),
        ("\"kind\": \"snow\"", "on: snow along the eaves lies on slopes; write \"on\": \"slopes\""),
        (
            "\"kind\": \"tiles\", \"on\": \"slopes\", \"exposure\": 30",
            "exposure: 30 mm is too much for the length; make it smaller",
        ),
    ];
    for (finish, expected) in cases {
        assert_eq!(say(finish), at(expected), "{finish}");
    }
}

#[test]
fn broken_names() {
    let end = "\n}";
    let with = |text: &str| format!(",\n\"dressing\": {text}\n}}");
    let station = STATION.trim_end();
    let name = |text: &str| message(&format!("{}{}", station.strip_suffix(end).unwrap(), with(text)));
    let said = name("{ \"ornaments\": [{ \"kind\": \"sill\", \"part\": \"mian\" }] }");
    assert!(
        said.starts_with("dressing.ornaments[0].part: the house has no part \"mian\"; did you mean \"main\"?"),
        "{said}"
    );
    let said = name("{ \"ornaments\": [{ \"kind\": \"fascia\", \"part\": \"main\", \"opening\": \"door\" }] }");
    assert_eq!(said, "dressing.ornaments[0].opening: a fascia belongs to no opening; take it away");
    let said = name("{ \"finishes\": [{ \"kind\": \"stone\", \"part\": \"main\", \"side\": \"frnt\" }] }");
    assert_eq!(said, "dressing.finishes[0].side: the part has no side \"frnt\"; did you mean \"front\"?");
    let said = name("{ \"rates\": { \"set\": -1 } }");
    assert_eq!(said, "dressing.rates.set: -1 is not from 0 to 3600");
}

fn finish() -> impl Strategy<Value = Finish> {
    let shares = prop::collection::vec((0_usize..12, 0.1..9.0_f64), 1..4);
    let picks = (0_usize..7, any::<bool>(), 0_usize..5, any::<u32>());
    (picks, shares, prop::collection::vec(0.3..1.0_f64, 3)).prop_map(|((kind, part, stuff, seed), shares, scale)| {
        let mut covering = Covering::USUAL[kind].1;
        for ((key, length), factor) in covering.sizes_mut().into_iter().zip(scale) {
            *length = if key == "length" { *length } else { *length * factor };
        }
        if let Covering::HalfTimber { braces, bay, .. } = &mut covering {
            (*braces, *bay) = (part, Length::mm_of(50.0));
        }
        if let Covering::BoardAndBatten { board, .. } = &mut covering {
            *board = Length::mm_of(12.0);
        }
        let which = if let Covering::Snow { .. } = covering { Where::Slopes } else { Where::Walls };
        let name = |name: &str| name.to_owned();
        let faces =
            Faces { which, part: part.then(|| PartId(name("main"))), side: part.then(|| SideId(name("front"))) };
        let shades = shares.into_iter().map(|(tint, share)| Share { tint: Tint::ALL[tint], share }).collect();
        Finish { stuff: Stuff::ALL[stuff], seed, shades, ..Finish::usual(covering, faces) }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]

    #[test]
    fn any_dressing_goes_round(finishes in prop::collection::vec(finish(), 0..4), kind in 0_usize..12, set in 0.0..99.0_f64) {
        let mut house = file::parse(HUT).unwrap();
        house.dressing.finishes = finishes;
        house.dressing.rates = Rates { set, ..Rates::default() };
        let kind = OrnamentKind::ALL[kind].1;
        let mut ornament = Ornament::usual(kind, PartId("main".to_owned()));
        ornament.opening = kind.is_at_openings().then(|| OpeningId(house.parts[0].openings[0].id.0.clone()));
        ornament.style = Style::Boarded;
        house.dressing.ornaments.push(ornament);
        prop_assert_eq!(file::check(&house).iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        let text = file::write(&house);
        let back = file::parse(&text).unwrap();
        prop_assert_eq!(back.dressing.finishes.len(), house.dressing.finishes.len());
        for (a, b) in house.dressing.finishes.iter().zip(&back.dressing.finishes) {
            prop_assert_eq!((&a.faces, a.stuff, a.seed, a.shades.len()), (&b.faces, b.stuff, b.seed, b.shades.len()));
            for (a, b) in a.covering.sizes().iter().zip(b.covering.sizes()) {
                prop_assert!(a.0 == b.0 && (a.1 - b.1).abs().mm() < 1e-8);
            }
        }
        prop_assert_eq!(&house.dressing.ornaments, &back.dressing.ornaments);
        prop_assert_eq!(file::write(&back), text.clone());
        let schema = serde_json::from_str(&file::schema()).unwrap();
        prop_assert!(jsonschema::is_valid(&schema, &serde_json::from_str(&text).unwrap()));
    }
}
