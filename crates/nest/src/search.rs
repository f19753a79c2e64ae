use crate::arena::{Arena, Spot};
use crate::first::{SHUFFLE, first, in_order};
use crate::sample::{Effort, Finder};
use crate::separate::{Patience, Separation, Standing};
use crate::weights::Weights;
use crate::{Job, Layout};
use fastrand::Rng;

/// How long a sheet is tried to be done without.
const PATIENCE: Patience = Patience { rounds: 60, stirs: 6 };

/// Orders tried before it is begun afresh.
const ORDERS: usize = 8;

/// Looks for layouts on fewer and fewer sheets.
///
/// The first one is there at once. Each later attempt takes a sheet away, lays its pieces over those of the others and
/// moves them till none overlaps. It can be stopped after any round; what it has found stays.
pub struct Search {
    job: Job,
    rng: Rng,
    best: Layout,
    arena: Arena,
    least: usize,
    attempt: Option<Separation>,
}

impl Search {
    /// Finds a first layout. The same job and seed give the same layouts.
    pub fn new(job: Job, seed: u64) -> Self {
        let mut rng = Rng::with_seed(seed);
        let least = least_sheets(&job);
        let arena = first(&job, least, &mut rng);
        let best = arena.layout(&job);
        debug_assert_eq!(best.faults(&job), [], "the first layout");
        Self { job, rng, best, arena, least, attempt: None }
    }

    /// What it is about.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// The best layout so far.
    pub fn best(&self) -> &Layout {
        &self.best
    }

    /// Whether no layout can need fewer sheets, by the area of the pieces.
    pub fn is_least(&self) -> bool {
        self.best.sheets_paid(&self.job) <= self.least
    }

    /// Goes on for some rounds, each of which moves every piece that overlaps another once; true when a better layout was
    /// found. Does nothing once [`Self::is_least`].
    pub fn improve(&mut self, rounds: usize) -> bool {
        let mut better = false;
        for _ in 0..rounds {
            if self.is_least() {
                break;
            }
            better |= self.round();
        }
        better
    }

    fn round(&mut self) -> bool {
        let Some(mut attempt) = self.attempt.take().or_else(|| self.begin()) else { return false };
        match attempt.round(&self.job, Effort::USUAL, &mut self.rng) {
            Standing::Going => self.attempt = Some(attempt),
            Standing::Stuck => return self.afresh(),
            Standing::Free => {
                let layout = attempt.arena.layout(&self.job);
                // The library works in single precision: what it lets pass is measured again.
                if layout.faults(&self.job).is_empty() {
                    self.arena = attempt.arena;
                    self.best = layout;
                    return true;
                }
            }
        }
        false
    }

    /// Lays everything anew in other orders. The best that comes out is begun from if it needs no more sheets.
    fn afresh(&mut self) -> bool {
        let orders: Vec<Arena> = (0..ORDERS).map(|_| in_order(&self.job, SHUFFLE, &mut self.rng)).collect();
        let ranked = orders.into_iter().map(|arena| (self.emptiest(&arena), arena));
        let by_rank = |a: &(usize, f64), b: &(usize, f64)| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1));
        let Some((_, arena)) = ranked.min_by(|a, b| by_rank(&a.0, &b.0)) else { return false };
        let layout = arena.layout(&self.job);
        let (new, old) = (layout.sheets_paid(&self.job), self.best.sheets_paid(&self.job));
        if new > old || !layout.faults(&self.job).is_empty() {
            return false;
        }
        self.arena = arena;
        if new < old {
            self.best = layout;
        }
        new < old
    }

    /// How many sheets are not free, and what lies on the emptiest of them, mm².
    fn emptiest(&self, arena: &Arena) -> (usize, f64) {
        let paid = self.paid(arena);
        (paid.len(), paid.iter().map(|b| self.covered(arena, *b)).fold(f64::INFINITY, f64::min))
    }

    /// The boards that are not free.
    fn paid(&self, arena: &Arena) -> Vec<usize> {
        (0..arena.boards()).filter(|b| self.job.sheets()[arena.sheet(*b)].at_most.is_none()).collect()
    }

    /// Area of what lies on a board, mm².
    fn covered(&self, arena: &Arena, board: usize) -> f64 {
        arena.on(board).map(|(item, _)| self.job.shapes[item].area).sum()
    }

    /// Takes one sheet away and lays its pieces over those of the others.
    fn begin(&mut self) -> Option<Separation> {
        self.job.make_measurable();
        let paid = self.paid(&self.arena);
        let lost = self.choose(&paid)?;
        let kept: Vec<usize> = (0..self.arena.boards()).filter(|b| *b != lost).collect();
        let sheets: Vec<usize> = kept.iter().map(|b| self.arena.sheet(*b)).collect();
        let mut arena = Arena::new(&self.job, &sheets);
        for (board, old) in kept.iter().enumerate() {
            for (item, spot) in self.arena.on(*old) {
                arena.put(&self.job, item, Spot { board, ..spot });
            }
        }
        let mut homeless: Vec<usize> = self.arena.on(lost).map(|(item, _)| item).collect();
        let size = |k: usize| self.job.shapes[k].area;
        homeless.sort_by(|a, b| size(*b).total_cmp(&size(*a)));
        let weights = Weights::new(self.job.items().len());
        for item in homeless {
            let found = Finder::new(&self.job, &arena, &weights, item).find(Effort::USUAL, &mut self.rng);
            arena.put(&self.job, item, found?.1);
        }
        Some(Separation::new(&self.job, arena, PATIENCE))
    }

    /// The sheet to take away: of two at random, the emptier.
    fn choose(&mut self, paid: &[usize]) -> Option<usize> {
        if paid.len() < 2 {
            return None;
        }
        let pick = [0, 1].map(|_| paid[self.rng.usize(..paid.len())]);
        let [one, other] = pick.map(|b| self.covered(&self.arena, b));
        Some(if one <= other { pick[0] } else { pick[1] })
    }
}

/// Sheets that the area of the pieces alone needs beyond the free ones.
fn least_sheets(job: &Job) -> usize {
    let pieces: f64 = job.shapes.iter().map(|s| s.area).sum();
    let free = |k: usize| job.sheets()[k].at_most.map_or(0.0, |count| job.outers[k].area * count as f64);
    let free: f64 = (0..job.sheets().len()).map(free).sum();
    let largest = job.endless().map(|k| job.outers[k].area).fold(0.0, f64::max);
    if largest > 0.0 { ((pieces - free) / largest - 1e-9).ceil().max(0.0) as usize } else { 0 }
}
