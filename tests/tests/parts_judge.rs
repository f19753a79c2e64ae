//! The judge of houses of several parts objects to whatever is wrong: a house made by hand, and damage to it.

#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise, helpers included")]

use gable_measure::{Angle, Length};
use gable_plane::{Contour, HalfSpace, P2, P3, Rigid, Solid, V3};
use gable_shell::{
    Behind, EdgeKind, House, Joint, JointEnd, JointId, JointKind, Lid, Mode, OpeningId, Outline, Part, PartId, Piece,
    PieceOpening, Place, Placing, SideId, Solved, Spot, Wedge, WedgeSide, solve,
};
use gable_tests::build::{gable, house, mm, part, rectangle};
use gable_tests::{Check, Whole};

const GAP: f64 = 0.8;
/// Outer face of the main body's right wall.
const FACE: f64 = 60.0;
/// Sizes of the annexe: along the wall, out from it, height of its walls.
const ANNEXE: [f64; 3] = [120.0, 80.0, 110.0];
/// Thickness of walls and lids.
const THICK: f64 = 6.0;

fn flat(id: &str, outline: Outline, height: f64) -> Part {
    let mut part = part(outline, &[gable(0.0); 4]);
    part.lid = Some(Lid { height: mm(height), overhang: Length::ZERO, parapet: None });
    part.id = PartId(id.to_owned());
    part
}

/// The house without its guest, and the guest reaching `inside` the host, alone on the ground where it stands.
fn alone(inside: f64) -> (House, House) {
    let main = flat("main", rectangle(2.0 * FACE, 200.0), 150.0);
    let mut annexe = flat("annexe", rectangle(ANNEXE[0], ANNEXE[1] + inside), ANNEXE[2]);
    annexe.sides[2].wall = false;
    let x = mm(FACE + (ANNEXE[1] - inside) / 2.0);
    annexe.place = Place::Ground(Spot { x, y: Length::ZERO, turn: Angle::degrees(90.0) });
    (house(main, THICK, THICK, GAP), house(annexe, THICK, THICK, GAP))
}

/// Both in one house, with the pieces of each as they are alone.
fn together(inside: f64) -> (House, Solved) {
    let (host, guest) = alone(inside);
    let (mut solved, other) = (solve(&host), solve(&guest));
    let (pieces, joints) = (solved.pieces.len(), solved.joints.len());
    solved.parts.extend(other.parts);
    solved.joints.extend(other.joints.into_iter().map(|mut joint| {
        for end in &mut joint.ends {
            if let JointEnd::Piece(k) = end {
                *k += pieces;
            }
        }
        joint
    }));
    solved.pieces.extend(other.pieces.into_iter().map(|mut piece| {
        for edge in &mut piece.edges {
            if let EdgeKind::Joint(k) = edge {
                *k += joints;
            }
        }
        piece
    }));
    let mut whole = host.clone();
    let mut annexe = guest.parts[0].clone();
    let along = Placing::Centred { offset: Length::ZERO };
    let (host, side) = (PartId("main".to_owned()), SideId("right".to_owned()));
    annexe.place = Place::Against { host, side, along, out: mm(ANNEXE[1]), turn: Angle::degrees(0.0) };
    whole.parts.push(annexe);
    (whole, solved)
}

/// Moves what is nearer to the host than `limit` out to there.
fn trim(solved: &mut Solved, limit: f64) {
    for piece in solved.pieces.iter_mut().filter(|p| p.part.0 == "annexe") {
        let (place, thickness) = (piece.house_from_piece, piece.thickness.mm());
        let out = |p: &mut P2, z: f64| {
            let short = limit - (place * P3::new(p.x, p.y, z)).x;
            if short > 0.0 {
                *p += place.inverse_transform_vector(&(V3::x() * short)).xy();
            }
        };
        piece.outline.iter_mut().for_each(|p| out(p, 0.0));
        piece.outline_back.iter_mut().for_each(|p| out(p, thickness));
    }
    let half = HalfSpace { normal: -V3::x(), offset: -limit };
    let guests: Vec<usize> = (0..solved.pieces.len()).filter(|&k| solved.pieces[k].part.0 == "annexe").collect();
    for joint in &mut solved.joints {
        if joint.ends.iter().any(|end| matches!(end, JointEnd::Piece(k) if guests.contains(k))) {
            joint.line.iter_mut().for_each(|p| p.x = p.x.max(limit));
            joint.icing = joint.icing.iter().filter_map(|solid| solid.clip(&half)).collect();
            joint.wedge.volume = joint.icing.iter().map(Solid::volume).sum();
        }
    }
}

