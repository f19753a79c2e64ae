//! Writing and reading houses, and the schema.

mod made_up;

use gable_measure::{Angle, InchStep, Length, Pitch, Unit, tidy};
use gable_shell::{
    Behind, Corners, Decided, Dough, DoughId, Floor, FloorKind, Gives, Glazier, House, Measure, Measured, Mode,
    Outline, Owner, Part, PartId, Place, Placing, Relation, Ridges, RoofForm, Shape, SideId, Spot, Surface, Top, file,
};
use made_up::house;
use proptest::prelude::*;

const HUT: &str = include_str!("hut.house.json");
const STATION: &str = include_str!("station.house.json");
const UNITS: [Unit; 3] = [Unit::Millimetre, Unit::Inch(InchStep::Sixteenth), Unit::Inch(InchStep::ThirtySecond)];

fn assert_goes_round(house: &House) {
    let text = file::write(house);
    assert_eq!(file::parse(&text).as_ref(), Ok(house));
    assert_eq!(file::parse(&text).as_ref().map(file::write), Ok(text));
}

#[test]
fn simple_houses_of_every_form_go_round() {
    for unit in UNITS {
        for form in RoofForm::ALL {
            let mut house = House::simple(unit);
            form.apply_in(&mut house.parts[0], unit);
            assert_goes_round(&house);
        }
    }
}

#[test]
fn what_is_left_out_has_sensible_values() {
    let house = file::parse(HUT).unwrap();
    assert_eq!((house.unit, house.gap), (Unit::Millimetre, House::USUAL_GAP));
    assert_eq!(house.doughs[1].rise, Dough::USUAL_RISE);
    let part = &house.parts[0];
    assert_eq!((part.wall_dough.0.as_str(), part.roof_dough.0.as_str()), ("walls", "roofs"));
    assert_eq!(part.floor, Floor { kind: FloorKind::Inside, dough: DoughId("walls".into()), steps: None });
    assert_eq!((part.corners, part.ridges, part.level_eaves), (Corners::Lap, Ridges::Open, false));
    assert_eq!(part.place, Place::Ground(Spot { turn: Angle::degrees(90.0), ..Spot::default() }));
    assert_eq!((part.raised, part.stays_whole, part.behind), (Length::ZERO, false, Behind::Whole));
    assert_eq!(house.decided, []);
    assert!(part.sides.iter().all(|s| s.wall));
    assert_eq!(part.sides[0].top, Top::Gable { overhang: Length::mm_of(10.0) });
    let pitch = Pitch::RiseInRun { rise: 8.0, run: 12.0 };
    let (height, overhang) = (Length::mm_of(90.0), Length::mm_of(10.0));
    assert_eq!(part.sides[1].top, Top::Eave { height, pitch, overhang });
    let door = &part.openings[0];
    assert_eq!(door.name, "door");
    assert_eq!((&door.shape, door.mode), (&Shape::Rectangle, Mode::Cut));
    assert_eq!((door.face, door.repeat, door.door), (Surface::Wall, None, None));
    assert_eq!(house.dressing.glazier, Glazier::default());
    // 2 1/4 in in a house in millimetres.
    assert_eq!(door.height, Length::mm_of(57.15));
    assert_goes_round(&house);
}

#[test]
fn parts_stand_by_others() {
    let house = file::parse(STATION).unwrap();
    let host = || PartId("main".into());
    let places: Vec<Place> = house.parts.iter().map(|p| p.place.clone()).collect();
    let (along, turn) = (Placing::FromLeft { distance: Length::mm_of(20.0) }, Angle::degrees(-5.0));
    let wing = Place::Against { host: host(), side: SideId("front".into()), along, out: Length::mm_of(60.0), turn };
    let (along, turn) = (Placing::Centred { offset: Length::mm_of(40.0) }, Angle::ZERO);
    let dormer = Place::OnSlope { host: host(), side: SideId("back".into()), along, up: Length::mm_of(15.0), turn };
    let chimney = Place::Astride { host: host(), along: Length::mm_of(70.0), turn };
    let spot = Spot { x: Length::mm_of(1.0), y: Length::ZERO, turn: Angle::degrees(15.0) };
    let lantern = Place::OnTop { host: PartId("chimney".into()), spot };
    let lookout = Place::Ground(Spot { x: Length::mm_of(300.0), ..Spot::default() });
    assert_eq!(places, [Place::default(), wing, dormer, chimney, lantern, lookout]);
    assert_eq!(house.parts[1].behind, Behind::Passage { rim: Length::mm_of(8.0) });
    assert!(house.parts[3].stays_whole && !house.parts[0].stays_whole);
    assert_eq!(house.parts[5].raised, Length::mm_of(12.0));
    assert_eq!(house.decided, [Decided { whole: PartId("wing".into()), cut: host() }]);
    let of = |part: &str, measure| Measured { part: PartId(part.into()), measure };
    let ridge = Relation {
        follower: of("wing", Measure::Ridge),
        leader: of("main", Measure::Eave(None)),
        offset: Length::ZERO,
        gives: Gives::Pitch,
    };
    let width = Relation {
        follower: of("lookout", Measure::Width),
        leader: of("main", Measure::Depth),
        offset: Length::mm_of(-4.5),
        gives: Gives::Walls,
    };
    assert_eq!(house.relations, [ridge, width]);
    assert_goes_round(&house);
}

