//! What the solver promises of single parts, checked against closed forms.

use crate::*;
use gable_measure::{Angle, Length, Pitch, Severity, Unit};
use gable_plane::{P2, ring_area};

fn mm(v: f64) -> Length {
    Length::mm_of(v)
}

fn eave(height: f64, pitch: f64, overhang: f64) -> Top {
    Top::Eave { height: mm(height), pitch: Pitch::Angle(Angle::degrees(pitch)), overhang: mm(overhang) }
}

fn gable(overhang: f64) -> Top {
    Top::Gable { overhang: mm(overhang) }
}

fn dough(id: &str, baked: f64) -> Dough {
    Dough { id: DoughId(id.to_owned()), rolled: mm(baked), rise: 1.0 }
}

/// One part with the same top all round, walls 8 mm and roofs 6 mm thick.
pub(super) fn house(outline: Outline, top: Top, gap: f64) -> House {
    let sides =
        outline.side_names().into_iter().map(|id| Side { id: SideId(id), wall: true, posts: None, top }).collect();
    let part = Part {
        id: PartId("main".into()),
        name: "Main body".into(),
        outline,
        place: Place::default(),
        wall_dough: DoughId("walls".into()),
        roof_dough: DoughId("roofs".into()),
        floor: Floor { kind: FloorKind::None, dough: DoughId("walls".into()), steps: None },
        corners: Corners::Lap,
        ridges: Ridges::Open,
        raised: Length::ZERO,
        stays_whole: false,
        locked: false,
        behind: Behind::Whole,
        level_eaves: false,
        sides,
        lid: None,
        openings: Vec::new(),
    };
    House {
        owner: Owner::default(),
        unit: Unit::Millimetre,
        gap: mm(gap),
        doughs: vec![dough("walls", 8.0), dough("roofs", 6.0)],
        parts: vec![part],
        decided: vec![],
        order: vec![],
        relations: vec![],
        baked: vec![],
        dressing: Default::default(),
    }
}

fn rectangle() -> Outline {
    Outline::Rectangle { width: mm(100.0), depth: mm(160.0) }
}

/// Eaves left and right, gables front and back.
fn gabled(gap: f64) -> House {
    let mut house = house(rectangle(), gable(10.0), gap);
    house.parts[0].sides[1].top = eave(80.0, 45.0, 15.0);
    house.parts[0].sides[3].top = eave(80.0, 45.0, 15.0);
    house
}

fn piece<'a>(solved: &'a Solved, id: &str) -> &'a Piece {
    solved.pieces.iter().find(|p| p.id.0 == id).unwrap_or_else(|| panic!("no piece {id}"))
}

fn assert_close(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "found {found}, expected {expected}");
}

#[test]
fn a_gabled_house_has_the_areas_of_its_closed_forms() {
    let solved = solve(&gabled(0.0));
    assert!(solved.findings.is_empty(), "{:?}", solved.findings);
    let ids: Vec<&str> = solved.pieces.iter().map(|p| p.id.0.as_str()).collect();
    assert_eq!(
        ids,
        ["main/wall-front", "main/wall-right", "main/wall-back", "main/wall-left", "main/roof-right", "main/roof-left"]
    );
    // Gable: 100 x 80 and a triangle 100 wide, 50 high. Eave wall between two 8 mm gables.
    assert_close(ring_area(&piece(&solved, "main/wall-front").outline), 8000.0 + 2500.0, 1e-9);
    assert_close(ring_area(&piece(&solved, "main/wall-left").outline), 144.0 * 80.0, 1e-9);
    // Slope: 160 + 2 x 10 long; (50 + 15) / cos 45° wide.
    assert_close(ring_area(&piece(&solved, "main/roof-left").outline), 180.0 * 65.0 * 2f64.sqrt(), 1e-9);
    assert_eq!(solved.groups.len(), 3);
    assert_close(solved.parts[0].ridge_height.mm(), 130.0, 1e-9);
}

