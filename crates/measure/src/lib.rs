//! Lengths, angles, the reader for what people type, and findings.
//!
//! The lowest crate: every other crate may name this one, it names none of them.

mod angle;
mod finding;
mod length;
mod pitch;
mod print;
mod read;
mod unit;

pub use angle::Angle;
pub use finding::{Finding, Severity};
pub use length::Length;
pub use pitch::Pitch;
pub use print::decimal;
pub use read::{LARGEST_ANGLE, LARGEST_LENGTH, ReadError, read_angle, read_length, read_number, read_pitch};
pub use unit::{InchStep, Unit, tidy};
