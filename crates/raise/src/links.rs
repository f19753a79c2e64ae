//! What rests on what.

use gable_mesh::Body;
use gable_shell::{JointEnd, PieceKind, Role, Solved, Wish};
use std::collections::BTreeSet;

/// A piece whose lowest corner is no higher than this stands on the base board, mm.
const ON_BOARD: f64 = 0.01;

/// The joints as neighbours, and what stands on the base board.
pub(crate) struct Links {
    /// Per piece those it has a joint with.
    pub(crate) neighbours: Vec<BTreeSet<usize>>,
    on_board: Vec<bool>,
    /// Per piece the roof pieces of its part if it is a wall: they come after it.
    roof_over: Vec<Vec<usize>>,
    /// Per piece those that the person wants after it.
    pub(crate) later: Vec<BTreeSet<usize>>,
    /// Per piece where it comes when nothing else decides: parts that stand on roofs later, floors, walls, roofs.
    pub(crate) turn: Vec<(usize, u8, usize)>,
}

impl Links {
    pub(crate) fn of(solved: &Solved, bodies: &[Vec<Body>]) -> Self {
        let count = solved.pieces.len();
        let mut neighbours = vec![BTreeSet::new(); count];
        let lowest = |k: usize| bodies[k].iter().map(|b| b.span(&gable_plane::V3::z()).0).fold(f64::INFINITY, f64::min);
        let mut on_board: Vec<bool> = (0..count).map(|k| lowest(k) <= ON_BOARD).collect();
        for joint in &solved.joints {
            match joint.ends {
                [JointEnd::Piece(a), JointEnd::Piece(b)] if a < count && b < count && a != b => {
                    neighbours[a].insert(b);
                    neighbours[b].insert(a);
                }
                [JointEnd::Board, JointEnd::Piece(k)] | [JointEnd::Piece(k), JointEnd::Board] if k < count => {
                    on_board[k] = true;
                }
                _ => {}
            }
        }
        let roofs = |k: usize| -> Vec<usize> {
            let own = |o: &usize| solved.pieces[*o].part == solved.pieces[k].part && kind(&solved.pieces[*o].role) > 1;
            if kind(&solved.pieces[k].role) > 1 { Vec::new() } else { (0..count).filter(own).collect() }
        };
        let roof_over = (0..count).map(roofs).collect();
        let storeys = storeys(solved, &neighbours, &on_board);
        let turn = |k: usize| (storeys[part_of(solved, k)], kind(&solved.pieces[k].role), k);
        let later = vec![BTreeSet::new(); count];
        Self { turn: (0..count).map(turn).collect(), neighbours, on_board, roof_over, later }
    }

    /// Whether no roof piece over a piece is left.
    pub(crate) fn is_uncovered(&self, piece: usize, left: &[bool]) -> bool {
        !self.roof_over[piece].iter().any(|&k| left[k])
    }

    /// Heeds these wishes and no others.
    pub(crate) fn heed(&mut self, wishes: &[&Wish]) {
        self.later = vec![BTreeSet::new(); self.later.len()];
        for wish in wishes {
            for &first in wish.first.iter().filter(|k| !wish.then.contains(k)) {
                if let Some(later) = self.later.get_mut(first) {
                    later.extend(wish.then.iter().filter(|k| !wish.first.contains(k)));
                }
            }
        }
    }

    /// What is left of what the person wants after a piece.
    pub(crate) fn waits_for(&self, piece: usize, left: &[bool]) -> Vec<usize> {
        self.later[piece].iter().copied().filter(|&k| left[k]).collect()
    }

    /// Whether a piece stands or lies on the base board.
    pub(crate) fn is_on_board(&self, piece: usize) -> bool {
        self.on_board[piece]
    }

    /// The pieces among those that are left that rest, over others, on nothing.
    pub(crate) fn floating(&self, left: &[bool]) -> Vec<usize> {
        let mut held: Vec<bool> = std::iter::zip(left, &self.on_board).map(|(l, b)| *l && *b).collect();
        let mut open: Vec<usize> = (0..held.len()).filter(|&k| held[k]).collect();
        while let Some(k) = open.pop() {
            for &other in self.neighbours[k].iter().filter(|&&o| left[o]) {
                if !std::mem::replace(&mut held[other], true) {
                    open.push(other);
                }
            }
        }
        (0..left.len()).filter(|&k| left[k] && !held[k]).collect()
    }
}

/// Floor, wall, roof, parapet.
pub(crate) fn kind(role: &Role) -> u8 {
    PieceKind::of(role) as u8
}

fn part_of(solved: &Solved, piece: usize) -> usize {
    let id = &solved.pieces[piece].part;
    solved.parts.iter().position(|p| &p.id == id).unwrap_or(0)
}

/// Per part how many parts it stands above the board: 0 for one that touches it, else one more than the lowest it touches.
fn storeys(solved: &Solved, neighbours: &[BTreeSet<usize>], on_board: &[bool]) -> Vec<usize> {
    let mut storeys = vec![usize::MAX; solved.parts.len().max(1)];
    for k in (0..on_board.len()).filter(|&k| on_board[k]) {
        storeys[part_of(solved, k)] = 0;
    }
    for _ in 0..storeys.len() {
        for (k, list) in neighbours.iter().enumerate() {
            let lowest = list.iter().map(|&o| storeys[part_of(solved, o)]).min().unwrap_or(usize::MAX);
            let here = &mut storeys[part_of(solved, k)];
            *here = (*here).min(lowest.saturating_add(1));
        }
    }
    storeys
}
