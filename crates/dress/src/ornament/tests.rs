use super::*;
use gable_measure::Finding;
use gable_plane::{P2, P3, ring_area};
use gable_shell::{Ornament, PartId, demo, solve};

fn dressed(name: &str, kinds: &[(OrnamentKind, &str)]) -> (House, Solved, Vec<OrnamentPiece>, Vec<Finding>) {
    let mut house = demo::house(name).unwrap();
    let usual = |(kind, part): &(OrnamentKind, &str)| Ornament::usual(*kind, PartId((*part).to_owned()));
    house.dressing.ornaments = kinds.iter().map(usual).collect();
    let solved = solve(&house);
    house.dressing.finishes.clear();
    house.dressing.extras.clear();
    let crate::Dressed { ornaments: pieces, findings, .. } = crate::dress(&house, &solved);
    (house, solved, pieces, findings)
}

#[test]
fn shutters_are_half_their_window_each_and_lie_beside_it_on_the_wall() {
    let (house, solved, pieces, findings) = dressed("pilot-house", &[(OrnamentKind::Shutters, "tower")]);
    let part = house.part(&PartId("tower".to_owned())).unwrap();
    let windows: Vec<&Opening> = part.openings.iter().filter(|o| o.sill.mm() > 1.0).collect();
    // Windows behind the main body are on walls of the tower all the same.
    assert_eq!(pieces.len(), 2 * windows.len());
    for pair in pieces.chunks(2) {
        let window = windows.iter().find(|o| pair[0].id.contains(&format!("/{}/", o.id.0))).unwrap();
        // Exact area of the outline with its arcs, which the two leaves only approach with chords.
        let host = &solved.pieces[pair[0].host.unwrap()];
        let area = host.openings.iter().find(|o| o.id == window.id).unwrap().contour.area().abs();
        let sum = pair[0].area() + pair[1].area();
        assert!((sum - area).abs() < 0.01 * area, "{sum} {area}");
        for leaf in pair {
            let host = &solved.pieces[leaf.host.unwrap()];
            let flat = |p: &P2| {
                host.house_from_piece.inverse_transform_point(&(leaf.house_from_piece * P3::new(p.x, p.y, 0.0)))
            };
            assert!(leaf.outline.iter().all(|p| flat(p).z.abs() < 1e-9), "its back lies on the wall");
            let out = host.house_from_piece.inverse() * (leaf.house_from_piece * gable_plane::V3::z());
            assert!((out.z + 1.0).abs() < 1e-9, "its good face looks out");
        }
    }
    assert!(findings.iter().all(|f| f.kind == "ornament-in-the-way"));
}

#[test]
fn all_rings_run_counter_clockwise_and_their_parts_make_them_up() {
    let kinds = OrnamentKind::ALL.map(|(_, kind)| (kind, "main"));
    let (_, _, pieces, _) = dressed("pilot-house", &kinds);
    for kind in OrnamentKind::ALL
        .map(|(_, kind)| kind)
        .iter()
        .filter(|k| !matches!(k, OrnamentKind::HipCap | OrnamentKind::ChimneyCap))
    {
        assert!(pieces.iter().any(|p| p.id.contains(kind.word())), "{kind:?}");
    }
    for piece in &pieces {
        assert!(ring_area(&piece.outline) > 0.0 || piece.holes.is_empty(), "{}", piece.id);
        let parts: f64 = piece.parts.iter().map(|p| ring_area(p).abs()).sum();
        let area = piece.area();
        assert!((parts - area).abs() < 1e-6 * area.max(1.0), "{}: {parts} {area}", piece.id);
    }
}

#[test]
fn a_surround_is_as_wide_as_it_says_all_round() {
    let (house, _, pieces, _) = dressed("net-store", &[(OrnamentKind::Surround, "store")]);
    let part = &house.parts[0];
    for piece in &pieces {
        let opening = part.openings.iter().find(|o| piece.id.contains(&format!("/{}/", o.id.0))).unwrap();
        if opening.shape != gable_shell::Shape::Rectangle {
            continue;
        }
        let (w, h, b) = (opening.width.mm(), opening.height.mm(), 3.5);
        // Closed form: a frame, or one without its lower bar.
        let frame = (w + 2.0 * b) * (h + 2.0 * b) - w * h;
        let expected = if opening.sill.mm() > 1.0 { frame } else { frame - b * (w + 2.0 * b) };
        assert!((piece.area() - expected).abs() < 1e-6, "{}: {} {expected}", piece.id, piece.area());
    }
    assert!(!pieces.is_empty());
}

