use super::{GuestKind, NoGuest};
use crate::{House, Outline, Part, PartId, Place, RoofForm, SideId, Top, file, solve};
use gable_measure::{Angle, Finding, InchStep, Length, Pitch, Severity, Unit};

const UNITS: [Unit; 2] = [Unit::Millimetre, Unit::Inch(InchStep::Sixteenth)];

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

/// A house of one part under a roof of a form.
fn house(outline: Outline, form: RoofForm, unit: Unit) -> House {
    let mut house = House::simple(unit);
    let top = Top::Eave { height: mm(100.0), pitch: Pitch::Angle(Angle::degrees(45.0)), overhang: mm(10.0) };
    let mut part = Part::plain("main", "Main body", outline, top);
    form.apply_in(&mut part, unit);
    house.parts = vec![part];
    house
}

fn main() -> PartId {
    PartId("main".to_owned())
}

fn outlines() -> [Outline; 4] {
    [
        Outline::Rectangle { width: mm(220.0), depth: mm(150.0) },
        Outline::Rectangle { width: mm(120.0), depth: mm(160.0) },
        Outline::Polygon { sides: 8, side: mm(80.0) },
        Outline::Polygon { sides: 6, side: mm(120.0) },
    ]
}

fn blocking(house: &House) -> Vec<Finding> {
    solve(house).findings.into_iter().filter(|f| f.severity == Severity::Blocking).collect()
}

/// Adds a part and sees that the house can still be written and built.
fn add(house: &mut House, part: Part) {
    let said = format!("{part:?}");
    assert!(house.parts.iter().all(|p| p.id != part.id && p.name != part.name), "{said}");
    house.parts.push(part);
    assert_eq!(file::check(house), [], "{said}");
    assert_eq!(blocking(house), [], "{said}");
}

#[test]
fn a_usual_house_takes_every_kind_but_what_its_roof_forbids_and_can_be_built_with_it() {
    for (unit, outline) in UNITS.into_iter().flat_map(|u| outlines().map(|o| (u, o))) {
        for form in RoofForm::ALL.into_iter().filter(|f| f.fits(&outline)) {
            let house = house(outline.clone(), form, unit);
            let has_point = matches!(outline, Outline::Polygon { .. })
                && matches!(form, RoofForm::Hip | RoofForm::Mansard | RoofForm::Pavilion | RoofForm::Spire);
            for kind in GuestKind::ALL {
                let fits = match kind {
                    GuestKind::Dormer => form != RoofForm::Flat,
                    GuestKind::Lantern => form == RoofForm::Flat || has_point,
                    _ => true,
                };
                let given = house.guest(kind, &main(), None);
                let name = format!("{} {} {unit:?} {outline:?}", kind.name(), form.name());
                assert_eq!(given.is_ok(), fits, "{name}: {given:?}");
                assert_eq!(house.offers_guest(kind, &main(), None).is_ok(), fits, "{name}");
                if let Ok(part) = given {
                    add(&mut house.clone(), part);
                }
            }
        }
    }
}

#[test]
fn parts_are_added_until_there_is_no_room_and_never_get_into_each_others_way() {
    for form in [RoofForm::Gable, RoofForm::Hip, RoofForm::Gambrel] {
        let mut house = house(outlines()[0].clone(), form, Unit::Millimetre);
        for kind in GuestKind::ALL.into_iter().chain(GuestKind::ALL) {
            match house.guest(kind, &main(), None) {
                Ok(part) => add(&mut house, part),
                Err(reason) => {
                    let expected = matches!(reason, NoGuest::NoRoom { .. } | NoGuest::NoTop { .. });
                    assert!(expected, "{}: {reason:?}", kind.name());
                }
            }
        }
        assert!(house.parts.len() >= 7, "{}: {:?}", form.name(), house.parts.len());
    }
}

#[test]
fn guests_have_guests() {
    let mut house = house(outlines()[0].clone(), RoofForm::Gable, Unit::Millimetre);
    for (kind, host) in [
        (GuestKind::Wing, "main"),
        (GuestKind::Tower, "main"),
        (GuestKind::Dormer, "wing"),
        (GuestKind::Porch, "wing"),
        (GuestKind::Chimney, "main"),
        (GuestKind::Lantern, "tower"),
    ] {
        let host = PartId(host.to_owned());
        let part = house.guest(kind, &host, None).unwrap_or_else(|e| panic!("{} on {host:?}: {e}", kind.name()));
        add(&mut house, part);
    }
}

