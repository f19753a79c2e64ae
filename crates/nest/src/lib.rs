//! Packs flat pieces on sheets: trays, paper, leaves, rolled dough.
//!
//! A [`Job`] says what has to lie where; a [`Search`] finds a first [`Layout`] at once and better ones as long as it is
//! asked, never a worse one. The same job and seed give the same layouts. Collisions during the search are told by a
//! library in single precision; [`Layout::faults`] measures a layout again in double precision with code of its own.

mod arena;
mod crossing;
mod faults;
mod first;
mod grow;
mod item;
mod job;
mod layout;
mod overlap;
mod pose;
mod sample;
mod search;
mod separate;
mod shape;
mod sheet;
mod strip;
mod weights;

pub use faults::Fault;
pub use item::{Item, Turns};
pub use job::{Job, Refused};
pub use layout::{Filled, Layout, Placed};
pub use search::Search;
pub use sheet::Sheet;
pub use strip::Strip;
