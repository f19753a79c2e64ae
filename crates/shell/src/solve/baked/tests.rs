//! Standing sizes are worked out here by hand; that the whole house closes on them is judged elsewhere.

use super::*;
use crate::{Outline, PartId, Top, demo, solve};
use gable_measure::{Angle, Pitch, Severity};

fn mm(x: f64) -> Length {
    Length::mm_of(x)
}

/// A demo with all walls baked, and so much thicker than planned.
fn thicker(name: &str, by: f64) -> House {
    let mut house = demo::house(name).unwrap();
    let ids: Vec<PartId> = house.parts.iter().map(|p| p.id.clone()).collect();
    for id in ids {
        house.came_out(&id, Batch::Walls);
        let planned = house.as_planned(&id, Batch::Walls).unwrap().thickness.unwrap();
        house.baked.last_mut().unwrap().thickness = Some(planned + mm(by));
    }
    house
}

fn clashes(solved: &Solved) -> Vec<String> {
    solved.findings.iter().filter(|f| f.kind == "baked-would-change").map(|f| f.what.clone()).collect()
}

#[test]
fn nothing_entered_leaves_the_very_same_pieces() {
    for name in demo::names() {
        let mut house = demo::house(name).unwrap();
        let planned = solve(&house);
        let ids: Vec<PartId> = house.parts.iter().map(|p| p.id.clone()).collect();
        ids.iter().for_each(|id| house.came_out(id, Batch::Walls));
        let baked = solve(&house);
        assert_eq!(planned.changes, []);
        assert_eq!(baked.changes, [], "{name}");
        assert_eq!(planned.pieces.len(), baked.pieces.len());
        for (p, b) in planned.pieces.iter().zip(&baked.pieces) {
            assert!(apart::between(&apart::rings(p), &apart::rings(b)) < 1e-9, "{name}: {}", p.id.0);
        }
    }
}

#[test]
fn baked_walls_are_the_same_whatever_their_thickness() {
    for name in demo::names() {
        for by in [-1.0, 1.0] {
            let house = thicker(name, by);
            let (planned, baked) = (solve(&without(&house)), solve(&house));
            // Where a tower is let into a corner, walls of both were cut to each other: icing takes what is left of that.
            let blocked = baked.blocking().map(|f| &f.what).collect::<Vec<_>>();
            assert!(blocked.is_empty(), "{name} {by}: {blocked:?}");
            if house.parts.len() == 1 {
                assert_eq!(clashes(&baked), Vec::<String>::new(), "{name} {by}");
            }
            for piece in baked.pieces.iter().filter(|p| p.baked) {
                let before = planned.pieces.iter().find(|p| p.id == piece.id).unwrap();
                let moved = apart::between(&apart::rings(before), &apart::rings(piece));
                // A knife is thicker than what may be taken off.
                assert!(moved < apart::SAME, "{name} {by}: {} by {moved}", piece.id.0);
            }
        }
    }
}

/// The front and back of the boat hut run through: its depth grows by what both are thicker, its width stays.
#[test]
fn thicker_walls_push_out_what_stops_against_them() {
    let house = thicker("boat-hut", 1.0);
    let Outline::Rectangle { width, depth } = as_it_stands(&house).parts[0].outline else { panic!("no rectangle") };
    assert!((width - mm(140.0)).abs() < mm(1e-9) && (depth - mm(182.0)).abs() < mm(1e-9), "{width:?} {depth:?}");
    let baked = solve(&house);
    let roof = baked.changes.iter().find(|c| c.piece.0 == "hut/roof-left").unwrap();
    let [before, after] = [roof.before, roof.after].map(|e| e.unwrap().width.mm());
    assert!((after - before - 2.0).abs() < 1e-9, "{before} {after}");
    // Laid on each other with the middle of their feet, each end is 1 mm off.
    assert!((roof.moved.mm() - 1.0).abs() < 1e-9);
    assert!(baked.findings.iter().any(|f| f.kind == "worked-anew" && f.what.contains("by up to 1 mm")));
}

