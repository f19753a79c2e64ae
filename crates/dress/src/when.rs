//! When things are put on: while pieces lie flat, or once they stand.
//!
//! What stands upright in the house is decorated flat. Slopes and lids are covered when they stand: courses run over seams, and bare
//! they are lighter to lay. Snow comes last of all.

use crate::{Covered, OrnamentPiece};
use gable_shell::{Covering, House, OrnamentKind, Solved};

impl Covered {
    /// Whether it is snow.
    pub fn is_snow(&self, house: &House) -> bool {
        house.dressing.finishes.get(self.finish).is_some_and(|f| matches!(f.covering, Covering::Snow { .. }))
    }

    /// Whether it is put on while its piece lies flat.
    pub fn is_flat_work(&self, house: &House, solved: &Solved) -> bool {
        solved.pieces.get(self.piece).is_some_and(|p| p.role.is_upright()) && !self.is_snow(house)
    }
}

impl OrnamentPiece {
    /// Whether it is stuck on while its piece lies flat: what belongs to an opening.
    pub fn is_flat_work(&self, house: &House) -> bool {
        house.dressing.ornaments.get(self.ornament).map(|own| own.kind).is_some_and(OrnamentKind::is_at_openings)
    }
}
