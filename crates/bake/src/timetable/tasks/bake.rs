//! Dough, ovenfuls, and drying under a board.

use super::dough::Rested;
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
pub(super) struct ItemOf {
    lot: usize,
    copy: usize,
    item: Item,
    pub(super) dough: String,
}

impl ItemOf {
    fn piece(&self) -> Option<PieceOf> {
        let Item::Piece(piece) = self.item else { return None };
        Some(PieceOf { lot: self.lot, copy: self.copy, piece })
    }
}

/// Between cutting and the freezer, in minutes.
const TO_FREEZER: i64 = 10;
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
                rested.into_iter().for_each(|rest| self.cut_from(rest, first));
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

/// What is baked of one copy of a house, by its id within the house.
fn items(lot: &Lot<'_>) -> Vec<(String, Item)> {
    let (solved, dressed) = (lot.about.solved, lot.about.dressed);
    let pieces = solved.pieces.iter().enumerate().map(|(k, own)| (own.id.0.clone(), Item::Piece(k)));
    let doors = dressed.doors.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Door(k)));
    let ornaments = dressed.ornaments.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Ornament(k)));
    let extras = dressed.extras.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Extra(k)));
    let units = dressed.finishes.iter().filter(|face| face.stuff == Stuff::Dough).flat_map(|face| {
        let id = solved.pieces.get(face.piece).map_or("", |piece| piece.id.0.as_str());
        (1..=face.units.len()).map(move |k| (format!("{id}/{}-{k}", face.word), Item::Unit(face.piece, face.finish)))
    });
    pieces.chain(doors).chain(ornaments).chain(extras).chain(units).collect()
}

/// All edges of a piece, openings too, mm.
fn edges(on: &OnTray) -> f64 {
    let round = |ring: &Vec<P2>| (0..ring.len()).map(|k| (ring[(k + 1) % ring.len()] - ring[k]).norm()).sum::<f64>();
    round(&on.outline) + on.holes.iter().map(round).sum::<f64>()
}
