//! The inside of every part is closed.

use super::{Whole, boxes_apart};
use crate::judge::seal::{GROWTH, WELD, plug, union_of};
use crate::judge::{Case, Check, Fault};
use manifold_rust::linalg::Vec3;
use manifold_rust::manifold::Manifold;

/// Insides smaller than this are filled by the growth of their walls, mm³.
const SMALL: f64 = 3000.0;
/// Share of an inside that must be in closed hollows: grown pieces and plates of other parts take the rest.
const CLOSED: f64 = 0.5;

impl Whole<'_> {
    /// Parts whose inside is not closed.
    ///
    /// The pieces (doors and windows filled, passages not) are grown by gap + 0.05 mm and joined with icing, base board and
    /// plugs for sides without a wall that lie in no other part. What is then left of a large block falls into the outside
    /// and hollows. The inside of a part, its inner envelope less the bodies of its obstacles, must be half in hollows.
    pub fn seal(&self) -> Vec<Fault> {
        let growth = self.case.house.gap.mm() + GROWTH;
        let hollows = self.hollows(growth);
        let mut faults = Vec::new();
        for (k, standing) in self.parts.iter().enumerate() {
            let room = self.box_of_part(k);
            let near = self.obstacles(k).filter(|&o| !boxes_apart(room, self.box_of_part(o)));
            let inside = near.fold(standing.envelope.inner.solid(), |inside, o| inside.difference(&self.obstacle(o)));
            let volume = inside.volume();
            if volume < SMALL {
                continue;
            }
            let closed: f64 = hollows.iter().map(|hollow| hollow.intersection(&inside).volume()).sum();
            if closed < CLOSED * volume {
                let what = format!("inside of {}: closed hollow as a share", standing.part.id.0);
                faults.push(Case::fault(Check::Seal, what, closed / volume));
            }
        }
        faults
    }

    fn hollows(&self, growth: f64) -> Vec<Manifold> {
        let mut solids: Vec<Manifold> = self.case.bodies.iter().map(|body| body.grown(growth)).collect();
        solids.extend(self.case.icing.iter().map(|(_, body)| body.grown(WELD)));
        for (k, standing) in self.parts.iter().enumerate() {
            solids.extend(self.lost_openings(k));
            solids.extend(self.open_sides(k).into_iter().map(|tag| plug(&standing.envelope, tag, growth)));
        }
        solids.push(self.case.board());
        let joined = union_of(solids);
        let (low, high) = self.case.all_round(60.0);
        let size = high - low;
        let block = Manifold::cube(Vec3::new(size.x, size.y, size.z), false).translate(Vec3::new(low.x, low.y, low.z));
        let mut left = block.difference(&joined).decompose();
        // The outside is the one with the corners of the block; it is as wide as the block.
        left.retain(|part| part.bounding_box().min.x > low.x + 1.0);
        left
    }
}
