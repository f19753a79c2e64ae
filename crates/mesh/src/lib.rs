//! Solids, poses and depth-ordered pictures of a solved house. No graphics hardware.

mod chunk;
mod fold;
mod hinge;
mod order;
mod pose;
mod region;
#[cfg(test)]
mod sample;
mod solid;
mod star;
mod triangulate;

pub use chunk::chunks_of;
pub use fold::Fold;
pub use order::Body;
pub use pose::{Pose, pose};
pub use solid::{PieceSolid, Surface, solid_of};
