//! A broken piece is baked and decorated again, or mended.

use super::{Builder, New, TABLE};
use crate::timetable::plan::{Hands, Link};
use crate::timetable::{Log, Rate, TaskKind, Tasks};
use crate::{DoughNeed, DoughNeeds, Figures, Lots, Mass, Ovenfuls, PieceOf};
use gable_words::tr;
use std::collections::BTreeMap;

impl<'a> Builder<'a> {
    /// Goes on with what is left.
    pub(in crate::timetable) fn on(
        left: Tasks,
        lots: &'a Lots<'a>,
        figures: &'a Figures,
        ask: &'a crate::timetable::Ask,
    ) -> Self {
        let mut builder = Self::new(lots, figures, ask);
        builder.blocks = left.project.jobs.iter().filter_map(|job| job.block).max().unwrap_or(0);
        (builder.tasks, builder.project) = (left.tasks, left.project);
        (builder.running, builder.bowls, builder.doughs) = (left.running, left.bowls, left.doughs);
        builder.linked = builder.project.links.iter().map(|link| (link.before, link.after, link.least)).collect();
        builder
    }

    pub(in crate::timetable) fn finished(self) -> Tasks {
        let Self { tasks, project, running, bowls, doughs, .. } = self;
        Tasks { tasks, project, running, bowls, doughs }
    }

    /// Bakes a piece again, and does again what had been done to it while it lay flat. `round` is how often it broke before.
    pub(in crate::timetable) fn again(
        &mut self,
        of: PieceOf,
        ovenfuls: &Ovenfuls,
        dough: Mass,
        (all, log): (&Tasks, &Log),
        round: usize,
    ) {
        let (before, mixed) = (self.tasks.len(), self.doughs.len());
        let own = self.lots.get(of.lot).and_then(|lot| lot.about.solved.pieces.get(of.piece));
        let sort = own.map(|own| DoughNeed {
            name: own.dough.0.clone(),
            rolled: own.rolled,
            pieces: 1,
            area: 0.0,
            net: dough,
        });
        let needs = DoughNeeds { sorts: sort.into_iter().collect(), net: dough, to_make: dough };
        self.bake(ovenfuls, &[(&needs, 1)]);
        let mut one = self.go(of.lot, of.copy..of.copy + 1, false);
        let mut ready = one.ready.get(of.piece).and_then(|own| own.first().copied());
        self.within(&mut one, |own| own.redo(of, &mut ready, (all, log)));
        for task in &mut self.tasks[before..] {
            let anew = format!("{}/again{}", task.id, number(round));
            // What takes icing takes it again.
            let bowls = self.bowls.iter_mut().filter(|bowl| bowl.uses.contains(&task.id));
            bowls.for_each(|bowl| bowl.uses.push(anew.clone()));
            self.doughs[mixed..].iter_mut().for_each(|own| own.rename(&task.id, &anew));
            task.id = anew;
            task.name = tr!("{} (again)", task.name);
        }
        self.then(of, ready, before);
    }

    /// What was done to the piece while it lay flat, as far as it is done, for it alone; `ready` is the task after which it is
    /// ready.
    fn redo(&mut self, piece: PieceOf, ready: &mut Option<usize>, (all, log): (&Tasks, &Log)) {
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
            if let (Some(&first), Some(ready)) = (copies.get(&k), *ready) {
                self.after(ready, first);
            }
            *ready = copies.values().max().copied();
        }
    }

    /// Mends a piece that broke so often before.
    pub(in crate::timetable) fn mend(&mut self, of: PieceOf, round: usize) {
        let before = self.tasks.len();
        let key = self.lots.id(of).unwrap_or_default() + &number(round);
        let what = self.lots.piece_name(of);
        let name = tr!("Mend {what}: icing along the crack and a splint inside");
        let minutes = self.rate(Rate::Mend);
        let block = self.block();
        let new = New { kind: TaskKind::Mend, key: &key, name, pieces: Vec::new(), minutes };
        let work = self.push(new, vec![of], (Hands::Work(1), block));
        let (key, name) = (format!("{}-{key}", TaskKind::Mend.word()), tr!("The mended {what} sets"));
        let minutes = self.drying(Rate::Cure);
        let new = New { kind: TaskKind::Set, key: &key, name, pieces: Vec::new(), minutes };
        let set = self.push(new, vec![of], (Hands::Alone, block));
        self.at_once(work, set, 0);
        let mut one = self.go(of.lot, of.copy..of.copy + 1, false);
        let mut units = 0;
        self.within(&mut one, |own| units = own.table_of(&[of.piece]));
        self.hold(work, set, TABLE, units);
        self.then(of, Some(set), before);
    }

    /// Everything that is left for a piece, of the tasks before the new ones, waits until it is ready.
    fn then(&mut self, piece: PieceOf, ready: Option<usize>, before: usize) {
        let Some(ready) = ready else { return };
        let left: Vec<usize> = (0..before).filter(|&k| self.tasks[k].pieces.contains(&piece)).collect();
        left.into_iter().for_each(|task| self.after(ready, task));
    }
}

/// What tells the tasks of a second round from those of the first.
fn number(round: usize) -> String {
    if round == 0 { String::new() } else { format!("-{}", round + 1) }
}
