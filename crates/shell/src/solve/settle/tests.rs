use super::*;
use crate::{Gives, Lid, PartId, Place, Placing, RoofForm, SideId, Spot, Top, solve};
use gable_measure::{Angle, Length, Pitch, Severity, Unit};
use proptest::prelude::*;

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

fn of(part: &str, measure: Measure) -> Measured {
    Measured { part: PartId(part.to_owned()), measure }
}

fn side(name: &str) -> Option<SideId> {
    Some(SideId(name.to_owned()))
}

fn relation(follower: Measured, leader: Measured) -> Relation {
    Relation { follower, leader, offset: Length::ZERO, gives: Gives::Walls }
}

fn eave(height: f64, pitch: f64) -> Top {
    Top::Eave { height: mm(height), pitch: Pitch::Angle(Angle::degrees(pitch)), overhang: mm(6.0) }
}

/// A gable over a rectangle: front and back slope by these pitches.
fn gable(id: &str, size: (f64, f64), height: f64, pitches: (f64, f64)) -> Part {
    let outline = Outline::Rectangle { width: mm(size.0), depth: mm(size.1) };
    let mut part = Part::plain(id, &id.to_uppercase(), outline, Top::Gable { overhang: mm(6.0) });
    part.sides[0].top = eave(height, pitches.0);
    part.sides[2].top = eave(height, pitches.1);
    part
}

/// A main body of 200 x 120 mm, and a wing of 80 x 90 mm against its front whose ridge runs away from it.
fn house() -> House {
    let mut house = House::simple(Unit::Millimetre);
    let mut wing = Part::plain(
        "wing",
        "WING",
        Outline::Rectangle { width: mm(80.0), depth: mm(90.0) },
        Top::Gable { overhang: mm(6.0) },
    );
    wing.sides[1].top = eave(60.0, 40.0);
    wing.sides[3].top = eave(60.0, 40.0);
    wing.place = Place::Against {
        host: PartId("main".to_owned()),
        side: SideId("front".to_owned()),
        along: Placing::Centred { offset: Length::ZERO },
        out: mm(70.0),
        turn: Angle::ZERO,
    };
    house.parts = vec![gable("main", (200.0, 120.0), 100.0, (45.0, 45.0)), wing];
    house
}

/// Height above the board of what is measured, by the solver's pieces alone: from the walls' own corners.
fn settled(house: &House) -> House {
    let (settled, findings) = settle(house);
    assert_eq!(findings, []);
    settled
}

fn size(house: &House, what: &Measured) -> f64 {
    house.size_of(what).map_or(f64::NAN, Length::mm)
}

#[track_caller]
fn assert_close(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-6, "{a} is not {b}");
}

/// Ridge of a gable with two pitches over walls of one height: h + run · tan a with run · tan a = (w - run) · tan b, a
/// closed form.
fn two_pitches(height: f64, across: f64, a: f64, b: f64) -> f64 {
    let (a, b) = (a.to_radians().tan(), b.to_radians().tan());
    height + across * a * b / (a + b)
}

#[test]
fn a_ridge_follows_an_eave_by_its_walls_or_by_its_pitches() {
    for gives in [Gives::Walls, Gives::Pitch] {
        let mut house = house();
        house.follow(Relation { gives, ..relation(of("wing", Measure::Ridge), of("main", Measure::Eave(None))) });
        let settled = settled(&house);
        let Top::Eave { height, pitch: Pitch::Angle(pitch), .. } = settled.parts[1].sides[1].top else { panic!() };
        // h + run · tan p = 100 mm over a run of 40 mm.
        assert_close(height.mm() + 40.0 * pitch.rad().tan(), 100.0);
        match gives {
            Gives::Walls => assert_close(height.mm(), 100.0 - 40.0 * 40_f64.to_radians().tan()),
            Gives::Pitch => assert_close(pitch.rad().tan(), 1.0),
        }
        let solved = solve(&house);
        assert_close(solved.parts[1].ridge_height.mm(), 100.0);
    }
}

