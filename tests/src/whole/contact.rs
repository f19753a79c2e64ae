//! Pieces that meet are one gap apart.

use super::Whole;
use crate::body::Body;
use crate::hull::hull_of;
use crate::judge::Fault;
use gable_plane::V3;
use gable_shell::{Joint, JointEnd, JointKind, Piece, Role};

/// How many gaps apart a piece may be from a corner of what it is cut to: shadows are offset with round joins.
const ROUND: f64 = 1.5;

/// From a point to the corners of a small block round it, mm.
pub(super) const AROUND: [V3; 4] =
    [V3::new(1.0, 1.0, 1.0), V3::new(-1.0, -1.0, 1.0), V3::new(-1.0, 1.0, -1.0), V3::new(1.0, -1.0, -1.0)];

impl Whole<'_> {
    /// Joints whose two sides are not one gap apart in 98 % of their slices.
    pub(super) fn contacts(&self) -> Vec<Fault> {
        let joints = self.case.solved.joints.iter();
        let at_corners = |joint: &Joint| self.widest(joint).max(ROUND * self.case.gap_of(joint));
        let apart = |joint: &Joint| self.case.apart(joint, &self.filled(joint), self.widest(joint), at_corners(joint));
        joints.filter(|joint| !self.is_on_lost_opening(joint)).filter_map(apart).collect()
    }

    /// Whether a joint runs over a door or window that another part cuts into, where a piece has no edge any more.
    fn is_on_lost_opening(&self, joint: &Joint) -> bool {
        let part_of = |end: &JointEnd| match end {
            JointEnd::Piece(k) => {
                let part = &self.case.solved.pieces.get(*k)?.part;
                self.parts.iter().position(|p| &p.part.id == part)
            }
            JointEnd::Board => None,
        };
        let [from, to] = joint.line;
        let rod = || hull_of(&[from, to].map(|p| AROUND.map(|d| p + d)).concat());
        joint
            .ends
            .iter()
            .filter_map(part_of)
            .any(|part| self.lost_openings(part).iter().any(|opening| opening.intersection(&rod()).volume() > 0.0))
    }

    /// The icing in the corners and ridges of the piece that stays whole, where another part is cut to it: parts are cut to
    /// the body of an obstacle, and where its walls turn by less than a right angle the corner of that is icing.
    fn filled(&self, joint: &Joint) -> Vec<&Body> {
        let [JointEnd::Piece(a), JointEnd::Piece(b)] = joint.ends else { return vec![] };
        let pieces = &self.case.solved.pieces;
        if pieces.get(a).map(|p| &p.part) == pieces.get(b).map(|p| &p.part) {
            return vec![];
        }
        let closes = |j: &Joint| {
            let kind = matches!(j.kind, JointKind::Corner | JointKind::Ridge | JointKind::Hip | JointKind::Knee);
            kind && j.ends.contains(&JointEnd::Piece(a))
        };
        let of_piece = |(j, _): &&(usize, Body)| closes(&self.case.solved.joints[*j]);
        self.case.icing.iter().filter(of_piece).map(|(_, body)| body).collect()
    }

    /// How far apart the sides of a joint may be, mm.
    ///
    /// A piece cut square to an obstacle clears what of it is in its own slab, one gap thicker on both faces, and by one gap
    /// in its own plane. Where the obstacle's face stands at an angle a to the slab, the corner of the piece is then
    /// g (1 + cot a) from it level with the slab, which is g (sin a + cos a) square to the face: 1.42 gaps at most.
    ///
    /// A wall under a roof whose overhang is gone is g / sin(dihedral) from the roof's edge; so may the two be in a part
    /// that meets others.
    fn widest(&self, joint: &Joint) -> f64 {
        let gap = self.case.gap_of(joint);
        let [JointEnd::Piece(a), JointEnd::Piece(b)] = joint.ends else { return gap };
        let (Some(a), Some(b)) = (self.case.solved.pieces.get(a), self.case.solved.pieces.get(b)) else { return gap };
        if a.part != b.part {
            let cos = face(a).dot(&face(b)).abs().min(1.0);
            return gap * ((1.0 - cos * cos).sqrt() + cos);
        }
        let roof = |p: &Piece| matches!(p.role, Role::Slope(..) | Role::Lid);
        let wall = |p: &Piece| matches!(p.role, Role::Wall(_) | Role::Post(..));
        if (wall(a) && roof(b)) || (wall(b) && roof(a)) { gap / joint.dihedral.sin().abs().max(0.2) } else { gap }
    }
}

/// Direction square to the faces of a piece, in the house.
fn face(piece: &Piece) -> V3 {
    piece.house_from_piece * V3::z()
}
