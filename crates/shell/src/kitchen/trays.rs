//! Pieces that are larger than any tray.

use super::{Kitchen, cut};
use crate::{Group, Piece, Solved};
use gable_measure::{Finding, Length, Severity};
use gable_plane::P2;
use gable_words::tr;

/// Below this share of its size nobody would want the house, and dough does not get thinner with it.
const LEAST: f64 = 0.25;

/// What a person's kitchen has against a house: pieces that fit on none of the trays.
///
/// Places are ids of pieces. Nothing is said of a kitchen without trays.
pub fn check(solved: &Solved, kitchen: &Kitchen) -> Vec<Finding> {
    if kitchen.trays.is_empty() {
        return Vec::new();
    }
    let first = |group: &Group| group.members.first().and_then(|m| solved.pieces.get(m.piece));
    let pieces = solved.groups.iter().filter_map(|group| Some((first(group)?, group.members.len())));
    let large: Vec<(&Piece, usize)> = pieces.filter(|(piece, _)| !fits(&corners(piece), kitchen)).collect();
    let share = large.iter().filter_map(|(piece, _)| share(piece, kitchen)).reduce(f64::min);
    large.iter().map(|(piece, count)| too_large(solved, kitchen, piece, *count, share)).collect()
}

fn corners(piece: &Piece) -> Vec<P2> {
    piece.outline.iter().chain(&piece.outline_back).copied().collect()
}

fn fits(points: &[P2], kitchen: &Kitchen) -> bool {
    kitchen.trays.iter().any(|tray| tray.holds(points))
}

/// The largest share of its size at which a piece fits, found by halving.
fn share(piece: &Piece, kitchen: &Kitchen) -> Option<f64> {
    let points = corners(piece);
    let at = |share: f64| fits(&points.iter().map(|p| p * share).collect::<Vec<_>>(), kitchen);
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..20 {
        let middle = (low + high) / 2.0;
        if at(middle) { low = middle } else { high = middle }
    }
    (low > 0.0).then_some(low)
}

fn too_large(solved: &Solved, kitchen: &Kitchen, piece: &Piece, count: usize, share: Option<f64>) -> Finding {
    let unit = solved.unit;
    let (width, height) = piece.size();
    let alike = if count > 1 { tr!(" (and {} more like it)", count - 1) } else { String::new() };
    let size = |a: Length, b: Length| format!("{} × {}", unit.print_bare(a), unit.print(b));
    let trays = match &kitchen.trays[..] {
        [only] => tr!("your tray, {}", size(only.width, only.depth)),
        _ => tr!("any of your trays").to_owned(),
    };
    let what = tr!("{}{alike}, {}, is larger than {trays}", piece.name, size(width, height));
    // Rounded down: what is left of a per cent is room for dough, which stays as thick.
    let per_cent = share.map(|s| (s * 100.0).floor()).filter(|p| *p >= LEAST * 100.0);
    let smaller = per_cent.map(|p| tr!("make the house about {p:.0} % of its size, so that everything fits"));
    let cut = cut::in_two(piece, unit, |half| fits(half, kitchen));
    let remedies: Vec<String> = smaller.into_iter().chain(cut).collect();
    let remedy =
        if remedies.is_empty() { tr!("bake it on a larger tray").to_owned() } else { remedies.join(tr!(", or ")) };
    Finding { kind: "larger-than-trays", severity: Severity::Caution, place: piece.id.0.clone(), what, remedy }
}
