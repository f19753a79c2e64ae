use crate::Body;
use gable_plane::{HalfSpace, Solid, V3};

/// Solids may share a film of this thickness before one counts as lying before the other, mm: nobody sees a micrometre.
const FILM: f64 = 1e-3;
/// Cuts through things that lie before each other in a ring; each round mends at least one ring of real houses.
const ROUNDS: usize = 24;

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
    bodies: Vec<Body>,
    /// Box in the picture: right and up, least and most.
    frame: [(f64, f64); 2],
}

impl Sprite {
    /// All of a thing.
    pub(crate) fn whole(thing: usize, solids: Vec<Solid>, soft: bool, axes: &[V3; 2]) -> Self {
        let bodies: Vec<Body> = solids.iter().map(Body::of).collect();
        let frame = axes.map(|axis| {
            let spans = bodies.iter().map(|b| b.span(&axis));
            spans.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), (low, high)| (l.min(low), h.max(high)))
        });
        Self { thing, solids, whole: true, soft, bodies, frame }
    }

    fn fragment(&self, solid: Solid, axes: &[V3; 2]) -> Self {
        Self { whole: false, ..Self::whole(self.thing, vec![solid], self.soft, axes) }
    }

    /// Whether this one hides some of the other from an eye in direction `to_eye`.
    fn hides(&self, other: &Self, to_eye: &V3) -> bool {
        let apart = |k: usize| self.frame[k].0 >= other.frame[k].1 - FILM || other.frame[k].0 >= self.frame[k].1 - FILM;
        if apart(0) || apart(1) {
            return false;
        }
        other.bodies.iter().any(|far| self.bodies.iter().any(|near| far.swept_meets(to_eye, near, FILM)))
    }

    fn nearness(&self, to_eye: &V3) -> f64 {
        let middles = self.bodies.iter().map(|b| b.middle().coords.dot(to_eye));
        middles.sum::<f64>() / self.bodies.len().max(1) as f64
    }
}

/// Puts sprites into an order in which what is hidden comes before what hides it.
///
/// Whole things stay whole unless they hide each other in a ring. Then they are taken apart into their convex solids, and
/// if those still do, one is cut along a face of another. A ring that outlasts that is broken at its farthest member.
pub(crate) fn sorted(sprites: Vec<Sprite>, to_eye: &V3, axes: &[V3; 2]) -> Vec<Sprite> {
    let mut done: Vec<Sprite> = Vec::new();
    let mut left = sprites;
    for round in 0.. {
        let hiders = hiders(&left, to_eye);
        let (ready, stuck) = peel(&left, &hiders);
        done.extend(ready.iter().map(|&k| left[k].clone()));
        if stuck.is_empty() {
            break;
        }
        let ring = core(&hiders, &stuck);
        let rest: Vec<Sprite> = stuck.iter().map(|&k| left[k].clone()).collect();
        let in_ring: Vec<bool> = stuck.iter().map(|k| ring.contains(k)).collect();
        left = mended(rest, &in_ring, round, to_eye, axes, &mut done);
    }
    done
}

/// `hiders[k]`: indices of the sprites that hide some of sprite k.
fn hiders(sprites: &[Sprite], to_eye: &V3) -> Vec<Vec<usize>> {
    let of = |k: usize| (0..sprites.len()).filter(|&o| o != k && sprites[o].hides(&sprites[k], to_eye)).collect();
    (0..sprites.len()).map(of).collect()
}

/// What can be painted in turn, and what is left because it waits for something in a ring.
/// Fragments of one thing follow each other where they can.
fn peel(sprites: &[Sprite], hiders: &[Vec<usize>]) -> (Vec<usize>, Vec<usize>) {
    let mut waits = vec![0usize; hiders.len()];
    for &hider in hiders.iter().flatten() {
        waits[hider] += 1;
    }
    let mut ready: Vec<usize> = Vec::new();
    let mut next: std::collections::BTreeSet<usize> = (0..waits.len()).filter(|&k| waits[k] == 0).collect();
    loop {
        let last = ready.last().map(|&k| sprites[k].thing);
        let akin = next.iter().copied().find(|&k| Some(sprites[k].thing) == last);
        let Some(k) = akin.or_else(|| next.first().copied()) else { break };
        next.remove(&k);
        ready.push(k);
        for &hider in &hiders[k] {
            waits[hider] -= 1;
            if waits[hider] == 0 {
                next.insert(hider);
            }
        }
    }
    let stuck = (0..hiders.len()).filter(|k| !ready.contains(k)).collect();
    (ready, stuck)
}

/// The stuck ones that also hold something up: the rings and what lies between them.
fn core(hiders: &[Vec<usize>], stuck: &[usize]) -> Vec<usize> {
    let mut core = stuck.to_vec();
    loop {
        let before = core.len();
        let kept: Vec<usize> = core.iter().copied().filter(|&k| hiders[k].iter().any(|h| core.contains(h))).collect();
        core = kept;
        if core.len() == before {
            return core;
        }
    }
}

fn mended(
    rest: Vec<Sprite>,
    in_ring: &[bool],
    round: usize,
    to_eye: &V3,
    axes: &[V3; 2],
    done: &mut Vec<Sprite>,
) -> Vec<Sprite> {
    let many = |k: usize| in_ring[k] && rest[k].solids.len() > 1;
    let soft = (0..rest.len()).any(|k| many(k) && rest[k].soft);
    let apart = |k: usize| many(k) && rest[k].soft == soft;
    if (0..rest.len()).any(apart) {
        let pieces = |k: usize| -> Vec<Sprite> {
            let sprite = &rest[k];
            if !apart(k) {
                return vec![sprite.clone()];
            }
            sprite.solids.iter().map(|s| sprite.fragment(s.clone(), axes)).collect()
        };
        return (0..rest.len()).flat_map(pieces).collect();
    }
    if round < ROUNDS
        && let Some(cut) = cut_one(&rest, in_ring, to_eye, axes)
    {
        return cut;
    }
    let members = (0..rest.len()).filter(|&k| in_ring[k]);
    let farthest = members.min_by(|&a, &b| rest[a].nearness(to_eye).total_cmp(&rest[b].nearness(to_eye))).unwrap_or(0);
    let mut rest = rest;
    done.push(rest.remove(farthest));
    rest
}

/// Cuts the first sprite of a ring that reaches through a face plane of one that it hides.
fn cut_one(rest: &[Sprite], in_ring: &[bool], to_eye: &V3, axes: &[V3; 2]) -> Option<Vec<Sprite>> {
    let members: Vec<usize> = (0..rest.len()).filter(|&k| in_ring[k]).collect();
    for &a in &members {
        for &b in members.iter().filter(|&&b| b != a && rest[a].hides(&rest[b], to_eye)) {
            let (solid, other) = (rest[a].solids.first()?, rest[b].solids.first()?);
            let Some([near, far]) = other.half_spaces().iter().find_map(|h| halves(solid, h)) else { continue };
            let mut cut = rest.to_vec();
            cut[a] = rest[a].fragment(near, axes);
            cut.push(rest[a].fragment(far, axes));
            return Some(cut);
        }
    }
    None
}

fn halves(solid: &Solid, half: &HalfSpace) -> Option<[Solid; 2]> {
    let reach = |sign: f64| solid.corners().iter().any(|p| half.excess(p) * sign > 0.1);
    if !(reach(1.0) && reach(-1.0)) {
        return None;
    }
    Some([solid.clip(half)?, solid.clip(&half.flipped())?])
}
