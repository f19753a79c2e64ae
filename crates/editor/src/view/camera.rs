use egui::{Rect, Vec2};
use gable_plane::{P3, V3};

/// Where the view looks from: on a sphere round a point of the house. Lengths in mm, angles in radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Camera {
    /// What is in the middle of the picture.
    pub(crate) target: P3,
    /// How far away the eye is.
    pub(crate) distance: f64,
    /// Direction of the eye seen from above, counter-clockwise from the front (-y).
    pub(crate) around: f64,
    /// Height of the eye over the level.
    pub(crate) above: f64,
}

/// Half the angle that the picture takes in from top to bottom.
const HALF_ANGLE: f64 = 0.28;

/// A ray into the scene.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Ray {
    /// The eye.
    pub(crate) from: P3,
    /// Unit direction.
    pub(crate) along: V3,
}

impl Default for Camera {
    fn default() -> Self {
        Self { target: P3::new(0.0, 0.0, 50.0), distance: 600.0, around: 0.62, above: 0.42 }
    }
}

impl Camera {
    /// The eye.
    pub(crate) fn eye(&self) -> P3 {
        let level = self.above.cos();
        let out = V3::new(self.around.sin() * level, -self.around.cos() * level, self.above.sin());
        self.target + out * self.distance
    }

    /// Angle from top to bottom of the picture.
    pub(crate) fn angle(&self) -> f64 {
        2.0 * HALF_ANGLE
    }

    /// To the right and upwards in the picture.
    fn axes(&self) -> (V3, V3) {
        let look = (self.target - self.eye()).normalize();
        let right = V3::new(self.around.cos(), self.around.sin(), 0.0);
        (right, right.cross(&look))
    }

    /// Walks round by a drag of so many points.
    pub(crate) fn turn(&mut self, drag: Vec2) {
        self.around -= f64::from(drag.x) * 0.008;
        self.above = (self.above + f64::from(drag.y) * 0.008).clamp(-0.35, 1.5);
    }

    /// Moves the picture by a drag of so many points in a picture that is `height` points high.
    pub(crate) fn pan(&mut self, drag: Vec2, height: f32) {
        let scale = 2.0 * self.distance * HALF_ANGLE.tan() / f64::from(height.max(1.0));
        let (right, up) = self.axes();
        self.target += (up * f64::from(drag.y) - right * f64::from(drag.x)) * scale;
    }

    /// Steps nearer (`factor` above 1) or back.
    pub(crate) fn zoom(&mut self, factor: f64) {
        self.distance = (self.distance / factor).clamp(20.0, 20_000.0);
    }

    /// Looks at the middle of a box from so far that all of it is in a picture of this shape (width over height).
    pub(crate) fn fit(&mut self, (low, high): (P3, P3), shape: f64) {
        self.target = middle(&low, &high);
        let radius = (high - low).norm() / 2.0;
        let narrow = HALF_ANGLE.tan() * shape.clamp(0.1, 1.0);
        self.distance = (radius / narrow.atan().sin() * 0.92).clamp(20.0, 20_000.0);
    }

    /// The ray through a place in the picture.
    pub(crate) fn ray(&self, picture: Rect, at: egui::Pos2) -> Ray {
        let (right, up) = self.axes();
        let from = self.eye();
        let look = (self.target - from).normalize();
        let scale = HALF_ANGLE.tan() / f64::from(picture.height().max(1.0) / 2.0);
        let off = at - picture.center();
        let along = look + right * (f64::from(off.x) * scale) - up * (f64::from(off.y) * scale);
        Ray { from, along: along.normalize() }
    }
}

fn middle(a: &P3, b: &P3) -> P3 {
    P3::from((a.coords + b.coords) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    #[test]
    fn the_ray_through_the_middle_goes_to_the_target() {
        let camera = Camera { target: P3::new(10.0, 20.0, 30.0), ..Camera::default() };
        let ray = camera.ray(Rect::from_min_max(pos2(0.0, 0.0), pos2(400.0, 300.0)), pos2(200.0, 150.0));
        let off = (camera.target - ray.from).cross(&ray.along).norm();
        assert!(off < 1e-9);
    }

    #[test]
    fn from_the_front_x_runs_to_the_right_and_z_up() {
        let camera = Camera { around: 0.0, above: 0.0, ..Camera::default() };
        let (right, up) = camera.axes();
        assert!((right - V3::x()).norm() < 1e-12 && (up - V3::z()).norm() < 1e-12);
        assert!(camera.eye().y < 0.0);
    }
}
