//! Saying that something is baked, and taking it back.

use super::without;
use crate::solve::{plain, settle};
use crate::{Baked, Batch, CutPiece, House, PartId, Piece};
use gable_plane::P2;

/// Corners are kept to this, mm: far below what counts as a difference, and short in the file.
const GRID: f64 = 1e-3;
/// Arcs are kept within this, mm.
const FLATNESS: f64 = 0.01;

impl House {
    /// Says that a batch of a part is baked, with the shapes that its pieces have now. What was measured of it stays.
    pub fn came_out(&mut self, part: &PartId, batch: Batch) {
        let planned = plain(&without(&settle(self).0), Vec::new());
        let own = |p: &&Piece| &p.part == part && Batch::of(&p.role) == Some(batch);
        let mut cut: Vec<CutPiece> = planned.pieces.iter().filter(own).map(cut_piece).collect();
        cut.sort_by(|a, b| a.piece.cmp(&b.piece));
        match self.baked.iter_mut().find(|b| &b.part == part && b.batch == batch) {
            Some(baked) => baked.cut = cut,
            None => self.baked.push(Baked { cut, ..Baked::new(part.clone(), batch) }),
        }
    }

    /// Forgets that a batch of a part is baked.
    pub fn not_baked(&mut self, part: &PartId, batch: Batch) {
        self.baked.retain(|b| &b.part != part || b.batch != batch);
    }
}

fn cut_piece(piece: &Piece) -> CutPiece {
    let outline = on_grid(&piece.outline);
    let back = Some(on_grid(&piece.outline_back)).filter(|back| back != &outline);
    let openings = piece.openings.iter().map(|o| on_grid(&o.contour.flatten(FLATNESS))).collect();
    CutPiece { piece: piece.id.clone(), outline, back, openings }
}

/// Corners as a file keeps them.
fn on_grid(ring: &[P2]) -> Vec<P2> {
    // Adding nought turns a negative nought, which a file has not, into a positive one.
    let round = |x: f64| (x / GRID).round() / (1.0 / GRID) + 0.0;
    ring.iter().map(|p| P2::new(round(p.x), round(p.y))).collect()
}
