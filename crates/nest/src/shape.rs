use crate::grow::grown;
use crate::pose::Pose;
use crate::{Item, Placed, Turns};
use gable_plane::{P2, V2, bounds, ring_area};
use jagua_rs::collision_detection::CDEConfig;
use jagua_rs::geometry::fail_fast::SPSurrogateConfig;
use jagua_rs::geometry::geo_traits::TransformableFrom;
use jagua_rs::geometry::primitives::{Point, SPolygon};
use jagua_rs::geometry::shape_modification::{ShapeModifyMode, simplify_shape};
use nalgebra::{Isometry2, Vector2};
use std::sync::Arc;

/// More than was asked for, between pieces, mm: what single precision may lose on a sheet of a metre or two.
const SPARE: f64 = 0.01;
/// Sheets are grown by this, mm, because the library takes touching for a collision.
const TOUCH: f64 = 0.001;
/// Circles inside a shape, by which overlaps are measured: enough of them to cover nine tenths.
const CIRCLES: [(usize, f32); 3] = [(64, 0.0), (16, 0.8), (8, 0.9)];
/// Circles that are enough to see soon that two shapes collide. What collides is the same with any of them, but finding circles takes
/// longer than a first layout.
const FEW: [(usize, f32); 3] = [(4, 0.0), (2, 0.6), (1, 0.9)];
/// Share of the area whose circles are tried first, and lines tried with them.
const FIRST: (f32, usize) = (0.6, 0);
/// What the library sees of a piece is smaller by about this, mm, so that pieces may touch.
pub(crate) const HAIR: f64 = 0.001;
/// Corners nearer than this to the line of their neighbours are left out of a shape for the search, mm.
const STRAIGHT: f64 = 1e-4;

/// Corners are left out, outwards, while a shape's area grows by no more than this share: the search looks at every edge.
const PLAINER: f32 = 0.005;

fn circles(limits: [(usize, f32); 3]) -> SPSurrogateConfig {
    SPSurrogateConfig { n_pole_limits: limits, ff_pole_area_ratio: FIRST.0, n_ff_piers: FIRST.1 }
}

pub(crate) fn engine() -> CDEConfig {
    CDEConfig { quadtree_depth: 4, cd_threshold: 16, item_surrogate_config: circles(CIRCLES) }
}

/// A piece made ready to be laid: grown by half the gap, about its own middle.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    base: Arc<SPolygon>,
    /// Its origin in the item's coordinates, mm.
    origin: V2,
    pub(crate) turns: Turns,
    /// How much an overlap of it counts, from its size.
    pub(crate) weight: f32,
    /// Area with the gap round it, mm².
    pub(crate) area: f64,
    /// Directions of its longer edges, radians: turned back by one of them, the edge is level.
    pub(crate) edges: Vec<f32>,
}

impl Shape {
    /// None when the outline is not simple or has no area.
    pub(crate) fn new(item: &Item, gap: f64) -> Option<Self> {
        let spare = if gap > 0.0 { SPARE } else { 0.0 };
        let ring = prepared(item.outline(), (gap + spare) / 2.0)?;
        let (low, high) = bounds(&ring)?;
        let origin = nalgebra::center(&low, &high).coords;
        // Drawn in towards the middle: edges that face away from it, as nearly all do, move in by no more than a hair.
        let shrunk = 1.0 - HAIR / (high - low).norm();
        let ring_in: Vec<P2> = ring.iter().map(|p| P2::from(origin + (p.coords - origin) * shrunk)).collect();
        let mut base = polygon(&ring_in, origin)?;
        if gap > 0.0 {
            base = simplify_shape(&base, ShapeModifyMode::Inflate, PLAINER);
        }
        base.generate_surrogate(circles(FEW)).ok()?;
        let weight = base.surrogate().convex_hull_area.sqrt();
        let area = ring_area(&ring);
        Some(Self { base: Arc::new(base), origin, turns: item.turns(), weight, area, edges: directions(&ring) })
    }

    /// The same with the circles by which the search measures overlaps; none when there is no room for any in it.
    pub(crate) fn measurable(&self) -> Option<Self> {
        let mut base = self.copy();
        base.generate_surrogate(circles(CIRCLES)).ok()?;
        Some(Self { base: Arc::new(base), ..self.clone() })
    }

    /// A shape to be laid where it is needed, again and again.
    pub(crate) fn copy(&self) -> SPolygon {
        self.base.as_ref().clone()
    }

    /// Lays a copy of this shape at a pose.
    pub(crate) fn lay(&self, copy: &mut SPolygon, pose: Pose) {
        copy.transform_from(&self.base, &pose.transformation());
    }

    pub(crate) fn laid(&self, pose: Pose) -> SPolygon {
        let mut copy = self.copy();
        self.lay(&mut copy, pose);
        copy
    }