/// A lean-to: its high wall is cut to the roof with its inner face, which lies 1 mm farther down the slope now.
#[test]
fn a_roof_lies_on_the_highest_edge_of_baked_walls() {
    let mut house = demo::house("boat-hut").unwrap();
    let overhang = mm(0.0);
    house.parts[0].sides.iter_mut().filter(|s| s.id.0 == "right").for_each(|s| s.top = Top::Gable { overhang });
    house.came_out(&PartId("hut".into()), Batch::Walls);
    let planned = house.as_planned(&PartId("hut".into()), Batch::Walls).unwrap();
    house.baked[0].thickness = planned.thickness.map(|t| t + mm(1.0));
    let eave = |house: &House| {
        let left = house.parts[0].sides.iter().find(|s| s.id.0 == "left").unwrap();
        if let Top::Eave { height, .. } = left.top { height } else { panic!("no eave") }
    };
    // It rises by the pitch of 42 degrees on 1 mm.
    let rise = eave(&as_it_stands(&house)) - eave(&house);
    assert!((rise.mm() - 42f64.to_radians().tan()).abs() < 0.01, "{rise:?}");
    let solved = solve(&house);
    assert_eq!(clashes(&solved), Vec::<String>::new());
    let told = solved.findings.iter().find(|f| f.kind == "icing-fills").unwrap();
    assert!(told.what.contains("are up to 0.9 mm wider than planned"), "{told:?}");
    // The low wall is as it was, and icing over it fills 0.9 mm along its length of 140 mm and more.
    let before = solve(&without(&house));
    let icing =
        |s: &Solved| s.joints.iter().find(|j| j.id.0 == "eave hut/wall-left hut/roof-left").unwrap().wedge.volume;
    let (length, thick) = (140.0, planned.thickness.unwrap().mm());
    assert!(icing(&solved) - icing(&before) > 0.8 * length * thick, "{} {}", icing(&before), icing(&solved));
}

/// Bevels go on through thicker biscuit at their angle, so mitred walls close at their outer corners as before.
#[test]
fn mitred_walls_close_whatever_their_thickness() {
    for by in [-1.0, 1.0] {
        let mut house = thicker("lookout", by);
        house.parts[0].corners = crate::Corners::Mitre;
        let id = house.parts[0].id.clone();
        let thickness = house.baked[0].thickness;
        house.not_baked(&id, Batch::Walls);
        house.came_out(&id, Batch::Walls);
        house.baked[0].thickness = thickness;
        assert_eq!(as_it_stands(&house).parts[0].outline, house.parts[0].outline, "{by}");
        assert_eq!(clashes(&solve(&house)), Vec::<String>::new(), "{by}");
    }
}

