//! Pieces on a person's trays, against trying every angle.

use gable_measure::Length;
use gable_plane::{P2, V2};
use gable_shell::kitchen::{Kitchen, Tray, check};
use gable_shell::{Piece, Role, Solved, demo, solve};
use gable_tests::Random;
use gable_tests::build::mm;
use std::collections::BTreeSet;

/// Angles tried in a half turn.
const ANGLES: u32 = 18_000;

fn tray(width: f64, depth: f64) -> Tray {
    Tray { name: "Tray".to_owned(), width: mm(width), depth: mm(depth) }
}

/// How much of the room a ring needs, at the best of many angles: at most 1 when it fits.
fn need(ring: &[P2], tray: &Tray) -> f64 {
    let at = |k: u32| {
        let turn = std::f64::consts::PI * f64::from(k) / f64::from(ANGLES);
        let reach = |along: V2| {
            let s = ring.iter().map(|p| p.coords.dot(&along));
            let (low, high) = s.fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)));
            high - low
        };
        let (sin, cos) = turn.sin_cos();
        (reach(V2::new(cos, sin)) / tray.width.mm()).max(reach(V2::new(-sin, cos)) / tray.depth.mm())
    };
    (0..ANGLES).map(at).fold(f64::INFINITY, f64::min)
}

/// An angle off by half a step makes a reach longer by this share at most, for rings and trays of like sizes.
const STEP: f64 = 2.0 * std::f64::consts::PI / ANGLES as f64;

#[test]
fn a_tray_holds_just_what_fits_at_some_angle() {
    let mut random = Random::new(5);
    let (mut held, mut refused) = (0, 0);
    for _ in 0..400 {
        let tray = tray(random.between(150.0, 500.0), random.between(150.0, 500.0));
        let slim = random.between(0.02, 1.0);
        let turn = random.between(0.0, 3.0);
        let ring: Vec<P2> = (0..random.whole(3, 9))
            .map(|_| P2::new(random.between(-1.0, 1.0), random.between(-slim, slim)))
            .map(|p| P2::new(p.x * turn.cos() - p.y * turn.sin(), p.x * turn.sin() + p.y * turn.cos()))
            .collect();
        // Just about as large as the tray, so that it is a near thing.
        let size = random.between(0.97, 1.03) / need(&ring, &tray);
        let ring: Vec<P2> = ring.iter().map(|p| p * size).collect();
        let need = need(&ring, &tray);
        if tray.holds(&ring) {
            held += 1;
            assert!(need <= 1.0 + 8.0 * STEP, "held, but needs {need}: {ring:?} in {tray:?}");
        } else {
            refused += 1;
            assert!(need > 1.0, "refused, but needs {need}: {ring:?} in {tray:?}");
        }
    }
    assert!(held > 100 && refused > 100, "{held} held, {refused} refused");
}

fn corners(piece: &Piece) -> Vec<P2> {
    piece.outline.iter().chain(&piece.outline_back).copied().collect()
}

/// The largest piece of each template that fits nowhere, by trying.
fn too_large(solved: &Solved, trays: &[Tray]) -> BTreeSet<String> {
    let first = solved.groups.iter().map(|g| &solved.pieces[g.members[0].piece]);
    let large = first.filter(|p| trays.iter().all(|tray| need(&corners(p), tray) > 1.0));
    large.map(|p| p.id.0.clone()).collect()
}

#[test]
fn what_fits_on_no_tray_is_found_and_nothing_else() {
    let kitchens =
        [vec![tray(430.0, 350.0)], vec![tray(250.0, 100.0), tray(140.0, 140.0)], Tray::usual()[2..].to_vec()];
    let mut found = 0;
    for name in demo::names() {
        let solved = solve(&demo::house(name).unwrap());
        for trays in &kitchens {
            let findings = check(&solved, &Kitchen { trays: trays.clone(), ..Kitchen::default() });
            let places: BTreeSet<String> = findings.iter().map(|f| f.place.clone()).collect();
            assert_eq!(places, too_large(&solved, trays), "{name} on {trays:?}");
            found += places.len();
        }
        assert!(check(&solved, &Kitchen::default()).is_empty(), "nobody has said what trays there are");
    }
    assert!(found > 10);
}

