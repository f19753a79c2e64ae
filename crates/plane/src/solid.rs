mod cut;

use crate::{P3, Rigid, SAME_POINT, V3};
use std::borrow::Cow;

/// The points with `normal · p <= offset`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HalfSpace {
    /// Unit direction out of what is kept.
    pub normal: V3,
    /// Distance of the plane from the origin along `normal`, mm.
    pub offset: f64,
}

impl HalfSpace {
    /// The half-space that ends at `point` and lies against `normal` (any length).
    pub fn through(point: P3, normal: V3) -> Self {
        let normal = normal.normalize();
        Self { normal, offset: normal.dot(&point.coords) }
    }

    /// How far a point is past the plane, mm; negative inside.
    pub fn excess(&self, p: &P3) -> f64 {
        self.normal.dot(&p.coords) - self.offset
    }

    /// The same plane moved out by `distance` mm.
    pub fn moved(&self, distance: f64) -> Self {
        Self { normal: self.normal, offset: self.offset + distance }
    }

    /// The other side of the plane.
    pub fn flipped(&self) -> Self {
        Self { normal: -self.normal, offset: -self.offset }
    }
}

/// One flat face of a solid.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// Corners, counter-clockwise seen from outside.
    pub corners: Vec<P3>,
    /// Unit direction out of the solid.
    pub normal: V3,
}

/// A convex solid, given by its corners and the rings of its faces.
#[derive(Clone, Debug, PartialEq)]
pub struct Solid {
    corners: Vec<P3>,
    /// Corner numbers of all faces, one face after the other, each counter-clockwise seen from outside.
    rings: Vec<u32>,
    planes: Vec<FacePlane>,
}

/// Which way a face looks, and where its ring ends in the list of all rings.
#[derive(Clone, Copy, Debug, PartialEq)]
struct FacePlane {
    normal: V3,
    end: usize,
}

/// Where a solid lies of a half-space.
enum Lies {
    Inside,
    Outside,
    Across,
}

impl Solid {
    /// An upright box.
    pub fn block(low: P3, high: P3) -> Self {
        let bottom = [(low.x, low.y), (high.x, low.y), (high.x, high.y), (low.x, high.y)];
        let ring = |z: f64| bottom.map(|(x, y)| P3::new(x, y, z));
        Self::prism(&ring(low.z), &ring(high.z))
    }

    /// The solid between two rings with the same number of corners, joined corner by corner.
    /// `top` lies where `bottom`'s counter-clockwise side looks.
    pub fn prism(bottom: &[P3], top: &[P3]) -> Self {
        let count = bottom.len().min(top.len()) as u32;
        let corners = bottom[..count as usize].iter().chain(&top[..count as usize]).copied().collect();
        let mut solid = Self { corners, rings: Vec::new(), planes: Vec::new() };
        solid.push((0..count).rev());
        solid.push(count..2 * count);
        for k in 0..count {
            let next = (k + 1) % count;
            solid.push([k, next, count + next, count + k]);
        }
        solid
    }

    fn push(&mut self, ring: impl IntoIterator<Item = u32>) {
        let start = self.rings.len();
        self.rings.extend(ring);
        let normal = newell(&self.corners, &self.rings[start..]);
        self.planes.push(FacePlane { normal, end: self.rings.len() });
    }

    /// Normal and corner numbers of every face.
    fn numbered(&self) -> impl Iterator<Item = (&V3, &[u32])> {
        self.planes.iter().scan(0, |start, plane| {
            let ring = &self.rings[*start..plane.end];
            *start = plane.end;
            Some((&plane.normal, ring))
        })
    }

    fn at(&self, corner: u32) -> P3 {
        self.corners[corner as usize]
    }

    /// The solid after a rigid motion.
    pub fn moved(&self, motion: &Rigid) -> Self {
        Self {
            corners: self.corners.iter().map(|p| motion * p).collect(),
            rings: self.rings.clone(),
            planes: self.planes.iter().map(|f| FacePlane { normal: motion.rotation * f.normal, ..*f }).collect(),
        }
    }

