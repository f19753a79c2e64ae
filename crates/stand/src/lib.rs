//! Will it stand, will it travel: what biscuit and icing carry, and what they are asked to carry.
//!
//! Everything here is about cake, and nothing is a promise of safety. Strengths of gingerbread are hardly published, so each is a
//! [`Range`] with its basis ([`stuff`]), answers carry the range on, and a person's own snap test takes its place.

mod answer;
pub mod bend;
pub mod carry;
pub mod damp;
pub mod fresh;
pub mod lift;
pub mod light;
mod range;
mod report;
mod site;
pub mod stuff;
mod told;
mod tried;
mod weights;
mod words;

pub use answer::{Answer, Class};
pub use range::Range;
pub use report::{Ask, Report};
pub use site::Site;
pub use told::{Matter, Spot, Told};
pub use tried::{Change, Tried, tried};
pub use weights::{Load, Weight, weights};
pub use words::ABOUT_CAKE;
