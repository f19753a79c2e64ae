//! Pieces and joints of one part while they are being made, in the coordinates of the part.

use super::plate::{Cause, Plate};
use crate::{Dough, JointKind, PieceOpening, Role, WedgeSide};
use gable_plane::{P2, P3, Solid, V3};

/// A hole that another part makes in a piece.
#[derive(Clone)]
pub(super) struct Hole {
    /// Counter-clockwise.
    pub(super) ring: Vec<P2>,
    /// The part that passes through, by index.
    pub(super) part: Option<usize>,
}

/// A piece in the making.
#[derive(Clone)]
pub(super) struct Draft {
    pub(super) role: Role,
    pub(super) name: String,
    pub(super) dough: Dough,
    /// The convex plate, before doors are cut through its foot.
    pub(super) plate: Plate,
    pub(super) front: Vec<P2>,
    pub(super) back: Vec<P2>,
    pub(super) causes: Vec<Cause>,
    pub(super) openings: Vec<PieceOpening>,
    pub(super) notches: Vec<PieceOpening>,
    pub(super) holes: Vec<Hole>,
    /// Number of this part of a piece that fell apart, from 2; none for the largest, or the only, part.
    pub(super) fragment: Option<usize>,
    /// The draft that it fell off.
    pub(super) fragment_of: Option<usize>,
}

impl Draft {
    pub(super) fn new(role: Role, name: String, dough: &Dough, plate: Plate) -> Self {
        let (front, back, causes) = (plate.front.clone(), plate.back.clone(), plate.causes.clone());
        Self {
            role,
            name,
            dough: dough.clone(),
            plate,
            front,
            back,
            causes,
            openings: Vec::new(),
            notches: Vec::new(),
            holes: Vec::new(),
            fragment: None,
            fragment_of: None,
        }
    }

    /// Leaves nothing of it.
    pub(super) fn vanish(&mut self) {
        self.front.clear();
        self.back.clear();
        self.causes.clear();
        self.openings.clear();
        self.notches.clear();
        self.holes.clear();
    }

    /// Whether nothing is left of it.
    pub(super) fn is_gone(&self) -> bool {
        self.front.is_empty()
    }

    /// Whether its reference face is the outside of the house.
    pub(super) fn reference_is_outside(&self) -> bool {
        !matches!(self.role, Role::Slope(..) | Role::Lid)
    }

    /// Unit direction out of the house.
    pub(super) fn outward(&self) -> V3 {
        match self.role {
            Role::Slope(..) | Role::Lid => self.plate.frame.z,
            Role::Floor | Role::Layer(_) | Role::Wall(_) | Role::Post(..) | Role::Parapet(_) => -self.plate.frame.z,
        }
    }

    /// Edge k of the final outline on the reference face, in the part.
    pub(super) fn edge_in_part(&self, k: usize) -> [P3; 2] {
        let next = (k + 1) % self.front.len();
        [self.front[k], self.front[next]].map(|p| self.plate.frame.point(p, 0.0))
    }

    /// Edge k on the other face, in the part.
    pub(super) fn back_edge_in_part(&self, k: usize) -> [P3; 2] {
        let next = (k + 1) % self.back.len();
        [self.back[k], self.back[next]].map(|p| self.plate.frame.point(p, self.plate.thickness))
    }

    /// Edges of the final outline that a cause made.
    pub(super) fn edges_of(&self, cause: Cause) -> Vec<usize> {
        (0..self.causes.len()).filter(|&k| self.causes[k] == cause).collect()
    }
}

/// An edge of a draft: index of the draft, index of the edge.
pub(super) type Edge = (usize, usize);

/// A joint in the making.
#[derive(Clone)]
pub(super) struct JointDraft {
    pub(super) kind: JointKind,
    /// The piece that runs through or stays whole; none for the base board.
    pub(super) first: Option<usize>,
    pub(super) second: usize,
    pub(super) edges: Vec<Edge>,
    pub(super) line: [P3; 2],
    pub(super) gap: f64,
    /// Both edges are alike, so both would be bevelled by half.
    pub(super) halved: bool,
    pub(super) wedge: (WedgeSide, f64),
    pub(super) icing: Vec<Solid>,
}
