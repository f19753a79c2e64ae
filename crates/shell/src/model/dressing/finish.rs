use super::{Covering, Stuff, Tint};
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

impl Finish {
    /// A covering as most would have it, on some faces (sizes and thickness: common practice, no source).
    pub fn usual(covering: Covering, faces: Faces) -> Self {
        let (stuff, thickness, tints): (_, _, &[_]) = match covering {
            Covering::Tiles { .. } => (Stuff::Fondant, 1.5, &[Tint::Cinnamon, Tint::Ginger, Tint::Cocoa]),
            Covering::Brick { .. } => (Stuff::Fondant, 1.5, &[Tint::Cinnamon, Tint::Caramel]),
            Covering::Stone { .. } => (Stuff::Fondant, 2.0, &[Tint::Biscuit, Tint::Cream, Tint::Poppy]),
            Covering::Weatherboard { .. } | Covering::BoardAndBatten { .. } => (Stuff::GumPaste, 1.5, &[Tint::Cream]),
            Covering::HalfTimber { .. } => (Stuff::Dough, 2.0, &[Tint::Cocoa]),
            Covering::Snow { .. } => (Stuff::Icing, 2.5, &[Tint::Icing]),
        };
        let shades = tints.iter().map(|&tint| Share { tint, share: 1.0 }).collect();
        Self { faces, covering, stuff, thickness: Length::mm_of(thickness), shades, seed: 1 }
    }
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
