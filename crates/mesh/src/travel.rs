//! How the parts of a house come away from each other before they fold flat, each beside the others.

use crate::Body;
use gable_plane::{P3, V3};

/// Shares of the way in which parts are drawn out from under each other, rise and move over; in the rest they unfold and
/// come down.
const DRAWN: f64 = 0.12;
const RISEN: f64 = 0.25;
const OVER: f64 = 0.5;
/// Room between two parts in the air and on the table, mm: a finger's width.
pub(crate) const ROOM: f64 = 12.0;
/// Films that parts share where they touch, mm.
const FILM: f64 = 1e-3;

/// The way of one part in a house of several: perhaps out from under another one, up, over to its own place, and down
/// while it unfolds.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Travel {
    /// Moves made one after the other while parts are drawn out; those of other parts lift this one along.
    steps: Vec<V3>,
    /// How far it rises then, mm.
    rise: f64,
    /// How far it moves over, level, from where the steps have brought it.
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
    /// Level unit directions that its pieces look in.
    pub(crate) outward: Vec<V3>,
    /// Unit normals of its slopes.
    pub(crate) slopes: Vec<V3>,
    /// Box round all that it reaches while it unfolds where it stands.
    pub(crate) unfolding: Bounds,
}

impl Travel {
    /// Where the part is at `u`, from 0 (standing) to 1 (flat).
    pub(crate) fn at(&self, u: f64) -> V3 {
        let share = |from: f64, to: f64| ((u - from) / (to - from)).clamp(0.0, 1.0);
        let slot = DRAWN / self.steps.len().max(1) as f64;
        let stepped =
            std::iter::zip(0u32.., &self.steps).map(|(k, s)| s * share(slot * f64::from(k), slot * f64::from(k + 1)));
        let rising = if self.steps.is_empty() { 0.0 } else { DRAWN };
        let down = (self.rise + self.drawn().z) * share(OVER, 1.0);
        let height = self.rise * share(rising, RISEN) - down;
        stepped.sum::<V3>() + self.over * share(RISEN, OVER) + V3::z() * height
    }

