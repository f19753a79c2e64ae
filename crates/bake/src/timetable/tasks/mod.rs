//! Everything that is to be done for the houses of a bake, and what waits for what.

mod again;
mod bake;
#[cfg(test)]
mod bound;
mod dough;
mod flat;
mod fresh;
mod go;
mod hand_over;
mod stand;
#[cfg(test)]
pub(super) mod tests;

use super::moment::minute;
use super::plan::{Hands, Hold, Hours, Job, Link, Need, Person, Place, Project, Spare};
use super::rest::Running;
use super::{Ask, Rate, TaskKind};
use crate::{About, Figures, IcingNeed, IcingUse, Lots, Mass, Needs, Ovenfuls, PieceOf};
use bake::Item;
pub use dough::Mixed;
pub use fresh::Bowl;
use gable_dress::Covered;
use gable_plane::ring_area;
use gable_shell::PartId;
use gable_words::tr;
use go::Go;
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
    /// The pieces it is about.
    pub pieces: Vec<PieceOf>,
    /// Minutes by the rates alone, before what was learned of the person.
    pub usual: f64,
}

/// The tasks of a bake; task k is job k of the project.
#[derive(Clone, Debug, PartialEq)]
pub struct Tasks {
    /// What it is for people.
    pub tasks: Vec<Task>,
    /// What it is for the planner.
    pub project: Project,
    /// What goes on by itself since before now, and is no job any more.
    pub running: Vec<Running>,
    /// Icing that is made, and what it is for.
    pub bowls: Vec<Bowl>,
    /// Dough that is mixed, and what is cut from it.
    pub doughs: Vec<Mixed>,
}

/// The oven for so many minutes: only trays that take as long share one, because the others would be opened on.
fn oven(minutes: f64) -> Need {
    Need { sort: Some(minutes.round().max(0.0) as usize), ..Need::of(OVEN, 1) }
}

/// Kinds of places.
const OVEN: usize = 0;
const TRAY: usize = 1;
const FREEZER: usize = 2;
const TABLE: usize = 3;

/// Long work is laid down only if so many minutes of it can be done at once.
const WORTH: i64 = 15;

impl Tasks {
    /// All tasks of houses that take `needs`, one for each house, and are baked on these trays. What is larger than every tray
    /// is on none, so it is not baked here.
    ///
    /// What is done to several copies alike is done in one go. Without an order of assembly pieces are put up in their own
    /// order, and each waits for the one before.
    pub fn of(lots: &Lots<'_>, needs: &[&Needs], ovenfuls: &Ovenfuls, figures: &Figures, ask: &Ask) -> Self {
        let mut builder = Builder::new(lots, figures, ask);
        let doughs: Vec<_> = lots.iter().zip(needs).map(|(lot, needs)| (&needs.dough, lot.copies)).collect();
        builder.bake(ovenfuls, &doughs);
        let mut goes = builder.goes();
        goes.iter_mut().zip(needs_of(lots, needs)).for_each(|(go, needs)| builder.within(go, |own| own.flat(needs)));
        let first = builder.tasks.len();
        for (go, needs) in goes.iter_mut().zip(needs_of(lots, needs)) {
            builder.within(go, |own| own.stand(needs));
        }
        builder.hand_over(first);
        builder.finished()
    }

    /// The task of a name.
    pub fn find(&self, id: &str) -> Option<usize> {
        self.tasks.iter().position(|task| task.id == id)
    }
}

