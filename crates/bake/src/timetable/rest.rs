//! What is left to do when some of it is done.

use super::moment::minute;
use super::plan::{Hands, Hold, Job, Link, Spare, Taken};
use super::{Log, Task, Tasks};
use std::collections::BTreeMap;

/// Something that goes on by itself since before now.
#[derive(Clone, Debug, PartialEq)]
pub struct Running {
    /// What it is.
    pub task: Task,
    /// From when to when, in minutes as in the project.
    pub span: (i64, i64),
    /// In which kitchen.
    pub kitchen: usize,
}

impl Tasks {
    /// What is left to do from now on, which is when the project starts. What waits and could begin is under way, without
    /// being ticked off; what was begun takes only the rest of its time.
    #[must_use]
    pub fn rest(&self, log: &Log) -> Self {
        self.rest_at(self.project.start, log)
    }

    /// The same from another minute on.
    pub(super) fn rest_at(&self, now: i64, log: &Log) -> Self {
        let mut own = self.clone();
        own.project.start = now;
        own.running.retain(|running| running.span.1 > now);
        own.project.taken.retain(|taken| taken.to > now);
        own.left(log)
    }

    fn left(&self, log: &Log) -> Self {
        let ends = self.ends(log);
        let now = self.project.start;
        let mut rest = Self { tasks: Vec::new(), ..self.clone() };
        for dough in rest.doughs.iter_mut().filter(|dough| dough.at.is_none()) {
            dough.at = self.find(&dough.mix).and_then(|mix| ends[mix]);
        }
        rest.project.jobs.clear();
        let mut index = BTreeMap::new();
        for (k, task) in self.tasks.iter().enumerate() {
            match ends[k] {
                None => {
                    index.insert(k, rest.tasks.len());
                    rest.tasks.push(task.clone());
                    rest.project.jobs.push(self.job_left(k, log, &ends));
                }
                Some(end) if end > now => rest.running.push(self.running(k, end, log)),
                Some(_) => {}
            }
        }
        let both =
            |link: &Link| Some(Link { before: *index.get(&link.before)?, after: *index.get(&link.after)?, ..*link });
        rest.project.links = self.project.links.iter().filter_map(both).collect();
        rest.project.holds = self.project.holds.iter().filter_map(|hold| self.hold_left(hold, &index)).collect();
        let spare = |spare: &Spare| {
            let jobs: Vec<usize> = spare.jobs.iter().filter_map(|job| index.get(job).copied()).collect();
            (!jobs.is_empty()).then(|| Spare { name: spare.name.clone(), jobs })
        };
        rest.project.spare = self.project.spare.iter().filter_map(spare).collect();
        for running in rest.running.iter().skip(self.running.len()) {
            let job = self.find(&running.task.id).map(|k| (k, &self.project.jobs[k]));
            let Some((k, job)) = job else { continue };
            // A hold that ends with what is under way ends when that does.
            let holds = self.project.holds.iter().filter(|hold| hold.to == k).map(|hold| hold.need);
            let needs = job.needs.iter().copied().chain(holds);
            let (from, to) = (now, running.span.1);
            rest.project.taken.extend(needs.map(|need| Taken { kitchen: running.kitchen, need, from, to }));
        }
        rest
    }

    /// When each task was done, or will be if it is under way by itself; none for what is left.
    fn ends(&self, log: &Log) -> Vec<Option<i64>> {
        let mut ends: Vec<Option<i64>> =
            self.tasks.iter().map(|task| log.of(&task.id).and_then(|tick| tick.done).map(minute)).collect();
        // What is known to be over counts before what may have begun.
        self.found(&mut ends, Self::over);
        self.found(&mut ends, Self::began);
        ends
    }

    /// Fills in what `end` finds. Waits follow work and each other; in a few rounds all of a row are found.
    fn found(&self, ends: &mut [Option<i64>], end: impl Fn(&Self, usize, &[Option<i64>]) -> Option<i64>) {
        let mut changed = true;
        while changed {
            changed = false;
            for k in 0..self.tasks.len() {
                if ends[k].is_none() {
                    ends[k] = end(self, k, ends);
                    changed |= ends[k].is_some();
                }
            }
        }
    }

    /// When a wait was over of which nobody said so: at the latest when what follows it was begun.
    fn over(&self, k: usize, ends: &[Option<i64>]) -> Option<i64> {
        if !self.tasks[k].kind.is_wait() {
            return None;
        }
        let after = self.project.links.iter().filter(|link| link.before == k);
        let begun =
            after.filter_map(|link| Some(ends[link.after]? - self.project.jobs[link.after].minutes - link.least));
        begun.min().filter(|end| *end <= self.project.start)
    }

    /// When a wait that has begun by itself ends: it began when all before it was done, if that is past.
    fn began(&self, k: usize, ends: &[Option<i64>]) -> Option<i64> {
        if self.project.jobs[k].hands != Hands::Alone {
            return None;
        }
        let before = self.project.links.iter().filter(|link| link.after == k);
        let times: Vec<Option<i64>> = before.map(|link| Some(ends[link.before]? + link.least)).collect();
        let begin = times.into_iter().collect::<Option<Vec<i64>>>()?.into_iter().max()?;
        (begin <= self.project.start).then_some(begin + self.project.jobs[k].minutes)
    }

    fn running(&self, k: usize, end: i64, log: &Log) -> Running {
        let block = self.project.jobs[k].block;
        Running {
            task: self.tasks[k].clone(),
            span: (end - self.project.jobs[k].minutes, end),
            kitchen: self.kitchen_of(k, log, block).or(self.project.jobs[k].kitchen).unwrap_or(0),
        }
    }

    /// The kitchen in which something of a block was done.
    fn kitchen_of(&self, k: usize, log: &Log, block: Option<usize>) -> Option<usize> {
        let same = |j: &usize| *j == k || (block.is_some() && self.project.jobs[*j].block == block);
        let mut kitchens = (0..self.tasks.len()).filter(same).filter_map(|j| log.of(&self.tasks[j].id)?.kitchen);
        kitchens.rfind(|&kitchen| kitchen < self.project.kitchens)
    }

    /// A job of which something before it, or some of itself, is done.
    fn job_left(&self, k: usize, log: &Log, ends: &[Option<i64>]) -> Job {
        let mut job = self.project.jobs[k].clone();
        if let Some(worked) = log.of(&self.tasks[k].id).and_then(|tick| tick.minutes) {
            job.minutes = (job.minutes - worked.round() as i64).max(1);
        }
        job.kitchen = self.kitchen_of(k, log, job.block).or(job.kitchen);
        for link in self.project.links.iter().filter(|link| link.after == k) {
            let Some(end) = ends[link.before] else { continue };
            job.not_before = job.not_before.max(Some(end + link.least));
            let by = link.most.map(|most| (end + most).max(self.project.start));
            job.not_after = [job.not_after, by].into_iter().flatten().min();
        }
        job
    }

    /// A hold, from the first job of its block that is left; none if its last is done.
    fn hold_left(&self, hold: &Hold, index: &BTreeMap<usize, usize>) -> Option<Hold> {
        let block = self.project.jobs[hold.from].block;
        let to = *index.get(&hold.to)?;
        let from =
            (hold.from..=hold.to).filter(|&j| self.project.jobs[j].block == block).find_map(|j| index.get(&j).copied());
        Some(Hold { from: from.unwrap_or(to), to, need: hold.need })
    }
}
