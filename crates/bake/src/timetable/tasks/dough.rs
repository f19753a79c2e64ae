//! Dough: how often it is mixed, which ovenful is cut from which mixing, and whether it keeps so long.

use super::bake::ItemOf;
use super::{Builder, New};
use crate::timetable::moment::moment;
use crate::timetable::plan::{Hands, Placed, Schedule};
use crate::timetable::{Ask, Rate, TaskKind, Tasks, long};
use crate::{DoughNeeds, Ovenfuls};
use gable_words::tr;
use std::collections::BTreeMap;

/// Batches of dough that are mixed one after the other before any rests: as much as an evening is long (an assumption).
const MIXED_AT_ONCE: f64 = 4.0;

/// Dough that is mixed, and what is cut from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mixed {
    /// Stable name of the task that mixes it.
    pub mix: String,
    /// Stable name of its rest.
    pub rests: String,
    /// Which dough.
    pub dough: String,
    /// Stable names of the tasks that roll and cut it.
    pub cuts: Vec<String>,
    /// When it was mixed, if it is; minutes as in the project.
    pub at: Option<i64>,
}

impl Mixed {
    /// A task has another name from now on.
    pub(super) fn rename(&mut self, id: &str, anew: &str) {
        for own in [&mut self.mix, &mut self.rests].into_iter().chain(&mut self.cuts).filter(|own| *own == id) {
            anew.clone_into(own);
        }
    }
}

impl Builder<'_> {
    /// Mixes and rests the dough of each name, no more at once than [`MIXED_AT_ONCE`].
    pub(super) fn doughs<'d>(
        &mut self,
        doughs: &[(&'d DoughNeeds, usize)],
        ovenfuls: &Ovenfuls,
        items: &BTreeMap<String, ItemOf>,
    ) -> BTreeMap<&'d str, Rested> {
        let mut grams: BTreeMap<&str, f64> = BTreeMap::new();
        for &(dough, copies) in doughs {
            // What is trimmed off is shared by mass.
            let more = if dough.net.g() > 0.0 { dough.to_make.g() / dough.net.g() } else { 1.0 };
            for sort in &dough.sorts {
                *grams.entry(&sort.name).or_default() += sort.net.g() * more * copies as f64;
            }
        }
        let mut pieces: BTreeMap<&str, usize> = BTreeMap::new();
        for of in ovenfuls.trays.iter().flat_map(|tray| &tray.pieces).filter_map(|on| items.get(&on.id)) {
            *pieces.entry(&of.dough).or_default() += 1;
        }
        let mut all = BTreeMap::new();
        for (name, grams) in grams.into_iter().filter(|(_, grams)| *grams > 0.0) {
            let batches = (grams / self.rate(Rate::Batch).max(1.0)).ceil().max(1.0);
            let times = (batches / MIXED_AT_ONCE).ceil();
            let share = |k: f64| (batches * (k + 1.0) / times).floor() - (batches * k / times).floor();
            let rests = (0..times as usize).map(|k| self.dough(name, (k, times as usize), share(k as f64))).collect();
            all.insert(name, Rested { rests, pieces: pieces.get(name).copied().unwrap_or(0), cut: 0 });
        }
        all
    }

    /// So many batches of a dough, the k-th of several times.
    fn dough(&mut self, dough: &str, (k, times): (usize, usize), batches: f64) -> usize {
        let block = self.block();
        let key = if k == 0 { dough.to_owned() } else { format!("{dough}-{}", k + 1) };
        let (number, count) = (k + 1, batches as usize);
        let name = match times {
            1 => tr!("Mix the dough for {dough}, {n} batch" | "Mix the dough for {dough}, {n} batches" % count),
            _ => tr!("Mix the dough for {dough}, {number} of {times}, {n} batch"
                | "Mix the dough for {dough}, {number} of {times}, {n} batches" % count),
        };
        let minutes = batches * self.rate(Rate::MixDough);
        let mix = New { kind: TaskKind::MixDough, key: &key, name, pieces: Vec::new(), minutes };
        let mix = self.push(mix, Vec::new(), (Hands::Work(1), block));
        let name = match times {
            1 => tr!("The dough for {dough} rests in the cold"),
            _ => tr!("The dough for {dough} rests in the cold, {number} of {times}"),
        };
        let minutes = self.rate(Rate::RestDough);
        let rest = New { kind: TaskKind::RestDough, key: &key, name, pieces: Vec::new(), minutes };
        let rest = self.push(rest, Vec::new(), (Hands::Alone, block));
        self.at_once(mix, rest, 0);
        let (mix, rests) = (self.tasks[mix].id.clone(), self.tasks[rest].id.clone());
        self.doughs.push(Mixed { mix, rests, dough: dough.to_owned(), cuts: Vec::new(), at: None });
        rest
    }

    /// An ovenful is cut from dough that has rested.
    pub(super) fn cut_from(&mut self, rest: usize, cut: usize) {
        self.after(rest, cut);
        let (rests, cut) = (&self.tasks[rest].id, &self.tasks[cut].id);
        // Of dough that is mixed again the last is meant.
        if let Some(own) = self.doughs.iter_mut().rev().find(|own| own.rests == *rests)
            && !own.cuts.contains(cut)
        {
            own.cuts.push(cut.clone());
        }
    }
}

impl Tasks {
    /// What is to be done with dough that is cut on a later day than it keeps in the cold.
    pub(in crate::timetable) fn dough_kept(&self, schedule: &Schedule, ask: &Ask) -> Vec<String> {
        let keeps = (ask.rates.get(Rate::DoughKeeps) * 60.0) as i64;
        let placed = |id: &String| schedule.placed.get(self.find(id)?)?.as_ref();
        let too_long = |own: &Mixed| {
            let mixed = own.at.or_else(|| placed(&own.mix).map(Placed::end))?;
            let last = own.cuts.iter().filter_map(placed).map(Placed::end).max()?;
            let by = moment(mixed + keeps).date();
            let on = by.strftime("%a %-d %b");
            (moment(last).date() > by).then(|| tr!("{} by {on}", own.dough))
        };
        let doughs: Vec<String> = self.doughs.iter().filter_map(too_long).collect();
        if doughs.is_empty() {
            return Vec::new();
        }
        vec![tr!(
            "Dough keeps for about {} in the cold. Freeze what is not cut by then: {}. Frozen it keeps for about a month; let it thaw \
             in the cold overnight.",
            long(keeps),
            doughs.join(", ")
        )]
    }
}

/// Dough that was mixed and rests, as it is used up by pieces.
pub(super) struct Rested {
    /// The task that ends the rest, for each time that it is mixed.
    rests: Vec<usize>,
    /// Pieces that are cut from all of it.
    pieces: usize,
    /// How many are cut.
    cut: usize,
}

impl Rested {
    /// The rest that the next piece waits for.
    pub(super) fn next(&mut self) -> Option<usize> {
        let k = self.cut * self.rests.len() / self.pieces.max(1);
        self.cut += 1;
        self.rests.get(k.min(self.rests.len().saturating_sub(1))).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of two mixings for five pieces the first serves three: what is mixed first is cut first, and no half is left over.
    #[test]
    fn dough_that_is_mixed_first_is_cut_first() {
        let mut rested = Rested { rests: vec![4, 9], pieces: 5, cut: 0 };
        let waits: Vec<Option<usize>> = (0..6).map(|_| rested.next()).collect();
        assert_eq!(waits, [4, 4, 4, 9, 9, 9].map(Some), "one more than was counted has the last");
        assert_eq!(Rested { rests: Vec::new(), pieces: 2, cut: 0 }.next(), None);
    }
}
