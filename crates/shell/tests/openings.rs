//! Openings as they lie in their pieces: areas by closed forms, rows that follow the wall, frames, skylights.

use gable_measure::{Length, Severity, Unit};
use gable_plane::{Contour, P2, bounds, ring_area, ring_contains};
use gable_shell::{
    House, Mode, Opening, OpeningId, Outline, Piece, Placing, Repeat, RoofForm, Shape, SideId, Solved, Surface, Tier,
    solve,
};
use proptest::prelude::*;
use std::f64::consts::PI;

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

fn window(shape: Shape, side: &str, width: f64, height: f64) -> Opening {
    let mut opening = Opening {
        id: OpeningId("window".into()),
        name: "Window".into(),
        side: SideId(side.into()),
        shape,
        width: mm(width),
        height: mm(height),
        sill: mm(25.0),
        ..Opening::default()
    };
    opening.settle();
    opening
}

fn with(opening: Opening) -> House {
    let mut house = House::simple(Unit::Millimetre);
    house.parts[0].outline = Outline::Rectangle { width: mm(200.0), depth: mm(160.0) };
    house.parts[0].openings = vec![opening];
    house
}

fn piece<'a>(solved: &'a Solved, id: &str) -> Option<&'a Piece> {
    solved.pieces.iter().find(|p| p.id.0 == id)
}

/// Closed forms: half circle, segment of a circle, sectors of an equilateral arch, circle, ellipse, polygon of n sides.
#[test]
fn every_shape_takes_its_area_out_of_the_wall() {
    let hexagon = |width: f64| 6.0 / 2.0 * (width / 2.0).powi(2) * (PI / 3.0).sin();
    let segment = |w: f64, rise: f64| {
        let r = (w * w / 4.0 + rise * rise) / (2.0 * rise);
        let angle = 2.0 * (w / 2.0 / r).asin();
        r * r / 2.0 * (angle - angle.sin())
    };
    let pointed = |w: f64| w * w * (PI / 3.0 - 3f64.sqrt() / 4.0) - w * w * 3f64.sqrt() / 2.0;
    let cases = [
        (Shape::Rectangle, 24.0 * 40.0, 1e-9),
        (Shape::RoundHeaded, 24.0 * 28.0 + PI * 72.0, 1e-9),
        (Shape::Segmental { rise: mm(5.0) }, 24.0 * 35.0 + segment(24.0, 5.0), 1e-9),
        (Shape::Pointed { radius: 1.0 }, 24.0 * 40.0 + pointed(24.0), 1e-9),
        (Shape::Circle, PI * 144.0, 1e-9),
        (Shape::Ellipse, PI * 12.0 * 20.0, 0.005 * 110.0),
        (Shape::Fanlight, PI * 72.0, 1e-9),
        (Shape::Regular { corners: 6 }, hexagon(24.0), 1e-9),
        (Shape::Free { corners: vec![[0.0, 0.0], [1.0, 0.0], [0.5, 1.0]] }, 24.0 * 20.0, 1e-9),
        // A round-headed outline drawn 12 by 20, with its arc as an arc.
        (path("M0 20 V6 A6 6 0 0 1 12 6 V20 Z"), 24.0 * 28.0 + PI * 72.0, 1e-9),
        // Two thirds of the box under a parabola.
        (path("M0 0 Q5 -10 10 0 Z"), 24.0 * 40.0 * 2.0 / 3.0, 0.005 * 110.0),
    ];
    for (shape, area, within) in cases {
        let solved = solve(&with(window(shape.clone(), "right", 24.0, 40.0)));
        assert!(solved.findings.iter().all(|f| f.severity == Severity::Note), "{shape:?} {:?}", solved.findings);
        let wall = piece(&solved, "main/wall-right").unwrap();
        let found = wall.openings[0].contour.area();
        assert!((found - area).abs() < within, "{shape:?}: {found} and not {area}");
    }
}

