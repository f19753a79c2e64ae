//! Everything that is to be done for a house, and what waits for what.

mod again;
mod bake;
#[cfg(test)]
mod bound;
mod flat;
mod stand;
#[cfg(test)]
pub(super) mod tests;

use super::moment::minute;
use super::plan::{Hands, Hold, Hours, Job, Link, Need, Person, Place, Project, Spare};
use super::rest::Running;
use super::{Ask, Rate, TaskKind};
use crate::{About, DoughNeeds, Figures, Ovenfuls};
use gable_dress::Covered;
use gable_shell::PartId;
use std::collections::{BTreeMap, BTreeSet};

/// Something to do or to wait for.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// Stable name, the same as long as the house has the piece that it is about.
    pub id: String,
    /// What kind.
    pub kind: TaskKind,
    /// For people: 'Bake walls 1'.
    pub name: String,
    /// The pieces it is about, as indices into [`gable_shell::Solved::pieces`].
    pub pieces: Vec<usize>,
    /// Minutes by the rates alone, before what was learned of the person.
    pub usual: f64,
}

/// The tasks of a house; task k is job k of the project.
#[derive(Clone, Debug, PartialEq)]
pub struct Tasks {
    /// What it is for people.
    pub tasks: Vec<Task>,
    /// What it is for the planner.
    pub project: Project,
    /// What goes on by itself since before now, and is no job any more.
    pub running: Vec<Running>,
}

/// Kinds of places.
const OVEN: usize = 0;
const TRAY: usize = 1;
const FREEZER: usize = 2;
const TABLE: usize = 3;

/// Long work is laid down only if so many minutes of it can be done at once.
const WORTH: i64 = 15;

impl Tasks {
    /// All tasks of a house that is baked on these trays. What is larger than every tray is on none, so it is not baked here.
    ///
    /// Without an order of assembly pieces are put up in their own order, and each waits for the one before.
    pub fn of(about: &About<'_>, ovenfuls: &Ovenfuls, dough: &DoughNeeds, figures: &Figures, ask: &Ask) -> Self {
        let mut builder = Builder::new(about, figures, ask);
        builder.bake(ovenfuls, dough);
        builder.flat();
        builder.stand();
        builder.finished()
    }

    /// The task of a name.
    pub fn find(&self, id: &str) -> Option<usize> {
        self.tasks.iter().position(|task| task.id == id)
    }
}

/// Tasks as they are collected.
pub(super) struct Builder<'a> {
    source: &'a About<'a>,
    figures: &'a Figures,
    ask: &'a Ask,
    tasks: Vec<Task>,
    project: Project,
    blocks: usize,
    running: Vec<Running>,
    /// Per piece of the house the task after which it is ready for what comes next; none for what is baked already.
    ready: Vec<Option<usize>>,
    /// Per ornament the task after which it can be stuck on.
    ornaments: BTreeMap<usize, usize>,
    /// The same of what stands free.
    extras: BTreeMap<usize, usize>,
    /// The same of doors.
    doors: BTreeMap<usize, usize>,
    /// The same of the units of finishes of dough, by piece and finish.
    units: BTreeMap<(usize, usize), BTreeSet<usize>>,
}

/// A task before it is added.
struct New<'n> {
    kind: TaskKind,
    key: &'n str,
    name: String,
    pieces: Vec<usize>,
    minutes: f64,
}

impl<'a> Builder<'a> {
    fn new(source: &'a About<'a>, figures: &'a Figures, ask: &'a Ask) -> Self {
        let project = Project {
            start: minute(ask.now),
            due: minute(ask.stand_by),
            reserve: i64::from(ask.reserve),
            kitchens: ask.kitchens.len(),
            carry: i64::from(ask.between),
            people: ask.helpers.iter().map(person).collect(),
            places: places(ask),
            ..Project::default()
        };
        Self {
            source,
            figures,
            ask,
            tasks: Vec::new(),
            project,
            blocks: 0,
            running: Vec::new(),
            ready: vec![None; source.solved.pieces.len()],
            ornaments: BTreeMap::new(),
            extras: BTreeMap::new(),
            doors: BTreeMap::new(),
            units: BTreeMap::new(),
        }
    }

    fn rate(&self, rate: Rate) -> f64 {
        self.ask.rates.get(rate)
    }

    /// How long icing, glue and paste take in this air.
    fn drying(&self, rate: Rate) -> f64 {
        self.rate(rate) * if self.ask.damp { self.rate(Rate::Damp) } else { 1.0 }
    }

    /// The number of a new block.
    fn block(&mut self) -> usize {
        self.blocks += 1;
        self.blocks
    }

    fn add(&mut self, new: New<'_>, hands: Hands, block: usize) -> usize {
        let pace = self.ask.learned.get(&new.kind).copied().filter(|_| !new.kind.is_wait()).unwrap_or(1.0);
        let minutes = (new.minutes * pace).ceil();
        let minutes = if minutes.is_finite() { (minutes as i64).clamp(1, 100_000) } else { 1 };
        self.project.jobs.push(Job { name: new.name.clone(), minutes, hands, block: Some(block), ..Job::default() });
        let id = format!("{}/{}", new.kind.word(), new.key);
        self.tasks.push(Task { id, kind: new.kind, name: new.name, pieces: new.pieces, usual: new.minutes });
        self.tasks.len() - 1
    }

    /// Work of one person, in a block of its own.
    fn work(&mut self, new: New<'_>) -> usize {
        let block = self.block();
        self.add(new, Hands::Work(1), block)
    }

