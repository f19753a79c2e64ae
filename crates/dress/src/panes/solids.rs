//! The biscuit round an opening, as convex solids.

use super::flat::convex_pieces;
use gable_plane::{HalfSpace, P2, P3, Rigid, SAME_POINT, Solid, V3, convex_hull};
use gable_shell::{Piece, Solved};

/// How closely arcs are followed, mm.
const LOOK: f64 = 0.05;

/// Every piece of a house as convex solids in the house, openings cut out.
pub(crate) struct Solids {
    pub(crate) pieces: Vec<Vec<Solid>>,
}

impl Solids {
    pub(crate) fn of(solved: &Solved) -> Self {
        Self { pieces: solved.pieces.iter().map(of_piece).collect() }
    }

    /// What other pieces take of a layer of a piece, from `low` to `high` along its z: convex rings in the piece.
    pub(crate) fn in_layer(
        &self,
        piece: usize,
        place: &Rigid,
        (low, high): (f64, f64),
        (min, max): (P2, P2),
    ) -> Vec<Vec<P2>> {
        let inverse = place.inverse();
        let faces = [HalfSpace { normal: V3::z(), offset: high }, HalfSpace { normal: -V3::z(), offset: -low }];
        let box_corners = [(min.x, min.y, low), (max.x, max.y, high)].map(|(x, y, z)| P3::new(x, y, z));
        let layer = Solid::block(box_corners[0], box_corners[1]).moved(place);
        let (layer_low, layer_high) = layer.bounds();
        let others = self.pieces.iter().enumerate().filter(|(k, _)| *k != piece).flat_map(|(_, s)| s);
        let near = others.filter(|s| {
            let (low, high) = s.bounds();
            (0..3).all(|a| low[a] <= layer_high[a] && layer_low[a] <= high[a])
        });
        let shadow = |s: &Solid| {
            let part = s.moved(&inverse).clip_all(&faces)?;
            let flat: Vec<P2> = part.corners().iter().map(|p| p.xy()).collect();
            Some(convex_hull(&flat)).filter(|ring| ring.len() > 2)
        };
        near.filter_map(shadow).collect()
    }
}

fn of_piece(piece: &Piece) -> Vec<Solid> {
    let thickness = piece.thickness.mm();
    let prism = |front: &[P2], back: &[P2]| {
        let lift = |ring: &[P2], z: f64| ring.iter().map(|p| P3::new(p.x, p.y, z)).collect::<Vec<_>>();
        Solid::prism(&lift(front, 0.0), &lift(back, thickness)).moved(&piece.house_from_piece)
    };
    let through = piece.openings.iter().filter(|o| o.mode.goes_through());
    let mut rings: Vec<Vec<P2>> = vec![piece.outline.clone()];
    rings.extend(through.map(|o| o.contour.flatten(LOOK)));
    if rings.len() == 1 && is_convex(&piece.outline) {
        return vec![prism(&piece.outline, &piece.outline_back)];
    }
    // Even-odd, so that it does not matter which way the holes run.
    convex_pieces(&rings).iter().map(|ring| prism(ring, ring)).collect()
}

fn is_convex(ring: &[P2]) -> bool {
    let at = |k: usize| ring[k % ring.len()];
    (0..ring.len()).all(|k| (at(k + 1) - at(k)).perp(&(at(k + 2) - at(k + 1))) >= -SAME_POINT)
}
