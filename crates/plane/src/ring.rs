use crate::P2;

/// Signed area inside a closed ring, mm²: positive when it runs counter-clockwise.
pub fn ring_area(ring: &[P2]) -> f64 {
    let Some(origin) = ring.first() else { return 0.0 };
    let cross = |a: &P2, b: &P2| (a - origin).perp(&(b - origin));
    ring.windows(2).map(|w| cross(&w[0], &w[1])).sum::<f64>() / 2.0
}

/// Centre of area of a closed ring; the mean of its corners when it encloses nothing.
pub fn ring_centroid(ring: &[P2]) -> P2 {
    let Some(origin) = ring.first() else { return P2::origin() };
    let (mut sum, mut twice) = (crate::V2::zeros(), 0.0);
    for w in ring.windows(2) {
        let (a, b) = (w[0] - origin, w[1] - origin);
        let cross = a.perp(&b);
        sum += (a + b) * cross / 3.0;
        twice += cross;
    }
    if twice.abs() < f64::EPSILON {
        let mean = ring.iter().fold(crate::V2::zeros(), |s, p| s + p.coords);
        return P2::from(mean / ring.len() as f64);
    }
    origin + sum / twice
}

/// Lowest and highest corner of the box round some points; `None` without points.
pub fn bounds<'a>(points: impl IntoIterator<Item = &'a P2>) -> Option<(P2, P2)> {
    points.into_iter().fold(None, |found, p| {
        let (low, high) = found.unwrap_or((*p, *p));
        Some((P2::from(low.coords.inf(&p.coords)), P2::from(high.coords.sup(&p.coords))))
    })
}

/// Whether a point lies inside a simple ring; either for a point on it.
pub fn ring_contains(ring: &[P2], p: P2) -> bool {
    let crosses = |k: &usize| {
        let (a, b) = (ring[*k], ring[(k + 1) % ring.len()]);
        (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)
    };
    (0..ring.len()).filter(crosses).count() % 2 == 1
}

/// Convex hull, counter-clockwise, without corners that lie on its edges or on each other: an edge between two points
/// that differ by rounding alone would have any direction.
pub fn convex_hull(points: &[P2]) -> Vec<P2> {
    let mut sorted: Vec<P2> = Vec::new();
    for p in points {
        if sorted.iter().all(|q| (p - q).norm() > crate::SAME_POINT) {
            sorted.push(*p);
        }
    }
    // Points of one upright line must come in the order of y, whatever rounding (or the sign of a zero) does to their x.
    let column = |p: &P2, all: &[P2]| {
        all.iter().map(|q| q.x).filter(|x| (x - p.x).abs() <= crate::SAME_POINT).fold(p.x, f64::min)
    };
    let mut keyed: Vec<(f64, P2)> = sorted.iter().map(|p| (column(p, &sorted) + 0.0, *p)).collect();
    keyed.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.y.total_cmp(&b.1.y)));
    let sorted: Vec<P2> = keyed.into_iter().map(|(_, p)| p).collect();
    let chain = |points: &mut dyn Iterator<Item = &P2>| {
        let mut chain: Vec<P2> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..] {
                if (b - a).perp(&(p - b)) > crate::SAME_POINT * crate::SAME_POINT {
                    break;
                }
                chain.pop();
            }
            chain.push(*p);
        }
        chain.pop();
        chain
    };
    let mut hull = chain(&mut sorted.iter());
    hull.extend(chain(&mut sorted.iter().rev()));
    hull
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sign_of_a_zero_does_not_cost_a_corner() {
        for x in [-0.0, 0.0, -1e-15, 1e-15] {
            let points = [(x, 156.7), (0.0, 0.0), (0.0, 159.6), (5.9, 0.0), (5.9, 159.6)];
            let points: Vec<P2> = points.iter().map(|&(x, y)| P2::new(x, y)).collect();
            assert!((ring_area(&convex_hull(&points)) - 5.9 * 159.6).abs() < 1e-9, "{x}");
        }
    }

    #[test]
    fn the_hull_of_points_that_differ_by_rounding_has_no_stray_edge() {
        let points = [(0.0, 0.0), (2.0, 0.0), (1.0, 0.5), (2.0, 1.0), (2.0 + 1e-12, 1.0 - 1e-12), (0.0, 1.0)];
        let points: Vec<P2> = points.iter().map(|&(x, y)| P2::new(x, y)).collect();
        let hull = convex_hull(&points);
        assert_eq!(hull.len(), 4);
        assert!((ring_area(&hull) - 2.0).abs() < 1e-9);
    }
}