    /// The faces.
    pub fn faces(&self) -> impl Iterator<Item = Face> {
        self.numbered()
            .map(|(normal, ring)| Face { corners: ring.iter().map(|&k| self.at(k)).collect(), normal: *normal })
    }

    /// Per face its corners, counter-clockwise seen from outside, as indices into [`Self::corners`].
    pub fn rings(&self) -> impl Iterator<Item = &[u32]> {
        self.numbered().map(|(_, ring)| ring)
    }

    /// The edges of all faces, one face after the other, so that every edge comes twice.
    pub fn face_edges(&self) -> impl Iterator<Item = [&P3; 2]> {
        let edge = move |ring: &[u32], k: usize| {
            [ring[k], ring[(k + 1) % ring.len()]].map(|corner| &self.corners[corner as usize])
        };
        self.numbered().flat_map(move |(_, ring)| (0..ring.len()).map(move |k| edge(ring, k)))
    }

    /// The corners.
    pub fn corners(&self) -> &[P3] {
        &self.corners
    }

    /// The part inside a half-space; `None` when nothing of any size is left.
    pub fn clip(&self, half: &HalfSpace) -> Option<Self> {
        self.clip_all([half])
    }

    /// The part inside every half-space.
    pub fn clip_all<'a>(&self, halves: impl IntoIterator<Item = &'a HalfSpace>) -> Option<Self> {
        let mut left = Cow::Borrowed(self);
        for half in halves {
            match left.side_of(half) {
                Lies::Inside => {}
                Lies::Outside => return None,
                Lies::Across => left = Cow::Owned(left.cut(half)?),
            }
        }
        Some(left.into_owned())
    }

    /// What is left of the solid outside the convex `tool` given by its half-spaces, as convex solids.
    pub fn without(&self, tool: &[HalfSpace]) -> Vec<Self> {
        self.divided(tool).map_or_else(|| vec![self.clone()], |(_, outside)| outside)
    }

    /// What of the solid is inside the convex `tool` given by its half-spaces, and what is outside, as convex solids;
    /// `None` when nothing of any size is inside.
    ///
    /// A \ B is the disjoint union over B's planes of (A outside plane k, inside planes 0..k).
    pub fn divided(&self, tool: &[HalfSpace]) -> Option<(Self, Vec<Self>)> {
        // Told before anything is cut in vain.
        if tool.iter().any(|half| matches!(self.side_of(half), Lies::Outside)) {
            return None;
        }
        let mut rest = Cow::Borrowed(self);
        let mut outside = Vec::new();
        for half in tool {
            match rest.side_of(half) {
                Lies::Inside => {}
                Lies::Outside => return None,
                Lies::Across => {
                    outside.extend(rest.cut(&half.flipped()));
                    rest = Cow::Owned(rest.cut(half)?);
                }
            }
        }
        Some((rest.into_owned(), outside))
    }

    fn side_of(&self, half: &HalfSpace) -> Lies {
        let (mut inside, mut outside) = (true, true);
        for p in &self.corners {
            let excess = half.excess(p);
            inside &= excess <= SAME_POINT;
            outside &= excess >= -SAME_POINT;
            if !inside && !outside {
                return Lies::Across;
            }
        }
        if inside { Lies::Inside } else { Lies::Outside }
    }

    /// The half-spaces of the faces.
    pub fn half_spaces(&self) -> Vec<HalfSpace> {
        let half = |(normal, ring): (&V3, &[u32])| Some(HalfSpace::through(self.at(*ring.first()?), *normal));
        self.numbered().filter_map(half).collect()
    }

    /// The solid with every face moved out by `distance` mm (edges stay sharp).
    pub fn grown(&self, distance: f64) -> Option<Self> {
        if distance == 0.0 {
            return Some(self.clone());
        }
        let (low, high) = self.bounds();
        let reach = V3::repeat(distance * 100.0 + (high - low).norm());
        let room = Self::block(P3::from(low - reach), P3::from(high + reach));
        let halves: Vec<HalfSpace> = self.half_spaces().iter().map(|h| h.moved(distance)).collect();
        room.clip_all(&halves)
    }

    /// Volume that two solids share, mm³.
    pub fn shared_with(&self, other: &Self) -> f64 {
        if !self.boxes_meet(other) {
            return 0.0;
        }
        self.clip_all(&other.half_spaces()).map_or(0.0, |s| s.volume())
    }

    /// Least and greatest coordinates.
    pub fn bounds(&self) -> (V3, V3) {
        self.corners.iter().fold((V3::repeat(f64::INFINITY), V3::repeat(f64::NEG_INFINITY)), |(low, high), p| {
            (low.inf(&p.coords), high.sup(&p.coords))
        })
    }

    fn boxes_meet(&self, other: &Self) -> bool {
        let ((al, ah), (bl, bh)) = (self.bounds(), other.bounds());
        (0..3).all(|k| al[k] < bh[k] && bl[k] < ah[k])
    }

    /// Volume, mm³.
    pub fn volume(&self) -> f64 {
        let Some(&origin) = self.corners.first() else { return 0.0 };
        let cone = |(_, ring): (&V3, &[u32])| {
            let Some(&first) = ring.first() else { return 0.0 };
            let apex = self.at(first);
            let fan = ring.windows(2).map(|w| (self.at(w[0]) - apex).cross(&(self.at(w[1]) - apex)));
            (apex - origin).dot(&fan.sum::<V3>()) / 6.0
        };
        self.numbered().map(cone).sum()
    }

    /// A corner of the edge that two faces share, by their numbers.
    pub(crate) fn shared_corner(&self, a: usize, b: usize) -> Option<P3> {
        let ring = |k: usize| &self.rings[if k == 0 { 0 } else { self.planes[k - 1].end }..self.planes[k].end];
        let same = |p: u32, q: u32| p == q || (self.at(p) - self.at(q)).norm() <= 2.0 * SAME_POINT;
        let mut shared = ring(a).iter().filter(|&&p| ring(b).iter().any(|&q| same(p, q)));
        let first = *shared.next()?;
        shared.next().map(|_| self.at(first))
    }
}