#[test]
fn lengths_in_inches_stay_as_they_were_typed() {
    let unit = Unit::Inch(InchStep::Sixteenth);
    let mut house = House::simple(unit);
    let Outline::Rectangle { width, depth } = &mut house.parts[0].outline else { panic!() };
    (*width, *depth) = (Length::inches(8.1) + Length::inches(0.4), Length::mm_of(216.0));
    let text = file::write(&house);
    assert!(text.contains("\"width\": 8.5,"), "{text}");
    assert!(text.contains("\"depth\": \"216 mm\""), "{text}");
    assert!(text.ends_with("}\n"));
}

#[test]
fn pitches_are_written_the_way_they_were_given() {
    for (pitch, entry) in [
        (Pitch::Angle(Angle::degrees(40.0)), "40"),
        (Pitch::RiseInRun { rise: 8.5, run: 12.0 }, "\"8.5 in 12\""),
        (Pitch::RidgeHeight(Length::inches(8.5)), "\"ridge 8.5 in\""),
        (Pitch::RidgeHeight(Length::mm_of(216.0)), "\"ridge 216 mm\""),
    ] {
        let mut house = House::simple(Unit::Inch(InchStep::Sixteenth));
        let (height, overhang) = (Length::inches(3.5), Length::ZERO);
        house.parts[0].sides[1].top = Top::Eave { height, pitch, overhang };
        assert!(file::write(&house).contains(&format!("\"pitch\": {entry},")), "{entry}");
        assert_goes_round(&house);
    }
}

#[test]
fn what_belongs_to_the_person_is_kept_to_the_letter() {
    let mut house = House::simple(Unit::Millimetre);
    house.owner = Owner {
        title: "Phare d’Ouest “½”".into(),
        edition: "2".into(),
        credit: "Zoë Å. Ó Conaill 🍪".into(),
        after: "Ó hÉ, after Ñ".into(),
        licence: "CC BY-SA 4.0, see https://example.org/\\".into(),
        notes: "Line one\n\tand \"two\"\r\n".into(),
    };
    assert_goes_round(&house);
}

#[test]
fn a_house_is_checked_without_a_file() {
    let mut house = House::simple(Unit::Millimetre);
    house.gap = Length::mm_of(f64::NAN);
    house.doughs.clear();
    house.parts[0].sides.pop();
    house.parts[0].sides[1].top = Top::Eave {
        height: Length::mm_of(f64::INFINITY),
        pitch: Pitch::RiseInRun { rise: 0.0, run: 0.0 },
        overhang: Length::mm_of(-1.0),
    };
    house.parts[0].outline = Outline::Polygon { sides: 0, side: Length::mm_of(30.0) };
    let faults: Vec<String> = file::check(&house).iter().map(ToString::to_string).collect();
    assert_eq!(
        faults,
        [
            "gap: this is not a number",
            "doughs: a house needs at least one dough",
            "parts[0].outline.sides: it can have 3 to 24 sides, not 0",
            "parts[0].sides.right.height: this is not a number",
            "parts[0].sides.right.pitch: this is not a slope; give degrees, or a rise and a run above zero",
            "parts[0].sides.right.overhang: -1 mm is below zero",
        ]
    );
    house.parts.clear();
    assert!(file::check(&house).iter().any(|f| f.path == "parts"));
    // Writing what is not sound loses nothing silently: it cannot be read.
    assert!(file::parse(&file::write(&house)).is_err());
}

