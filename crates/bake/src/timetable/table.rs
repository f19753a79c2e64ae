use super::moment::{minute, moment};
use super::plan::{Answer, Change, Fault, Help, Hours, Plan, Schedule, Trouble, helps, plan};
use super::{Ask, Task, TaskKind, Tasks, words};
use crate::PieceOf;
use jiff::ToSpan;
use jiff::civil::{DateTime, Time, Weekday, time};

/// How often a plan is improved while it is only tried whether something helps.
const TRIES: usize = 3;
/// Evenings that are tried for each helper who has nothing on them yet.
const EVENINGS: usize = 5;

/// Nobody begins at eleven minutes past six, minutes.
pub(super) const STEP: i64 = 5;

/// When everything is done, and by whom.
#[derive(Clone, Debug, PartialEq)]
pub struct Timetable {
    /// The tasks in the order in which they begin.
    pub entries: Vec<Entry>,
    /// When the house must stand.
    pub stand_by: DateTime,
    /// When it stands by this timetable; none if not everything finds a time.
    pub stands: Option<DateTime>,
    /// Why that is not in time, and what would help.
    pub trouble: Option<Misfit>,
    /// What else is to be known of it, in sentences.
    pub remarks: Vec<String>,
}

/// A task with its time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Stable name of the task.
    pub id: String,
    /// What kind of task it is.
    pub kind: TaskKind,
    /// What is to be done.
    pub name: String,
    /// From when to when; several where work is laid down and taken up again. In order, never empty.
    pub spans: Vec<(DateTime, DateTime)>,
    /// Who does it; nobody for what waits.
    pub who: Vec<String>,
    /// In which kitchen, by its index in [`Ask::kitchens`].
    pub kitchen: usize,
    /// How many minutes later it may begin if all that follows is then late too; none where it is too late already.
    pub slack: Option<i64>,
    /// Whether everything takes longer when it is moved either way.
    pub critical: bool,
    /// The pieces it is about.
    pub pieces: Vec<PieceOf>,
    /// Minutes in the oven, where they are exact and no round number.
    pub oven: Option<i64>,
}

impl Entry {
    /// When it begins.
    pub fn from(&self) -> DateTime {
        self.spans.first().map_or(DateTime::MAX, |span| span.0)
    }

    /// When it is done.
    pub fn to(&self) -> DateTime {
        self.spans.last().map_or(DateTime::MAX, |span| span.1)
    }

    /// Minutes of work or waiting in round steps, breaks left out.
    pub fn minutes(&self) -> i64 {
        self.spans.iter().map(|span| minute(span.1) - minute(span.0)).sum()
    }
}

/// Why it cannot be done in time.
#[derive(Clone, Debug, PartialEq)]
pub struct Misfit {
    /// What there is too little of, in sentences.
    pub short: Vec<String>,
    /// What was tried and makes it possible.
    pub helps: Vec<Offer>,
    /// How many tasks find no time at all.
    pub without: usize,
}

/// Something that makes it possible.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// What would be different, in words.
    pub words: String,
    /// When the house then stands.
    pub stands: DateTime,
    /// The same for the planner.
    pub changes: Vec<Change>,
}

impl Timetable {
    /// Plans the tasks. `rounds` is how often that is improved on, [`super::plan::ROUNDS`] as a rule.
    ///
    /// # Errors
    /// When the tasks or hours contradict themselves: a helper in two kitchens at once, and the like.
    pub fn of(tasks: &Tasks, ask: &Ask, rounds: usize) -> Result<Self, Vec<Fault>> {
        let tasks = &Tasks { project: tasks.project.in_steps(STEP), ..tasks.clone() };
        Ok(match plan(&tasks.project, rounds)? {
            Answer::Fits(plan) => Self {
                entries: entries(tasks, ask, &plan.schedule, Some(&plan)),
                stand_by: ask.stand_by,
                stands: Some(plan.schedule.end().map_or(ask.now, moment)),
                trouble: None,
                remarks: tasks.dough_kept(&plan.schedule, ask),
            },
            Answer::DoesNotFit(trouble) => Self::late(tasks, ask, &trouble),
        })
    }

