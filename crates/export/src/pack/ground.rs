//! Where a label may stand without lying on a line.

use super::clip::Window;
use gable_plane::{P2, V2, bounds};

/// The inside of an outline within a window, less what stands there already.
pub(super) struct Ground {
    outline: Vec<P2>,
    window: Window,
    blocked: Vec<Vec<P2>>,
}

impl Ground {
    /// The part of the inside of `outline` that lies in `window`.
    pub(super) fn new(outline: Vec<P2>, window: Window) -> Self {
        Self { outline, window, blocked: Vec::new() }
    }

    /// Keeps an area (three corners or more) or a line (two) free.
    pub(super) fn block(&mut self, ring: Vec<P2>) {
        self.blocked.push(ring);
    }

    /// All that is kept free, in the order in which it was said.
    pub(super) fn kept_free(&self) -> impl Iterator<Item = &Vec<P2>> {
        self.blocked.iter()
    }

    /// Whether a convex area touches no line and nothing that stands there.
    pub(super) fn is_free(&self, quad: &[P2]) -> bool {
        quad.iter().all(|p| self.window.holds(p) && inside(p, &self.outline))
            && !crosses(quad, &self.outline)
            && self.blocked.iter().all(|b| {
                // Most of them are far away.
                !boxes_meet(quad, b)
                    || !crosses(quad, b)
                        && !b.first().is_some_and(|p| inside(p, quad))
                        && !quad.first().is_some_and(|p| inside(p, b))
            })
    }

    /// Whether a line runs inside the outline and over nothing that stands there; its end may be on a rim.
    pub(super) fn is_clear(&self, start: P2, end: P2) -> bool {
        let line = [start, end + (start - end) * (PAST_RIM / (start - end).norm().max(PAST_RIM))];
        let met = |ring: &[P2]| crosses(&line, ring) || (ring.len() > 2 && inside(&start, ring));
        line.iter().all(|p| self.window.holds(p) && inside(p, &self.outline))
            && !crosses(&line, &self.outline)
            && !self.blocked.iter().any(|b| met(b))
    }

    /// Lower left corner of a free upright rectangle of a size, as near the middle as possible.
    pub(super) fn place(&self, size: V2) -> Option<P2> {
        let (low, high) = self.reach()?;
        self.place_near(size, low + (high - low) / 2.0, |_| true)
    }

    /// Box round the outline, as far as the window shows it.
    fn reach(&self) -> Option<(P2, P2)> {
        let (low, high) = bounds(&self.outline)?;
        let low = P2::from(low.coords.sup(&self.window.low.coords));
        Some((low, P2::from(high.coords.inf(&self.window.high.coords))))
    }

    /// The same, its middle as near a point as possible, where the place pleases.
    pub(super) fn place_near(&self, size: V2, near: P2, pleases: impl Fn(P2) -> bool) -> Option<P2> {
        let (low, high) = self.reach()?;
        let room = high - low - size;
        if room.x < 0.0 || room.y < 0.0 {
            return None;
        }
        let steps = room.map(|r| (r / STEP).ceil().clamp(1.0, MOST_STEPS));
        let goal = near - size / 2.0;
        let mut places = Vec::new();
        for i in 0..=steps.x as u32 {
            for j in 0..=steps.y as u32 {
                places.push(low + V2::new(room.x * f64::from(i) / steps.x, room.y * f64::from(j) / steps.y));
            }
        }
        places.sort_by(|a, b| (a - goal).norm().total_cmp(&(b - goal).norm()));
        places.into_iter().find(|p| self.is_free(&rectangle(*p, size)) && pleases(*p))
    }
}

/// How far a line to a rim ends before it where crossings are counted, mm.
const PAST_RIM: f64 = 0.4;
/// Distance of the places that are tried, mm, and how many there are at most each way.
const STEP: f64 = 2.5;
const MOST_STEPS: f64 = 48.0;

/// Corners of an upright rectangle.
pub(super) fn rectangle(low: P2, size: V2) -> [P2; 4] {
    [low, low + V2::new(size.x, 0.0), low + size, low + V2::new(0.0, size.y)]
}

/// Even-odd rule; nothing is inside a line.
pub(super) fn inside(p: &P2, ring: &[P2]) -> bool {
    let mut found = false;
    for k in 0..ring.len() {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y) {
            found = !found;
        }
    }
    found
}

/// Whether edges of two rings, or of a line and a ring, meet.
fn crosses(one: &[P2], other: &[P2]) -> bool {
    fn edges(ring: &[P2]) -> impl Iterator<Item = [P2; 2]> {
        (0..ring.len()).map(move |k| [ring[k], ring[(k + 1) % ring.len()]])
    }
    edges(other).filter(|e| boxes_meet(one, e)).any(|[c, d]| edges(one).any(|[a, b]| meet(&a, &b, &c, &d)))
}

/// Whether the boxes round points meet.
fn boxes_meet(one: &[P2], other: &[P2]) -> bool {
    let beyond = |a: &[P2], b: &[P2], of: fn(&P2) -> f64| {
        let most = a.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        b.iter().all(|p| of(p) > most)
    };
    let apart = |of: fn(&P2) -> f64| beyond(one, other, of) || beyond(other, one, of);
    !apart(|p| p.x) && !apart(|p| p.y)
}

fn meet(a: &P2, b: &P2, c: &P2, d: &P2) -> bool {
    let side = |p: &P2, q: &P2, r: &P2| (q - p).perp(&(r - p));
    side(a, b, c) * side(a, b, d) <= 0.0 && side(c, d, a) * side(c, d, b) <= 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: lines that only lie on one line do not meet, lines that touch do.
    #[test]
    fn edges_meet_where_they_have_a_point_in_common() {
        let line = |from: [f64; 2], to: [f64; 2]| [P2::from(from), P2::from(to)];
        let level = line([0.0, 5.0], [10.0, 5.0]);
        assert!(!crosses(&level, &line([11.0, 5.0], [20.0, 5.0])));
        assert!(!crosses(&level, &line([3.0, 6.0], [3.0, 20.0])));
        assert!(crosses(&level, &line([3.0, 5.0], [3.0, 20.0])));
        assert!(crosses(&level, &line([3.0, -5.0], [3.0, 20.0])));
        assert!(crosses(&level, &square(7.0)) && !crosses(&line([8.0, 5.0], [9.0, 5.0]), &square(7.0)));
    }

    fn square(side: f64) -> Vec<P2> {
        rectangle(P2::origin(), V2::new(side, side)).to_vec()
    }

    #[test]
    fn a_label_keeps_off_openings_and_out_of_corners_it_does_not_fit() {
        let window = Window { low: P2::new(-1.0, -1.0), high: P2::new(101.0, 101.0) };
        let mut ground = Ground::new(square(100.0), window);
        let size = V2::new(40.0, 20.0);
        assert_eq!(ground.place(size), Some(P2::new(30.0, 40.0)));
        ground.block(rectangle(P2::new(45.0, 45.0), V2::new(10.0, 10.0)).to_vec());
        let at = ground.place(size).unwrap();
        assert!(at.y >= 55.0 - 1e-9 || at.y <= 25.0 + 1e-9 || at.x >= 55.0 - 1e-9 || at.x <= 5.0 + 1e-9);
        ground.block(vec![P2::new(0.0, 0.0), P2::new(100.0, 100.0)]);
        ground.block(vec![P2::new(0.0, 100.0), P2::new(100.0, 0.0)]);
        assert_eq!(ground.place(V2::new(90.0, 50.0)), None);
    }
}
