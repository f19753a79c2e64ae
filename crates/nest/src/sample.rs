use crate::arena::{Arena, Spot};
use crate::pose::Pose;
use crate::shape::{HAIR, Shape};
use crate::weights::Weights;
use crate::{Job, Turns};
use fastrand::Rng;
use jagua_rs::geometry::primitives::{Rect, SPolygon};
use std::f32::consts::{FRAC_PI_2, PI, TAU};

/// How many places are tried for a piece: near where it is; anywhere, and corner on corner, at least so many and so many
/// for each board. With fewer for each board, layouts on many boards are found half as often in the same time.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Effort {
    pub(crate) near: usize,
    pub(crate) anywhere: (usize, usize),
    pub(crate) corners: (usize, usize),
}

impl Effort {
    pub(crate) const USUAL: Self = Self { near: 12, anywhere: (24, 8), corners: (12, 4) };
}

/// How many of the places tried are refined.
const REFINED: usize = 3;
/// First and last step of refining, as shares of the piece's diameter, roughly and then finely.
const ROUGH: (f32, f32) = (0.1, 0.005);
const FINE: (f32, f32) = (0.004, 0.0002);
/// First step of a turn, radians, for each share of the diameter stepped.
const TURN: f32 = 1.0;

/// Looks for a better place for one piece.
pub(crate) struct Finder<'a> {
    job: &'a Job,
    arena: &'a Arena,
    weights: &'a Weights,
    item: usize,
    copy: SPolygon,
    best: Vec<(f32, Spot)>,
}

impl<'a> Finder<'a> {
    pub(crate) fn new(job: &'a Job, arena: &'a Arena, weights: &'a Weights, item: usize) -> Self {
        Self { job, arena, weights, item, copy: job.shapes[item].copy(), best: Vec::new() }
    }

    /// The best place found, with its weighted overlap.
    pub(crate) fn find(mut self, effort: Effort, rng: &mut Rng) -> Option<(f32, Spot)> {
        if let Some(spot) = self.arena.spot(self.item) {
            self.consider(spot);
            for _ in 0..effort.near {
                self.consider(self.near(spot, rng));
            }
        }
        let boards = self.arena.boards();
        let tried = |(least, each): (usize, usize)| least.max(each * boards);
        for _ in 0..tried(effort.anywhere) {
            if let Some(spot) = self.anywhere(rng.usize(..boards), rng) {
                self.consider(spot);
            }
        }
        for _ in 0..tried(effort.corners) {
            if let Some(spot) = self.corner_on_corner(rng.usize(..boards), rng) {
                self.consider(spot);
            }
        }
        let starts = std::mem::take(&mut self.best);
        let refined: Vec<(f32, Spot)> = starts.into_iter().map(|s| self.refine(s, ROUGH, rng)).collect();
        let best = refined.into_iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
        Some(self.refine(best, FINE, rng))
    }

