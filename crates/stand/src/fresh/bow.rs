//! How much bow of a piece its joints forgive.

use crate::{Range, Site};
use gable_bake::{Basis, Figure};
use gable_shell::{JointEnd, JointKind};

/// Joints shorter than this do not feel a bow, mm.
const LONG: f64 = 60.0;

/// How far the middle of a joint may stand off when its ends meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bow {
    /// The joint, as an index into [`gable_shell::Solved::joints`].
    pub joint: usize,
    /// How far, mm: until the bead no longer reaches across, or sticks to less than half the thickness.
    pub forgives: Range,
}

/// What a bead of a thickness forgives over a gap between pieces of a thickness, mm.
///
/// Pressed together it is as wide as its round divided by the gap, `π d² / 4 / (g + b)`; it has to stay half the thickness wide,
/// and cannot reach across more than its own thickness.
pub(super) fn forgives(bead: f64, gap: f64, thickness: f64) -> f64 {
    let sticks = std::f64::consts::PI * bead * bead / (2.0 * thickness);
    (bead.min(sticks) - gap).max(0.0)
}

/// Every joint that is long enough to feel a bow.
pub fn bows(site: &Site<'_>) -> Vec<Bow> {
    let figures = &site.notebook.figures;
    let usual = figures.get(Figure::Bead);
    let bead = match figures.basis(Figure::Bead) {
        Basis::Own => Range::exactly(usual),
        _ => Range::new(Figure::Bead.known().range.0, usual, Figure::Bead.known().range.1),
    };
    let solved = site.about.solved;
    let long = solved
        .joints
        .iter()
        .enumerate()
        .filter(|(_, joint)| (joint.line[1] - joint.line[0]).norm() >= LONG && joint.kind != JointKind::Layer);
    let one = |(k, joint): (usize, &gable_shell::Joint)| {
        let ends =
            joint.ends.iter().filter_map(|e| if let JointEnd::Piece(k) = e { solved.pieces.get(*k) } else { None });
        let thickness = ends.map(|p| p.thickness.mm()).fold(f64::INFINITY, f64::min);
        Bow { joint: k, forgives: bead.map(|d| forgives(d, joint.gap.mm(), thickness)) }
    };
    long.map(one).collect()
}
