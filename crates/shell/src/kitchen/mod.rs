//! What a person has at home, and what that means for a house. It is the person's own: house files, which are shared, know
//! nothing of it, and neither does the solver.

mod cut;
mod file;
mod fit;
mod tools;
mod trays;

pub use file::{read, write};
use gable_words::tr;
pub use tools::Tools;
pub use trays::check;

use gable_measure::Length;
use gable_plane::P2;

/// What a person bakes with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kitchen {
    /// The person's name, as it stands on what they draw; empty when nobody has said.
    pub name: String,
    /// The trays, in the person's order; none when nobody has said yet.
    pub trays: Vec<Tray>,
    /// What there is to cut with; nothing when nobody has said yet.
    pub tools: Option<Tools>,
}

/// A baking tray.
#[derive(Clone, Debug, PartialEq)]
pub struct Tray {
    /// What the person calls it.
    pub name: String,
    /// One side of the flat inside.
    pub width: Length,
    /// The other side.
    pub depth: Length,
}

impl Tray {
    /// Smallest side of a tray that is worth its name.
    pub const SMALLEST: Length = Length::mm_of(20.0);
    /// Largest side: a baker's oven takes no more (common practice, no source).
    pub const LARGEST: Length = Length::mm_of(3000.0);

    /// Trays that many people have, with the flat inside that is left of them.
    pub fn usual() -> [Self; 3] {
        let tray = |name: &str, width, depth| Self { name: name.to_owned(), width, depth };
        [
            // From memory: a tray of 465 x 375 mm over all, as it comes with an oven 60 cm wide.
            tray(tr!("Oven tray"), Length::mm_of(430.0), Length::mm_of(350.0)),
            // The least of what recipes and makers give for the inside of a pan of 12 7/8 x 17 3/4 in over all
            // (Culinary Institute of America, Baking and Pastry, 2015, for the outside).
            tray(tr!("Half sheet pan"), Length::inches(16.5), Length::inches(11.5)),
            // 9 1/2 x 13 in over all (the same), less the rims of a half sheet pan.
            tray(tr!("Quarter sheet pan"), Length::inches(11.75), Length::inches(8.125)),
        ]
    }

    /// Whether all of these points can lie in it at once, turned whichever way.
    pub fn holds(&self, points: &[P2]) -> bool {
        fit::fits(points, self.width.mm(), self.depth.mm())
    }
}
