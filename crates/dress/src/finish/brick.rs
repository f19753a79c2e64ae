//! Brick bonds, set out from both corners of a wall.
//!
//! Along a course, places are counted in modules: a stretcher and its joint. Rules of the bonds as brickmakers
//! publish them (IXL Brick, 'Bond patterns'): headers centred on the stretchers and joints of the course below, a quarter
//! closer next to and never at the corner (English), a three-quarter closer at the corner (Flemish).

use super::fill::{Ends, fill};
use super::laid::{Laid, Slab};
use gable_plane::P2;
use gable_shell::Bond;

/// Sizes of bricks, mm.
pub(crate) struct Bricks {
    pub(crate) bond: Bond,
    pub(crate) length: f64,
    pub(crate) height: f64,
    pub(crate) joint: f64,
}

/// Where the courses run.
pub(crate) struct Run {
    /// From typed corner to typed corner.
    pub(crate) length: f64,
    /// Number of the side in its part.
    pub(crate) side: usize,
}

/// Lengths of the bricks of a course from a corner, in modules: those at the corner, then those that repeat.
struct Row {
    first: &'static [f64],
    then: &'static [f64],
}

impl Row {
    /// Places where bricks begin, from the corner up to a reach.
    fn places(&self, reach: f64) -> Vec<f64> {
        let mut places = vec![0.0];
        let mut at = 0.0;
        for length in self.first.iter().chain(self.then.iter().cycle()) {
            at += length;
            if at > reach {
                break;
            }
            places.push(at);
        }
        places
    }
}

/// The two kinds of courses of a bond, as they begin at a corner.
fn rows(bond: Bond) -> [Row; 2] {
    match bond {
        // The end of a stretcher round the corner shows as a header.
        Bond::Stretcher => [Row { first: &[], then: &[1.0] }, Row { first: &[0.5], then: &[1.0] }],
        Bond::English => [Row { first: &[], then: &[1.0] }, Row { first: &[0.5, 0.25], then: &[0.5] }],
        Bond::Flemish => [Row { first: &[0.75], then: &[0.5, 1.0] }, Row { first: &[], then: &[0.5, 1.0] }],
    }
}

/// Which kind of row begins at the left and at the right corner in even courses; odd ones have the others.
///
/// A stretcher that ends at a corner shows its head round it, so the right end of a side and the left end of the next
/// one differ. In English bond a whole course of stretchers becomes one of headers round the corner.
fn kinds(bond: Bond, side: usize) -> (usize, usize) {
    match bond {
        Bond::Stretcher | Bond::Flemish => (0, 1),
        Bond::English => (side % 2, side % 2),
    }
}

/// Where bricks begin in even and in odd courses, in modules; the last place is where the course ends.
pub(crate) fn places(bricks: &Bricks, run: &Run) -> [Vec<f64>; 2] {
    let module = bricks.length + bricks.joint;
    let whole = (run.length + bricks.joint) / module;
    let rows = rows(bricks.bond);
    let (left, right) = kinds(bricks.bond, run.side);
    let ends = |odd: usize| {
        let from_left = rows[(left + odd) % 2].places(whole / 2.0);
        let from_right = rows[(right + odd) % 2].places(whole / 2.0).iter().map(|p| whole - p).collect();
        Ends { from_left, from_right }
    };
    fill(&ends(0), &ends(1))
}

/// Courses from v = 0 up over the box of a face; the run begins at u = `start`.
pub(crate) fn lay(bricks: &Bricks, run: &Run, start: f64, low: P2, high: P2) -> Laid {
    let (module, pitch) = (bricks.length + bricks.joint, bricks.height + bricks.joint);
    let places = places(bricks, run);
    let mut laid = Laid::default();
    for course in (low.y / pitch).floor() as i64..=(high.y / pitch).ceil() as i64 {
        let y = course as f64 * pitch;
        for pair in places[course.rem_euclid(2) as usize].windows(2) {
            let (from, to) = (start + pair[0] * module, start + pair[1] * module - bricks.joint);
            if y >= high.y || to < low.x || from > high.x || to <= from {
                continue;
            }
            let mut slab = Slab::block(P2::new(from, y), P2::new(to, y + bricks.height));
            slab.whole = is_whole(pair[1] - pair[0]);
            laid.slabs.push(slab);
            let x = to + bricks.joint / 2.0;
            laid.lines.push([P2::new(x, y - bricks.joint / 2.0), P2::new(x, y + pitch - bricks.joint / 2.0)]);
        }
        let y = y - bricks.joint / 2.0;
        laid.lines.push([P2::new(low.x, y), P2::new(high.x, y)]);
    }
    laid
}

/// Whether a brick of so many modules is a stretcher or a header: all others are cut from them.
fn is_whole(modules: f64) -> bool {
    (modules - 1.0).abs() < 1e-9 || (modules - 0.5).abs() < 1e-9
}