#[test]
fn the_gap_is_kept_at_corners_and_ridge_and_walls_keep_their_size() {
    let solved = solve(&gabled(0.8));
    assert_close(ring_area(&piece(&solved, "main/wall-left").outline), (144.0 - 1.6) * 80.0, 1e-9);
    let [left, right] = ["main/roof-left", "main/roof-right"].map(|id| piece(&solved, id));
    let top = |p: &Piece| {
        p.outline
            .iter()
            .map(|c| p.house_from_piece * gable_plane::P3::new(c.x, c.y, 0.0))
            .max_by(|a, b| a.z.total_cmp(&b.z))
            .unwrap()
    };
    let (a, b) = (top(left), top(right));
    assert_close((a.x - b.x).abs(), 0.8, 1e-9);
}

#[test]
fn icing_and_biscuit_fill_the_shell() {
    for gap in [0.0, 0.8] {
        let solved = solve(&gabled(gap));
        let icing: f64 = solved.joints.iter().map(|j| j.wedge.volume).sum();
        assert!(icing > 0.0);
        let eave = solved.joints.iter().find(|j| j.kind == JointKind::Eave).unwrap();
        // Wedge over an 8 mm wall under 45°: a triangle 8 x 8 / 2, and the gap layer g / cos 45° high.
        assert_close(eave.wedge.area, 32.0 + 8.0 * gap * 2f64.sqrt(), 1e-6);
        assert_close(eave.dihedral.deg(), 135.0, 1e-9);
    }
}

#[test]
fn every_form_of_plan_solves_without_clash() {
    for sides in 3..=24u8 {
        for corners in [Corners::Lap, Corners::LapAround, Corners::Mitre, Corners::SquareMitre] {
            let outline = Outline::Polygon { sides, side: mm(if sides < 6 { 120.0 } else { 40.0 }) };
            let mut house = house(outline, eave(60.0, 60.0, 8.0), 0.8);
            house.parts[0].corners = corners;
            let solved = solve(&house);
            let blocking: Vec<_> = solved.findings.iter().filter(|f| f.severity == Severity::Blocking).collect();
            assert!(blocking.is_empty(), "{sides} {corners:?} {blocking:?}");
            assert_eq!(solved.pieces.len(), 2 * usize::from(sides));
            assert_eq!(solved.joints.len(), 4 * usize::from(sides), "{sides} {corners:?}");
        }
    }
}

#[test]
fn doors_to_the_foot_are_cut_out_of_the_outline() {
    let mut house = gabled(0.8);
    house.parts[0].openings.push(Opening {
        id: OpeningId("door".into()),
        name: "Door".into(),
        side: SideId("front".into()),
        shape: Shape::RoundHeaded,
        width: mm(30.0),
        height: mm(60.0),
        sill: mm(0.0),
        placing: Placing::Centred { offset: mm(0.0) },
        mode: Mode::Cut,
        ..Opening::default()
    });
    let solved = solve(&house);
    let front = piece(&solved, "main/wall-front");
    assert_eq!((front.openings.len(), front.notches.len()), (0, 1));
    let door = 30.0 * 45.0 + std::f64::consts::PI * 15.0 * 15.0 / 2.0;
    assert_close(ring_area(&front.outline), 10500.0 - door, 0.5);
    assert_eq!(solved.joints.iter().filter(|j| j.kind == JointKind::Base).count(), 5);
    assert!(front.outline.iter().all(|p| *p != P2::new(f64::NAN, 0.0)));
}

#[test]
fn icing_closes_the_apex_of_a_pavilion() {
    let house = house(Outline::Polygon { sides: 22, side: mm(40.0) }, eave(60.0, 40.0, 0.0), 1.5);
    let solved = solve(&house);
    let apex = gable_plane::P3::new(0.0, 0.0, solved.parts[0].ridge_height.mm());
    let inside = |s: &gable_plane::Solid, p: &gable_plane::P3| s.half_spaces().iter().all(|h| h.excess(p) < 1e-6);
    for up in [2.5, 4.0, 6.0] {
        let p = apex + gable_plane::V3::new(0.01, 0.003, up);
        let found = solved.joints.iter().flat_map(|j| &j.icing).filter(|s| inside(s, &p)).count();
        assert_eq!(found, 1, "{up} mm over the apex");
    }
}
