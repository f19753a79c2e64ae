//! Triangles over a piece.
//!
//! Points are set out by us and joined by a library (`spade`, which the project triangulates faces with already: constrained Delaunay
//! with exact predicates). They are set out on an even net of equal triangles, finer about corners that point inwards, blunt corners of held
//! sides and ends of held lines, where stress grows without end, instead of
//! by the library's refinement: sizes stay even, the number of points is known before, and the same piece has the same mesh.

use super::{BendError, Held, Shape};
use gable_plane::{P2, V2, bounds, ring_contains};
use spade::{ConstrainedDelaunayTriangulation, Point2, Triangulation};

/// Points and triangles, counter-clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    /// In the plane of the piece, mm.
    pub points: Vec<P2>,
    /// Corners of each triangle, as indices into `points`.
    pub triangles: Vec<[usize; 3]>,
    /// About how far neighbours are apart where it is not finer, mm.
    pub size: f64,
    /// Distance of neighbours at each point, mm.
    pub(super) sizes: Vec<f64>,
}

/// A corner that points into biscuit by more than this is refined about, as the sine of the turn: 17°.
const SHARP: f64 = 0.3;
/// A corner counts as blunt from 100° on, as the cosine of the turn.
const BLUNT: f64 = 0.174;
/// From so many such corners, and ends of held lines, on they are refined about less.
const MANY: usize = 30;
/// Points of the net stay away from edges, and from points of held lines, by this share of the distance of neighbours.
const CLEAR: f64 = 0.5;
/// A point this near to a held line, as a share of the distance of neighbours, counts as on it.
const ON_LINE: f64 = 0.4;
/// Largest difference of area between piece and triangles, as a share.
const LOST: f64 = 0.01;

/// How far apart points are where.
struct Sizes {
    size: f64,
    corners: Vec<P2>,
    finest: u32,
}

impl Sizes {
    fn new(shape: &Shape, held: &[Held], size: f64) -> Self {
        let ends = held.iter().flat_map(|h| [h.from, h.to]);
        let ends = ends.filter(|p| shape.contains(*p) && shape.edge_distance_above(*p, CLEAR * size));
        let mut corners: Vec<P2> = shape.rings.iter().flat_map(|ring| inward_corners(ring)).collect();
        corners.extend(ends);
        corners.extend(shape.rings.iter().flat_map(|ring| blunt_corners(ring, held, CLEAR * size)));
        let finest = if corners.len() > MANY { 1 } else { 2 };
        Self { size, corners, finest }
    }

    /// How often the size is halved at a point.
    fn level(&self, p: P2) -> u32 {
        let near = self.corners.iter().map(|c| (p - c).norm_squared()).fold(f64::INFINITY, f64::min).sqrt() / self.size;
        let level = if near < 0.6 {
            2
        } else if near < 1.4 {
            1
        } else {
            0
        };
        level.min(self.finest)
    }

    fn of_level(&self, level: u32) -> f64 {
        self.size / f64::from(1 << level)
    }

    fn at(&self, p: P2) -> f64 {
        self.of_level(self.level(p))
    }

    /// Points along a segment, its start but not its end.
    fn along(&self, from: P2, to: P2, into: &mut Vec<P2>) {
        let (length, middle) = ((to - from).norm(), nalgebra::center(&from, &to));
        let size = [from, middle, to].map(|p| self.at(p)).into_iter().fold(f64::INFINITY, f64::min);
        let near = |p: &P2| (p - middle).norm() < length / 2.0 + 1.4 * self.size;
        if length <= 1.2 * size {
            into.push(from);
        } else if self.corners.iter().any(near) {
            self.along(from, middle, into);
            self.along(middle, to, into);
        } else {
            let steps = (length / self.size).ceil().max(1.0) as usize;
            into.extend((0..steps).map(|k| from + (to - from) * (k as f64 / steps as f64)));
        }
    }
}

/// Corners of a ring that point into biscuit, which lies on its left.
fn inward_corners(ring: &[P2]) -> impl Iterator<Item = P2> + '_ {
    let count = ring.len();
    let inward = move |k: &usize| {
        let (a, b, c) = (ring[(k + count - 1) % count], ring[*k], ring[(k + 1) % count]);
        let (before, after) = (b - a, c - b);
        let turn = before.perp(&after) / (before.norm() * after.norm());
        turn < -SHARP || (turn < 0.0 && before.dot(&after) < 0.0)
    };
    (0..count).filter(inward).map(move |k| ring[k])
}

