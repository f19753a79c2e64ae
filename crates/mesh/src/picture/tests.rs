use super::*;
use crate::region::holds;
use crate::sample::{self, ring};
use crate::{Fold, solid_of};
use gable_drawing::{Fill, Item, Shade};
use gable_measure::Angle;
use gable_plane::{P2, Segment, V3};
use gable_shell::{Piece, Role, SideId, Tier, demo, solve};

/// The faces of a scene as triangles with their outward normals.
fn triangles(solved: &Solved, poses: &[Rigid]) -> Vec<([P3; 3], V3)> {
    let of = |(piece, pose): (&Piece, &Rigid)| {
        let solid = solid_of(piece);
        let corner = |i: u32| pose * solid.positions[i as usize];
        let placed = |t: &[u32; 3]| {
            let [a, b, c] = t.map(corner);
            ([a, b, c], (b - a).cross(&(c - a)).normalize())
        };
        solid.triangles.iter().map(placed).collect::<Vec<_>>()
    };
    std::iter::zip(&solved.pieces, poses).flat_map(of).collect()
}

/// Normal of the face that a ray from the eye through a point of the picture meets first, found triangle by triangle.
fn first_met(scene: &[([P3; 3], V3)], camera: &Camera, at: P2) -> Option<V3> {
    let met = scene.iter().filter_map(|(corners, normal)| {
        let flat = corners.map(|p| camera.flat(&p));
        let area = (flat[1] - flat[0]).perp(&(flat[2] - flat[0]));
        let part = |i: usize| (flat[(i + 1) % 3] - at).perp(&(flat[(i + 2) % 3] - at)) / area;
        let parts = [part(0), part(1), part(2)];
        let inside = area.abs() > 1e-9 && parts.iter().all(|&p| p >= 0.0);
        let near: f64 = std::iter::zip(parts, corners).map(|(p, c)| p * camera.nearness(c)).sum();
        inside.then_some((near, *normal))
    });
    met.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, normal)| normal)
}

/// Light of the fill that was painted last over a point; `None` for bare paper.
fn painted(fills: &[&Fill], at: P2) -> Option<f64> {
    let over = |f: &&&Fill| f.rings.iter().filter(|r| holds(r, at)).count() % 2 == 1;
    fills.iter().rev().find(over).map(|f| if let Shade::Biscuit { light } = f.shade { light } else { f64::NAN })
}

/// Compares a picture with rays on a grid. Points less than 0.5 mm from the end of a face are passed over: there lie
/// seams and chords. Returns how many points were compared.
fn agrees_with_rays(name: &str, solved: &Solved, poses: &[Rigid], azimuth: f64, elevation: f64) -> usize {
    let mut view = View::from(Angle::degrees(azimuth), Angle::degrees(elevation));
    (view.board, view.icing) = (false, false);
    let sheet = picture_of(solved, poses, false, &view);
    let fills: Vec<&Fill> =
        sheet.items.iter().filter_map(|i| if let Item::Fill(f) = i { Some(f) } else { None }).collect();
    let (camera, scene) = (Camera::new(&view), triangles(solved, poses));
    let corners: Vec<P2> = scene.iter().flat_map(|(t, _)| t.map(|p| camera.flat(&p))).collect();
    let (low, high) = gable_plane::bounds(&corners).unwrap();
    let scale = (sheet.width - 8.0) / (high.x - low.x);
    let mut compared = 0;
    for k in 0..36 * 36 {
        let share = |n: usize| (n as f64 + 0.37) / 36.0;
        let at = P2::new(low.x + (high.x - low.x) * share(k % 36), low.y + (high.y - low.y) * share(k / 36));
        let light = |p: P2| first_met(&scene, &camera, p).map(|n| camera.light(&n));
        let expected = light(at);
        let same = |a: Option<f64>, b: Option<f64>| match (a, b) {
            (Some(a), Some(b)) => (a - b).abs() < 1e-6,
            (a, b) => a.is_none() && b.is_none(),
        };
        let around = [(0.5, 0.0), (-0.5, 0.0), (0.0, 0.5), (0.0, -0.5)];
        if !around.iter().all(|&(x, y)| same(light(at + gable_plane::V2::new(x, y) / scale), expected)) {
            continue;
        }
        let found = painted(&fills, P2::new(4.0 + (at.x - low.x) * scale, 4.0 + (at.y - low.y) * scale));
        assert!(same(found, expected), "{name} from {azimuth}, {elevation} at {at:?}: {found:?}, not {expected:?}");
        compared += usize::from(expected.is_some());
    }
    compared
}

#[test]
fn pictures_show_what_a_ray_meets_first() {
    for name in demo::names() {
        let solved = solve(&demo::house(name).unwrap());
        let fold = Fold::of(&solved);
        let mut poses = [1.0, 0.6, 0.0].map(|s| fold.at(s)).to_vec();
        poses.push(crate::pose(&solved, Pose::Exploded(1.0)));
        let views = [[(30.0, 25.0), (75.0, -20.0)], [(-130.0, 12.0), (200.0, 60.0)]];
        for (poses, views) in std::iter::zip(&poses, views.iter().cycle()) {
            for &(azimuth, elevation) in views {
                let compared = agrees_with_rays(name, &solved, poses, azimuth, elevation);
                assert!(compared > 50, "{name} {compared}");
            }
        }
    }
}

