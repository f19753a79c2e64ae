use gable_plane::P2;
use spade::handles::FixedVertexHandle;
use spade::{ConstrainedDelaunayTriangulation, HasPosition, Point2, Triangulation};
use std::collections::BTreeSet;

/// A corner of a ring and where it stands in the list of all corners.
#[derive(Clone, Copy)]
struct Corner {
    at: Point2<f64>,
    index: usize,
}

impl HasPosition for Corner {
    type Scalar = f64;
    fn position(&self) -> Point2<f64> {
        self.at
    }
}

type Net = ConstrainedDelaunayTriangulation<Corner>;

/// Triangles, counter-clockwise, of what lies inside an odd number of the rings.
///
/// Corners are numbered through all rings in turn. No corner is moved, added or passed over, so that faces
/// made from the same rings fit each other exactly. `None` when rings cross, touch, or are not finite.
pub(crate) fn triangulate(rings: &[Vec<P2>]) -> Option<Vec<[usize; 3]>> {
    let (net, handles) = net_of(rings)?;
    debug_assert_eq!(handles.len(), rings.iter().map(Vec::len).sum::<usize>());
    let inside = inside_faces(&net);
    let corner = |h: FixedVertexHandle| net.vertex(h).data().index;
    let triangle = |f: &spade::handles::FaceHandle<'_, spade::handles::InnerTag, Corner, _, _, _>| {
        f.vertices().map(|v| corner(v.fix()))
    };
    let found = net.inner_faces().filter(|f| inside.contains(&f.fix().index()));
    Some(found.map(|f| triangle(&f)).collect())
}

fn net_of(rings: &[Vec<P2>]) -> Option<(Net, Vec<FixedVertexHandle>)> {
    let mut net = Net::new();
    let mut handles = Vec::new();
    for point in rings.iter().flatten() {
        let known = net.num_vertices();
        let corner = Corner { at: Point2::new(settled(point.x), settled(point.y)), index: handles.len() };
        let handle = net.insert(corner).ok()?;
        if net.num_vertices() == known {
            return None;
        }
        handles.push(handle);
    }
    let mut start = 0;
    for ring in rings {
        for k in 0..ring.len() {
            let (from, to) = (handles[start + k], handles[start + (k + 1) % ring.len()]);
            // One edge per side: more means that a corner of another side lies on it.
            if net.try_add_constraint(from, to).len() != 1 {
                return None;
            }
        }
        start += ring.len();
    }
    Some((net, handles))
}

/// The library refuses numbers below 1e-43 that are not zero.
fn settled(x: f64) -> f64 {
    if x.abs() < 1e-30 { 0.0 } else { x }
}

/// Indices of the faces that are reached from outside by crossing the rings an odd number of times.
fn inside_faces(net: &Net) -> BTreeSet<usize> {
    let outer = net.outer_face().fix();
    let mut seen = BTreeSet::from([outer.index()]);
    let mut inside = BTreeSet::new();
    let mut open: Vec<_> = net.convex_hull().map(|e| (e.fix(), false)).collect();
    while let Some((edge, from_inside)) = open.pop() {
        let edge = net.directed_edge(edge);
        let crossed = edge.as_undirected().is_constraint_edge();
        let other = edge.rev();
        if !seen.insert(other.face().fix().index()) {
            continue;
        }
        let is_inside = from_inside ^ crossed;
        if is_inside {
            inside.insert(other.face().fix().index());
        }
        open.extend([other.next(), other.prev()].map(|e| (e.fix(), is_inside)));
    }
    inside
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(low: f64, high: f64) -> Vec<P2> {
        vec![P2::new(low, low), P2::new(high, low), P2::new(high, high), P2::new(low, high)]
    }

    fn area(rings: &[Vec<P2>]) -> f64 {
        let corners: Vec<P2> = rings.concat();
        let one = |t: &[usize; 3]| gable_plane::ring_area(&t.map(|i| corners[i]));
        triangulate(rings).unwrap().iter().map(one).sum()
    }

    #[test]
    fn a_frame_has_the_area_of_the_difference() {
        assert!((area(&[square(0.0, 10.0), square(2.0, 5.0)]) - 91.0).abs() < 1e-12);
        assert!((area(&[square(0.0, 10.0), square(1.0, 9.0), square(2.0, 5.0)]) - 45.0).abs() < 1e-12);
    }

    #[test]
    fn corners_on_straight_edges_are_kept() {
        let mut ring = square(0.0, 10.0);
        ring.insert(1, P2::new(4.0, 0.0));
        ring.insert(2, P2::new(5.0, 1e-12));
        let triangles = triangulate(&[ring]).unwrap();
        let used: BTreeSet<usize> = triangles.into_iter().flatten().collect();
        assert_eq!(used.len(), 6);
    }

    #[test]
    fn rings_that_cross_or_touch_are_refused() {
        assert!(triangulate(&[square(0.0, 10.0), square(5.0, 15.0)]).is_none());
        assert!(triangulate(&[square(0.0, 10.0), square(0.0, 5.0)]).is_none());
        let bow = vec![P2::new(0.0, 0.0), P2::new(10.0, 10.0), P2::new(10.0, 0.0), P2::new(0.0, 10.0)];
        assert!(triangulate(&[bow]).is_none());
        assert!(triangulate(&[vec![P2::new(f64::NAN, 0.0), P2::new(1.0, 0.0), P2::new(0.0, 1.0)]]).is_none());
    }
}