/// Corners of a ring that are wider than a right angle and held on both sides: there too moments grow without end (Williams, 1952).
fn blunt_corners<'a>(ring: &'a [P2], held: &'a [Held], near: f64) -> impl Iterator<Item = P2> + 'a {
    let count = ring.len();
    let is_held = move |p: P2| held.iter().any(|h| h.from != h.to && h.distance(p) <= near);
    let blunt = move |k: &usize| {
        let (a, b, c) = (ring[(k + count - 1) % count], ring[*k], ring[(k + 1) % count]);
        let (before, after) = (b - a, c - b);
        let turn = before.perp(&after) / (before.norm() * after.norm());
        let wide = turn > SHARP && before.dot(&after) > BLUNT * before.norm() * after.norm();
        wide && is_held(nalgebra::center(&a, &b)) && is_held(nalgebra::center(&b, &c))
    };
    (0..count).filter(blunt).map(move |k| ring[k])
}

impl Mesh {
    /// Covers a shape with triangles about so large, with points along what is held.
    ///
    /// # Errors
    /// When the triangles do not cover the shape: its rings cross or touch.
    pub fn of(shape: &Shape, held: &[Held], size: f64) -> Result<Self, BendError> {
        let sizes = Sizes::new(shape, held, size);
        let (mut points, edges) = rim(&with_ends(shape, held, &sizes), &sizes);
        for held in held {
            lines(shape, held, &sizes, &mut points);
        }
        net(shape, &sizes, &mut points);
        let mesh = joined(shape, points, edges, &sizes)?;
        let area: f64 = mesh.triangles.iter().map(|t| area(t.map(|k| mesh.points[k]))).sum();
        let wanted = shape.area();
        if wanted > 0.0 && (area - wanted).abs() <= LOST * wanted { Ok(mesh) } else { Err(BendError::Mesh) }
    }

    /// The corners of the triangle that a point lies in, with its area coordinates; the nearest point for one outside.
    pub(super) fn shares(&self, p: P2) -> Vec<(usize, f64)> {
        for triangle in &self.triangles {
            let [a, b, c] = triangle.map(|k| self.points[k]);
            let shares = [[p, b, c], [a, p, c], [a, b, p]].map(|t| area(t) / area([a, b, c]));
            if shares.iter().all(|s| *s >= -1e-9) {
                return triangle.iter().copied().zip(shares).collect();
            }
        }
        super::solve::nearest(&self.points, p).map(|k| (k, 1.0)).into_iter().collect()
    }

    /// The points that lie on what is held.
    pub(super) fn on<'a>(&'a self, held: &'a Held) -> impl Iterator<Item = usize> + 'a {
        (0..self.points.len()).filter(|&k| held.distance(self.points[k]) <= ON_LINE * self.sizes[k])
    }
}

fn area([a, b, c]: [P2; 3]) -> f64 {
    (b - a).perp(&(c - a)) / 2.0
}

/// The rings with a corner wherever something held ends at an edge.
fn with_ends(shape: &Shape, held: &[Held], sizes: &Sizes) -> Shape {
    let ends: Vec<P2> = held.iter().flat_map(|h| [h.from, h.to]).collect();
    let split = |ring: &Vec<P2>| {
        let mut all = Vec::new();
        for (k, from) in ring.iter().enumerate() {
            let way = ring[(k + 1) % ring.len()] - from;
            let length = way.norm();
            let at_edge = |p: &&P2| distance_to(**p, *from, from + way) < ON_LINE * sizes.at(**p);
            let mut cuts: Vec<f64> = ends.iter().filter(at_edge).map(|p| (p - from).dot(&way) / length).collect();
            cuts.sort_by(f64::total_cmp);
            all.push(*from);
            let mut last = 0.0;
            for cut in cuts {
                let p = from + way * (cut / length);
                let clear = ON_LINE * sizes.at(p);
                if cut - last > clear && length - cut > clear {
                    all.push(p);
                    last = cut;
                }
            }
        }
        all
    };
    Shape { rings: shape.rings.iter().map(split).collect() }
}

/// Points and edges of the rings.
fn rim(shape: &Shape, sizes: &Sizes) -> (Vec<P2>, Vec<[usize; 2]>) {
    let (mut points, mut edges) = (Vec::new(), Vec::new());
    for ring in &shape.rings {
        let start = points.len();
        for (k, from) in ring.iter().enumerate() {
            sizes.along(*from, ring[(k + 1) % ring.len()], &mut points);
        }
        let count = points.len() - start;
        edges.extend((0..count).map(|k| [start + k, start + (k + 1) % count]));
    }
    (points, edges)
}

/// Points along what is held inside the shape, unless there are others as near as makes no difference.
fn lines(shape: &Shape, held: &Held, sizes: &Sizes, points: &mut Vec<P2>) {
    let mut own = Vec::new();
    if held.from != held.to {
        sizes.along(held.from, held.to, &mut own);
    }
    own.push(held.to);
    for p in own {
        let clear = ON_LINE * sizes.at(p);
        if shape.contains(p) && points.iter().all(|q| (p - q).norm_squared() > clear * clear) {
            points.push(p);
        }
    }
}

