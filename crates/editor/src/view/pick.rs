use super::camera::Ray;
use super::model::{Body, Model};
use gable_plane::{P3, Rigid};

/// The piece that a ray meets first, of those that are not hidden.
pub(crate) fn pick(model: &Model, pose: &[Rigid], hidden: &[bool], ray: &Ray) -> Option<usize> {
    let hit = |(k, (body, place)): (usize, (&Body, &Rigid))| nearest(body, place, ray).map(|d| (k, d));
    let seen = model.bodies.iter().zip(pose).enumerate().filter(|(k, _)| !hidden.get(*k).copied().unwrap_or(false));
    let hits = seen.filter_map(hit);
    hits.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(k, _)| k)
}

/// How far along a ray a piece is met first.
pub(super) fn nearest(body: &Body, place: &Rigid, ray: &Ray) -> Option<f64> {
    let into = place.inverse();
    let local = Ray { from: into * ray.from, along: into * ray.along };
    body.triangles.iter().filter_map(|(t, _)| distance(t, &local)).min_by(f64::total_cmp)
}

/// How far along a ray a triangle is met (Möller and Trumbore 1997).
fn distance([a, b, c]: &[P3; 3], ray: &Ray) -> Option<f64> {
    let (ab, ac) = (b - a, c - a);
    let cross = ray.along.cross(&ac);
    let turn = ab.dot(&cross);
    if turn.abs() < 1e-12 {
        return None;
    }
    let off = ray.from - a;
    let u = off.dot(&cross) / turn;
    let q = off.cross(&ab);
    let v = ray.along.dot(&q) / turn;
    let along = ac.dot(&q) / turn;
    (u >= 0.0 && v >= 0.0 && u + v <= 1.0 && along > 0.0).then_some(along)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::V3;

    #[test]
    fn a_ray_meets_a_triangle_where_it_lies() {
        let triangle = [P3::new(0.0, 0.0, 5.0), P3::new(4.0, 0.0, 5.0), P3::new(0.0, 4.0, 5.0)];
        let ray = |x: f64, y: f64| Ray { from: P3::new(x, y, 0.0), along: V3::z() };
        assert!((distance(&triangle, &ray(1.0, 1.0)).unwrap() - 5.0).abs() < 1e-12);
        assert_eq!(distance(&triangle, &ray(3.0, 3.0)), None);
        let behind = Ray { from: P3::new(1.0, 1.0, 9.0), along: V3::z() };
        assert_eq!(distance(&triangle, &behind), None);
    }
}