#[test]
fn lists_that_no_file_can_hold_are_faults_of_the_house_too() {
    let mut house = House::simple(Unit::Millimetre);
    let dough = |k: usize| Dough { id: DoughId(format!("dough-{k}")), ..house.doughs[0].clone() };
    let more: Vec<Dough> = (0..file::limits::MOST_DOUGHS - 1).map(dough).collect();
    house.doughs.extend(more);
    let faults: Vec<String> = file::check(&house).iter().map(ToString::to_string).collect();
    assert_eq!(faults, ["doughs: there are 51; 50 at most can be read"]);
    let read = file::parse(&file::write(&house)).map_err(|errors| errors.to_string());
    assert_eq!(read, Err(faults.concat()));
    house.doughs.pop();
    assert_goes_round(&house);
}

#[test]
fn the_schema_in_the_documents_is_current() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/house.schema.json");
    if std::env::var_os("GABLE_UPDATE").is_some() {
        std::fs::write(path, file::schema()).unwrap();
    }
    let kept = std::fs::read_to_string(path).unwrap_or_default();
    assert!(
        kept == file::schema(),
        "docs/house.schema.json is not current; run: GABLE_UPDATE=1 cargo test -p gable-shell"
    );
}

#[test]
fn the_schema_takes_what_the_reader_takes() {
    let schema = serde_json::from_str(&file::schema()).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let valid = |text: &str| validator.is_valid(&serde_json::from_str(text).unwrap());
    assert!(valid(HUT) && valid(STATION) && valid(&file::write(&file::parse(STATION).unwrap())));
    for form in RoofForm::ALL {
        let mut house = House::simple(Unit::Inch(InchStep::Sixteenth));
        form.apply(&mut house.parts[0]);
        assert!(valid(&file::write(&house)));
    }
    for (from, to) in [
        ("\"title\"", "\"titel\""),
        ("\"version\": 1", "\"version\": 7"),
        ("\"version\": 1", "\"version\": 0"),
        ("\"gablewright-house\"", "\"other\""),
        ("\"gap\": 0.8", "\"gap\": [0.8]"),
        ("\"gap\": 0.8", "\"gap\": null"),
        ("\"corners\": \"lap\"", "\"lid\": null"),
        ("\"floor\": { \"kind\": \"inside\" }", "\"floor\": null"),
        ("\"rolled\": 6.35, ", ""),
        ("\"kind\": \"rectangle\"", "\"kind\": \"square\""),
        ("\"top\": \"gable\"", "\"top\": \"gabel\""),
        ("\"top\": \"gable\"", "\"tip\": \"gable\""),
        ("\"corners\": \"lap\"", "\"corners\": \"miter\""),
        ("\"side\": \"front\", ", ""),
        ("\"width\": 120, ", ""),
    ] {
        let broken = HUT.replacen(from, to, 1);
        assert_ne!(broken, HUT);
        assert!(!valid(&broken) && file::parse(&broken).is_err(), "{from}: {to}");
    }
    for (from, to) in [
        ("\"against\"", "\"agianst\""),
        ("\"against\"", "\"x\": 1, \"against\""),
        ("\"against\"", "\"astride\": { \"part\": \"main\" }, \"against\""),
        ("\"part\": \"main\", ", ""),
        ("\"out\": 60, ", ""),
        ("\"along\": 70", "\"distance\": 70"),
        (", \"rim\": 8", ""),
        ("\"kind\": \"passage\", ", ""),
        ("\"kind\": \"passage\"", "\"kind\": \"whole\""),
        ("\"raised\": 12", "\"raised\": null"),
        ("\"stays_whole\": true", "\"stays_whole\": \"yes\""),
        ("\"stays_whole\": true", "\"locked\": \"yes\""),
        (", \"cut\": \"main\"", ""),
        ("\"measure\": \"ridge\", ", ""),
        ("\"gives\": \"pitch\"", "\"gives\": \"way\""),
        ("\"offset\": -4.5", "\"offset\": null"),
    ] {
        let broken = STATION.replacen(from, to, 1);
        assert_ne!(broken, STATION);
        assert!(!valid(&broken) && file::parse(&broken).is_err(), "{from}: {to}");
    }
}

