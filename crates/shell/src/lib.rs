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
    Behind, Bond, Corners, Covering, Decided, Dough, DoughId, Dressing, Faces, Finish, Floor, FloorKind, House, Lid,
    Mode, Opening, OpeningId, Ornament, OrnamentKind, Outline, Owner, Parapet, Part, PartId, Place, Placing, Rates,
    Ridges, Shape, Share, Side, SideId, Spot, Stuff, Style, TileShape, Tint, Top, Where,
};
pub use solve::solve;
pub use solved::{
    EdgeKind, Group, Joint, JointEnd, JointId, JointKind, Member, Piece, PieceId, PieceOpening, Role, Solved,
    SolvedPart, Tier, Wedge, WedgeSide,
};
