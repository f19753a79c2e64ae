use gable_measure::{Angle, Length};
use gable_plane::{P2, P3, V3};

/// From where a picture is taken, and what is on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// Where the eye is, seen from above: 0 before the front (looking along y), growing counter-clockwise, so that a
    /// quarter of a turn shows the right side.
    pub azimuth: Angle,
    /// How far the eye is above the level.
    pub elevation: Angle,
    /// Width of the picture; its height follows.
    pub width: Length,
    /// Room round the house.
    pub margin: Length,
    /// Whether the base board is drawn.
    pub board: bool,
    /// Whether the icing of the standing house is drawn.
    pub icing: bool,
}

impl View {
    /// A picture 160 mm wide with board and icing.
    pub fn from(azimuth: Angle, elevation: Angle) -> Self {
        Self { azimuth, elevation, width: Length::mm_of(160.0), margin: Length::mm_of(4.0), board: true, icing: true }
    }
}

/// The axes of a parallel projection.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Camera {
    right: V3,
    up: V3,
    /// Unit, from the house to the eye.
    pub(crate) to_eye: V3,
    /// Unit, from the house to the lamp: high, a little to the left of the eye.
    lamp: V3,
}

impl Camera {
    pub(crate) fn new(view: &View) -> Self {
        let finite = |a: Angle| if a.rad().is_finite() { a } else { Angle::ZERO };
        let (azimuth, elevation) = (finite(view.azimuth), finite(view.elevation));
        let right = V3::new(azimuth.cos(), azimuth.sin(), 0.0);
        let level = V3::new(azimuth.sin(), -azimuth.cos(), 0.0);
        let to_eye = level * elevation.cos() + V3::z() * elevation.sin();
        let lamp = (level * 0.7 - right * 0.3 + V3::z() * 0.75).normalize();
        Self { right, up: to_eye.cross(&right), to_eye, lamp }
    }

    /// Right and up in the picture.
    pub(crate) fn axes(&self) -> [V3; 2] {
        [self.right, self.up]
    }

    /// Where a point of the house is in the picture at full size.
    pub(crate) fn flat(&self, p: &P3) -> P2 {
        P2::new(self.right.dot(&p.coords), self.up.dot(&p.coords))
    }

    /// How near the eye a point is, mm.
    pub(crate) fn nearness(&self, p: &P3) -> f64 {
        self.to_eye.dot(&p.coords)
    }

    /// Whether a face that looks along `normal` is seen; edge-on is not.
    pub(crate) fn sees(&self, normal: &V3) -> bool {
        normal.dot(&self.to_eye) > 1e-6
    }

    /// Light on a face: from the lamp after Lambert, and a little from everywhere.
    pub(crate) fn light(&self, normal: &V3) -> f64 {
        let lamp = normal.dot(&self.lamp).max(0.0);
        let around = 0.5 + 0.5 * normal.dot(&self.lamp);
        (0.5 * lamp + 0.5 * around).clamp(0.0, 1.0)
    }
}