/// The number before a word.
fn number_before(text: &str, word: &str) -> Option<f64> {
    let before = &text[..text.find(word)?];
    before.trim_end().rsplit(' ').next()?.parse().ok()
}

#[test]
fn remedies_do_what_they_say() {
    let solved = solve(&demo::house("pilot-house").unwrap());
    let mut cuts = 0;
    for tray in [tray(210.0, 150.0), tray(190.0, 110.0), tray(150.0, 90.0)] {
        let kitchen = Kitchen { trays: vec![tray.clone()], ..Kitchen::default() };
        let mut shares = BTreeSet::new();
        for finding in check(&solved, &kitchen) {
            let piece = solved.pieces.iter().find(|p| p.id.0 == finding.place).unwrap();
            let fits = |ring: &[P2]| need(ring, &tray) <= 1.0 + 8.0 * STEP;
            if let Some(share) = number_before(&finding.remedy, "%") {
                shares.insert(share as u32);
                assert!(fits(&corners(piece).iter().map(|p| p * (share / 100.0)).collect::<Vec<_>>()), "{finding:?}");
            }
            if let Some(at) = number_before(&finding.remedy, "mm from") {
                cuts += 1;
                check_cut(piece, finding.remedy.contains("upright"), at, fits);
            }
        }
        assert_eq!(shares.len(), 1, "one share for the whole house");
    }
    assert!(cuts > 3, "{cuts} cuts");
}

/// A cut so far from the left end, or from the foot: both halves fit, and no opening is cut.
fn check_cut(piece: &Piece, upright: bool, at: f64, fits: impl Fn(&[P2]) -> bool) {
    // Walls are 'seen from outside', where z of the piece runs away from the viewer; slopes come towards it.
    let mirror = if matches!(piece.role, Role::Wall(_)) { -1.0 } else { 1.0 };
    let along = if upright { V2::new(piece.up.y, -piece.up.x) * mirror } else { piece.up };
    let start = corners(piece).iter().map(|p| p.coords.dot(&along)).fold(f64::MAX, f64::min);
    for side in [-1.0, 1.0] {
        let kept = clip(&corners(piece), &along, start + at, side);
        assert!(kept.len() > 2 && fits(&kept), "{} at {at}", piece.id.0);
    }
    for opening in piece.openings.iter().chain(&piece.notches) {
        let ring = opening.contour.flatten(0.1);
        let beyond = ring.iter().filter(|p| p.coords.dot(&along) > start + at).count();
        assert!(beyond == 0 || beyond == ring.len(), "{} of {} at {at}", opening.name, piece.id.0);
    }
}

/// Corners of the hull of what lies on one side of a line: those there, and where lines between any two cross it.
fn clip(points: &[P2], along: &V2, offset: f64, side: f64) -> Vec<P2> {
    let past = |p: &P2| (p.coords.dot(along) - offset) * side;
    let mut kept: Vec<P2> = points.iter().filter(|p| past(p) >= 0.0).copied().collect();
    for (a, b) in points.iter().flat_map(|a| points.iter().map(move |b| (a, b))) {
        if past(a) > 0.0 && past(b) < 0.0 {
            kept.push(a + (b - a) * (past(a) / (past(a) - past(b))));
        }
    }
    kept
}

#[test]
fn common_trays_are_given_by_their_inside() {
    // 12 7/8 × 17 3/4 in over all (Culinary Institute of America, Baking and Pastry, 2015); usable 11 × 17 in recipes
    let half = &Tray::usual()[1];
    let [outer, inner] = [(17.75, 12.875), (16.0, 11.0)].map(|(a, b)| [Length::inches(a), Length::inches(b)]);
    assert!(half.width < outer[0] && half.depth < outer[1] && half.width > inner[0] && half.depth > inner[1]);
}
