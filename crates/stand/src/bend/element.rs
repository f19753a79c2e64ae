//! The plate element: a triangle of three corners, bent but not sheared.
//!
//! The discrete Kirchhoff triangle of Batoz, Bathe and Ho (A study of three-node triangular plate bending elements, Int. J. Numer.
//! Methods Eng. 15:1771-1812, 1980), derived for the slope g = (∂w/∂x, ∂w/∂y) instead of rotations. g is quadratic, given at corners
//! and mid-sides. At a mid-side its part across the side is the mean of the corners, and its part along the side s, of length L, is
//! that of the cubic w along the side: 3 (w_j - w_i) / 2L - (g_i + g_j)·s / 4. Curvatures are the derivatives of g.

use gable_plane::{P2, V2};
use nalgebra::{Matrix3, SMatrix, SVector};

/// Unknowns of an element: w, ∂w/∂x and ∂w/∂y at each corner in turn.
pub(super) type Unknowns = SVector<f64, 9>;
type Bend = SMatrix<f64, 3, 9>;

/// One triangle.
pub(super) struct Element {
    /// mm².
    pub(super) area: f64,
    /// Curvatures (xx, yy, 2 xy) from unknowns at each corner; linear between them.
    at_corners: [Bend; 3],
}

/// Moments from curvatures for unit D = E t³ / 12 (1 - ν²).
pub(super) fn elasticity(narrowing: f64) -> Matrix3<f64> {
    let nu = narrowing;
    Matrix3::new(1.0, nu, 0.0, nu, 1.0, 0.0, 0.0, 0.0, (1.0 - nu) / 2.0)
}

impl Element {
    /// Corners counter-clockwise.
    pub(super) fn new(corners: [P2; 3]) -> Self {
        let [a, b, c] = corners;
        let twice = (b - a).perp(&(c - a));
        // Gradients of the area coordinates: each square to the side across, over twice the area.
        let square = |v: V2| V2::new(-v.y, v.x) / twice;
        let grads = [square(c - b), square(a - c), square(b - a)];
        let slopes = slopes(corners);
        let at_corners = [0, 1, 2].map(|k| {
            let mut l = [0.0; 3];
            l[k] = 1.0;
            curvature(&slopes, &grads, l)
        });
        Self { area: twice / 2.0, at_corners }
    }

    /// Stiffness for unit D. Curvatures are linear, so three mid-sides integrate their square exactly.
    pub(super) fn stiffness(&self, elasticity: &Matrix3<f64>) -> SMatrix<f64, 9, 9> {
        let mut sum = SMatrix::<f64, 9, 9>::zeros();
        for k in 0..3 {
            let bend = (self.at_corners[k] + self.at_corners[(k + 1) % 3]) * 0.5;
            sum += bend.transpose() * elasticity * bend * (self.area / 3.0);
        }
        sum
    }

    /// Moments (xx, yy, xy) at the corners for unit D.
    pub(super) fn moments(&self, elasticity: &Matrix3<f64>, unknowns: &Unknowns) -> [nalgebra::Vector3<f64>; 3] {
        self.at_corners.each_ref().map(|bend| elasticity * (bend * unknowns))
    }
}

/// The slope g at corners and mid-sides (of sides 01, 12, 20), each two rows of the unknowns.
fn slopes(corners: [P2; 3]) -> [SMatrix<f64, 2, 9>; 6] {
    let mut all = [SMatrix::<f64, 2, 9>::zeros(); 6];
    for k in 0..3 {
        all[k][(0, 3 * k + 1)] = 1.0;
        all[k][(1, 3 * k + 2)] = 1.0;
    }
    for i in 0..3 {
        let j = (i + 1) % 3;
        let side = corners[j] - corners[i];
        let length = side.norm();
        let along = side / length;
        let across = V2::new(-along.y, along.x);
        // g at the mid-side from the sum of the corners' g: half of it across, minus a quarter along.
        let of_sum = across * across.transpose() * 0.5 - along * along.transpose() * 0.25;
        let middle = &mut all[3 + i];
        *middle += of_sum * sum_at(i, j);
        for (corner, sign) in [(i, -1.0), (j, 1.0)] {
            for axis in 0..2 {
                middle[(axis, 3 * corner)] += sign * 1.5 / length * along[axis];
            }
        }
    }
    all
}

