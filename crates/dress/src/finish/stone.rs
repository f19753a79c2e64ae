//! Rubble stone: cells round points that have been moved to the middles of their cells a few times.

use super::border::{Border, Clipped, Kept};
use super::shades::Chance;
use gable_plane::{ClipLine, ConvexPolygon, P2, ring_centroid};
use spade::{DelaunayTriangulation, Point2, Triangulation};

/// How often points move to the middles of their cells: more makes a honeycomb, less leaves splinters.
const ROUNDS: usize = 5;
/// Area of a usual stone over the square of its width.
const FULLNESS: f64 = 0.8;

/// The stones of a face, cut to it, and the middles of the mortar between them.
pub(crate) struct Rubble {
    pub(crate) stones: Vec<Clipped>,
    pub(crate) lines: Vec<[P2; 2]>,
}

/// Stones of a usual width, mm, with mortar between.
pub(crate) fn lay(border: &Border, size: f64, joint: f64, chance: &mut Chance) -> Rubble {
    let mut points = scattered(border, size, chance);
    for _ in 0..ROUNDS {
        let around = neighbours(&points);
        let moved = (0..points.len()).map(|k| middle(border, cell(&points, &around[k], k, 0.0)).unwrap_or(points[k]));
        points = moved.collect();
    }
    let around = neighbours(&points);
    let mut rubble = Rubble { stones: Vec::new(), lines: Vec::new() };
    for (k, around) in around.iter().enumerate() {
        if let Some(stone) = cell(&points, around, k, joint / 2.0) {
            rubble.stones.extend(largest(border, &stone));
        }
        let Some(edges) = cell(&points, around, k, 0.0) else { continue };
        // Each line once, from the point with the lower number.
        for (from, to, _) in edges.edges().filter(|e| e.2.is_some_and(|other| other > k)) {
            rubble.lines.extend(border.spans(from, to));
        }
    }
    rubble
}

/// Points on the face, one in each square of a loose grid.
fn scattered(border: &Border, size: f64, chance: &mut Chance) -> Vec<P2> {
    let (low, high) = border.bounds();
    let step = size * FULLNESS.sqrt();
    let (columns, rows) = (((high.x - low.x) / step).ceil() as usize, ((high.y - low.y) / step).ceil() as usize);
    let mut points = Vec::new();
    for row in 0..rows.max(1) {
        for column in 0..columns.max(1) {
            let (x, y) = (column as f64 + 0.15 + 0.7 * chance.share(), row as f64 + 0.15 + 0.7 * chance.share());
            let p = P2::new(low.x + x * step, low.y + y * step);
            if border.contains(p) {
                points.push(p);
            }
        }
    }
    points
}

/// For each point those whose cells touch its own.
fn neighbours(points: &[P2]) -> Vec<Vec<usize>> {
    let mut around = vec![Vec::new(); points.len()];
    let mut net: DelaunayTriangulation<Point2<f64>> = DelaunayTriangulation::new();
    let mut numbers = Vec::new();
    for (k, p) in points.iter().enumerate() {
        // A point on another one gets no cell.
        if let Ok(vertex) = net.insert(Point2::new(p.x, p.y))
            && vertex.index() == numbers.len()
        {
            numbers.push(k);
        }
    }
    for edge in net.undirected_edges() {
        let [a, b] = edge.vertices().map(|v| numbers[v.index()]);
        around[a].push(b);
        around[b].push(a);
    }
    for list in &mut around {
        list.sort_unstable();
    }
    around
}

/// The cell of a point, drawn in from its neighbours; each edge knows its neighbour.
fn cell(points: &[P2], around: &[usize], own: usize, inset: f64) -> Option<ConvexPolygon<Option<usize>>> {
    /// Farther than any face.
    const REACH: f64 = 1e5;
    let point = points[own];
    let lines = around.iter().filter_map(|&other| {
        let normal = (points[other] - point).try_normalize(1e-9)?;
        let halfway = nalgebra::center(&points[other], &point);
        Some(ClipLine { normal, offset: normal.dot(&halfway.coords) - inset, label: Some(other) })
    });
    ConvexPolygon::within(REACH, None, &lines.collect::<Vec<_>>())
}

/// Middle of what a cell has on the face.
fn middle(border: &Border, cell: Option<ConvexPolygon<Option<usize>>>) -> Option<P2> {
    let shape = largest(border, &cell?)?;
    Some(ring_centroid(&shape.rim)).filter(|p| border.contains(*p))
}

/// The largest part of a cell that lies on the face.
fn largest(border: &Border, cell: &ConvexPolygon<Option<usize>>) -> Option<Clipped> {
    match border.clip(&cell.corners, true) {
        Kept::Whole => Some(Clipped { rim: cell.corners.clone(), holes: Vec::new() }),
        Kept::Parts(parts) => parts.into_iter().max_by(|a, b| a.area().total_cmp(&b.area())),
    }
}
