//! How far two shapes of a piece are apart, and what a baked piece really looks like.

use super::fitted;
use crate::solve::plain;
use crate::{Batch, CutPiece, EdgeKind, House, Mode, OpeningId, PartId, Piece, PieceId, PieceOpening, Solved};
use gable_plane::{Contour, P2, V2, bounds};
use std::collections::BTreeMap;

/// Shapes nearer than this are the same, mm: a knife is thicker.
pub(super) const SAME: f64 = 0.05;

/// Arcs are flattened within this, mm: well below what counts as a difference.
const FLATNESS: f64 = 0.01;

/// Outline and openings of a piece, in its own coordinates.
pub(super) struct Rings {
    pub(super) outline: Vec<P2>,
    pub(super) openings: Vec<Vec<P2>>,
}

/// The rings of a piece.
pub(super) fn rings(piece: &Piece) -> Rings {
    let openings = piece.openings.iter().map(|o| o.contour.flatten(FLATNESS)).collect();
    Rings { outline: piece.outline.clone(), openings }
}

fn rings_of(cut: &CutPiece) -> Rings {
    Rings { outline: cut.outline.clone(), openings: cut.openings.clone() }
}

/// The middle of the foot of a ring, from which pieces are measured when they are laid on each other.
fn foot(ring: &[P2]) -> V2 {
    bounds(ring).map_or_else(V2::zeros, |(low, high)| V2::new((low.x + high.x) / 2.0, low.y))
}

/// How far the farthest point of two shapes is from the other one, mm; an opening that only one has counts as far as it
/// is wide.
pub(super) fn between(one: &Rings, other: &Rings) -> f64 {
    let (from, to) = (foot(&one.outline), foot(&other.outline));
    let laid = |ring: &[P2], foot: V2| ring.iter().map(|p| p - foot).collect::<Vec<_>>();
    let openings = |rings: &Rings, foot| rings.openings.iter().map(|r| laid(r, foot)).collect::<Vec<_>>();
    let (ours, theirs) = (openings(one, from), openings(other, to));
    let nearest = |ring: &Vec<P2>, among: &[Vec<P2>]| {
        let width = bounds(ring).map_or(0.0, |(low, high)| (high - low).norm());
        among.iter().map(|other| ring_apart(ring, other)).fold(width, f64::min)
    };
    let outlines = ring_apart(&laid(&one.outline, from), &laid(&other.outline, to));
    let all = ours.iter().map(|r| nearest(r, &theirs)).chain(theirs.iter().map(|r| nearest(r, &ours)));
    all.fold(outlines, f64::max)
}

/// The farthest that a corner of one ring is from the other ring.
fn ring_apart(one: &[P2], other: &[P2]) -> f64 {
    let far = |from: &[P2], to: &[P2]| from.iter().map(|p| to_ring(p, to)).fold(0.0, f64::max);
    far(one, other).max(far(other, one))
}

fn to_ring(p: &P2, ring: &[P2]) -> f64 {
    let edge = |k: usize| {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        let along = b - a;
        let share = (p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE);
        (a + along * share.clamp(0.0, 1.0) - p).norm()
    };
    (0..ring.len()).map(edge).fold(f64::INFINITY, f64::min)
}

/// How far a plan is from a piece as it was cut, mm; of a piece that is gone, how wide it was.
pub(super) fn from_cut(plan: &Solved, cut: &CutPiece) -> f64 {
    match plan.pieces.iter().find(|p| p.id == cut.piece) {
        Some(piece) => between(&rings(piece), &rings_of(cut)),
        None => bounds(&cut.outline).map_or(0.0, |(low, high)| (high - low).norm()),
    }
}

/// A baked piece that does not fit, and by how much.
pub(super) struct Clash {
    pub(super) piece: PieceId,
    pub(super) part: PartId,
    /// Farthest distance between what it is and what it would have to be, mm; none if there is no such piece any more.
    pub(super) by: Option<f64>,
}

