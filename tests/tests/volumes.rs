//! Volumes and areas of solved pieces against closed forms, and grouping of congruent pieces.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise, helpers included")]

use gable_plane::{P2, V2, ring_area};
use gable_shell::{
    Corners, FloorKind, House, Lid, Member, Outline, Part, Piece, Place, Role, Solved, Spot, Tier, solve,
};
use gable_tests::build::{degrees, eave, gable, house, mm, part, rectangle};
use gable_tests::{Body, Random, random_house};
use std::collections::BTreeSet;
use std::f64::consts::PI;

fn solved(house: &House) -> Solved {
    let solved = solve(house);
    assert!(!solved.pieces.is_empty(), "refused: {:?}", solved.findings);
    solved
}

fn piece<'a>(solved: &'a Solved, role: &Role) -> &'a Piece {
    solved.pieces.iter().find(|p| p.role == *role).unwrap()
}

fn wall<'a>(solved: &'a Solved, side: &str) -> &'a Piece {
    piece(solved, &Role::Wall(gable_shell::SideId(side.to_owned())))
}

fn slope<'a>(solved: &'a Solved, side: &str) -> &'a Piece {
    piece(solved, &Role::Slope(gable_shell::SideId(side.to_owned()), Tier::Single))
}

fn volume(piece: &Piece) -> f64 {
    Body::of_piece(piece).volume()
}

fn near(found: f64, expected: f64, what: &str) {
    assert!((found - expected).abs() <= 1e-6 * expected.abs(), "{what}: found {found}, expected {expected}");
}

/// A gable house of width 120, depth 160, wall height 80, roof of 45°, walls 6 and roofs 8 thick.
fn gable_house(overhang: f64, gap: f64) -> House {
    let slope = eave(80.0, degrees(45.0), overhang);
    house(part(rectangle(120.0, 160.0), &[gable(overhang), slope, gable(overhang), slope]), 6.0, 8.0, gap)
}

#[test]
fn pieces_of_a_gable_house() {
    let solved = solved(&gable_house(0.0, 0.0));
    // rectangle and triangle; lapped corners: front and back run through
    near(volume(wall(&solved, "front")), 6.0 * (120.0 * 80.0 + 60.0 * 60.0), "gable wall");
    near(volume(wall(&solved, "left")), 6.0 * (160.0 - 12.0) * 80.0, "eave wall");
    near(volume(slope(&solved, "left")), 8.0 * 160.0 * 60.0 * 2.0_f64.sqrt(), "slope");

    let overhanging = self::solved(&gable_house(15.0, 0.0));
    near(ring_area(&slope(&overhanging, "right").outline), 190.0 * 75.0 * 2.0_f64.sqrt(), "slope with overhang");

    // with a gap, eave walls lose it at both ends, and the slopes half of it at the ridge: half a gap, measured level
    let gapped = self::solved(&gable_house(0.0, 1.0));
    near(volume(wall(&gapped, "left")), 6.0 * (160.0 - 14.0) * 80.0, "eave wall between gaps");
    near(volume(wall(&gapped, "front")), 6.0 * (120.0 * 80.0 + 60.0 * 60.0), "gable wall keeps its typed size");
}

#[test]
fn pieces_of_a_pyramid() {
    let top = eave(70.0, degrees(60.0), 0.0);
    let solved = solved(&house(part(rectangle(100.0, 100.0), &[top; 4]), 5.0, 5.0, 0.0));
    // triangle of base 100 and height 50 / cos 60°
    near(ring_area(&slope(&solved, "front").outline), 100.0 * 100.0 / 2.0, "triangle");
    near(volume(slope(&solved, "back")), 5.0 * 100.0 * 100.0 / 2.0, "slope");
}

#[test]
fn mitred_walls_are_frusta() {
    for sides in [3, 4, 5, 6, 8, 12, 24] {
        let (side, thick, tall) = (60.0, 5.0, 50.0);
        let tops = vec![eave(tall, degrees(30.0), 0.0); usize::from(sides)];
        let mut part = part(Outline::Polygon { sides, side: mm(side) }, &tops);
        part.corners = Corners::Mitre;
        part.floor.kind = FloorKind::Under;
        let solved = solved(&house(part, thick, thick, 0.0));
        // outside a rectangle of the side's length, inside shorter by t tan(180°/n) at each end; a slab is as thick
        let shorter = 2.0 * thick * (PI / f64::from(sides)).tan();
        let expected = (tall - thick) * thick * (side + side - shorter) / 2.0;
        near(volume(wall(&solved, "2")), expected, &format!("wall of {sides} sides"));
        let area = f64::from(sides) * side * side / 4.0 / (PI / f64::from(sides)).tan();
        near(volume(piece(&solved, &Role::Floor)), thick * area, &format!("floor of {sides} sides"));
        let slopes = f64::from(sides) * ring_area(&slope(&solved, "1").outline);
        near(slopes, area / (PI / 6.0).cos(), &format!("roof of {sides} sides"));
    }
}

