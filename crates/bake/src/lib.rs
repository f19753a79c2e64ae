//! From pieces to days: recipes, dough, icing, ovenfuls, shopping and the timetable.
//!
//! Everything here is planned from a solved and dressed house and from what one person has: trays, recipes, hours. No figure
//! of baking is certain, so each has a [`Basis`] and can be changed by the person.

mod basis;

pub use basis::Basis;
