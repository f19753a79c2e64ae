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
//!
//! ```
//! use gable_bake::timetable::plan::{Answer, Hands, Hours, Job, Link, Person, Project, plan};
//!
//! let work = |minutes| Job { minutes, hands: Hands::Work(1), ..Job::default() };
//! let evening = |day: i64| Hours { kitchen: 0, from: day * 1440 + 1080, to: day * 1440 + 1260 };
//! let project = Project {
//!     due: 2 * 1440,
//!     kitchens: 1,
//!     people: vec![Person { name: "Ida".to_owned(), hours: vec![evening(0), evening(1)] }],
//!     // Ice a wall for two hours, let it dry overnight, put it up in one.
//!     jobs: vec![work(120), Job { minutes: 720, ..Job::default() }, work(60)],
//!     links: (0..2).map(|k| Link { before: k, after: k + 1, least: 0, most: None }).collect(),
//!     ..Project::default()
//! };
//! let Ok(Answer::Fits(plan)) = plan(&project, 10) else { panic!("there is time enough") };
//! assert_eq!(plan.schedule.start(), Some(1140), "from 19:00 to 21:00");
//! assert_eq!(plan.schedule.end(), Some(1440 + 1260), "at 21:00 on the next day");
//! ```

mod answer;
mod block;
mod board;
mod frame;
mod improve;
mod profile;
mod project;
mod schedule;
mod serial;
mod steps;
#[cfg(test)]
pub(super) mod tests;
mod trouble;

pub use answer::{Answer, Plan, ROUNDS, plan};
pub use project::{Fault, Hands, Hold, Hours, Job, Link, Need, Person, Place, Project, Spare, Taken};
pub use schedule::{Placed, Schedule};
pub use trouble::{Change, Help, Short, Trouble, helps};
