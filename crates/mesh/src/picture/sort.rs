use crate::Body;
use crate::knot::knots;
use gable_plane::{HalfSpace, P3, Solid, V3};
use std::collections::BTreeSet;

/// Solids may share a film of this thickness before one counts as lying before the other, mm: nobody sees a micrometre.
const FILM: f64 = 1e-3;
/// What reaches less far through a plane than this does not need to be cut there, mm: on paper it is a hair's breadth less.
const THROUGH: f64 = 0.02;

/// Where the eye is, and what is right and up for it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Eye {
    /// Unit, from the house to the eye.
    pub(crate) to_eye: V3,
    /// Right and up in the picture.
    pub(crate) axes: [V3; 2],
}

impl Eye {
    fn frame(&self) -> Axes {
        [self.axes[0], self.axes[1], self.to_eye]
    }
}

/// Something to paint: all of a thing, or a convex fragment of it.
#[derive(Clone, Debug)]
pub(crate) struct Sprite {
    /// Index of the thing.
    pub(crate) thing: usize,
    /// Convex solids that it is made of, in the house.
    pub(crate) solids: Vec<Solid>,
    /// Whether it is the whole thing.
    pub(crate) whole: bool,
    /// Whether it is taken apart before other things are, because nobody sees its cuts.
    soft: bool,
    bodies: Vec<Part>,
    /// Box round all of them.
    frame: Frame,
}

/// A convex body with what tells fast whether it hides another.
#[derive(Clone, Debug)]
struct Part {
    body: Body,
    planes: Vec<HalfSpace>,
    frame: Frame,
}

impl Part {
    fn new(solid: &Solid, axes: &Axes) -> Self {
        let body = Body::of(solid);
        let frame = axes.map(|axis| body.span(&axis));
        Self { body, planes: solid.half_spaces(), frame }
    }

    /// How far the line through a point of the picture runs well within it, towards the eye: from and to.
    fn depths(&self, at: [f64; 2], axes: &Axes) -> Option<(f64, f64)> {
        let [right, up, to_eye] = axes;
        let foot = P3::from(right * at[0] + up * at[1]);
        let mut found = self.frame[2];
        for plane in &self.planes {
            let (excess, lean) = (plane.excess(&foot) + THROUGH, plane.normal.dot(to_eye));
            if lean.abs() < 1e-9 {
                if excess > 0.0 {
                    return None;
                }
            } else if lean > 0.0 {
                found.1 = found.1.min(-excess / lean);
            } else {
                found.0 = found.0.max(-excess / lean);
            }
        }
        (found.0 < found.1).then_some(found)
    }

    /// Whether it hides some of another. Where a line of sight runs well within both, that alone says yes.
    fn hides(&self, far: &Self, axes: &Axes) -> bool {
        if !can_hide(&self.frame, &far.frame) {
            return false;
        }
        let common = |k: usize| f64::midpoint(self.frame[k].0.max(far.frame[k].0), self.frame[k].1.min(far.frame[k].1));
        let at = [common(0), common(1)];
        let (own, its) = (self.depths(at, axes), far.depths(at, axes));
        own.zip(its).is_some_and(|(near, far)| near.1 > far.0) || far.body.swept_meets(&axes[2], &self.body, FILM)
    }
}

/// Right, up and towards the eye.
type Axes = [V3; 3];

/// A box as the eye sees it: right, up and towards the eye, least and most.
type Frame = [(f64, f64); 3];

/// Whether something in one box can hide something in another: they share room in the picture, and some of it is nearer.
fn can_hide(near: &Frame, far: &Frame) -> bool {
    let share = |k: usize| near[k].0 < far[k].1 - FILM && far[k].0 < near[k].1 - FILM;
    share(0) && share(1) && near[2].1 > far[2].0 + FILM
}

impl Sprite {
    /// All of a thing.
    pub(crate) fn whole(thing: usize, solids: Vec<Solid>, soft: bool, eye: &Eye) -> Self {
        let axes = eye.frame();
        let bodies: Vec<Part> = solids.iter().map(|solid| Part::new(solid, &axes)).collect();
        let frame = [0, 1, 2].map(|k| {
            let spans = bodies.iter().map(|b| b.frame[k]);
            spans.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), (low, high)| (l.min(low), h.max(high)))
        });
        Self { thing, solids, whole: true, soft, bodies, frame }
    }

    fn fragment(&self, solid: Solid, eye: &Eye) -> Self {
        Self { whole: false, ..Self::whole(self.thing, vec![solid], self.soft, eye) }
    }

    /// Whether this one hides some of the other from the eye.
    fn hides(&self, other: &Self, axes: &Axes) -> bool {
        can_hide(&self.frame, &other.frame)
            && other.bodies.iter().any(|far| self.bodies.iter().any(|near| near.hides(far, axes)))
    }

    fn nearness(&self, to_eye: &V3) -> f64 {
        let middles = self.bodies.iter().map(|b| b.body.middle().coords.dot(to_eye));
        middles.sum::<f64>() / self.bodies.len().max(1) as f64
    }
}

/// Puts sprites into an order in which what is hidden comes before what hides it.
///
/// Whole things stay whole unless they hide each other in a ring. Then they are taken apart into their convex solids, and
/// if those still do, a plane along a face of one of them parts the ring: nothing beyond the plane hides anything on the
/// eye's side of it. No fragment reaches through a plane that has been used, and there are only so many faces, so this
/// ends.
pub(crate) fn sorted(sprites: Vec<Sprite>, eye: &Eye) -> Vec<Sprite> {
    let hiders = hiders(&sprites, eye);
    let knots = knots(&hiders);
    let mut done: Vec<Sprite> = Vec::new();
    for knot in in_turn(&sprites, &hiders, &knots) {
        let members: Vec<Sprite> = knots[knot].iter().map(|&k| sprites[k].clone()).collect();
        if members.len() > 1 {
            done.extend(untied(members, eye));
        } else {
            done.extend(members);
        }
    }
    done
}

