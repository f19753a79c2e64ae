use crate::P2;

/// Signed area inside a closed ring, mm²: positive when it runs counter-clockwise.
pub fn ring_area(ring: &[P2]) -> f64 {
    let Some(origin) = ring.first() else { return 0.0 };
    let cross = |a: &P2, b: &P2| (a - origin).perp(&(b - origin));
    ring.windows(2).map(|w| cross(&w[0], &w[1])).sum::<f64>() / 2.0
}

/// Length all round a closed ring, mm.
pub fn ring_length(ring: &[P2]) -> f64 {
    (0..ring.len()).map(|i| (ring[(i + 1) % ring.len()] - ring[i]).norm()).sum()
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

/// Convex hull, counter-clockwise, without corners that lie on its edges.
pub fn convex_hull(points: &[P2]) -> Vec<P2> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
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
