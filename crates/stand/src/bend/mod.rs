//! Pieces as plates that bend: on their true outline with openings, by finite elements.
//!
//! [`Shape`] is what is left of a piece, [`Held`] where it cannot go down, [`Load`] what lies on it; [`bend`] gives [`Bent`]. Everything
//! is linear: moments do not depend on stiffness, deflections fall with it, and both grow with the load, so that one factor serves
//! the whole range of what is known of biscuit. Plates are thin (Kirchhoff), deflections small; pull and push within the plane of a
//! piece are left out, which are a tenth of bending and less in table-top roofs.

mod element;
#[cfg(test)]
mod house_tests;
mod kept;
mod levels;
mod map;
mod mesh;
mod rib;
mod solve;
mod standing;
mod stress;
#[cfg(test)]
mod tests;
mod told;

pub use kept::Kept;
pub use map::{map, overlay};
pub use mesh::Mesh;
pub use rib::Rib;
pub use standing::{Standing, standing};
pub use told::{Ask, Bends, CRISP, Remedy, answers, bends, remedies};
pub(crate) use told::{bends_one, told_of};

use gable_measure::Length;
use gable_plane::{P2, ring_area};
use gable_words::tr;
use nalgebra::Vector3;

/// What is left of a piece: rings that biscuit lies on the left of, the outline counter-clockwise and openings clockwise.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shape {
    /// The rings, mm.
    pub rings: Vec<Vec<P2>>,
}

/// A line, or a point, where a plate cannot move along z.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// One end, mm.
    pub from: P2,
    /// The other; the same for a point.
    pub to: P2,
    /// Whether it cannot slope there either. Joints of icing are not trusted with that.
    pub clamped: bool,
}

/// What is laid on a plate, along z of the piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Load {
    /// All over, N/mm².
    pub pressure: f64,
    /// Single forces, N.
    pub forces: Vec<(P2, f64)>,
}

/// A plate to bend.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// Its outline and openings.
    pub shape: Shape,
    /// Its thickness.
    pub thickness: Length,
    /// Poisson's ratio.
    pub narrowing: f64,
}

/// A plate, bent.
#[derive(Clone, Debug, PartialEq)]
pub struct Bent {
    /// The triangles that it was bent with.
    pub mesh: Mesh,
    /// Thickness.
    pub thickness: Length,
    narrowing: f64,
    deflection: Vec<f64>,
    moments: Vec<Vector3<f64>>,
    felt: Vec<f64>,
    /// What each held line pushes back with, in the order given; N, along z.
    pub reactions: Vec<f64>,
    /// The greatest stress in each rib, in the order given, MPa.
    pub ribs: Vec<f64>,
}

/// Why a plate was not bent.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BendError {
    /// Rings that cross, touch or have no area.
    #[error("{}", tr!("its outline or an opening is no simple shape; move openings apart and away from edges"))]
    Mesh,
    /// It could fall or tip.
    #[error("{}", tr!("it is not held at three points that lie on no one line; support it at one more place"))]
    NotHeld,
}

impl Shape {
    /// mm².
    pub fn area(&self) -> f64 {
        self.rings.iter().map(|ring| ring_area(ring)).sum()
    }
}

impl Held {
    /// Along a line.
    pub const fn along(from: P2, to: P2) -> Self {
        Self { from, to, clamped: false }
    }

    /// At a point.
    pub const fn at(point: P2) -> Self {
        Self::along(point, point)
    }

    fn distance(&self, p: P2) -> f64 {
        mesh::distance_to(p, self.from, self.to)
    }
}

/// Points of a plate, about, before corners are refined: fewer tell too little of small pieces, more would tell no more.
const POINTS: [f64; 2] = [450.0, 1100.0];

/// Bends a plate, with triangles of about its thickness, as far as that makes neither few nor many.
///
/// # Errors
/// When the shape is none, or the plate is not held still.
pub fn bend(plate: &Plate, held: &[Held], load: &Load) -> Result<Bent, BendError> {
    bend_by(plate, held, load, usual_size(plate))
}

