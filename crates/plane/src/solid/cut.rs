//! Cutting a solid by a plane.

use super::{FacePlane, Solid};
use crate::{HalfSpace, P3, SAME_POINT, V3};
use smallvec::SmallVec;

impl Solid {
    /// The part inside a half-space whose plane runs through the solid.
    pub(super) fn cut(&self, half: &HalfSpace) -> Option<Self> {
        let mut cutter = Cutter::new(self, half);
        for (normal, ring) in self.numbered() {
            cutter.face(*normal, ring);
        }
        cutter.cap(half.normal);
        (cutter.planes.len() >= 4).then(|| cutter.finished())
    }
}

/// A list that needs no memory of its own for solids of usual size.
type Short<T> = SmallVec<[T; 32]>;

/// Cuts a solid by a plane, face after face. Corners keep their numbers until the end; those on edges that were cut follow.
struct Cutter<'a> {
    solid: &'a Solid,
    /// How far each corner is past the plane, mm.
    excess: Short<f64>,
    /// Rings and planes of the faces that are left.
    rings: Vec<u32>,
    planes: Vec<FacePlane>,
    /// Edges that were cut, lower corner first.
    cuts: Short<[u32; 2]>,
    /// The corners on them.
    crossings: Short<P3>,
    /// Corners on the plane.
    rim: Short<u32>,
}

impl<'a> Cutter<'a> {
    fn new(solid: &'a Solid, half: &HalfSpace) -> Self {
        Self {
            solid,
            excess: solid.corners.iter().map(|p| half.excess(p)).collect(),
            rings: Vec::with_capacity(solid.rings.len() + 8),
            planes: Vec::with_capacity(solid.planes.len() + 1),
            cuts: Short::new(),
            crossings: Short::new(),
            rim: Short::new(),
        }
    }

    fn at(&self, corner: u32) -> P3 {
        let old = self.solid.corners.len();
        let corner = corner as usize;
        if corner < old { self.solid.corners[corner] } else { self.crossings[corner - old] }
    }

    /// The corner where an edge crosses the plane.
    fn crossing(&mut self, from: u32, to: u32) -> u32 {
        let edge = [from.min(to), from.max(to)];
        let number = |k: usize| (self.solid.corners.len() + k) as u32;
        if let Some(known) = self.cuts.iter().position(|c| *c == edge) {
            return number(known);
        }
        let new = number(self.cuts.len());
        let [a, b] = edge.map(|k| self.solid.at(k));
        let [here, there] = edge.map(|k| self.excess[k as usize]);
        self.crossings.push(a + (b - a) * (here / (here - there)));
        self.cuts.push(edge);
        new
    }

    fn face(&mut self, normal: V3, ring: &[u32]) {
        let start = self.rings.len();
        let mut touches = true;
        for (k, &a) in ring.iter().enumerate() {
            let b = ring[(k + 1) % ring.len()];
            let (here, there) = (self.excess[a as usize], self.excess[b as usize]);
            if here <= SAME_POINT {
                touches &= here >= -SAME_POINT;
                self.keep(start, a);
                if here >= -SAME_POINT {
                    self.rim.push(a);
                }
            }
            if (here < -SAME_POINT && there > SAME_POINT) || (here > SAME_POINT && there < -SAME_POINT) {
                let corner = self.crossing(a, b);
                self.keep(start, corner);
                self.rim.push(corner);
            }
        }
        if self.rings.len() > start + 1 && self.at(self.rings[start]) == self.at(self.rings[self.rings.len() - 1]) {
            self.rings.pop();
        }
        // A ring that only touches the plane along an edge keeps no area.
        if touches || self.rings.len() < start + 3 {
            self.rings.truncate(start);
        } else {
            self.planes.push(FacePlane { normal, end: self.rings.len() });
        }
    }

    /// Adds a corner to the ring that starts at `start`, unless the one before is the same point.
    fn keep(&mut self, start: usize, corner: u32) {
        let last = self.rings[start..].last();
        if last.is_none_or(|&k| (self.at(k) - self.at(corner)).norm() > SAME_POINT) {
            self.rings.push(corner);
        }
    }

    /// Adds the new face on the plane: the convex ring through the corners on it.
    fn cap(&mut self, normal: V3) {
        let mut points: Short<u32> = Short::new();
        for &k in &self.rim {
            let p = self.at(k);
            if points.iter().all(|&q| q != k && (p - self.at(q)).norm() > 2.0 * SAME_POINT) {
                points.push(k);
            }
        }
        if points.len() < 3 {
            return;
        }
        let sum = points.iter().fold(V3::zeros(), |s, &k| s + self.at(k).coords);
        let centre = P3::from(sum / points.len() as f64);
        let Some(x) = (self.at(points[0]) - centre).try_normalize(0.0) else { return };
        let y = normal.cross(&x);
        let angle = |k: u32| {
            let from = self.at(k) - centre;
            turn(from.dot(&x), from.dot(&y))
        };
        let mut turned: Short<(f64, u32)> = points.iter().map(|&k| (angle(k), k)).collect();
        turned.sort_by(|a, b| a.0.total_cmp(&b.0));
        self.rings.extend(turned.iter().map(|t| t.1));
        self.planes.push(FacePlane { normal, end: self.rings.len() });
    }

    /// What is left, with no more corners than its faces have, numbered as they come.
    fn finished(mut self) -> Solid {
        let count = self.solid.corners.len() + self.crossings.len();
        let mut number: Short<u32> = SmallVec::from_elem(u32::MAX, count);
        let mut corners = Vec::with_capacity(count);
        for ring in 0..self.rings.len() {
            let old = self.rings[ring];
            if number[old as usize] == u32::MAX {
                number[old as usize] = corners.len() as u32;
                corners.push(self.at(old));
            }
            self.rings[ring] = number[old as usize];
        }
        Solid { corners, rings: self.rings, planes: self.planes }
    }
}

/// Grows with the angle of a direction, from -2 to 2, like `atan2` but by one division.
fn turn(x: f64, y: f64) -> f64 {
    let share = x / (x.abs() + y.abs());
    if y < 0.0 { share - 1.0 } else { 1.0 - share }
}
