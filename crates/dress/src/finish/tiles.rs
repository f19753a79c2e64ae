use super::laid::{Laid, Slab};
use gable_plane::P2;
use gable_shell::TileShape;

/// Steps of a rounded tail; on a tile of 20 mm the arc is 0.03 mm off.
const STEPS: usize = 12;
/// How much of the exposure a pointed tail takes at most, and how much longer every second staggered tile is.
const POINT: f64 = 0.5;
const STAGGER: f64 = 0.3;

/// Sizes of tiles, mm.
pub(crate) struct Tiles {
    pub(crate) shape: TileShape,
    pub(crate) width: f64,
    pub(crate) length: f64,
    pub(crate) exposure: f64,
}

impl Tiles {
    /// Tail of a tile: points from its left to its right side, heights over its lowest point.
    fn tail(&self, second: bool) -> Vec<P2> {
        let (w, e) = (self.width, self.exposure);
        match self.shape {
            TileShape::Square => vec![P2::new(0.0, 0.0), P2::new(w, 0.0)],
            TileShape::Staggered => {
                let y = if second { e * STAGGER } else { 0.0 };
                vec![P2::new(0.0, y), P2::new(w, y)]
            }
            TileShape::Pointed => {
                let h = (w / 2.0).min(e * POINT);
                vec![P2::new(0.0, h), P2::new(w / 2.0, 0.0), P2::new(w, h)]
            }
            TileShape::Rounded => arch(w, (w / 2.0).min(e)),
        }
    }

    /// What shows of the tile whose tail starts at a point: its own tail below, those of the two tiles above it on top.
    fn shown(&self, at: P2, second: bool, left_above_second: bool) -> Vec<P2> {
        let (w, e) = (self.width, self.exposure);
        let mut ring: Vec<P2> = self.tail(second).iter().map(|p| at + p.coords).collect();
        let above = |from: f64, second: bool| {
            let half = self.tail(second).into_iter().map(move |p| P2::new(at.x + from + p.x, at.y + e + p.y));
            half.filter(|p| p.x > at.x - 1e-9 && p.x < at.x + w + 1e-9).rev().collect::<Vec<P2>>()
        };
        ring.extend(with_middle(above(w / 2.0, !left_above_second), at.x + w, at.x + w / 2.0));
        ring.extend(with_middle(above(-w / 2.0, left_above_second), at.x + w / 2.0, at.x));
        without_repeats(ring)
    }
}

/// An arch through both ends of a width, its lowest point so far below them.
fn arch(width: f64, height: f64) -> Vec<P2> {
    let half = width / 2.0;
    let radius = (half * half + height * height) / (2.0 * height);
    let point = |k: usize| {
        let reach = (half / radius).min(1.0).asin();
        let reach = if height >= half { std::f64::consts::FRAC_PI_2 } else { reach };
        let angle = -reach + 2.0 * reach * k as f64 / STEPS as f64;
        P2::new(half + radius * angle.sin(), radius - radius * angle.cos())
    };
    (0..=STEPS).map(point).collect()
}

/// A chain that runs from right to left, with points exactly at both ends of its stretch.
fn with_middle(chain: Vec<P2>, right: f64, left: f64) -> Vec<P2> {
    let flat = |x: f64, other: Option<&P2>| P2::new(x, other.map_or(0.0, |p| p.y));
    let mut out = Vec::with_capacity(chain.len() + 2);
    if chain.first().is_none_or(|p| right - p.x > 1e-9) {
        out.push(flat(right, chain.first()));
    }
    out.extend(chain.iter().copied());
    if chain.last().is_none_or(|p| p.x - left > 1e-9) {
        out.push(flat(left, chain.last()));
    }
    out
}

fn without_repeats(ring: Vec<P2>) -> Vec<P2> {
    let mut out: Vec<P2> = Vec::with_capacity(ring.len());
    for p in ring {
        if out.last().is_none_or(|q| (p - q).norm() > 1e-9) {
            out.push(p);
        }
    }
    while out.len() > 1 && (out[0] - out[out.len() - 1]).norm() <= 1e-9 {
        out.pop();
    }
    out
}

/// Courses from v = 0 up, symmetric to u = 0.
pub(crate) fn lay(tiles: &Tiles, low: P2, high: P2) -> Laid {
    let (w, e) = (tiles.width, tiles.exposure);
    let mut laid = Laid::default();
    let courses = ((low.y / e).floor() as i64 - 1, (high.y / e).ceil() as i64);
    for course in courses.0..courses.1 {
        let shift = if course.rem_euclid(2) == 0 { 0.0 } else { w / 2.0 };
        let columns = (((low.x - shift) / w).floor() as i64 - 1, ((high.x - shift) / w).ceil() as i64 + 1);
        let y = course as f64 * e;
        for column in columns.0..columns.1 {
            let at = P2::new(column as f64 * w + shift, y);
            // Each course begins with the longer tile at an even column; the one above it is half a tile to the right
            // of an even course, and half a tile to the left of an odd one.
            let left_above = if course.rem_euclid(2) == 0 { column - 1 } else { column };
            let ring = tiles.shown(at, column.rem_euclid(2) == 1, left_above.rem_euclid(2) == 1);
            let convex = tiles.shape == TileShape::Square;
            laid.slabs.push(Slab { ring, convex, covered: (tiles.length - e).max(0.0), whole: true });
        }
        laid.lines.push([P2::new(low.x, y), P2::new(high.x, y)]);
    }
    laid
}