/// Three bars, each of which lies over the next: no order of whole bars is right.
#[test]
fn bars_that_lie_over_each_other_in_a_ring_are_cut() {
    let mut solved = sample::gable();
    let bar = ring(&[(-50.0, -6.0), (50.0, -6.0), (50.0, 6.0), (-50.0, 6.0)]);
    let turned = |k: usize| {
        let (sin, cos) = (k as f64 * 120f64.to_radians()).sin_cos();
        // Along x it climbs, so that its far end lies over the near end of the next.
        let (along, across) = (V3::new(cos, sin, 0.35).normalize(), V3::new(-sin, cos, 0.0));
        let role = Role::Slope(SideId(k.to_string()), Tier::Single);
        sample::plate(role, &bar, 3.0, P3::from(across * -18.0), along, across)
    };
    solved.pieces = (0..3).map(turned).collect();
    let poses: Vec<Rigid> = solved.pieces.iter().map(|p| p.house_from_piece).collect();
    assert!(agrees_with_rays("bars", &solved, &poses, 0.0, 89.0) > 40);
    assert!(agrees_with_rays("bars", &solved, &poses, 20.0, 70.0) > 40);
}

#[test]
fn a_picture_is_as_wide_as_asked_and_keeps_its_margin() {
    let solved = sample::gable();
    let sheet = picture(&solved, Pose::Standing, &View::from(Angle::degrees(30.0), Angle::degrees(20.0)));
    assert!((sheet.width - 160.0).abs() < 1e-9);
    let points = sheet.items.iter().flat_map(|item| match item {
        Item::Stroke(s) => std::iter::once(s.start).chain(s.segments.iter().map(Segment::to)).collect(),
        Item::Fill(f) => f.rings.concat(),
        Item::Text(t) => vec![t.at],
    });
    let (low, high) = gable_plane::bounds(&points.collect::<Vec<P2>>()).unwrap();
    for (found, wanted) in [(low.x, 4.0), (low.y, 4.0), (high.x, 156.0), (high.y, sheet.height - 4.0)] {
        assert!((found - wanted).abs() < 0.2, "{found} {wanted}");
    }
}

#[test]
fn nothing_to_show_is_an_empty_sheet() {
    let mut solved = sample::gable();
    solved.pieces.clear();
    let sheet = picture(&solved, Pose::Fold(0.3), &View::from(Angle::radians(f64::NAN), Angle::ZERO));
    assert!(sheet.items.is_empty() && sheet.height.is_finite());
}

/// Panes show from outside and from inside, the far ones through the near ones, and never over the face of their wall.
#[test]
fn panes_are_seen_from_both_sides() {
    let house = demo::house("boat-hut").unwrap();
    let solved = solve(&house);
    let dressed = gable_dress::dress(&house, &solved);
    let glazed = |poses: &[Rigid], azimuth: f64| {
        let view = View::from(Angle::degrees(azimuth), Angle::degrees(10.0));
        let sheet = super::dressed_picture_of(&solved, &dressed, poses, false, &view);
        let clear = |i: &Item| matches!(i, Item::Fill(f) if f.shade.is_clear());
        sheet.items.iter().filter(|i| clear(i)).count()
    };
    let standing: Vec<Rigid> = solved.pieces.iter().map(|p| p.house_from_piece).collect();
    let pane = &dressed.panes[0];
    // The piece of one pane alone: seen from before it and from behind it.
    let alone: Vec<Rigid> = standing
        .iter()
        .enumerate()
        .map(|(k, p)| if k == pane.piece { *p } else { Rigid::translation(0.0, 0.0, -1e4 * (k + 1) as f64) * p })
        .collect();
    let both = [20.0, 200.0].map(|azimuth| glazed(&alone, azimuth));
    assert!(both.iter().all(|n| *n > 0) && both[0] == both[1], "{both:?}");
}

/// A plate whose faces are both exactly edge-on has nobody else to draw the long lines of its cut edges.
#[test]
fn a_plate_seen_edge_on_has_lines_all_round() {
    let corners = [(0.0, 0.0), (80.0, 0.0), (80.0, 50.0), (0.0, 50.0)];
    let wall = sample::plate(Role::Wall(SideId("left".into())), &ring(&corners), 6.0, P3::origin(), V3::y(), V3::z());
    let camera = Camera::new(&View::from(Angle::ZERO, Angle::degrees(20.0)));
    let found = super::facet::facets(&crate::region::Region::of(&wall, 0.1), 6.0, &wall.house_from_piece, &camera);
    assert_eq!(found.len(), 2);
    assert!(found.iter().flat_map(|f| f.roles.iter().flatten()).all(Option::is_some), "{found:?}");
}