#[test]
fn unequal_pitches_keep_their_proportion() {
    let mut house = house();
    house.parts[1].sides[3].top = eave(60.0, 55.0);
    house.follow(Relation {
        gives: Gives::Pitch,
        offset: mm(-5.0),
        ..relation(of("wing", Measure::Ridge), of("main", Measure::Eave(side("back"))))
    });
    let settled = settled(&house);
    let pitch = |k: usize| match settled.parts[1].sides[k].top {
        Top::Eave { pitch: Pitch::Angle(pitch), .. } => pitch,
        other => panic!("{other:?}"),
    };
    assert_close(two_pitches(60.0, 80.0, pitch(1).deg(), pitch(3).deg()), 95.0);
    let tan = |degrees: f64| degrees.to_radians().tan();
    assert_close(pitch(3).tan() / pitch(1).tan(), tan(55.0) / tan(40.0));
}

#[test]
fn relations_hold_when_the_leader_is_resized() {
    let mut house = house();
    house.parts[1].raised = mm(7.0);
    house.follow(relation(of("wing", Measure::Ridge), of("main", Measure::Ridge)));
    house.follow(relation(of("wing", Measure::Width), of("main", Measure::Depth)));
    for factor in [0.8, 1.0, 1.25, 2.0] {
        let mut resized = house.clone();
        resized.parts[0] = gable("main", (200.0 * factor, 120.0 * factor), 100.0 * factor, (45.0, 45.0));
        let settled = settled(&resized);
        assert_close(size(&settled, &of("wing", Measure::Width)), 120.0 * factor);
        // The wing's foot is 7 mm above the main body's.
        assert_close(size(&settled, &of("wing", Measure::Ridge)) + 7.0, two_pitches(100.0, 120.0, 45.0, 45.0) * factor);
        assert_eq!(settle(&settled).0, settled);
    }
}

#[test]
fn heights_count_from_the_board_for_what_stands_on_a_slope() {
    let mut house = house();
    let mut dormer = house.guest(crate::GuestKind::Dormer, &PartId("main".to_owned()), side("front").as_ref());
    if dormer.is_err() {
        house.parts.pop();
        dormer = house.guest(crate::GuestKind::Dormer, &PartId("main".to_owned()), side("front").as_ref());
    }
    let dormer = dormer.unwrap();
    let id = dormer.id.0.clone();
    house.parts.push(dormer);
    house.follow(Relation { offset: mm(-2.0), ..relation(of(&id, Measure::Ridge), of("main", Measure::Ridge)) });
    for factor in [0.9, 1.0, 1.25] {
        let mut resized = house.clone();
        resized.parts[0] = gable("main", (200.0, 120.0 * factor), 100.0, (45.0, 45.0));
        let solved = solve(&resized);
        assert_eq!(
            solved.findings.iter().filter(|f| f.kind.starts_with("follows")).count(),
            0,
            "{:?}",
            solved.findings
        );
        let dormer = solved.parts.iter().find(|p| p.id.0 == id).unwrap();
        let height = dormer.house_from_part.translation.z + dormer.ridge_height.mm();
        assert_close(height, 100.0 + 60.0 * factor - 2.0);
    }
}

#[test]
fn chains_are_settled_from_their_start() {
    let mut house = house();
    for (k, name) in ["b", "c", "d"].into_iter().enumerate() {
        let mut part = gable(name, (60.0, 50.0), 40.0, (30.0, 50.0));
        part.place = Place::Ground(Spot { x: mm(300.0 * (k as f64 + 1.0)), y: mm(0.0), turn: Angle::degrees(33.0) });
        part.raised = mm(3.0 * k as f64);
        house.parts.push(part);
    }
    // Written in the wrong order: d follows c follows b follows main.
    house.follow(relation(of("d", Measure::Eave(None)), of("c", Measure::Ridge)));
    house.follow(Relation { gives: Gives::Pitch, ..relation(of("c", Measure::Ridge), of("b", Measure::Ridge)) });
    house.follow(relation(of("c", Measure::Eave(None)), of("b", Measure::Eave(side("front")))));
    house.follow(relation(of("b", Measure::Eave(None)), of("main", Measure::Eave(None))));
    let settled = settled(&house);
    let ridge = two_pitches(100.0, 50.0, 30.0, 50.0);
    assert_close(size(&settled, &of("b", Measure::Ridge)), ridge);
    assert_close(size(&settled, &of("c", Measure::Eave(None))), 100.0 - 3.0);
    assert_close(size(&settled, &of("c", Measure::Ridge)), ridge - 3.0);
    assert_close(size(&settled, &of("d", Measure::Eave(None))), ridge - 6.0);
}