#[test]
fn a_flat_roof_is_its_plan_and_overhang() {
    let mut part = part(rectangle(140.0, 90.0), &[gable(0.0); 4]);
    part.lid = Some(Lid { height: mm(75.0), overhang: mm(10.0), parapet: None });
    let solved = solved(&house(part, 6.0, 7.0, 0.0));
    near(volume(piece(&solved, &Role::Lid)), 7.0 * 160.0 * 110.0, "lid");
    near(volume(wall(&solved, "front")), 6.0 * 140.0 * 75.0, "wall under the lid");
}

/// Groups as sets of piece ids: those cut alike and those turned over.
fn groups(solved: &Solved) -> BTreeSet<[BTreeSet<String>; 2]> {
    let id = |k: usize| solved.pieces[k].id.0.clone();
    solved.groups.iter().map(|g| [g.same().map(id).collect(), g.turned_over().map(id).collect()]).collect()
}

fn set(ids: &[&str]) -> BTreeSet<String> {
    ids.iter().map(|id| format!("main/{id}")).collect()
}

#[test]
fn like_pieces_share_a_template() {
    let groups = groups(&solved(&gable_house(12.0, 0.8)));
    assert!(groups.contains(&[set(&["wall-front", "wall-back"]), set(&[])]), "{groups:?}");
    assert!(groups.contains(&[set(&["wall-left", "wall-right"]), set(&[])]), "{groups:?}");
}

#[test]
fn mirrored_walls_of_a_lean_to_are_turned_over() {
    let tops = [eave(60.0, degrees(20.0), 0.0), gable(0.0), gable(0.0), gable(0.0)];
    let groups = groups(&solved(&house(part(rectangle(150.0, 100.0), &tops), 6.0, 6.0, 0.8)));
    let (left, right) = (set(&["wall-left"]), set(&["wall-right"]));
    assert!(
        groups.contains(&[left.clone(), right.clone()]) || groups.contains(&[right, left]),
        "side walls are right-angled trapezia, one the mirror image of the other: {groups:?}"
    );
    assert!(groups.contains(&[set(&["wall-front"]), set(&[])]), "front and back differ in height: {groups:?}");
}

#[test]
fn nearly_alike_is_not_alike() {
    // 0.05 mm is the same template, 0.2 mm is not
    let of = |left: f64| {
        let tops = [gable(0.0), eave(80.0, degrees(40.0), 0.0), gable(0.0), eave(left, degrees(40.0), 0.0)];
        groups(&solved(&house(part(rectangle(120.0, 160.0), &tops), 6.0, 6.0, 0.0)))
    };
    assert!(of(80.01).contains(&[set(&["wall-left", "wall-right"]), set(&[])]), "{:?}", of(80.01));
    assert!(of(80.2).contains(&[set(&["wall-left"]), set(&[])]), "{:?}", of(80.2));
}

/// How far the corners of a piece are at most from where they should lie on those of the first of its group, mm.
///
/// The motion is fitted to all corners of both faces at once (least squares: turn from the sums of dot and cross products
/// about the middles, a closed form), after mirroring x for pieces that are turned over.
fn off_the_first(first: &Piece, other: &Piece, member: &Member) -> f64 {
    let count = first.outline.len();
    let at = |k: usize| {
        let k = if member.turned_over { member.start + count - k } else { member.start + k };
        k % count
    };
    let flip = |p: P2| if member.turned_over { P2::new(-p.x, p.y) } else { p };
    let rings = |piece: &Piece, at: &dyn Fn(usize) -> usize| -> Vec<P2> {
        let one = |ring: &Vec<P2>| (0..count).map(|k| ring[at(k)]).collect::<Vec<_>>();
        [one(&piece.outline), one(&piece.outline_back)].concat()
    };
    let a: Vec<P2> = rings(first, &|k| k).into_iter().map(flip).collect();
    let b = rings(other, &at);
    let middle = |points: &[P2]| points.iter().map(|p| p.coords).sum::<V2>() / points.len() as f64;
    let (from, to) = (middle(&a), middle(&b));
    let arms: Vec<(V2, V2)> = a.iter().zip(&b).map(|(p, q)| (p.coords - from, q.coords - to)).collect();
    let (dot, cross) = arms.iter().fold((0.0, 0.0), |(d, c), (p, q)| (d + p.dot(q), c + p.perp(q)));
    let (sin, cos) = f64::atan2(cross, dot).sin_cos();
    let turned = |p: &V2| V2::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos);
    arms.iter().map(|(p, q)| (turned(p) - q).norm()).fold(0.0, f64::max)
}

