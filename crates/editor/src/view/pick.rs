use super::camera::Ray;
use super::model::{Body, Model, Thing};
use gable_plane::{P3, Rigid};

/// What was clicked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Picked {
    /// A piece, by its number.
    Piece(usize),
    /// Something that is stuck on it or stands free.
    Thing(Thing),
}

/// What a ray meets first, of pieces that are not hidden; of what is stuck on or stands free too where that is `dressed`.
pub(crate) fn pick(model: &Model, pose: &[Rigid], (hidden, dressed): (&[bool], bool), ray: &Ray) -> Option<Picked> {
    let hit = |(k, (body, place)): (usize, (&Body, &Rigid))| nearest(body, place, ray).map(|d| (Picked::Piece(k), d));
    let seen = model.bodies.iter().zip(pose).enumerate().filter(|(k, _)| !hidden.get(*k).copied().unwrap_or(false));
    let things = model.things.iter().filter(|_| dressed).filter_map(|(what, own)| {
        let met = own.iter().filter_map(|t| distance(t, ray)).min_by(f64::total_cmp)?;
        Some((Picked::Thing(*what), met))
    });
    let hits = seen.filter_map(hit).chain(things);
    hits.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(what, _)| what)
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