/// The sum of g at two corners.
fn sum_at(i: usize, j: usize) -> SMatrix<f64, 2, 9> {
    let mut sum = SMatrix::<f64, 2, 9>::zeros();
    for k in [i, j] {
        sum[(0, 3 * k + 1)] = 1.0;
        sum[(1, 3 * k + 2)] = 1.0;
    }
    sum
}

/// Curvatures at area coordinates l: derivatives of quadratic g, by the usual six functions l (2 l - 1) and 4 l_i l_j.
fn curvature(slopes: &[SMatrix<f64, 2, 9>; 6], grads: &[V2; 3], l: [f64; 3]) -> Bend {
    let mut bend = Bend::zeros();
    let mut add = |slope: &SMatrix<f64, 2, 9>, grad: V2| {
        for k in 0..9 {
            bend[(0, k)] += grad.x * slope[(0, k)];
            bend[(1, k)] += grad.y * slope[(1, k)];
            bend[(2, k)] += grad.y * slope[(0, k)] + grad.x * slope[(1, k)];
        }
    };
    for i in 0..3 {
        let j = (i + 1) % 3;
        add(&slopes[i], grads[i] * (4.0 * l[i] - 1.0));
        add(&slopes[3 + i], (grads[i] * l[j] + grads[j] * l[i]) * 4.0);
    }
    bend
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The patch test (from memory, the usual requirement of plate elements): what is bent evenly is found bent evenly, in any triangle.
    #[test]
    fn even_curvature_is_found_exactly() {
        let corners = [P2::new(0.3, -0.2), P2::new(4.0, 1.0), P2::new(1.0, 3.5)];
        let element = Element::new(corners);
        let [xx, yy, xy] = [0.7, -0.4, 0.3];
        let mut unknowns = Unknowns::zeros();
        for (k, p) in corners.iter().enumerate() {
            // A plane and a parabola.
            unknowns[3 * k] = 2.0 + p.x - 3.0 * p.y + (xx * p.x * p.x + yy * p.y * p.y) / 2.0 + xy * p.x * p.y;
            unknowns[3 * k + 1] = 1.0 + xx * p.x + xy * p.y;
            unknowns[3 * k + 2] = -3.0 + yy * p.y + xy * p.x;
        }
        let elasticity = elasticity(0.25);
        for m in element.moments(&elasticity, &unknowns) {
            let expected = nalgebra::Vector3::new(xx + 0.25 * yy, yy + 0.25 * xx, 0.75 * xy);
            assert!((m - expected).norm() < 1e-12, "{m} {expected}");
        }
        // Energy of even bending: κ·M A / 2.
        let twice = (unknowns.transpose() * element.stiffness(&elasticity) * unknowns)[(0, 0)];
        let curvature = nalgebra::Vector3::new(xx, yy, 2.0 * xy);
        assert!((twice - curvature.dot(&(elasticity * curvature)) * element.area).abs() < 1e-10);
    }

    /// A body that only moves or tilts has no energy; everything else has: of nine, six ways to bend.
    #[test]
    fn only_moving_and_tilting_cost_nothing() {
        let element = Element::new([P2::new(0.0, 0.0), P2::new(3.0, 0.2), P2::new(0.9, 2.0)]);
        let values = element.stiffness(&elasticity(0.25)).symmetric_eigenvalues();
        let most = values.max();
        assert_eq!(values.iter().filter(|v| v.abs() < 1e-12 * most).count(), 3, "{values}");
        assert!(values.min() > -1e-12 * most);
    }
}
