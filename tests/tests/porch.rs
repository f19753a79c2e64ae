//! Posts and steps against closed forms, and judged where they meet a house.

use gable_plane::{P3, V3, ring_area};
use gable_shell::{
    FloorKind, House, JointEnd, JointKind, Part, PartId, Piece, Place, Posts, Role, SideId, Solved, Steps, StepsHigh,
    solve,
};
use gable_tests::build::{degrees, eave, gable, house, mm, part, rectangle};
use gable_tests::{Whole, porches_many};

/// Baked walls, roofs and gap of the houses here, mm.
const WALL: f64 = 8.0;
const GAP: f64 = 0.8;

fn side(name: &str) -> SideId {
    SideId(name.to_owned())
}

/// A roof 120 wide and 60 deep on posts, its slope up to the back; nothing else.
fn shelter(posts: Posts, pitch: f64) -> House {
    let tops = [eave(60.0, degrees(pitch), 0.0), gable(0.0), gable(0.0), gable(0.0)];
    let mut part = part(rectangle(120.0, 60.0), &tops);
    part.sides.iter_mut().for_each(|s| s.wall = false);
    part.sides[0].posts = Some(posts);
    part.sides[2].posts = Some(posts);
    house(part, WALL, WALL, GAP)
}

fn posts(count: u8, strips: u8) -> Posts {
    Posts { count, width: mm(10.0), strips, at_ends: true }
}

fn stands<'a>(solved: &'a Solved, name: &'a str) -> impl Iterator<Item = &'a Piece> {
    solved.pieces.iter().filter(move |p| matches!(&p.role, Role::Post(side, ..) if side.0 == name))
}

fn corners(piece: &Piece) -> impl Iterator<Item = P3> + '_ {
    let rings = [(&piece.outline, 0.0), (&piece.outline_back, piece.thickness.mm())];
    rings.into_iter().flat_map(move |(ring, z)| ring.iter().map(move |p| piece.house_from_piece * P3::new(p.x, p.y, z)))
}

fn span(piece: &Piece, way: V3) -> (f64, f64) {
    let along = corners(piece).map(|p| way.dot(&p.coords));
    along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), a| (low.min(a), high.max(a)))
}

fn near(found: f64, wanted: f64, what: &str) {
    assert!((found - wanted).abs() < 1e-6, "{what}: {found}, not {wanted}");
}

/// In a row of n posts of width w on a length l the spaces between them are (l - n w) / (n - 1).
#[test]
fn posts_stand_in_equal_spaces_with_the_first_and_last_at_the_ends() {
    let solved = solve(&shelter(posts(4, 1), 30.0));
    let spans: Vec<(f64, f64)> = stands(&solved, "front").map(|p| span(p, V3::x())).collect();
    assert_eq!(spans.len(), 4);
    for (k, (low, high)) in spans.iter().enumerate() {
        near(*low, -60.0 + k as f64 * (10.0 + (120.0 - 40.0) / 3.0), "start of a post");
        near(high - low, 10.0, "width of a post");
    }
    // Without one at the ends the spaces there are the same: (l - n w) / (n + 1).
    let between = Posts { at_ends: false, ..posts(3, 1) };
    let solved = solve(&shelter(between, 30.0));
    let first = stands(&solved, "front").map(|p| span(p, V3::x()).0).fold(f64::INFINITY, f64::min);
    near(first, -60.0 + (120.0 - 30.0) / 4.0, "first of a row between");
}

/// The underside rises from 60 at the outer face by the tangent of the pitch; a strip cut straight clears it where it is lower,
/// on the face nearer to the eave: d in, it is 60 + d tan p high.
#[test]
fn each_strip_is_cut_to_the_lower_face_under_the_slope() {
    for pitch in [15.0_f64, 30.0, 45.0] {
        let solved = solve(&shelter(posts(2, 2), pitch));
        let rise = pitch.to_radians().tan();
        for piece in stands(&solved, "front") {
            let Role::Post(_, _, Some(strip)) = piece.role else { panic!("{}", piece.id.0) };
            let (low, high) = span(piece, V3::z());
            near(low, 0.0, "foot");
            near(high, 60.0 + f64::from(strip) * (WALL + GAP) * rise, "front strip");
        }
        // At the back the slope falls from the outer face inwards, so the inner face is lower.
        for piece in stands(&solved, "back") {
            let Role::Post(_, _, Some(strip)) = piece.role else { panic!("{}", piece.id.0) };
            let inner = 60.0 - f64::from(strip) * (WALL + GAP) - WALL;
            near(span(piece, V3::z()).1, 60.0 + inner * rise, "back strip");
        }
        assert!(solved.findings.iter().all(|f| f.kind != "roof-on-nothing"), "{:?}", solved.findings);
    }
}

