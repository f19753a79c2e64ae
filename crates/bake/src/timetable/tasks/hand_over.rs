//! Once everything is put up: it cures, is packed for those who build it, photographed, carried away.

use super::{Builder, New};
use crate::timetable::plan::Hands;
use crate::timetable::{Rate, TaskKind};
use crate::{HandOver, Lot, Needs};
use gable_words::tr;
use std::collections::BTreeSet;

impl Builder<'_> {
    /// What ends the work on houses whose tasks since `first` are about what stands.
    pub(super) fn hand_over(&mut self, first: usize) {
        (first..self.tasks.len()).for_each(|task| self.home(task));
        let mut last: Vec<usize> = (first..self.tasks.len()).filter(|&task| self.is_last(task)).collect();
        let mut home = Vec::new();
        if self.lots.until != HandOver::Kits {
            let minutes = (self.drying(Rate::Cure) - self.drying(Rate::Handle)).max(1.0);
            let name = tr!("Everything cures right through, the last props stay").to_owned();
            let block = self.block();
            let new = New { kind: TaskKind::Cure, key: "house", name, pieces: Vec::new(), minutes };
            let cure = self.push(new, Vec::new(), (Hands::Alone, block));
            last.iter().for_each(|&task| self.after(task, cure));
            home.push(cure);
        }
        if self.lots.until == HandOver::Finished {
            let name = tr!("Photograph it").to_owned();
            let photograph = self.for_all(TaskKind::Photograph, name, self.rate(Rate::Photograph));
            last.drain(..).for_each(|task| self.after(task, photograph));
            home.push(photograph);
        } else {
            home.extend(self.kits());
        }
        if self.ask.carried {
            let name = tr!("Wrap it, load it and set it up where it will stand").to_owned();
            let carry = self.for_all(TaskKind::Carry, name, self.rate(Rate::Carry));
            home.iter().for_each(|&task| self.after(task, carry));
            home.push(carry);
        }
        home.into_iter().for_each(|task| self.home(task));
    }

    /// Work that is done once, for all houses.
    fn for_all(&mut self, kind: TaskKind, name: String, minutes: f64) -> usize {
        let block = self.block();
        let new = New { kind, key: "house", name, pieces: Vec::new(), minutes };
        self.push(new, Vec::new(), (Hands::Work(1), block))
    }

    /// Fills bags with icing and packs kits; the task that ends it.
    fn kits(&mut self) -> Option<usize> {
        let (kits, until) = (self.lots.copies(), self.lots.until);
        let of_lot = |lot: &Lot<'_>| {
            let left = Needs::icing_left(lot, until, self.figures);
            let grams: f64 = left.iter().map(|icing| icing.to_make.g()).sum();
            (grams * lot.copies as f64, left.iter().map(|icing| icing.bags).sum::<usize>() * lot.copies)
        };
        let (grams, bags) = self.lots.iter().map(of_lot).fold((0.0, 0), |sum, own| (sum.0 + own.0, sum.1 + own.1));
        let bowls = (grams / self.rate(Rate::Bowl).max(1.0)).ceil().max(1.0);
        let name = tr!("Make icing for the kits and fill {n} bag" | "Make icing for the kits and fill {n} bags" % bags);
        let filled = self.for_all(TaskKind::Icing, name, bowls * self.rate(Rate::BeatIcing));
        let name =
            tr!("Pack {n} kit, with its label and its slip" | "Pack {n} kits, each with its label and its slip" % kits);
        let packed = self.for_all(TaskKind::Pack, name, kits as f64 * self.rate(Rate::PackKit));
        self.may_split(filled);
        self.may_split(packed);
        self.after(filled, packed);
        let dry: BTreeSet<usize> = (0..self.tasks.len()).filter(|&k| k != packed && self.is_last(k)).collect();
        let cures = |k: &usize| self.tasks[*k].kind == TaskKind::Cure;
        let dry: Vec<usize> = dry.into_iter().filter(|k| !cures(k)).collect();
        dry.into_iter().for_each(|task| self.after(task, packed));
        Some(packed)
    }

    /// Whether nothing comes after a task.
    fn is_last(&self, task: usize) -> bool {
        self.project.links.iter().all(|link| link.before != task)
    }
}
