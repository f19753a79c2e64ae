//! The fold of solved houses: exact where it stands, flat where it lies, and free of overlap on the way.

use gable_measure::{Length, Unit};
use gable_mesh::{Body, Fold, chunks_of};
use gable_plane::{P3, Rigid, V3};
use gable_shell::{House, Outline, RoofForm, Solved, demo, solve};

/// Pieces may share a film of this thickness, mm: a tenth of the printing promise.
const FILM: f64 = 1e-3;

fn houses() -> Vec<(String, Solved)> {
    let mut found: Vec<(String, Solved)> =
        demo::names().filter_map(|name| Some((name.to_owned(), solve(&demo::house(name)?)))).collect();
    assert_eq!(found.len(), demo::names().count());
    let mm = Length::mm_of;
    let plans = [
        Outline::Rectangle { width: mm(120.0), depth: mm(160.0) },
        Outline::Rectangle { width: mm(180.0), depth: mm(100.0) },
        Outline::Polygon { sides: 8, side: mm(50.0) },
        Outline::Polygon { sides: 3, side: mm(120.0) },
    ];
    for outline in plans {
        for form in RoofForm::ALL.into_iter().filter(|f| f.fits(&outline)) {
            let mut house = House::simple(Unit::Millimetre);
            house.parts[0].openings.clear();
            house.parts[0].set_outline(outline.clone());
            form.apply(&mut house.parts[0]);
            found.push((format!("{} on {outline:?}", form.name()), solve(&house)));
        }
    }
    found
}

fn placed(chunks: &[Vec<Body>], poses: &[Rigid]) -> Vec<Vec<Body>> {
    std::iter::zip(chunks, poses).map(|(c, pose)| c.iter().map(|b| b.moved(pose)).collect()).collect()
}

#[test]
fn nothing_overlaps_at_ten_positions() {
    let mut faults = Vec::new();
    for (name, solved) in houses() {
        let fold = Fold::of(&solved);
        let chunks: Vec<Vec<Body>> = solved.pieces.iter().map(chunks_of).collect();
        assert!(!chunks.is_empty(), "{name}");
        for step in 0..=10 {
            let bodies = placed(&chunks, &fold.at(f64::from(step) / 10.0));
            for a in 0..bodies.len() {
                for b in a + 1..bodies.len() {
                    if bodies[a].iter().any(|x| bodies[b].iter().any(|y| x.overlaps(y, FILM))) {
                        let id = |k: usize| solved.pieces[k].id.0.clone();
                        faults.push(format!("{name} at {step}/10: {} and {}", id(a), id(b)));
                    }
                }
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn it_stands_as_solved_and_lies_outside_down() {
    for (name, solved) in houses() {
        let fold = Fold::of(&solved);
        for (pose, piece) in std::iter::zip(fold.at(1.0), &solved.pieces) {
            let off = (pose.to_homogeneous() - piece.house_from_piece.to_homogeneous()).norm();
            assert!(off < 1e-9, "{name} {} {off}", piece.id.0);
        }
        for (pose, piece) in std::iter::zip(fold.at(0.0), &solved.pieces) {
            let outside_is_front = piece.reference_is_outside();
            let (ring, z) =
                if outside_is_front { (&piece.outline, 0.0) } else { (&piece.outline_back, piece.thickness.mm()) };
            for p in ring {
                let height = (pose * P3::new(p.x, p.y, z)).z;
                assert!(height.abs() < 1e-9, "{name} {} {height}", piece.id.0);
            }
            let inwards = pose * V3::new(0.0, 0.0, if outside_is_front { 1.0 } else { -1.0 });
            assert!((inwards.z - 1.0).abs() < 1e-9, "{name} {}", piece.id.0);
        }
    }
}

/// A thousandth of the way moves no corner by more than the longest way any corner can go in it: the piece's own turn
/// and those that carry it (a half circle each, at most four) on an arm as long as the house is, and the slides.
#[test]
fn it_moves_without_a_jump() {
    for (name, solved) in houses() {
        let fold = Fold::of(&solved);
        let mut before = fold.at(0.0);
        for step in 1..=1000 {
            let now = fold.at(f64::from(step) / 1000.0);
            for ((a, b), piece) in std::iter::zip(std::iter::zip(&before, &now), &solved.pieces) {
                let moved = |p: &gable_plane::P2| (a * P3::new(p.x, p.y, 0.0) - b * P3::new(p.x, p.y, 0.0)).norm();
                let most = piece.outline.iter().map(moved).fold(0.0, f64::max);
                assert!(most < 6.0, "{name} {} jumps {most} mm at {step}", piece.id.0);
            }
            before = now;
        }
    }
}
