use super::improve::Ends;
use super::serial::pull;
use super::trouble::{Trouble, trouble};
use super::{Fault, Placed, Project, Schedule};

/// How often a plan is tried to be improved: a fixed number, so that the same project has the same plan everywhere.
pub const ROUNDS: usize = 40;

/// What came of planning.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// It can be done.
    Fits(Plan),
    /// It cannot be done in time.
    DoesNotFit(Trouble),
}

/// A schedule that holds, and how much room there is in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// When everything is done; every job has its time.
    pub schedule: Schedule,
    /// Per job by how many minutes it may begin later: if all that comes after it is then late too, everything is still done
    /// when it is due.
    pub slack: Vec<i64>,
    /// Per job whether the whole gets longer when it is moved in either direction.
    pub critical: Vec<bool>,
}

impl Plan {
    /// When the first job begins.
    pub fn start(&self) -> i64 {
        self.schedule.start().unwrap_or(0)
    }

    /// When the last job is done.
    pub fn end(&self) -> i64 {
        self.schedule.end().unwrap_or(0)
    }

    fn of(ends: &Ends, schedule: Schedule) -> Self {
        let due = ends.ahead.project.due;
        let (start, end) = (schedule.start().unwrap_or(due), schedule.end().unwrap_or(due));
        let late = |end: i64| pull(&ends.back, &schedule.turned(), -end).turned();
        let (early, last, latest) = (pull(&ends.ahead, &schedule, start), late(end), late(due));
        let at = |schedule: &Schedule, job: usize| schedule.placed[job].as_ref().map_or(0, Placed::start);
        let jobs = 0..schedule.placed.len();
        Self {
            slack: jobs.clone().map(|k| at(&latest, k) - at(&schedule, k)).collect(),
            critical: jobs.map(|k| at(&last, k) <= at(&early, k)).collect(),
            schedule,
        }
    }
}

/// Plans a project backwards from when it is due, with its reserve if that can be had. If there is no time for that,
/// everything is done as early as it can be.
///
/// # Errors
/// What is wrong with the project.
pub fn plan(project: &Project, rounds: usize) -> Result<Answer, Vec<Fault>> {
    let faults = project.faults();
    if !faults.is_empty() {
        return Err(faults);
    }
    let turned = project.turned();
    let ends = Ends::of(project, &turned).map_err(|ring| vec![Fault::Ring(ring)])?;
    let late = ends.latest(project.due - project.reserve, rounds);
    if in_time(project, &late) {
        return Ok(Answer::Fits(Plan::of(&ends, late)));
    }
    let early = ends.earliest(rounds);
    if in_time(project, &early) {
        return Ok(Answer::Fits(Plan::of(&ends, early)));
    }
    Ok(Answer::DoesNotFit(trouble(&ends, early)))
}

/// Whether everything has its time between the beginning and when it is due.
fn in_time(project: &Project, schedule: &Schedule) -> bool {
    let held = |(placed, job): (&Option<Placed>, &super::Job)| {
        let from = job.not_before.unwrap_or(project.start).max(project.start);
        placed.as_ref().is_some_and(|p| p.start() >= from && p.end() <= project.due)
    };
    schedule.placed.len() == project.jobs.len() && schedule.placed.iter().zip(&project.jobs).all(held)
}