#[test]
fn plans_of_other_kinds_follow_over_all() {
    let mut house = house();
    let top = eave(50.0, 40.0);
    house.parts.push(Part::plain("tower", "Tower", Outline::Polygon { sides: 8, side: mm(20.0) }, top));
    house.parts.push(Part::plain("bay", "Bay", Outline::HalfPolygon { sides: 3, width: mm(40.0) }, top));
    house.follow(relation(of("tower", Measure::Width), of("wing", Measure::Width)));
    house.follow(relation(of("bay", Measure::Depth), of("wing", Measure::Depth)));
    house.follow(relation(of("main", Measure::Depth), of("main", Measure::Width)));
    let settled = settled(&house);
    // A regular octagon is 1 + √2 sides across its flats (closed form).
    let Outline::Polygon { side, .. } = settled.parts[2].outline else { panic!() };
    assert_close(side.mm(), 80.0 / (1.0 + 2_f64.sqrt()));
    // Half a hexagon is as deep as half its width times √3 / 2.
    let Outline::HalfPolygon { width, .. } = settled.parts[3].outline else { panic!() };
    assert_close(width.mm(), 90.0 / (3_f64.sqrt() / 4.0));
    assert_close(size(&settled, &of("main", Measure::Depth)), 200.0);
}

fn said(house: &House) -> Vec<String> {
    settle(house).1.iter().map(|f| format!("{}: {}; {}", f.place, f.what, f.remedy)).collect()
}

#[test]
fn circles_are_named_and_left_as_they_are() {
    let mut house = house();
    house.follow(relation(of("wing", Measure::Eave(None)), of("main", Measure::Ridge)));
    house.follow(relation(of("main", Measure::Eave(None)), of("wing", Measure::Eave(None))));
    // This one only hangs on the circle.
    house.parts.push(gable("shed", (50.0, 50.0), 40.0, (45.0, 45.0)));
    house.follow(relation(of("shed", Measure::Eave(None)), of("wing", Measure::Eave(None))));
    let (settled, findings) = settle(&house);
    assert_eq!(findings.len(), 2);
    assert!(findings.iter().all(|f| f.severity == Severity::Caution && f.kind == "follows-in-a-circle"));
    assert_eq!(
        said(&house),
        [
            "parts[1].sides.height: the eave of WING cannot be level with the ridge of MAIN: these follow each other in \
             a circle: the eave of WING, the eave of MAIN, the eave of WING; let one of them go",
            "parts[0].sides.height: the eave of MAIN cannot be level with the eave of WING: these follow each other in \
             a circle: the eave of MAIN, the eave of WING, the eave of MAIN; let one of them go",
        ]
    );
    assert_eq!(settled.parts[..2], house.parts[..2]);
    assert_close(size(&settled, &of("shed", Measure::Eave(None))), 60.0);
}

#[test]
fn a_host_that_follows_what_stands_on_its_roof_is_a_circle() {
    let mut house = house();
    house.parts[1].place = Place::OnTop { host: PartId("main".to_owned()), spot: Spot::default() };
    house.follow(relation(of("main", Measure::Ridge), of("wing", Measure::Eave(None))));
    assert_eq!(settle(&house).1[0].kind, "follows-in-a-circle");
    let top = of("main", Measure::Ridge);
    assert!(!house.could_follow(&top).iter().any(|m| m.part.0 == "wing"));
}

