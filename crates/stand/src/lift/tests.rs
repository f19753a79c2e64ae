use super::slices::Slices;
use super::*;
use gable_bake::{About, Notebook};
use gable_dress::dress;
use gable_raise::Guide;
use gable_shell::{demo, solve};

fn rectangle(low: P2, high: P2) -> Vec<P2> {
    vec![low, P2::new(high.x, low.y), high, P2::new(low.x, high.y)]
}

fn assert_close(a: f64, b: f64, tolerance: f64) {
    assert!((a - b).abs() <= tolerance * b.abs().max(1e-12), "{a} is not {b}");
}

fn most(moments: &[f64]) -> f64 {
    moments.iter().copied().fold(0.0, f64::max)
}

/// `q L² / 8` in the middle between two ends, `q a² / 2` beside a blade (beam tables: Roark, cases of a beam under a uniform load).
#[test]
fn a_rectangle_bends_as_a_beam() {
    let beam = Slices::of_rings(&[rectangle(P2::new(-20.0, 5.0), P2::new(280.0, 65.0))], V2::x()).unwrap();
    let q = 60.0 * 4e-5;
    assert_close(most(&beam.on_ends(4e-5)), q * 300.0 * 300.0 / 8.0, 1e-3);
    assert_close(most(&beam.on_blade(4e-5, 100.0)), q * 100.0 * 100.0 / 2.0, 2e-2);
    assert_close(most(&beam.on_blade(4e-5, 0.0)), q * 150.0 * 150.0 / 2.0, 1e-2);
    assert_eq!(most(&beam.on_blade(4e-5, 400.0)), beam.on_blade(4e-5, 400.0)[0].max(0.0));
}

/// With a hand under the middle `q L² / 32`, over that hand and nowhere more: two even spans of half the length (beam tables: continuous beam
/// of two spans, `q l² / 8` over the middle support).
#[test]
fn a_third_hand_leaves_a_quarter() {
    let beam = Slices::of_rings(&[rectangle(P2::new(-20.0, 5.0), P2::new(280.0, 65.0))], V2::x()).unwrap();
    let (q, moments) = (60.0 * 4e-5, beam.on_three(4e-5));
    assert_eq!(moments.len(), beam.across.len());
    assert_close(most(&moments), q * 300.0 * 300.0 / 32.0, 1e-3);
    assert_close(moments[moments.len() / 2], q * 300.0 * 300.0 / 32.0, 1e-3);
}

/// What is said to help a piece in the hand tells what is then asked, which is less.
#[test]
fn holding_it_better_is_told_with_what_is_then_asked() {
    let lift = |way, stress| Lift { way, stress, at: P2::origin() };
    let lifts = [
        lift(Way::BySides, 0.05),
        lift(Way::ByFootAndTop, 0.08),
        lift(Way::FromTray, 0.02),
        lift(Way::TurnedOver, 0.03),
        lift(Way::OnEdge, 0.4),
        lift(Way::Helped, 0.1),
    ];
    // By hand: 0.1 × 1.2 to 2 over 1 is 12 to 20 %, usually 15; without a third hand 40 % × 1.5 would be 60.
    let words = better_held(&lifts, Way::OnEdge, Range::exactly(1.0));
    assert!(words.ends_with("third hand under its middle: 15 % (12 to 20 %) then"), "{words}");
    assert_eq!(hardest(&lifts).map(|l| l.way), Some(Way::OnEdge));
    let flat = better_held(&lifts[..4], Way::BySides, Range::exactly(1.0));
    assert!(flat.ends_with("by its ends: 4.5 % (3.6 to 6 %) then"), "{flat}");
}

/// A triangle on its tip and its base: the load grows from the tip, the greatest moment is `q L² / (9 √3)`, of which q is the load
/// at the base (beam tables: uniformly increasing load).
#[test]
fn a_triangle_bends_as_under_a_growing_load() {
    let ring = vec![P2::new(0.0, 0.0), P2::new(200.0, -50.0), P2::new(200.0, 50.0)];
    let beam = Slices::of_rings(&[ring], V2::x()).unwrap();
    let q = 100.0 * 4e-5;
    assert_close(most(&beam.on_ends(4e-5)), q * 200.0 * 200.0 / (9.0 * 3f64.sqrt()), 2e-3);
}

/// An opening takes its width off the slices that cross it, and no others.
#[test]
fn an_opening_leaves_less() {
    let rings =
        [rectangle(P2::new(0.0, 0.0), P2::new(100.0, 60.0)), rectangle(P2::new(40.0, 20.0), P2::new(60.0, 50.0))];
    let beam = Slices::of_rings(&rings, V2::x()).unwrap();
    let widths: Vec<f64> = beam.widths().collect();
    assert_close(widths[100], 30.0, 1e-9);
    assert_close(widths[10], 60.0, 1e-9);
    assert_eq!(beam.across[100].len(), 2);
}