    /// Work of one person and the wait that begins as soon as it is done; `sets` is what that is called.
    fn work_then(&mut self, new: New<'_>, wait: TaskKind, sets: String, minutes: f64) -> (usize, usize) {
        let block = self.block();
        let (key, pieces) = (format!("{}-{}", new.kind.word(), new.key), new.pieces.clone());
        let work = self.add(new, Hands::Work(1), block);
        let after = New { kind: wait, key: &key, name: sets, pieces, minutes };
        let wait = self.add(after, Hands::Alone, block);
        self.at_once(work, wait, 0);
        (work, wait)
    }

    /// Long work may be laid down.
    fn may_split(&mut self, job: usize) {
        let job = &mut self.project.jobs[job];
        job.split = (job.minutes >= 2 * WORTH).then_some(WORTH);
    }

    fn after(&mut self, before: usize, after: usize) {
        self.lag(before, after, 0);
    }

    fn lag(&mut self, before: usize, after: usize, least: i64) {
        let link = Link { before, after, least, most: None };
        if !self.project.links.contains(&link) {
            self.project.links.push(link);
        }
    }

    fn at_once(&mut self, before: usize, after: usize, most: i64) {
        self.project.links.push(Link { before, after, least: 0, most: Some(most) });
    }

    fn hold(&mut self, from: usize, to: usize, kind: usize, units: u32) {
        self.project.holds.push(Hold { from, to, need: Need { kind, units } });
    }

    /// Room on a table for areas in mm², in units; never more than the largest table, for what hangs over.
    fn table(&self, areas: impl Iterator<Item = f64>) -> u32 {
        let most = self.ask.kitchens.iter().map(|k| k.table).max().unwrap_or(0);
        let units = (areas.sum::<f64>() / 10_000.0).ceil().max(1.0) as u32;
        units.min(most)
    }

    fn home(&mut self, job: usize) {
        self.project.jobs[job].kitchen = Some(self.ask.home);
    }

    fn spare(&mut self, name: String, jobs: &[usize]) {
        match self.project.spare.iter_mut().find(|spare| spare.name == name) {
            Some(spare) => spare.jobs.extend(jobs),
            None => self.project.spare.push(Spare { name, jobs: jobs.to_vec() }),
        }
    }

    /// Pieces in words: one by its name, several as those of their part.
    fn named(&self, pieces: &[usize]) -> String {
        match pieces {
            [] => String::new(),
            [one] => self.piece_name(*one).to_owned(),
            [one, ..] => {
                let part = self.source.solved.pieces.get(*one).map(|piece| self.part_name(&piece.part));
                format!("{}: {} pieces", part.unwrap_or_default(), pieces.len())
            }
        }
    }

    fn part_name(&self, part: &PartId) -> String {
        self.source.house.part(part).map_or_else(|| part.0.clone(), |part| part.name.clone())
    }

    /// The pieces of each part, in the order of parts.
    fn parts(&self) -> Vec<(PartId, Vec<usize>)> {
        let mut parts: Vec<(PartId, Vec<usize>)> = Vec::new();
        for (k, piece) in self.source.solved.pieces.iter().enumerate() {
            match parts.iter_mut().find(|(id, _)| *id == piece.part) {
                Some((_, pieces)) => pieces.push(k),
                None => parts.push((piece.part.clone(), vec![k])),
            }
        }
        parts
    }

    fn piece_name(&self, piece: usize) -> &str {
        self.source.solved.pieces.get(piece).map_or("", |piece| piece.name.as_str())
    }

    fn piece_id(&self, piece: usize) -> &str {
        self.source.solved.pieces.get(piece).map_or("", |piece| piece.id.0.as_str())
    }

    /// Whether a piece is decorated while it lies flat: what stands upright is.
    fn is_flat_work(&self, piece: usize) -> bool {
        self.source.solved.pieces.get(piece).is_some_and(|piece| piece.role.is_upright())
    }
}

/// Faces of one part and one finish that take so many minutes together are decorated in one go.
const ONE_GO: f64 = 20.0;

/// Finished faces put together: of one part and one finish, as long as it does not take too long.
fn in_one_go<'c>(source: &About<'_>, faces: impl Iterator<Item = &'c Covered>) -> Vec<Vec<&'c Covered>> {
    let part = |own: &Covered| source.solved.pieces.get(own.piece).map(|piece| piece.part.clone());
    let mut groups: Vec<Vec<&Covered>> = Vec::new();
    for own in faces {
        let fits = |group: &&mut Vec<&Covered>| {
            let sum: f64 = group.iter().map(|other| other.tally.minutes).sum();
            let one = group.first().is_some_and(|other| other.finish == own.finish && part(other) == part(own));
            one && sum + own.tally.minutes <= ONE_GO && group.iter().all(|other| other.piece != own.piece)
        };
        match groups.iter_mut().find(fits) {
            Some(group) => group.push(own),
            None => groups.push(vec![own]),
        }
    }
    groups
}

/// '1 leaf', '3 leaves'.
fn counted(count: usize, one: &str, several: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { several })
}

fn person(helper: &super::Helper) -> Person {
    let hours = |shift: &super::Shift| {
        let (from, to) = shift.minutes();
        Hours { kitchen: shift.kitchen, from, to }
    };
    Person { name: helper.name.clone(), hours: helper.shifts.iter().map(hours).collect() }
}

fn places(ask: &Ask) -> Vec<Place> {
    let of = |(kitchen, own): (usize, &super::Workplace)| {
        let place = |kind, name: &str, units, more| Place { name: name.to_owned(), kitchen, kind, units, more };
        [
            place(OVEN, "oven", own.ovens * own.shelves, own.shelves),
            place(TRAY, "tray", own.trays, 1),
            place(FREEZER, "shelf in the freezer", own.freezer, 1),
            place(TABLE, "table of half a square metre", own.table, 50),
        ]
    };
    ask.kitchens.iter().enumerate().flat_map(of).collect()
}