/// A gable of 40° over 120: the top of a post follows the slope exactly, and is cut at the ridge on both sides.
#[test]
fn a_post_under_a_gable_has_the_slope_on_its_top() {
    let mut porch = part(
        rectangle(120.0, 60.0),
        &[gable(0.0), eave(60.0, degrees(40.0), 0.0), gable(0.0), eave(60.0, degrees(40.0), 0.0)],
    );
    porch.sides.iter_mut().for_each(|s| s.wall = false);
    porch.sides[0].posts = Some(posts(3, 1));
    let solved = solve(&house(porch, WALL, WALL, GAP));
    let rise = 40.0_f64.to_radians().tan();
    let heights: Vec<f64> = stands(&solved, "front").map(|p| span(p, V3::z()).1).collect();
    near(heights[0], 60.0 + 10.0 * rise, "left post");
    near(heights[1], 60.0 + 60.0 * rise, "middle post");
    let middle = stands(&solved, "front").nth(1).unwrap();
    assert_eq!(middle.outline.len(), 5);
    // Half a house high over its width: area = w (h + rise (60 - w / 4)).
    near(ring_area(&middle.outline), 10.0 * (60.0 + rise * (60.0 - 2.5)), "area of the middle post");
}

#[test]
fn posts_of_a_row_are_cut_with_few_templates() {
    let solved = solve(&shelter(posts(4, 2), 30.0));
    assert_eq!(stands(&solved, "front").count(), 8);
    let groups: std::collections::BTreeSet<usize> = stands(&solved, "front").map(|p| p.group).collect();
    assert_eq!(groups.len(), 2, "one for the outer strips, one for the inner");
}

#[test]
fn every_strip_stands_on_the_board_carries_the_roof_and_is_joined_to_the_next() {
    let solved = solve(&shelter(posts(3, 3), 30.0));
    for (k, piece) in solved.pieces.iter().enumerate().filter(|(_, p)| matches!(p.role, Role::Post(..))) {
        let kinds: Vec<JointKind> =
            solved.joints.iter().filter(|j| j.ends.contains(&JointEnd::Piece(k))).map(|j| j.kind).collect();
        assert!(kinds.contains(&JointKind::Base) && kinds.contains(&JointKind::Eave), "{}: {kinds:?}", piece.id.0);
        assert!(kinds.contains(&JointKind::Layer), "{}: {kinds:?}", piece.id.0);
    }
    let layers = solved.joints.iter().filter(|j| j.kind == JointKind::Layer);
    assert_eq!(layers.count(), 2 * 3 * 2, "two rows of three posts with two joints each");
}

/// A post with its icing fills w × depth under the raised underside: the gap along the normal is g / cos p high.
#[test]
fn a_post_and_its_icing_fill_all_between_board_and_roof() {
    let (pitch, strips) = (30.0_f64.to_radians(), 2.0);
    let solved = solve(&shelter(posts(2, 2), 30.0));
    let first: Vec<usize> = (0..solved.pieces.len())
        .filter(|&k| matches!(&solved.pieces[k].role, Role::Post(s, 1, _) if s.0 == "front"))
        .collect();
    let biscuit: f64 = first.iter().map(|&k| ring_area(&solved.pieces[k].outline) * WALL).sum();
    let mine = |j: &&gable_shell::Joint| j.ends.iter().any(|e| matches!(e, JointEnd::Piece(k) if first.contains(k)));
    let icing: f64 = solved.joints.iter().filter(mine).flat_map(|j| &j.icing).map(|s| s.volume()).sum();
    let depth = strips * WALL + (strips - 1.0) * GAP;
    let mean = 60.0 + depth / 2.0 * pitch.tan() + GAP / pitch.cos();
    assert!((biscuit + icing - 10.0 * depth * mean).abs() < 1e-3, "{biscuit} + {icing}, not {}", 10.0 * depth * mean);
    assert!(icing > 0.0);
}