/// About how large triangles are, mm.
fn usual_size(plate: &Plate) -> f64 {
    let [largest, least] = POINTS.map(|points| (plate.shape.area().max(0.0) / (0.75_f64.sqrt() * points)).sqrt());
    plate.thickness.mm().min(largest).max(least)
}

/// The same with triangles about so large, mm.
///
/// # Errors
/// As [`bend`].
pub fn bend_by(plate: &Plate, held: &[Held], load: &Load, size: f64) -> Result<Bent, BendError> {
    bend_ribbed(plate, (held, &[]), load, size)
}

/// The same with ribs under it.
///
/// # Errors
/// As [`bend`].
pub fn bend_ribbed(plate: &Plate, (held, ribs): (&[Held], &[Rib]), load: &Load, size: f64) -> Result<Bent, BendError> {
    let finite = plate.shape.rings.iter().flatten().all(|p| p.x.is_finite() && p.y.is_finite());
    if !(finite && size > 0.0 && size.is_finite()) || plate.shape.rings.iter().any(|ring| ring.len() < 3) {
        return Err(BendError::Mesh);
    }
    // Points are set out along ribs as along what is held.
    let lines: Vec<Held> = held.iter().copied().chain(ribs.iter().map(|r| Held::along(r.from, r.to))).collect();
    let mesh = Mesh::of(&plate.shape, &lines, size)?;
    let solution = solve::solve(&mesh, held, plate, ribs, load)?;
    let moments = stress::at_points(&mesh, &solution.moments);
    let t = plate.thickness.mm();
    let felt = stress::spread(&mesh, &solution.moments, t);
    Ok(Bent {
        thickness: plate.thickness,
        narrowing: plate.narrowing,
        deflection: solution.deflection,
        felt: felt.iter().map(|m| stress::principal(m) * 6.0 / (t * t)).collect(),
        moments,
        reactions: solution.reactions,
        ribs: solution.ribs,
        mesh,
    })
}

impl Bent {
    /// Stress at every point of the mesh, MPa: the largest at either face, spread over what lies within a thickness. It pulls on the
    /// face at z = 0 where it is above 0, and on the other where it is below.
    pub fn stresses(&self) -> &[f64] {
        &self.felt
    }

    /// Moments (xx, yy, xy) at every point of the mesh, N; above 0 where the face at z = 0 is pulled.
    pub fn moments(&self) -> &[Vector3<f64>] {
        &self.moments
    }

    /// The greatest stress either way, MPa, and where.
    pub fn worst(&self) -> (f64, P2) {
        self.most(&self.felt)
    }

    /// Deflections of every point along z, mm, of biscuit so stiff (Young's modulus, MPa).
    pub fn deflections(&self, stiffness: f64) -> impl Iterator<Item = f64> + '_ {
        let d = self.rigidity(stiffness);
        self.deflection.iter().map(move |w| w / d)
    }

    /// The greatest deflection either way, mm, of biscuit so stiff (Young's modulus, MPa), and where.
    pub fn deepest(&self, stiffness: f64) -> (f64, P2) {
        let (most, at) = self.most(&self.deflection);
        (most / self.rigidity(stiffness), at)
    }

    /// The stress at the point of the mesh that is nearest, MPa.
    pub fn stress_at(&self, p: P2) -> f64 {
        solve::nearest(&self.mesh.points, p).map_or(0.0, |k| self.felt[k])
    }

    /// D = E t³ / 12 (1 - ν²), N mm.
    fn rigidity(&self, stiffness: f64) -> f64 {
        stiffness * self.thickness.mm().powi(3) / (12.0 * (1.0 - self.narrowing * self.narrowing))
    }

    fn most(&self, values: &[f64]) -> (f64, P2) {
        let larger = |(most, at): (f64, P2), (value, p): (&f64, &P2)| {
            if value.abs() > most { (value.abs(), *p) } else { (most, at) }
        };
        let first = self.mesh.points.first().copied().unwrap_or_else(P2::origin);
        values.iter().zip(&self.mesh.points).fold((0.0, first), larger)
    }
}
