//! Ornaments of walls and lids.

use super::piece::{Bench, OrnamentPiece, placed, rectangle};
use crate::finish::Face;
use gable_plane::{P2, P3, V2, V3};
use gable_shell::Piece;
use gable_words::tr;

/// A long block over its height, and a short one.
const LONG: f64 = 2.0;
const SHORT: f64 = 1.2;
/// What is left between two blocks, mm.
const JOINT: f64 = 0.4;

/// Blocks up both ends of a wall, long where the neighbouring wall has a short one.
pub(super) fn quoins(bench: &Bench<'_>, face: &Face, piece: &Piece) -> Vec<OrnamentPiece> {
    let Some(length) = face.side else { return Vec::new() };
    let size = bench.ornament.size.mm();
    let (low, high) = face.border.bounds();
    if size < 1.0 || length < 2.0 * LONG * size {
        return Vec::new();
    }
    let (origin, [u, v, _]) = face.frame_in(piece);
    let place = placed(origin, u, v);
    let mut found = Vec::new();
    for course in 0..((high.y / size) as usize).min(1000) {
        let (foot, head) = (course as f64 * size, (course + 1) as f64 * size - JOINT);
        for (end, words, left) in [("left", tr!("left"), true), ("right", tr!("right"), false)] {
            let long = size * if left == (course % 2 == 0) { LONG } else { SHORT };
            let (from, to) = if left { (0.0, long) } else { (length - long, length) };
            // Where the wall itself ends before the corner, the end of the neighbour shows.
            let (seen_from, seen_to) = (from.max(low.x), to.min(high.x));
            if !face.border.holds(P2::new(seen_from, foot.max(low.y)), P2::new(seen_to, head)) {
                continue;
            }
            let outline = rectangle(P2::new(from, foot), P2::new(to, head));
            found.push(bench.plate(
                (&format!("{end}-{}", course + 1), &format!("{words}-{}", course + 1)),
                outline,
                place,
            ));
        }
    }
    found
}

/// A plate on a lid, reaching past it all round.
pub(super) fn chimney_cap(bench: &Bench<'_>, piece: &Piece) -> Vec<OrnamentPiece> {
    let Some((low, high)) = gable_plane::bounds(&piece.outline_back) else { return Vec::new() };
    let reach = V2::repeat(bench.ornament.size.mm());
    let turn = &piece.house_from_piece;
    let place = placed(turn * P3::new(0.0, 0.0, piece.thickness.mm()), turn * V3::x(), turn * V3::y());
    vec![bench.plate(("", ""), rectangle(low - reach, high + reach), place)]
}
