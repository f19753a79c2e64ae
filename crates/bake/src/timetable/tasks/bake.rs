//! Dough, ovenfuls, and drying under a board.

use super::{Builder, FREEZER, New, TABLE, TRAY, oven};
use crate::timetable::plan::{Hands, Need};
use crate::timetable::{Rate, TaskKind};
use crate::{DoughNeeds, Lot, OnTray, Ovenful, Ovenfuls, PieceOf, ToBake};
use gable_plane::{P2, ring_area};
use gable_shell::{Role, Stuff};
use gable_words::tr;
use std::collections::{BTreeMap, BTreeSet};

/// Something that is baked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Item {
    Piece(usize),
    Door(usize),
    Ornament(usize),
    Extra(usize),
    /// A unit of a finish of dough: the piece, the finish.
    Unit(usize, usize),
}

impl Item {
    /// None comes before it.
    pub(super) const FIRST: Self = Self::Piece(0);
}

/// Something that is baked, of which copy of which house, from which dough.
#[derive(Clone, Debug)]
struct ItemOf {
    lot: usize,
    copy: usize,
    item: Item,
    dough: String,
}

impl ItemOf {
    fn piece(&self) -> Option<PieceOf> {
        let Item::Piece(piece) = self.item else { return None };
        Some(PieceOf { lot: self.lot, copy: self.copy, piece })
    }
}

/// Between cutting and the freezer, in minutes.
const TO_FREEZER: i64 = 10;
/// Batches of dough that are mixed one after the other before any rests: as much as an evening is long (an assumption).
const MIXED_AT_ONCE: f64 = 4.0;

impl<'a> Builder<'a> {
    /// Everything from dough to dry biscuit; `doughs` is what each house takes, and how many there are of it.
    pub(super) fn bake(&mut self, ovenfuls: &Ovenfuls, doughs: &[(&DoughNeeds, usize)]) {
        let items = self.items();
        let mut doughs = self.doughs(doughs, ovenfuls, &items);
        let (mut walls, mut roofs) = (BTreeMap::new(), Vec::new());
        for (number, ovenful) in ovenfuls.trays.iter().enumerate() {
            let minutes = ovenfuls.classes.get(ovenful.class).map_or(0.0, |class| class.minutes.usual);
            let own: Vec<&ItemOf> = ovenful.pieces.iter().filter_map(|on| items.get(&on.id)).collect();
            let (first, cool) = self.ovenful(number + 1, ovenful, minutes, &own);
            for of in &own {
                let rested = doughs.get_mut(of.dough.as_str()).and_then(Rested::next);
                rested.into_iter().for_each(|rest| self.after(rest, first));
            }
            let houses: BTreeSet<(usize, usize)> = own.iter().map(|of| (of.lot, of.copy)).collect();
            match own.iter().filter(|of| self.is_roof(of)).count() {
                0 => houses.into_iter().for_each(|house| walls.entry(house).or_insert_with(Vec::new).push(cool)),
                count if count == own.len() => roofs.push((houses, first)),
                _ => {}
            }
        }
        // Roofs come last, so that they can be cut to fit what came out of the oven.
        for (houses, roof) in roofs {
            for wall in houses.iter().filter_map(|house| walls.get(house)).flatten() {
                self.after(*wall, roof);
            }
        }
    }

    /// What is baked, by its id.
    fn items(&self) -> BTreeMap<String, ItemOf> {
        let mut all = BTreeMap::new();
        for (k, lot) in self.lots.iter().enumerate() {
            let own = items(lot);
            let doughs: BTreeMap<String, String> =
                ToBake::all(&lot.about).into_iter().map(|one| (one.id, one.dough)).collect();
            for copy in 0..lot.copies {
                let of = |(id, item): &(String, Item)| {
                    let dough = doughs.get(id).cloned().unwrap_or_default();
                    (lot.id(copy, id), ItemOf { lot: k, copy, item: *item, dough })
                };
                all.extend(own.iter().map(of));
            }
        }
        all
    }

    fn is_roof(&self, of: &ItemOf) -> bool {
        let piece = of.piece().and_then(|of| self.lots.get(of.lot)?.about.solved.pieces.get(of.piece));
        piece.is_some_and(|piece| matches!(piece.role, Role::Slope(..) | Role::Lid))
    }