    fn drawn(&self) -> V3 {
        self.steps.iter().sum()
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
/// over. Where parts hold each other down in a ring, as a wing whose roof lies on the eave that its walls stand under,
/// one of them is drawn out level before. Only where nothing can be drawn out they pass through each other.
pub(crate) fn ways(mut parts: Vec<Traveller>) -> Vec<Travel> {
    if parts.iter().filter(|p| !p.standing.is_empty()).count() < 2 {
        return vec![Travel::default(); parts.len()];
    }
    let boxes: Vec<Bounds> = parts.iter().map(|p| p.unfolding).collect();
    let spots = super::rows::rows(&boxes);
    let mut ways = drawn_out(&mut parts);
    for (way, spot) in std::iter::zip(&mut ways, spots) {
        let drawn = way.drawn();
        way.over = spot - V3::new(drawn.x, drawn.y, 0.0);
    }
    let standing = bounds_of(&parts);
    let over = lying_over(&parts, &standing);
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

fn bounds_of(parts: &[Traveller]) -> Vec<Option<Bounds>> {
    parts.iter().map(|p| Bounds::of_bodies(&p.standing)).collect()
}

/// Draws parts out of rings, one after the other, and moves them there. What would sink stays at its height instead, and
/// all the others rise.
fn drawn_out(parts: &mut [Traveller]) -> Vec<Travel> {
    let mut ways = vec![Travel::default(); parts.len()];
    let mut drawn: Vec<usize> = Vec::new();
    while let Some((part, out)) = one_drawn_out(parts).filter(|(part, _)| !drawn.contains(part)) {
        let lift = V3::z() * (-out.z).max(0.0);
        for (k, way) in ways.iter_mut().enumerate() {
            let step = if k == part { out + lift } else { lift };
            let moved = gable_plane::Rigid::from_parts(step.into(), Default::default());
            parts[k].standing.iter_mut().for_each(|body| *body = body.moved(&moved));
            way.steps.push(step);
        }
        drawn.push(part);
    }
    ways
}

/// The last part of a ring that can be drawn out, and how far it goes to stand clear of the others of the ring.
fn one_drawn_out(parts: &[Traveller]) -> Option<(usize, V3)> {
    let boxes = bounds_of(parts);
    let rings = crate::knot::knots(&lying_over(parts, &boxes));
    rings.iter().filter(|ring| ring.len() > 1).find_map(|ring| {
        let found = ring.iter().rev().filter_map(|&part| Some((part, way_out(parts, part)?)));
        found.map(|(part, way)| (part, way * clearing(part, ring, &boxes, &way))).next()
    })
}

/// A direction in which a part meets no other: level and square to some wall, its own first, or along some slope as it
/// lies in the way of that.
fn way_out(parts: &[Traveller], part: usize) -> Option<V3> {
    let free = |way: &V3| {
        let others = parts.iter().enumerate().filter(|(k, _)| *k != part).flat_map(|(_, p)| &p.standing);
        let meets = |b: &Body| others.clone().any(|o| b.swept_meets(way, o, FILM));
        !parts[part].standing.iter().any(meets)
    };
    let own = &parts[part].outward;
    let level = own.iter().chain(parts.iter().flat_map(|p| &p.outward)).copied();
    let slopes = || parts.iter().flat_map(|p| &p.slopes);
    let along = own.iter().flat_map(|o| slopes().filter_map(move |n| (o - n * n.dot(o)).try_normalize(1e-3)));
    level.chain(along).find(free)
}

/// How far a part must go that its box is clear of those of the rest of its ring.
fn clearing(part: usize, ring: &[usize], boxes: &[Option<Bounds>], way: &V3) -> f64 {
    let Some(mine) = &boxes[part] else { return 0.0 };
    let clear = |other: &Bounds| {
        let along = |axis: usize| {
            let gap =
                if way[axis] > 0.0 { other.high[axis] - mine.low[axis] } else { mine.high[axis] - other.low[axis] };
            if way[axis].abs() > 1e-6 { gap.max(0.0) / way[axis].abs() } else { f64::INFINITY }
        };
        along(0).min(along(1))
    };
    ring.iter().filter(|&&k| k != part).filter_map(|&k| Some(clear(boxes[k].as_ref()?))).fold(0.0, f64::max)
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
        Traveller {
            standing: vec![Body::of(&Solid::block(low, high))],
            outward: vec![V3::x()],
            slopes: vec![],
            unfolding: Bounds { low, high },
        }
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
        let ways = ways(parts.into());
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

    /// A hook: the upper part lies on the lower one and reaches under it, so that neither can be lifted.
    #[test]
    fn what_is_hooked_in_is_drawn_out_first() {
        let mut hook = block([5.0, 0.0, 10.0], [15.0, 10.0, 12.0]);
        hook.standing.push(Body::of(&Solid::block(P3::new(5.0, 0.0, 0.0), P3::new(15.0, 10.0, 2.0))));
        let table = block([0.0, 0.0, 5.0], [10.0, 10.0, 7.0]);
        let bodies = [table.standing.clone(), hook.standing.clone()];
        let ways = ways(vec![table, hook]);
        assert!(ways[1].drawn().x >= 5.0, "{ways:?}");
        for k in 0..=100 {
            let u = f64::from(k) / 100.0;
            let at = |p: usize| gable_plane::Rigid::from_parts(ways[p].at(u).into(), Default::default());
            let meet = bodies[1].iter().any(|b| b.moved(&at(1)).overlaps(&bodies[0][0].moved(&at(0)), 1e-6));
            assert!(!meet, "{u}");
        }
    }

    #[test]
    fn a_lone_part_stays() {
        assert_eq!(ways(vec![block([0.0; 3], [10.0; 3])]), [Travel::default()]);
    }
}
