//! A broken piece is baked and decorated again, or mended.

use super::{Builder, New, TABLE};
use crate::timetable::plan::{Hands, Link};
use crate::timetable::{Log, Rate, TaskKind, Tasks};
use crate::{About, DoughNeed, DoughNeeds, Figures, Mass, Ovenfuls};
use gable_plane::ring_area;
use std::collections::BTreeMap;

impl<'a> Builder<'a> {
    /// Goes on with what is left.
    pub(in crate::timetable) fn on(
        left: Tasks,
        about: &'a About<'a>,
        figures: &'a Figures,
        ask: &'a crate::timetable::Ask,
    ) -> Self {
        let mut builder = Self::new(about, figures, ask);
        builder.blocks = left.project.jobs.iter().filter_map(|job| job.block).max().unwrap_or(0);
        (builder.tasks, builder.project, builder.running) = (left.tasks, left.project, left.running);
        builder
    }

    pub(in crate::timetable) fn finished(self) -> Tasks {
        Tasks { tasks: self.tasks, project: self.project, running: self.running }
    }

    /// Bakes a piece again, and does again what had been done to it while it lay flat. `round` is how often it broke before.
    pub(in crate::timetable) fn again(
        &mut self,
        piece: usize,
        ovenfuls: &Ovenfuls,
        dough: Mass,
        (all, log): (&Tasks, &Log),
        round: usize,
    ) {
        let before = self.tasks.len();
        let sort = self.source.solved.pieces.get(piece).map(|own| DoughNeed {
            name: own.dough.0.clone(),
            rolled: own.rolled,
            pieces: 1,
            area: 0.0,
            net: dough,
        });
        let needs = DoughNeeds { sorts: sort.into_iter().collect(), net: dough, to_make: dough };
        self.bake(ovenfuls, &needs);
        self.redo(piece, all, log);
        for task in &mut self.tasks[before..] {
            task.id.push_str("/again");
            task.id.push_str(&number(round));
            task.name.push_str(" (again)");
        }
        self.then(piece, before);
    }

    /// What was done to the piece while it lay flat, as far as it is done, for it alone.
    fn redo(&mut self, piece: usize, all: &Tasks, log: &Log) {
        let flat =
            [TaskKind::Glaze, TaskKind::Pour, TaskKind::Fill, TaskKind::Decorate, TaskKind::Bars, TaskKind::Stick];
        let was = |k: &usize| {
            let task = &all.tasks[*k];
            let done = log.of(&task.id).is_some_and(|tick| tick.done.is_some());
            done && flat.contains(&task.kind) && task.pieces.contains(&piece)
        };
        for k in (0..all.tasks.len()).filter(was) {
            let (number, share) = (self.block(), 1.0 / all.tasks[k].pieces.len().max(1) as f64);
            let block = all.project.jobs[k].block;
            let mut copies = BTreeMap::new();
            for j in (0..all.tasks.len()).filter(|&j| all.project.jobs[j].block == block) {
                let (mut task, mut job) = (all.tasks[j].clone(), all.project.jobs[j].clone());
                if matches!(job.hands, Hands::Work(_)) {
                    job.minutes = (job.minutes as f64 * share).ceil() as i64;
                    task.usual *= share;
                }
                (job.block, job.not_before, job.not_after, task.pieces) = (Some(number), None, None, vec![piece]);
                copies.insert(j, self.tasks.len());
                self.tasks.push(task);
                self.project.jobs.push(job);
            }
            for link in &all.project.links {
                if let (Some(&before), Some(&after)) = (copies.get(&link.before), copies.get(&link.after)) {
                    self.project.links.push(Link { before, after, ..*link });
                }
            }
            if let (Some(&first), Some(ready)) = (copies.get(&k), self.ready[piece]) {
                self.after(ready, first);
            }
            self.ready[piece] = copies.values().max().copied();
        }
    }

    /// Mends a piece that broke so often before.
    pub(in crate::timetable) fn mend(&mut self, piece: usize, round: usize) {
        let before = self.tasks.len();
        let key = self.piece_id(piece).to_owned() + &number(round);
        let what = self.piece_name(piece).to_owned();
        let name = format!("Mend {what}: icing along the crack and a splint inside");
        let minutes = self.rate(Rate::Mend);
        let new = New { kind: TaskKind::Mend, key: &key, name, pieces: vec![piece], minutes };
        let (work, set) =
            self.work_then(new, TaskKind::Set, format!("The mended {what} sets"), self.drying(Rate::Cure));
        let units = self.table(self.source.solved.pieces.get(piece).map(|own| ring_area(&own.outline)).into_iter());
        self.hold(work, set, TABLE, units);
        self.ready[piece] = Some(set);
        self.then(piece, before);
    }

    /// Everything that is left for a piece, of the tasks before the new ones, waits until it is ready.
    fn then(&mut self, piece: usize, before: usize) {
        let Some(ready) = self.ready[piece] else { return };
        let left: Vec<usize> = (0..before).filter(|&k| self.tasks[k].pieces.contains(&piece)).collect();
        left.into_iter().for_each(|task| self.after(ready, task));
    }
}

/// What tells the tasks of a second round from those of the first.
fn number(round: usize) -> String {
    if round == 0 { String::new() } else { format!("-{}", round + 1) }
}
