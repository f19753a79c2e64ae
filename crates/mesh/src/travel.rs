//! How the parts of a house come away from each other before they fold flat, each beside the others.

use crate::Body;
use gable_plane::{P3, V3};

/// Shares of the way in which parts rise and move over; in the rest they unfold and come down.
const RISEN: f64 = 0.2;
const OVER: f64 = 0.5;
/// Room between two parts in the air and on the table, mm: a finger's width.
pub(crate) const ROOM: f64 = 12.0;
/// Films that parts share where they touch, mm.
const FILM: f64 = 1e-3;

/// The way of one part in a house of several: up, over to its own place, and down while it unfolds.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Travel {
    /// How far it rises, mm.
    rise: f64,
    /// How far it moves, level.
    over: V3,
}

/// An upright box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bounds {
    pub(crate) low: P3,
    pub(crate) high: P3,
}

/// What is known of a part before its way is.
pub(crate) struct Traveller {
    /// Its pieces as they stand.
    pub(crate) standing: Vec<Body>,
    /// Box round all that it reaches while it unfolds where it stands.
    pub(crate) unfolding: Bounds,
}

impl Travel {
    /// Where the part is at `u`, from 0 (standing) to 1 (flat).
    pub(crate) fn at(&self, u: f64) -> V3 {
        let share = |from: f64, to: f64| ((u - from) / (to - from)).clamp(0.0, 1.0);
        let height = self.rise * (share(0.0, RISEN) - share(OVER, 1.0));
        self.over * share(RISEN, OVER) + V3::z() * height
    }

    /// How far the part has unfolded at `u`.
    pub(crate) fn unfolded(u: f64) -> f64 {
        ((u - OVER) / (1.0 - OVER)).clamp(0.0, 1.0)
    }
}

impl Bounds {
    /// The box round some points; `None` without any.
    pub(crate) fn of(points: impl Iterator<Item = P3>) -> Option<Self> {
        let join = |a: Self, b: Self| Self {
            low: a.low.coords.inf(&b.low.coords).into(),
            high: a.high.coords.sup(&b.high.coords).into(),
        };
        points.map(|p| Self { low: p, high: p }).reduce(join)
    }

    fn of_bodies(bodies: &[Body]) -> Option<Self> {
        Self::of(bodies.iter().flat_map(|b| b.corners().iter().copied()))
    }

    /// Width and depth.
    pub(crate) fn plan(&self) -> (f64, f64) {
        (self.high.x - self.low.x, self.high.y - self.low.y)
    }

    fn apart(&self, other: &Self, axis: usize, slack: f64) -> bool {
        self.low[axis] >= other.high[axis] - slack || other.low[axis] >= self.high[axis] - slack
    }

    /// Whether this box, moved evenly by `way`, comes to share more than a film with the other, moved evenly by `other_way`.
    ///
    /// Seen from the other box it moves by the difference; per axis they meet for one stretch of the time.
    fn meets_moving(&self, way: &V3, other: &Self, other_way: &V3) -> bool {
        let step = way - other_way;
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for axis in 0..3 {
            let (enter, leave) = (other.low[axis] - self.high[axis], other.high[axis] - self.low[axis]);
            if step[axis].abs() < 1e-12 {
                if enter >= -FILM || leave <= FILM {
                    return false;
                }
                continue;
            }
            let (a, b) = ((enter + FILM) / step[axis], (leave - FILM) / step[axis]);
            from = from.max(a.min(b));
            to = to.min(a.max(b));
        }
        from < to
    }
}

/// The ways of all parts: where they are laid in rows, and how high they rise so that none meets another.
///
/// Parts rise straight up, so what lies over another part must rise at least as high. They are taken from below: each
/// rises just as far as what it lies over, and further as long as its box would meet one of those before it on the way
/// over. Only parts that hold each other down in a ring pass through each other.
pub(crate) fn ways(parts: &[Traveller]) -> Vec<Travel> {
    if parts.iter().filter(|p| !p.standing.is_empty()).count() < 2 {
        return vec![Travel::default(); parts.len()];
    }
    let boxes: Vec<Bounds> = parts.iter().map(|p| p.unfolding).collect();
    let mut ways: Vec<Travel> = super::rows::rows(&boxes).into_iter().map(|over| Travel { rise: 0.0, over }).collect();
    let standing: Vec<Option<Bounds>> = parts.iter().map(|p| Bounds::of_bodies(&p.standing)).collect();
    let over = lying_over(parts, &standing);
    let mut placed: Vec<usize> = Vec::new();
    for part in from_below(&over) {
        let under = placed.iter().filter(|&&k| over[k].contains(&part)).map(|&k| ways[k].rise);
        ways[part].rise = under.fold(0.0, f64::max);
        while let Some(rise) = pushed_up(part, &placed, &standing, &ways) {
            ways[part].rise = rise;
        }
        placed.push(part);
    }
    ways
}

