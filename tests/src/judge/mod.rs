//! Whether a solved house closes: the checks of 'what nothing gapes means'.

pub(crate) mod account;
mod contact;
mod overlap;
pub(crate) mod seal;
pub(crate) mod sizes;
mod slices;

use crate::body::Body;
use crate::envelope::Envelope;
use gable_shell::{House, Joint, JointEnd, Part, Role, Solved};
use std::fmt;

/// What was checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Check {
    /// The data keep the contract of [`gable_shell::Piece`].
    Contract,
    /// Two pieces share room.
    Overlap,
    /// Neighbours counted from the house are no joint, or only along part of their line.
    Neighbours,
    /// The two pieces of a joint are not one gap apart.
    Contact,
    /// An icing body shares room with a piece or another icing body.
    Icing,
    /// The shell is more or less than biscuit and icing.
    Account,
    /// The inside is not closed.
    Seal,
    /// A typed size is not met.
    Size,
}

/// Something the judge objects to.
#[derive(Clone, Debug)]
pub struct Fault {
    /// Which check failed.
    pub check: Check,
    /// What and where.
    pub what: String,
    /// How much: mm, mm³ or a share, as `what` says.
    pub amount: f64,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}: {} [{:.6}]", self.check, self.what, self.amount)
    }
}

/// A house of one part and what the solver made of it.
pub struct Case<'a> {
    /// The house.
    pub house: &'a House,
    /// The solver's answer.
    pub solved: &'a Solved,
    /// What the part encloses, from the house alone.
    pub envelope: Envelope,
    /// Solids of the pieces, in their order.
    pub bodies: Vec<Body>,
    /// Icing bodies with the index of their joint.
    pub icing: Vec<(usize, Body)>,
    /// How much wider joints of baked pieces may be than planned, and how much shorter such pieces, mm.
    pub bridged: f64,
}

impl<'a> Case<'a> {
    /// Makes solids of all pieces and icing bodies; `None` for a house without parts.
    pub fn new(house: &'a House, solved: &'a Solved) -> Option<Self> {
        let bodies = solved.pieces.iter().map(Body::of_piece).collect();
        Some(Self::of(house, solved, Envelope::of(house, house.parts.first()?), bodies))
    }

    pub(crate) fn of(house: &'a House, solved: &'a Solved, envelope: Envelope, bodies: Vec<Body>) -> Self {
        let icing = solved.joints.iter().enumerate();
        let icing = icing.flat_map(|(j, joint)| joint.icing.iter().map(move |solid| (j, Body::of_solid(solid))));
        let icing = icing.collect();
        Self { house, solved, envelope, bodies, icing, bridged: 0.0 }
    }

    /// The same, with so much icing, mm, allowed round pieces that are baked already.
    #[must_use]
    pub fn bridging(self, bridged: f64) -> Self {
        Self { bridged, ..self }
    }

    /// How much wider than planned a joint may be, mm.
    pub(crate) fn bridged(&self, joint: &Joint) -> f64 {
        let pieces = joint.ends.iter().filter_map(|end| if let JointEnd::Piece(k) = end { Some(*k) } else { None });
        let mut pieces = pieces.filter_map(|k| self.solved.pieces.get(k));
        if pieces.any(|p| p.baked) { self.bridged } else { 0.0 }
    }

    /// All checks but the seal, which is slow.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = self.contract();
        if faults.is_empty() {
            faults.extend(self.overlaps());
            faults.extend(self.neighbours());
            faults.extend(self.contacts());
            faults.extend(self.icing_overlaps());
            faults.extend(self.account());
            faults.extend(self.sizes());
        }
        faults
    }

    pub(crate) fn part(&self) -> Option<&'a Part> {
        self.house.parts.first()
    }

    pub(crate) fn piece(&self, role: &Role) -> Option<usize> {
        self.solved.pieces.iter().position(|p| p.role == *role)
    }

    pub(crate) fn fault(check: Check, what: String, amount: f64) -> Fault {
        Fault { check, what, amount }
    }
}
