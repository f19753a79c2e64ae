//! Houses of several parts when something changes: guests go with their hosts, and nothing else moves.

#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise, helpers included")]

use gable_export::{PackOptions, Paper, pack_pdf, pieces_json, write_svg};
use gable_measure::{Angle, Length};
use gable_mesh::{Pose, View};
use gable_plane::{P3, Rigid, V3};
use gable_shell::{
    Gives, House, Joint, JointEnd, Measure, Measured, Outline, Part, PartId, Place, Relation, Role, SideId, Solved,
    Spot, Top, demo, settle, solve,
};
use gable_tests::{Random, Whole, broken_places, differences, plain_many, same_shape, street};
use std::collections::{BTreeMap, BTreeSet};

/// The demos of several parts, and made-up houses that the solver has nothing serious against.
fn houses(made_up: u64) -> Vec<(String, House)> {
    let demos = ["pilot-house", "askew-house"].map(|name| (name.to_owned(), demo::house(name).unwrap()));
    let plain = (0..made_up).map(|seed| (format!("made-up house {seed}"), plain_many(seed)));
    demos.into_iter().chain(plain.filter(|(_, house)| is_sound(house))).collect()
}

fn is_sound(house: &House) -> bool {
    solve(house).blocking().next().is_none()
}

/// Places of all parts that have guests.
fn hosts(house: &House) -> Vec<usize> {
    let has_guest = |part: &Part| house.parts.iter().any(|p| p.place.host() == Some(&part.id));
    (0..house.parts.len()).filter(|&k| has_guest(&house.parts[k])).collect()
}

/// A part with plan and walls so many times as large. Doors and windows are not the subject and would no longer fit.
fn resize(part: &mut Part, factor: f64) {
    let scale = |length: &mut Length| *length = *length * factor;
    match &mut part.outline {
        Outline::Rectangle { width, depth } => [width, depth].into_iter().for_each(scale),
        Outline::Polygon { side, .. } => scale(side),
        Outline::HalfPolygon { width, .. } => scale(width),
        Outline::Free { corners } => corners.iter_mut().for_each(|(x, y)| [x, y].into_iter().for_each(scale)),
    }
    for side in &mut part.sides {
        match &mut side.top {
            Top::Eave { height, .. } | Top::HalfHip { start: height, .. } => scale(height),
            Top::Knee { height, knee, .. } => [height, knee].into_iter().for_each(scale),
            Top::Gable { .. } => {}
        }
    }
    if let Some(lid) = &mut part.lid {
        scale(&mut lid.height);
    }
    part.openings.clear();
}

#[test]
fn guests_keep_their_places_when_a_host_is_resized() {
    let mut tried = 0;
    for (name, house) in houses(10) {
        assert_eq!(broken_places(&house, &solve(&house)), [""; 0], "{name}");
        for host in hosts(&house) {
            for factor in [0.8, 1.25, 2.0] {
                let mut changed = house.clone();
                resize(&mut changed.parts[host], factor);
                let solved = solve(&changed);
                let what = format!("{name}, {} × {factor}", house.parts[host].id.0);
                let refused: Vec<_> = solved.blocking().collect();
                assert!(refused.is_empty(), "{what}: {refused:?}");
                assert_eq!(broken_places(&changed, &solved), [""; 0], "{what}");
                let overlaps = Whole::new(&changed, &solved).unwrap().overlaps();
                assert!(overlaps.is_empty(), "{what}: {}", overlaps[0]);
                tried += 1;
            }
        }
    }
    assert!(tried > 30, "only {tried} changes were tried");
}

/// The whole house put elsewhere on the board.
fn moved(house: &House, by: &Rigid, turn: Angle) -> House {
    let mut house = house.clone();
    for part in &mut house.parts {
        if let Place::Ground(spot) = &mut part.place {
            let at = by * P3::new(spot.x.mm(), spot.y.mm(), 0.0);
            *spot = Spot { x: Length::mm_of(at.x), y: Length::mm_of(at.y), turn: spot.turn + turn };
        }
    }
    house
}

