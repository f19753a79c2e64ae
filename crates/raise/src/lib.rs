//! In which order the pieces of a house can be put up, each by one straight move.

mod block;
mod check;
mod guide;
mod links;
mod order;
mod stuck;
mod ways;

pub use check::check;
pub use guide::{FLOWS, Guide, Prop, PropKind, Stage, hand_reaches};
pub use order::{Plan, Step, order, plan};
pub use stuck::{Held, Stuck, Why};
