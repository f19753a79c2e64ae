//! The parametric house, its file format and the solver.
//!
//! `house file -> House -> solve -> Solved`. No input or output beyond text.

pub mod demo;
pub mod file;
mod form;
mod model;
mod solve;
mod solved;

pub use form::{GuestKind, Mirror, NoGuest, NotArranged, Ridge, RoofForm};
pub use model::{
    Behind, Corners, Decided, Dough, DoughId, Floor, FloorKind, House, Lid, Mode, Opening, OpeningId, Outline, Owner,
    Parapet, Part, PartId, Place, Placing, Ridges, Shape, Side, SideId, Spot, Top,
};
pub use solve::solve;
pub use solved::{
    EdgeKind, Group, Joint, JointEnd, JointId, JointKind, Member, Piece, PieceId, PieceOpening, Role, Solved,
    SolvedPart, Tier, Wedge, WedgeSide,
};
