use super::Covered;
use gable_measure::{Finding, Length, Severity, Unit};
use gable_plane::{P2, convex_hull};
use gable_shell::Piece;
use std::collections::BTreeMap;

/// Narrower units than this cannot be held, let alone cut.
const NARROWEST: Length = Length::mm_of(3.0);

/// Least distance between two parallel lines that hold a ring between them, mm.
pub(crate) fn width(ring: &[P2]) -> f64 {
    let hull = convex_hull(ring);
    let across = |k: usize| {
        let (a, b) = (hull[k], hull[(k + 1) % hull.len()]);
        let along = (b - a).normalize();
        hull.iter().map(|p| along.perp(&(p - a))).fold(0.0, f64::max)
    };
    if hull.len() < 3 { 0.0 } else { (0..hull.len()).map(across).fold(f64::INFINITY, f64::min) }
}

/// Notes for each finish how many of its units are narrower than can be held, at the first face with any.
pub(super) fn remark(all: &[Covered], pieces: &[Piece], unit: Unit, findings: &mut Vec<Finding>) {
    let mut counts: BTreeMap<usize, (usize, usize, Option<&Covered>)> = BTreeMap::new();
    for covered in all {
        let fine = covered.units.iter().filter(|u| width(&u.outline) < NARROWEST.mm()).count();
        let count = counts.entry(covered.finish).or_default();
        (count.0, count.1) = (count.0 + fine, count.1 + covered.units.len());
        count.2 = count.2.or(Some(covered).filter(|_| fine > 0));
    }
    for (fine, units, first) in counts.into_values() {
        let Some((covered, piece)) = first.and_then(|c| Some((c, pieces.get(c.piece)?))) else { continue };
        findings.push(Finding {
            kind: "finish-too-fine",
            severity: Severity::Note,
            place: piece.id.0.clone(),
            what: format!(
                "{fine} of {units} pieces of the {} are narrower than {}",
                covered.name,
                unit.print(NARROWEST)
            ),
            remedy: "choose other sizes, or leave the smallest bits to icing".to_owned(),
        });
    }
}
