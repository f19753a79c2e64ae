use crate::Body;
use crate::region::Region;
use crate::triangulate::triangulate;
use gable_measure::Length;
use gable_plane::{P2, P3, SAME_POINT, Solid, convex_hull};
use gable_shell::Piece;

/// How far the chords of round openings may be off the arc where only who lies before whom matters, mm.
pub(crate) const CHORD: f64 = 0.2;

/// The piece as convex bodies in piece coordinates, cut openings left free.
///
/// A bevelled piece with openings is covered by hulls that may share slivers along the cuts between them; the
/// hulls never reach past the hull of the piece.
pub fn chunks_of(piece: &Piece) -> Vec<Body> {
    chunk_solids(piece, CHORD).iter().map(Body::of).collect()
}

/// The same, round openings and notches within `tolerance`: the bodies reach past the biscuit by no more than that.
pub fn chunks_within(piece: &Piece, tolerance: Length) -> Vec<Body> {
    chunk_solids(piece, tolerance.mm()).iter().map(Body::of).collect()
}

/// The same as solids in piece coordinates, as fine as [`chunks_of`].
pub fn solids_of(piece: &Piece) -> Vec<Solid> {
    chunk_solids(piece, CHORD)
}

/// The convex bodies as solids.
pub(crate) fn chunk_solids(piece: &Piece, tolerance: f64) -> Vec<Solid> {
    let thickness = piece.thickness.mm();
    let region = Region::of(piece, tolerance).with_coarse_notches(tolerance);
    let front: Vec<P2> = region.front.concat();
    let back: Vec<P2> = region.back.concat();
    let lifted = |flat: &[P2], corners: &[usize], z: f64| -> Vec<P3> {
        corners.iter().map(|&i| P3::new(flat[i].x, flat[i].y, z)).collect()
    };
    let prism = |corners: &Vec<usize>| Solid::prism(&lifted(&front, corners, 0.0), &lifted(&back, corners, thickness));
    convex_parts(&region.front).iter().map(prism).collect()
}

/// Splits what the rings enclose into convex polygons, given by their corners. Rings that touch or cross give the hull of
/// the first one: too much rather than nothing.
///
/// Triangles are put together again as long as the result stays convex, the longest common side first. That takes at
/// most four times the least number of parts (Hertel and Mehlhorn 1983, from memory).
pub(crate) fn convex_parts(rings: &[Vec<P2>]) -> Vec<Vec<usize>> {
    let corners: Vec<P2> = rings.concat();
    if let [ring] = rings
        && is_convex(&corners, &(0..ring.len()).collect::<Vec<_>>())
    {
        return vec![(0..ring.len()).collect()];
    }
    let Some(triangles) = triangulate(rings) else { return vec![hull(rings.first().map_or(&[], |ring| ring))] };
    let mut parts: Vec<Vec<usize>> = triangles.into_iter().map(Vec::from).collect();
    let length = |[a, b]: [usize; 2]| (corners[b] - corners[a]).norm();
    let mut sides: Vec<[usize; 2]> = parts.iter().flat_map(|t| sides_of(t)).filter(|[a, b]| a < b).collect();
    sides.sort_by(|s, t| length(*t).total_cmp(&length(*s)).then(s.cmp(t)));
    for side in sides {
        join_over(&corners, &mut parts, side);
    }
    parts
}

/// Numbers of the corners of a ring that lie on its convex hull.
fn hull(ring: &[P2]) -> Vec<usize> {
    convex_hull(ring).iter().filter_map(|p| ring.iter().position(|q| p == q)).collect()
}

fn sides_of(part: &[usize]) -> Vec<[usize; 2]> {
    (0..part.len()).map(|k| [part[k], part[(k + 1) % part.len()]]).collect()
}

fn join_over(corners: &[P2], parts: &mut Vec<Vec<usize>>, [a, b]: [usize; 2]) {
    let find = |from: usize, to: usize| parts.iter().position(|p| sides_of(p).contains(&[from, to]));
    let (Some(left), Some(right)) = (find(a, b), find(b, a)) else { return };
    if left == right {
        return;
    }
    let from = |part: &[usize], start: usize| -> Vec<usize> {
        let at = part.iter().position(|&i| i == start).unwrap_or(0);
        part[at..].iter().chain(&part[..at]).copied().collect()
    };
    // From b round to a in one, from a round to b in the other; the ends are shared.
    let mut joined = from(&parts[left], b);
    joined.extend(from(&parts[right], a).into_iter().skip(1));
    joined.pop();
    if is_convex(corners, &joined) {
        parts[left.min(right)] = joined;
        parts.remove(left.max(right));
    }
}

/// Whether a counter-clockwise ring turns left, or goes straight on, at every corner.
fn is_convex(corners: &[P2], part: &[usize]) -> bool {
    let count = part.len();
    (0..count).all(|k| {
        let [p, q, r] = [0, 1, 2].map(|d| corners[part[(k + d) % count]]);
        let long = (r - q).norm().max((q - p).norm());
        (q - p).perp(&(r - q)) >= -SAME_POINT * long
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::ring_area;

    #[test]
    fn a_ring_that_touches_itself_still_takes_room() {
        let corners = [(0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (4.0, 3.0), (4.0, 5.0), (8.0, 4.0), (8.0, 8.0), (0.0, 8.0)];
        let ring: Vec<P2> = corners.iter().map(|&(x, y)| P2::new(x, y)).collect();
        assert_eq!(convex_parts(&[ring]), [[0, 1, 6, 7]]);
    }

    #[test]
    fn an_l_is_two_parts_and_a_frame_four() {
        let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 4.0), (0.0, 4.0)];
        let ell: Vec<P2> = corners.iter().map(|&(x, y)| P2::new(x, y)).collect();
        assert_eq!(convex_parts(&[ell]).len(), 2);
        let ring =
            |low: f64, high: f64| vec![P2::new(low, low), P2::new(high, low), P2::new(high, high), P2::new(low, high)];
        let frame = [ring(0.0, 10.0), ring(3.0, 7.0).into_iter().rev().collect()];
        let parts = convex_parts(&frame);
        assert!(parts.len() <= 5, "{}", parts.len());
        let corners = frame.concat();
        let area = |p: &Vec<usize>| ring_area(&p.iter().map(|&i| corners[i]).collect::<Vec<_>>());
        assert!((parts.iter().map(area).sum::<f64>() - 84.0).abs() < 1e-9);
    }
}
