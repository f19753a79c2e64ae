//! Who does what when, from the first dough to the house that stands.
//!
//! `Tasks::of` makes the tasks of a house for what a person asks, [`plan`] finds them their times, [`Timetable`] is that in
//! dates and words. No clock is read: the moment of asking is given.

mod ask;
mod broke;
mod build;
mod calendar;
mod chart;
mod csv;
mod hours;
#[cfg(test)]
mod kept;
mod kind;
mod log;
mod moment;
pub mod plan;
mod rate;
mod rest;
mod table;
mod tasks;
#[cfg(test)]
mod tests;
mod today;
#[cfg(test)]
mod together;
mod words;

pub use ask::{Ask, BETWEEN, Helper, Shift, Workplace};
pub use broke::{Broke, Way};
pub use build::{Broken, Build, Mending, Other, RESERVE, WhichTask, Work};
pub use calendar::CalendarChoice;
pub use hours::{HoursError, On, Person, Times};
pub use kind::TaskKind;
pub use log::{Learned, Log, Tick};
pub use rate::{Rate, Rates};
pub use rest::Running;
pub use table::{Entry, Misfit, Offer, Timetable};
pub use tasks::{Bowl, Mixed, Task, Tasks};
pub use today::Today;
pub use words::{long, when};
