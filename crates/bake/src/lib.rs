//! From pieces to days: recipes, dough, icing, ovenfuls, shopping and the timetable.
//!
//! Everything here is planned from a solved and dressed house and from what one person has: trays, recipes, hours. No figure
//! of baking is certain, so each has a [`Basis`] and can be changed by the person.

mod basis;
mod biscuit;
mod caution;
mod figure;
mod lot;
mod mass;
mod median;
mod needs;
pub mod notebook;
mod oven;
mod pantry;
mod plan;
mod recipe;
mod shopping;
mod snap;
pub mod timetable;
mod to_bake;
mod words;

pub use basis::Basis;
pub use biscuit::{Found, TestBiscuits, Unlikely};
pub use caution::Caution;
pub use figure::{Figure, Figures, Known, OutOfRange, Settable, Values};
pub use lot::{HandOver, Lot, Lots, PieceOf};
pub use mass::Mass;
pub use needs::{
    About, Consistency, DoughNeed, DoughNeeds, GlazingNeed, IcingNeed, IcingUse, Needs, PasteNeed, SweetsNeed, leaves,
};
pub use notebook::Notebook;
pub use oven::{BakeClass, Minutes, OnTray, OvenNote, Ovenful, Ovenfuls, PieceSize, RolledSheet, alike, tray_drawing};
pub use pantry::{Allergen, Amount, AmountError, Family, Ingredient, Measure, Pantry, Presence};
pub use plan::{BakePlan, Batch, HousePlan, Kit};
pub use recipe::{Line, Makes, Recipe, RecipeError, Scaling, Weighed, WeighedLine};
pub use shopping::{Cupboard, Quantity, Shelf, Shopping, ToBuy};
pub use snap::{SnapTest, Snapped, Spread, Strip};
pub use to_bake::{ToBake, piece_area};
pub use words::Chapter;
