//! Where a value at the points of a mesh is above a level: areas, and the lines round them.

use super::Mesh;
use gable_plane::P2;
use std::collections::{BTreeMap, BTreeSet};

/// A corner of an area: a point of the mesh, or where the level crosses the side between two.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Corner {
    Point(usize),
    Crossing(usize, usize),
}

type Side = (Corner, Corner);

/// Rings round what is at or above a level (even-odd).
pub(super) fn above(mesh: &Mesh, values: &[f64], level: f64) -> Vec<Vec<P2>> {
    let at = |corner: &Corner| place(mesh, values, level, corner);
    chained(sides(mesh, values, level)).iter().map(|ring| ring.iter().map(at).collect()).collect()
}

/// The lines along which the value is the level, inside the mesh; a closed one comes back to its start.
pub(super) fn lines(mesh: &Mesh, values: &[f64], level: f64) -> Vec<Vec<P2>> {
    let at = |corner: &Corner| place(mesh, values, level, corner);
    let within = |a: &Corner, b: &Corner| matches!((a, b), (Corner::Crossing(..), Corner::Crossing(..)));
    let mut all = Vec::new();
    for mut ring in chained(sides(mesh, values, level)) {
        let count = ring.len();
        let breaks = (0..count).find(|&k| !within(&ring[k], &ring[(k + 1) % count]));
        // Begin behind a side of the rim, so that a run is not cut where the ring happens to begin.
        ring.rotate_left(breaks.map_or(0, |k| (k + 1) % count));
        ring.push(ring[0]);
        let mut line = vec![at(&ring[0])];
        for pair in ring.windows(2) {
            if within(&pair[0], &pair[1]) {
                line.push(at(&pair[1]));
            } else {
                all.extend((line.len() > 1).then(|| std::mem::take(&mut line)));
                line = vec![at(&pair[1])];
            }
        }
        all.extend((line.len() > 1).then_some(line));
    }
    all
}

/// Sides of the areas, area on the left; sides between two triangles cancel.
fn sides(mesh: &Mesh, values: &[f64], level: f64) -> BTreeSet<Side> {
    let mut sides = BTreeSet::new();
    for triangle in &mesh.triangles {
        let mut corners = Vec::new();
        for k in 0..3 {
            let (i, j) = (triangle[k], triangle[(k + 1) % 3]);
            let (from, to) = (values[i] >= level, values[j] >= level);
            corners.extend(from.then_some(Corner::Point(i)));
            corners.extend((from != to).then_some(Corner::Crossing(i.min(j), i.max(j))));
        }
        for k in 0..corners.len() {
            let side = (corners[k], corners[(k + 1) % corners.len()]);
            if side.0 != side.1 && !sides.remove(&(side.1, side.0)) {
                sides.insert(side);
            }
        }
    }
    sides
}

fn chained(sides: BTreeSet<Side>) -> Vec<Vec<Corner>> {
    let mut next: BTreeMap<Corner, Vec<Corner>> = BTreeMap::new();
    for (from, to) in sides {
        next.entry(from).or_default().push(to);
    }
    let mut rings = Vec::new();
    while let Some((&start, _)) = next.first_key_value() {
        let mut ring = vec![start];
        let mut at = start;
        while let Some(to) = next.get_mut(&at).and_then(Vec::pop) {
            if next.get(&at).is_some_and(Vec::is_empty) {
                next.remove(&at);
            }
            if to == start {
                break;
            }
            ring.push(to);
            at = to;
        }
        if ring.len() > 2 {
            rings.push(ring);
        }
        if next.get(&start).is_some_and(Vec::is_empty) {
            next.remove(&start);
        }
    }
    rings
}

fn place(mesh: &Mesh, values: &[f64], level: f64, corner: &Corner) -> P2 {
    match *corner {
        Corner::Point(k) => mesh.points[k],
        Corner::Crossing(i, j) => {
            let (a, b) = (values[i], values[j]);
            let share = ((level - a) / (b - a)).clamp(0.0, 1.0);
            mesh.points[i] + (mesh.points[j] - mesh.points[i]) * share
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bend::{Held, Shape};

    /// The value x over a rectangle of 40 × 30 with a hole of 10 × 10: what is above a level is what lies right of it, exactly.
    #[test]
    fn what_is_above_a_level_has_its_area() {
        let ring = |x: f64, y: f64, w: f64, h: f64| vec![[x, y], [x + w, y], [x + w, y + h], [x, y + h]];
        let rim = ring(0.0, 0.0, 40.0, 30.0);
        let hole: Vec<[f64; 2]> = ring(15.0, 10.0, 10.0, 10.0).into_iter().rev().collect();
        let rings = [rim, hole].map(|r| r.into_iter().map(P2::from).collect()).to_vec();
        let held: [Held; 0] = [];
        let mesh = Mesh::of(&Shape { rings }, &held, 4.0).unwrap();
        let values: Vec<f64> = mesh.points.iter().map(|p| p.x).collect();
        for (level, area) in [(-1.0, 1100.0), (8.3, 851.0), (20.0, 550.0), (33.0, 210.0), (41.0, 0.0)] {
            let found: f64 = above(&mesh, &values, level).iter().map(|r| gable_plane::ring_area(r)).sum();
            assert!((found - area).abs() < 1e-6, "{level}: {found} {area}");
            let lines = lines(&mesh, &values, level);
            assert!(lines.iter().flatten().all(|p| (p.x - level).abs() < 1e-9));
            let length: f64 = lines.iter().flat_map(|l| l.windows(2)).map(|w| (w[1] - w[0]).norm()).sum();
            let expected = if level == 20.0 {
                20.0
            } else if (0.0..40.0).contains(&level) {
                30.0
            } else {
                0.0
            };
            assert!((length - expected).abs() < 1e-6, "{level}: {length}");
        }
    }
}