#[test]
fn a_house_elsewhere_on_the_board_has_the_same_pieces() {
    let mut random = Random::new(3);
    for (name, house) in houses(12) {
        for _ in 0..2 {
            let turn = Angle::degrees(random.between(-180.0, 180.0));
            let by = V3::new(random.between(-400.0, 400.0), random.between(-400.0, 400.0), 0.0);
            let motion = Rigid::new(by, V3::z() * turn.rad());
            let found = differences(&solve(&house), &solve(&moved(&house, &motion, turn)), &motion);
            assert!(found.is_empty(), "{name}, {:.3}°: {found:#?}", turn.deg());
        }
    }
}

/// Everything that is written about a house.
fn written(house: &House, solved: &Solved) -> [Vec<u8>; 3] {
    let view = View::from(Angle::degrees(35.0), Angle::degrees(25.0));
    let picture = write_svg(&gable_mesh::picture(solved, Pose::Standing, &view));
    let options = PackOptions { paper: Paper::A4, ..PackOptions::default() };
    [pieces_json(solved).unwrap().into(), picture.into(), pack_pdf(solved, house, &options).unwrap()]
}

#[test]
fn the_same_house_gives_the_same_bytes() {
    for (name, house) in houses(2) {
        let (once, again) = (solve(&house), std::thread::scope(|s| s.spawn(|| solve(&house)).join().unwrap()));
        assert!(once == again, "{name}");
        assert!(once == solve(&house), "{name}");
        let (first, second) = (written(&house, &once), written(&house, &again));
        for (format, (a, b)) in ["JSON", "SVG", "PDF"].into_iter().zip(first.iter().zip(&second)) {
            assert!(a.len() > 1000 && a == b, "{format} of {name}");
        }
    }
}

/// Pairs of neighbours in the list that are apart in the house, by the boxes of their pieces.
fn strangers(house: &House, solved: &Solved) -> Vec<usize> {
    let reach = |part: &Part| {
        let points = solved.pieces.iter().filter(|p| p.part == part.id).flat_map(|p| {
            let at = |z: f64| move |q: &gable_plane::P2| p.house_from_piece * P3::new(q.x, q.y, z);
            p.outline.iter().map(at(0.0)).chain(p.outline_back.iter().map(at(p.thickness.mm()))).collect::<Vec<_>>()
        });
        points.fold((V3::repeat(f64::MAX), V3::repeat(f64::MIN)), |(low, high), p| {
            (low.inf(&p.coords), high.sup(&p.coords))
        })
    };
    let boxes: Vec<(V3, V3)> = house.parts.iter().map(reach).collect();
    let apart = |k: &usize| {
        let (a, b) = (boxes[*k], boxes[k + 1]);
        let related = |x: usize, y: usize| house.parts[x].place.host() == Some(&house.parts[y].id);
        (0..3).any(|i| a.0[i] > b.1[i] + 10.0 || b.0[i] > a.1[i] + 10.0) && !related(*k, k + 1) && !related(k + 1, *k)
    };
    (0..house.parts.len() - 1).filter(apart).collect()
}

/// Joints by id, as their ends and what their icing fills.
fn lines(solved: &Solved) -> BTreeMap<&str, (V3, V3, f64)> {
    let of = |j: &'_ Joint| (j.line[0].coords, j.line[1].coords, j.wedge.volume);
    solved.joints.iter().map(|j| (j.id.0.as_str(), of(j))).collect()
}

#[test]
fn reordering_parts_that_do_not_meet_changes_nothing() {
    let mut tried = 0;
    for (name, house) in houses(30) {
        let solved = solve(&house);
        for k in strangers(&house, &solved) {
            let mut other = house.clone();
            other.parts.swap(k, k + 1);
            let again = solve(&other);
            let what = format!("{name}, {} and {} swapped", house.parts[k].id.0, house.parts[k + 1].id.0);
            assert_eq!(solved.pieces.len(), again.pieces.len(), "{what}");
            for piece in &solved.pieces {
                let same = again.pieces.iter().find(|p| p.id == piece.id).is_some_and(|p| {
                    same_shape(piece, p)
                        && (p.house_from_piece.inverse() * piece.house_from_piece).translation.vector.norm() < 1e-6
                });
                assert!(same, "{what}: {}", piece.id.0);
            }
            let (before, after) = (lines(&solved), lines(&again));
            assert!(before.keys().eq(after.keys()), "{what}");
            for (joint, (one, other)) in before.iter().map(|(id, line)| (id, (line, after[id]))) {
                let off = (one.0 - other.0).norm() + (one.1 - other.1).norm() + (one.2 - other.2).abs();
                assert!(off < 1e-5 * (1.0 + one.2), "{what}: {joint}");
            }
            tried += 1;
        }
    }
    assert!(tried > 10, "only {tried} pairs were tried");
}

