use crate::{
    Dough, House, Mode, Opening, OpeningId, Outline, Part, PartId, Place, Placing, RoofForm, Shape, SideId, Top, file,
};
use gable_measure::{Angle, Finding, InchStep, Length, Pitch, Severity, Unit};

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

fn outlines() -> Vec<Outline> {
    let corner = |x, y| (mm(x), mm(y));
    let mut outlines = vec![
        Outline::Rectangle { width: mm(160.0), depth: mm(120.0) },
        Outline::Rectangle { width: mm(100.0), depth: mm(100.0) },
        Outline::Free { corners: vec![corner(0.0, 0.0), corner(160.0, 0.0), corner(140.0, 90.0), corner(20.0, 90.0)] },
        Outline::Free { corners: vec![corner(0.0, 0.0), corner(160.0, 0.0), corner(40.0, 110.0)] },
    ];
    outlines.extend((3..=24).map(|sides| Outline::Polygon { sides, side: mm(40.0) }));
    outlines.extend((2..=12).map(|sides| Outline::HalfPolygon { sides, width: mm(120.0) }));
    outlines
}

fn part(outline: Outline) -> Part {
    let top = Top::Eave { height: mm(80.0), pitch: Pitch::Angle(Angle::degrees(40.0)), overhang: mm(12.0) };
    Part::plain("main", "Main body", outline, top)
}

fn house(part: Part) -> House {
    let owner = crate::Owner::default();
    House {
        owner,
        unit: Unit::Millimetre,
        gap: House::USUAL_GAP,
        doughs: Dough::usual(),
        parts: vec![part],
        decided: vec![],
        order: vec![],
        relations: vec![],
        baked: vec![],
        dressing: Default::default(),
    }
}

#[test]
fn every_form_over_every_outline_is_a_sound_house() {
    for outline in outlines() {
        for form in RoofForm::ALL {
            let mut part = part(outline.clone());
            form.apply(&mut part);
            assert_eq!(file::check(&house(part)), [], "{} over {outline:?}", form.name());
        }
    }
}

#[test]
fn going_from_form_to_form_stays_sound_and_keeps_the_walls() {
    for first in RoofForm::ALL {
        for second in RoofForm::ALL {
            let mut part = part(Outline::Rectangle { width: mm(120.0), depth: mm(120.0) });
            first.apply(&mut part);
            second.apply(&mut part);
            let heights: Vec<Length> = part.sides.iter().filter_map(|s| height(&s.top)).collect();
            let lid = part.lid.map(|lid| lid.height);
            assert!(heights.iter().chain(&lid).any(|h| *h == mm(80.0)), "{} to {}", first.name(), second.name());
            assert_eq!(file::check(&house(part)), [], "{} to {}", first.name(), second.name());
        }
    }
}

fn height(top: &Top) -> Option<Length> {
    match *top {
        Top::Eave { height, .. } | Top::Knee { height, .. } => Some(height),
        Top::HalfHip { .. } | Top::Gable { .. } => None,
    }
}

#[test]
fn the_ridge_of_a_gable_runs_along_the_longer_way() {
    let mut wide = part(Outline::Rectangle { width: mm(160.0), depth: mm(120.0) });
    RoofForm::Gable.apply(&mut wide);
    assert_eq!(kinds(&wide), ["eave", "gable", "eave", "gable"]);
    let mut deep = part(Outline::Rectangle { width: mm(120.0), depth: mm(160.0) });
    RoofForm::Gable.apply(&mut deep);
    assert_eq!(kinds(&deep), ["gable", "eave", "gable", "eave"]);
    // Once there, it stays when the plan changes.
    deep.outline = Outline::Rectangle { width: mm(200.0), depth: mm(160.0) };
    RoofForm::Gambrel.apply(&mut deep);
    assert_eq!(kinds(&deep), ["gable", "knee", "gable", "knee"]);
    let mut square = part(Outline::Rectangle { width: mm(120.0), depth: mm(120.0) });
    RoofForm::HalfHip.apply(&mut square);
    assert_eq!(kinds(&square), ["half-hip", "eave", "half-hip", "eave"]);
}

fn kinds(part: &Part) -> Vec<&'static str> {
    let kind = |top: &Top| match top {
        Top::Eave { .. } => "eave",
        Top::HalfHip { .. } => "half-hip",
        Top::Knee { .. } => "knee",
        Top::Gable { .. } => "gable",
    };
    part.sides.iter().map(|s| kind(&s.top)).collect()
}

