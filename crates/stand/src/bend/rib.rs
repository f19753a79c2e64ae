//! A strip of biscuit on edge under a plate: it bends with the plate, and takes part of what is asked of it.

use super::Mesh;
use super::solve::Row;
use gable_plane::{P2, V2};
use nalgebra::{Matrix4, Vector4};

/// A strip on edge along a line of a plate, as stiff as so much plate: its own bending only, as if it lay against the plate without sticking
/// to it, which is never too stiff.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rib {
    /// One end, mm.
    pub from: P2,
    /// The other.
    pub to: P2,
    /// Its width, across the plate, mm.
    pub width: f64,
    /// How high it is, mm.
    pub height: f64,
}

/// A point this near to a rib, as a share of the distance of neighbours, is one of its own.
const ON_LINE: f64 = 1e-3;

/// One stretch of a rib, between two points of a mesh.
pub(super) struct Stretch {
    points: [usize; 2],
    along: V2,
    length: f64,
    /// E I over D of the plate, mm.
    stiffness: f64,
}

impl Rib {
    /// Its second moment, mm⁴.
    fn inertia(&self) -> f64 {
        self.width * self.height.powi(3) / 12.0
    }

    /// Its stretches on a mesh of a plate of a thickness and Poisson's ratio: D = E t³ / 12 (1 - ν²) of the same biscuit.
    pub(super) fn stretches(&self, mesh: &Mesh, thickness: f64, narrowing: f64) -> Vec<Stretch> {
        let way = self.to - self.from;
        let Some(along) = way.try_normalize(1e-9) else { return Vec::new() };
        let stiffness = self.inertia() * 12.0 * (1.0 - narrowing * narrowing) / thickness.powi(3);
        let at = |k: usize| (mesh.points[k] - self.from).dot(&along);
        // Points that were set out along it; a stretch between two that lie off it by chance would be far too short.
        let off = |k: &usize| super::mesh::distance_to(mesh.points[*k], self.from, self.to);
        let mut points: Vec<usize> = (0..mesh.points.len()).filter(|k| off(k) < ON_LINE * mesh.size).collect();
        points.sort_by(|a, b| at(*a).total_cmp(&at(*b)));
        let pair = |pair: &[usize]| {
            let length = at(pair[1]) - at(pair[0]);
            (length > 1e-6).then_some(Stretch { points: [pair[0], pair[1]], along, length, stiffness })
        };
        points.windows(2).filter_map(pair).collect()
    }

    /// The greatest stress in it, MPa, of a plate that was bent with it: moments at the ends of its stretches over its own section.
    pub(super) fn stress(&self, stretches: &[Stretch], unknowns: &[nalgebra::Vector3<f64>]) -> f64 {
        let most = stretches.iter().map(|s| s.moment(unknowns)).fold(0.0, f64::max);
        most / (self.width * self.height * self.height / 6.0)
    }
}

impl Stretch {
    /// The beam of Euler and Bernoulli, cubic between its ends: w and slope at each.
    fn beam(&self) -> Matrix4<f64> {
        let (l, l2) = (self.length, self.length * self.length);
        #[rustfmt::skip]
        let rows = Matrix4::new(
            12.0, 6.0 * l, -12.0, 6.0 * l,
            6.0 * l, 4.0 * l2, -6.0 * l, 2.0 * l2,
            -12.0, -6.0 * l, 12.0, -6.0 * l,
            6.0 * l, 2.0 * l2, -6.0 * l, 4.0 * l2,
        );
        rows * (self.stiffness / (l * l2))
    }

    /// Adds its stiffness to the unknowns of its points, each w and two slopes along axes of its own.
    pub(super) fn add(&self, axes: impl Fn(usize) -> [V2; 2], add: &mut impl FnMut(Row, Row, f64)) {
        let beam = self.beam();
        let turned = self.points.map(|k| axes(k).map(|axis| axis.dot(&self.along)));
        // Row of the beam, and by how much each unknown of a point turns it.
        let parts = |end: usize| {
            let own = move |n: usize, row: usize, by: f64| (Row { point: self.points[end], unknown: n }, row, by);
            [own(0, 2 * end, 1.0), own(1, 2 * end + 1, turned[end][0]), own(2, 2 * end + 1, turned[end][1])]
        };
        let all: Vec<(Row, usize, f64)> = [0, 1].into_iter().flat_map(parts).collect();
        for (a, i, by) in &all {
            for (b, j, other) in &all {
                add(*a, *b, beam[(*i, *j)] * by * other);
            }
        }
    }

    /// The greater moment at its ends, N mm.
    fn moment(&self, unknowns: &[nalgebra::Vector3<f64>]) -> f64 {
        let [a, b] = self.points.map(|k| unknowns[k]);
        let slope = |u: &nalgebra::Vector3<f64>| V2::new(u.y, u.z).dot(&self.along);
        let ends = self.beam() * Vector4::new(a.x, slope(&a), b.x, slope(&b));
        ends.y.abs().max(ends.w.abs())
    }
}
