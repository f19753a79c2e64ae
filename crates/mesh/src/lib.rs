//! Solids, poses and depth-ordered pictures of a solved house. No graphics hardware.

mod chunk;
mod colour;
mod cut;
mod fold;
mod glazing;
mod hinge;
mod knot;
mod net;
mod order;
mod ornament;
mod picture;
mod plates;
mod pose;
mod region;
mod relief;
mod rows;
#[cfg(test)]
mod sample;
mod solid;
mod star;
mod travel;
mod triangulate;

pub use chunk::{chunks_of, chunks_within, solids_of};
pub use colour::{Srgb, Theme, Token, lit_biscuit};
pub use cut::{Cut, Marked, cut, cut_line};
pub use fold::Fold;
pub use glazing::{bar_of, door_of, pane_of};
pub use net::{Fold as NetFold, Net, NetFace, Seam, nets};
pub use order::Body;
pub use ornament::ornament_of;
pub use picture::{Shown, StageScene, View, dressed_picture, dressed_picture_of, picture, picture_of, stage_picture};
pub use plates::{door_solid, ornament_solid, pane_solid, pressed_of};
pub use pose::{Pose, pose};
pub use relief::relief_of;
pub use solid::{PieceSolid, Surface, solid_of};
