//! No two pieces share room, and icing lies where no biscuit is.

use super::{Case, Check, Fault};

/// Volume two pieces may share, mm³: the promise of the design.
const SHARED: f64 = 0.001;
/// Volume an icing body may share with anything, mm³. It is found by clipping within a millionth of a millimetre, so
/// faces of some thousand square millimetres may share thousandths of a cubic one.
const ICING_SHARED: f64 = 0.01;
/// Bodies that a plane keeps apart but for this much, mm, share less than the volumes above.
const SKIN: f64 = 1e-9;
const ICING_SKIN: f64 = 1e-6;

impl Case<'_> {
    /// Pairs of pieces that share room.
    pub fn overlaps(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        for (i, a) in self.bodies.iter().enumerate() {
            for (j, b) in self.bodies.iter().enumerate().skip(i + 1) {
                let shared = if a.apart(b, SKIN) { 0.0 } else { a.shared(b) };
                if shared > SHARED {
                    let what = format!("{} and {} share mm³", self.name(i), self.name(j));
                    faults.push(Self::fault(Check::Overlap, what, shared));
                }
            }
        }
        faults
    }

    /// Icing bodies that share room with a piece or with each other.
    pub fn icing_overlaps(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        for (k, (joint, icing)) in self.icing.iter().enumerate() {
            let letter = &self.solved.joints[*joint].id.0;
            let mut look = |other: &crate::Body, name: &dyn Fn() -> String| {
                let shared = if icing.apart(other, ICING_SKIN) { 0.0 } else { icing.shared(other) };
                if shared > ICING_SHARED {
                    faults.push(Self::fault(
                        Check::Icing,
                        format!("icing of {letter} and {} share mm³", name()),
                        shared,
                    ));
                }
            };
            for (i, piece) in self.bodies.iter().enumerate() {
                look(piece, &|| self.name(i));
            }
            for (other_joint, other) in self.icing.iter().skip(k + 1) {
                look(other, &|| format!("icing of {}", self.solved.joints[*other_joint].id.0));
            }
        }
        faults
    }

    pub(crate) fn name(&self, piece: usize) -> String {
        self.solved.pieces.get(piece).map_or_else(|| format!("piece {piece}"), |p| p.id.0.clone())
    }
}
