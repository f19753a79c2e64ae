//! Flat outlines with arcs, convex polygons and convex solids.
//!
//! Everything here is in millimetres. Plan outlines and piece outlines run counter-clockwise.

mod arcs;
mod contour;
mod convex;
mod offset;
mod overlay;
mod path;
mod rest;
mod ring;
mod rounded;
mod shapes;
mod solid;
mod united;

pub use contour::{Contour, Segment};
pub use convex::{ClipLine, ConvexPolygon};
pub use offset::{MovedRing, moved_out};
pub use overlay::Region;
pub use path::{CURVE_TOLERANCE, PathError, SvgPath};
pub use rest::Rest;
pub use ring::{bounds, convex_hull, ring_area, ring_centroid, ring_contains};
pub use shapes::{ELLIPSE_TOLERANCE, regular_polygon};
pub use solid::{Face, HalfSpace, Solid};
pub use united::united;

/// A point of a flat outline, mm.
pub type P2 = nalgebra::Point2<f64>;
/// A direction or difference in a flat outline, mm.
pub type V2 = nalgebra::Vector2<f64>;
/// A point in space, mm.
pub type P3 = nalgebra::Point3<f64>;
/// A direction or difference in space, mm.
pub type V3 = nalgebra::Vector3<f64>;
/// A rigid motion in space: turn and move, never mirror.
pub type Rigid = nalgebra::Isometry3<f64>;

/// Points nearer than this are the same point, mm.
///
/// A thousandth of the printing promise (0.01 mm) and far above the rounding of house-sized
/// numbers in `f64` (1e-12 mm). Larger and real slivers vanish; smaller and rounding makes slivers.
pub const SAME_POINT: f64 = 1e-6;