/// In a wall's piece x runs against what one sees from outside: a shape that leans to the right there leans to the left.
#[test]
fn shapes_without_symmetry_are_seen_from_outside_as_they_were_drawn() {
    let leaning = Shape::Free { corners: vec![[0.0, 0.0], [0.4, 0.0], [1.0, 1.0], [0.6, 1.0]] };
    let solved = solve(&with(window(leaning.clone(), "front", 24.0, 40.0)));
    let wall = piece(&solved, "main/wall-front").unwrap();
    let ring = wall.openings[0].contour.flatten(1.0);
    assert!(ring_area(&ring) > 0.0);
    let place = |p: &P2| wall.house_from_piece * gable_plane::P3::new(p.x, p.y, 0.0);
    // The front looks to -y, so that right is +x for who looks at it.
    let top = ring.iter().map(place).filter(|p| p.z > 60.0).map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
    let foot = ring.iter().map(place).filter(|p| p.z < 30.0).map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
    assert!((top - foot - 0.6 * 24.0).abs() < 1e-6, "{top} {foot}");
    let mut skylight = window(leaning, "right", 24.0, 30.0);
    (skylight.face, skylight.sill) = (Surface::Slope(Tier::Single), mm(30.0));
    let solved = solve(&with(skylight));
    let slope = piece(&solved, "main/roof-right").unwrap();
    assert!(ring_area(&slope.openings[0].contour.flatten(1.0)) > 0.0, "{:?}", solved.findings);
}

#[test]
fn rows_with_equal_margins_follow_the_wall() {
    let mut row = window(Shape::Rectangle, "right", 16.0, 20.0);
    row.repeat = Some(Repeat { across: 3, up: 2, gap: None, gap_up: mm(9.0) });
    for depth in [140.0, 160.0, 187.0] {
        let mut house = with(row.clone());
        house.parts[0].outline = Outline::Rectangle { width: mm(200.0), depth: mm(depth) };
        let solved = solve(&house);
        let wall = piece(&solved, "main/wall-right").unwrap();
        assert_eq!(wall.openings.iter().map(|o| o.copy).collect::<Vec<_>>(), [0, 1, 2, 3, 4, 5]);
        let boxes: Vec<(P2, P2)> = wall.openings.iter().map(|o| o.contour.bounds()).collect();
        let margin = (depth - 48.0) / 4.0;
        // From the left seen from outside, and so from the right of the piece.
        for (k, (low, high)) in boxes.iter().enumerate() {
            let left = depth - high.x;
            assert!((left - margin - (k % 3) as f64 * (16.0 + margin)).abs() < 1e-9, "{depth} {k} {left}");
            assert!((low.y - 25.0 - (k / 3) as f64 * 29.0).abs() < 1e-9);
        }
    }
}

#[test]
fn rows_with_typed_spaces_are_placed_as_a_whole() {
    let mut row = window(Shape::Circle, "front", 16.0, 16.0);
    row.repeat = Some(Repeat { across: 3, up: 1, gap: Some(mm(6.0)), gap_up: mm(9.0) });
    row.placing = Placing::FromRight { distance: mm(30.0) };
    let solved = solve(&with(row));
    let wall = piece(&solved, "main/wall-front").unwrap();
    let all: Vec<P2> = wall.openings.iter().flat_map(|o| o.contour.flatten(0.01)).collect();
    let (low, high) = bounds(&all).unwrap();
    assert!((low.x - 30.0).abs() < 1e-9 && (high.x - low.x - 60.0).abs() < 1e-9);
}

/// Fields and bars make up the face: three fields of 200 - 2 x 8 less two bars of 8, and so on; corners keep the width of
/// the walls behind them.
#[test]
fn a_whole_wall_can_be_a_frame() {
    let frame = window(Shape::WholeFace { across: 3, up: 2, bar: mm(9.0) }, "right", 0.0, 0.0);
    let house = with(frame);
    let solved = solve(&house);
    let wall = piece(&solved, "main/wall-right").unwrap();
    assert_eq!(wall.openings.len(), 6, "{:?}", solved.findings);
    let (low, high) = bounds(&wall.outline).unwrap();
    let thickness = house.doughs[0].baked().mm();
    // The side walls stand before and behind: the inside ends a thickness from the corners of the plan.
    let (left, right) = (low.x.max(0.0) + 9.0, high.x.min(160.0) - 9.0);
    let (left, right) = (left.max(thickness), right.min(160.0 - thickness));
    let width = (right - left - 18.0) / 3.0;
    let height = (high.y - low.y - 27.0) / 2.0;
    for field in &wall.openings {
        let (a, b) = field.contour.bounds();
        assert!((b.x - a.x - width).abs() < 0.01 && (b.y - a.y - height).abs() < 0.8, "{a} {b} {width} {height}");
    }
}

