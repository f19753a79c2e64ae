//! From pieces to days: recipes, dough, icing, ovenfuls, shopping and the timetable.
//!
//! Everything here is planned from a solved and dressed house and from what one person has: trays, recipes, hours. No figure
//! of baking is certain, so each has a [`Basis`] and can be changed by the person.

mod basis;
mod figure;
mod mass;
mod needs;
mod oven;
mod pantry;
mod recipe;
pub mod timetable;
mod to_bake;

pub use basis::Basis;
pub use figure::{Figure, Figures, Known, OutOfRange};
pub use mass::Mass;
pub use needs::{
    About, Consistency, DoughNeed, DoughNeeds, GlazingNeed, IcingNeed, IcingUse, Needs, PasteNeed, SweetsNeed, leaves,
};
pub use oven::{BakeClass, Minutes, OnTray, OvenNote, Ovenful, Ovenfuls, PieceSize, RolledSheet, tray_drawing};
pub use pantry::{Allergen, Amount, AmountError, Family, Ingredient, Measure, Pantry, Presence};
pub use recipe::{Line, Makes, Recipe, RecipeError, Scaling, Weighed, WeighedLine};
pub use to_bake::ToBake;