#[test]
fn groups_hold_congruent_pieces_only_and_each_piece_once() {
    let one_part = (0..150).map(random_house);
    let several = (0..40).map(gable_tests::random_many);
    for (seed, house) in one_part.chain(several).enumerate() {
        let solved = solve(&house);
        let mut seen = BTreeSet::new();
        for (index, group) in solved.groups.iter().enumerate() {
            let first = &solved.pieces[group.members[0].piece];
            assert!(group.members.is_sorted_by_key(|m| m.turned_over) && !group.members[0].turned_over);
            for member in &group.members {
                let other = &solved.pieces[member.piece];
                assert!(seen.insert(member.piece), "house {seed}: {} is in two groups", other.id.0);
                assert_eq!(other.group, index, "house {seed}: {}", other.id.0);
                assert_eq!(other.dough, first.dough, "house {seed}: {}", other.id.0);
                assert_eq!(other.outline.len(), first.outline.len(), "house {seed}: {}", other.id.0);
                assert!((other.thickness - first.thickness).abs().mm() < 1e-6, "house {seed}: {}", other.id.0);
                let off = off_the_first(first, other, member);
                assert!(off < 0.05, "house {seed}: {} is {off} mm off {}, {member:?}", other.id.0, first.id.0);
            }
        }
        assert_eq!(seen.len(), solved.pieces.len(), "house {seed}");
    }
}

#[test]
fn turning_a_part_does_not_change_the_groups() {
    let mut random = Random::new(7);
    for seed in 0..60 {
        let still = random_house(seed);
        let mut turned = still.clone();
        let turn = gable_measure::Angle::degrees(random.between(-180.0, 180.0));
        turned.parts[0].place = Place::Ground(Spot { x: mm(random.between(-300.0, 300.0)), y: mm(-80.0), turn });
        assert_eq!(groups(&solve(&still)), groups(&solve(&turned)), "house {seed}");
    }
}

/// The mirror image of a house: its free outline mirrored, its sides in the other order.
fn mirrored(part: &Part) -> Part {
    let Outline::Free { corners } = &part.outline else { panic!("only free outlines") };
    let mut other = part.clone();
    let count = corners.len();
    let flipped: Vec<_> = corners.iter().rev().map(|(x, y)| (-*x, *y)).collect();
    other.outline = Outline::Free { corners: flipped };
    // side k runs from corner k to k + 1; mirrored corner i is old corner n - 1 - i, so its side is old side n - 2 - i
    for (i, side) in other.sides.iter_mut().enumerate() {
        let old = &part.sides[(2 * count - 2 - i) % count];
        side.wall = old.wall;
        side.top = old.top;
    }
    other
}

#[test]
fn the_mirror_image_of_a_house_has_the_same_amount_of_dough() {
    let corners = [(0.0, 0.0), (150.0, 0.0), (170.0, 90.0), (40.0, 140.0)].map(|(x, y)| (mm(x), mm(y)));
    let tops =
        [eave(70.0, degrees(30.0), 5.0), eave(70.0, degrees(40.0), 8.0), gable(6.0), eave(70.0, degrees(35.0), 10.0)];
    let mut part = part(Outline::Free { corners: corners.to_vec() }, &tops);
    part.corners = Corners::Mitre;
    let total = |part: Part| -> Vec<f64> {
        let solved = solved(&house(part, 5.0, 6.0, 0.8));
        let mut volumes: Vec<f64> = solved.pieces.iter().map(volume).collect();
        volumes.sort_by(f64::total_cmp);
        volumes
    };
    let (one, other) = (total(part.clone()), total(mirrored(&part)));
    assert_eq!(one.len(), other.len());
    for (a, b) in one.iter().zip(&other) {
        near(*a, *b, "piece and its mirror image");
    }
}
