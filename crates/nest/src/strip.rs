use crate::arena::{Arena, Spot};
use crate::first::first;
use crate::pose::Pose;
use crate::sample::Effort;
use crate::separate::{Patience, Separation, Standing, exchange};
use crate::shape::Outer;
use crate::{Item, Job, Layout, Refused, Sheet};
use fastrand::Rng;
use gable_measure::Length;
use gable_plane::P2;

/// Shares by which the strip is shortened: while large steps succeed, and the last ones.
const SHORTER: (f64, f64) = (0.01, 0.0002);
/// What a step is multiplied by once it has succeeded, and once it has failed.
const NEXT: (f64, f64) = (1.5, 0.5);
/// Attempts on a strip come out better when they are long and few.
const PATIENCE: Patience = Patience { rounds: 150, stirs: 2 };

/// Looks for the shortest piece of a strip of a given height that holds all pieces: rolled dough between guides, paper
/// from a roll.
pub struct Strip {
    height: Length,
    gap: Length,
    items: Vec<Item>,
    rng: Rng,
    job: Job,
    arena: Arena,
    best: Layout,
    length: Length,
    step: f64,
    attempt: Option<(Separation, Job, Length)>,
}

impl Strip {
    /// Finds a first layout. The same pieces and seed give the same layouts.
    ///
    /// # Errors
    ///
    /// As for [`Job::new`].
    pub fn new(items: Vec<Item>, height: Length, gap: Length, seed: u64) -> Result<Self, Vec<Refused>> {
        let mut rng = Rng::with_seed(seed);
        let reach = |ring: &[P2]| gable_plane::bounds(ring).map_or(0.0, |(low, high)| (high - low).norm());
        let longest: f64 = items.iter().map(|i| reach(i.outline()) + gap.mm()).sum();
        let job = job(&items, height, Length::mm_of(longest.max(1.0)), gap)?;
        let arena = first(&job, 0, &mut rng);
        let best = arena.layout(&job);
        let length = used(&job, &best);
        Ok(Self { height, gap, items, rng, job, arena, best, length, step: SHORTER.0, attempt: None })
    }

    /// The job that the best layout belongs to.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// The best layout so far.
    pub fn best(&self) -> &Layout {
        &self.best
    }

    /// How much of the strip it takes.
    pub fn length(&self) -> Length {
        self.length
    }

    /// Goes on for some rounds; true when a shorter layout was found.
    pub fn improve(&mut self, rounds: usize) -> bool {
        let mut better = false;
        for _ in 0..rounds {
            better |= self.round();
        }
        better
    }

    fn round(&mut self) -> bool {
        let Some((mut attempt, job, length)) = self.attempt.take().or_else(|| self.begin()) else { return false };
        match attempt.round(&job, Effort::USUAL, &mut self.rng) {
            Standing::Going => self.attempt = Some((attempt, job, length)),
            Standing::Stuck => self.step = (self.step * NEXT.1).max(SHORTER.1),
            Standing::Free => {
                let layout = attempt.arena.layout(&job);
                if layout.faults(&job).is_empty() {
                    self.step = (self.step * NEXT.0).min(SHORTER.0);
                    self.length = used(&job, &layout).min(length);
                    (self.arena, self.best, self.job) = (attempt.arena, layout, job);
                    return true;
                }
            }
        }
        false
    }

    /// Shortens the strip; what reaches beyond its end is laid somewhere on it. After attempts that failed, two pieces of
    /// about one size change places as well.
    fn begin(&mut self) -> Option<(Separation, Job, Length)> {
        let length = self.length * (1.0 - self.step);
        let job = job(&self.items, self.height, length, self.gap).ok()?;
        let outer = Outer::new(&job.sheets()[0].outline, self.gap.mm())?;
        let mut arena = self.arena.clone();
        arena.reshape(0, outer.polygon.clone());
        let end = outer.polygon.bbox().x_max;
        let beyond: Vec<(usize, Spot)> =
            arena.on(0).filter(|(item, _)| arena.shape(*item).is_some_and(|s| s.bbox().x_max > end)).collect();
        for (item, spot) in beyond {
            let pose = Pose { x: self.rng.f32() * spot.pose.x, ..spot.pose };
            arena.put(&job, item, Spot { pose, ..spot });
        }
        if self.step < SHORTER.0 {
            exchange(&job, &mut arena, &mut self.rng);
        }
        Some((Separation::new(&job, arena, PATIENCE), job, length))
    }
}

fn job(items: &[Item], height: Length, length: Length, gap: Length) -> Result<Job, Vec<Refused>> {
    let mut job = Job::new(items.to_vec(), vec![Sheet::rectangle(length, height)], gap)?;
    job.make_measurable();
    Ok(job)
}

/// How far pieces reach along the strip.
fn used(job: &Job, layout: &Layout) -> Length {
    let placed = layout.sheets.iter().flat_map(|f| &f.placed);
    let ends = placed.flat_map(|p| p.outline(job)).map(|p| p.x);
    Length::mm_of(ends.fold(0.0, f64::max))
}