/// Colliery Engineer Co., A Treatise on Architecture and Building Construction, 1899, vol. 2, art. 140: the ridge is half
/// the span above the walls, the lower slope 60° or more, the upper one 30° or less.
#[test]
fn gambrel_proportions() {
    for span in [80.0, 120.0, 254.0] {
        let mut part = part(Outline::Rectangle { width: mm(span), depth: mm(300.0) });
        RoofForm::Gambrel.apply(&mut part);
        let Top::Knee { height, lower: Pitch::Angle(lower), knee, upper: Pitch::Angle(upper), .. } = part.sides[1].top
        else {
            panic!("no knee: {:?}", part.sides[1]);
        };
        assert!(lower.deg() >= 60.0 - 1e-9 && upper.deg() <= 30.0 + 1e-9);
        let rise = (knee - height).mm();
        let ridge = rise + (span / 2.0 - rise / lower.tan()) * upper.tan();
        assert!((ridge - span / 2.0).abs() < 0.5, "{ridge} over {span}");
    }
}

#[test]
fn a_saltbox_has_one_pitch_and_a_low_back() {
    let mut part = part(Outline::Rectangle { width: mm(160.0), depth: mm(120.0) });
    RoofForm::Saltbox.apply(&mut part);
    let [Top::Eave { height: front, pitch: a, .. }, _, Top::Eave { height: back, pitch: b, .. }, _] =
        [0, 1, 2, 3].map(|k| part.sides[k].top)
    else {
        panic!("{:?}", part.sides);
    };
    assert_eq!((front, a), (mm(80.0), b));
    assert_eq!(back, mm(48.0));
}

#[test]
fn a_half_hip_starts_halfway_up_the_gable() {
    let mut part = part(Outline::Rectangle { width: mm(120.0), depth: mm(160.0) });
    RoofForm::HalfHip.apply(&mut part);
    let Top::HalfHip { start, .. } = part.sides[0].top else { panic!("{:?}", part.sides) };
    // 60 mm at 40°: 50.35 mm, of which half.
    assert_eq!(start, mm(80.0 + 25.0));
}

#[test]
fn spires_are_steep_and_steep_ones_stay_as_they_are() {
    let mut part = part(Outline::Polygon { sides: 8, side: mm(40.0) });
    RoofForm::Spire.apply(&mut part);
    for (k, degrees) in [(0, 68.0), (7, 68.0)] {
        let Top::Eave { pitch, .. } = part.sides[k].top else { panic!("{:?}", part.sides) };
        assert_eq!(pitch, Pitch::Angle(Angle::degrees(degrees)));
    }
    for side in &mut part.sides {
        side.top = Top::Eave { height: mm(80.0), pitch: Pitch::RiseInRun { rise: 36.0, run: 12.0 }, overhang: mm(5.0) };
    }
    let before = part.clone();
    RoofForm::Spire.apply(&mut part);
    assert_eq!(part, before);
}

