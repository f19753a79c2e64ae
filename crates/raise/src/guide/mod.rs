//! The order of assembly in stages: what is raised together, what holds it until icing has set, what must be done from
//! inside before no hand reaches there any more.

mod moves;
mod props;
mod reach;
mod site;
mod stages;

pub use props::FLOWS;
pub use reach::hand_reaches;

use crate::{Held, Plan, Step, Stuck, plan};
use gable_measure::{Finding, Length};
use gable_plane::{P2, P3};
use gable_shell::{Solved, Wish};
use site::Site;

/// How to raise a house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Guide {
    /// In the order in which they are done.
    pub stages: Vec<Stage>,
    /// What the person wanted of the order, and has.
    pub kept: Vec<Wish>,
    /// What the person wanted of the order and cannot have, and what stands in the way.
    pub refused: Vec<(Wish, Vec<Held>)>,
}

/// One act of the assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// The pieces that are raised, one after the other.
    pub steps: Vec<Step>,
    /// Joints to ice, as indices into [`Solved::joints`]: those of the new pieces with each other, with what stands, and
    /// with the base board.
    pub joints: Vec<usize>,
    /// What holds the new pieces until their joints have set.
    pub props: Vec<Prop>,
    /// Joints to strengthen from inside once this stage stands, as no hand reaches them after the next stage.
    pub inside: Vec<usize>,
    /// Joints of this stage that no hand ever reaches from inside.
    pub out_of_reach: Vec<usize>,
    /// Whether what stands must have set before this stage begins, because its pieces rest on what was raised last.
    pub waits: bool,
}

/// Something that holds a piece for a while: a can, a bottle, a stack of card.
#[derive(Clone, Debug, PartialEq)]
pub struct Prop {
    /// Index into [`Solved::pieces`].
    pub piece: usize,
    /// What it does.
    pub kind: PropKind,
    /// What it stands on: a piece, or the base board.
    pub on: Option<usize>,
    /// Where it touches the piece, in the house, mm.
    pub at: P3,
    /// Where its middle stands, seen from above, mm.
    pub stands: P2,
    /// How high it is from what it stands on.
    pub height: Length,
}

/// How a prop holds a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PropKind {
    /// Beside an upright piece, so that it does not tip.
    Beside,
    /// Under a piece, so that it does not sink.
    Under,
    /// Before the lower edge of a slope, so that it does not slide.
    Before,
}

impl Guide {
    /// Finds an order and divides it into stages.
    ///
    /// # Errors
    /// As [`order`].
    pub fn of(solved: &Solved) -> Result<Self, Stuck> {
        Ok(Self::of_plan(solved, plan(solved, &solved.wishes)?))
    }

    pub(crate) fn of_plan(solved: &Solved, plan: Plan) -> Self {
        let Plan { steps, kept, refused } = plan;
        let site = Site::new(solved, &kept);
        let runs = stages::runs(&site, &steps);
        let when = stages::when(&runs, solved.pieces.len());
        let last = reach::last_stages(&site, &when, runs.len());
        let stage = |(k, steps): (usize, &Vec<Step>)| {
            let joints = stages::joints(solved, &when, k);
            let shut = |j: &usize| last[*j] == Some(None);
            Stage {
                props: props::props(&site, &when, k, steps),
                waits: stages::waits(&site, &when, k),
                inside: (0..last.len()).filter(|&j| last[j] == Some(Some(k)) && k + 1 < runs.len()).collect(),
                out_of_reach: joints.iter().copied().filter(shut).collect(),
                joints,
                steps: steps.clone(),
            }
        };
        Self { stages: runs.iter().enumerate().map(stage).collect(), kept, refused }
    }

    /// What there is to say of it: see [`crate::check`].
    pub fn findings(&self, solved: &Solved) -> Vec<Finding> {
        crate::check::of_guide(solved, self)
    }

    /// Why a wish that was refused cannot be had, in words.
    pub fn because(why: &[Held]) -> String {
        crate::check::because(why)
    }

    /// Per piece the stage in which it is raised.
    pub fn stage_of(&self, piece: usize) -> Option<usize> {
        self.stages.iter().position(|stage| stage.steps.iter().any(|step| step.piece == piece))
    }
}