#[test]
fn a_chosen_side_is_kept_to() {
    let house = house(outlines()[0].clone(), RoofForm::Gable, Unit::Millimetre);
    for (kind, id) in [(GuestKind::Wing, "left"), (GuestKind::LeanTo, "right"), (GuestKind::Dormer, "back")] {
        let part = house.guest(kind, &main(), Some(&SideId(id.to_owned()))).unwrap();
        let (Place::Against { side, .. } | Place::OnSlope { side, .. }) = part.place else { panic!("{part:?}") };
        assert_eq!(side.0, id);
    }
}

#[test]
fn why_not_is_said_in_plain_words() {
    let said = |house: &House, kind: GuestKind, host: &str, side: Option<&str>| {
        let side = side.map(|s| SideId(s.to_owned()));
        house.guest(kind, &PartId(host.to_owned()), side.as_ref()).unwrap_err().to_string()
    };
    let mut gable = house(outlines()[0].clone(), RoofForm::Gable, Unit::Millimetre);
    assert_eq!(
        said(&gable, GuestKind::Dormer, "main", Some("left")),
        "a dormer stands on a slope, and none rises from the left of Main body; choose another side"
    );
    assert_eq!(
        said(&gable, GuestKind::Lantern, "main", None),
        "a lantern stands on a flat roof or on the point of a roof, and Main body has neither"
    );
    let dormer = gable.guest(GuestKind::Dormer, &main(), None).unwrap();
    gable.parts.push(dormer);
    assert_eq!(
        said(&gable, GuestKind::Wing, "dormer", None),
        "a wing stands on the board, and Dormer does not; choose a part that does"
    );
    assert_eq!(said(&gable, GuestKind::Wing, "nobody", None), "choose a part of the house first");
    gable.parts[0].sides[1].wall = false;
    assert_eq!(
        said(&gable, GuestKind::Bay, "main", Some("right")),
        "a bay stands against a wall, and there is none at the right of Main body"
    );
    let flat = house(outlines()[0].clone(), RoofForm::Flat, Unit::Millimetre);
    assert_eq!(said(&flat, GuestKind::Dormer, "main", None), "a dormer stands on a slope, and Main body has none");
    let tiny = house(Outline::Rectangle { width: mm(40.0), depth: mm(40.0) }, RoofForm::Gable, Unit::Millimetre);
    assert_eq!(
        said(&tiny, GuestKind::Wing, "main", None),
        "Main body is too small or too low for a wing in this dough"
    );
}

#[test]
fn a_porch_stands_before_the_door() {
    let mut house = House::simple(Unit::Millimetre);
    house.parts[0].openings[0].placing = crate::Placing::FromLeft { distance: mm(20.0) };
    let porch = house.guest(GuestKind::Porch, &main(), Some(&SideId("front".to_owned()))).unwrap();
    let Place::Against { along: crate::Placing::Centred { offset }, .. } = porch.place else { panic!("{porch:?}") };
    // The door is 30 wide in a wall of 120: its middle is 35 from the left, 25 left of the middle.
    assert_eq!(offset, mm(-25.0));
}

#[test]
fn sizes_are_round_in_the_unit_of_the_house() {
    for unit in UNITS {
        let house = House::simple(unit);
        for kind in GuestKind::ALL {
            let Ok(part) = house.guest(kind, &main(), None) else { continue };
            let sizes = match part.outline {
                Outline::Rectangle { width, depth } => vec![width, depth],
                Outline::Polygon { side, .. } => vec![side],
                Outline::HalfPolygon { width, .. } => vec![width],
                Outline::Free { .. } => panic!("{part:?}"),
            };
            let tops = part.sides.iter().filter_map(|s| match s.top {
                Top::Eave { height, .. } => Some(height),
                _ => None,
            });
            for size in sizes.into_iter().chain(tops).chain(part.lid.map(|l| l.height)) {
                let number = unit.number(size) * if unit == Unit::Millimetre { 1.0 } else { 8.0 };
                assert!((number - number.round()).abs() < 1e-9, "{}: {part:?}", kind.name());
            }
        }
    }
}