fn block(low: [f64; 3], high: [f64; 3]) -> Solid {
    Solid::block(P3::from(low), P3::from(high))
}

fn abutment(solved: &Solved, guest: &str, line: [P3; 2], icing: Solid) -> Joint {
    Joint {
        id: JointId(format!("abutment main/wall-right {guest}")),
        letter: "X".to_owned(),
        kind: JointKind::Abutment,
        ends: [JointEnd::Piece(find(solved, "main/wall-right")), JointEnd::Piece(find(solved, guest))],
        line,
        dihedral: Angle::degrees(90.0),
        bevel: Angle::degrees(0.0),
        wedge: Wedge { side: WedgeSide::Closed, width: mm(GAP), area: 0.0, volume: icing.volume() },
        gap: mm(GAP),
        icing: vec![icing],
    }
}

/// A sound house: an annexe under a flat roof against a wall, its open back one gap from it, icing in between.
fn sound() -> (House, Solved) {
    let (house, mut solved) = together(0.0);
    let near = FACE + GAP;
    trim(&mut solved, near);
    let [width, _, height] = ANNEXE;
    let top = height + GAP;
    // Seen from outside the annexe's right is to the back of the house.
    for (guest, y) in [("annexe/wall-right", width / 2.0), ("annexe/wall-left", -width / 2.0)] {
        let inner = y - THICK * y.signum();
        let icing = block([FACE, y.min(inner), 0.0], [near, y.max(inner), top]);
        let joint = abutment(&solved, guest, [P3::new(near, y, 0.0), P3::new(near, y, height)], icing);
        solved.joints.push(joint);
    }
    let icing = block([FACE, -width / 2.0, top], [near, width / 2.0, top + THICK]);
    let line = [-width / 2.0, width / 2.0].map(|y| P3::new(near, y, top));
    let joint = abutment(&solved, "annexe/lid", line, icing);
    solved.joints.push(joint);
    (house, solved)
}

fn find(solved: &Solved, id: &str) -> usize {
    solved.pieces.iter().position(|p| p.id.0 == id).unwrap()
}

fn joint_of(solved: &Solved, guest: &str) -> usize {
    solved.joints.iter().position(|j| j.id.0 == format!("abutment main/wall-right {guest}")).unwrap()
}

const MEETING: [&str; 3] = ["annexe/wall-right", "annexe/wall-left", "annexe/lid"];

fn checks_after(damage: impl FnOnce(&mut House, &mut Solved)) -> Vec<Check> {
    let (mut house, mut solved) = sound();
    damage(&mut house, &mut solved);
    Whole::new(&house, &solved).unwrap().faults().iter().map(|fault| fault.check).collect()
}

fn shift(piece: &mut Piece, by: V3) {
    piece.house_from_piece = Rigid::translation(by.x, by.y, by.z) * piece.house_from_piece;
}

/// Moves the end of a guest's piece at the host.
fn stretch(solved: &mut Solved, id: &str, by: f64) {
    let k = find(solved, id);
    let piece = &mut solved.pieces[k];
    let place = piece.house_from_piece;
    for p in piece.outline.iter_mut().chain(&mut piece.outline_back) {
        if (place * P3::new(p.x, p.y, 0.0)).x < FACE + GAP + 0.1 {
            *p += place.inverse_transform_vector(&(V3::x() * -by)).xy();
        }
    }
}