/// Some sizes of every part, mm.
fn sizes(house: &House) -> Vec<f64> {
    let tops = house.parts.iter().flat_map(|p| &p.sides).map(|s| match s.top {
        Top::Eave { height, overhang, .. } | Top::Knee { height, overhang, .. } => height + overhang,
        Top::HalfHip { start, overhang, .. } => start + overhang,
        Top::Gable { overhang } => overhang,
    });
    let places = house.parts.iter().flat_map(|p| {
        let (a, b) = match p.place {
            Place::Ground(spot) | Place::OnTop { spot, .. } => (spot.x, spot.y),
            Place::Against { along, out, .. } => (distance(along), out),
            Place::OnSlope { along, up, .. } => (distance(along), up),
            Place::Astride { along, .. } => (along, Length::ZERO),
        };
        let rim = if let Behind::Passage { rim } = p.behind { rim } else { Length::ZERO };
        [a, b, rim, p.raised, Length::mm_of(p.place.turn().deg())]
    });
    let g = &house.dressing.glazier;
    let glazier = [g.leaf_length, g.leaf_width, g.margin];
    let offsets = house.relations.iter().map(|r| r.offset);
    tops.chain(places).chain(offsets).chain(glazier).map(Length::mm).collect()
}

fn distance(along: Placing) -> Length {
    match along {
        Placing::Centred { offset } => offset,
        Placing::FromLeft { distance } | Placing::FromRight { distance } => distance,
    }
}

/// A house without its sizes.
fn words(house: &House) -> Vec<String> {
    let relation = |r: &Relation| format!("{:?} {:?} {:?}", r.follower, r.leader, r.gives);
    let part = |p: &Part| {
        let (host, whole) = (p.place.host(), p.stays_whole);
        let way = match &p.place {
            Place::Ground(_) => "ground".to_owned(),
            Place::Against { side, along, .. } => format!("against {side:?} {:?}", std::mem::discriminant(along)),
            Place::OnSlope { side, along, .. } => format!("on {side:?} {:?}", std::mem::discriminant(along)),
            Place::Astride { .. } => "astride".to_owned(),
            Place::OnTop { .. } => "on top".to_owned(),
        };
        format!("{:?} {host:?} {way} {whole} {}", p.id, matches!(p.behind, Behind::Passage { .. }))
    };
    house
        .parts
        .iter()
        .map(part)
        .chain(house.decided.iter().map(|d| format!("{d:?}")))
        .chain(house.relations.iter().map(relation))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// One writing brings a house onto the grid of the file; from then on nothing changes, not by a bit.
    #[test]
    fn any_house_goes_round(house in house()) {
        prop_assert_eq!(file::check(&house).iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        let text = file::write(&house);
        let back = file::parse(&text).unwrap();
        prop_assert_eq!(words(&house), words(&back));
        prop_assert_eq!(sizes(&house).len(), sizes(&back).len());
        for (a, b) in sizes(&house).iter().zip(sizes(&back)) {
            prop_assert!((a - b).abs() < 1e-8, "{} is not {}", a, b);
        }
        prop_assert_eq!(file::write(&back), text.clone());
        prop_assert_eq!(file::parse(&text).unwrap(), back);
    }

    /// Millimetres with up to nine decimals and thirty-seconds of an inch come back exactly.
    #[test]
    fn typed_lengths_come_back_exactly(parts in 1_i32..3000, billionths in 1_i64..100_000_000_000, unit in 0_usize..3) {
        for length in [Length::inches(f64::from(parts) / 32.0), Length::mm_of(tidy(billionths as f64 / 1e9))] {
            let mut house = House::simple(UNITS[unit]);
            if unit == 0 && length == Length::inches(f64::from(parts) / 32.0) {
                continue;
            }
            house.parts[0].place = Place::Ground(Spot { x: length, ..Spot::default() });
            let back = file::parse(&file::write(&house)).unwrap();
            let Place::Ground(spot) = back.parts[0].place else { panic!("on the ground") };
            prop_assert!((spot.x - length).abs().mm() < 1e-12);
        }
    }

    #[test]
    fn side_names_are_in_order(sides in 3_u8..=24) {
        let mut house = House::simple(Unit::Millimetre);
        let height = Length::mm_of(90.0);
        let top = Top::Eave { height, pitch: Pitch::Angle(Angle::degrees(40.0)), overhang: Length::ZERO };
        house.parts[0] = Part::plain("main", "Main body", Outline::Polygon { sides, side: Length::mm_of(60.0) }, top);
        let names: Vec<SideId> = file::parse(&file::write(&house)).unwrap().parts[0].sides.iter().map(|s| s.id.clone()).collect();
        prop_assert_eq!(names, (1..=sides).map(|k| SideId(k.to_string())).collect::<Vec<_>>());
    }
}