/// The worked example of food.md 1.4: 200 mm span, 6.35 mm thick, 650 kg/m³ and 1.5 kg/m² of sweets give 41 kPa; 300 mm and 8 mm
/// give 69 kPa (derived there from beam theory).
#[test]
fn the_worked_roof_panels() {
    assert_close(panel_stress(200.0, 6.35, 0.65e-3, 1.5e-3) * 1000.0, 41.0, 0.02);
    assert_close(panel_stress(300.0, 8.0, 0.65e-3, 1.5e-3) * 1000.0, 69.0, 0.02);
    // The same as a beam of slices.
    let beam = Slices::of_rings(&[rectangle(P2::origin(), P2::new(200.0, 150.0))], V2::x()).unwrap();
    let weight = (0.65e-3 * 6.35 + 1.5e-3) * GRAVITY / 1000.0;
    let lift = worst(Way::BySides, &beam, &beam.on_ends(weight), |w| across(w) * 6.35 * 6.35 / 6.0).unwrap();
    assert_close(lift.stress, panel_stress(200.0, 6.35, 0.65e-3, 1.5e-3), 1e-3);
    assert!((lift.at.x - 100.0).abs() < 2.0 && (lift.at.y - 75.0).abs() < 1e-9);
}

/// Run with every demo: thicker biscuit is never asked for more, covering on both faces never for less.
#[test]
fn thicker_is_never_worse_and_covering_never_better() {
    for name in demo::names() {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let (dressed, guide, notebook) = (dress(&house, &solved), Guide::of(&solved).ok(), Notebook::default());
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: guide.as_ref(), board: None };
        let site = Site::new(about, &notebook);
        let mut thicker = solved.clone();
        for piece in &mut thicker.pieces {
            (piece.rolled, piece.thickness) = (piece.rolled * 1.2, piece.thickness * 1.2);
        }
        let mut covered = dressed.clone();
        covered.finishes.extend(dressed.finishes.clone());
        let thick = Site::new(About { solved: &thicker, ..about }, &notebook);
        let double = Site::new(About { dressed: &covered, ..about }, &notebook);
        for k in 0..solved.pieces.len() {
            let own = lifts(&site, k);
            assert_eq!(own.len(), 6, "{name}: {}", solved.pieces[k].name);
            for ((own, thick), double) in own.iter().zip(lifts(&thick, k)).zip(lifts(&double, k)) {
                assert!(thick.stress <= own.stress * 1.000001, "{name} {k} {own:?} {thick:?}");
                assert!(double.stress >= own.stress * 0.999999, "{name} {k}");
            }
        }
    }
}

/// Windows 12 mm from the edge and 8 mm from each other: the strip between them is the narrowest.
#[test]
fn the_narrowest_strip_is_found() {
    let house = demo::house("boat-hut").unwrap();
    let solved = solve(&house);
    let with = |k: usize| solved.pieces[k].openings.iter().filter(|o| o.mode.goes_through()).count() > 0;
    let k = (0..solved.pieces.len()).find(|k| with(*k)).unwrap();
    let mut piece = solved.pieces[k].clone();
    piece.outline = rectangle(P2::origin(), P2::new(120.0, 80.0));
    let mut opening = piece.openings.iter().find(|o| o.mode.goes_through()).unwrap().clone();
    let square = |low: P2, high: P2| gable_plane::Contour::rectangle(low, high);
    opening.contour = square(P2::new(12.0, 20.0), P2::new(40.0, 60.0));
    let mut other = opening.clone();
    other.contour = square(P2::new(48.0, 30.0), P2::new(90.0, 50.0));
    piece.openings = vec![opening, other];
    let found = narrowest(&piece).unwrap();
    assert_close(found.width, 8.0, 1e-9);
    assert!((found.at.x - 44.0).abs() < 1e-9);
    piece.openings.pop();
    assert_close(narrowest(&piece).unwrap().width, 12.0, 1e-9);
    // Both take their height off the slices that cross them.
    let beam = Slices::of(&piece, V2::x()).unwrap();
    assert_close(beam.widths().nth(40).unwrap(), 40.0, 1e-9);
    // A door cut to the foot, 9 mm from the corner and 6 mm below the top.
    let door =
        [(9.0, 0.0), (9.0, 74.0), (40.0, 74.0), (40.0, 0.0), (120.0, 0.0), (120.0, 80.0), (0.0, 80.0), (0.0, 0.0)];
    piece.outline = door.map(|(x, y)| P2::new(x, y)).to_vec();
    assert_close(beside_notch(&piece).unwrap().width, 6.0, 1e-9);
    // A step of 0.8 mm in an edge is no strip.
    let step = [(0.0, 0.0), (100.0, 0.0), (100.0, 10.0), (50.0, 10.0), (50.0, 10.8), (0.0, 10.8)];
    piece.outline = step.map(|(x, y)| P2::new(x, y)).to_vec();
    assert!(beside_notch(&piece).is_none_or(|b| b.width > 9.9), "{:?}", beside_notch(&piece));
}

#[test]
fn a_strip_as_wide_as_thick_is_sound_and_half_of_it_is_not() {
    let class = |width: f64| Class::of(strip_share(width, 6.0));
    assert_eq!(class(6.0), Class::Sound);
    assert_eq!(class(5.0), Class::Care);
    assert_eq!(class(2.0), Class::Breaks);
}
