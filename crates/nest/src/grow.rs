use gable_plane::{P2, V2, ring_area};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::simplify::SimplifyShape;
use std::f64::consts::FRAC_PI_3;

/// How far corners reach over the strips beside them, as a share of the distance.
const LAP: f64 = 1e-3;

/// A ring with everything within `distance` of it: the ring itself, a strip along each edge, and round each corner that
/// points outwards a polygon *about* the circle, so that the result is never too small (at most 15.5 % of the distance
/// too large, at corners only). Holes that close are lost. Counter-clockwise.
pub(crate) fn grown(ring: &[P2], distance: f64) -> Vec<P2> {
    let mut ring = ring.to_vec();
    if ring_area(&ring) < 0.0 {
        ring.reverse();
    }
    if distance <= 0.0 {
        return ring;
    }
    let count = ring.len();
    let out = |k: usize| {
        let along = (ring[(k + 1) % count] - ring[k % count]).normalize();
        V2::new(along.y, -along.x) * distance
    };
    let mut loops = vec![plain(&ring)];
    for k in 0..count {
        let (here, next, side) = (ring[k], ring[(k + 1) % count], out(k));
        loops.push(plain(&[here, here + side, next + side, next]));
        let turn = side.perp(&out(k + 1)).atan2(side.dot(&out(k + 1)));
        if turn > 0.0 {
            loops.push(plain(&corner(next, side, turn)));
        }
    }
    let shapes = loops.simplify_shape_as::<i64>(FillRule::NonZero);
    let rims = shapes.into_iter().filter_map(|shape| shape.into_iter().next());
    let rims = rims.map(|ring| ring.into_iter().map(P2::from).collect::<Vec<_>>());
    let largest = rims.max_by(|a, b| ring_area(a).abs().total_cmp(&ring_area(b).abs()));
    let mut largest = largest.unwrap_or(ring);
    if ring_area(&largest) < 0.0 {
        largest.reverse();
    }
    largest
}

/// The corner, and points on the tangents of the circle round it: `side` is the radius at which the edge before ends.
fn corner(at: P2, side: V2, turn: f64) -> Vec<P2> {
    let steps = (turn / FRAC_PI_3).ceil().max(1.0);
    let step = turn / steps;
    let reach = 1.0 / (step / 2.0).cos();
    let turned = |angle: f64| nalgebra::Rotation2::new(angle) * side;
    let quarter = |v: V2| V2::new(-v.y, v.x);
    let end = turned(turn);
    // A little over the strips on both sides, so that no slit stays open between them.
    let mut points = vec![at - (side + end) * LAP, at + side - quarter(side) * LAP];
    points.extend((0..steps as usize).map(|k| at + turned(step * (k as f64 + 0.5)) * reach));
    points.push(at + end + quarter(end) * LAP);
    points
}

fn plain(ring: &[P2]) -> Vec<[f64; 2]> {
    ring.iter().map(|p| [p.x, p.y]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Vec<P2> {
        [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(|(x, y)| P2::new(x, y)).to_vec()
    }

    /// Closed form: between the Steiner formula A + P r + pi r² and the same with corners 15.5 % too far out.
    #[test]
    fn a_grown_square_holds_the_round_one() {
        let area = ring_area(&grown(&square(), 2.0));
        let round = 100.0 + 80.0 + std::f64::consts::PI * 4.0;
        assert!(area >= round && area <= round + 4.0 * 0.155 * 4.0, "{area} {round}");
    }

    #[test]
    fn nothing_to_grow_leaves_the_ring() {
        assert_eq!(grown(&square(), 0.0), square());
    }
}
