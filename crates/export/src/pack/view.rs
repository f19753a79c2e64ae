//! A piece as one sees it from outside the house.

use super::stand::{Stand, hangs_over, on_piece};
use gable_plane::{Contour, P2, V2};
use gable_shell::{EdgeKind, Member, Mode, Piece, Solved};

/// Cosine of an angle, about a degree, below which pieces that lie on each other have one arrow.
const UPRIGHT: f64 = 0.9998;

/// The outlines of a piece as they lie with the good face up and 'up' to +y.
#[derive(Clone)]
pub(super) struct View<'a> {
    /// Which piece.
    pub(super) piece: &'a Piece,
    /// Corners on the reference face, counter-clockwise as seen.
    pub(super) outline: Vec<P2>,
    /// Corners on the other face, one for one.
    pub(super) back: Vec<P2>,
    /// `edges[k]` runs from `outline[k]` to the next corner.
    pub(super) edges: Vec<EdgeKind>,
    /// Doors and windows that are not part of the outline already.
    pub(super) openings: Vec<(Contour, Mode)>,
    /// Where others stand on its face.
    pub(super) stands: Vec<Stand>,
}

impl<'a> View<'a> {
    /// The view of the piece with an index, if there is one.
    ///
    /// z of a wall runs into the house, so its own coordinates show it from inside: x is mirrored. Slopes, lids and
    /// floors have z upwards, so their own coordinates show the face that is seen.
    pub(super) fn of(solved: &'a Solved, index: usize) -> Option<Self> {
        let piece = solved.pieces.get(index)?;
        let met = |edge: &EdgeKind| match edge {
            EdgeKind::Joint(k) if hangs_over(solved, piece, *k) => EdgeKind::Free,
            edge => *edge,
        };
        let plain = Self {
            piece,
            outline: piece.outline.clone(),
            back: piece.outline_back.clone(),
            edges: piece.edges.iter().map(met).collect(),
            openings: piece.openings.iter().map(|o| (o.contour.clone(), o.mode)).collect(),
            stands: on_piece(solved, index),
        };
        // Turn so that up = (s, c) comes to (0, 1).
        let up = piece.up.try_normalize(0.0).unwrap_or_else(V2::y);
        let upright = plain.mapped(|p| P2::new(p.x * up.y - p.y * up.x, p.x * up.x + p.y * up.y));
        Some(if is_seen_mirrored(piece) { upright.turned_over() } else { upright })
    }

    /// The view of a piece as it is cut with the template of its group, and its corner that lies where the first one of
    /// the template does.
    pub(super) fn of_member(solved: &'a Solved, member: &Member) -> Option<(Self, usize)> {
        let view = Self::of(solved, member.piece)?;
        let count = view.outline.len().max(1);
        // Corner j of a ring run through backwards is corner n-1-j; which rings are depends on both.
        let start = match (is_seen_mirrored(view.piece), member.turned_over) {
            (false, false) => member.start,
            (true, false) => count - member.start,
            (false, true) => 2 * count - 1 - member.start,
            (true, true) => member.start + 1,
        };
        let view = if member.turned_over { view.turned_over() } else { view };
        Some((view, start % count))
    }

    fn mapped(&self, map: impl Fn(P2) -> P2) -> Self {
        let ring = |r: &[P2]| r.iter().map(|p| map(*p)).collect();
        let openings = self.openings.iter().map(|(c, mode)| (c.mapped(false, &map), *mode)).collect();
        let stands = moved(&self.stands, &map);
        Self { outline: ring(&self.outline), back: ring(&self.back), openings, stands, ..self.clone() }
    }

    /// The same mirrored left to right, rings still counter-clockwise.
    pub(super) fn turned_over(&self) -> Self {
        let flip = |p: P2| P2::new(-p.x, p.y);
        let ring = |r: &[P2]| r.iter().rev().map(|p| flip(*p)).collect();
        let mut edges: Vec<EdgeKind> = self.edges.iter().rev().copied().collect();
        // Corner k comes from corner n-1-k, so edge k comes from the edge before it: n-2-k.
        if !edges.is_empty() {
            edges.rotate_left(1);
        }
        Self {
            piece: self.piece,
            outline: ring(&self.outline),
            back: ring(&self.back),
            edges,
            openings: self.openings.iter().map(|(c, mode)| (c.mapped(true, flip), *mode)).collect(),
            stands: moved(&self.stands, flip),
        }
    }

    /// Lines of `other` in its own piece's coordinates, as they lie on this one; `None` where one of them has no edge.
    /// `turned_over` and `start` say how it is cut with this one.
    pub(super) fn lines_of(
        &self,
        (other, start, turned_over): (&View<'_>, usize, bool),
        lines: &[[P2; 2]],
    ) -> Option<Vec<[P2; 2]>> {
        let motion = Motion::between(self, other, start)?;
        let flip = |p: P2| if turned_over { P2::new(-p.x, p.y) } else { p };
        let place = |p: P2| motion.back(flip(seen_from_outside(other.piece, p)));
        Some(lines.iter().map(|line| line.map(place)).collect())
    }

    /// Whether up of `other`, whose corner `start` lies where the first of this one does, is up of this one too.
    pub(super) fn is_upright_with(&self, other: &View<'_>, start: usize) -> bool {
        Motion::between(self, other, start).is_none_or(|m| m.cos > UPRIGHT)
    }

    /// What stands on `other`, whose corner `start` lies where the first of this one does, in the coordinates of this one.
    pub(super) fn stands_of(&self, other: &View<'_>, start: usize) -> Vec<Stand> {
        Motion::between(self, other, start).map_or_else(Vec::new, |m| moved(&other.stands, |p| m.back(p)))
    }
}

/// Where a point of a piece is in its view.
pub(crate) fn seen_from_outside(piece: &Piece, p: P2) -> P2 {
    let up = piece.up.try_normalize(0.0).unwrap_or_else(V2::y);
    let (x, y) = (p.x * up.y - p.y * up.x, p.x * up.x + p.y * up.y);
    if is_seen_mirrored(piece) { P2::new(-x, y) } else { P2::new(x, y) }
}

/// Whether the own coordinates of a piece show it from inside the house.
fn is_seen_mirrored(piece: &Piece) -> bool {
    piece.role.is_upright()
}

fn moved(stands: &[Stand], map: impl Fn(P2) -> P2) -> Vec<Stand> {
    stands.iter().map(|s| Stand { letter: s.letter.clone(), ends: s.ends.map(&map) }).collect()
}

/// A turn and a move in the plane of the view.
struct Motion {
    cos: f64,
    sin: f64,
    from: P2,
    to: P2,
}

impl Motion {
    /// The motion that takes the longest edge of `a` onto its counterpart in `b`.
    fn between(a: &View<'_>, b: &View<'_>, start: usize) -> Option<Self> {
        let count = a.outline.len();
        let edge = |k: usize| a.outline[(k + 1) % count] - a.outline[k];
        let longest = (0..count).max_by(|&i, &j| edge(i).norm().total_cmp(&edge(j).norm()))?;
        let other = |k: usize| b.outline[(k + start) % count];
        let here = edge(longest).try_normalize(0.0)?;
        let there = (other(longest + 1) - other(longest)).try_normalize(0.0)?;
        let (from, to) = (a.outline[longest], other(longest));
        Some(Self { cos: here.dot(&there), sin: here.perp(&there), from, to })
    }

    /// Where a point comes from.
    fn back(&self, p: P2) -> P2 {
        let v = p - self.to;
        self.from + V2::new(v.x * self.cos + v.y * self.sin, v.y * self.cos - v.x * self.sin)
    }
}
