//! The house file: JSON with our own marker and a version.
//!
//! Text becomes a tree, the tree becomes a [`House`] while every fault is noted, and the house is checked as a whole;
//! nothing is skipped silently. Writing goes through the serde types in `types`, from which the schema is made too.
//!
//! Lengths are numbers in the house's unit, or text such as `"8 1/2 in"`. Angles are degrees. Whatever is read or
//! written lies on a grid of 1e-9 of its unit, so that a house that was read is written and read again unchanged.

mod check;
mod fault;
mod figure;
pub mod limits;
mod read;
mod schema;
mod types;
mod write;
mod write_baked;
mod write_dressing;
mod write_floor;
mod write_opening;

pub use check::check;
pub(crate) use check::faults_of;
pub use fault::{Fault, FileErrors};
pub use schema::schema;
pub use write::write;

use crate::House;

/// What a file says it is.
const FORMAT: &str = "gablewright-house";

/// The version that is written, and the newest that is read. It goes up whenever an older program would trip over what
/// is written, so that it can say so; 2 brought parts that stand by others, 3 what is put onto the house, sizes that
/// follow others, and openings of other shapes, glazed or in rows, 4 posts, steps and what came out of the oven,
/// 5 openings of a drawn outline, 6 what is put up before what, and after whose
/// design a house is drawn.
const VERSION: u32 = 6;

/// The oldest version that is read; what it leaves out has its usual value.
const OLDEST: u32 = 1;

/// Reads a house file.
///
/// # Errors
///
/// *All* faults that can be told from each other, in the order of the file: what is not JSON, what is missing, unknown,
/// of the wrong kind or twice there, and then whatever [`check`] finds.
///
/// ```
/// use gable_measure::Unit;
/// use gable_shell::{House, file};
/// let house = House::simple(Unit::Millimetre);
/// assert_eq!(file::parse(&file::write(&house)), Ok(house));
/// ```
pub fn parse(text: &str) -> Result<House, FileErrors> {
    read::house(text)
}
