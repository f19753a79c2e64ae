use gable_plane::{HalfSpace, P3, Rigid, V3};
use nalgebra::{Translation3, Unit, UnitQuaternion};
use std::f64::consts::FRAC_PI_2;

/// Planes that differ by less (sine) have no line in common worth turning about.
const LEVEL: f64 = 1e-7;

/// How a piece leaves its place in the standing house, seen by the piece that it hangs on.
///
/// With u running from 0 (standing) to 1 (flat) the piece turns by θ = `u * angle` about the hinge and moves by
/// `sin θ / sin(angle) * slide + sin(u * 90°) * swing + sin(u * 180°) * lift`; nothing at all at u = 0.
///
/// Why the slide follows the sine: say a slope of pitch p and thickness t reaches L = o / cos p + t tan p past its hinge
/// and has turned to ψ = p + θ. Its underside clears the wall's outer edge, t / cos p below the hinge, when the slide is
/// at least t / cos ψ - t / cos p (while the underside still is over the edge: t tan ψ <= L), and its rim clears the
/// wall's top when it is at least L sin ψ + t cos ψ - t / cos p. With L >= t tan ψ and by Cauchy's inequality both are at
/// most L sin θ / cos p. An even slide is too slow at first: θ against sin θ, seen in small overhangs without a gap.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Hinge {
    pivot: P3,
    axis: Unit<V3>,
    angle: f64,
    /// Which way the piece lies off the one that it hangs on, once flat: unit, in the carrier's outside plane.
    pub(crate) away: V3,
    /// Movement along the carrier, mm.
    pub(crate) slide: V3,
    swing: V3,
    lift: V3,
}

impl Hinge {
    /// The motion at `u`, in the standing house.
    pub(crate) fn motion(&self, u: f64) -> Rigid {
        let turn = UnitQuaternion::from_axis_angle(&self.axis, self.angle * u);
        let about = Translation3::from(self.pivot) * turn * Translation3::from(-self.pivot.coords);
        let moved = self.slide * self.share_slid(u)
            + self.swing * (u * FRAC_PI_2).sin()
            + self.lift * (u * 2.0 * FRAC_PI_2).sin();
        Translation3::from(moved) * about
    }

    /// How much of the slide is done at `u`. Beyond a right angle the sine would overshoot, and nothing slides closely.
    fn share_slid(&self, u: f64) -> f64 {
        let by_sine = self.angle > LEVEL && self.angle <= FRAC_PI_2 + LEVEL;
        if by_sine { (u * self.angle).sin() / self.angle.sin() } else { u }
    }

    /// The hinge of two pieces with these outside planes and these corners; `None` when the planes do not meet.
    ///
    /// The hinge line is where the outside planes meet, and the turn is the smallest that lays one outward normal on the
    /// other. Say the carrier's plane is the x axis with its outside up, the hinge is the origin and the carrier lies at
    /// x < 0; the child's plane goes down from the origin to the right at an angle α. Its outward normal (sin α, cos α)
    /// turns by α into (0, 1), and the direction (cos α, -sin α), which led down into the child, into (1, 0): the child
    /// lies on the other side of the hinge from its carrier, in the same plane, outside on the same side.
    ///
    /// What of the child reached past the hinge, its overhang, would then lie at x < 0, on the carrier. It moves out by
    /// just that reach. For an eave with pitch p, level overhang o and thickness t, whose hinge is where the upper face
    /// meets the outside of the wall: on the underside the rim is o / cos p below the wall's edge, and the hinge is
    /// t / cos p above that edge, so (t / cos p) sin p = t tan p up the slope: the reach is o / cos p + t tan p.
    pub(crate) fn between(carrier: &Plate, child: &Plate) -> Option<Self> {
        let (up, out) = (carrier.outside.normal, child.outside.normal);
        let axis = Unit::try_new(out.cross(&up), LEVEL)?;
        let away = (out - up * out.dot(&up)).normalize();
        let pivot = common_point(&carrier.outside, &child.outside, &axis)?;
        let angle = out.cross(&up).norm().atan2(out.dot(&up));
        let mut hinge = Self { pivot, axis, angle, away, slide: V3::zeros(), swing: V3::zeros(), lift: V3::zeros() };
        let past = |p: P3| (p - pivot).dot(&away);
        let flat = hinge.motion(1.0);
        let child_past = child.corners.iter().map(|p| -past(flat * p)).fold(0.0, f64::max);
        let carrier_past = carrier.corners.iter().map(|p| past(*p)).fold(0.0, f64::max);
        hinge.slide = away * (child_past + carrier_past);
        Some(hinge)
    }

