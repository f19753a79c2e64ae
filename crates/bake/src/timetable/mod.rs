//! Who does what when, from the first dough to the house that stands.
//!
//! `Tasks::of` makes the tasks of a house for what a person asks, [`plan`] finds them their times, [`Timetable`] is that in
//! dates and words. No clock is read: the moment of asking is given.

mod ask;
mod kind;
mod moment;
pub mod plan;
mod rate;
mod table;
mod tasks;
mod words;

pub use ask::{Ask, Helper, Shift, Workplace};
pub use kind::{Caution, TaskKind};
pub use rate::{Rate, Rates};
pub use table::{Entry, Misfit, Offer, Timetable};
pub use tasks::{Task, Tasks};
pub use words::{long, when};
