//! Doors and windows that a guest cuts into: they are then part of an outline and on no list.

use super::Whole;
use crate::envelope::Envelope;
use crate::hull::hull_of;
use gable_plane::{P3, V2};
use gable_shell::{Opening, Placing, Role};
use manifold_rust::manifold::Manifold;

impl Whole<'_> {
    /// The room of each opening of a part that no piece of its wall lists, as blocks through the wall.
    pub(super) fn lost_openings(&self, part: usize) -> Vec<Manifold> {
        let listed = |opening: &Opening| {
            let walls = self.parts[part].pieces.iter().map(|&k| &self.case.solved.pieces[k]);
            let own = walls.filter(|p| p.role == Role::Wall(opening.side.clone()));
            own.flat_map(|p| p.openings.iter().chain(&p.notches)).any(|o| o.id == opening.id)
        };
        let openings = self.parts[part].part.openings.iter();
        let lost = openings.filter(|o| o.mode.goes_through() && !listed(o));
        lost.filter_map(|opening| self.block(part, opening)).collect()
    }

    fn block(&self, part: usize, opening: &Opening) -> Option<Manifold> {
        let standing = &self.parts[part];
        let side = standing.part.sides.iter().position(|s| s.id == opening.side)?;
        let Envelope { plan, sizes, .. } = &standing.envelope;
        let (from, to) = (plan[side], plan[(side + 1) % plan.len()]);
        let length = (to - from).norm();
        let along = (to - from) / length;
        let inward = V2::new(-along.y, along.x);
        let width = opening.width.mm();
        let left = match opening.placing {
            Placing::Centred { offset } => length / 2.0 + offset.mm() - width / 2.0,
            Placing::FromLeft { distance } => distance.mm(),
            Placing::FromRight { distance } => length - distance.mm() - width,
        };
        let sill = standing.level + opening.sill.mm();
        let mut corners = Vec::new();
        for across in [left, left + width] {
            for deep in [0.0, sizes.wall] {
                let at = from + along * across + inward * deep;
                corners.extend([sill, sill + opening.height.mm()].map(|z| P3::new(at.x, at.y, z)));
            }
        }
        Some(hull_of(&corners))
    }
}
