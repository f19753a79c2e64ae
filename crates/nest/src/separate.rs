use crate::Job;
use crate::arena::{Arena, Spot};
use crate::pose::Pose;
use crate::sample::{Effort, Finder};
use crate::weights::Weights;
use fastrand::Rng;

/// How long an attempt goes on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Patience {
    /// Rounds without a better state after which it counts as failed.
    pub(crate) rounds: usize,
    /// How often it is stirred up and gone on with before it is given up.
    pub(crate) stirs: usize,
}

/// Share of the pieces, the largest ones, that are exchanged when it is stirred.
const LARGE: usize = 2;
/// Less than this share of the least overlap so far is better.
const BETTER: f32 = 0.98;

/// How an attempt stands after a round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Standing {
    /// Nothing overlaps any more.
    Free,
    /// Some things still overlap.
    Going,
    /// It has not become better for long.
    Stuck,
}

/// An attempt to move overlapping pieces apart, round by round.
pub(crate) struct Separation {
    pub(crate) arena: Arena,
    patience: Patience,
    weights: Weights,
    least: f32,
    lowest: Vec<Option<Spot>>,
    idle: usize,
    stirs: usize,
}

impl Separation {
    pub(crate) fn new(job: &Job, arena: Arena, patience: Patience) -> Self {
        let count = job.items().len();
        let weights = Weights::new(count);
        Self { arena, patience, weights, least: f32::INFINITY, lowest: vec![None; count], idle: 0, stirs: 0 }
    }

    /// Moves every piece that overlaps something to the best place found for it, in random order.
    pub(crate) fn round(&mut self, job: &Job, effort: Effort, rng: &mut Rng) -> Standing {
        let overlaps = self.arena.overlaps(job);
        if overlaps.is_empty() {
            return Standing::Free;
        }
        let total: f32 = overlaps.iter().map(|o| o.2).sum();
        if total < BETTER * self.least {
            self.least = total;
            self.lowest = (0..job.items().len()).map(|item| self.arena.spot(item)).collect();
            self.idle = 0;
        } else {
            self.idle += 1;
        }
        if self.idle > self.patience.rounds {
            if self.stirs == self.patience.stirs {
                return Standing::Stuck;
            }
            self.stir(job, rng);
            return Standing::Going;
        }
        self.weights.update(&overlaps);
        let mut items: Vec<usize> = overlaps.iter().flat_map(|o| [Some(o.0), o.1]).flatten().collect();
        items.sort_unstable();
        items.dedup();
        rng.shuffle(&mut items);
        for item in items {
            if self.arena.overlaps_of(job, item).is_empty() {
                continue;
            }
            if let Some((_, spot)) = Finder::new(job, &self.arena, &self.weights, item).find(effort, rng) {
                self.arena.put(job, item, spot);
            }
        }
        Standing::Going
    }

    /// Goes back to the state with the least overlap, lets two large pieces change places and forgets the weights.
    fn stir(&mut self, job: &Job, rng: &mut Rng) {
        for (item, spot) in self.lowest.clone().into_iter().enumerate() {
            if let Some(spot) = spot.filter(|s| self.arena.spot(item) != Some(*s)) {
                self.arena.put(job, item, spot);
            }
        }
        exchange(job, &mut self.arena, rng);
        self.weights = Weights::new(job.items().len());
        (self.least, self.idle, self.stirs) = (f32::INFINITY, 0, self.stirs + 1);
    }
}

/// Lets two of the larger pieces, of different outlines, change places.
pub(crate) fn exchange(job: &Job, arena: &mut Arena, rng: &mut Rng) {
    let mut order: Vec<usize> = (0..job.items().len()).collect();
    order.sort_by(|a, b| job.shapes[*b].area.total_cmp(&job.shapes[*a].area));
    order.truncate((order.len() / LARGE).max(2));
    let a = order[rng.usize(..order.len())];
    order.retain(|b| job.items()[*b] != job.items()[a]);
    if order.is_empty() {
        return;
    }
    let b = order[rng.usize(..order.len())];
    if let (Some(at_a), Some(at_b)) = (arena.spot(a), arena.spot(b)) {
        let turned = |own: Spot, other: Spot| Spot { pose: Pose { turn: own.pose.turn, ..other.pose }, ..other };
        arena.put(job, a, turned(at_a, at_b));
        arena.put(job, b, turned(at_b, at_a));
    }
}