#[test]
fn forms_fit_where_they_make_sense() {
    let fitting = |outline: &Outline| {
        let fits = RoofForm::ALL.into_iter().filter(|f| f.fits(outline));
        fits.map(RoofForm::name).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(
        fitting(&Outline::Rectangle { width: mm(160.0), depth: mm(120.0) }),
        "Gable Hip Half-hip Saltbox Lean-to Gambrel Mansard Flat with parapet"
    );
    assert_eq!(
        fitting(&Outline::Polygon { sides: 5, side: mm(40.0) }),
        "Hip Lean-to Mansard Pavilion Spire Flat with parapet"
    );
    assert_eq!(fitting(&Outline::Polygon { sides: 8, side: mm(40.0) }).split(' ').count(), 12);
    assert_eq!(fitting(&Outline::HalfPolygon { sides: 4, width: mm(90.0) }), "Hip Lean-to Mansard Flat with parapet");
}

#[test]
fn the_house_to_start_from_is_round_in_both_units() {
    for unit in [Unit::Millimetre, Unit::Inch(InchStep::Sixteenth), Unit::Inch(InchStep::ThirtySecond)] {
        let house = House::simple(unit);
        assert_eq!(file::check(&house), []);
        for form in RoofForm::ALL {
            let mut part = house.parts[0].clone();
            form.apply_in(&mut part, unit);
            let sizes = part.sides.iter().filter_map(|s| height(&s.top)).chain(part.lid.map(|l| l.height));
            for size in sizes {
                let number = unit.number(size) * 16.0;
                assert!((number - number.round()).abs() < 1e-9, "{}: {size:?}", form.name());
            }
        }
    }
}

/// The side that looks a way, by its own direction: a quarter turn to the left of outwards.
fn facing(part: &Part, side: &str) -> f64 {
    let corners = part.outline.corners();
    let k = part.outline.side_names().iter().position(|n| n == side).unwrap();
    let along = corners[(k + 1) % corners.len()] - corners[k];
    along.y.atan2(along.x)
}

#[test]
fn openings_move_to_the_side_that_faces_nearest_the_same_way() {
    let plans = outlines();
    for (from, to) in plans.iter().flat_map(|a| plans.iter().map(move |b| (a, b))) {
        let mut old = part(from.clone());
        old.openings = old.sides.iter().map(|side| window(&side.id.0)).collect();
        let mut new = old.clone();
        new.set_outline(to.clone());
        assert_eq!(new.sides.iter().map(|s| s.id.0.clone()).collect::<Vec<_>>(), to.side_names());
        assert_eq!(new.openings.len(), old.openings.len(), "{from:?} {to:?}");
        if std::mem::discriminant(from) == std::mem::discriminant(to) && from.count() == to.count() {
            assert_eq!(new.openings, old.openings);
            continue;
        }
        for (a, b) in old.openings.iter().zip(&new.openings) {
            let way = facing(&old, &a.side.0);
            let off = |side: &str| (facing(&new, side) - way).cos();
            let best = to.side_names().iter().map(|s| off(s)).fold(-1.0, f64::max);
            assert!(off(&b.side.0) > best - 1e-5, "{from:?} {to:?}: {} to {}", a.side.0, b.side.0);
        }
    }
}

fn window(side: &str) -> Opening {
    Opening {
        id: OpeningId(format!("window-{side}")),
        name: format!("Window {side}"),
        side: SideId(side.into()),
        shape: Shape::Rectangle,
        width: mm(20.0),
        height: mm(20.0),
        sill: mm(20.0),
        placing: Placing::FromLeft { distance: mm(70.0) },
        mode: Mode::Cut,
        ..Opening::default()
    }
}

#[test]
fn an_opening_that_no_longer_fits_is_told_by_the_checks() {
    let mut house = house(part(Outline::Rectangle { width: mm(160.0), depth: mm(120.0) }));
    house.parts[0].openings.push(window("right"));
    assert!(!crate::solve(&house).findings.iter().any(|f| f.severity == Severity::Blocking));
    house.parts[0].set_outline(Outline::Polygon { sides: 6, side: mm(50.0) });
    let findings = crate::solve(&house).findings;
    let told = |f: &Finding| f.severity == Severity::Blocking && f.place.contains("openings[0]");
    assert!(findings.iter().any(told), "{findings:?}");
}

#[test]
fn openings_go_to_walls_and_tops_follow_the_way_they_face() {
    let mut part = part(Outline::Rectangle { width: mm(160.0), depth: mm(120.0) });
    RoofForm::Gable.apply(&mut part);
    part.sides[2].wall = false;
    part.openings.push(window("right"));
    part.set_outline(Outline::Polygon { sides: 4, side: mm(100.0) });
    let gables: Vec<bool> = part.sides.iter().map(|s| matches!(s.top, Top::Gable { .. })).collect();
    // The ridge runs along the longer way, from left to right.
    assert_eq!(gables, [false, true, false, true]);
    assert_eq!(part.sides.iter().map(|s| s.wall).collect::<Vec<_>>(), [true, true, false, true]);
    assert_eq!(part.openings[0].side.0, "2");
    // Side 1 of a triangle looks to the front, 90° off the right; side 2 is 30° off it, side 3 150°.
    part.set_outline(Outline::Polygon { sides: 3, side: mm(100.0) });
    assert_eq!(part.openings[0].side.0, "2");
}

#[test]
fn guests_stay_on_the_side_that_faces_their_way() {
    let mut house = house(part(Outline::Rectangle { width: mm(160.0), depth: mm(120.0) }));
    let mut wing = part(Outline::Rectangle { width: mm(50.0), depth: mm(60.0) });
    wing.id = PartId("wing".into());
    wing.place = Place::Against {
        host: house.parts[0].id.clone(),
        side: SideId("left".into()),
        along: Placing::Centred { offset: mm(0.0) },
        out: mm(50.0),
        turn: Angle::degrees(0.0),
    };
    house.parts.push(wing);
    let id = house.parts[0].id.clone();
    house.set_outline(&id, Outline::Polygon { sides: 8, side: mm(60.0) });
    // Side 1 looks to the front, and they go round counter-clockwise by 45°: the left is side 7.
    assert!(matches!(&house.parts[1].place, Place::Against { side, .. } if side.0 == "7"));
    assert_eq!(file::check(&house), []);
}