    fn late(tasks: &Tasks, ask: &Ask, trouble: &Trouble) -> Self {
        let helps = helps(&tasks.project, &more_hours(ask), TRIES);
        let offer = |help: Help| {
            let said: Vec<String> = help.changes.iter().map(|change| words::change(change, tasks, ask)).collect();
            Offer { words: said.join(", and "), stands: moment(help.end), changes: help.changes }
        };
        let misfit = Misfit {
            short: trouble.short.iter().map(|short| words::short(short, tasks)).collect(),
            helps: helps.into_iter().map(offer).collect(),
            without: trouble.schedule.placed.iter().filter(|placed| placed.is_none()).count(),
        };
        let whole = trouble.schedule.is_whole();
        Self {
            entries: entries(tasks, ask, &trouble.schedule, None),
            stand_by: ask.stand_by,
            stands: trouble.schedule.end().filter(|_| whole).map(moment),
            trouble: Some(misfit),
            remarks: tasks.dough_kept(&trouble.schedule, ask),
        }
    }

    /// The entry of a task.
    pub fn entry(&self, id: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.id == id)
    }
}

fn entries(tasks: &Tasks, ask: &Ask, schedule: &Schedule, plan: Option<&Plan>) -> Vec<Entry> {
    let mut entries = Vec::new();
    for (k, task) in tasks.tasks.iter().enumerate() {
        let Some(Some(placed)) = schedule.placed.get(k) else { continue };
        entries.push(Entry {
            id: task.id.clone(),
            kind: task.kind,
            name: task.name.clone(),
            spans: placed
                .spans
                .iter()
                .map(|&span| in_oven(task, span))
                .map(|(from, to)| (moment(from), moment(to)))
                .collect(),
            who: placed.people.iter().filter_map(|&p| ask.helpers.get(p)).map(|h| h.name.clone()).collect(),
            kitchen: placed.kitchen,
            slack: plan.and_then(|plan| plan.slack.get(k).copied()),
            critical: plan.is_some_and(|plan| plan.critical.get(k).copied().unwrap_or(false)),
            pieces: task.pieces.clone(),
            oven: oven(task),
        });
    }
    entries.extend(tasks.running.iter().map(|running| Entry {
        id: running.task.id.clone(),
        kind: running.task.kind,
        name: running.task.name.clone(),
        spans: vec![(moment(running.span.0), moment(running.span.1))],
        who: Vec::new(),
        kitchen: running.kitchen,
        slack: None,
        critical: false,
        oven: oven(&running.task),
        pieces: running.task.pieces.clone(),
    }));
    entries.sort_by_key(|entry| (entry.from(), entry.to()));
    entries
}

/// When something is in the oven: put in as late as it takes to be done when it is taken out, on a round minute.
fn in_oven(task: &Task, (from, to): (i64, i64)) -> (i64, i64) {
    (oven(task).map_or(from, |minutes| from.max(to - minutes)), to)
}

/// Minutes that a task is in the oven.
fn oven(task: &Task) -> Option<i64> {
    matches!(task.kind, TaskKind::Bake | TaskKind::Melt).then(|| task.usual.round() as i64)
}

/// Hours that helpers might find: evenings on which they have none, and mornings of weekends.
fn more_hours(ask: &Ask) -> Vec<Change> {
    let mut offers = Vec::new();
    for (person, helper) in ask.helpers.iter().enumerate() {
        let kitchen = helper.shifts.first().map_or(ask.home, |shift| shift.kitchen);
        let mut own = Vec::new();
        let mut day = ask.now.date();
        while day <= ask.stand_by.date() && own.len() < 366 {
            let weekend = matches!(day.weekday(), Weekday::Saturday | Weekday::Sunday);
            let mut windows = vec![(time(18, 0, 0, 0), time(21, 0, 0, 0))];
            if weekend {
                windows.push((time(9, 0, 0, 0), time(12, 0, 0, 0)));
            }
            let hours = |(from, to): (Time, Time)| Hours {
                kitchen,
                from: minute(day.to_datetime(from)),
                to: minute(day.to_datetime(to)),
            };
            own.extend(windows.into_iter().map(hours).filter(|hours| is_free(ask, person, *hours)));
            let Ok(next) = day.checked_add(1.days()) else { break };
            day = next;
        }
        // Spread over the days that there are.
        let step = own.len().div_ceil(EVENINGS).max(1);
        offers.extend(own.into_iter().step_by(step).map(|hours| Change::Hours(person, hours)));
    }
    offers
}

fn is_free(ask: &Ask, person: usize, hours: Hours) -> bool {
    let inside = minute(ask.now) <= hours.from && hours.to <= minute(ask.stand_by);
    let shifts = ask.helpers.get(person).map_or(&[][..], |helper| &helper.shifts);
    let apart = shifts.iter().map(|shift| shift.minutes()).all(|(from, to)| to <= hours.from || hours.to <= from);
    inside && apart
}
