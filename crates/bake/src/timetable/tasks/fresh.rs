//! Icing is made a bowl at a time, and again where it would be kept too long.

use super::{Builder, New};
use crate::Mass;
use crate::timetable::moment::minute;
use crate::timetable::plan::{Answer, Hands, Placed, ROUNDS, Schedule, plan};
use crate::timetable::table::STEP;
use crate::timetable::{Log, Rate, Task, TaskKind, Tasks};
use gable_words::tr;

/// Icing that is made, and what it is for.
#[derive(Clone, Debug, PartialEq)]
pub struct Bowl {
    /// Stable name of the task that makes it first.
    pub mix: String,
    /// How many bowls there are of it.
    pub bowls: f64,
    /// Stable names of the tasks that take it.
    pub uses: Vec<String>,
}

/// How often times are looked for until no icing is kept too long: more bowls move what comes before and after them.
const PASSES: usize = 8;
/// Fresh icing is made for what is done within a day, minutes.
const SOON: i64 = 1440;

/// Work for which icing is too old.
struct Stale {
    /// The work.
    job: usize,
    /// Whether nothing is done with the icing before.
    first: bool,
    /// The task that makes the icing that is too old; none if it is made.
    from: Option<usize>,
}

/// When icing is made, by which task if that is left to do, and for how much of the work.
struct Made {
    at: i64,
    job: Option<usize>,
    uses: usize,
}

/// Work that takes icing, as it is planned.
struct Use {
    from: i64,
    to: i64,
    job: usize,
}

impl Bowl {
    /// The task that makes it again for a task.
    fn again(&self, id: &str) -> String {
        format!("{}/for/{id}", self.mix)
    }

    /// Whether a task makes it, at first or again.
    fn is_made_by(&self, id: &str) -> bool {
        id.strip_prefix(self.mix.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with("/for/"))
    }
}