    /// Mixes and rests the dough of each name, no more at once than [`MIXED_AT_ONCE`].
    fn doughs<'d>(
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
        rest
    }

    /// One ovenful from rolling to dry, in one go; the job that begins it, and that after which it can be measured.
    fn ovenful(&mut self, number: usize, ovenful: &Ovenful, baking: f64, items: &[&ItemOf]) -> (usize, usize) {
        let block = self.block();
        let pieces: Vec<PieceOf> = items.iter().filter_map(|of| of.piece()).collect();
        let key = ovenful.pieces.first().map_or_else(|| number.to_string(), |on| on.id.clone());
        let push = |own: &mut Self, kind, name, minutes, hands| {
            own.push(New { kind, key: &key, name, pieces: Vec::new(), minutes }, pieces.clone(), (hands, block))
        };

        let edges: f64 = ovenful.pieces.iter().map(edges).sum();
        let rolling = self.rate(Rate::Roll) + edges / 100.0 * self.rate(Rate::Cut) / 60.0;
        let cut = push(self, TaskKind::Cut, tr!("Roll and cut ovenful {number}"), rolling, Hands::Work(1));
        let freezer = self.ask.kitchens.iter().any(|k| k.freezer > 0);
        let firm_for = self.rate(if freezer { Rate::Freeze } else { Rate::Chill });
        let name = match freezer {
            true => tr!("Ovenful {number} gets firm in the freezer"),
            false => tr!("Ovenful {number} gets firm in the cold"),
        };
        let firm = push(self, TaskKind::Firm, name, firm_for, Hands::Alone);
        if freezer {
            self.project.jobs[firm].needs.push(Need::of(FREEZER, 1));
        }
        let bake = push(self, TaskKind::Bake, tr!("Bake ovenful {number}"), baking, Hands::Watched);
        self.project.jobs[bake].needs.push(oven(baking));
        let minutes = ovenful.trim_minutes.max(1.0);
        let name = tr!("Take out ovenful {number} and trim it while it is warm");
        let trim = push(self, TaskKind::Trim, name, minutes, Hands::Work(1));
        let name = tr!("Ovenful {number} cools on the tray");
        let cool = push(self, TaskKind::Cool, name, self.rate(Rate::Cool), Hands::Alone);
        let name = tr!("Ovenful {number} dries flat under a board");
        let dry = push(self, TaskKind::DryFlat, name, self.drying(Rate::DryFlat), Hands::Alone);
        let units = self.table(ovenful.pieces.iter().map(|on| ring_area(&on.outline)));
        self.project.jobs[dry].needs.push(Need::of(TABLE, units));

        self.at_once(cut, firm, TO_FREEZER);
        self.after(firm, bake);
        // What stayed in until somebody has time would burn.
        self.at_once(bake, trim, 0);
        self.at_once(trim, cool, 0);
        self.at_once(cool, dry, 0);
        self.hold(cut, cool, TRAY, 1);
        for of in items {
            self.baked.entry((of.lot, of.copy, of.item)).or_default().insert(dry);
        }
        (cut, cool)
    }
}

/// Dough that was mixed and rests, as it is used up by pieces.
struct Rested {
    /// The task that ends the rest, for each time that it is mixed.
    rests: Vec<usize>,
    /// Pieces that are cut from all of it.
    pieces: usize,
    /// How many are cut.
    cut: usize,
}

impl Rested {
    /// The rest that the next piece waits for.
    fn next(&mut self) -> Option<usize> {
        let k = self.cut * self.rests.len() / self.pieces.max(1);
        self.cut += 1;
        self.rests.get(k.min(self.rests.len().saturating_sub(1))).copied()
    }
}

/// What is baked of one copy of a house, by its id within the house.
fn items(lot: &Lot<'_>) -> Vec<(String, Item)> {
    let (solved, dressed) = (lot.about.solved, lot.about.dressed);
    let pieces = solved.pieces.iter().enumerate().map(|(k, own)| (own.id.0.clone(), Item::Piece(k)));
    let doors = dressed.doors.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Door(k)));
    let ornaments = dressed.ornaments.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Ornament(k)));
    let extras = dressed.extras.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Extra(k)));
    let units = dressed.finishes.iter().filter(|face| face.stuff == Stuff::Dough).flat_map(|face| {
        let id = solved.pieces.get(face.piece).map_or("", |piece| piece.id.0.as_str());
        (1..=face.units.len()).map(move |k| (format!("{id}/{}-{k}", face.name), Item::Unit(face.piece, face.finish)))
    });
    pieces.chain(doors).chain(ornaments).chain(extras).chain(units).collect()
}

/// All edges of a piece, openings too, mm.
fn edges(on: &OnTray) -> f64 {
    let round = |ring: &Vec<P2>| (0..ring.len()).map(|k| (ring[(k + 1) % ring.len()] - ring[k]).norm()).sum::<f64>();
    round(&on.outline) + on.holes.iter().map(round).sum::<f64>()
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
