use jagua_rs::geometry::{DTransformation, Transformation};

/// Where a shape lies on a sheet: turned about its own origin, then moved. In the search's own precision.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pose {
    /// Turn, radians.
    pub(crate) turn: f32,
    /// x of its origin, mm.
    pub(crate) x: f32,
    /// y of its origin, mm.
    pub(crate) y: f32,
}

impl Pose {
    pub(crate) fn transformation(&self) -> Transformation {
        DTransformation::new(self.turn, (self.x, self.y)).compose()
    }

    pub(crate) fn moved(&self, x: f32, y: f32) -> Self {
        Self { x: self.x + x, y: self.y + y, ..*self }
    }
}
