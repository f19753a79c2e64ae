use super::{Mirror, NotArranged};
use crate::{
    GuestKind, House, Mode, Opening, OpeningId, Outline, Part, PartId, Place, Placing, RoofForm, Shape, SideId, Solved,
    Top, file, solve,
};
use gable_measure::{Angle, Length, Pitch, Unit};
use gable_plane::P3;

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

fn id(id: &str) -> PartId {
    PartId(id.to_owned())
}

fn house(form: RoofForm) -> House {
    let mut house = House::simple(Unit::Millimetre);
    let top = Top::Eave { height: mm(100.0), pitch: Pitch::Angle(Angle::degrees(45.0)), overhang: mm(10.0) };
    let mut part = Part::plain("main", "Main body", Outline::Rectangle { width: mm(240.0), depth: mm(150.0) }, top);
    form.apply(&mut part);
    house.parts = vec![part];
    house
}

fn with(form: RoofForm, kind: GuestKind, side: &str) -> House {
    let mut house = house(form);
    let part = house.guest(kind, &id("main"), Some(&SideId(side.to_owned()))).unwrap();
    house.parts.push(part);
    house
}

fn sound(house: &House) -> Solved {
    assert_eq!(file::check(house), []);
    let solved = solve(house);
    assert_eq!(solved.blocking().count(), 0, "{:?}", solved.findings);
    solved
}

fn offsets(house: &House, ids: &[PartId]) -> Vec<f64> {
    let offset = |part: &Part| match part.place {
        Place::Against { along: Placing::Centred { offset }, .. }
        | Place::OnSlope { along: Placing::Centred { offset }, .. } => offset.mm(),
        Place::Astride { along, .. } => along.mm(),
        _ => panic!("{part:?}"),
    };
    ids.iter().map(|id| offset(house.part(id).unwrap())).collect()
}

#[test]
fn three_equal_dormers_stand_in_equal_spaces() {
    let mut house = with(RoofForm::Gable, GuestKind::Dormer, "front");
    let before = house.parts[1].clone();
    let row = house.repeat_part(&id("dormer"), 3).unwrap();
    assert_eq!(row, [id("dormer"), id("dormer-2"), id("dormer-3")]);
    assert_eq!(house.parts.iter().map(|p| p.name.as_str()).collect::<Vec<_>>()[2..], ["Dormer 2", "Dormer 3"]);
    // 240 mm in three: 80 mm from one to the next.
    assert_eq!(offsets(&house, &row), [-80.0, 0.0, 80.0]);
    for part in &house.parts[1..] {
        assert_eq!((&part.outline, &part.sides, &part.openings), (&before.outline, &before.sides, &before.openings));
    }
    let solved = sound(&house);
    // Equal parts have equal pieces: one template for the fronts of all three.
    let fronts: Vec<usize> = solved
        .pieces
        .iter()
        .filter(|p| p.id.0.ends_with("/wall-front") && p.part.0 != "main")
        .map(|p| p.group)
        .collect();
    assert_eq!(fronts.len(), 3);
    assert!(fronts.iter().all(|g| *g == fronts[0]), "{fronts:?}");
}

#[test]
fn a_row_that_finds_no_room_changes_nothing() {
    let mut house = with(RoofForm::Gable, GuestKind::Dormer, "front");
    let before = house.clone();
    assert_eq!(house.repeat_part(&id("dormer"), 9), Err(NotArranged::NoRoom { part: "Dormer".to_owned() }));
    assert_eq!(house.repeat_part(&id("main"), 3), Err(NotArranged::NoHost { part: "Main body".to_owned() }));
    assert_eq!(house, before);
}

#[test]
fn rows_make_way_for_what_stands_there() {
    let mut house = with(RoofForm::Gable, GuestKind::Wing, "front");
    let dormer = house.guest(GuestKind::Dormer, &id("main"), Some(&SideId("back".to_owned()))).unwrap();
    house.parts.push(dormer);
    for (part, count) in [("dormer", 2), ("dormer", 3)] {
        let mut house = house.clone();
        assert_eq!(house.repeat_part(&id(part), count).unwrap().len(), count);
        sound(&house);
    }
}

#[test]
fn chimneys_stand_in_a_row_along_the_ridge() {
    let mut house = house(RoofForm::Gable);
    let chimney = house.guest(GuestKind::Chimney, &id("main"), None).unwrap();
    house.parts.push(chimney);
    let row = house.repeat_part(&id("chimney"), 2).unwrap();
    // The ridge is as long as the house, 240 mm: two halves of 120 mm.
    assert_eq!(offsets(&house, &row), [-60.0, 60.0]);
    sound(&house);
}

