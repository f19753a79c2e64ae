use super::SideId;
use gable_measure::Length;

/// Name of an opening within a part.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OpeningId(pub String);

/// A door, window or pressed panel in a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Stable name.
    pub id: OpeningId,
    /// Name for people.
    pub name: String,
    /// Side whose wall it is in.
    pub side: SideId,
    /// Outline.
    pub shape: Shape,
    /// Width over all.
    pub width: Length,
    /// Height over all.
    pub height: Length,
    /// Height of its lower edge above the base of the part.
    pub sill: Length,
    /// Where it is along the wall.
    pub placing: Placing,
    /// Through the biscuit or only into it.
    pub mode: Mode,
}

/// Outline of an opening.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Shape {
    /// A rectangle.
    #[default]
    Rectangle,
    /// A half circle over a rectangle.
    RoundHeaded,
}

/// Where an opening is along its wall, seen from outside. Edges are the typed corners of the plan, not the cut edges of the piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Placing {
    /// Its middle is so far right of the middle of the wall (negative: left).
    Centred {
        /// Offset from the middle.
        offset: Length,
    },
    /// Its left edge is so far from the left corner.
    FromLeft {
        /// Distance from the corner.
        distance: Length,
    },
    /// Its right edge is so far from the right corner.
    FromRight {
        /// Distance from the corner.
        distance: Length,
    },
}

/// Whether an opening goes through.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Mode {
    /// Cut through.
    #[default]
    Cut,
    /// Pressed into the dough, not through.
    Pressed,
}
