use gable_measure::{Angle, Length};

/// What hangs in an opening: of a cut one the piece that was cut out, less some clearance; of a pressed one its lines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Door {
    /// Two leaves as one piece, with a pressed line down the middle. It does not open.
    pub double: bool,
    /// Side of the hinges, seen from outside.
    pub hinge: Hinge,
    /// How far it stands open.
    pub ajar: Angle,
    /// What is taken off it all round, so that it goes in.
    pub clearance: Length,
}

impl Default for Door {
    /// Half of what a knife takes and what biscuit spreads (an assumption).
    fn default() -> Self {
        Self { double: false, hinge: Hinge::Left, ajar: Angle::ZERO, clearance: Length::mm_of(1.0) }
    }
}

/// Side of the hinges of a door, seen from outside.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hinge {
    /// On the left.
    #[default]
    Left,
    /// On the right.
    Right,
}

impl Hinge {
    /// The other one.
    pub fn other(self) -> Self {
        if self == Self::Left { Self::Right } else { Self::Left }
    }
}