#[test]
fn a_copy_has_its_guests_and_what_was_decided_and_stands_free() {
    let mut house = with(RoofForm::Gable, GuestKind::Wing, "front");
    house.parts[1].outline = Outline::Rectangle { width: mm(60.0), depth: mm(110.0) };
    let dormer = house.guest(GuestKind::Chimney, &id("wing"), None).unwrap();
    house.parts.push(dormer);
    house.decided.push(crate::Decided { whole: id("wing"), cut: id("main") });
    house.parts[1].locked = true;
    sound(&house);
    let copy = house.copy_part(&id("wing")).unwrap();
    assert_eq!(copy, id("wing-2"));
    let guest = house.part(&id("chimney-2")).unwrap();
    assert_eq!(guest.place.host(), Some(&copy));
    assert!(house.decided.contains(&crate::Decided { whole: copy.clone(), cut: id("main") }));
    assert!(!house.part(&copy).unwrap().locked);
    sound(&house);
}

#[test]
fn what_stands_on_the_board_is_copied_beside_the_house() {
    let mut house = with(RoofForm::Gable, GuestKind::Wing, "right");
    house.copy_part(&id("main")).unwrap();
    assert_eq!(house.parts.len(), 4);
    let solved = sound(&house);
    let right = |k: usize| solved.parts[k].plan.iter().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
    let left = |k: usize| solved.parts[k].plan.iter().map(|p| p.x).fold(f64::INFINITY, f64::min);
    assert!(left(2) > right(0).max(right(1)));
}

/// Corners of the plan of a part and the middles of its openings, mirrored where asked, to a thousandth of a millimetre.
fn marks(solved: &Solved, part: &PartId, (x, y): (f64, f64)) -> Vec<[i64; 3]> {
    let plan = solved.parts.iter().filter(|p| &p.id == part).flat_map(|p| &p.plan).map(|p| P3::new(p.x, p.y, 0.0));
    let pieces = solved.pieces.iter().filter(|p| &p.part == part);
    let middles = pieces.flat_map(|piece| {
        let middle = |(low, high)| nalgebra::center(&low, &high);
        let at = |p: gable_plane::P2| piece.house_from_piece * P3::new(p.x, p.y, 0.0);
        piece.openings.iter().map(move |o| at(middle(o.contour.bounds())))
    });
    let mut marks: Vec<[i64; 3]> =
        plan.chain(middles).map(|p| [p.x * x, p.y * y, p.z].map(|v| (v * 1e3).round() as i64)).collect();
    marks.sort_unstable();
    marks
}

/// Areas of the pieces of a part, mm2, the smallest first.
fn areas(solved: &Solved, part: &PartId) -> Vec<f64> {
    let pieces = solved.pieces.iter().filter(|p| &p.part == part);
    let mut areas: Vec<f64> = pieces.map(|p| gable_plane::ring_area(&p.outline).abs()).collect();
    areas.sort_by(f64::total_cmp);
    areas
}

/// A wing that is not alike to left and right, with an opening off its middle.
fn lopsided() -> House {
    let mut house = with(RoofForm::Gable, GuestKind::Wing, "front");
    let wing = &mut house.parts[1];
    wing.outline = Outline::Rectangle { width: mm(60.0), depth: mm(110.0) };
    let Top::Eave { height, .. } = &mut wing.sides[1].top else { panic!("{wing:?}") };
    *height = mm(90.0);
    let Place::Against { along, .. } = &mut wing.place else { panic!("{wing:?}") };
    *along = Placing::FromLeft { distance: mm(30.0) };
    wing.openings.push(Opening {
        id: OpeningId("window".to_owned()),
        name: "Window".to_owned(),
        side: SideId("right".to_owned()),
        shape: Shape::Rectangle,
        width: mm(16.0),
        height: mm(20.0),
        sill: mm(30.0),
        placing: Placing::FromLeft { distance: mm(14.0) },
        mode: Mode::Cut,
        ..Opening::default()
    });
    house
}

#[test]
fn mirror_images_are_mirror_images() {
    for (at, way) in [(Mirror::OtherEnd, (-1.0, 1.0)), (Mirror::OppositeSide, (1.0, -1.0))] {
        let mut house = lopsided();
        sound(&house);
        let image = house.mirror_part(&id("wing"), at).unwrap();
        let solved = sound(&house);
        let (one, other) = (marks(&solved, &id("wing"), way), marks(&solved, &image, (1.0, 1.0)));
        assert_eq!(one.len(), 5, "four corners and a window");
        assert_eq!(one, other, "{at:?}");
        // Corners of cuts are rounded by chords, which are not laid alike from both sides.
        let (one, other) = (areas(&solved, &id("wing")), areas(&solved, &image));
        assert_eq!(one.len(), other.len());
        assert!(one.iter().zip(&other).all(|(a, b)| (a - b).abs() < 5.0), "{one:?} {other:?}");
    }
}

