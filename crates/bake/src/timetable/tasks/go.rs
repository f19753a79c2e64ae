//! Copies of a house that are worked on in one go.

use super::{Builder, Item, table_units};
use crate::{Lot, PieceOf};
use gable_plane::ring_area;
use gable_shell::PartId;
use gable_words::tr;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// As many copies are worked on in one go at most, as long as there are no more goes than [`GOES`] (an assumption).
const IN_ONE_GO: usize = 6;
/// Beyond so many goes each has more copies, so that plans stay short enough to be read.
const GOES: usize = 8;
/// The table that goes are made for, dm²: always the same, so that tasks keep their names when the kitchen changes.
const TABLE: f64 = 100.0;

/// Some copies of one house, and what waits to be done with them.
#[derive(Clone, Debug, Default)]
pub(super) struct Go {
    /// Which house.
    pub(super) lot: usize,
    /// Which copies of it.
    pub(super) copies: Range<usize>,
    /// What the keys of their tasks begin with.
    pub(super) key: String,
    /// Which of the houses they are, in words; nothing where there is one.
    pub(super) words: String,
    /// Per piece of the house the tasks after which it is ready for what comes next; none for what is baked already.
    pub(super) ready: Vec<BTreeSet<usize>>,
    /// Per ornament the tasks after which it can be stuck on.
    pub(super) ornaments: BTreeMap<usize, BTreeSet<usize>>,
    /// The same of what stands free.
    pub(super) extras: BTreeMap<usize, BTreeSet<usize>>,
    /// The same of doors.
    pub(super) doors: BTreeMap<usize, BTreeSet<usize>>,
    /// The same of the units of finishes of dough, by piece and finish.
    pub(super) units: BTreeMap<(usize, usize), BTreeSet<usize>>,
}

impl Go {
    /// How many copies.
    pub(super) fn times(&self) -> usize {
        self.copies.len().max(1)
    }

    /// Pieces of the house, of each copy.
    pub(super) fn pieces(&self, pieces: &[usize]) -> Vec<PieceOf> {
        let lot = self.lot;
        self.copies.clone().flat_map(|copy| pieces.iter().map(move |&piece| PieceOf { lot, copy, piece })).collect()
    }
}

/// The copies of a house in goes, as even as may be.
pub(super) fn shares(lot: &Lot<'_>) -> Vec<Range<usize>> {
    let pieces = &lot.about.solved.pieces;
    let mut parts: BTreeMap<&PartId, f64> = BTreeMap::new();
    for piece in pieces.iter().filter(|piece| piece.role.is_upright()) {
        *parts.entry(&piece.part).or_default() += ring_area(&piece.outline);
    }
    // All upright pieces of a part may lie on the table at once.
    let units = table_units(parts.values().copied().fold(0.0, f64::max));
    let room = ((TABLE / f64::from(units)) as usize).clamp(1, IN_ONE_GO).max(lot.copies.div_ceil(GOES));
    let goes = lot.copies.div_ceil(room);
    (0..goes).map(|k| lot.copies * k / goes..lot.copies * (k + 1) / goes).collect()
}

impl<'a> Builder<'a> {
    /// The goes of every house, ready as they come out of the oven.
    pub(super) fn goes(&self) -> Vec<Go> {
        let of_lot = |(k, lot): (usize, &Lot<'a>)| {
            let shares = shares(lot);
            let alone = shares.len() == 1;
            shares.into_iter().map(move |copies| self.go(k, copies, alone)).collect::<Vec<_>>()
        };
        self.lots.iter().enumerate().flat_map(of_lot).collect()
    }

    /// Some copies of a house; `alone` are all of them.
    pub(super) fn go(&self, lot: usize, copies: Range<usize>, alone: bool) -> Go {
        let Some(own) = self.lots.get(lot) else { return Go::default() };
        let several = self.lots.count() > 1;
        let numbers = match copies.len() {
            1 => (copies.start + 1).to_string(),
            _ => format!("{} to {}", copies.start + 1, copies.end),
        };
        let (from, to, title) = (copies.start + 1, copies.end, &own.title);
        let words = match (several, own.copies, alone) {
            (false, 1, _) => String::new(),
            (false, all, true) => tr!("{n} house" | "{n} houses" % all),
            (false, ..) if copies.len() == 1 => tr!("house {from}"),
            (false, ..) => tr!("houses {from} to {to}"),
            (true, 1, _) => title.to_string(),
            (true, all, true) => tr!("{title}, {all} of them"),
            (true, ..) if copies.len() == 1 => tr!("{title} {from}"),
            (true, ..) => tr!("{title} {from} to {to}"),
        };
        let key = if own.copies == 1 { String::new() } else { format!("{numbers} of {}: ", own.copies) };
        let mut go = Go { lot, copies, key: own.id(0, &key), words, ..Go::default() };
        go.ready = vec![BTreeSet::new(); own.about.solved.pieces.len()];
        for copy in go.copies.clone() {
            let first = (lot, copy, Item::FIRST);
            for (&(.., item), tasks) in self.baked.range(first..).take_while(|((l, c, _), _)| (*l, *c) == (lot, copy)) {
                go.baked(item, tasks);
            }
        }
        go
    }

    /// Adds tasks for a go.
    pub(super) fn within(&mut self, go: &mut Go, work: impl FnOnce(&mut Self)) {
        let Some(lot) = self.lots.get(go.lot) else { return };
        let before = (self.source, std::mem::take(&mut self.go));
        (self.source, self.go) = (&lot.about, std::mem::take(go));
        work(self);
        *go = std::mem::take(&mut self.go);
        (self.source, self.go) = before;
    }
}

impl Go {
    /// A thing is ready after these tasks.
    fn baked(&mut self, item: Item, tasks: &BTreeSet<usize>) {
        let own = match item {
            Item::Piece(k) => self.ready.get_mut(k),
            Item::Door(k) => Some(self.doors.entry(k).or_default()),
            Item::Ornament(k) => Some(self.ornaments.entry(k).or_default()),
            Item::Extra(k) => Some(self.extras.entry(k).or_default()),
            Item::Unit(piece, finish) => Some(self.units.entry((piece, finish)).or_default()),
        };
        if let Some(own) = own {
            own.extend(tasks);
        }
    }

    /// Pieces wait for a task from now on; what they waited for before.
    pub(super) fn now_after(&mut self, piece: usize, task: usize) -> BTreeSet<usize> {
        self.ready.get_mut(piece).map_or_else(BTreeSet::new, |own| std::mem::replace(own, BTreeSet::from([task])))
    }
}