#[test]
fn what_cannot_be_followed_is_said() {
    let mut house = house();
    house.parts[0].lid = Some(Lid { height: mm(90.0), overhang: mm(0.0), parapet: None });
    house.follow(relation(of("wing", Measure::Ridge), of("main", Measure::Ridge)));
    assert_eq!(
        said(&house),
        [
            "parts[1].sides.ridge: the ridge of WING cannot be level with the ridge of MAIN: there is no such thing as the \
          ridge of MAIN; let it go, or let it follow something else"
        ]
    );
    let mut house = self::house();
    house.parts[0].sides[2].top = eave(80.0, 45.0);
    house.follow(relation(of("wing", Measure::Eave(None)), of("main", Measure::Eave(None))));
    assert_eq!(
        said(&house),
        ["parts[1].sides.height: the eave of WING cannot be level with the eave of MAIN: the walls of MAIN have \
          different heights; choose one of its sides"]
    );
    let mut house = self::house();
    house.follow(Relation {
        gives: Gives::Pitch,
        offset: mm(-50.0),
        ..relation(of("wing", Measure::Ridge), of("main", Measure::Eave(None)))
    });
    assert_eq!(
        said(&house),
        [
            "parts[1].sides.ridge: the ridge of WING cannot be level with the eave of MAIN, and 50 mm lower: it would have \
          to be 50 mm above the foot of its part, but no pitch from 5° to 80° brings the ridge there; change what it \
          follows, or let it go"
        ]
    );
    let mut house = self::house();
    house.follow(Relation { offset: mm(-118.0), ..relation(of("wing", Measure::Width), of("main", Measure::Depth)) });
    assert_eq!(
        said(&house),
        [
            "parts[1].outline.width: the width of WING cannot be as wide as MAIN is deep, and 118 mm less: it would have to \
          be 2 mm, but 2 mm is less than 5 mm; change what it follows, or let it go"
        ]
    );
    let mut house = self::house();
    house.follow(relation(of("wing", Measure::Ridge), of("main", Measure::Ridge)));
    house.follow(relation(of("wing", Measure::Eave(side("right"))), of("main", Measure::Eave(None))));
    assert_eq!(
        said(&house),
        [
            "parts[1].sides.right.height: the right eave of WING cannot be level with the eave of MAIN: the ridge of WING \
          sets the same size, to be level with the ridge of MAIN; let one of the two go"
        ]
    );
    house.relations.truncate(1);
    house.relations[0].leader.part = PartId("barn".to_owned());
    assert_eq!(
        said(&house),
        [
            "parts[1].sides.ridge: the ridge of WING cannot be level with the ridge of barn: the house has no part called \
          barn; let it go, or let it follow something else"
        ]
    );
}

#[test]
fn nearly_level_heights_come_with_an_offer() {
    let mut house = house();
    let Top::Eave { height, .. } = &mut house.parts[1].sides[1].top else { panic!() };
    *height = mm(98.5);
    let Top::Eave { height, .. } = &mut house.parts[1].sides[3].top else { panic!() };
    *height = mm(98.5);
    let solved = solve(&house);
    let [offer] = solved.offers.as_slice() else { panic!("{:?}", solved.findings) };
    assert_eq!(solved.findings[offer.finding].kind, "heights-nearly-level");
    assert_eq!(offer.relation, relation(of("wing", Measure::Eave(None)), of("main", Measure::Eave(None))));
    house.follow(offer.relation.clone());
    let solved = solve(&house);
    assert!(solved.findings.iter().all(|f| f.kind != "heights-nearly-level"), "{:?}", solved.findings);
    assert_eq!(solved.offers, []);
}

#[test]
fn what_is_changed_by_hand_lets_go() {
    let mut house = house();
    house.follow(relation(of("wing", Measure::Ridge), of("main", Measure::Eave(None))));
    house.follow(relation(of("wing", Measure::Width), of("main", Measure::Depth)));
    let house = settled(&house);
    let mut edited = house.clone();
    // The leader and the pitch are nobody's followers.
    edited.parts[0].sides[0].top = eave(120.0, 45.0);
    edited.parts[0].sides[2].top = eave(120.0, 45.0);
    assert_eq!(edited.let_go_of_changed(&house), []);
    let Top::Eave { height, .. } = &mut edited.parts[1].sides[1].top else { panic!() };
    *height += mm(1.0);
    let gone = edited.let_go_of_changed(&house);
    assert_eq!(gone, house.relations[..1]);
    assert_eq!(edited.relations, house.relations[1..]);
    // Another roof form is no change of a size.
    let mut edited = house.clone();
    RoofForm::Hip.apply(&mut edited.parts[1]);
    assert_eq!(edited.let_go_of_changed(&house), []);
    assert_close(size(&settled(&edited), &of("wing", Measure::Ridge)), 100.0);
}