#[test]
fn mirrored_twice_is_as_before() {
    let mut plans = vec![
        Outline::Rectangle { width: mm(60.0), depth: mm(80.0) },
        Outline::HalfPolygon { sides: 3, width: mm(60.0) },
        Outline::HalfPolygon { sides: 4, width: mm(60.0) },
    ];
    plans.extend([3, 4, 5, 8].map(|sides| Outline::Polygon { sides, side: mm(40.0) }));
    let corner = |x, y| (mm(x), mm(y));
    plans.push(Outline::Free {
        corners: vec![corner(0.0, 0.0), corner(50.0, 0.0), corner(60.0, 40.0), corner(5.0, 30.0)],
    });
    for plan in plans {
        let top = |k: usize| Top::Eave {
            height: mm(50.0 + k as f64),
            pitch: Pitch::Angle(Angle::degrees(40.0)),
            overhang: mm(2.0),
        };
        let mut part = Part::plain("a", "A", plan.clone(), top(0));
        part.sides.iter_mut().enumerate().for_each(|(k, side)| side.top = top(k));
        let before = part.clone();
        super::mirror::turn_part_over(&mut part);
        assert_ne!(part.sides, before.sides, "{plan:?}");
        // Side k of the image lies where its namesake's mirror image does.
        let (old, new) = (before.outline.corners(), part.outline.corners());
        for (k, side) in part.sides.iter().enumerate() {
            let from = before.sides.iter().position(|s| s.top == side.top).unwrap();
            let middle = |c: &[gable_plane::P2], k: usize| nalgebra::center(&c[k], &c[(k + 1) % c.len()]);
            let (a, b) = (middle(&old, from), middle(&new, k));
            assert!((a.x + b.x).abs() < 1e-9 && (a.y - b.y).abs() < 1e-9, "{plan:?} {k}");
        }
        super::mirror::turn_part_over(&mut part);
        assert_eq!(part, before, "{plan:?}");
    }
}

#[test]
fn why_not_is_said_in_plain_words() {
    let mut house = with(RoofForm::Gable, GuestKind::Dormer, "front");
    let mut said = |part: &str, at| house.mirror_part(&id(part), at).unwrap_err().to_string();
    assert_eq!(said("dormer", Mirror::OtherEnd), "Dormer stands in the middle, and there its mirror image would be");
    assert_eq!(said("main", Mirror::OtherEnd), "Main body stands by no other part; let it stand by one first");
    house.parts[0].sides[2].wall = false;
    assert_eq!(
        house.mirror_part(&id("dormer"), Mirror::OppositeSide).unwrap_err().to_string(),
        "there is no side like it opposite to where Dormer stands"
    );
}

/// The mirrored dormer of the pilot house is dressed like the first one, left for right.
#[test]
fn copies_and_mirror_images_take_their_dressing_along() {
    use crate::{Covering, Faces, Finish, Ornament, OrnamentKind, SideId, Where};
    let mut house = crate::demo::house("pilot-house").unwrap();
    let id = house.parts.iter().find(|p| p.id.0 == "dormer-1").unwrap().id.clone();
    house.dressing.finishes.clear();
    house.dressing.ornaments.clear();
    let faces = Faces { part: Some(id.clone()), which: Where::Walls, side: Some(SideId("left".into())) };
    house.dressing.finishes.push(Finish::usual(Covering::USUAL[1].1, faces));
    house.dressing.ornaments.push(Ornament::usual(OrnamentKind::Surround, id.clone()));
    let original = house.part(&id).unwrap().clone();
    let mut copied = house.clone();
    let copy = copied.double(&original, original.place.clone());
    let of = |house: &House, id: &PartId| {
        let finish = house.dressing.finishes.iter().find(|f| f.faces.part.as_ref() == Some(id)).cloned();
        let ornaments = house.dressing.ornaments.iter().filter(|o| &o.part == id).count();
        (finish.and_then(|f| f.faces.side).map(|s| s.0), ornaments)
    };
    assert_eq!(of(&copied, &id), (Some("left".into()), 1));
    assert_eq!(of(&copied, &copy), (Some("left".into()), 1));
    copied.turn_over(&copy);
    assert_eq!(of(&copied, &copy), (Some("right".into()), 1));
    assert_eq!(of(&copied, &id), (Some("left".into()), 1));
}
