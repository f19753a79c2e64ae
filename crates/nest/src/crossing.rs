use gable_plane::P2;

/// Whether two edges of a ring meet that are not neighbours.
pub(crate) fn crosses_itself(ring: &[P2]) -> bool {
    let count = ring.len();
    let edge = |k: usize| [ring[k], ring[(k + 1) % count]];
    let neighbours = |a: usize, b: usize| a + 1 == b || (a == 0 && b + 1 == count);
    (0..count).any(|a| (a + 1..count).any(|b| !neighbours(a, b) && distance(edge(a), edge(b)) == 0.0))
}

/// Least distance of two segments, mm; 0 when they meet.
pub(crate) fn distance(a: [P2; 2], b: [P2; 2]) -> f64 {
    if meet(a, b) {
        return 0.0;
    }
    let ends = [to_segment(a[0], b), to_segment(a[1], b), to_segment(b[0], a), to_segment(b[1], a)];
    ends.into_iter().fold(f64::INFINITY, f64::min)
}

fn meet(a: [P2; 2], b: [P2; 2]) -> bool {
    let side = |s: [P2; 2], p: P2| (s[1] - s[0]).perp(&(p - s[0]));
    let (a0, a1, b0, b1) = (side(b, a[0]), side(b, a[1]), side(a, b[0]), side(a, b[1]));
    a0 * a1 < 0.0 && b0 * b1 < 0.0
}

fn to_segment(p: P2, segment: [P2; 2]) -> f64 {
    let along = segment[1] - segment[0];
    let square = along.norm_squared();
    let share = if square > 0.0 { ((p - segment[0]).dot(&along) / square).clamp(0.0, 1.0) } else { 0.0 };
    (p - (segment[0] + along * share)).norm()
}
