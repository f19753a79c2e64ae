use egui::{Pos2, Rect, Vec2};
use gable_plane::{P3, V3};
use std::f64::consts::{FRAC_PI_2, PI};

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
    /// Whether what is far away is drawn as large as what is near: by parallel rays, as large as it is at the target.
    pub(crate) parallel: bool,
}

/// Where one can stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Direction {
    /// Before a corner, a little above.
    Corner,
    /// Before the front.
    Front,
    /// Before the right side.
    Right,
    /// Behind the house.
    Back,
    /// Before the left side.
    Left,
    /// Over the roof.
    Above,
}

impl Direction {
    /// Round the house and above the level, radians.
    fn angles(self) -> (f64, f64) {
        match self {
            Self::Corner => (0.62, 0.42),
            Self::Front => (0.0, 0.0),
            Self::Right => (FRAC_PI_2, 0.0),
            Self::Back => (PI, 0.0),
            Self::Left => (-FRAC_PI_2, 0.0),
            Self::Above => (0.0, FRAC_PI_2),
        }
    }
}

/// Rays of a parallel picture begin so far behind the eye, mm: beyond any house.
const BEHIND: f64 = 10_000.0;

/// Half the angle that the picture takes in from top to bottom.
const HALF_ANGLE: f64 = 0.28;

