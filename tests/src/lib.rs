//! What the end-to-end checks share: random houses, and a judge that measures solved houses with a solid library of
//! its own. Nothing here uses the solver's code; expectations come from the house and the design's promises alone.

mod body;
pub mod build;
mod crowd;
mod envelope;
mod houses;
mod hull;
mod judge;
mod many;
mod neighbours;
mod openings;
mod plan;
mod random;
mod same;
mod standing;
mod street;
mod whole;

pub use body::Body;
pub use crowd::Crowd;
pub use envelope::{Envelope, Sizes};
pub use houses::{plain_house, random_house};
pub use hull::{Hull, Plane, Ridge, Tag};
pub use judge::{Case, Check, Fault};
pub use many::{plain_many, porches_many, random_many};
pub use neighbours::{Neighbours, neighbours};
pub use plan::plan_corners;
pub use random::Random;
pub use same::{differences, same_shape};
pub use standing::broken_places;
pub use street::street;
pub use whole::Whole;
