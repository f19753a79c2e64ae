//! Pieces and icing bodies as solids.

use crate::hull::{hull_of, vec3};
use gable_plane::{P2, P3, Solid, V3, ring_area};
use gable_shell::Piece;
use manifold_rust::linalg::Vec2;
use manifold_rust::manifold::Manifold;
use manifold_rust::polygon::triangulate;
use manifold_rust::types::MeshGL64;

/// A convex chunk of a body, by corners and edges.
#[derive(Clone, Debug)]
pub(crate) struct Cell {
    pub(crate) points: Vec<P3>,
    pub(crate) edges: Vec<[usize; 2]>,
}

/// A solid in the house, without openings.
#[derive(Clone)]
pub struct Body {
    /// Corners.
    pub points: Vec<P3>,
    /// Directions that may separate it from another body.
    pub normals: Vec<V3>,
    pub(crate) cells: Vec<Cell>,
    pub(crate) low: P3,
    pub(crate) high: P3,
    solid: Manifold,
}

impl Body {
    /// The solid of a piece, from nothing but outline, back outline, thickness and place. Doors are walled up.
    pub fn of_piece(piece: &Piece) -> Self {
        let whole;
        let piece = if piece.notches.is_empty() {
            piece
        } else {
            whole = without_notches(piece);
            &whole
        };
        let count = piece.outline.len();
        let at = |ring: &[P2], z: f64| -> Vec<P3> {
            ring.iter().map(|p| piece.house_from_piece * P3::new(p.x, p.y, z)).collect()
        };
        let mut points = at(&piece.outline, 0.0);
        points.extend(at(&piece.outline_back, piece.thickness.mm()));
        let triangles = triangles(&piece.outline);
        let cells = if convex(&piece.outline) && convex(&piece.outline_back) {
            vec![prism_cell(&points, count, &(0..count).collect::<Vec<_>>())]
        } else {
            triangles.iter().map(|t| prism_cell(&points, count, t)).collect()
        };
        let mut normals = vec![piece.house_from_piece * V3::z()];
        for k in 0..count {
            let next = (k + 1) % count;
            let across = (points[next] - points[k]).cross(&(points[count + k] - points[k]));
            normals.extend(across.try_normalize(1e-9));
        }
        let solid = prism_solid(&points, count, &triangles);
        Self::new(points, normals, cells, solid)
    }

    /// An icing body.
    pub fn of_solid(solid: &Solid) -> Self {
        let points = solid.corners();
        let near = |p: &P3| points.iter().position(|q| (p - q).norm() < 1e-5).unwrap_or(0);
        let mut edges: Vec<[usize; 2]> = Vec::new();
        for face in solid.faces() {
            for (k, p) in face.corners.iter().enumerate() {
                let (from, to) = (near(p), near(&face.corners[(k + 1) % face.corners.len()]));
                edges.push([from.min(to), from.max(to)]);
            }
        }
        edges.sort_unstable();
        edges.dedup();
        let normals = solid.faces().iter().map(|f| f.normal).collect();
        let hull = hull_of(&points);
        Self::new(points.clone(), normals, vec![Cell { points, edges }], hull)
    }

    fn new(points: Vec<P3>, normals: Vec<V3>, cells: Vec<Cell>, solid: Manifold) -> Self {
        let fold = |pick: fn(f64, f64) -> f64, start: f64| {
            points
                .iter()
                .fold(P3::new(start, start, start), |a, p| P3::new(pick(a.x, p.x), pick(a.y, p.y), pick(a.z, p.z)))
        };
        Self {
            low: fold(f64::min, f64::INFINITY),
            high: fold(f64::max, f64::NEG_INFINITY),
            normals,
            cells,
            solid,
            points,
        }
    }

    /// The solid, for the independent library.
    pub fn solid(&self) -> &Manifold {
        &self.solid
    }

    /// Volume by the independent library, mm³.
    pub fn volume(&self) -> f64 {
        self.solid.volume()
    }

