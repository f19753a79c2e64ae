//! Convex bodies as half-spaces, with their corners found by brute force: slow, short and hard to get wrong.

use gable_plane::{P3, Rigid, V3};
use gable_shell::Tier;
use manifold_rust::linalg::Vec3;
use manifold_rust::manifold::Manifold;

/// Corners nearer than this, mm, are one, and a corner this near to a plane lies on it.
const SAME: f64 = 1e-6;

/// What a plane of a part stands for. Sides count from 0 in the order of the outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tag {
    /// Wall of a side.
    Wall(usize),
    /// Slope of a side.
    Slope(usize, Tier),
    /// Flat plate on top.
    Lid,
    /// What the part stands on.
    Base,
}

/// Keeps the points with `normal · p <= offset`.
#[derive(Clone, Copy, Debug)]
pub struct Plane {
    /// What it stands for.
    pub tag: Tag,
    /// Unit direction out of what is kept.
    pub normal: V3,
    /// Distance from the origin, mm.
    pub offset: f64,
}

impl Plane {
    /// How far a point is outside, mm.
    pub fn excess(&self, p: &P3) -> f64 {
        self.normal.dot(&p.coords) - self.offset
    }
}

/// A corner and the planes through it.
#[derive(Clone, Debug)]
struct Corner {
    at: P3,
    planes: Vec<usize>,
}

/// Where two faces of a convex body meet.
#[derive(Clone, Copy, Debug)]
pub struct Ridge {
    /// The two planes.
    pub tags: [Tag; 2],
    /// From end to end.
    pub line: [P3; 2],
}

/// A bounded convex body.
#[derive(Clone, Debug)]
pub struct Hull {
    /// Its planes; some may not touch it.
    pub planes: Vec<Plane>,
    corners: Vec<Corner>,
}

impl Hull {
    /// The body inside all planes: every three planes meet in a point, and those inside all others are its corners.
    pub fn new(planes: Vec<Plane>) -> Self {
        let mut corners: Vec<Corner> = Vec::new();
        for a in 0..planes.len() {
            for b in a + 1..planes.len() {
                let along = planes[a].normal.cross(&planes[b].normal);
                if along.norm() < 1e-9 {
                    continue;
                }
                for c in b + 1..planes.len() {
                    add_corner(&planes, [a, b, c], &along, &mut corners);
                }
            }
        }
        Self { planes, corners }
    }

    /// The body where a motion puts it.
    pub(crate) fn moved(&self, by: &Rigid) -> Self {
        let plane = |p: &Plane| {
            let normal = by * p.normal;
            Plane { normal, offset: p.offset + normal.dot(&by.translation.vector), ..*p }
        };
        let corner = |c: &Corner| Corner { at: by * c.at, planes: c.planes.clone() };
        Self { planes: self.planes.iter().map(plane).collect(), corners: self.corners.iter().map(corner).collect() }
    }

    /// How far a point is outside, mm; below zero inside.
    pub(crate) fn excess(&self, p: &P3) -> f64 {
        self.planes.iter().map(|plane| plane.excess(p)).fold(f64::NEG_INFINITY, f64::max)
    }

    /// The corners.
    pub fn points(&self) -> Vec<P3> {
        self.corners.iter().map(|c| c.at).collect()
    }

    /// The solid, by an independent library.
    pub fn solid(&self) -> Manifold {
        hull_of(&self.points())
    }

    /// The edges.
    pub fn ridges(&self) -> Vec<Ridge> {
        let mut found = Vec::new();
        for a in 0..self.planes.len() {
            for b in a + 1..self.planes.len() {
                let both = |c: &&Corner| c.planes.contains(&a) && c.planes.contains(&b);
                let shared: Vec<P3> = self.corners.iter().filter(both).map(|c| c.at).collect();
                if let [from, .., to] = shared[..] {
                    found.push(Ridge { tags: [self.planes[a].tag, self.planes[b].tag], line: [from, to] });
                }
            }
        }
        found
    }

    /// Corners of the face of a plane, in their order round it.
    pub(crate) fn face(&self, tag: Tag) -> Vec<P3> {
        let Some(k) = self.planes.iter().position(|p| p.tag == tag) else { return vec![] };
        let normal = self.planes[k].normal;
        let mut ring: Vec<P3> = self.corners.iter().filter(|c| c.planes.contains(&k)).map(|c| c.at).collect();
        if ring.len() < 3 {
            return ring;
        }
        let middle = P3::from(ring.iter().map(|p| p.coords).sum::<V3>() / ring.len() as f64);
        let x = (ring[0] - middle).normalize();
        let y = normal.cross(&x);
        let angle = |p: &P3| (p - middle).dot(&y).atan2((p - middle).dot(&x));
        ring.sort_by(|p, q| angle(p).total_cmp(&angle(q)));
        ring
    }

    /// Area of the face of a plane, mm²; 0 when the plane does not touch the body.
    pub fn face_area(&self, tag: Tag) -> f64 {
        let ring = self.face(tag);
        let fan = ring.windows(2).skip(1).map(|w| (w[0] - ring[0]).cross(&(w[1] - ring[0])));
        fan.sum::<V3>().norm() / 2.0
    }
}

fn add_corner(planes: &[Plane], [a, b, c]: [usize; 3], along: &V3, corners: &mut Vec<Corner>) {
    let (p, q, r) = (&planes[a], &planes[b], &planes[c]);
    let det = along.dot(&r.normal);
    if det.abs() < 1e-9 {
        return;
    }
    let at = (q.normal.cross(&r.normal) * p.offset + r.normal.cross(&p.normal) * q.offset + along * r.offset) / det;
    let at = P3::from(at);
    if planes.iter().any(|plane| plane.excess(&at) > SAME) || corners.iter().any(|k| (k.at - at).norm() < 2.0 * SAME) {
        return;
    }
    let through = (0..planes.len()).filter(|&k| planes[k].excess(&at).abs() <= 3.0 * SAME).collect();
    corners.push(Corner { at, planes: through });
}

/// The convex solid round some points.
pub(crate) fn hull_of(points: &[P3]) -> Manifold {
    let points: Vec<Vec3> = points.iter().map(vec3).collect();
    Manifold::hull(&points)
}

/// A point for the solid library.
pub(crate) fn vec3(p: &P3) -> Vec3 {
    Vec3::new(p.x, p.y, p.z)
}