#[test]
fn the_judge_passes_a_sound_house_of_two_parts() {
    let (house, solved) = sound();
    let whole = Whole::new(&house, &solved).unwrap();
    let faults: Vec<String> = whole.faults().iter().chain(&whole.seal()).map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn the_judge_objects_to_a_guest_that_is_not_cut() {
    let (house, solved) = together(30.0);
    let faults = Whole::new(&house, &solved).unwrap().faults();
    let of = |check: Check| faults.iter().filter(|f| f.check == check).map(|f| f.what.clone()).collect::<Vec<_>>();
    assert!(of(Check::Overlap).iter().any(|what| what.contains("main/wall-right and annexe/lid")), "{faults:#?}");
    assert!(of(Check::Account).iter().any(|what| what.contains("annexe/lid is inside main")), "{faults:#?}");
    assert_eq!(of(Check::Neighbours).len(), 3, "{faults:#?}");
}

#[test]
fn the_judge_objects_to_guests_off_by_a_fifth_of_a_millimetre() {
    for guest in MEETING {
        for by in [0.2, -0.2] {
            let found = checks_after(|_, solved| stretch(solved, guest, by));
            assert!(found.contains(&Check::Contact), "{guest} by {by}: {found:?}");
        }
        let found = checks_after(|_, solved| stretch(solved, guest, 1.5));
        assert!(found.contains(&Check::Overlap) && found.contains(&Check::Contact), "{guest}: {found:?}");
        let found = checks_after(|_, solved| stretch(solved, guest, -2.0));
        assert!(found.contains(&Check::Account) && found.contains(&Check::Contact), "{guest}: {found:?}");
    }
}

#[test]
fn the_judge_misses_joints_between_parts() {
    for guest in MEETING {
        let found = checks_after(|_, solved| {
            let k = joint_of(solved, guest);
            solved.joints.remove(k);
        });
        assert!(found.contains(&Check::Neighbours), "{guest}: {found:?}");
        let found = checks_after(|_, solved| {
            let k = joint_of(solved, guest);
            let line = &mut solved.joints[k].line;
            line[1] = line[0] + (line[1] - line[0]) * 0.4;
        });
        assert!(found.contains(&Check::Neighbours), "{guest}: {found:?}");
    }
}

#[test]
fn the_judge_objects_to_missing_and_doubled_icing_between_parts() {
    for guest in MEETING {
        let found = checks_after(|_, solved| {
            let k = joint_of(solved, guest);
            solved.joints[k].icing.clear();
            solved.joints[k].wedge.volume = 0.0;
        });
        assert_eq!(found, [Check::Account], "{guest}");
        let found = checks_after(|_, solved| {
            let k = joint_of(solved, guest);
            let more = solved.joints[k].icing.clone();
            solved.joints[k].icing.extend(more);
            solved.joints[k].wedge.volume *= 2.0;
        });
        assert!(found.contains(&Check::Icing), "{guest}: {found:?}");
    }
}

#[test]
fn the_judge_objects_to_a_guest_off_its_size() {
    let found = checks_after(|_, solved| {
        let wall = find(solved, "annexe/wall-front");
        shift(&mut solved.pieces[wall], V3::new(0.02, 0.0, 0.0));
    });
    assert!(found.contains(&Check::Size), "{found:?}");
}

/// A hole 40 mm square through the wall that the annexe stands against.
fn cut_hole(solved: &mut Solved) {
    let wall = find(solved, "main/wall-right");
    let place = solved.pieces[wall].house_from_piece;
    let flat = |y: f64, z: f64| place.inverse_transform_point(&P3::new(FACE, y, z)).xy();
    let (one, other) = (flat(-20.0, 30.0), flat(20.0, 70.0));
    let contour = Contour::rectangle(one.inf(&other), one.sup(&other));
    let id = OpeningId("passage-annexe".to_owned());
    solved.pieces[wall].openings.push(PieceOpening {
        id,
        copy: 0,
        name: "Passage".to_owned(),
        contour,
        mode: Mode::Cut,
    });
}

#[test]
fn a_passage_joins_two_closed_hollows_and_any_other_hole_is_an_objection() {
    let (mut house, mut solved) = sound();
    cut_hole(&mut solved);
    let faults = Whole::new(&house, &solved).unwrap().faults();
    assert_eq!(faults.iter().map(|f| f.check).collect::<Vec<_>>(), [Check::Account], "{faults:?}");
    house.parts[1].behind = Behind::Passage { rim: mm(4.0) };
    let whole = Whole::new(&house, &solved).unwrap();
    let faults: Vec<String> = whole.faults().iter().chain(&whole.seal()).map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn the_judge_sees_a_hole_in_either_part() {
    for id in ["annexe/lid", "main/lid", "annexe/wall-front", "main/wall-left"] {
        let (house, mut solved) = sound();
        let piece = find(&solved, id);
        let out = solved.pieces[piece].house_from_piece * V3::z();
        let by = if id.contains("wall") { -9.0 } else { 4.0 };
        shift(&mut solved.pieces[piece], out * by);
        let faults = Whole::new(&house, &solved).unwrap().seal();
        let part = id.split('/').next().unwrap();
        assert!(faults.len() == 1 && faults[0].what.contains(part), "{id}: {faults:?}");
    }
    let (house, mut solved) = sound();
    solved.joints.iter_mut().for_each(|j| j.icing.clear());
    stretch(&mut solved, "annexe/wall-left", -2.0);
    let faults = Whole::new(&house, &solved).unwrap().seal();
    assert!(faults.len() == 1 && faults[0].what.contains("annexe"), "{faults:?}");
}
