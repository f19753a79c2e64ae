//! Glazing bars as lines to pipe along.

use gable_plane::{P2, V2};
use gable_shell::{Bars, Opening};

/// Height of a diamond over its width (common practice, no source).
const DIAMOND: f64 = 1.5;

/// The lines within the ring of an opening, in its own coordinates. `low` and `high` are the box round it.
pub(crate) fn lines(opening: &Opening, ring: &[P2], (low, high): (P2, P2)) -> Vec<[P2; 2]> {
    let size = high - low;
    let far = size.norm();
    let whole: Vec<[P2; 2]> = match opening.glazing.bars {
        Bars::None => Vec::new(),
        Bars::Grid { across, up } => {
            let uprights = shares(across).map(|s| low.x + size.x * s);
            let rails = shares(up).map(|s| low.y + size.y * s);
            let uprights = uprights.map(|x| [P2::new(x, low.y - 1.0), P2::new(x, high.y + 1.0)]);
            uprights.chain(rails.map(|y| [P2::new(low.x - 1.0, y), P2::new(high.x + 1.0, y)])).collect()
        }
        Bars::Diamond { across } => {
            let width = size.x / f64::from(across.max(1));
            let slope = V2::new(1.0, DIAMOND).normalize() * far * 2.0;
            let middle = (low.x + high.x) / 2.0;
            let count = i32::from(across) * 4 + (size.y / width / DIAMOND).ceil() as i32 * 2;
            let through = move |k: i32, way: V2| {
                let on = P2::new(middle + f64::from(k) * width + width / 2.0, low.y);
                [on - way, on + way]
            };
            let count = count.min(400);
            (-count..=count).flat_map(|k| [through(k, slope), through(k, V2::new(-slope.x, slope.y))]).collect()
        }
        Bars::Fan { rays } => fan(opening, rays, low, high),
    };
    whole.iter().flat_map(|line| within(line, ring)).collect()
}

/// The inner ones of the ends of equal shares.
fn shares(count: u8) -> impl Iterator<Item = f64> {
    (1..count).map(move |k| f64::from(k) / f64::from(count))
}

/// Rays from the middle of the springing line, which has a bar of its own, or of the foot where there is no head.
fn fan(opening: &Opening, rays: u8, low: P2, high: P2) -> Vec<[P2; 2]> {
    let far = (high - low).norm();
    let head = opening.shape.head(opening.width).map(|h| h.mm()).filter(|h| *h < high.y - low.y - 1e-6);
    let origin = P2::new((low.x + high.x) / 2.0, head.map_or(low.y, |h| high.y - h));
    let ray = |s: f64| {
        let (sin, cos) = (std::f64::consts::PI * s).sin_cos();
        [origin, origin + V2::new(cos, sin) * far]
    };
    let transom = head.map(|_| [P2::new(low.x - 1.0, origin.y), P2::new(high.x + 1.0, origin.y)]);
    shares(rays).map(ray).chain(transom).collect()
}

/// The stretches of a line within a ring.
pub(crate) fn within(&[a, b]: &[P2; 2], ring: &[P2]) -> Vec<[P2; 2]> {
    /// Shorter stretches are not piped, mm.
    const SHORTEST: f64 = 0.5;
    let along = b - a;
    let mut cuts: Vec<f64> = (0..ring.len())
        .filter_map(|k| {
            let (p, q) = (ring[k], ring[(k + 1) % ring.len()]);
            let (side_p, side_q) = (along.perp(&(p - a)), along.perp(&(q - a)));
            if (side_p > 0.0) == (side_q > 0.0) {
                return None;
            }
            let on = p + (q - p) * (side_p / (side_p - side_q));
            Some((on - a).dot(&along) / along.norm_squared())
        })
        .collect();
    cuts.sort_by(f64::total_cmp);
    let kept = |pair: &[f64]| {
        let (from, to) = (pair[0].max(0.0), pair[1].min(1.0));
        ((to - from) * along.norm() > SHORTEST).then(|| [a + along * from, a + along * to])
    };
    cuts.chunks_exact(2).filter_map(kept).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_measure::Length;
    use gable_shell::{Glazing, Shape};

    fn lengths(shape: Shape, bars: Bars, width: f64, height: f64) -> Vec<f64> {
        let mm = Length::mm_of;
        let mut opening = Opening { shape, width: mm(width), height: mm(height), ..Opening::default() };
        opening.glazing = Glazing { bars, ..Glazing::default() };
        let contour = opening.shape.contour(P2::origin(), P2::new(width, height)).unwrap();
        let found = lines(&opening, &contour.flatten(0.001), (P2::origin(), P2::new(width, height)));
        found.iter().map(|[a, b]| (b - a).norm()).collect()
    }

    /// Closed forms: a chord of a circle of radius r at distance d is 2 √(r² - d²) long.
    #[test]
    fn bars_end_at_the_opening() {
        let grid = lengths(Shape::Circle, Bars::Grid { across: 3, up: 1 }, 60.0, 60.0);
        let chord = 2.0 * (900.0f64 - 100.0).sqrt();
        assert!(grid.len() == 2 && grid.iter().all(|l| (l - chord).abs() < 0.01), "{grid:?}");
        let fan = lengths(Shape::Fanlight, Bars::Fan { rays: 4 }, 60.0, 30.0);
        assert!(fan.len() == 3 && fan.iter().all(|l| (l - 30.0).abs() < 0.01), "{fan:?}");
        // A square of 30 with three diamonds: of the lines of slope 3 : 2, 10 apart, two each way go from foot to head.
        let diamonds = lengths(Shape::Rectangle, Bars::Diamond { across: 3 }, 30.0, 30.0);
        assert!(diamonds.iter().all(|l| *l <= 30.0 * 3.25f64.sqrt() / 1.5 + 1e-9), "{diamonds:?}");
        let whole = diamonds.iter().filter(|l| (**l - 30.0 * 3.25f64.sqrt() / 1.5).abs() < 1e-9).count();
        assert_eq!(whole, 4, "{diamonds:?}");
    }
}