impl Builder<'_> {
    /// Makes icing for so many things of all copies in hand, a bowl at a time.
    pub(super) fn make_icing(&mut self, key: &str, name: String, each: Mass) -> usize {
        let bowls = (each.g() * self.go.times() as f64 / self.rate(Rate::Bowl).max(1.0)).ceil().max(1.0);
        let new = New { kind: TaskKind::Icing, key, name, pieces: Vec::new(), minutes: self.beating(bowls) };
        let block = self.block();
        let job = self.add_times(new, (Hands::Work(1), block), 1);
        self.may_stop(job, bowls);
        job
    }

    /// What the icing that a task makes is for.
    pub(super) fn bowl(&mut self, made: usize, uses: &[usize]) {
        uses.iter().for_each(|&task| self.after(made, task));
        let uses = uses.iter().map(|&task| self.tasks[task].id.clone()).collect();
        let bowls = self.tasks[made].usual / self.beating(1.0);
        self.bowls.push(Bowl { mix: self.tasks[made].id.clone(), bowls, uses });
    }

    /// Minutes to beat so many bowls.
    fn beating(&self, bowls: f64) -> f64 {
        bowls * self.rate(Rate::BeatIcing).max(1.0)
    }

    /// How long icing keeps, minutes.
    fn icing_keeps(&self) -> i64 {
        (self.rate(Rate::IcingKeeps) * 60.0) as i64
    }

    /// Between two bowls it may be laid down.
    fn may_stop(&mut self, job: usize, bowls: f64) {
        let one = self.beating(1.0).ceil() as i64;
        self.project.jobs[job].split = (bowls > 1.0).then_some(one.max(1));
    }

    /// The tasks, with icing made again wherever it would be kept too long by their timetable. Work that takes longer than
    /// icing keeps has icing that is fresh when it begins.
    pub(in crate::timetable) fn fresh(mut self, log: &Log) -> Tasks {
        for _ in 0..PASSES {
            let schedule = match plan(&self.project.in_steps(STEP), ROUNDS) {
                Ok(Answer::Fits(plan)) => plan.schedule,
                Ok(Answer::DoesNotFit(trouble)) => trouble.schedule,
                // Whoever asks for the timetable is told.
                Err(_) => break,
            };
            let made_again = (0..self.bowls.len()).filter(|&bowl| self.mix_again(bowl, &schedule, log)).count();
            if made_again == 0 {
                break;
            }
        }
        self.finished()
    }

    /// Makes the icing of a bowl again for what it is too old for and what comes after that; whether there is any.
    fn mix_again(&mut self, bowl: usize, schedule: &Schedule, log: &Log) -> bool {
        let (stale, made) = self.stale(bowl, schedule, log);
        if stale.is_empty() {
            return false;
        }
        let own = &self.bowls[bowl];
        let (all, uses) = (own.bowls, own.uses.len().max(1));
        let bowls = |made: &Made| (all * made.uses as f64 / uses as f64).ceil().max(1.0);
        let (before, new) = made.split_at(made.len() - stale.len());
        for made in before {
            // What was begun stays as much as it is.
            if let Some(job) = made.job.filter(|job| log.of(&self.tasks[*job].id).is_none()) {
                self.make(job, bowls(made));
            }
        }
        for (stale, made) in stale.iter().zip(new) {
            let job = match stale.from.filter(|_| stale.first) {
                // Nothing is done with it before, so it is made later.
                Some(mix) => {
                    self.project.jobs[mix].block = self.project.jobs[stale.job].block;
                    self.make(mix, bowls(made));
                    mix
                }
                None => self.mix_some(bowl, stale.job, bowls(made), log),
            };
            self.at_once(job, stale.job, SOON.min(self.icing_keeps()));
        }
        true
    }

    /// The work for which the icing of a bowl is too old and that has none of its own; and when icing is made, last that for
    /// this work.
    fn stale(&self, bowl: usize, schedule: &Schedule, log: &Log) -> (Vec<Stale>, Vec<Made>) {
        let own = &self.bowls[bowl];
        let mut made = self.made(own, schedule, log);
        let mut stale = Vec::new();
        for (k, taken) in self.uses(own, schedule).iter().enumerate() {
            let last = (0..made.len()).filter(|&m| made[m].at <= taken.from).max_by_key(|&m| made[m].at);
            let again = own.again(&self.tasks[taken.job].id);
            let keeps = last.is_some_and(|last| taken.to - made[last].at <= self.icing_keeps());
            match last {
                Some(last) if keeps || self.tasks.iter().any(|task| task.id == again) => made[last].uses += 1,
                _ => {
                    let from = last.and_then(|last| made[last].job);
                    stale.push(Stale { job: taken.job, first: k == 0, from });
                    made.push(Made { at: taken.from, job: None, uses: 1 });
                }
            }
        }
        (stale, made)
    }

    /// What takes the icing of a bowl, in the order in which it is begun.
    fn uses(&self, bowl: &Bowl, schedule: &Schedule) -> Vec<Use> {
        let of = |(job, task): (usize, &Task)| {
            let placed = schedule.placed.get(job)?.as_ref().filter(|_| bowl.uses.contains(&task.id))?;
            Some(Use { from: placed.start(), to: placed.end(), job })
        };
        let mut uses: Vec<Use> = self.tasks.iter().enumerate().filter_map(of).collect();
        uses.sort_by_key(|own| (own.from, own.job));
        uses
    }

    /// When the icing of a bowl is or was made.
    fn made(&self, bowl: &Bowl, schedule: &Schedule, log: &Log) -> Vec<Made> {
        let left = self.tasks.iter().enumerate().filter(|(_, task)| bowl.is_made_by(&task.id));
        let left = left.filter_map(|(k, _)| {
            let at = schedule.placed.get(k)?.as_ref().map(Placed::end)?;
            Some(Made { at, job: Some(k), uses: 0 })
        });
        let done = log.ticks.iter().filter(|tick| bowl.is_made_by(&tick.id));
        left.chain(done.filter_map(|tick| Some(Made { at: minute(tick.done?), job: None, uses: 0 }))).collect()
    }

    /// Makes some of the icing apart, in one go with what it is for first.
    fn mix_some(&mut self, bowl: usize, first: usize, bowls: f64, log: &Log) -> usize {
        let id = self.bowls[bowl].again(&self.tasks[first].id);
        let name = tr!("Make fresh icing: {}", self.tasks[first].name);
        let new = New { kind: TaskKind::Icing, key: "", name, pieces: Vec::new(), minutes: self.beating(1.0) };
        let block = self.project.jobs[first].block.unwrap_or_default();
        let job = self.push(new, Vec::new(), (Hands::Work(1), block));
        self.make(job, bowls);
        let worked = log.of(&id).and_then(|tick| tick.minutes).unwrap_or(0.0).round() as i64;
        self.project.jobs[job].minutes = (self.project.jobs[job].minutes - worked).max(1);
        self.tasks[job].id = id;
        for spare in self.project.spare.iter_mut().filter(|spare| spare.jobs.contains(&first)) {
            spare.jobs.push(job);
        }
        job
    }

    /// Sets how many bowls a task makes.
    fn make(&mut self, job: usize, bowls: f64) {
        let usual = self.beating(bowls);
        self.tasks[job].usual = usual;
        self.project.jobs[job].minutes = self.minutes(TaskKind::Icing, usual);
        self.may_stop(job, bowls);
    }
}

impl Tasks {
    /// Tasks that make icing again and are not among those known: those that are left, and those that are done.
    pub(in crate::timetable) fn mixed_again(&self, known: &[Task], log: &Log) -> Vec<Task> {
        let is_new = |id: &str| known.iter().all(|task| task.id != id);
        let again = |id: &str| self.bowls.iter().any(|bowl| bowl.mix != id && bowl.is_made_by(id));
        let mut more: Vec<Task> =
            self.tasks.iter().filter(|task| again(&task.id) && is_new(&task.id)).cloned().collect();
        for tick in log.ticks.iter().filter(|tick| again(&tick.id) && is_new(&tick.id)) {
            let what = tick.id.split_once("/for/").and_then(|(_, id)| known.iter().find(|task| task.id == id));
            if let Some(what) = what.filter(|_| more.iter().all(|task| task.id != tick.id)) {
                let name = tr!("Make fresh icing: {}", what.name);
                more.push(Task {
                    id: tick.id.clone(),
                    kind: TaskKind::Icing,
                    name,
                    pieces: Vec::new(),
                    usual: tick.usual,
                });
            }
        }
        more
    }
}