#[test]
fn a_gable_as_a_frame_has_fields_cut_along_the_rake() {
    let frame = window(Shape::WholeFace { across: 4, up: 4, bar: mm(6.0) }, "front", 0.0, 0.0);
    let solved = solve(&with(frame));
    let wall = piece(&solved, "main/wall-front").unwrap();
    let slanted = |c: &Contour| c.segments().len() != 4 || c.area() < 0.99 * box_area(c);
    assert!(wall.openings.iter().any(|o| slanted(&o.contour)) && wall.openings.len() > 8);
    for (k, one) in wall.openings.iter().enumerate() {
        for other in &wall.openings[..k] {
            let far = apart(&one.contour.flatten(1.0), &other.contour.flatten(1.0));
            assert!(far > 6.0 - 1e-6, "{far}");
        }
    }
}

fn path(data: &str) -> Shape {
    Shape::Path { data: data.to_owned(), mirrored: false }
}

fn box_area(contour: &Contour) -> f64 {
    let (low, high) = contour.bounds();
    (high.x - low.x) * (high.y - low.y)
}

/// Least distance between the corners of one ring and those of another.
fn apart(a: &[P2], b: &[P2]) -> f64 {
    a.iter().flat_map(|p| b.iter().map(move |q| (p - q).norm())).fold(f64::INFINITY, f64::min)
}

fn shape() -> impl Strategy<Value = Shape> {
    let share = || 0.0f64..1.0;
    prop_oneof![
        Just(Shape::Rectangle),
        Just(Shape::RoundHeaded),
        (1.0f64..40.0).prop_map(|rise| Shape::Segmental { rise: mm(rise) }),
        (0.3f64..6.0).prop_map(|radius| Shape::Pointed { radius }),
        Just(Shape::Circle),
        Just(Shape::Ellipse),
        Just(Shape::Fanlight),
        (3u8..12).prop_map(|corners| Shape::Regular { corners }),
        (share(), share()).prop_map(|(a, b)| Shape::Free { corners: vec![[0.0, a], [1.0, 0.0], [b, 1.0]] }),
        Just(path("M0 26 C-18 12 -14 0 -7 0 C-3 0 0 3 0 6 C0 3 3 0 7 0 C14 0 18 12 0 26 Z")),
        (share(), share()).prop_map(|(a, b)| path(&format!("M0 0 C{a} -1 {b} 1 1 0 S1 -1 0 -1 Z"))),
        Just(path("rubbish")),
        (1u8..6, 1u8..6, 2.0f64..20.0).prop_map(|(across, up, bar)| Shape::WholeFace { across, up, bar: mm(bar) }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 160, ..ProptestConfig::default() })]

    /// Whatever is typed: no panic, and what is cut lies within its piece.
    #[test]
    fn random_openings_stay_in_their_face(
        shape in shape(),
        (width, height, sill, at) in (1.0f64..220.0, 1.0f64..160.0, 0.0f64..120.0, -110.0f64..110.0),
        (side, place, face, form) in (0usize..4, 0u8..3, 0u8..3, 0usize..6),
        (across, up, gap) in (1u8..5, 1u8..4, prop::option::of(0.0f64..30.0)),
    ) {
        let name = ["front", "right", "back", "left"][side];
        let mut opening = window(shape, name, width, height);
        if !opening.shape.is_whole_face() {
            opening.sill = mm(sill);
            opening.repeat = Some(Repeat { across, up, gap: gap.map(mm), gap_up: mm(5.0) });
            opening.placing = match place {
                0 => Placing::Centred { offset: mm(at) },
                1 => Placing::FromLeft { distance: mm(at.abs()) },
                _ => Placing::FromRight { distance: mm(at.abs()) },
            };
        }
        opening.face = [Surface::Wall, Surface::Slope(Tier::Single), Surface::Slope(Tier::Lower)][usize::from(face)];
        opening.mode = [Mode::Cut, Mode::Glazed, Mode::Pressed][usize::from(place)];
        let mut house = with(opening);
        let form = RoofForm::ALL[form];
        form.apply_in(&mut house.parts[0], Unit::Millimetre);
        let solved = solve(&house);
        for piece in &solved.pieces {
            for opening in &piece.openings {
                let ring = opening.contour.flatten(0.05);
                prop_assert!(ring_area(&ring) > 0.0);
                let inside = |p: &P2| ring_contains(&piece.outline, *p) && ring_contains(&piece.outline_back, *p);
                prop_assert!(ring.iter().all(inside), "{} leaves {}", opening.name, piece.name);
            }
        }
    }
}