/// Tasks as they are collected.
pub(super) struct Builder<'a> {
    lots: &'a Lots<'a>,
    /// The house that tasks are added for.
    source: &'a About<'a>,
    figures: &'a Figures,
    ask: &'a Ask,
    tasks: Vec<Task>,
    project: Project,
    blocks: usize,
    running: Vec<Running>,
    bowls: Vec<Bowl>,
    doughs: Vec<Mixed>,
    /// Links that are there already: before, after, at least.
    linked: BTreeSet<(usize, usize, i64)>,
    /// Per house, copy and thing the task after which it is baked and dry.
    baked: BTreeMap<(usize, usize, Item), BTreeSet<usize>>,
    /// The copies that tasks are added for.
    go: Go,
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
    fn new(lots: &'a Lots<'a>, figures: &'a Figures, ask: &'a Ask) -> Self {
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
            lots,
            source: &lots.first().about,
            figures,
            ask,
            tasks: Vec::new(),
            project,
            blocks: 0,
            running: Vec::new(),
            bowls: Vec::new(),
            doughs: Vec::new(),
            linked: BTreeSet::new(),
            baked: BTreeMap::new(),
            go: Go::default(),
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

    /// A task of the copies that are in hand. Work is done to each of them, and may be laid down between two.
    fn add(&mut self, new: New<'_>, hands: Hands, block: usize) -> usize {
        let times = if matches!(hands, Hands::Work(_)) { self.go.times() } else { 1 };
        self.add_times(new, (hands, block), times)
    }

    fn add_times(&mut self, new: New<'_>, (hands, block): (Hands, usize), times: usize) -> usize {
        let pieces = self.go.pieces(&new.pieces);
        let (key, which) = (format!("{}{}", self.go.key, new.key), &self.go.words);
        let name = if which.is_empty() { new.name } else { tr!("{} ({which})", new.name) };
        let minutes = new.minutes * times as f64;
        let job = self.push(New { key: &key, name, minutes, pieces: Vec::new(), ..new }, pieces, (hands, block));
        if times > 1 {
            self.may_split(job);
        }
        job
    }

    /// A task as it is said.
    fn push(&mut self, new: New<'_>, pieces: Vec<PieceOf>, (hands, block): (Hands, usize)) -> usize {
        let minutes = self.minutes(new.kind, new.minutes);
        self.project.jobs.push(Job { name: new.name.clone(), minutes, hands, block: Some(block), ..Job::default() });
        let id = format!("{}/{}", new.kind.word(), new.key);
        self.tasks.push(Task { id, kind: new.kind, name: new.name, pieces, usual: new.minutes });
        self.tasks.len() - 1
    }

    /// Whole minutes of what usually takes so many, as fast as this person works.
    fn minutes(&self, kind: TaskKind, usual: f64) -> i64 {
        let pace = self.ask.learned.get(&kind).copied().filter(|_| !kind.is_wait()).unwrap_or(1.0);
        let minutes = (usual * pace).ceil();
        if minutes.is_finite() { (minutes as i64).clamp(1, 100_000) } else { 1 }
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
        if self.linked.insert((before, after, least)) {
            self.project.links.push(Link { before, after, least, most: None });
        }
    }

    fn at_once(&mut self, before: usize, after: usize, most: i64) {
        self.project.links.push(Link { before, after, least: 0, most: Some(most) });
    }

    fn hold(&mut self, from: usize, to: usize, kind: usize, units: u32) {
        self.project.holds.push(Hold { from, to, need: Need::of(kind, units) });
    }

    /// Room on a table for areas in mm², in units; never more than the largest table, for what hangs over.
    fn table(&self, areas: impl Iterator<Item = f64>) -> u32 {
        let most = self.ask.kitchens.iter().map(|k| k.table).max().unwrap_or(0);
        table_units(areas.sum::<f64>()).min(most)
    }

    /// The same for all copies in hand of some pieces of the house.
    fn table_of(&self, pieces: &[usize]) -> u32 {
        let area = |&k: &usize| self.source.solved.pieces.get(k).map(|own| ring_area(&own.outline));
        let times = self.go.times() as f64;
        self.table(pieces.iter().filter_map(area).map(|area| area * times))
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
                let part = part.unwrap_or_default();
                tr!("{part}: {n} piece" | "{part}: {n} pieces" % pieces.len())
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
}

/// Icing of one house for some uses, with what stays in bowls and bags.
fn icing(needs: &[IcingNeed], uses: &[IcingUse]) -> Mass {
    let of = |icing: &IcingNeed| {
        let net: Mass = icing.uses.iter().filter(|(own, _)| uses.contains(own)).map(|(_, mass)| *mass).sum();
        let more = if icing.net > Mass::ZERO { icing.to_make / icing.net } else { 1.0 };
        net * more
    };
    needs.iter().map(of).sum()
}

/// Areas in mm² in units of a table, dm².
fn table_units(area: f64) -> u32 {
    (area / 10_000.0).ceil().max(1.0) as u32
}

/// What one house takes, for each go of its copies.
fn needs_of<'n>(lots: &'n Lots<'_>, needs: &'n [&Needs]) -> impl Iterator<Item = &'n Needs> {
    lots.iter().zip(needs).flat_map(|(lot, needs)| go::shares(lot).into_iter().map(move |_| *needs))
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
            place(OVEN, tr!("oven"), own.ovens * own.shelves, own.shelves),
            place(TRAY, tr!("tray"), own.trays, 1),
            place(FREEZER, tr!("shelf in the freezer"), own.freezer, 1),
            place(TABLE, tr!("table of half a square metre"), own.table, 50),
        ]
    };
    ask.kitchens.iter().enumerate().flat_map(of).collect()
}
