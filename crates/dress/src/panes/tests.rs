use super::*;
use crate::dress;
use gable_measure::Angle;
use gable_plane::{P3, ring_area};
use gable_shell::{Bars, Door, Hinge, Repeat, Shape, SideId, Surface, Tier, solve};

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

fn glazed(shape: Shape, side: &str, width: f64, height: f64) -> Opening {
    let mut opening = Opening {
        id: OpeningId("window".into()),
        name: "Window".into(),
        side: SideId(side.into()),
        shape,
        width: mm(width),
        height: mm(height),
        sill: mm(25.0),
        mode: Mode::Glazed,
        ..Opening::default()
    };
    opening.settle();
    opening
}

fn house(opening: Opening) -> House {
    let mut house = House::simple(Unit::Millimetre);
    house.parts[0].outline = gable_shell::Outline::Rectangle { width: mm(200.0), depth: mm(160.0) };
    house.parts[0].openings = vec![opening];
    house
}

fn dressed(house: &House) -> (gable_shell::Solved, crate::Dressed) {
    let solved = solve(house);
    let dressed = dress(house, &solved);
    (solved, dressed)
}

/// Closed form of a rectangle let out by m with sharp corners: (w + 2m)(h + 2m); and its place flat on the inner face.
#[test]
fn a_leaf_reaches_past_its_window_and_lies_on_the_inner_face() {
    let house = house(glazed(Shape::Rectangle, "right", 24.0, 30.0));
    let (solved, dressed) = dressed(&house);
    let pane = &dressed.panes[0];
    assert!((pane.outline.area() - 36.0 * 42.0).abs() < 1e-6, "{}", pane.outline.area());
    let wall = &solved.pieces[pane.piece];
    let inside = pane.house_from_pane * P3::new(50.0, 30.0, 0.0);
    // The right wall's outer face is at x = 100; its inner face a thickness nearer to the middle.
    assert!((inside.x - (100.0 - wall.thickness.mm())).abs() < 1e-9, "{inside}");
    let far = pane.house_from_pane * P3::new(50.0, 30.0, pane.thickness.mm());
    assert!(far.x < inside.x);
    assert_eq!(dressed.findings, []);
}

#[test]
fn sugar_fills_the_opening_and_leaves_under_a_slope_lie_below_it() {
    let mut poured = glazed(Shape::Circle, "front", 24.0, 24.0);
    poured.glazing.glass = Glass::Poured;
    let (_, filled) = dressed(&house(poured));
    assert!((filled.panes[0].outline.area() - std::f64::consts::PI * 144.0).abs() < 1e-9);
    let mut skylight = glazed(Shape::Rectangle, "right", 24.0, 24.0);
    (skylight.face, skylight.sill) = (Surface::Slope(Tier::Single), mm(35.0));
    let (solved, found) = dressed(&house(skylight));
    let pane = &found.panes[0];
    let below = solved.pieces[pane.piece].house_from_piece.inverse() * (pane.house_from_pane * P3::origin());
    assert!((below.z + pane.thickness.mm()).abs() < 1e-9, "{below}");
}

#[test]
fn leaves_side_by_side_share_the_strip_between_them() {
    let mut row = glazed(Shape::Rectangle, "front", 20.0, 30.0);
    row.repeat = Some(Repeat { across: 3, up: 1, gap: Some(mm(8.0)), gap_up: mm(8.0) });
    let (_, found) = dressed(&house(row));
    // 6 mm at the ends, half of 8 mm between.
    let widths = [20.0 + 6.0 + 4.0, 20.0 + 4.0 + 4.0, 20.0 + 4.0 + 6.0];
    for (pane, width) in found.panes.iter().zip(widths) {
        assert!((pane.outline.area() - width * 42.0).abs() < 1e-6);
    }
    assert!(found.findings.iter().all(|f| f.kind != "pane-clash"), "{:?}", found.findings);
}

#[test]
fn wide_windows_are_glazed_in_parts_that_meet_under_a_bar() {
    let mut wide = glazed(Shape::Rectangle, "front", 120.0, 66.0);
    wide.sill = mm(15.0);
    wide.glazing.bars = Bars::Grid { across: 4, up: 1 };
    let (_, found) = dressed(&house(wide.clone()));
    assert_eq!(found.panes.len(), 2, "78 is more than a leaf of 70 is wide, so two leaves stand upright, 66 wide each");
    assert!(found.findings.iter().all(|f| f.kind != "leaf-too-small"), "{:?}", found.findings);
    let total: f64 = found.panes.iter().map(|p| p.outline.area()).sum();
    assert!((total - 132.0 * 78.0).abs() < 1e-6);
    wide.glazing.bars = Bars::None;
    let (_, bare) = dressed(&house(wide));
    assert!(bare.findings.iter().any(|f| f.kind == "leaf-too-small"));
}

