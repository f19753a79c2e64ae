use super::laid::{Laid, Slab};
use super::shades::Chance;
use gable_plane::P2;

/// Points along one tongue.
const STEPS: usize = 10;
/// How far up the shortest tongue ends, against the longest.
const SHORT: f64 = 0.55;

/// A blanket along v = 0 whose upper rim runs in tongues up to `depth`.
pub(crate) fn lay(depth: f64, tongue: f64, low: P2, high: P2, chance: &mut Chance) -> Laid {
    let width = high.x - low.x;
    let tongues = (width / tongue).round().clamp(1.0, 2000.0);
    let step = width / tongues;
    let mut ring = vec![P2::new(low.x, low.y), P2::new(high.x, low.y)];
    for k in (0..tongues as usize).rev() {
        let height = depth * (SHORT + (1.0 - SHORT) * chance.share());
        let rise = depth * SHORT / 2.0;
        for i in (0..=STEPS).rev() {
            let share = i as f64 / STEPS as f64;
            let x = low.x + (k as f64 + share) * step;
            let y = low.y + rise + (height - rise) * (std::f64::consts::PI * share).sin();
            ring.push(P2::new(x, y));
        }
    }
    ring.dedup_by(|a, b| (*a - *b).norm() < 1e-9);
    Laid { slabs: vec![Slab { ring, convex: false, covered: 0.0, whole: true }], lines: Vec::new() }
}
