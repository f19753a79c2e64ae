//! What makes a plain box a house: finishes, ornaments and free-standing extras.

mod covering;
mod finish;
mod ornament;
mod stuff;

pub use covering::{Bond, Covering, TileShape};
pub use finish::{Faces, Finish, Rates, Share, Where};
pub use ornament::{Ornament, OrnamentKind, Style};
pub use stuff::{Stuff, Tint};

/// Everything that is put onto or beside the house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Dressing {
    /// What covers faces. Of two on one face the later one counts; snow lies over whatever else is there.
    pub finishes: Vec<Finish>,
    /// What is made apart and stuck on.
    pub ornaments: Vec<Ornament>,
    /// How fast the person works.
    pub rates: Rates,
}