/// `hiders[k]`: indices of the sprites that hide some of sprite k.
fn hiders(sprites: &[Sprite], eye: &Eye) -> Vec<Vec<usize>> {
    let axes = eye.frame();
    let of = |k: usize| (0..sprites.len()).filter(|&o| o != k && sprites[o].hides(&sprites[k], &axes)).collect();
    (0..sprites.len()).map(of).collect()
}

/// The knots, what is hidden first. Fragments of one thing follow each other where they can.
fn in_turn(sprites: &[Sprite], hiders: &[Vec<usize>], knots: &[Vec<usize>]) -> Vec<usize> {
    let mut knot_of = vec![0; sprites.len()];
    knots.iter().enumerate().for_each(|(at, knot)| knot.iter().for_each(|&k| knot_of[k] = at));
    let outside = |at: usize| {
        let of = |k: &usize| hiders[*k].iter().map(|&h| knot_of[h]).filter(move |&h| h != at).collect::<Vec<_>>();
        knots[at].iter().flat_map(of).collect::<BTreeSet<usize>>()
    };
    let after: Vec<BTreeSet<usize>> = (0..knots.len()).map(outside).collect();
    let mut waits = vec![0usize; knots.len()];
    after.iter().flatten().for_each(|&at| waits[at] += 1);
    // By the first sprite of each knot, so that the order is that of the things where nothing else decides.
    let first = |at: usize| (knots[at][0], at);
    let mut next: BTreeSet<(usize, usize)> = (0..knots.len()).filter(|&at| waits[at] == 0).map(first).collect();
    let mut turn: Vec<usize> = Vec::new();
    let mut last: Option<usize> = None;
    loop {
        let akin = next.iter().copied().find(|&(k, _)| Some(sprites[k].thing) == last);
        let Some(ready) = akin.or_else(|| next.first().copied()) else { return turn };
        next.remove(&ready);
        turn.push(ready.1);
        last = Some(sprites[ready.0].thing);
        for &at in &after[ready.1] {
            waits[at] -= 1;
            if waits[at] == 0 {
                next.insert(first(at));
            }
        }
    }
}

/// The members of a ring in an order that is right, taken apart as far as that needs.
fn untied(mut ring: Vec<Sprite>, eye: &Eye) -> Vec<Sprite> {
    let many = |s: &Sprite| s.solids.len() > 1;
    let soft = ring.iter().any(|s| many(s) && s.soft);
    if ring.iter().any(many) {
        let pieces = |s: &Sprite| match many(s) && s.soft == soft {
            true => s.solids.iter().map(|solid| s.fragment(solid.clone(), eye)).collect(),
            false => vec![s.clone()],
        };
        return sorted(ring.iter().flat_map(pieces).collect(), eye);
    }
    if let Some([far, near]) = parted(&ring, eye) {
        let mut done = sorted(far, eye);
        done.extend(sorted(near, eye));
        return done;
    }
    ring.sort_by(|a, b| a.nearness(&eye.to_eye).total_cmp(&b.nearness(&eye.to_eye)));
    ring
}

/// The convex members of a ring beyond a plane and before it, seen by the eye; what reaches through it is cut. Of all face
/// planes the one that cuts fewest is taken, and of those the one that halves the ring best. `None` when no plane has
/// something on both sides.
fn parted(ring: &[Sprite], eye: &Eye) -> Option<[Vec<Sprite>; 2]> {
    let planes = ring.iter().filter_map(|s| s.solids.first()).flat_map(Solid::half_spaces);
    let corners: Vec<Vec<_>> =
        ring.iter().map(|s| s.solids.iter().flat_map(Solid::corners).copied().collect()).collect();
    let sides = |plane: &HalfSpace| -> Vec<[bool; 2]> {
        let reaches =
            |points: &Vec<gable_plane::P3>, sign: f64| points.iter().any(|p| plane.excess(p) * sign > THROUGH);
        corners.iter().map(|points| [reaches(points, -1.0), reaches(points, 1.0)]).collect()
    };
    let rated = planes.filter_map(|plane| {
        let sides = sides(&plane);
        let count = |wanted: [bool; 2]| sides.iter().filter(|s| **s == wanted).count();
        let (cut, inside, outside) = (count([true, true]), count([true, false]), count([false, true]));
        (cut + inside > 0 && cut + outside > 0).then_some((cut, inside.abs_diff(outside), plane))
    });
    let (_, _, plane) = rated.min_by_key(|(cut, uneven, _)| (*cut, *uneven))?;
    let far = if plane.normal.dot(&eye.to_eye) > 0.0 { plane } else { plane.flipped() };
    let mut halves = [Vec::new(), Vec::new()];
    for (sprite, points) in std::iter::zip(ring, &corners) {
        let reach = |sign: f64| points.iter().any(|p| far.excess(p) * sign > THROUGH);
        let parts = sprite.solids.first().filter(|_| reach(1.0) && reach(-1.0));
        match parts.and_then(|solid| Some([solid.clip(&far)?, solid.clip(&far.flipped())?])) {
            Some(parts) => std::iter::zip(&mut halves, parts).for_each(|(h, part)| h.push(sprite.fragment(part, eye))),
            None => halves[usize::from(reach(1.0))].push(sprite.clone()),
        }
    }
    halves.iter().all(|h| !h.is_empty()).then_some(halves)
}
