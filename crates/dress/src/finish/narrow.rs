use super::Covered;
use gable_measure::{Finding, Length, Severity};
use gable_plane::{P2, convex_hull};
use gable_shell::{House, Piece};

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

/// Notes for each part how many units of its finishes are narrower than can be held, at the first face with any.
pub(super) fn remark(all: &[Covered], pieces: &[Piece], house: &House, findings: &mut Vec<Finding>) {
    for part in &house.parts {
        let own = all.iter().filter(|c| pieces.get(c.piece).is_some_and(|p| p.part == part.id));
        let counted = own.map(|c| (c, c.units.iter().filter(|u| width(&u.outline) < NARROWEST.mm()).count()));
        let fine: Vec<(&Covered, usize)> = counted.filter(|(_, fine)| *fine > 0).collect();
        let Some(first) = fine.first().and_then(|(c, _)| pieces.get(c.piece)) else { continue };
        let mut names: Vec<(&str, usize)> = Vec::new();
        for (covered, count) in &fine {
            match names.iter_mut().find(|(name, _)| *name == covered.name) {
                Some((_, sum)) => *sum += count,
                None => names.push((covered.name, *count)),
            }
        }
        let said: Vec<String> = names.iter().map(|(name, count)| format!("{name} {count}")).collect();
        findings.push(Finding {
            kind: "finish-too-fine",
            severity: Severity::Note,
            place: first.id.0.clone(),
            what: format!(
                "{}: pieces of finishes narrower than {}: {}",
                part.name,
                house.unit.print(NARROWEST),
                said.join(", ")
            ),
            remedy: "choose other sizes, or leave the smallest bits to icing".to_owned(),
        });
    }
}
