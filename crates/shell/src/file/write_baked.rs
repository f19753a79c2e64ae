//! What came out of the oven, from the model to the file.

use super::types::*;
use super::write::length;
use crate::{Batch, CutPiece, House};
use gable_measure::{Length, tidy};
use gable_plane::P2;

pub(super) fn entries(house: &House) -> Vec<BakedEntry> {
    let of = |l: Option<Length>| l.map(|l| length(l, house.unit));
    let entry = |baked: &crate::Baked| BakedEntry {
        part: baked.part.0.clone(),
        batch: match baked.batch {
            Batch::Walls => BatchEntry::Walls,
            Batch::Roof => BatchEntry::Roof,
            Batch::Lid => BatchEntry::Lid,
        },
        thickness: of(baked.thickness),
        width: of(baked.width),
        depth: of(baked.depth),
        height: of(baked.height),
        cut: baked.cut.iter().map(|c| (c.piece.0.clone(), cut(c))).collect(),
    };
    house.baked.iter().map(entry).collect()
}

fn cut(cut: &CutPiece) -> CutEntry {
    CutEntry {
        outline: ring(&cut.outline),
        back: cut.back.as_deref().map(ring),
        openings: cut.openings.iter().map(|r| ring(r)).collect(),
    }
}

fn ring(corners: &[P2]) -> String {
    corners.iter().map(|p| format!("{},{}", tidy(p.x), tidy(p.y))).collect::<Vec<_>>().join(" ")
}
