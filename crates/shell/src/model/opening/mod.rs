//! Doors, windows and pressed panels.

mod door;
mod glazing;
mod layout;
mod repeat;
mod shape;

pub use door::{Door, Hinge};
pub use glazing::{Bars, Glass, Glazier, Glazing};
pub use layout::Layout;
pub use repeat::Repeat;
pub use shape::Shape;

use super::SideId;
use crate::Tier;
use gable_measure::Length;

/// Name of an opening within a part.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OpeningId(pub String);

/// A door, window or pressed panel in a wall or a slope; with a repeat, a row or grid of them. The default has no name, no
/// side and no size: it fills up what is not given.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Opening {
    /// Stable name.
    pub id: OpeningId,
    /// Name for people.
    pub name: String,
    /// Side that it is on.
    pub side: SideId,
    /// Whether it is in the wall or in a slope of that side.
    pub face: Surface,
    /// Outline.
    pub shape: Shape,
    /// Width over all; nothing for a whole face.
    pub width: Length,
    /// Height over all; where the width decides it, it must be what [`Opening::settle`] makes it.
    pub height: Length,
    /// Its lower edge: in a wall the height above the base of the part, in a slope the way up from where the roof crosses
    /// the outer face of the wall (above a knee: from the lower edge of the slope).
    pub sill: Length,
    /// Where it is along the wall.
    pub placing: Placing,
    /// Copies of it.
    pub repeat: Option<Repeat>,
    /// Through the biscuit or only into it.
    pub mode: Mode,
    /// What closes it when it is glazed, and its bars.
    pub glazing: Glazing,
    /// What hangs in it.
    pub door: Option<Door>,
}

impl Opening {
    /// Makes the sizes that its shape decides what they must be.
    pub fn settle(&mut self) {
        if self.shape.is_whole_face() {
            (self.width, self.height, self.sill) = (Length::ZERO, Length::ZERO, Length::ZERO);
            self.placing = Placing::default();
            self.repeat = None;
        } else if let Some(height) = self.shape.height_of(self.width) {
            self.height = height;
        }
    }
}

/// The surface of a side that an opening is in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Surface {
    /// The wall.
    #[default]
    Wall,
    /// A slope.
    Slope(Tier),
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

impl Default for Placing {
    fn default() -> Self {
        Self::Centred { offset: Length::ZERO }
    }
}

impl Placing {
    /// Where the left edge of something `width` mm wide is, mm from the left corner of a wall of `length` mm.
    pub fn left_edge(&self, width: f64, length: f64) -> f64 {
        match self {
            Self::Centred { offset } => (length - width) / 2.0 + offset.mm(),
            Self::FromLeft { distance } => distance.mm(),
            Self::FromRight { distance } => length - distance.mm() - width,
        }
    }

    /// The same place seen in a mirror.
    pub fn mirrored(&self) -> Self {
        match *self {
            Self::Centred { offset } => Self::Centred { offset: Length::ZERO - offset },
            Self::FromLeft { distance } => Self::FromRight { distance },
            Self::FromRight { distance } => Self::FromLeft { distance },
        }
    }
}

/// Whether an opening goes through.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mode {
    /// Cut through.
    #[default]
    Cut,
    /// Cut through and closed with glazing.
    Glazed,
    /// Pressed into the dough, not through.
    Pressed,
}

impl Mode {
    /// Whether biscuit is taken out.
    pub fn goes_through(self) -> bool {
        self != Self::Pressed
    }
}
