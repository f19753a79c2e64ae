//! The parametric house, its file format and the solver.
//!
//! `house file -> House -> solve -> Solved`. No input or output beyond text.

pub mod demo;
pub mod file;
mod form;
pub mod kitchen;
mod model;
mod solve;
mod solved;

pub use form::{
    Change, FACTORS, GuestKind, Mirror, NoGuest, NotArranged, NotMoved, OpeningLine, Remedy, Resizing, Ridge, RoofForm,
    Starter, remedies, resized,
};
pub use model::{
    Baked, Bars, Batch, Before, Behind, Bond, Corners, Covering, CutPiece, Decided, Door, Dough, DoughId, Dressing,
    Extra, ExtraKind, Faces, Finish, Floor, FloorKind, Gives, Glass, Glazier, Glazing, Hinge, House, Layout, Lid,
    Measure, Measured, Mode, Opening, OpeningId, Ornament, OrnamentKind, Outline, Owner, Parapet, Part, PartId,
    PieceKind, Place, Placing, Posts, Raised, Rates, Relation, Repeat, Ridges, Shape, Share, Side, SideId, Spot, Steps,
    StepsHigh, Stuff, Style, Surface, TileShape, Tint, Top, Where, dough_words,
};
pub use solve::{as_it_stands, settle, solve};
pub use solved::{
    Altered, EdgeKind, Extent, Group, Joint, JointEnd, JointId, JointKind, Member, Offer, Piece, PieceId, PieceOpening,
    Role, Solved, SolvedPart, Tier, Wedge, WedgeSide, Wish,
};
