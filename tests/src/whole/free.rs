//! Where a part is as it would be alone.

use super::Whole;
use gable_plane::P3;
use gable_shell::Role;

impl Whole<'_> {
    /// Thickness of walls and roof of two parts, gaps, and a little more, mm: how far the cut of one part may reach beyond the
    /// faces of the other.
    pub(super) fn margin(&self, a: usize, b: usize) -> f64 {
        let thick = |k: usize| {
            let sizes = &self.parts[k].envelope.sizes;
            sizes.wall + sizes.roof
        };
        thick(a) + thick(b) + 2.0 * self.case.house.gap.mm() + 3.0
    }

    /// Whether nothing near a point cuts a part there: neither the body nor the roof of an obstacle, but for `except`, nor
    /// the passage of a guest.
    pub(super) fn uncut(&self, part: usize, except: Option<usize>, p: &P3) -> bool {
        let mut others = self.obstacles(part).filter(|&k| Some(k) != except);
        others.all(|k| {
            let margin = self.margin(part, k);
            self.parts[k].envelope.outer.excess(p) > margin && !self.near_roof(k, p, margin)
        }) && self.passages(part).all(|k| self.parts[k].envelope.outer.excess(p) > self.margin(part, k))
    }

    fn near_roof(&self, part: usize, p: &P3, margin: f64) -> bool {
        let roof = self.parts[part]
            .pieces
            .iter()
            .filter(|&&k| matches!(self.case.solved.pieces[k].role, Role::Slope(..) | Role::Lid | Role::Parapet(_)));
        roof.into_iter().any(|&k| {
            let body = &self.case.bodies[k];
            body.normals.iter().all(|n| {
                let ((low, high), at) = (body.reach(n), n.dot(&p.coords));
                low - margin < at && at < high + margin
            })
        })
    }

    /// Points a millimetre apart along a line, the first and last half a millimetre from its ends.
    pub(super) fn steps(line: &[P3; 2]) -> Vec<P3> {
        let along = line[1] - line[0];
        let count = along.norm().round() as usize;
        (0..count).map(|k| line[0] + along * ((k as f64 + 0.5) / count as f64)).collect()
    }
}