/// Unit normal of a ring that need not be perfectly flat.
fn newell(corners: &[P3], ring: &[u32]) -> V3 {
    let at = |k: u32| corners[k as usize];
    let Some(&first) = ring.first() else { return V3::zeros() };
    let sum: V3 = ring.windows(2).map(|w| (at(w[0]) - at(first)).cross(&(at(w[1]) - at(first)))).sum();
    sum.try_normalize(0.0).unwrap_or_else(V3::zeros)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unit() -> Solid {
        Solid::block(P3::origin(), P3::new(1.0, 1.0, 1.0))
    }

    #[test]
    fn clipping_a_cube_by_its_diagonal_plane_halves_it() {
        let half = HalfSpace::through(P3::new(0.5, 0.5, 0.5), V3::new(1.0, 0.0, 1.0));
        let solid = unit().clip(&half).unwrap();
        assert!((solid.volume() - 0.5).abs() < 1e-12);
        assert_eq!(solid.faces().count(), 5);
    }

    #[test]
    fn a_difference_and_what_it_took_make_the_whole() {
        let tool = Solid::block(P3::new(0.25, 0.25, 0.25), P3::new(2.0, 0.75, 0.75));
        let rest: f64 = unit().without(&tool.half_spaces()).iter().map(Solid::volume).sum();
        assert!((rest - (1.0 - 0.75 * 0.25)).abs() < 1e-12);
        let apart = Solid::block(P3::new(2.0, 0.0, 0.0), P3::new(3.0, 1.0, 1.0));
        let whole: f64 = unit().without(&apart.half_spaces()).iter().map(Solid::volume).sum();
        assert!((whole - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_corner_cut_off_a_cube_is_a_tetrahedron() {
        let half = HalfSpace::through(P3::new(0.5, 0.0, 0.0), V3::new(1.0, 1.0, 1.0));
        assert!((unit().clip(&half).unwrap().volume() - 0.125 / 6.0).abs() < 1e-12);
    }
}
