use super::Covered;
use gable_measure::{Finding, Length, Severity};
use gable_plane::{P2, convex_hull};
use gable_shell::{House, Piece, Stuff};
use gable_words::tr;

/// Narrower units than this cannot be held, let alone cut.
const NARROWEST: Length = Length::mm_of(3.0);
/// One in so many may be narrower before anything is said: every covering that is cut to a slope or round a window has
/// some, and bakers leave them to icing (common practice, no source).
const USUAL: usize = 5;

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

/// How many units of one kind a part has, how many of them are narrower than can be held, and the first face with one.
struct Count<'a> {
    name: &'a str,
    units: usize,
    fine: usize,
    first: Option<&'a Piece>,
}

/// A note for each part with finishes of which more than one unit in [`USUAL`] is narrower than can be held, at the first
/// face with one.
pub(super) fn remark(all: &[Covered], pieces: &[Piece], house: &House, findings: &mut Vec<Finding>) {
    for part in &house.parts {
        let counts = counts(all, pieces, |piece| piece.part == part.id);
        let many: Vec<&Count> = counts.iter().filter(|c| c.fine * USUAL > c.units).collect();
        let Some(first) = many.first().and_then(|c| c.first) else { continue };
        let said: Vec<String> = many.iter().map(|c| tr!("{} {} of {}", c.name, c.fine, c.units)).collect();
        findings.push(Finding {
            kind: "finish-too-fine",
            severity: Severity::Note,
            place: first.id.0.clone(),
            what: tr!(
                "{}: pieces of finishes narrower than {}: {}",
                part.name,
                house.unit.print(NARROWEST),
                said.join(", ")
            ),
            remedy: tr!("choose other sizes, or leave the smallest bits to icing").to_owned(),
        });
    }
}

/// The units of the pieces that are meant, by the name of their finish; icing is spread, so that none of it is held or cut.
fn counts<'a>(all: &'a [Covered], pieces: &'a [Piece], meant: impl Fn(&Piece) -> bool) -> Vec<Count<'a>> {
    let mut counts: Vec<Count> = Vec::new();
    for covered in all {
        let Some(piece) = pieces.get(covered.piece).filter(|p| meant(p)) else { continue };
        if covered.stuff == Stuff::Icing {
            continue;
        }
        let fine = covered.units.iter().filter(|u| width(&u.outline) < NARROWEST.mm()).count();
        let known = counts.iter().position(|c| c.name == covered.name).unwrap_or_else(|| {
            counts.push(Count { name: covered.name, units: 0, fine: 0, first: None });
            counts.len() - 1
        });
        let count = &mut counts[known];
        count.units += covered.units.len();
        count.fine += fine;
        count.first = count.first.or((fine > 0).then_some(piece));
    }
    counts
}
