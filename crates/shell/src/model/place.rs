use super::{PartId, Placing, SideId};
use gable_measure::{Angle, Length};

/// Where a part stands. All but the first are relative to a host: when the host changes, the part goes with it.
///
/// A guest's own plan is turned about its origin first (counter-clockwise seen from above). With a turn of zero its front
/// (-y) looks away from the host's wall, or down the slope.
#[derive(Clone, Debug, PartialEq)]
pub enum Place {
    /// On the base board.
    Ground(Spot),
    /// On the base board, against a wall of another part.
    Against {
        /// The other part.
        host: PartId,
        /// Its side.
        side: SideId,
        /// Where along that side, seen from outside: the extent of the turned plan along it is placed like an opening.
        along: Placing,
        /// How far the plan reaches out from the outer face of the wall; the rest of it reaches into the host.
        out: Length,
        /// Turn from facing straight away from the wall.
        turn: Angle,
    },
    /// On a slope of another part; heights count from where its front meets the upper face of the roof.
    OnSlope {
        /// The other part.
        host: PartId,
        /// Side from which the slope rises.
        side: SideId,
        /// Where along that side, seen from outside, as for [`Place::Against`].
        along: Placing,
        /// Level distance from the outer face of the wall below to the foremost point of the plan.
        up: Length,
        /// Turn from facing straight down the slope.
        turn: Angle,
    },
    /// Astride the highest ridge of another part; heights count from the highest point of its roof.
    Astride {
        /// The other part.
        host: PartId,
        /// From the middle of the ridge to the origin of the plan, towards the host's right (of a ridge that runs from
        /// front to back: towards its back).
        along: Length,
        /// Turn from the host's own directions.
        turn: Angle,
    },
    /// On top of another part; heights count from the upper face of its lid, or from the highest point of its roof.
    OnTop {
        /// The other part.
        host: PartId,
        /// In the host's plan coordinates.
        spot: Spot,
    },
}

/// A place in a plan, with a turn.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spot {
    /// x of the plan's origin (centre of a rectangle or polygon, middle of the back of a bay, (0, 0) of a free outline).
    pub x: Length,
    /// y of the plan's origin.
    pub y: Length,
    /// Turn, counter-clockwise seen from above.
    pub turn: Angle,
}

impl Default for Place {
    fn default() -> Self {
        Self::Ground(Spot::default())
    }
}

impl Place {
    /// The part that it is placed by; none on the base board.
    pub fn host(&self) -> Option<&PartId> {
        match self {
            Self::Ground(_) => None,
            Self::Against { host, .. }
            | Self::OnSlope { host, .. }
            | Self::Astride { host, .. }
            | Self::OnTop { host, .. } => Some(host),
        }
    }

    /// Its turn: of a part on the ground from the board's directions, otherwise as its place says.
    pub fn turn(&self) -> Angle {
        match self {
            Self::Ground(spot) | Self::OnTop { spot, .. } => spot.turn,
            Self::Against { turn, .. } | Self::OnSlope { turn, .. } | Self::Astride { turn, .. } => *turn,
        }
    }
}