/// Puts baked pieces that would have to change back to what they are, and says which.
pub(super) fn settle(house: &House, plan: &Solved, solved: &mut Solved) -> Vec<Clash> {
    let mut clashes = Vec::new();
    let mut alone: BTreeMap<PartId, Solved> = BTreeMap::new();
    let cut: BTreeMap<&PieceId, &CutPiece> =
        house.baked.iter().flat_map(|b| &b.cut).map(|cut| (&cut.piece, cut)).collect();
    for piece in solved.pieces.iter_mut().filter(|p| p.baked) {
        let is = match cut.get(&piece.id).filter(|cut| from_cut(plan, cut) > SAME) {
            Some(cut) => Is::Cut(cut),
            None if is_measured(house, piece) => {
                let own = alone.entry(piece.part.clone()).or_insert_with(|| measured_alone(house, &piece.part));
                own.pieces.iter().find(|p| p.id == piece.id).map_or(Is::Unknown, Is::Piece)
            }
            None => plan.pieces.iter().find(|p| p.id == piece.id).map_or(Is::Unknown, Is::Piece),
        };
        let by = between(&is.rings(piece), &rings(piece));
        if by > SAME {
            is.put_back(piece);
            clashes.push(Clash { piece: piece.id.clone(), part: piece.part.clone(), by: Some(by) });
        }
    }
    for baked in &house.baked {
        let gone = baked.cut.iter().filter(|c| !solved.pieces.iter().any(|p| p.id == c.piece));
        clashes.extend(gone.map(|c| Clash { piece: c.piece.clone(), part: baked.part.clone(), by: None }));
    }
    clashes
}

/// Whether sizes of the walls were measured, so that they are not as they were cut.
fn is_measured(house: &House, piece: &Piece) -> bool {
    let walls = house.baked_batch(&piece.part, Batch::Walls);
    let sizes = |b: &crate::Baked| b.width.is_some() || b.depth.is_some() || b.height.is_some();
    Batch::of(&piece.role) == Some(Batch::Walls) && walls.is_some_and(sizes)
}

/// The house with nothing baked but the walls of one part: what was measured of them says what they are.
fn measured_alone(house: &House, part: &PartId) -> Solved {
    let mut only = house.clone();
    only.baked.retain(|b| &b.part == part && b.batch == Batch::Walls);
    plain(&fitted(&only).0, Vec::new())
}

/// What a baked piece is.
enum Is<'a> {
    /// As it was cut, the plan being another by now.
    Cut(&'a CutPiece),
    /// As it is planned.
    Piece(&'a Piece),
    Unknown,
}

impl Is<'_> {
    fn rings(&self, now: &Piece) -> Rings {
        match self {
            Self::Cut(cut) => rings_of(cut),
            Self::Piece(piece) => rings(piece),
            Self::Unknown => rings(now),
        }
    }

    /// Gives a piece the shape it has, standing where the other would.
    fn put_back(&self, piece: &mut Piece) {
        let own = self.rings(piece);
        let by = foot(&piece.outline) - foot(&own.outline);
        let moved = |ring: &[P2]| ring.iter().map(|p| p + by).collect::<Vec<_>>();
        let back = match self {
            Self::Cut(cut) => cut.back.as_ref().unwrap_or(&cut.outline),
            Self::Piece(piece) => &piece.outline_back,
            Self::Unknown => return,
        };
        let back = moved(back);
        piece.openings = match self {
            Self::Piece(of) => of.openings.iter().map(|o| moved_opening(o, by)).collect(),
            _ => own.openings.iter().map(|ring| opening(piece, &moved(ring))).collect(),
        };
        (piece.outline, piece.outline_back) = (moved(&own.outline), back);
        if piece.edges.len() != piece.outline.len() {
            piece.edges = vec![EdgeKind::Free; piece.outline.len()];
            piece.notches.clear();
        }
    }
}

fn moved_opening(opening: &PieceOpening, by: V2) -> PieceOpening {
    PieceOpening { contour: opening.contour.mapped(false, |p| p + by), ..opening.clone() }
}

/// The opening of a ring: that of the plan if it is the same, else one that the plan does not know.
fn opening(piece: &Piece, ring: &[P2]) -> PieceOpening {
    let same = piece.openings.iter().find(|o| ring_apart(&o.contour.flatten(FLATNESS), ring) < SAME);
    same.cloned().unwrap_or_else(|| PieceOpening {
        id: OpeningId("as-baked".to_owned()),
        copy: 0,
        name: "Opening as baked".to_owned(),
        contour: Contour::polygon(ring),
        mode: Mode::Cut,
    })
}