#[test]
fn what_sticks_out_of_a_room_and_what_it_leaves() {
    let square = |x: f64, y: f64, side: f64| {
        [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(|(a, b)| gable_plane::P2::new(x + a, y + b)).to_vec()
    };
    let strays = room::strays(&square(0.3, 0.0, 10.0), &square(0.0, 0.0, 10.0));
    assert!(!strays.is_empty() && strays.iter().all(|s| (s.by - 0.3).abs() < 1e-12 && s.edge == 1 && s.out.x > 0.999));
    // Straight over a corner it is the upper edge that is in the way, not the side.
    let strays = room::strays(&square(0.0, 0.5, 10.0), &square(0.0, 0.0, 10.0));
    assert!(
        !strays.is_empty() && strays.iter().all(|s| s.edge == 2),
        "{:?}",
        strays.iter().map(|s| s.edge).collect::<Vec<_>>()
    );
    assert!(room::strays(&square(1.0, 1.0, 8.0), &square(0.0, 0.0, 10.0)).is_empty());
    let left = room::left_over(&square(0.0, 0.0, 10.0), &square(1.0, 2.0, 8.0));
    let area: f64 = left.iter().map(|ring| gable_plane::ring_area(ring)).sum();
    assert!((area - 36.0).abs() < 1e-9, "{area}");
}

#[test]
fn walls_measure_what_was_measured_of_them() {
    let mut house = thicker("boat-hut", 1.0);
    let baked = &mut house.baked[0];
    (baked.width, baked.depth, baked.height) = (Some(mm(143.0)), Some(mm(184.0)), Some(mm(86.5)));
    let stands = as_it_stands(&house);
    let Outline::Rectangle { width, depth } = stands.parts[0].outline else { panic!("no rectangle") };
    assert!((width - mm(143.0)).abs() < mm(1e-9) && (depth - mm(184.0)).abs() < mm(1e-9));
    let solved = solve(&house);
    assert_eq!(clashes(&solved), Vec::<String>::new());
    // Slopes keep their 42 degrees: the ridge is half the width times the tangent above the wall.
    let ridge = 86.5 + 71.5 * 42f64.to_radians().tan();
    assert!((solved.parts[0].ridge_height.mm() - ridge).abs() < 1e-9);
    assert!(solved.pieces.iter().filter(|p| p.baked).all(|p| (p.thickness - mm(8.5)).abs() < mm(1e-9)));
    assert_eq!(solved.pieces.iter().filter(|p| p.baked).count(), 4);
}

#[test]
fn a_baked_gable_stays_when_its_pitch_is_typed_anew() {
    let mut house = thicker("boat-hut", 0.0);
    let before = solve(&house);
    for side in &mut house.parts[0].sides {
        if let crate::Top::Eave { pitch, .. } = &mut side.top {
            *pitch = Pitch::Angle(Angle::degrees(50.0));
        }
    }
    let after = solve(&house);
    // Half the width of 140 times the difference of the tangents: 20.4 mm at the tip.
    let told: Vec<_> = after.findings.iter().filter(|f| f.kind == "baked-would-change").collect();
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(told.iter().all(|f| f.severity == Severity::Blocking));
    let tip = 70.0 * (50f64.to_radians().tan() - 42f64.to_radians().tan());
    let front = |s: &Solved| s.pieces.iter().find(|p| p.id.0 == "hut/wall-front").unwrap().clone();
    let said = told.iter().find(|f| f.place == "parts[0].sides.front").unwrap();
    assert!(tip > 20.0 && said.what.starts_with("Hut: front wall is baked already and would have to change by"));
    // The corners are kept on a grid of 0.001 mm.
    assert!(apart::between(&apart::rings(&front(&before)), &apart::rings(&front(&after))) < 2e-3);
    assert_eq!(front(&after).edges.len(), front(&after).outline.len());
    house.not_baked(&PartId("hut".into()), Batch::Walls);
    assert!(solve(&house).findings.iter().all(|f| f.kind != "baked-would-change"));
}

/// A hip roof lies on level walls: its pitch is nothing to them.
#[test]
fn what_is_no_concern_of_the_walls_may_change() {
    let mut house = thicker("lookout", 0.5);
    for side in &mut house.parts[0].sides {
        if let crate::Top::Eave { pitch, overhang, .. } = &mut side.top {
            (*pitch, *overhang) = (Pitch::Angle(Angle::degrees(48.0)), mm(15.0));
        }
    }
    assert_eq!(clashes(&solve(&house)), Vec::<String>::new());
}

#[test]
fn a_part_that_comes_later_is_cut_to_what_is_baked() {
    let mut house = demo::house("pilot-house").unwrap();
    let tower = house.parts.iter().position(|p| p.stays_whole).unwrap();
    let id = house.parts[tower].id.clone();
    let late = house.parts.remove(tower);
    house.parts.retain(|p| p.place.host() != Some(&id));
    house.forget_lost();
    let main = house.parts[0].id.clone();
    house.came_out(&main, Batch::Walls);
    house.parts.push(late);
    let solved = solve(&house);
    assert_eq!(clashes(&solved), Vec::<String>::new());
    assert!(solved.findings.iter().any(|f| f.kind == "whole-because-baked"));
}

#[test]
fn a_roof_that_is_baked_first_is_told() {
    let mut house = demo::house("boat-hut").unwrap();
    house.came_out(&PartId("hut".into()), Batch::Roof);
    assert!(solve(&house).findings.iter().any(|f| f.kind == "roof-baked-first"));
    house.came_out(&PartId("hut".into()), Batch::Walls);
    assert!(solve(&house).findings.iter().all(|f| f.kind != "roof-baked-first"));
}

#[test]
fn a_baked_lid_of_a_part_without_one_is_told() {
    let mut house = demo::house("boat-hut").unwrap();
    house.came_out(&PartId("hut".into()), Batch::Walls);
    house.came_out(&PartId("hut".into()), Batch::Lid);
    let findings = solve(&house).findings;
    let told: Vec<&str> = findings.iter().filter(|f| f.kind == "baked-nothing").map(|f| f.what.as_str()).collect();
    assert_eq!(told, ["a lid of Hut is said to be baked, but the part has none"], "{findings:?}");
}
