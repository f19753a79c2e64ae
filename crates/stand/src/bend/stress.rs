//! Moments at the points of a mesh, and the stress that biscuit feels of them.

use super::Mesh;
use gable_plane::P2;
use nalgebra::Vector3;

/// Moments at every point: the mean of the triangles about it, each by its angle's share of area.
pub(super) fn at_points(mesh: &Mesh, corners: &[[Vector3<f64>; 3]]) -> Vec<Vector3<f64>> {
    let mut sums = vec![(0.0, Vector3::zeros()); mesh.points.len()];
    for (triangle, moments) in mesh.triangles.iter().zip(corners) {
        let area = area(mesh, triangle);
        for (k, moment) in triangle.iter().zip(moments) {
            sums[*k].0 += area;
            sums[*k].1 += moment * area;
        }
    }
    sums.into_iter().map(|(area, sum)| sum / area).collect()
}

/// Moments at every point, spread over what lies within a radius of it, the nearer the more: nearer than a thickness to a corner or to the
/// end of what holds it, plate theory knows no stress, and grows without end. Where triangles are larger, they are the radius.
pub(super) fn spread(mesh: &Mesh, corners: &[[Vector3<f64>; 3]], radius: f64) -> Vec<Vector3<f64>> {
    let mut middles: Vec<(P2, f64, Vector3<f64>)> = mesh
        .triangles
        .iter()
        .zip(corners)
        .map(|(t, m)| {
            let sum = t.iter().fold(nalgebra::Vector2::zeros(), |sum, k| sum + mesh.points[*k].coords);
            (P2::from(sum / 3.0), area(mesh, t), (m[0] + m[1] + m[2]) / 3.0)
        })
        .collect();
    middles.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
    let plain = at_points(mesh, corners);
    let near = |k: usize| {
        let (p, radius) = (mesh.points[k], radius.max(mesh.sizes[k]));
        let first = middles.partition_point(|m| m.0.x < p.x - radius);
        let (mut sum, mut weight) = (Vector3::zeros(), 0.0);
        for (middle, area, moment) in middles[first..].iter().take_while(|m| m.0.x <= p.x + radius) {
            let share = area * (1.0 - (middle - p).norm() / radius).max(0.0);
            sum += moment * share;
            weight += share;
        }
        if weight > 0.0 { sum / weight } else { plain[k] }
    };
    (0..mesh.points.len()).map(near).collect()
}

/// The principal moment that is largest either way; its sign tells on which face it pulls.
pub(super) fn principal(m: &Vector3<f64>) -> f64 {
    let (mean, half) = ((m.x + m.y) / 2.0, (m.x - m.y) / 2.0);
    let radius = half.hypot(m.z);
    if mean >= 0.0 { mean + radius } else { mean - radius }
}

fn area(mesh: &Mesh, triangle: &[usize; 3]) -> f64 {
    let [a, b, c] = triangle.map(|k| mesh.points[k]);
    (b - a).perp(&(c - a)) / 2.0
}