#[test]
fn rows_round_a_corner_share_the_post_there() {
    let mut pavilion = part(rectangle(120.0, 90.0), &[eave(60.0, degrees(30.0), 5.0); 4]);
    for side in &mut pavilion.sides {
        (side.wall, side.posts) = (false, Some(posts(3, 1)));
    }
    let solved = solve(&house(pavilion, WALL, WALL, GAP));
    assert_eq!(
        solved.findings.iter().filter(|f| f.severity > gable_measure::Severity::Note).count(),
        0,
        "{:?}",
        solved.findings
    );
    assert_eq!(solved.pieces.iter().filter(|p| matches!(p.role, Role::Post(..))).count(), 4 * 2);
}

#[test]
fn too_many_posts_are_refused_with_the_room_there_is() {
    let solved = solve(&shelter(posts(12, 1), 30.0));
    let said: Vec<&str> = solved.blocking().map(|f| f.what.as_str()).collect();
    assert_eq!(said[0], "12 posts 10 mm wide have no room on the front side, where 120 mm are free");
}

fn stairs(high: StepsHigh, plates: u8) -> Part {
    let mut stairs = part(rectangle(60.0, 30.0), &[gable(0.0); 4]);
    stairs.sides.iter_mut().for_each(|s| s.wall = false);
    stairs.floor.kind = FloorKind::Under;
    stairs.floor.steps = Some(Steps { high, plates, tread: mm(15.0), sides: vec![side("front"), side("left")] });
    stairs
}

/// A rise is a whole number of plates, each with a film of icing; each step is a tread wider and deeper than the one above.
#[test]
fn steps_are_plates_that_reach_out_by_the_tread() {
    for plates in [1_u8, 2] {
        let solved = solve(&house(stairs(StepsHigh::Count(3), plates), WALL, WALL, GAP));
        assert_eq!(solved.findings, []);
        let count = 3 * usize::from(plates);
        assert_eq!(solved.pieces.len(), count);
        for piece in &solved.pieces {
            let layer = if let Role::Layer(number) = piece.role { number - 1 } else { count - 1 };
            near(span(piece, V3::z()).0, layer as f64 * (WALL + GAP), &piece.id.0);
            let under = ((count - 1 - layer) / usize::from(plates)) as f64;
            near(ring_area(&piece.outline), (60.0 + 15.0 * under) * (30.0 + 15.0 * under), &piece.id.0);
        }
        assert_eq!(solved.joints.len(), count - 1);
        let films: f64 = solved.joints.iter().flat_map(|j| &j.icing).map(|s| s.volume()).sum();
        let upper = |p: &&Piece| p.role != Role::Layer(1);
        let areas: f64 = solved.pieces.iter().filter(upper).map(|p| ring_area(&p.outline)).sum();
        near(films, areas * GAP, "icing between plates");
        assert!(solved.joints.iter().all(|j| j.bevel.rad() == 0.0 && j.kind == JointKind::Layer));
    }
}

#[test]
fn a_height_that_no_number_of_plates_makes_is_said() {
    let solved = solve(&house(stairs(StepsHigh::Height(mm(20.0)), 1), WALL, WALL, GAP));
    assert_eq!(solved.pieces.len(), 2);
    let said: Vec<(&str, &str)> = solved.findings.iter().map(|f| (f.place.as_str(), f.what.as_str())).collect();
    let what = "the floor is asked to be 20 mm high; 2 plates of dough with icing make 16.8 mm";
    assert_eq!(said, [("parts[0].floor.steps.height", what)]);
}

