use super::frame::Frame;
use super::serial::{generate, pull};
use super::{Hands, Placed, Project, Schedule};

/// A project seen from both ends.
#[derive(Debug)]
pub(super) struct Ends<'a> {
    pub(super) ahead: Frame<'a>,
    pub(super) back: Frame<'a>,
    /// Per block the longest way from its beginning to the end of everything.
    tail: Vec<i64>,
    /// Per block the longest way from the beginning of everything to its end.
    head: Vec<i64>,
}

/// The seed of the search: any number, but always the same.
const SEED: u64 = 20_261_127;

impl<'a> Ends<'a> {
    /// `turned` is the project with time turned over.
    pub(super) fn of(project: &'a Project, turned: &'a Project) -> Result<Self, String> {
        let (ahead, back) = (Frame::of(project)?, Frame::of(turned)?);
        let (tail, head) = (tails(&ahead), tails(&back));
        Ok(Self { ahead, back, tail, head })
    }

    /// The best schedule that was found: the earliest end, then everything as early as may be. `rounds` is how often it is
    /// tried to improve on it.
    pub(super) fn earliest(&self, rounds: usize) -> Schedule {
        Search {
            ahead: &self.ahead,
            back: &self.back,
            tail: &self.tail,
            head: &self.head,
            low: self.ahead.project.start,
        }
        .run(rounds)
    }

    /// The best schedule backwards: done by `end`, begun as late as may be. It may begin before the project does.
    pub(super) fn latest(&self, end: i64, rounds: usize) -> Schedule {
        Search { ahead: &self.back, back: &self.ahead, tail: &self.head, head: &self.tail, low: -end }
            .run(rounds)
            .turned()
    }

    /// When each job could be done if there were always people and room.
    pub(super) fn unhindered(&self) -> Schedule {
        generate(&self.ahead, &vec![0; self.tail.len()], self.ahead.project.start, false)
    }
}

/// Per block the longest way from its beginning to the end of everything, in minutes of work and waiting.
fn tails(frame: &Frame) -> Vec<i64> {
    let mut tails = vec![None; frame.project.jobs.len()];
    let jobs = 0..frame.project.jobs.len();
    jobs.for_each(|job| {
        tail(frame, job, &mut tails);
    });
    let longest = |jobs: &Vec<usize>| jobs.iter().filter_map(|&j| tails[j]).max().unwrap_or(0);
    frame.blocks.blocks.iter().map(|b| longest(&b.jobs)).collect()
}

fn tail(frame: &Frame, job: usize, tails: &mut Vec<Option<i64>>) -> i64 {
    if let Some(known) = tails[job] {
        return known;
    }
    let after = frame.blocks.after[job].iter().map(|l| l.least + tail(frame, l.after, tails)).max().unwrap_or(0);
    let own = frame.project.jobs[job].minutes + after;
    tails[job] = Some(own);
    own
}

/// What is better: fewer jobs without a time, then an earlier end, then earlier ends of all.
fn cost(schedule: &Schedule) -> Cost {
    let without = schedule.placed.iter().filter(|p| p.is_none()).count();
    let ends = schedule.placed.iter().flatten().map(Placed::end);
    (without, schedule.end().unwrap_or(i64::MIN), ends.sum())
}

type Cost = (usize, i64, i64);

struct Search<'a> {
    ahead: &'a Frame<'a>,
    back: &'a Frame<'a>,
    tail: &'a [i64],
    head: &'a [i64],
    low: i64,
}

impl Search<'_> {
    fn run(&self, rounds: usize) -> Schedule {
        let mut best: Option<(Cost, Schedule)> = None;
        let try_keys = |keys: &[i64], best: &mut Option<(Cost, Schedule)>| {
            let schedule = self.squeezed(generate(self.ahead, keys, self.low, true));
            let own = cost(&schedule);
            if best.as_ref().is_none_or(|b| own <= b.0) {
                *best = Some((own, schedule));
            }
        };
        for keys in rules(self.ahead, self.tail, self.head) {
            try_keys(&keys, &mut best);
        }
        let mut random = fastrand::Rng::with_seed(SEED);
        for round in 0..rounds {
            let Some((_, schedule)) = &best else { break };
            let keys = self.shaken(schedule, round, &mut random);
            try_keys(&keys, &mut best);
        }
        best.map(|b| b.1).unwrap_or_default()
    }

    /// The order of a schedule, some of its blocks moved: few of them far, or many a little.
    fn shaken(&self, schedule: &Schedule, round: usize, random: &mut fastrand::Rng) -> Vec<i64> {
        let blocks = &self.ahead.blocks.blocks;
        let start =
            |b: usize| blocks[b].jobs.iter().filter_map(|&j| schedule.placed[j].as_ref().map(Placed::start)).min();
        let mut order: Vec<usize> = (0..blocks.len()).collect();
        order.sort_by_key(|&b| (start(b).unwrap_or(i64::MAX), b));
        let mut keys = vec![0; blocks.len()];
        for (at, &block) in order.iter().enumerate() {
            keys[block] = 100 * at as i64;
        }
        let (share, reach) = if round.is_multiple_of(2) { (0.1, blocks.len() as i64 / 2 + 2) } else { (0.4, 6) };
        for key in &mut keys {
            if random.f64() < share {
                *key += random.i64(-100 * reach..=100 * reach);
            }
        }
        keys
    }

    /// Pushes everything as late as it can go without ending later, then pulls it back to the beginning, as long as that is
    /// better.
    fn squeezed(&self, mut schedule: Schedule) -> Schedule {
        for _ in 0..3 {
            let before = cost(&schedule);
            let Some(end) = schedule.end() else { return schedule };
            let late = pull(self.back, &schedule.turned(), -end);
            let squeezed = pull(self.ahead, &late.turned(), self.low);
            if cost(&squeezed) >= before {
                return schedule;
            }
            schedule = squeezed;
        }
        schedule
    }
}

/// Orders that usually do well: the longest way to the end first; what can begin first; what keeps hands busy longest.
fn rules(frame: &Frame, tail: &[i64], head: &[i64]) -> Vec<Vec<i64>> {
    let work = |b: usize| -> i64 {
        let jobs = frame.blocks.blocks[b].jobs.iter().map(|&j| &frame.project.jobs[j]);
        jobs.filter(|job| matches!(job.hands, Hands::Work(_))).map(|job| job.minutes).sum()
    };
    let followers = |b: usize| frame.blocks.blocks[b].after.len() as i64;
    let all = 0..frame.blocks.blocks.len();
    vec![
        all.clone().map(|b| -tail[b]).collect(),
        all.clone().map(|b| head[b] - tail[b]).collect(),
        all.clone().map(|b| head[b]).collect(),
        all.clone().map(|b| -tail[b] - work(b)).collect(),
        all.map(|b| -followers(b) * 10_000 - tail[b]).collect(),
    ]
}