#[test]
fn a_raised_wall_takes_knee_and_lid_along() {
    let mut house = house();
    RoofForm::Mansard.apply(&mut house.parts[1]);
    let knee = |house: &House| match house.parts[1].sides[1].top {
        Top::Knee { height, knee, .. } => (height.mm(), knee.mm()),
        other => panic!("{other:?}"),
    };
    let (height, at) = knee(&house);
    house.parts[1].lid = Some(Lid { height: mm(at + 4.0), overhang: mm(0.0), parapet: None });
    house.follow(relation(of("wing", Measure::Eave(None)), of("main", Measure::Eave(None))));
    let settled = settled(&house);
    assert_close(knee(&settled).1, at + 100.0 - height);
    assert_close(size(&settled, &of("wing", Measure::Lid)), at + 4.0 + 100.0 - height);
}

fn measure() -> impl Strategy<Value = Measure> {
    let sides = ["front", "right", "back", "left", "1", "9"];
    let eave = (0..7_usize).prop_map(move |k| Measure::Eave(sides.get(k).map(|s| SideId((*s).to_owned()))));
    prop_oneof![Just(Measure::Width), Just(Measure::Depth), eave, Just(Measure::Ridge), Just(Measure::Lid)]
}

fn measured() -> impl Strategy<Value = Measured> {
    (0..5_usize, measure()).prop_map(|(k, measure)| of(["main", "wing", "shed", "tower", "lost"][k], measure))
}

fn any_relation() -> impl Strategy<Value = Relation> {
    (measured(), measured(), -60.0..60.0_f64, any::<bool>()).prop_map(|(follower, leader, offset, pitch)| Relation {
        follower,
        leader,
        offset: mm(offset),
        gives: if pitch { Gives::Pitch } else { Gives::Walls },
    })
}

fn any_house() -> impl Strategy<Value = House> {
    let forms = prop::collection::vec(0..RoofForm::ALL.len(), 4);
    let sizes = (30.0..300.0_f64, 30.0..300.0_f64, 0..5_usize);
    (forms, sizes, prop::collection::vec(any_relation(), 0..8)).prop_map(|(forms, (a, b, way), relations)| {
        let mut house = house();
        house.parts[0] = gable("main", (a, b), b / 2.0, (45.0, 30.0));
        house.parts.push(gable("shed", (b, a), a / 3.0, (35.0, 50.0)));
        let top = eave(50.0, 40.0);
        house.parts.push(Part::plain("tower", "Tower", Outline::Polygon { sides: 6, side: mm(20.0) }, top));
        for (part, form) in house.parts.iter_mut().zip(forms) {
            if RoofForm::ALL[form].fits(&part.outline) {
                RoofForm::ALL[form].apply(part);
            }
        }
        let host = PartId(["main", "wing", "shed", "tower", "lost"][way].to_owned());
        house.parts[2].place = Place::OnTop { host, spot: Spot::default() };
        house.relations = relations;
        house
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn settling_never_fails_and_settles(house in any_house()) {
        let (once, said) = settle(&house);
        let (twice, said_again) = settle(&once);
        prop_assert_eq!(&twice, &once);
        prop_assert_eq!(said_again.len(), said.len());
        // What nothing is said of holds.
        for relation in &once.relations {
            let place = once.field_of(&relation.follower);
            if place.is_none_or(|place| said.iter().any(|f| f.place == place)) {
                continue;
            }
            let at = |m: &Measured| {
                let k = once.parts.iter().position(|p| p.id == m.part)?;
                let foot = if m.measure.is_height() { gauge::foot(&once, k)? } else { 0.0 };
                Some(size(&once, m) + foot)
            };
            let (Some(a), Some(b)) = (at(&relation.follower), at(&relation.leader)) else { continue };
            prop_assert!((a - b - relation.offset.mm()).abs() < 1e-6, "{:?}: {} {}", relation, a, b);
        }
    }
}
