use super::Tint;
use gable_measure::Length;
use gable_words::tr;

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
    /// Every kind with the word that a file has for it, in sizes that suit a house of a hand or two.
    pub const USUAL: [(&'static str, Self); 7] = {
        const fn mm(mm: f64) -> Length {
            Length::mm_of(mm)
        }
        [
            ("tiles", Self::Tiles { shape: TileShape::Square, width: mm(12.0), length: mm(15.0), exposure: mm(10.0) }),
            ("brick", Self::Brick { bond: Bond::Stretcher, length: mm(13.0), height: mm(5.0), joint: mm(1.0) }),
            ("stone", Self::Stone { size: mm(16.0), joint: mm(1.5) }),
            ("weatherboard", Self::Weatherboard { exposure: mm(8.0), length: mm(120.0) }),
            ("board-and-batten", Self::BoardAndBatten { board: mm(14.0), batten: mm(4.0) }),
            ("half-timber", Self::HalfTimber { timber: mm(6.0), bay: mm(40.0), braces: true }),
            ("snow", Self::Snow { depth: mm(14.0), tongue: mm(12.0) }),
        ]
    };

    /// The word that a file has for this kind.
    pub fn word(&self) -> &'static str {
        let same = |other: &Self| std::mem::discriminant(self) == std::mem::discriminant(other);
        Self::USUAL.iter().find(|(_, usual)| same(usual)).map_or("", |(word, _)| word)
    }

    /// Its sizes with the words that a file has for them.
    pub fn sizes(&self) -> Vec<(&'static str, Length)> {
        let mut copy = *self;
        copy.sizes_mut().into_iter().map(|(key, length)| (key, *length)).collect()
    }

    /// The same, to be changed.
    pub fn sizes_mut(&mut self) -> Vec<(&'static str, &mut Length)> {
        match self {
            Self::Tiles { width, length, exposure, .. } => {
                vec![("width", width), ("length", length), ("exposure", exposure)]
            }
            Self::Brick { length, height, joint, .. } => {
                vec![("length", length), ("height", height), ("joint", joint)]
            }
            Self::Stone { size, joint } => vec![("size", size), ("joint", joint)],
            Self::Weatherboard { exposure, length } => vec![("exposure", exposure), ("length", length)],
            Self::BoardAndBatten { board, batten } => vec![("board", board), ("batten", batten)],
            Self::HalfTimber { timber, bay, .. } => vec![("timber", timber), ("bay", bay)],
            Self::Snow { depth, tongue } => vec![("depth", depth), ("tongue", tongue)],
        }
    }

    /// What shows between the units, if it is not the biscuit: mortar and plaster of icing.
    pub fn ground(&self) -> Option<Tint> {
        match self {
            Self::Brick { .. } | Self::Stone { .. } => Some(Tint::Icing),
            Self::HalfTimber { .. } => Some(Tint::Cream),
            _ => None,
        }
    }

    /// In a word or two.
    pub fn words(&self) -> &'static str {
        match self {
            Self::Tiles { .. } => tr!("tiles"),
            Self::Brick { .. } => tr!("brick"),
            Self::Stone { .. } => tr!("stone"),
            Self::Weatherboard { .. } => tr!("weatherboard"),
            Self::BoardAndBatten { .. } => tr!("board and batten"),
            Self::HalfTimber { .. } => tr!("half-timber"),
            Self::Snow { .. } => tr!("snow"),
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
