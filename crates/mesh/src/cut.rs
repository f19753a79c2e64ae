//! What a plane leaves of closed bodies given as triangles, and the faces where it goes through them.

use crate::triangulate::triangulate;
use gable_plane::{HalfSpace, P2, P3, V3, ring_area};
use std::collections::BTreeMap;

/// A triangle, counter-clockwise from outside, with what is known of it.
pub type Marked<T> = ([P3; 3], T);

/// What is left of bodies on one side of a plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut<T> {
    /// Triangles of their surfaces.
    pub kept: Vec<Marked<T>>,
    /// Triangles of the faces in the plane, seen from outside, each with what is known of a triangle beside it.
    pub faces: Vec<Marked<T>>,
    /// Sides of those faces.
    pub rims: Vec<[P3; 2]>,
}

/// Nearer to the plane than this, a corner would make slivers, mm: the plane is moved by a little more.
const NEAR: f64 = 1e-6;

/// Cuts closed bodies and keeps what is within the half-space. A body whose surface does not close has no face where it does
/// not; nor have bodies that cross each other, beyond the face of each alone.
pub fn cut<T: Copy>(triangles: &[Marked<T>], keep: &HalfSpace) -> Cut<T> {
    let height = height_over(triangles, keep);
    let mut kept = Vec::new();
    let mut sides = Sides::default();
    for (triangle, mark) in triangles {
        let above = triangle.map(|p| height(&p) > 0.0);
        match above.iter().filter(|a| **a).count() {
            0 => kept.push((*triangle, *mark)),
            3 => {}
            _ => {
                let (pieces, side) = split(triangle, above, &height);
                kept.extend(pieces.into_iter().map(|t| (t, *mark)));
                sides.add(side, kept.len() - 1);
            }
        }
    }
    let rims = sides.all.clone();
    let mut faces = Vec::new();
    for (corners, of) in sides.filled(&keep.normal) {
        faces.push((corners, kept[of].1));
    }
    Cut { kept, faces, rims }
}

/// What of a line from one place to another is within a half-space.
pub fn cut_line([a, b]: [P3; 2], keep: &HalfSpace) -> Option<[P3; 2]> {
    let height = |p: &P3| keep.normal.dot(&p.coords) - keep.offset;
    match (height(&a) > 0.0, height(&b) > 0.0) {
        (false, false) => Some([a, b]),
        (true, true) => None,
        (true, false) => Some([crossing(&a, &b, &height), b]),
        (false, true) => Some([a, crossing(&a, &b, &height)]),
    }
}

/// How far places lie beyond the plane, mm; the plane is moved off corners that it all but touches.
fn height_over<T>(triangles: &[Marked<T>], keep: &HalfSpace) -> impl Fn(&P3) -> f64 {
    let (normal, offset) = (keep.normal, keep.offset);
    let touches = |by: f64| {
        let corners = || triangles.iter().flat_map(|(t, _)| t);
        corners().any(|p| (normal.dot(&p.coords) - offset - by).abs() < NEAR)
    };
    let by = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0].map(|k| k * 2.3 * NEAR).into_iter().find(|by| !touches(*by));
    let offset = offset + by.unwrap_or(0.0);
    move |p: &P3| normal.dot(&p.coords) - offset
}

/// Where the line between two places meets the plane; the same place whichever comes first.
fn crossing(a: &P3, b: &P3, height: &impl Fn(&P3) -> f64) -> P3 {
    let (a, b) = if (a.x, a.y, a.z) < (b.x, b.y, b.z) { (a, b) } else { (b, a) };
    let (from, to) = (height(a), height(b));
    a + (b - a) * (from / (from - to))
}

/// What is left of a triangle that the plane crosses, and the side of the face that it makes.
fn split(triangle: &[P3; 3], above: [bool; 3], height: &impl Fn(&P3) -> f64) -> (Vec<[P3; 3]>, [P3; 2]) {
    // Turned so that the first corner is the one that is alone on its side.
    let alone = (0..3).find(|k| above[*k] != above[(k + 1) % 3] && above[*k] != above[(k + 2) % 3]).unwrap_or(0);
    let [a, b, c] = [0, 1, 2].map(|k| triangle[(alone + k) % 3]);
    let (ab, ca) = (crossing(&a, &b, height), crossing(&c, &a, height));
    if above[alone] {
        // The face lies beyond: round it the other way than the surface runs.
        (vec![[ab, b, c], [ab, c, ca]], [ab, ca])
    } else {
        (vec![[a, ab, ca]], [ca, ab])
    }
}

/// Sides of faces, each with the number of a triangle beside it.
#[derive(Default)]
struct Sides {
    all: Vec<[P3; 2]>,
    beside: Vec<usize>,
}

type Bits = [u64; 3];

fn bits(p: &P3) -> Bits {
    // Minus nought is nought.
    [p.x, p.y, p.z].map(|v| (v + 0.0).to_bits())
}

impl Sides {
    fn add(&mut self, side: [P3; 2], beside: usize) {
        if side[0] != side[1] {
            self.all.push(side);
            self.beside.push(beside);
        }
    }

