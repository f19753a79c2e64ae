//! The plan of a part: its corners, and a frame along each side.

use super::plate::Frame;
use gable_plane::{HalfSpace, P2, P3, V2, V3};

/// One side of a plan, from `start` to `end`, counter-clockwise.
#[derive(Clone, Copy, Debug)]
pub(super) struct PlanSide {
    pub(super) start: P2,
    pub(super) end: P2,
    /// Unit direction from start to end; to the right when one looks at the side from outside.
    pub(super) along: V2,
    /// Unit direction into the plan.
    pub(super) inward: V2,
}

impl PlanSide {
    fn new(start: P2, end: P2) -> Self {
        let along = (end - start).normalize();
        Self { start, end, along, inward: V2::new(-along.y, along.x) }
    }

    pub(super) fn length(&self) -> f64 {
        (self.end - self.start).norm()
    }

    /// How far inside of the side a point is, mm.
    pub(super) fn depth(&self, p: P2) -> f64 {
        self.inward.dot(&(p - self.start))
    }

    /// The half-space inside the vertical plane of the side, moved out by `out` mm.
    pub(super) fn half_space(&self, out: f64) -> HalfSpace {
        HalfSpace::through(level(self.start, 0.0), -flat(self.inward)).moved(out)
    }

    /// The frame of a wall: reference face outside, x to the left seen from outside, y up, z into the house.
    /// (z = x × y must point inwards, so x runs against the side: left-handed seen from outside.)
    pub(super) fn wall_frame(&self) -> Frame {
        Frame { origin: level(self.end, 0.0), x: -flat(self.along), y: V3::z(), z: flat(self.inward) }
    }
}

/// A direction of the plan, in space.
pub(super) fn flat(v: V2) -> V3 {
    V3::new(v.x, v.y, 0.0)
}

/// A point of the plan at a height.
pub(super) fn level(p: P2, height: f64) -> P3 {
    P3::new(p.x, p.y, height)
}

/// The sides between corners given counter-clockwise.
pub(super) fn sides(corners: &[P2]) -> Vec<PlanSide> {
    let count = corners.len();
    (0..count).map(|k| PlanSide::new(corners[k], corners[(k + 1) % count])).collect()
}

/// Angle through which the wall turns at the corner between two sides that follow each other, radians.
pub(super) fn turn(before: &PlanSide, after: &PlanSide) -> f64 {
    before.along.perp(&after.along).atan2(before.along.dot(&after.along))
}
