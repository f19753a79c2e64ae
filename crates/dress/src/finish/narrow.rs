use super::Covered;
use gable_measure::{Finding, Length, Severity, Unit};
use gable_plane::{P2, convex_hull};
use gable_shell::Piece;

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

/// Notes how many units of a finish are narrower than can be held.
pub(super) fn remark(covered: &Covered, piece: &Piece, unit: Unit, findings: &mut Vec<Finding>) {
    let count = covered.units.iter().filter(|u| width(&u.outline) < NARROWEST.mm()).count();
    if count > 0 {
        findings.push(Finding {
            kind: "finish-too-fine",
            severity: Severity::Note,
            place: piece.id.0.clone(),
            what: format!(
                "{count} of {} pieces of the {} are narrower than {}",
                covered.units.len(),
                covered.name,
                unit.print(NARROWEST)
            ),
            remedy: "choose other sizes, or leave the smallest bits to icing".to_owned(),
        });
    }
}
