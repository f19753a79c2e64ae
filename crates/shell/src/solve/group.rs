//! Which pieces can be cut with one template.

use crate::{Group, Piece, PieceOpening};
use gable_plane::{P2, V2};

/// Corners nearer than this coincide for a template, mm: a knife is thicker.
const CONGRUENT: f64 = 0.05;

/// Groups congruent pieces and writes each piece's group into it.
pub(super) fn group(pieces: &mut [Piece]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for i in 0..pieces.len() {
        let same = groups.iter().position(|g| congruent(&pieces[g.same[0]], &pieces[i], false));
        let turned = || groups.iter().position(|g| congruent(&pieces[g.same[0]], &pieces[i], true));
        let found = match (same, same.is_none().then(turned).flatten()) {
            (Some(g), _) => {
                groups[g].same.push(i);
                g
            }
            (None, Some(g)) => {
                groups[g].turned_over.push(i);
                g
            }
            (None, None) => {
                groups.push(Group { number: groups.len() + 1, same: vec![i], turned_over: Vec::new() });
                groups.len() - 1
            }
        };
        pieces[i].group = found;
    }
    groups
}

/// A piece as a template: rings and openings, in one turn and place.
struct Template {
    front: Vec<P2>,
    back: Vec<P2>,
    openings: Vec<PieceOpening>,
}

impl Template {
    fn of(piece: &Piece, mirror: bool) -> Self {
        let (mut front, mut back) = (piece.outline.clone(), piece.outline_back.clone());
        let mut openings = piece.openings.clone();
        if mirror {
            let flip = |p: P2| P2::new(-p.x, p.y);
            for ring in [&mut front, &mut back] {
                ring.iter_mut().for_each(|p| *p = flip(*p));
                ring.reverse();
            }
            openings.iter_mut().for_each(|o| o.contour = o.contour.mapped(true, flip));
        }
        Self { front, back, openings }
    }
}

fn congruent(a: &Piece, b: &Piece, mirror: bool) -> bool {
    let alike = a.dough == b.dough
        && (a.thickness - b.thickness).abs().mm() < CONGRUENT
        && a.reference_is_outside() == b.reference_is_outside()
        && a.outline.len() == b.outline.len()
        && a.openings.len() == b.openings.len();
    if !alike {
        return false;
    }
    let (a, b) = (Template::of(a, mirror), Template::of(b, false));
    let count = a.front.len();
    let edge = |ring: &[P2], k: usize| ring[(k + 1) % count] - ring[k % count];
    let Some(longest) = (0..count).max_by(|&i, &j| edge(&a.front, i).norm().total_cmp(&edge(&a.front, j).norm()))
    else {
        return false;
    };
    (0..count).any(|shift| {
        let target = edge(&b.front, longest + shift);
        let source = edge(&a.front, longest);
        if (target.norm() - source.norm()).abs() > CONGRUENT {
            return false;
        }
        let turn = nalgebra::Rotation2::rotation_between(&source, &target);
        let map = |p: P2| b.front[(longest + shift) % count] + turn * (p - a.front[longest]);
        let near = |k: usize| {
            let other = (k + shift) % count;
            (map(a.front[k]) - b.front[other]).norm() < CONGRUENT && (map(a.back[k]) - b.back[other]).norm() < CONGRUENT
        };
        (0..count).all(near) && openings_match(&a.openings, &b.openings, &map)
    })
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