    /// How far the body reaches in a direction: lowest and highest.
    pub fn reach(&self, direction: &V3) -> (f64, f64) {
        let along = self.points.iter().map(|p| direction.dot(&p.coords));
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| (low.min(x), high.max(x)))
    }

    /// Volume shared with another, mm³, by the independent library.
    pub fn shared(&self, other: &Self) -> f64 {
        self.solid.intersection(&other.solid).volume()
    }

    /// Whether some face direction of either proves that they share less than a skin of `skin` mm.
    pub fn apart(&self, other: &Self, skin: f64) -> bool {
        let boxes = (0..3).any(|i| self.low[i] > other.high[i] - skin || other.low[i] > self.high[i] - skin);
        boxes
            || self.normals.iter().chain(&other.normals).any(|n| {
                let ((low, high), (from, to)) = (self.reach(n), other.reach(n));
                low > to - skin || from > high - skin
            })
    }

    /// The body grown by `by` mm, a little less between the 14 directions of a ball that are used.
    pub fn grown(&self, by: f64) -> Manifold {
        let frame = self.normals.first().copied().unwrap_or_else(V3::z);
        let x = if frame.x.abs() < 0.9 { V3::x() } else { V3::y() };
        let (x, y) = (frame.cross(&x).normalize(), frame.cross(&frame.cross(&x).normalize()));
        let mut steps = vec![x, -x, y, -y, frame, -frame];
        for sign in 0..8 {
            let pick = |bit: u8, v: V3| if sign & bit == 0 { v } else { -v };
            steps.push((pick(1, x) + pick(2, y) + pick(4, frame)) / 3.0_f64.sqrt());
        }
        let cloud = |cell: &Cell| {
            let around = cell.points.iter().flat_map(|p| steps.iter().map(move |s| p + s * by));
            hull_of(&around.collect::<Vec<_>>())
        };
        self.cells.iter().map(cloud).reduce(|a, b| a.union(&b)).unwrap_or_else(Manifold::empty)
    }
}

/// Whether a ring turns left all the way.
pub(crate) fn convex(ring: &[P2]) -> bool {
    let count = ring.len();
    (0..count).all(|k| {
        let (a, b, c) = (ring[k], ring[(k + 1) % count], ring[(k + 2) % count]);
        let (u, v) = (b - a, c - b);
        u.perp(&v) >= -1e-9 * u.norm().max(1e-6) * v.norm().max(1e-6) - 1e-9
    }) && ring_area(ring) > 0.0
}

/// The piece with its outline's hollows filled up.
fn without_notches(piece: &Piece) -> Piece {
    let ring = &piece.outline;
    let on_rim = |k: &usize| {
        let p = ring[*k];
        // A corner is on the rim when all others lie within less than half a turn as seen from it.
        let seen = ring.iter().map(|q| q - p).filter(|v| v.norm() > 1e-9).map(|v| v.y.atan2(v.x));
        let mut seen: Vec<f64> = seen.collect();
        seen.sort_by(f64::total_cmp);
        let wrap = seen.first().zip(seen.last()).map(|(first, last)| first + std::f64::consts::TAU - last);
        let widest = seen.windows(2).map(|w| w[1] - w[0]).chain(wrap).fold(0.0, f64::max);
        widest >= std::f64::consts::PI - 1e-9
    };
    let kept: Vec<usize> = (0..ring.len()).filter(on_rim).collect();
    let mut whole = piece.clone();
    whole.outline = kept.iter().map(|&k| ring[k]).collect();
    whole.outline_back = kept.iter().map(|&k| piece.outline_back[k]).collect();
    whole
}

fn triangles(ring: &[P2]) -> Vec<[usize; 3]> {
    if convex(ring) {
        return (1..ring.len().saturating_sub(1)).map(|k| [0, k, k + 1]).collect();
    }
    let ring = ring.iter().map(|p| Vec2::new(p.x, p.y)).collect();
    let found = triangulate(&vec![ring], -1.0, false);
    found.iter().map(|t| [t.x as usize, t.y as usize, t.z as usize]).collect()
}

fn prism_cell(points: &[P3], count: usize, ring: &[usize]) -> Cell {
    let size = ring.len();
    let mut edges = Vec::new();
    for k in 0..size {
        edges.extend([[k, (k + 1) % size], [size + k, size + (k + 1) % size], [k, size + k]]);
    }
    let both = ring.iter().map(|&k| points[k]).chain(ring.iter().map(|&k| points[count + k]));
    Cell { points: both.collect(), edges }
}

fn prism_solid(points: &[P3], count: usize, triangles: &[[usize; 3]]) -> Manifold {
    let mut faces: Vec<[usize; 3]> = Vec::new();
    for &[a, b, c] in triangles {
        faces.push([a, c, b]);
        faces.push([count + a, count + b, count + c]);
    }
    for k in 0..count {
        let next = (k + 1) % count;
        faces.push([k, next, count + next]);
        faces.push([k, count + next, count + k]);
    }
    let corners = points.iter().map(vec3).flat_map(|p| [p.x, p.y, p.z]);
    Manifold::from_mesh_gl64(&MeshGL64 {
        num_prop: 3,
        vert_properties: corners.collect(),
        tri_verts: faces.iter().flatten().map(|&k| k as u64).collect(),
        ..MeshGL64::default()
    })
}
