//! What is done while pieces lie flat: panes, finishes colour by colour, bars, ornaments at openings.

use super::{Builder, New, TABLE, TRAY, icing, in_one_go, oven};
use crate::timetable::plan::Hands;
use crate::timetable::{Rate, TaskKind};
use crate::{HandOver, IcingUse, Needs};
use gable_dress::Covered;
use gable_shell::{Glass, PartId, Stuff};
use gable_words::{say, tr};
use std::collections::{BTreeMap, BTreeSet};

/// What icing goes on while pieces lie flat.
const DECORATING: [IcingUse; 4] = [IcingUse::Panes, IcingUse::Glue, IcingUse::Lines, IcingUse::Fields];

/// The key of ornaments that are piped from icing.
const OF_ICING: &str = "icing";

impl Builder<'_> {
    /// What is done to flat pieces before they go on; hot sugar and what dries for long are never left to others.
    pub(super) fn flat(&mut self, needs: &Needs) {
        let until = self.lots.until;
        let first = self.tasks.len();
        self.make_ornaments();
        self.poured();
        for (part, pieces) in self.parts() {
            if until > HandOver::Kits {
                self.leaves(&part, &pieces);
            }
            pieces.iter().for_each(|&piece| self.crushed(piece));
            if until == HandOver::Finished {
                self.finishes(&pieces);
                self.bars(&part, &pieces);
                self.stuck(&part, &pieces);
            }
        }
        let iced: Vec<usize> = (first..self.tasks.len()).filter(|&k| self.takes_icing(k)).collect();
        if !iced.is_empty() {
            let each = if until == HandOver::Finished {
                icing(&needs.icing, &DECORATING)
            } else {
                icing(&needs.icing, &[IcingUse::Panes])
            };
            let made = self.make_icing("decorating", tr!("Make icing for decorating").to_owned(), each);
            self.bowl(made, &iced);
        }
    }

    fn takes_icing(&self, task: usize) -> bool {
        let task = &self.tasks[task];
        match task.kind {
            TaskKind::Glaze | TaskKind::Decorate | TaskKind::Bars | TaskKind::Stick => true,
            TaskKind::Ornaments => task.id.ends_with(OF_ICING),
            _ => false,
        }
    }

    /// Work on flat pieces and its drying, both on the table, after what was done to them before.
    fn on_pieces(&mut self, new: New<'_>, sets: String, dries: f64) -> (usize, usize) {
        let pieces = new.pieces.clone();
        let (work, dry) = self.work_then(new, TaskKind::Dry, sets, dries);
        self.may_split(work);
        let units = self.table_of(&pieces);
        self.hold(work, dry, TABLE, units);
        self.in_turn(&pieces, work, dry);
        (work, dry)
    }

    /// What is done to pieces comes after what was done to them before; `last` is what comes next waits for.
    fn in_turn(&mut self, pieces: &[usize], work: usize, last: usize) {
        for &piece in pieces {
            self.go.now_after(piece, last).into_iter().for_each(|before| self.after(before, work));
        }
    }

    /// Ornaments that are not baked are made in one go for each stuff.
    fn make_ornaments(&mut self) {
        let mut stuffs: BTreeMap<Stuff, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
        for (k, own) in self.source.dressed.ornaments.iter().enumerate() {
            stuffs.entry(own.stuff).or_default().0.push(k);
        }
        for (k, own) in self.source.dressed.extras.iter().enumerate() {
            stuffs.entry(own.stuff).or_default().1.push(k);
        }
        for (stuff, (ornaments, extras)) in stuffs {
            // The key stands in notebooks, whatever language the words are in.
            let (key, dries) = match stuff {
                Stuff::Dough | Stuff::Sweets => continue,
                Stuff::Fondant => ("fondant", Rate::DryFondant),
                Stuff::GumPaste => ("gum-paste", Rate::DryGumPaste),
                Stuff::Icing => (OF_ICING, Rate::Cure),
            };
            let count = ornaments.len() + extras.len();
            let minutes = count as f64 * self.rate(Rate::MakeOrnament);
            let of = say(stuff.words());
            let name = tr!("Make {n} ornament of {of}" | "Make {n} ornaments of {of}" % count);
            let new = New { kind: TaskKind::Ornaments, key, name, pieces: Vec::new(), minutes };
            let sets = tr!("Ornaments of {of} dry");
            let (work, dry) = self.work_then(new, TaskKind::Dry, sets, self.drying(dries));
            self.may_split(work);
            self.go.ornaments.extend(ornaments.iter().map(|&k| (k, BTreeSet::from([dry]))));
            self.go.extras.extend(extras.iter().map(|&k| (k, BTreeSet::from([dry]))));
            if !ornaments.is_empty() && extras.is_empty() {
                self.spare(tr!("the ornaments").to_owned(), &[work, dry]);
            }
        }
    }

    fn panes(&self, piece: usize, glass: Glass) -> usize {
        self.source.dressed.panes.iter().filter(|p| p.piece == piece && p.glass == glass).count()
    }

    fn leaves(&mut self, part: &PartId, pieces: &[usize]) {
        let own: Vec<usize> = pieces.iter().copied().filter(|&k| self.panes(k, Glass::Leaf) > 0).collect();
        let panes: usize = own.iter().map(|&k| self.panes(k, Glass::Leaf)).sum();
        if panes == 0 {
            return;
        }
        let what = self.part_name(part);
        let name = tr!("Glaze {what}: {n} leaf" | "Glaze {what}: {n} leaves" % panes);
        let minutes = panes as f64 * self.rate(Rate::GluePane);
        let new = New { kind: TaskKind::Glaze, key: &part.0, name, pieces: own, minutes };
        self.on_pieces(new, tr!("Panes of {what} dry, face down"), self.drying(Rate::Handle));
    }

    /// Sugar is boiled once for all panes.
    fn poured(&mut self) {
        let own = self.source.dressed.panes.iter().filter(|p| p.glass == Glass::Poured);
        let pieces: BTreeSet<usize> = own.clone().map(|p| p.piece).filter(|&k| k < self.go.ready.len()).collect();
        let panes = own.count();
        if pieces.is_empty() {
            return;
        }
        // A pan of sugar is boiled for all copies.
        let minutes = self.rate(Rate::BoilSugar) / self.go.times() as f64 + panes as f64 * self.rate(Rate::FillPane);
        let name = tr!("Boil sugar and pour {n} pane" | "Boil sugar and pour {n} panes" % panes);
        let listed = pieces.iter().copied().collect();
        let new = New { kind: TaskKind::Pour, key: "panes", name, pieces: listed, minutes };
        let sets = tr!("Panes of sugar harden").to_owned();
        let (work, set) = self.work_then(new, TaskKind::Set, sets, self.rate(Rate::SetSugar));
        let pieces: Vec<usize> = pieces.into_iter().collect();
        self.in_turn(&pieces, work, set);
    }

    /// Each copy of a piece goes into the oven by itself.
    fn crushed(&mut self, piece: usize) {
        let panes = self.panes(piece, Glass::Crushed);
        if panes == 0 {
            return;
        }
        let before = std::mem::take(&mut self.go.ready[piece]);
        for copy in self.go.copies.clone() {
            let mut one = self.go(self.go.lot, copy..copy + 1, false);
            one.ready[piece].clone_from(&before);
            self.within(&mut one, |own| own.melted(piece, panes));
            let melted = std::mem::take(&mut one.ready[piece]);
            self.go.ready[piece].extend(melted);
        }
    }

    fn melted(&mut self, piece: usize, panes: usize) {
        let block = self.block();
        let (key, name) = (self.piece_id(piece).to_owned(), self.piece_name(piece).to_owned());
        let new = |kind: TaskKind, name, minutes| New { kind, key: &key, name, pieces: vec![piece], minutes };
        let minutes = panes as f64 * self.rate(Rate::FillPane);
        let fill = self.add(
            new(TaskKind::Fill, tr!("Fill {n} pane of {name}" | "Fill {n} panes of {name}" % panes), minutes),
            Hands::Work(1),
            block,
        );
        let melting = self.rate(Rate::MeltPane);
        let melt = self.add(new(TaskKind::Melt, tr!("Melt the panes of {name}"), melting), Hands::Watched, block);
        let minutes = self.rate(Rate::SetSugar);
        let cool = self.add(new(TaskKind::Set, tr!("The panes of {name} harden"), minutes), Hands::Alone, block);
        self.project.jobs[melt].needs.push(oven(melting));
        self.at_once(fill, melt, 60);
        self.at_once(melt, cool, 0);
        self.hold(fill, cool, TRAY, 1);
        self.in_turn(&[piece], fill, cool);
    }

    /// The finishes of flat pieces, but no snow. Fields of icing of one colour get a skin before the next colour.
    fn finishes(&mut self, pieces: &[usize]) {
        let source = self.source;
        let flat = |c: &&Covered| pieces.contains(&c.piece) && c.is_flat_work(source.house, source.solved);
        for group in in_one_go(source, source.dressed.finishes.iter().filter(flat)) {
            let Some(&one) = group.first() else { continue };
            let pieces: Vec<usize> = group.iter().map(|own| own.piece).collect();
            let word = source.house.dressing.finishes.get(one.finish).map_or("finish", |f| f.covering.word());
            let place = format!("{}/{word}-{}", self.piece_id(one.piece), one.finish);
            let spare = tr!("the {}", finish_name(source, one.finish));
            let all: f64 = group.iter().map(|own| own.tally.minutes).sum();
            let passes = if one.stuff == Stuff::Icing { colours(&group) } else { Vec::new() };
            let passes: Vec<(Option<&str>, f64)> = match passes.len() {
                0 | 1 => vec![(None, 1.0)],
                _ => passes.into_iter().map(|(tint, share)| (Some(tint), share)).collect(),
            };
            let last = passes.len() - 1;
            for (k, (tint, share)) in passes.into_iter().enumerate() {
                let key = tint.map_or_else(|| place.clone(), |tint| format!("{place}-{tint}"));
                let (which, finish, of) = (self.named(&pieces), one.name, say(one.stuff.words()));
                let what = match tint {
                    None => tr!("{which}, {finish} of {of}"),
                    Some(tint) => tr!("{which}, {finish} in {}", tint.replace('-', " ")),
                };
                let name = tr!("Decorate {what}");
                let new =
                    New { kind: TaskKind::Decorate, key: &key, name, pieces: pieces.clone(), minutes: all * share };
                let dries = self.drying(if k == last { Rate::Handle } else { Rate::Skin });
                let (work, dry) = self.on_pieces(new, tr!("Dries: {what}"), dries);
                self.units_before(&group, work);
                self.spare(spare.clone(), &[work, dry]);
            }
        }
    }

    /// Units of dough are baked before they are set.
    pub(super) fn units_before(&mut self, faces: &[&Covered], work: usize) {
        let baked = faces.iter().filter_map(|own| self.go.units.get(&(own.piece, own.finish)));
        let baked: BTreeSet<usize> = baked.flatten().copied().collect();
        baked.into_iter().for_each(|dry| self.after(dry, work));
    }

    /// Bars that are piped on panes.
    fn bars(&mut self, part: &PartId, pieces: &[usize]) {
        let lines = self.source.dressed.opening_lines.iter().filter(|l| pieces.contains(&l.piece) && !l.pressed);
        let long: f64 = lines.clone().map(|l| (l.ends[1] - l.ends[0]).norm()).sum();
        if long <= 0.0 {
            return;
        }
        let own: BTreeSet<usize> = lines.map(|l| l.piece).collect();
        let minutes = long / 100.0 * self.source.house.dressing.rates.pipe / 60.0;
        let what = self.part_name(part);
        let name = tr!("Pipe the bars of {what}");
        let new = New { kind: TaskKind::Bars, key: &part.0, name, pieces: own.into_iter().collect(), minutes };
        self.on_pieces(new, tr!("Bars of {what} dry"), self.drying(Rate::Handle));
    }

    /// Ornaments at openings.
    fn stuck(&mut self, part: &PartId, pieces: &[usize]) {
        let source = self.source;
        let here = |k: &usize| {
            let own = &source.dressed.ornaments[*k];
            own.host.is_some_and(|host| pieces.contains(&host)) && own.is_flat_work(source.house)
        };
        let own: Vec<usize> = (0..source.dressed.ornaments.len()).filter(here).collect();
        if own.is_empty() {
            return;
        }
        let hosts: BTreeSet<usize> = own.iter().filter_map(|&k| source.dressed.ornaments[k].host).collect();
        let minutes = own.len() as f64 * self.rate(Rate::StickOrnament);
        let (key, what) = (format!("{}/flat", part.0), self.part_name(part));
        let name = tr!("Stick {n} ornament on {what}, flat" | "Stick {n} ornaments on {what}, flat" % own.len());
        let new = New { kind: TaskKind::Stick, key: &key, name, pieces: hosts.into_iter().collect(), minutes };
        let (work, dry) = self.on_pieces(new, tr!("Ornaments on {what} dry"), self.drying(Rate::Handle));
        let made: BTreeSet<usize> = own.iter().filter_map(|k| self.go.ornaments.get(k)).flatten().copied().collect();
        made.into_iter().for_each(|made| self.after(made, work));
        self.spare(tr!("the ornaments").to_owned(), &[work, dry]);
    }
}

/// A finish in words: 'tiles of fondant (Tower, slopes)'.
pub(super) fn finish_name(source: &crate::About<'_>, finish: usize) -> String {
    let amounts = gable_dress::finish_amounts(source.house, source.dressed);
    let own = amounts.iter().find(|amount| amount.finish == finish);
    own.map_or_else(String::new, |own| tr!("{} of {} ({})", own.name, say(own.stuff.words()), own.place(source.house)))
}

/// The colours of some faces with the share of units in each.
fn colours(faces: &[&Covered]) -> Vec<(&'static str, f64)> {
    let all = faces.iter().map(|own| own.units.len()).sum::<usize>().max(1) as f64;
    let count = |k: usize| faces.iter().flat_map(|own| &own.units).filter(|unit| unit.shade == k).count();
    let tints = faces.first().map_or(&[][..], |own| &own.tints[..]);
    let colours = tints.iter().enumerate().map(|(k, tint)| (tint.word(), count(k) as f64 / all));
    colours.filter(|(_, share)| *share > 0.0).collect()
}
