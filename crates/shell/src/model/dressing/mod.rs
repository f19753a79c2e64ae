//! What makes a plain box a house: finishes, ornaments and free-standing extras.

mod finish;
mod stuff;

pub use finish::{Bond, Covering, Faces, Finish, Rates, Share, TileShape, Where};
pub use stuff::{Stuff, Tint};

/// Everything that is put onto or beside the house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Dressing {
    /// What covers faces. Of two on one face the later one counts; snow lies over whatever else is there.
    pub finishes: Vec<Finish>,
    /// How fast the person works.
    pub rates: Rates,
}
