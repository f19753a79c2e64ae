//! What a bake takes, against volumes by an independent solid library and against published amounts.

use gable_bake::{About, Figures, Mass, Needs, ToBake};
use gable_measure::Length;
use gable_plane::P2;
use gable_shell::{Dough, DoughId, House, Mode, Piece, Solved, demo, solve};
use gable_tests::build::{degrees, eave, gable, house, part, rectangle};
use gable_tests::{Body, random_many};

fn needs(house: &House, solved: &Solved) -> Needs {
    let dressed = gable_dress::dress(house, solved);
    let about = About { house, solved, dressed: &dressed, guide: None, board: None };
    Needs::of(&about, &Figures::default())
}

/// Volume of a piece with its windows cut out, mm³: the solid of the library, less prisms over the openings.
fn volume(piece: &Piece) -> f64 {
    let through = piece.openings.iter().filter(|o| o.mode != Mode::Pressed);
    let holes: Vec<Vec<P2>> = through.map(|o| o.contour.flatten(1e-3).into_iter().rev().collect()).collect();
    Body::with_holes(&Piece { notches: Vec::new(), ..piece.clone() }, &holes).volume()
}

/// Dough is what fills the pieces as thick as it is rolled: their volume by an independent library (`manifold-rust`) times
/// rolled over baked thickness.
#[test]
fn dough_fills_the_solids_of_the_pieces() {
    let mut houses: Vec<House> = demo::names().map(|name| demo::house(name).unwrap()).collect();
    houses.extend((0..20).map(random_many));
    for house in houses {
        let solved = solve(&house);
        let dressed = gable_dress::dress(&house, &solved);
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
        for one in ToBake::all(&about) {
            let Some(piece) = solved.pieces.iter().find(|p| p.id.0 == one.id) else { continue };
            let expected = volume(piece) / piece.thickness.mm();
            let off = (one.area - expected).abs();
            assert!(off <= 1e-4 * expected + 0.01, "{}: {} mm², not {expected}", one.id, one.area);
        }
    }
}

/// What icing fills, gaps and wedges, by the same library: the volume of the bodies that the solver gives.
#[test]
fn icing_of_joints_is_the_volume_of_its_bodies() {
    for name in demo::names() {
        let solved = solve(&demo::house(name).unwrap());
        for joint in &solved.joints {
            let bodies: f64 = joint.icing.iter().map(|solid| Body::of_solid(solid).volume()).sum();
            let off = (bodies - joint.wedge.volume).abs();
            assert!(off <= 1e-3 * bodies + 0.1, "{name}, {}: {bodies} mm³, not {}", joint.letter, joint.wedge.volume);
        }
    }
}

/// A published small house: two ends of 5 × 7 1/2 in with eaves at 4 in, two sides of 6 × 4 in, two roofs of 6 3/4 × 4 1/2 in,
/// of dough rolled to 1/4 in: some 850 g before trimming (household page; its mass derived from 1.25 g/cm³).
#[test]
fn a_published_small_house_takes_its_published_dough() {
    let inch = |length: f64| Length::inches(length).mm();
    let quarter = |id: &str| Dough { id: DoughId(id.to_owned()), rolled: Length::inches(0.25), rise: 1.25 };
    let baked = inch(0.25) * 1.25;
    let pitch = (3.5_f64 / 2.5).atan().to_degrees();
    let slope = eave(inch(4.0), degrees(pitch), inch(0.15));
    let end = gable(inch(0.375) - baked);
    let main = part(rectangle(inch(5.0), inch(6.0) + 2.0 * baked), &[end, slope, end, slope]);
    let small = House { doughs: vec![quarter("walls"), quarter("roofs")], ..house(main, baked, baked, 0.0) };
    let solved = solve(&small);
    let net = needs(&small, &solved).dough.net;
    assert!((net / Mass::grams(850.0) - 1.0).abs() < 0.1, "{net:?}");
}

/// 1 kg of dough covers 1260 cm² at 1/4 in, and 5 mm of it weigh 0.625 g/cm² (derived from 1.25 g/cm³, which rolling a
/// published dough of 822 g over a pan of 11 × 17 in bears out).
#[test]
fn dough_covers_what_is_published() {
    let sheet = |mm: f64, cm2: f64| ToBake {
        id: String::new(),
        name: String::new(),
        mark: None,
        template: None,
        dough: "walls".to_owned(),
        rolled: Length::mm_of(mm),
        outline: Vec::new(),
        holes: Vec::new(),
        area: cm2 * 100.0,
    };
    assert!((sheet(6.35, 1260.0).mass(1.25).g() - 1000.0).abs() < 1.0);
    assert!((sheet(5.0, 1.0).mass(1.25).g() - 0.625).abs() < 1e-9);
    let pan = sheet(5.4, 11.0 * 17.0 * 2.54 * 2.54);
    assert!((pan.mass(1.25) / Mass::grams(822.0) - 1.0).abs() < 0.02, "{:?}", pan.mass(1.25));
}