#[test]
fn walls_and_posts_stand_on_the_topmost_plate() {
    let mut stairs = stairs(StepsHigh::Count(2), 1);
    (stairs.sides[0].top, stairs.sides[0].posts) = (eave(60.0, degrees(20.0), 0.0), Some(posts(2, 1)));
    stairs.sides[2].wall = true;
    let solved = solve(&house(stairs, WALL, WALL, GAP));
    let ground = 2.0 * (WALL + GAP);
    for piece in solved.pieces.iter().filter(|p| matches!(p.role, Role::Post(..) | Role::Wall(_))) {
        near(span(piece, V3::z()).0, ground, &piece.id.0);
    }
    let order = gable_raise::order(&solved).unwrap();
    let turn = |wanted: fn(&Role) -> bool| {
        let at = order.iter().enumerate().filter(|(_, s)| wanted(&solved.pieces[s.piece].role)).map(|(k, _)| k);
        (at.clone().min().unwrap(), at.max().unwrap())
    };
    let floor = turn(|r| matches!(r, Role::Floor | Role::Layer(_)));
    let upright = turn(|r| matches!(r, Role::Post(..) | Role::Wall(_)));
    let roof = turn(|r| matches!(r, Role::Slope(..)));
    assert!(floor.1 < upright.0 && upright.1 < roof.0, "{floor:?} {upright:?} {roof:?}");
}

#[test]
fn something_can_stand_on_a_bare_floor() {
    let mut house = house(stairs(StepsHigh::Count(2), 1), WALL, WALL, GAP);
    let tops = [gable(0.0), eave(40.0, degrees(40.0), 3.0), gable(0.0), eave(40.0, degrees(40.0), 3.0)];
    let mut hut = part(rectangle(50.0, 25.0), &tops);
    hut.id = PartId("hut".to_owned());
    hut.place = Place::OnTop { host: house.parts[0].id.clone(), spot: Default::default() };
    house.parts.push(hut);
    let solved = solve(&house);
    assert_eq!(Whole::new(&house, &solved).unwrap().overlaps().len(), 0);
    let wall = solved.pieces.iter().find(|p| p.id.0 == "hut/wall-front").unwrap();
    near(span(wall, V3::z()).0, 2.0 * (WALL + GAP) - GAP + GAP, "foot of the hut");
}

#[test]
fn porches_lie_flat_without_overlap() {
    for seed in 0..12 {
        let solved = solve(&porches_many(seed));
        let flat = gable_mesh::Fold::of(&solved).at(0.0);
        let lying = |(piece, pose): (&Piece, &gable_plane::Rigid)| -> Vec<gable_mesh::Body> {
            gable_mesh::chunks_within(piece, mm(0.005)).iter().map(|body| body.moved(pose)).collect()
        };
        let bodies: Vec<Vec<gable_mesh::Body>> = solved.pieces.iter().zip(&flat).map(lying).collect();
        for a in 0..bodies.len() {
            for b in 0..a {
                let meet = bodies[a].iter().any(|one| bodies[b].iter().any(|other| one.overlaps(other, 1e-3)));
                assert!(!meet, "seed {seed}: {} and {}", solved.pieces[a].id.0, solved.pieces[b].id.0);
            }
        }
    }
}

#[test]
fn the_made_up_porches_have_posts_and_steps_of_every_sort() {
    let mut seen = [0; 6];
    for seed in 0..60 {
        for part in porches_many(seed).parts {
            let rows = part.sides.iter().filter_map(|s| s.posts).collect::<Vec<_>>();
            seen[0] += usize::from(rows.iter().any(|p| p.strips > 1));
            seen[1] += usize::from(rows.iter().any(|p| !p.at_ends));
            seen[2] += usize::from(rows.len() > 1);
            seen[3] += usize::from(part.steps().is_some_and(|s| s.sides.len() > 1) && !rows.is_empty());
            seen[4] += usize::from(part.is_bare_floor() && part.place.turn().deg() != 0.0);
            seen[5] += usize::from(part.steps().is_some_and(|s| matches!(s.high, StepsHigh::Height(_))));
        }
    }
    assert!(seen.iter().all(|n| *n > 2), "{seen:?}");
}

#[test]
fn a_part_with_a_wall_needs_a_roof_still() {
    let mut walled = stairs(StepsHigh::Count(1), 1);
    walled.sides[0].wall = true;
    let solved = solve(&house(walled, WALL, WALL, GAP));
    assert!(solved.blocking().any(|f| f.kind == "no-roof"));
}
