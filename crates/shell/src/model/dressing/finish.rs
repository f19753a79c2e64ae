use super::{Stuff, Tint};
use crate::{PartId, SideId};
use gable_measure::Length;

/// What covers some faces.
#[derive(Clone, Debug, PartialEq)]
pub struct Finish {
    /// The faces.
    pub faces: Faces,
    /// With what.
    pub covering: Covering,
    /// What its units are made of.
    pub stuff: Stuff,
    /// Thickness of a unit.
    pub thickness: Length,
    /// Shades and how much of each; never empty.
    pub shades: Vec<Share>,
    /// Another number gives another order of shades and another lie of stones.
    pub seed: u32,
}

/// Which faces a finish covers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Faces {
    /// Of one part; of all when not given.
    pub part: Option<PartId>,
    /// Which of its faces.
    pub which: Where,
    /// On one side; on all when not given.
    pub side: Option<SideId>,
}

/// Kinds of faces.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Where {
    /// Outside of walls and of the strips of a parapet.
    #[default]
    Walls,
    /// Upper face of slopes.
    Slopes,
    /// Upper face of lids.
    Lids,
}

/// One shade of a finish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// Its colour.
    pub tint: Tint,
    /// How much of it, against the shares of the others. Positive.
    pub share: f64,
}

/// What a face can be covered with. Sizes are those of the units as bought or cut; they stay when the house is resized.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Covering {
    /// Tiles, slates or shingles in courses from the eave up, each course moved by half a tile.
    Tiles {
        /// Shape of the lower end.
        shape: TileShape,
        /// Width of a tile.
        width: Length,
        /// Length of a tile, what is covered included.
        length: Length,
        /// How much of each course shows.
        exposure: Length,
    },
    /// Brick.
    Brick {
        /// How the bricks lie.
        bond: Bond,
        /// Length of a stretcher; a header is half of it less half a joint.
        length: Length,
        /// Height of a brick.
        height: Length,
        /// Width of the mortar.
        joint: Length,
    },
    /// Rubble stone.
    Stone {
        /// Width of a usual stone.
        size: Length,
        /// Width of the mortar.
        joint: Length,
    },
    /// Level boards, each lapping over the one below.
    Weatherboard {
        /// How much of each board shows.
        exposure: Length,
        /// Longest board.
        length: Length,
    },
    /// Upright boards with battens over the joints.
    BoardAndBatten {
        /// From joint to joint.
        board: Length,
        /// Width of a batten.
        batten: Length,
    },
    /// Timbers with plaster between.
    HalfTimber {
        /// Width of a timber.
        timber: Length,
        /// From post to post at most.
        bay: Length,
        /// Whether braces stand in the end bays.
        braces: bool,
    },
    /// Snow along the eaves.
    Snow {
        /// How far it reaches up the slope.
        depth: Length,
        /// Width of a tongue.
        tongue: Length,
    },
}

impl Covering {
    /// In a word or two.
    pub fn words(&self) -> &'static str {
        match self {
            Self::Tiles { .. } => "tiles",
            Self::Brick { .. } => "brick",
            Self::Stone { .. } => "stone",
            Self::Weatherboard { .. } => "weatherboard",
            Self::BoardAndBatten { .. } => "board and batten",
            Self::HalfTimber { .. } => "half-timber",
            Self::Snow { .. } => "snow",
        }
    }
}

/// Lower end of a tile.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum TileShape {
    /// Square.
    #[default]
    Square,
    /// Half round, or a flat arch where the exposure is too small for it.
    Rounded,
    /// Pointed.
    Pointed,
    /// Square, every second one longer.
    Staggered,
}

/// How bricks lie on each other.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bond {
    /// Stretchers, moved by half a brick each course.
    #[default]
    Stretcher,
    /// Courses of headers and of stretchers in turn.
    English,
    /// Header and stretcher in turn in each course.
    Flemish,
}

/// Speed of work, to be set by each person. The defaults are assumptions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rates {
    /// Seconds to set one unit.
    pub set: f64,
    /// Seconds more to cut one to fit.
    pub cut: f64,
    /// Seconds to pipe 100 mm of line.
    pub pipe: f64,
}

impl Default for Rates {
    fn default() -> Self {
        Self { set: 6.0, cut: 12.0, pipe: 5.0 }
    }
}