    /// Rings of sides, each from the end of one to the beginning of the next.
    fn rings(&self) -> Vec<Vec<usize>> {
        let mut from: BTreeMap<Bits, Vec<usize>> = BTreeMap::new();
        for (k, [start, _]) in self.all.iter().enumerate() {
            from.entry(bits(start)).or_default().push(k);
        }
        let mut rings = Vec::new();
        let mut used = vec![false; self.all.len()];
        for first in 0..self.all.len() {
            let mut ring = Vec::new();
            let mut next = Some(first).filter(|k| !used[*k]);
            while let Some(k) = next {
                used[k] = true;
                ring.push(k);
                let end = bits(&self.all[k][1]);
                if end == bits(&self.all[first][0]) {
                    rings.push(std::mem::take(&mut ring));
                    break;
                }
                next = from.get(&end).and_then(|all| all.iter().copied().find(|k| !used[*k]));
            }
        }
        rings
    }

    /// The faces as triangles.
    fn filled(&self, normal: &V3) -> Vec<([P3; 3], usize)> {
        let right = normal.cross(&if normal.z.abs() < 0.9 { V3::z() } else { V3::x() }).normalize();
        let up = normal.cross(&right);
        let flat = |p: &P3| P2::new(p.coords.dot(&right), p.coords.dot(&up));
        let rings = self.rings();
        let fill = |rings: &[Vec<usize>]| {
            let outlines: Vec<Vec<P2>> =
                rings.iter().map(|ring| ring.iter().map(|k| flat(&self.all[*k][0])).collect()).collect();
            let found = triangulate(&outlines)?;
            let corners: Vec<usize> = rings.iter().flatten().copied().collect();
            let face = |t: [usize; 3]| (t.map(|n| self.all[corners[n]][0]), self.beside[corners[t[0]]]);
            Some(found.into_iter().map(face).collect::<Vec<_>>())
        };
        let is_rim =
            |ring: &&Vec<usize>| ring_area(&ring.iter().map(|k| flat(&self.all[*k][0])).collect::<Vec<_>>()) > 0.0;
        fill(&rings).unwrap_or_else(|| {
            let rims = rings.iter().filter(is_rim);
            rims.filter_map(|ring| fill(std::slice::from_ref(ring))).flatten().collect()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::gable;

    fn area(t: &[P3; 3]) -> V3 {
        (t[1] - t[0]).cross(&(t[2] - t[0])) / 2.0
    }

    /// Volume within closed triangles by the divergence theorem.
    fn volume<'a>(triangles: impl Iterator<Item = &'a [P3; 3]>) -> f64 {
        triangles.map(|t| t[0].coords.dot(&t[1].coords.cross(&t[2].coords)) / 6.0).sum()
    }

    fn bodies() -> Vec<Vec<Marked<()>>> {
        let solved = gable();
        let body = |piece: &gable_shell::Piece| {
            let solid = crate::solid_of(piece);
            let place = |k: u32| piece.house_from_piece * solid.positions[k as usize];
            solid.triangles.iter().map(|t| (t.map(place), ())).collect()
        };
        solved.pieces.iter().map(body).collect()
    }

    #[test]
    fn both_halves_of_a_body_are_closed_and_make_up_the_whole() {
        for body in bodies() {
            let whole = volume(body.iter().map(|(t, ())| t));
            for normal in [V3::x(), V3::y(), V3::z(), V3::new(0.3, -0.5, 0.8).normalize()] {
                for at in [-31.7, 0.0, 12.3, 48.0] {
                    let plane = HalfSpace { normal, offset: at };
                    let other = HalfSpace { normal: -normal, offset: -at };
                    let halves = [cut(&body, &plane), cut(&body, &other)];
                    let volumes = halves.each_ref().map(|half| {
                        let all = half.kept.iter().chain(&half.faces);
                        // The sum of outward areas of a closed surface is nought.
                        let open = all.clone().map(|(t, ())| area(t)).sum::<V3>();
                        assert!(open.norm() < 1e-6 * whole.max(1.0), "{normal:?} {at}: {open:?}");
                        volume(all.map(|(t, ())| t))
                    });
                    // Planes are moved off corners by up to 0.000007 mm.
                    assert!((volumes[0] + volumes[1] - whole).abs() < 0.3, "{normal:?} {at}: {volumes:?} of {whole}");
                }
            }
        }
    }

    /// Cavalieri: faces times how far they are apart come to the volume (Simpson's rule is exact between changes of shape,
    /// the midpoint rule of many cuts is near it).
    #[test]
    fn areas_of_faces_add_up_to_the_volume() {
        let bodies = bodies();
        let whole = volume(bodies.iter().flatten().map(|(t, ())| t));
        let (low, high, steps) = (-120.0, 120.0, 960);
        let step = (high - low) / f64::from(steps);
        let sum: f64 = (0..steps)
            .map(|k| {
                let plane = HalfSpace { normal: V3::x(), offset: low + step * (f64::from(k) + 0.5) };
                let faces = bodies.iter().flat_map(|body| cut(body, &plane).faces);
                faces.map(|(t, ())| area(&t).x).sum::<f64>() * step
            })
            .sum();
        assert!((sum / whole - 1.0).abs() < 2e-3, "{sum} {whole}");
    }

    #[test]
    fn a_line_is_cut_where_it_meets_the_plane() {
        let keep = HalfSpace { normal: V3::x(), offset: 1.0 };
        let (a, b) = (P3::new(0.0, 0.0, 0.0), P3::new(4.0, 8.0, 0.0));
        assert_eq!(cut_line([a, b], &keep), Some([a, P3::new(1.0, 2.0, 0.0)]));
        assert_eq!(cut_line([b, a], &keep), Some([P3::new(1.0, 2.0, 0.0), a]));
        assert_eq!(cut_line([b, b + V3::z()], &keep), None);
    }
}