/// How much of the picture is filled by what is fitted into it.
const FILLED: f64 = 0.92;

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
        Self { target: P3::new(0.0, 0.0, 50.0), distance: 600.0, around: 0.62, above: 0.42, parallel: false }
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

    /// Where rays to all places begin: the eye, or for parallel ones a place far behind it.
    pub(crate) fn station(&self) -> P3 {
        if self.parallel { self.target + (self.eye() - self.target).normalize() * BEHIND } else { self.eye() }
    }

    /// Where the ray that shows a place comes from.
    pub(crate) fn seen_from(&self, place: P3) -> P3 {
        let look = (self.target - self.eye()).normalize();
        if self.parallel { place - look * BEHIND } else { self.eye() }
    }

    /// Height of the picture at the target, mm.
    pub(crate) fn tall(&self) -> f64 {
        2.0 * self.distance * HALF_ANGLE.tan()
    }

    /// Stands in a direction from the house, as far away as before.
    pub(crate) fn stand(&mut self, direction: Direction) {
        (self.around, self.above) = direction.angles();
    }

    /// Upwards in the picture.
    pub(crate) fn up(&self) -> V3 {
        self.axes().1
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

    /// Steps to where all places just fill a picture of this shape (width over height); false without places.
    ///
    /// With x to the right, y up and z away from the eye, counted from the target, a place is in the picture of an eye
    /// at (u, v, -d) when |x - u| <= k (d + z), and likewise for y. So d is at least (max(x - k z) - min(x + k z)) / 2k,
    /// and u stands half-way between the two.
    pub(crate) fn fit(&mut self, places: &[P3], shape: f64) -> bool {
        if places.is_empty() {
            return false;
        }
        let look = (self.target - self.eye()).normalize();
        let (right, up) = self.axes();
        // Parallel rays do not spread: z counts for nothing.
        let spread = if self.parallel { 0.0 } else { 1.0 };
        let span = |axis: &V3, slope: f64| {
            let seen = places.iter().map(|p| ((p - self.target).dot(axis), (p - self.target).dot(&look)));
            let (high, low) = seen.fold((f64::MIN, f64::MAX), |(high, low), (x, z)| {
                (high.max(x - spread * slope * z), low.min(x + spread * slope * z))
            });
            ((high + low) / 2.0, (high - low) / (2.0 * slope))
        };
        let slope = HALF_ANGLE.tan() * FILLED;
        let (u, wide) = span(&right, slope * shape.max(0.05));
        let (v, tall) = span(&up, slope);
        self.target += right * u + up * v;
        self.distance = wide.max(tall).clamp(20.0, 20_000.0);
        true
    }

    /// Where a place is in the picture; `None` behind the eye.
    pub(crate) fn at(&self, picture: Rect, place: P3) -> Option<Pos2> {
        let (right, up) = self.axes();
        let look = (self.target - self.eye()).normalize();
        let off = place - self.eye();
        let depth = if self.parallel { self.distance } else { off.dot(&look) };
        let scale = f64::from(picture.height().max(1.0) / 2.0) / HALF_ANGLE.tan() / depth;
        let (x, y) = (off.dot(&right) * scale, -off.dot(&up) * scale);
        (depth > 1e-6).then(|| picture.center() + Vec2::new(x as f32, y as f32))
    }

    /// The ray through a place in the picture.
    pub(crate) fn ray(&self, picture: Rect, at: egui::Pos2) -> Ray {
        let (right, up) = self.axes();
        let from = self.eye();
        let look = (self.target - from).normalize();
        let scale = HALF_ANGLE.tan() / f64::from(picture.height().max(1.0) / 2.0);
        let off = at - picture.center();
        if self.parallel {
            let aside = right * f64::from(off.x) - up * f64::from(off.y);
            return Ray { from: self.station() + aside * (scale * self.distance), along: look };
        }
        let along = look + right * (f64::from(off.x) * scale) - up * (f64::from(off.y) * scale);
        Ray { from, along: along.normalize() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    #[test]
    fn a_place_is_where_the_ray_to_it_goes_through() {
        let picture = Rect::from_min_size(pos2(40.0, 30.0), egui::vec2(500.0, 400.0));
        let camera = Camera { target: P3::new(10.0, 20.0, 30.0), ..Camera::default() };
        for at in [pos2(60.0, 50.0), pos2(290.0, 230.0), pos2(500.0, 400.0)] {
            let ray = camera.ray(picture, at);
            let back = camera.at(picture, ray.from + ray.along * 321.0).unwrap();
            assert!(back.distance(at) < 0.01, "{at:?} {back:?}");
            assert_eq!(camera.at(picture, ray.from - ray.along * 5.0), None);
        }
    }

    #[test]
    fn parallel_rays_meet_places_where_they_are_and_sizes_do_not_shrink() {
        let picture = Rect::from_min_size(pos2(0.0, 0.0), egui::vec2(500.0, 400.0));
        for direction in [Direction::Front, Direction::Above, Direction::Left, Direction::Corner] {
            let mut camera = Camera { parallel: true, ..Camera::default() };
            camera.stand(direction);
            for at in [pos2(60.0, 50.0), pos2(290.0, 230.0)] {
                let ray = camera.ray(picture, at);
                for far in [9_900.0, 10_000.0, 10_500.0] {
                    let back = camera.at(picture, ray.from + ray.along * far).unwrap();
                    assert!(back.distance(at) < 0.02, "{direction:?}: {at:?} {back:?}");
                }
            }
        }
        // From the front a metre to the right is as long before the house as behind it.
        let mut camera = Camera { parallel: true, ..Camera::default() };
        camera.stand(Direction::Front);
        let long = |y: f64| {
            let at = |x: f64| camera.at(picture, P3::new(x, y, 0.0)).unwrap().x;
            at(1000.0) - at(0.0)
        };
        assert!((long(-200.0) - long(300.0)).abs() < 1e-3);
    }

    #[test]
    fn one_stands_where_the_direction_says() {
        let eye = |direction| {
            let mut camera = Camera { target: P3::origin(), distance: 1.0, ..Camera::default() };
            camera.stand(direction);
            camera.eye()
        };
        // The front looks towards -y, the right side towards +x (design of plans: counter-clockwise from the front).
        for (direction, place) in [
            (Direction::Front, P3::new(0.0, -1.0, 0.0)),
            (Direction::Right, P3::new(1.0, 0.0, 0.0)),
            (Direction::Back, P3::new(0.0, 1.0, 0.0)),
            (Direction::Left, P3::new(-1.0, 0.0, 0.0)),
            (Direction::Above, P3::new(0.0, 0.0, 1.0)),
        ] {
            assert!((eye(direction) - place).norm() < 1e-12, "{direction:?}");
        }
    }

    #[test]
    fn the_ray_through_the_middle_goes_to_the_target() {
        let camera = Camera { target: P3::new(10.0, 20.0, 30.0), ..Camera::default() };
        let ray = camera.ray(Rect::from_min_max(pos2(0.0, 0.0), pos2(400.0, 300.0)), pos2(200.0, 150.0));
        let off = (camera.target - ray.from).cross(&ray.along).norm();
        assert!(off < 1e-9);
    }

    #[test]
    fn what_is_fitted_touches_two_edges_of_the_picture_and_leaves_none() {
        let corners: Vec<P3> = (0..8)
            .map(|k| P3::new(f64::from(k & 1) * 140.0, f64::from(k >> 1 & 1) * 90.0, f64::from(k >> 2) * 170.0))
            .collect();
        for shape in [0.4, 1.0, 2.3] {
            let mut camera = Camera { target: P3::new(500.0, -20.0, 3.0), ..Camera::default() };
            assert!(camera.fit(&corners, shape));
            let (right, up) = camera.axes();
            let look = (camera.target - camera.eye()).normalize();
            let seen = corners.iter().map(|p| {
                let from = p - camera.eye();
                let k = HALF_ANGLE.tan() * from.dot(&look);
                (from.dot(&right) / (k * shape), from.dot(&up) / k)
            });
            let (x, y): (Vec<f64>, Vec<f64>) = seen.unzip();
            let ends =
                |v: &[f64]| (v.iter().copied().fold(f64::MAX, f64::min), v.iter().copied().fold(f64::MIN, f64::max));
            let ((left, right), (low, high)) = (ends(&x), ends(&y));
            let most = [-left, right, -low, high].into_iter().fold(0.0, f64::max);
            assert!((most - FILLED).abs() < 1e-6, "{shape}: {most}");
            assert!((left + right).abs() < 1e-6 || (low + high).abs() < 1e-6, "{shape}: {left} {right} {low} {high}");
        }
    }

    #[test]
    fn from_the_front_x_runs_to_the_right_and_z_up() {
        let camera = Camera { around: 0.0, above: 0.0, ..Camera::default() };
        let (right, up) = camera.axes();
        assert!((right - V3::x()).norm() < 1e-12 && (up - V3::z()).norm() < 1e-12);
        assert!(camera.eye().y < 0.0);
    }
}
