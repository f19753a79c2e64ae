//! A general planner of jobs that people do in kitchens. It knows nothing of gingerbread and no clock: plain data in, plain
//! data out, the same every time.
//!
//! Times are whole minutes from any zero that all of a project share.
//!
//! - A *job* holds people, or is watched by anyone who is in the kitchen, or goes on alone. It may take up places: an oven,
//!   trays, a shelf of the freezer.
//! - A *block* is a run of jobs that are done in one go in one kitchen: only within a block may a job have to follow another
//!   at once (trim while warm) and may a place be held from one job to a later one (the tray from rolling to cold).
//! - Jobs are put one block after another as early as they can go; which block is next is what the planner improves.
//!   Backwards from the end is the same with time turned over.

mod answer;
mod block;
mod board;
mod improve;
mod profile;
mod project;
mod schedule;
mod serial;
#[cfg(test)]
pub(super) mod tests;
mod trouble;

pub use answer::{Answer, Plan, ROUNDS, plan};
pub use project::{Fault, Hands, Hold, Hours, Job, Link, Need, Person, Place, Project, Spare, Taken};
pub use schedule::{Placed, Schedule};
pub use trouble::{Change, Help, Short, Trouble, helps};