    /// The corners of the shape turned by an angle, about its origin.
    pub(crate) fn corners(&self) -> &[Point] {
        self.base.vertices()
    }

    pub(crate) fn diameter(&self) -> f32 {
        self.base.diameter()
    }

    /// The pose of the search as a placing in double precision.
    pub(crate) fn placed(&self, item: usize, pose: Pose) -> Placed {
        let shift = Vector2::new(f64::from(pose.x), f64::from(pose.y));
        let turn = Isometry2::new(shift, quarter(pose.turn));
        Placed { item, sheet_from_item: turn * Isometry2::new(-self.origin, 0.0) }
    }
}

/// The angle in double precision; quarter turns exactly.
fn quarter(turn: f32) -> f64 {
    let quarters = turn / std::f32::consts::FRAC_PI_2;
    if (quarters - quarters.round()).abs() < 1e-6 {
        f64::from(quarters.round()) * std::f64::consts::FRAC_PI_2
    } else {
        f64::from(turn)
    }
}

/// What a sheet leaves to the grown shapes.
#[derive(Clone, Debug)]
pub(crate) struct Outer {
    pub(crate) polygon: Arc<SPolygon>,
    /// Area of the sheet, grown as the shapes are, mm².
    pub(crate) area: f64,
}

impl Outer {
    /// None when the outline is not simple or has no area.
    pub(crate) fn new(outline: &[P2], gap: f64) -> Option<Self> {
        let spare = if gap > 0.0 { SPARE } else { 0.0 };
        let simple = checked(outline)?;
        let ring = pushed_out(&simple, (gap + spare) / 2.0 + TOUCH);
        let polygon = Arc::new(polygon(&ring, V2::zeros())?);
        Some(Self { polygon, area: ring_area(&ring) })
    }
}

/// The sheet's ring with every edge pushed out and corners kept sharp, when it is convex; otherwise grown, which is less.
fn pushed_out(ring: &[P2], distance: f64) -> Vec<P2> {
    let count = ring.len();
    let edge = |k: usize| (ring[(k + 1) % count] - ring[k % count]).normalize();
    if (0..count).any(|k| edge(k).perp(&edge(k + 1)) < 0.0) {
        return grown(ring, 0.9 * distance);
    }
    let corner = |k: usize| {
        let (a, b) = (edge(k + count - 1), edge(k));
        let (na, nb) = (V2::new(a.y, -a.x), V2::new(b.y, -b.x));
        ring[k] + (na + nb) * (distance / (1.0 + na.dot(&nb)))
    };
    (0..count).map(corner).collect()
}

fn prepared(outline: &[P2], distance: f64) -> Option<Vec<P2>> {
    Some(without_straight(grown(&checked(outline)?, distance)))
}

/// The outline counter-clockwise and without repeated corners, if it is simple and has area.
fn checked(outline: &[P2]) -> Option<Vec<P2>> {
    if outline.iter().any(|p| !(p.x.is_finite() && p.y.is_finite())) {
        return None;
    }
    let mut ring = without_straight(outline.to_vec());
    let area = ring_area(&ring);
    if ring.len() < 3 || area.abs() < 1e-6 || crate::crossing::crosses_itself(&ring) {
        return None;
    }
    if area < 0.0 {
        ring.reverse();
    }
    Some(ring)
}

fn without_straight(mut ring: Vec<P2>) -> Vec<P2> {
    let needless = |ring: &[P2], k: usize| {
        let count = ring.len();
        let (before, here, after) = (ring[(k + count - 1) % count], ring[k], ring[(k + 1) % count]);
        let along = after - before;
        let length = along.norm();
        let off = if length > 0.0 { (here - before).perp(&along).abs() / length } else { f64::INFINITY };
        (here - before).norm() < STRAIGHT || (off < STRAIGHT && (here - before).dot(&along) > 0.0)
    };
    while let Some(k) = (0..ring.len()).find(|&k| ring.len() > 3 && needless(&ring, k)) {
        ring.remove(k);
    }
    ring
}

fn polygon(ring: &[P2], origin: V2) -> Option<SPolygon> {
    let point = |p: &P2| Point((p.x - origin.x) as f32, (p.y - origin.y) as f32);
    SPolygon::new(ring.iter().map(point).collect()).ok()
}

/// Directions of edges at least a quarter as long as the longest, each once.
fn directions(ring: &[P2]) -> Vec<f32> {
    let edges: Vec<V2> = (0..ring.len()).map(|k| ring[(k + 1) % ring.len()] - ring[k]).collect();
    let longest = edges.iter().map(|e| e.norm()).fold(0.0, f64::max);
    let mut found: Vec<f32> = Vec::new();
    for edge in edges.iter().filter(|e| e.norm() > 0.25 * longest) {
        let direction = edge.y.atan2(edge.x) as f32;
        if found.iter().all(|d| (d - direction).abs() > 1e-3) {
            found.push(direction);
        }
    }
    found
}