#[test]
fn every_part_of_a_street_meets_four_others_at_most() {
    let solved = solve(&street(50).unwrap());
    assert!(solved.blocking().next().is_none() && solved.parts.len() == 50);
    let part = |end: &JointEnd| if let JointEnd::Piece(k) = end { Some(solved.pieces[*k].part.clone()) } else { None };
    let mut met: BTreeMap<PartId, BTreeSet<PartId>> = BTreeMap::new();
    for joint in &solved.joints {
        let [Some(a), Some(b)] = joint.ends.each_ref().map(part) else { continue };
        if a != b {
            met.entry(a.clone()).or_default().insert(b.clone());
            met.entry(b).or_default().insert(a);
        }
    }
    assert!(met.len() == 50 && met.values().all(|others| others.len() <= 4), "{met:?}");
    assert_eq!(met.values().map(BTreeSet::len).max(), Some(4));
}

/// A measure as it came out, mm.
fn came_out(solved: &Solved, what: &Measured) -> f64 {
    let part = solved.parts.iter().find(|p| p.id == what.part).unwrap();
    let side = |k: usize| (part.plan[k + 1] - part.plan[k]).norm();
    match &what.measure {
        Measure::Width => side(0),
        Measure::Depth => side(1),
        Measure::Ridge | Measure::Lid => part.house_from_part.translation.z + part.ridge_height.mm(),
        Measure::Eave(named) => {
            let front = SideId("front".to_owned());
            let side = named.as_ref().unwrap_or(&front);
            let walls = solved.pieces.iter().filter(|p| p.part == what.part && p.role == Role::Wall(side.clone()));
            let corners = walls.flat_map(|p| p.outline.iter().map(|q| (p.house_from_piece * P3::new(q.x, q.y, 0.0)).z));
            corners.fold(0.0, f64::max)
        }
    }
}

#[test]
fn sizes_that_follow_others_still_do_when_a_host_is_resized() {
    let measured = |part: &str, measure: Measure| Measured { part: PartId(part.to_owned()), measure };
    let eave = |side: &str| Measure::Eave(Some(SideId(side.to_owned())));
    let follow = [
        (measured("cross-wing", eave("left")), measured("main", eave("front")), 4.0, Gives::Walls),
        (measured("cross-wing", eave("right")), measured("main", eave("front")), 4.0, Gives::Walls),
        (measured("cross-wing", Measure::Width), measured("main", Measure::Depth), -50.0, Gives::Walls),
        (measured("porch", Measure::Depth), measured("lean-to", Measure::Depth), -10.0, Gives::Walls),
        (measured("porch", Measure::Ridge), measured("lean-to", Measure::Ridge), 5.0, Gives::Walls),
    ];
    for (scaled, factor) in [(0, 1.0), (0, 0.8), (0, 1.25), (0, 2.0), (6, 0.8), (6, 1.25)] {
        let mut house = demo::house("pilot-house").unwrap();
        for (follower, leader, offset, gives) in follow.clone() {
            house.follow(Relation { follower, leader, offset: Length::mm_of(offset), gives });
        }
        resize(&mut house.parts[scaled], factor);
        // Doors and windows of what follows would no longer fit either.
        house.parts.iter_mut().for_each(|p| p.openings.clear());
        let (settled, solved) = (settle(&house).0, solve(&house));
        let what = format!("{} × {factor}", house.parts[scaled].id.0);
        assert!(solved.blocking().next().is_none(), "{what}: {:?}", solved.findings);
        for (follower, leader, offset, _) in &follow {
            let off = came_out(&solved, follower) - came_out(&solved, leader) - offset;
            assert!(off.abs() < 1e-6, "{what}: {follower:?} is off by {off}");
        }
        assert_eq!(broken_places(&settled, &solved), [""; 0], "{what}");
        let overlaps = Whole::new(&settled, &solved).unwrap().overlaps();
        assert!(overlaps.is_empty(), "{what}: {}", overlaps[0]);
    }
}
