//! Which pieces can be cut with one template.

use crate::{Group, Member, Piece, PieceOpening};
use gable_plane::{P2, V2};

/// Corners nearer than this coincide for a template, mm: a knife is thicker.
const CONGRUENT: f64 = 0.05;

/// Groups congruent pieces and writes each piece's group into it.
pub(super) fn group(pieces: &mut [Piece]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for piece in 0..pieces.len() {
        let joins = |turned_over: bool| {
            let lies = |(k, g): (usize, &Group)| {
                let start = start_on(pieces.get(g.members.first()?.piece)?, &pieces[piece], turned_over)?;
                Some((k, Member { piece, turned_over, start }))
            };
            groups.iter().enumerate().find_map(lies)
        };
        let (group, member) = joins(false)
            .or_else(|| joins(true))
            .unwrap_or((groups.len(), Member { piece, turned_over: false, start: 0 }));
        if group == groups.len() {
            groups.push(Group { number: group + 1, members: Vec::new() });
        }
        groups[group].members.push(member);
        pieces[piece].group = group;
    }
    groups.iter_mut().for_each(|g| g.members.sort_by_key(|m| m.turned_over));
    groups
}

/// A piece as a template: rings and openings, in one turn and place.
struct Template {
    front: Vec<P2>,
    back: Vec<P2>,
    openings: Vec<PieceOpening>,
}

impl Template {
    /// Mirrored, corner 0 stays the first and the others follow the other way round.
    fn of(piece: &Piece, mirror: bool) -> Self {
        let (mut front, mut back) = (piece.outline.clone(), piece.outline_back.clone());
        let mut openings = piece.openings.clone();
        if mirror {
            let flip = |p: P2| P2::new(-p.x, p.y);
            for ring in [&mut front, &mut back] {
                ring.iter_mut().for_each(|p| *p = flip(*p));
                ring.reverse();
                ring.rotate_right(1);
            }
            openings.iter_mut().for_each(|o| o.contour = o.contour.mapped(true, flip));
        }
        Self { front, back, openings }
    }
}

/// Whether two pieces are of one dough, both baked or both not, and show the same face when they are cut.
fn alike(a: &Piece, b: &Piece) -> bool {
    let upright = |p: &Piece| p.role.is_upright();
    a.dough == b.dough
        && a.baked == b.baked
        && (a.thickness - b.thickness).abs().mm() < CONGRUENT
        && a.reference_is_outside() == b.reference_is_outside()
        && upright(a) == upright(b)
        && a.outline.len() == b.outline.len()
        && a.openings.len() == b.openings.len()
}

/// The corner of `b` that lies on corner 0 of `a` when both are cut with one template, turned over for `b` or not.
fn start_on(a: &Piece, b: &Piece, turned_over: bool) -> Option<usize> {
    if !alike(a, b) {
        return None;
    }
    let count = a.outline.len();
    let (a, b) = (Template::of(a, turned_over), Template::of(b, false));
    let edge = |ring: &[P2], k: usize| ring[(k + 1) % count] - ring[k % count];
    let longest = (0..count).max_by(|&i, &j| edge(&a.front, i).norm().total_cmp(&edge(&a.front, j).norm()))?;
    let source = edge(&a.front, longest);
    let turn_to = |shift: usize| {
        let target = edge(&b.front, longest + shift);
        if (target.norm() - source.norm()).abs() > CONGRUENT {
            return None;
        }
        let turn = nalgebra::Rotation2::rotation_between(&source, &target);
        let map = |p: P2| b.front[(longest + shift) % count] + turn * (p - a.front[longest]);
        let near = |k: usize| {
            let other = (k + shift) % count;
            (map(a.front[k]) - b.front[other]).norm() < CONGRUENT && (map(a.back[k]) - b.back[other]).norm() < CONGRUENT
        };
        ((0..count).all(near) && openings_match(&a.openings, &b.openings, &map)).then(|| turn.angle().abs())
    };
    let found = (0..count).filter_map(|shift| Some((shift, turn_to(shift)?)));
    // Nearly equal turns are equal, so that rounding does not choose.
    found.reduce(|best, other| if other.1 < best.1 - 1e-6 { other } else { best }).map(|(shift, _)| shift)
}

/// Openings match when size, place and the point straight above their middle do: all shapes are symmetrical about
/// their upright axis.
fn openings_match(a: &[PieceOpening], b: &[PieceOpening], map: &impl Fn(P2) -> P2) -> bool {
    let marks = |o: &PieceOpening| {
        let (low, high) = o.contour.bounds();
        let x = (low.x + high.x) / 2.0;
        [P2::new(x, low.y), P2::new(x, high.y)]
    };
    let alike = |p: &PieceOpening, q: &PieceOpening| {
        let (pm, qm) = (marks(p), marks(q));
        let near = |k: usize| (map(pm[k]) - qm[k]).norm() < CONGRUENT;
        let size = |o: &PieceOpening| V2::new(o.contour.area().abs().sqrt(), o.contour.length());
        p.mode == q.mode && near(0) && near(1) && (size(p) - size(q)).norm() < 2.0 * CONGRUENT
    };
    a.iter().all(|p| b.iter().any(|q| alike(p, q)))
}
