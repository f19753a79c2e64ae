//! Pieces and icing bodies as solids.

use crate::hull::{hull_of, vec3};
use gable_plane::{P2, P3, Solid, V3, ring_area};
use gable_shell::{House, Part, Piece, PieceOpening, Solved};
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
        Self::with_holes(piece, &[])
    }

    /// The solids of all pieces of a house, with the holes where guests come through and passages. Windows are closed.
    pub fn of_house(house: &House, solved: &Solved) -> Vec<Self> {
        let holes = |piece: &Piece| house.part(&piece.part).map_or(vec![], |part| holes_of(piece, part));
        solved.pieces.iter().map(|piece| Self::with_holes(piece, &holes(piece))).collect()
    }

    /// The same with holes, rings on both faces.
    pub fn with_holes(piece: &Piece, holes: &[Vec<P2>]) -> Self {
        let whole;
        let piece = if piece.notches.is_empty() {
            piece
        } else {
            whole = without_notches(piece);
            &whole
        };
        let rings = |outline: &[P2]| -> Vec<Vec<P2>> {
            std::iter::once(outline.to_vec()).chain(holes.iter().cloned()).collect()
        };
        let (front, back) = (rings(&piece.outline), rings(&piece.outline_back));
        let at = |rings: &[Vec<P2>], z: f64| -> Vec<P3> {
            rings.iter().flatten().map(|p| piece.house_from_piece * P3::new(p.x, p.y, z)).collect()
        };
        let mut points = at(&front, 0.0);
        let count = points.len();
        points.extend(at(&back, piece.thickness.mm()));
        let triangles = triangles(&front);
        let [flat, flat_back] = [&front, &back].map(|rings| rings.concat());
        let cells = convex_chunks(&triangles, &flat, &flat_back);
        let cells = cells.iter().map(|ring| prism_cell(&points, count, ring)).collect();
        let mut normals = vec![piece.house_from_piece * V3::z()];
        let mut walls = Vec::new();
        let mut first = 0;
        for (k, ring) in front.iter().enumerate() {
            let edges = (0..ring.len()).map(|i| [first + i, first + (i + 1) % ring.len()]);
            walls.extend(edges.map(|[a, b]| if runs_wrong(k, ring) { [b, a] } else { [a, b] }));
            first += ring.len();
        }
        for &[k, next] in &walls {
            let across = (points[next] - points[k]).cross(&(points[count + k] - points[k]));
            normals.extend(across.try_normalize(1e-9));
        }
        let solid = prism_solid(&points, count, &triangles, &walls);
        Self::new(points, normals, cells, solid)
    }

    /// An icing body.
    pub fn of_solid(solid: &Solid) -> Self {
        let points = solid.corners().to_vec();
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
        let normals = solid.faces().map(|f| f.normal).collect();
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

    /// The same body somewhere else.
    pub fn moved(&self, by: &V3) -> Self {
        let put = |list: &[P3]| list.iter().map(|p| p + by).collect::<Vec<_>>();
        let cells = self.cells.iter().map(|c| Cell { points: put(&c.points), edges: c.edges.clone() }).collect();
        let solid = self.solid.translate(vec3(&P3::from(*by)));
        Self { cells, solid, ..Self::new(put(&self.points), self.normals.clone(), Vec::new(), Manifold::empty()) }
    }

    /// How thick what two bodies share is in its thickest lump, mm, by the independent library: twice the volume over the
    /// surface, which is the thickness of a sheet, and a third of the width of a cube.
    pub fn film(&self, other: &Self) -> f64 {
        let lumps = self.solid.intersection(&other.solid).decompose();
        let thickness = |m: &Manifold| if m.surface_area() > 0.0 { 2.0 * m.volume() / m.surface_area() } else { 0.0 };
        lumps.iter().map(thickness).fold(0.0, f64::max)
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

/// Rings of the holes that are not openings of the part's own: where a guest comes through, and passages.
pub(crate) fn holes_of(piece: &Piece, part: &Part) -> Vec<Vec<P2>> {
    let own = |o: &&PieceOpening| part.openings.iter().any(|opening| opening.id == o.id);
    piece.openings.iter().filter(|o| !own(o)).map(|o| o.contour.flatten(0.001)).collect()
}

/// How near to the contour of a door a corner of the outline belongs to it, mm: flattened within 0.005 mm.
const ON_DOOR: f64 = 0.01;

/// The piece with its doors walled up: without the corners that lie on the contour of one.
fn without_notches(piece: &Piece) -> Piece {
    let doors: Vec<Vec<P2>> = piece.notches.iter().map(|n| n.contour.flatten(0.001)).collect();
    let on_door = |p: &P2| doors.iter().any(|ring| to_ring(p, ring) < ON_DOOR);
    let kept: Vec<usize> = (0..piece.outline.len()).filter(|&k| !on_door(&piece.outline[k])).collect();
    let mut whole = piece.clone();
    whole.outline = kept.iter().map(|&k| piece.outline[k]).collect();
    whole.outline_back = kept.iter().map(|&k| piece.outline_back[k]).collect();
    whole
}

fn to_ring(p: &P2, ring: &[P2]) -> f64 {
    let edges = (0..ring.len()).map(|k| (ring[k], ring[(k + 1) % ring.len()]));
    edges.map(|(from, to)| to_edge(p, &from, &to)).fold(f64::INFINITY, f64::min)
}

/// Distance of a point from an edge.
pub(crate) fn to_edge(p: &P2, from: &P2, to: &P2) -> f64 {
    let along = to - from;
    let share = ((p - from).dot(&along) / along.norm_squared().max(1e-18)).clamp(0.0, 1.0);
    (p - (from + along * share)).norm()
}

/// Whether ring k of a flat area must be turned round: the first runs counter-clockwise, holes clockwise.
fn runs_wrong(k: usize, ring: &[P2]) -> bool {
    (ring_area(ring) > 0.0) != (k == 0)
}

/// Triangles of a flat area with holes, as indices into the rings put one after the other.
fn triangles(rings: &[Vec<P2>]) -> Vec<[usize; 3]> {
    if let [ring] = rings
        && convex(ring)
    {
        return (1..ring.len().saturating_sub(1)).map(|k| [0, k, k + 1]).collect();
    }
    // The rim counter-clockwise and holes clockwise, with what place each corner has in its own ring.
    let mut order = Vec::new();
    let mut turned = Vec::new();
    for (k, ring) in rings.iter().enumerate() {
        let first = order.len();
        let wrong = runs_wrong(k, ring);
        let indices = (0..ring.len()).map(|i| first + if wrong { ring.len() - 1 - i } else { i });
        order.extend(indices);
        let corner = |i: usize| ring[if wrong { ring.len() - 1 - i } else { i }];
        turned.push((0..ring.len()).map(|i| Vec2::new(corner(i).x, corner(i).y)).collect());
    }
    let found = triangulate(&turned, -1.0, false);
    found.iter().map(|t| [t.x, t.y, t.z].map(|k| order[k as usize])).collect()
}

/// Joins triangles to convex rings as long as both faces stay convex (in the manner of Hertel and Mehlhorn, 1983).
fn convex_chunks(triangles: &[[usize; 3]], front: &[P2], back: &[P2]) -> Vec<Vec<usize>> {
    let mut chunks: Vec<Vec<usize>> = triangles.iter().map(|t| t.to_vec()).collect();
    let sound = |ring: &[usize]| {
        let face = |points: &[P2]| convex(&ring.iter().map(|&k| points[k]).collect::<Vec<_>>());
        face(front) && face(back)
    };
    let mut a = 0;
    while a < chunks.len() {
        let joined =
            (a + 1..chunks.len()).find_map(|b| Some((b, joined(&chunks[a], &chunks[b])?)).filter(|j| sound(&j.1)));
        if let Some((b, ring)) = joined {
            chunks[a] = ring;
            chunks.remove(b);
        } else {
            a += 1;
        }
    }
    chunks
}

/// Two rings that share an edge as one.
fn joined(a: &[usize], b: &[usize]) -> Option<Vec<usize>> {
    for i in 0..a.len() {
        let (from, to) = (a[i], a[(i + 1) % a.len()]);
        if let Some(j) = (0..b.len()).find(|&j| b[j] == to && b[(j + 1) % b.len()] == from) {
            let mine = (0..a.len()).map(|k| a[(i + 1 + k) % a.len()]);
            let theirs = (2..b.len()).map(|k| b[(j + k) % b.len()]);
            return Some(mine.chain(theirs).collect());
        }
    }
    None
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

fn prism_solid(points: &[P3], count: usize, triangles: &[[usize; 3]], walls: &[[usize; 2]]) -> Manifold {
    let mut faces: Vec<[usize; 3]> = Vec::new();
    for &[a, b, c] in triangles {
        faces.push([a, c, b]);
        faces.push([count + a, count + b, count + c]);
    }
    for &[k, next] in walls {
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