/// `over[k]`: the parts that lie over part k and stop it from being lifted.
fn lying_over(parts: &[Traveller], boxes: &[Option<Bounds>]) -> Vec<Vec<usize>> {
    let stops = |k: usize, o: usize| {
        let (Some(a), Some(b)) = (&boxes[k], &boxes[o]) else { return false };
        let clear = a.apart(b, 0, FILM) || a.apart(b, 1, FILM) || b.high.z <= a.low.z;
        !clear && parts[k].standing.iter().any(|p| parts[o].standing.iter().any(|q| p.swept_meets(&V3::z(), q, FILM)))
    };
    (0..parts.len()).map(|k| (0..parts.len()).filter(|&o| o != k && stops(k, o)).collect()).collect()
}

/// Parts in an order in which what lies over another comes after it; the first one of a ring goes first.
fn from_below(over: &[Vec<usize>]) -> Vec<usize> {
    let mut left: Vec<usize> = (0..over.len()).collect();
    let mut order = Vec::new();
    while !left.is_empty() {
        let lowest = left.iter().position(|k| !left.iter().any(|o| over[*o].contains(k))).unwrap_or(0);
        order.push(left.remove(lowest));
    }
    order
}

/// The height that clears the first part in the way; `None` when nothing is.
fn pushed_up(part: usize, placed: &[usize], boxes: &[Option<Bounds>], ways: &[Travel]) -> Option<f64> {
    let mine = boxes[part]?;
    let here = raised(&mine, ways[part].rise);
    placed.iter().find_map(|&k| {
        let other = raised(&boxes[k]?, ways[k].rise);
        let meets = here.meets_moving(&ways[part].over, &other, &ways[k].over);
        meets.then(|| other.high.z + ROOM - mine.low.z)
    })
}

fn raised(bounds: &Bounds, by: f64) -> Bounds {
    Bounds { low: bounds.low + V3::z() * by, high: bounds.high + V3::z() * by }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::Solid;

    fn block(low: [f64; 3], high: [f64; 3]) -> Traveller {
        let (low, high) = (P3::from(low), P3::from(high));
        Traveller { standing: vec![Body::of(&Solid::block(low, high))], unfolding: Bounds { low, high } }
    }

    #[test]
    fn what_lies_over_another_rises_as_high() {
        let parts = [
            block([0.0, 0.0, 0.0], [10.0, 10.0, 10.0]),
            block([-2.0, -2.0, 10.0], [4.0, 4.0, 14.0]),
            block([6.0, 6.0, 10.0], [9.0, 9.0, 30.0]),
        ];
        let boxes: Vec<Option<Bounds>> = parts.iter().map(|p| Some(p.unfolding)).collect();
        assert_eq!(lying_over(&parts, &boxes), [vec![1, 2], vec![], vec![]]);
        let ways = ways(&parts);
        for k in 0..=200 {
            let u = f64::from(k) / 200.0;
            let at = |p: usize| {
                raised(
                    &Bounds {
                        low: boxes[p].unwrap().low + ways[p].at(u),
                        high: boxes[p].unwrap().high + ways[p].at(u),
                    },
                    0.0,
                )
            };
            for (a, b) in [(0, 1), (0, 2), (1, 2)] {
                assert!((0..3).any(|axis| at(a).apart(&at(b), axis, 1e-9)), "{a} {b} at {u}");
            }
        }
        assert!(ways.iter().all(|w| w.at(1.0).z == 0.0));
    }

    #[test]
    fn a_lone_part_stays() {
        assert_eq!(ways(&[block([0.0; 3], [10.0; 3])]), [Travel::default()]);
    }
}