#[test]
fn boards_and_caps_of_a_plain_gable_stand_clear_of_everything() {
    let kinds = [OrnamentKind::Bargeboard, OrnamentKind::Fascia, OrnamentKind::RidgeCap].map(|k| (k, "hut"));
    let (_, solved, pieces, findings) = dressed("boat-hut", &kinds);
    assert_eq!(findings, [], "{findings:?}");
    let count = |word: &str| pieces.iter().filter(|p| p.id.contains(word)).count();
    assert_eq!((count("bargeboard"), count("ridge-cap")), (4, 2));
    // Their solids share nothing with any biscuit, by the library's own clipping; the clash check looks at slimmer ones.
    let lowest = pieces.iter().flat_map(|p| p.solids()).map(|s| s.bounds().0.z).fold(f64::INFINITY, f64::min);
    assert!(lowest > 0.0 && solved.pieces.len() > 4);
}

#[test]
fn caps_are_broken_where_a_chimney_stands_on_the_ridge() {
    let (_, solved, pieces, findings) = dressed("pilot-house", &[(OrnamentKind::RidgeCap, "main")]);
    let chimney = solved.pieces.iter().filter(|p| p.part.0 == "chimney");
    assert!(chimney.count() >= 4);
    // Two slopes, each with a strip before and one behind the chimney.
    assert!(pieces.len() >= 4, "{}", pieces.len());
    assert_eq!(findings, []);
}

/// Four boards make a box: by volume they share nothing, and its ends reach from the wall to its front.
#[test]
fn a_window_box_is_closed_at_its_ends() {
    let (_, solved, pieces, _) = dressed("pilot-house", &[(OrnamentKind::WindowBox, "main")]);
    assert!(!pieces.is_empty() && pieces.len() % 4 == 0, "{}", pieces.len());
    for made in pieces.chunks(4) {
        let host = &solved.pieces[made[0].host.unwrap()];
        let to_wall = host.house_from_piece.inverse();
        let solids: Vec<_> = made.iter().map(|p| p.solids().remove(0)).collect();
        for k in 0..4 {
            for other in &solids[k + 1..] {
                assert!(solids[k].shared_with(other) < 1e-6);
            }
        }
        // Out of a wall is against z of its piece.
        if !host.reference_is_outside() {
            continue;
        }
        let reach = |s: &gable_plane::Solid| s.moved(&to_wall).bounds();
        let (front, ends) = (reach(&solids[1]), [reach(&solids[2]), reach(&solids[3])]);
        for (low, high) in ends {
            assert!(high.z.abs() < 1e-6 && (low.z - front.1.z).abs() < 1e-6, "{low} {high} {front:?}");
            assert!(low.x >= front.0.x - 1e-6 && high.x <= front.1.x + 1e-6, "{low} {high} {front:?}");
        }
    }
}

#[test]
fn caps_of_a_spire_meet_at_its_tip_and_share_nothing() {
    let (_, _, pieces, findings) = dressed("lookout", &[(OrnamentKind::HipCap, "tower")]);
    assert!(pieces.len() >= 12, "{}", pieces.len());
    assert_eq!(findings, []);
    // By clipping each solid with the faces of the others, with nothing taken off them first.
    let solids: Vec<gable_plane::Solid> = pieces.iter().flat_map(OrnamentPiece::solids).collect();
    for (k, one) in solids.iter().enumerate() {
        for other in &solids[..k] {
            let shared = other.half_spaces().iter().try_fold(one.clone(), |s, half| s.clip(half));
            assert!(shared.is_none_or(|s| s.volume() < 1e-6));
        }
    }
}

#[test]
fn bargeboards_of_a_gambrel_end_under_the_slope_over_the_knee() {
    let mut house = demo::house("boat-hut").unwrap();
    gable_shell::RoofForm::Gambrel.apply_in(&mut house.parts[0], house.unit);
    let id = house.parts[0].id.clone();
    house.dressing = gable_shell::Dressing::default();
    house.dressing.ornaments = vec![Ornament::usual(OrnamentKind::Bargeboard, id)];
    let solved = solve(&house);
    let pieces = ornaments(&house, &solved);
    assert_eq!(pieces.len(), 8, "two gables, four slopes");
    let slopes: Vec<&Piece> = solved.pieces.iter().filter(|p| matches!(p.role, Role::Slope(..))).collect();
    for piece in &pieces {
        let own = &solved.pieces[piece.host.unwrap()];
        for slope in slopes.iter().filter(|s| s.role.side() == own.role.side()) {
            for corner in &piece.outline {
                let at = slope
                    .house_from_piece
                    .inverse_transform_point(&(piece.house_from_piece * P3::new(corner.x, corner.y, 0.0)));
                assert!(at.z <= slope.thickness.mm() + 1e-6, "{} sticks up {} over {:?}", piece.id, at.z, slope.id);
            }
        }
    }
}
