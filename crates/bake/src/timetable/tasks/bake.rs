//! Dough, ovenfuls, and drying under a board.

use super::{Builder, FREEZER, New, OVEN, TABLE, TRAY};
use crate::timetable::plan::{Hands, Need};
use crate::timetable::{Rate, TaskKind};
use crate::{DoughNeeds, Figure, OnTray, Ovenful, Ovenfuls, ToBake};
use gable_plane::{P2, ring_area};
use gable_shell::{Role, Stuff};
use std::collections::BTreeMap;

/// Something that is baked.
#[derive(Clone, Copy, Debug)]
enum Item {
    Piece(usize),
    Door(usize),
    Ornament(usize),
    Extra(usize),
    /// A unit of a finish of dough: the piece, the finish.
    Unit(usize, usize),
}

/// Between cutting and the freezer, in minutes.
const TO_FREEZER: i64 = 10;

impl Builder<'_> {
    pub(super) fn bake(&mut self, ovenfuls: &Ovenfuls, dough: &DoughNeeds) {
        let rested = self.doughs(dough);
        let doughs: BTreeMap<String, String> =
            ToBake::all(self.source).into_iter().map(|one| (one.id, one.dough)).collect();
        let items = self.items();
        let (mut walls, mut roofs) = (Vec::new(), Vec::new());
        for (number, ovenful) in ovenfuls.trays.iter().enumerate() {
            let minutes = ovenfuls.classes.get(ovenful.class).map_or(0.0, |class| class.minutes.usual);
            let own: Vec<Item> = ovenful.pieces.iter().filter_map(|on| items.get(&on.id).copied()).collect();
            let (first, cool) = self.ovenful(number + 1, ovenful, minutes, &own);
            for name in ovenful.pieces.iter().filter_map(|on| doughs.get(&on.id)) {
                rested.get(name).into_iter().for_each(|&rest| self.after(rest, first));
            }
            match own.iter().filter(|item| self.is_roof(**item)).count() {
                0 => walls.push(cool),
                count if count == own.len() => roofs.push(first),
                _ => {}
            }
        }
        // Roofs come last, so that they can be cut to fit what came out of the oven.
        for &roof in &roofs {
            for &wall in &walls {
                self.after(wall, roof);
            }
        }
    }

    /// What is baked, by its id.
    fn items(&self) -> BTreeMap<String, Item> {
        let (solved, dressed) = (self.source.solved, self.source.dressed);
        let pieces = solved.pieces.iter().enumerate().map(|(k, own)| (own.id.0.clone(), Item::Piece(k)));
        let doors = dressed.doors.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Door(k)));
        let ornaments = dressed.ornaments.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Ornament(k)));
        let extras = dressed.extras.iter().enumerate().map(|(k, own)| (own.id.clone(), Item::Extra(k)));
        let units = dressed.finishes.iter().filter(|face| face.stuff == Stuff::Dough).flat_map(|face| {
            let id = solved.pieces.get(face.piece).map_or("", |piece| piece.id.0.as_str());
            (1..=face.units.len())
                .map(move |k| (format!("{id}/{}-{k}", face.name), Item::Unit(face.piece, face.finish)))
        });
        pieces.chain(doors).chain(ornaments).chain(extras).chain(units).collect()
    }

    fn is_roof(&self, item: Item) -> bool {
        let roof =
            |k: usize| self.source.solved.pieces.get(k).is_some_and(|p| matches!(p.role, Role::Slope(..) | Role::Lid));
        matches!(item, Item::Piece(k) if roof(k))
    }

    /// Mixes and rests the dough of each name; the rest that ends it.
    fn doughs(&mut self, dough: &DoughNeeds) -> BTreeMap<String, usize> {
        let mut grams: BTreeMap<&str, f64> = BTreeMap::new();
        // What is trimmed off is shared by mass.
        let more = if dough.net.g() > 0.0 { dough.to_make.g() / dough.net.g() } else { 1.0 };
        for sort in &dough.sorts {
            *grams.entry(&sort.name).or_default() += sort.net.g() * more;
        }
        grams
            .into_iter()
            .filter(|(_, grams)| *grams > 0.0)
            .map(|(name, grams)| (name.to_owned(), self.dough(name, grams)))
            .collect()
    }

    fn dough(&mut self, id: &str, grams: f64) -> usize {
        let batches = (grams / self.rate(Rate::Batch).max(1.0)).ceil().max(1.0);
        let block = self.block();
        let name = format!("Mix the dough for {id}, {batches:.0} {}", if batches > 1.0 { "batches" } else { "batch" });
        let minutes = batches * self.rate(Rate::MixDough);
        let mix = New { kind: TaskKind::MixDough, key: id, name, pieces: Vec::new(), minutes };
        let mix = self.add(mix, Hands::Work(1), block);
        let name = format!("The dough for {id} rests in the cold");
        let minutes = self.rate(Rate::RestDough);
        let rest = New { kind: TaskKind::RestDough, key: id, name, pieces: Vec::new(), minutes };
        let rest = self.add(rest, Hands::Alone, block);
        self.at_once(mix, rest, 0);
        rest
    }

    /// One ovenful from rolling to dry, in one go; the job that begins it, and that after which it can be measured.
    fn ovenful(&mut self, number: usize, ovenful: &Ovenful, baking: f64, items: &[Item]) -> (usize, usize) {
        let block = self.block();
        let piece = |item: &Item| if let Item::Piece(k) = item { Some(*k) } else { None };
        let pieces: Vec<usize> = items.iter().filter_map(piece).collect();
        let key = ovenful.pieces.first().map_or_else(|| number.to_string(), |on| on.id.clone());
        let what = format!("ovenful {number}");
        let named = |kind: TaskKind| format!("{} {what}", kind.words());
        let new = |kind, name, minutes| New { kind, key: &key, name, pieces: pieces.clone(), minutes };

        let edges: f64 = ovenful.pieces.iter().map(edges).sum();
        let rolling = self.rate(Rate::Roll) + edges / 100.0 * self.rate(Rate::Cut) / 60.0;
        let cut = self.add(new(TaskKind::Cut, named(TaskKind::Cut), rolling), Hands::Work(1), block);
        let freezer = self.ask.kitchens.iter().any(|k| k.freezer > 0);
        let firm_for = self.rate(if freezer { Rate::Freeze } else { Rate::Chill });
        let name = format!("{} gets firm in the {}", capital(&what), if freezer { "freezer" } else { "cold" });
        let firm = self.add(new(TaskKind::Firm, name, firm_for), Hands::Alone, block);
        if freezer {
            self.project.jobs[firm].needs.push(Need { kind: FREEZER, units: 1 });
        }
        let bake = self.add(new(TaskKind::Bake, named(TaskKind::Bake), baking), Hands::Watched, block);
        self.project.jobs[bake].needs.push(Need { kind: OVEN, units: 1 });
        let minutes = ovenful.trim_minutes.max(1.0);
        let name = format!("Take out {what} and trim it while it is warm");
        let trim = self.add(new(TaskKind::Trim, name, minutes), Hands::Work(1), block);
        let name = format!("{} cools on the tray", capital(&what));
        let cool = self.add(new(TaskKind::Cool, name, self.rate(Rate::Cool)), Hands::Alone, block);
        let name = format!("{} dries flat under a board", capital(&what));
        let dry = self.add(new(TaskKind::DryFlat, name, self.drying(Rate::DryFlat)), Hands::Alone, block);
        let units = self.table(ovenful.pieces.iter().map(|on| ring_area(&on.outline)));
        self.project.jobs[dry].needs.push(Need { kind: TABLE, units });

        // All of it is trimmed before it is too cold.
        let warm = (self.figures.get(Figure::WarmMinutes) - minutes).floor().max(1.0) as i64;
        self.at_once(cut, firm, TO_FREEZER);
        self.after(firm, bake);
        self.at_once(bake, trim, warm);
        self.at_once(trim, cool, 0);
        self.at_once(cool, dry, 0);
        self.hold(cut, cool, TRAY, 1);
        for item in items {
            match *item {
                Item::Piece(k) => self.ready[k] = Some(dry),
                Item::Door(k) => drop(self.doors.insert(k, dry)),
                Item::Ornament(k) => drop(self.ornaments.insert(k, dry)),
                Item::Extra(k) => drop(self.extras.insert(k, dry)),
                Item::Unit(piece, finish) => drop(self.units.entry((piece, finish)).or_default().insert(dry)),
            }
        }
        (cut, cool)
    }
}

/// All edges of a piece, openings too, mm.
fn edges(on: &OnTray) -> f64 {
    let round = |ring: &Vec<P2>| (0..ring.len()).map(|k| (ring[(k + 1) % ring.len()] - ring[k]).norm()).sum::<f64>();
    round(&on.outline) + on.holes.iter().map(round).sum::<f64>()
}

fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