    /// The hinge of a strip that stands on the outside of its carrier, such as a parapet on a lid.
    ///
    /// The turn of [`Self::between`] would lay the strip, `height` high, on the carrier and its foot into it. So the strip
    /// moves out by its height as fast as it tips inwards (h sin θ), further out by two thicknesses for its foot to come
    /// clear, and rises meanwhile by t sin 2θ, which is more than its foot sinks (t sin θ) up to θ = 60°, well after
    /// the foot is clear (t cos θ < 2 t u from u = 0.42, θ = 38°).
    pub(crate) fn standing_on(carrier: &Plate, child: &Plate, thickness: f64) -> Option<Self> {
        let mut hinge = Self::between(carrier, child)?;
        let up = carrier.outside.normal;
        let height = child.corners.iter().map(|p| carrier.outside.excess(p)).fold(0.0, f64::max);
        hinge.slide = hinge.away * (2.0 * thickness);
        hinge.swing = hinge.away * height;
        hinge.lift = up * thickness;
        Some(hinge)
    }

    /// The path of a piece that hangs on nothing: it turns about its own middle until its outside looks along `down`,
    /// and moves there by `slide`.
    pub(crate) fn loose(child: &Plate, down: &V3, slide: V3) -> Self {
        let out = child.outside.normal;
        let side = if out.x.abs() < 0.9 { V3::x() } else { V3::y() };
        let axis = Unit::try_new(out.cross(down), LEVEL).unwrap_or_else(|| Unit::new_normalize(out.cross(&side)));
        let angle = out.cross(down).norm().atan2(out.dot(down));
        let away = V3::new(out.x, out.y, 0.0).try_normalize(LEVEL).unwrap_or_else(V3::x);
        Self { pivot: child.middle(), axis, angle, away, slide, swing: V3::zeros(), lift: V3::zeros() }
    }

    /// The same with the piece swinging out by another `distance` mm on the way, along the outward direction that it has
    /// half-way; not at the ends.
    pub(crate) fn swung_wide(&self, distance: f64) -> Self {
        // Flat, the outside looks along the carrier's normal: half-way lies between the two.
        let outward = UnitQuaternion::from_axis_angle(&self.axis, -self.angle / 2.0) * self.axis.cross(&self.away);
        self.flown(&outward, distance)
    }

    /// The same with the piece flying up to `distance` mm out along `direction` on the way; not at the ends.
    pub(crate) fn flown(&self, direction: &V3, distance: f64) -> Self {
        Self { lift: self.lift + direction * distance, ..self.clone() }
    }

    /// The same with the piece moved out by another `distance` mm.
    pub(crate) fn slid(&self, distance: f64) -> Self {
        Self { slide: self.slide + self.away * distance, ..self.clone() }
    }
}

/// The point of the line common to two planes that lies nearest to the origin.
fn common_point(a: &HalfSpace, b: &HalfSpace, axis: &V3) -> Option<P3> {
    let rows = nalgebra::Matrix3::from_rows(&[a.normal.transpose(), b.normal.transpose(), axis.transpose()]);
    rows.lu().solve(&V3::new(a.offset, b.offset, 0.0)).map(P3::from)
}

/// What folding needs to know of a piece in the standing house.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Plate {
    /// Plane of the face that looks out of the house, normal outwards.
    pub(crate) outside: HalfSpace,
    /// Corners of both faces.
    pub(crate) corners: Vec<P3>,
}

impl Plate {
    /// A piece where it stands.
    pub(crate) fn of(piece: &gable_shell::Piece) -> Self {
        let (pose, thickness) = (piece.house_from_piece, piece.thickness.mm());
        let lifted = |z: f64| move |p: &gable_plane::P2| pose * P3::new(p.x, p.y, z);
        let front = piece.outline.iter().map(lifted(0.0));
        let corners: Vec<P3> = front.chain(piece.outline_back.iter().map(lifted(thickness))).collect();
        let (normal, z) = if piece.reference_is_outside() { (-V3::z(), 0.0) } else { (V3::z(), thickness) };
        let outside = HalfSpace::through(pose * P3::new(0.0, 0.0, z), pose * normal);
        Self { outside, corners }
    }

    /// Mean of the corners.
    pub(crate) fn middle(&self) -> P3 {
        crate::order::middle(&self.corners)
    }
}