/// The net inside, finest first.
fn net(shape: &Shape, sizes: &Sizes, points: &mut Vec<P2>) {
    let Some((low, high)) = bounds(shape.rings.iter().flatten()) else { return };
    let fixed = points.len();
    for level in (0..=sizes.finest).rev() {
        let size = sizes.of_level(level);
        let (row, clear) = (size * 0.75_f64.sqrt(), CLEAR * size);
        let near_finer = |p: P2| points_near(&sizes.corners, p, 3.0 * sizes.size);
        let finer: Vec<P2> = points[fixed..].to_vec();
        let rows = ((high.y - low.y) / row) as usize;
        for j in 0..=rows {
            let y = low.y + (j as f64 + 0.5) * row;
            let shift = if j % 2 == 0 { 0.25 } else { 0.75 };
            let columns = ((high.x - low.x) / size) as usize;
            for i in 0..=columns {
                let p = P2::new(low.x + (i as f64 + shift) * size, y);
                let free = |q: &P2| (p - q).norm_squared() > (0.65 * size).powi(2);
                if sizes.level(p) == level
                    && shape.contains(p)
                    && points[..fixed].iter().all(free)
                    && (!near_finer(p) || finer.iter().all(free))
                    && shape.edge_distance_above(p, clear)
                {
                    points.push(p);
                }
            }
        }
    }
}

fn points_near(corners: &[P2], p: P2, distance: f64) -> bool {
    corners.iter().any(|c| (p - c).norm_squared() < distance * distance)
}

/// Joins points to triangles and keeps those inside.
fn joined(shape: &Shape, points: Vec<P2>, edges: Vec<[usize; 2]>, sizes: &Sizes) -> Result<Mesh, BendError> {
    let whole = |v: f64| if v.abs() < 1e-9 { 0.0 } else { v };
    let vertices = points.iter().map(|p| Point2::new(whole(p.x), whole(p.y))).collect();
    let mut crossed = false;
    let net = ConstrainedDelaunayTriangulation::<Point2<f64>>::try_bulk_load_cdt(vertices, edges, |_| crossed = true)
        .map_err(|_| BendError::Mesh)?;
    if crossed {
        return Err(BendError::Mesh);
    }
    let all: Vec<P2> = net.vertices().map(|v| P2::new(v.position().x, v.position().y)).collect();
    let corners = net.inner_faces().map(|f| f.vertices().map(|v| v.fix().index()));
    let tiny = sizes.size * sizes.size * 1e-6;
    let inside = |t: &[usize; 3]| {
        let [a, b, c] = t.map(|k| all[k]);
        area([a, b, c]) > tiny && shape.contains(P2::from((a.coords + b.coords + c.coords) / 3.0))
    };
    let mut triangles: Vec<[usize; 3]> = corners.filter(inside).collect();
    let mut number = vec![usize::MAX; all.len()];
    let mut points = Vec::new();
    for corner in triangles.iter_mut().flatten() {
        if number[*corner] == usize::MAX {
            number[*corner] = points.len();
            points.push(all[*corner]);
        }
        *corner = number[*corner];
    }
    let (size, sizes) = (sizes.size, points.iter().map(|p| sizes.at(*p)).collect());
    Ok(Mesh { points, triangles, size, sizes })
}

impl Shape {
    /// Whether a point lies inside: in an odd number of rings.
    pub(super) fn contains(&self, p: P2) -> bool {
        self.rings.iter().filter(|ring| ring_contains(ring, p)).count() % 2 == 1
    }

    /// Distance of a point from the nearest edge, mm.
    pub(super) fn edge_distance(&self, p: P2) -> f64 {
        self.edges().map(|(a, b)| distance_to(p, a, b)).fold(f64::INFINITY, f64::min)
    }

    fn edge_distance_above(&self, p: P2, distance: f64) -> bool {
        self.edges().all(|(a, b)| distance_to(p, a, b) > distance)
    }

    fn edges(&self) -> impl Iterator<Item = (P2, P2)> + '_ {
        self.rings.iter().flat_map(|ring| (0..ring.len()).map(|k| (ring[k], ring[(k + 1) % ring.len()])))
    }
}

/// Distance of a point from a segment, mm.
pub(super) fn distance_to(p: P2, a: P2, b: P2) -> f64 {
    let way: V2 = b - a;
    let length = way.norm_squared();
    let share = if length > 0.0 { ((p - a).dot(&way) / length).clamp(0.0, 1.0) } else { 0.0 };
    (p - (a + way * share)).norm()
}