    fn shape(&self) -> &'a Shape {
        &self.job.shapes[self.item]
    }

    fn loss(&mut self, spot: Spot, bound: f32) -> f32 {
        self.job.shapes[self.item].lay(&mut self.copy, spot.pose);
        self.arena.loss(self.job, self.weights, (self.item, spot.board), &self.copy, bound)
    }

    /// Keeps a place if it is among the best, and not nearly one that is kept already.
    fn consider(&mut self, spot: Spot) {
        let bound = if self.best.len() < REFINED { f32::INFINITY } else { self.best[REFINED - 1].0 };
        if bound == 0.0 {
            return;
        }
        let loss = self.loss(spot, bound);
        let apart = 0.02 * self.shape().diameter();
        let alike = |s: &Spot| {
            s.board == spot.board && (s.pose.x - spot.pose.x).abs() < apart && (s.pose.y - spot.pose.y).abs() < apart
        };
        match self.best.iter().position(|(_, s)| alike(s)) {
            Some(k) if self.best[k].0 <= loss => return,
            Some(k) => drop(self.best.remove(k)),
            None => {}
        }
        let at = self.best.partition_point(|(l, _)| *l <= loss);
        self.best.insert(at, (loss, spot));
        self.best.truncate(REFINED);
    }

    fn near(&self, spot: Spot, rng: &mut Rng) -> Spot {
        let reach = 0.25 * self.shape().diameter();
        let pose = spot.pose.moved(reach * bell(rng), reach * bell(rng));
        let turn = match self.shape().turns {
            Turns::Free if rng.bool() => pose.turn + 0.1 * bell(rng),
            Turns::Free => pose.turn,
            counted => any_of(counted, rng),
        };
        Spot { board: spot.board, pose: Pose { turn, ..pose } }
    }

    /// A place within the box of a board; none if the piece is wider than that as it is turned.
    fn anywhere(&self, board: usize, rng: &mut Rng) -> Option<Spot> {
        let turn = self.any_turn(rng);
        let inner = room(self.shape(), turn, self.arena.outer(board).bbox())?;
        let x = inner.x_min + rng.f32() * (inner.x_max - inner.x_min);
        let y = inner.y_min + rng.f32() * (inner.y_max - inner.y_min);
        Some(Spot { board, pose: Pose { turn, x, y } })
    }

    fn any_turn(&self, rng: &mut Rng) -> f32 {
        match self.shape().turns {
            Turns::Free => match rng.u8(..4) {
                0 => rng.f32() * TAU,
                _ => self.level_turn(rng) + FRAC_PI_2 * f32::from(rng.u8(..4)),
            },
            counted => any_of(counted, rng),
        }
    }

    fn level_turn(&self, rng: &mut Rng) -> f32 {
        let edges = &self.shape().edges;
        if edges.is_empty() { 0.0 } else { -edges[rng.usize(..edges.len())] }
    }

    /// A corner of the piece on a corner of another one or of the board, edges along each other if it may be turned so.
    fn corner_on_corner(&self, board: usize, rng: &mut Rng) -> Option<Spot> {
        let others: Vec<usize> = self.arena.on(board).map(|(k, _)| k).filter(|k| *k != self.item).collect();
        let pick = rng.usize(..=others.len());
        let on_rim = pick == others.len();
        let other = if on_rim { self.arena.outer(board) } else { self.arena.shape(others[pick])? };
        let corners = other.vertices();
        let k = rng.usize(..corners.len());
        let (target, next) = (corners[k], corners[(k + 1) % corners.len()]);
        let own = self.shape().corners();
        let j = rng.usize(..own.len());
        let (corner, after) = (own[j], own[(j + 1) % own.len()]);
        let turn = match self.shape().turns {
            Turns::Free => {
                let theirs = (next.1 - target.1).atan2(next.0 - target.0);
                let ours = (after.1 - corner.1).atan2(after.0 - corner.0);
                theirs - ours + if on_rim { 0.0 } else { PI }
            }
            counted => any_of(counted, rng),
        };
        // Along another piece edges run against each other: our corner comes to lie on the far end of its edge.
        let target = if on_rim || self.shape().turns != Turns::Free { target } else { next };
        let (sin, cos) = turn.sin_cos();
        let x = target.0 - (cos * corner.0 - sin * corner.1);
        let y = target.1 - (sin * corner.0 + cos * corner.1);
        // Away from the other one, or from the rim, by a hair: touching is a collision for the library.
        let middle = other.bbox().centroid();
        let away = |own: f32, other: f32| if (own > other) == on_rim { -HAIR as f32 } else { HAIR as f32 };
        let (x, y) = (x + away(x, middle.0), y + away(y, middle.1));
        Some(Spot { board, pose: Pose { turn, x, y } })
    }

    /// Steps downhill along one axis after another, shorter ones when neither way is better.
    fn refine(&mut self, start: (f32, Spot), steps: (f32, f32), rng: &mut Rng) -> (f32, Spot) {
        let (mut best, mut spot) = start;
        let diameter = self.shape().diameter();
        let mut step = steps.0 * diameter;
        while step > steps.1 * diameter && best > 0.0 {
            let ways = self.both_ways(spot, step, rng);
            let tried = ways.map(|way| (self.loss(way, best), way));
            let better = if tried[0].0 <= tried[1].0 { tried[0] } else { tried[1] };
            if better.0 < best {
                (best, spot) = better;
                step *= 1.1;
            } else {
                step *= 0.6;
            }
        }
        (best, spot)
    }

    fn both_ways(&self, spot: Spot, step: f32, rng: &mut Rng) -> [Spot; 2] {
        const SLANT: f32 = std::f32::consts::FRAC_1_SQRT_2;
        let free = self.shape().turns == Turns::Free;
        let (x, y, turn) = match rng.u8(..if free { 6 } else { 4 }) {
            0 => (1.0, 0.0, 0.0),
            1 => (0.0, 1.0, 0.0),
            2 => (SLANT, SLANT, 0.0),
            3 => (SLANT, -SLANT, 0.0),
            _ => (0.0, 0.0, TURN / self.shape().diameter()),
        };
        [1.0, -1.0].map(|sign| {
            let moved = spot.pose.moved(sign * step * x, sign * step * y);
            Spot { board: spot.board, pose: Pose { turn: moved.turn + sign * step * turn, ..moved } }
        })
    }
}

/// Where the origin of a shape may be so that its box is inside another box.
pub(crate) fn room(shape: &Shape, turn: f32, outer: Rect) -> Option<Rect> {
    let (sin, cos) = turn.sin_cos();
    let mut low = (f32::INFINITY, f32::INFINITY);
    let mut high = (f32::NEG_INFINITY, f32::NEG_INFINITY);
    for p in shape.corners() {
        let (x, y) = (cos * p.0 - sin * p.1, sin * p.0 + cos * p.1);
        low = (low.0.min(x), low.1.min(y));
        high = (high.0.max(x), high.1.max(y));
    }
    let inner = (outer.x_min - low.0, outer.y_min - low.1, outer.x_max - high.0, outer.y_max - high.1);
    (inner.0 <= inner.2 && inner.1 <= inner.3).then_some(Rect {
        x_min: inner.0,
        y_min: inner.1,
        x_max: inner.2,
        y_max: inner.3,
    })
}

fn any_of(turns: Turns, rng: &mut Rng) -> f32 {
    turns.counted().map_or(0.0, |turns| turns[rng.usize(..turns.len())])
}

/// Roughly normal: the sum of four evenly spread numbers, with a deviation of about 0.6.
fn bell(rng: &mut Rng) -> f32 {
    (0..4).map(|_| rng.f32() - 0.5).sum()
}