#[test]
fn a_door_is_what_was_cut_out_less_the_clearance_and_swings_outwards() {
    let mut arch = glazed(Shape::Rectangle, "front", 40.0, 60.0);
    (arch.mode, arch.sill) = (Mode::Cut, Length::ZERO);
    for hinge in [Hinge::Left, Hinge::Right] {
        arch.door = Some(Door { hinge, ajar: Angle::degrees(30.0), clearance: mm(1.0), double: false });
        let (solved, found) = dressed(&house(arch.clone()));
        let door = &found.doors[0];
        assert!((door.outline.area() - 38.0 * 58.0).abs() < 1e-6);
        let (low, high) = door.outline.bounds();
        let ends = [low.x, high.x].map(|x| door.house_from_door * P3::new(x, 30.0, 0.0));
        // The front looks to -y: the free edge is 38 sin 30° before it, the other stays.
        let mut out = ends.map(|p| -80.0 - p.y);
        out.sort_by(f64::total_cmp);
        assert!(out[0].abs() < 1e-9 && (out[1] - 19.0).abs() < 1e-9, "{out:?}");
        let free = ends.iter().min_by(|a, b| a.y.total_cmp(&b.y)).unwrap();
        assert_eq!(free.x > 0.0, hinge == Hinge::Left, "hinges on the left seen from outside: the free edge is right");
        assert!(found.findings.iter().all(|f| f.kind != "pane-clash"), "{:?}", found.findings);
        assert!(solved.blocking().next().is_none());
    }
}

#[test]
fn double_doors_have_a_line_down_the_middle() {
    let mut door = glazed(Shape::RoundHeaded, "front", 40.0, 60.0);
    (door.mode, door.sill) = (Mode::Pressed, Length::ZERO);
    door.door = Some(Door { double: true, ..Door::default() });
    let (_, found) = dressed(&house(door));
    let [a, b] = found.opening_lines[0].ends;
    assert!(found.opening_lines[0].pressed && ((b - a).norm() - 60.0).abs() < 0.02);
    assert!(found.doors.is_empty());
}

#[test]
fn a_window_with_a_wall_behind_it_is_dark() {
    let mut house = house(glazed(Shape::Rectangle, "front", 24.0, 30.0));
    let mut second = house.parts[0].clone();
    second.id = gable_shell::PartId("shed".into());
    second.openings.clear();
    second.outline = gable_shell::Outline::Rectangle { width: mm(90.0), depth: mm(60.0) };
    let (_, alone) = dressed(&house);
    assert!(alone.findings.iter().all(|f| f.kind != "glazing-without-light"));
    // A shed inside the house, its front wall right behind the window.
    let spot = gable_shell::Spot { y: mm(-80.0 + 30.0 + 12.0), ..gable_shell::Spot::default() };
    second.place = gable_shell::Place::Ground(spot);
    house.parts.push(second);
    let solved = solve(&house);
    let found = dress(&house, &solved);
    let shed = solved.pieces.iter().any(|p| p.id.0 == "shed/wall-front");
    assert!(!shed || found.findings.iter().any(|f| f.kind == "glazing-without-light"), "{:?}", found.findings);
}

#[test]
fn convex_pieces_make_up_an_area_with_a_hole() {
    let ring = |points: &[(f64, f64)]| points.iter().map(|&(x, y)| P2::new(x, y)).collect::<Vec<P2>>();
    let rings = [
        ring(&[(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (20.0, 10.0), (0.0, 30.0)]),
        ring(&[(5.0, 5.0), (5.0, 9.0), (9.0, 9.0), (9.0, 5.0)]),
    ];
    let pieces = flat::convex_pieces(&rings);
    let total: f64 = pieces.iter().map(|r| ring_area(r)).sum();
    assert!((total - (40.0 * 30.0 - 20.0 * 20.0 - 16.0)).abs() < 1e-3, "{total}");
}

/// A dormer whose host's roof stays whole behind it is a closed box; a passage lets the light of the house in.
#[test]
fn a_dormer_without_a_passage_is_dark() {
    let house = gable_shell::demo::house("pilot-house").unwrap();
    let dormer = house.parts.iter().position(|p| p.id.0.contains("dormer")).unwrap();
    let dark = |behind: gable_shell::Behind| {
        let mut house = house.clone();
        house.parts[dormer].behind = behind;
        house.parts[dormer].openings.iter_mut().for_each(|o| o.mode = Mode::Glazed);
        let solved = solve(&house);
        let found = dress(&house, &solved).findings;
        found.iter().any(|f| f.kind == "glazing-without-light" && f.place.starts_with(&format!("parts[{dormer}]")))
    };
    assert!(dark(gable_shell::Behind::Whole));
    assert!(!dark(gable_shell::Behind::Passage { rim: mm(6.0) }));
}
