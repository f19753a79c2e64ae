//! The base board, the stages of the assembly, and what is done once things stand.

use super::flat::finish_name;
use super::{Builder, New, icing, in_one_go};
use crate::timetable::{Rate, TaskKind};
use crate::{HandOver, IcingNeed, IcingUse, Mass, Needs};
use gable_shell::{PartId, Stuff};
use gable_words::{say, tr};
use std::collections::{BTreeMap, BTreeSet};

/// A stage as it is planned.
struct Stage {
    pieces: Vec<usize>,
    /// Joint length to ice, inside included, mm.
    joints: f64,
    waits: bool,
}

/// What icing goes on what stands.
const STANDING: [IcingUse; 4] = [IcingUse::Joints, IcingUse::Fillets, IcingUse::Borders, IcingUse::Snow];

/// Work on what stands that takes icing.
const fn takes_icing(kind: TaskKind) -> bool {
    use TaskKind::{Cover, Doors, Extras, Raise, Snow, Stick};
    matches!(kind, Raise | Doors | Cover | Stick | Snow | Extras)
}

impl Builder<'_> {
    pub(super) fn stand(&mut self, needs: &Needs) {
        if self.lots.until == HandOver::Kits {
            return;
        }
        let board = New {
            kind: TaskKind::Board,
            key: "board",
            name: tr!("Cover the base board and mark the house on it").to_owned(),
            pieces: Vec::new(),
            minutes: self.rate(Rate::Board),
        };
        let board = self.work(board);
        self.may_split(board);
        let icing =
            self.make_icing("assembly", tr!("Make stiff icing for putting up").to_owned(), self.icing_to_stand(needs));
        let first = self.tasks.len();
        let set = self.raise(&[board, icing]);
        if self.lots.until == HandOver::Finished {
            self.hang_doors(&set);
            let covered = self.cover(&set);
            let stuck = self.stick(&set, &covered);
            self.snow(&set, &covered, &stuck);
            self.beside(&set);
        }
        let iced: Vec<usize> = (first..self.tasks.len()).filter(|&k| takes_icing(self.tasks[k].kind)).collect();
        self.bowl(icing, &iced);
    }

    /// Icing for what is put up here: of houses that others finish, what is not in their kits.
    fn icing_to_stand(&self, needs: &Needs) -> Mass {
        let until = self.lots.until;
        let Some(lot) = self.lots.get(self.go.lot).filter(|_| until != HandOver::Finished) else {
            return icing(&needs.icing, &STANDING);
        };
        let left = Needs::icing_left(lot, until, self.figures);
        let of = |all: &[IcingNeed]| icing(all, &[IcingUse::Joints, IcingUse::Fillets]).g();
        Mass::grams((of(&needs.icing) - of(&left)).max(0.0))
    }

    fn stages(&self) -> Vec<Stage> {
        let solved = self.source.solved;
        let length = |j: &usize| {
            let line = solved.joints.get(*j).map(|joint| joint.line);
            line.map_or(0.0, |[a, b]| (b - a).norm())
        };
        match self.source.guide {
            Some(guide) => guide
                .stages
                .iter()
                .map(|stage| Stage {
                    pieces: stage.steps.iter().map(|step| step.piece).collect(),
                    joints: stage.joints.iter().chain(&stage.inside).map(length).sum(),
                    waits: stage.waits,
                })
                .collect(),
            None => {
                (0..solved.pieces.len()).map(|piece| Stage { pieces: vec![piece], joints: 0.0, waits: true }).collect()
            }
        }
    }

    /// The stages one after the other; per piece the task after which it has set.
    fn raise(&mut self, before: &[usize]) -> BTreeMap<usize, usize> {
        let mut set = BTreeMap::new();
        let (mut last, mut setting): (Option<usize>, Vec<usize>) = (None, Vec::new());
        let until = self.lots.until;
        let (solved, pieces) = (self.source.solved, |stage: &Stage| stage.pieces.clone());
        for stage in self.stages().into_iter().take_while(|stage| until.raises(solved, &pieces(stage))) {
            let Some(&one) = stage.pieces.first() else { continue };
            let key = self.piece_id(one).to_owned();
            let names: Vec<&str> = stage.pieces.iter().map(|&k| self.piece_name(k)).collect();
            let what = match &names[..] {
                [one] => (*one).to_owned(),
                [one, other] => tr!("{one} and {other}"),
                [one, rest @ ..] => tr!("{one} and {n} more" | "{one} and {n} more" % rest.len()),
                [] => String::new(),
            };
            let (name, sets) = (tr!("Put up {what}"), tr!("Sets: {what}"));
            let minutes = stage.pieces.len() as f64 * self.rate(Rate::Raise)
                + stage.joints / 100.0 * self.rate(Rate::IceJoint) / 60.0;
            let new = New { kind: TaskKind::Raise, key: &key, name, pieces: stage.pieces.clone(), minutes };
            let (work, sets) = self.work_then(new, TaskKind::Set, sets, self.drying(Rate::Handle));
            match last {
                Some(last) => self.after(last, work),
                None => before.iter().for_each(|&task| self.after(task, work)),
            }
            if stage.waits {
                setting.drain(..).for_each(|task| self.after(task, work));
            }
            let ready: BTreeSet<usize> =
                stage.pieces.iter().filter_map(|&k| self.go.ready.get(k)).flatten().copied().collect();
            ready.into_iter().for_each(|task| self.after(task, work));
            set.extend(stage.pieces.iter().map(|&piece| (piece, sets)));
            setting.push(sets);
            last = Some(work);
        }
        set
    }

    fn hang_doors(&mut self, set: &BTreeMap<usize, usize>) {
        let doors = &self.source.dressed.doors;
        if doors.is_empty() {
            return;
        }
        let mut before: BTreeSet<usize> = self.go.doors.values().flatten().copied().collect();
        before.extend(doors.iter().filter_map(|door| set.get(&door.piece)));
        let mut pieces: Vec<usize> = doors.iter().map(|door| door.piece).collect();
        pieces.dedup();
        let minutes = doors.len() as f64 * self.rate(Rate::HangDoor);
        let name = tr!("Hang the door" | "Hang {n} doors" % doors.len());
        let new = New { kind: TaskKind::Doors, key: "doors", name, pieces, minutes };
        let sets = tr!("Doors set").to_owned();
        let (work, _) = self.work_then(new, TaskKind::Set, sets, self.drying(Rate::Handle));
        before.into_iter().for_each(|task| self.after(task, work));
    }

    /// Finishes of what stands, but no snow; per piece the tasks after which it is covered.
    fn cover(&mut self, set: &BTreeMap<usize, usize>) -> BTreeMap<usize, usize> {
        let source = self.source;
        let mut covered: BTreeMap<usize, usize> = BTreeMap::new();
        let (house, solved) = (source.house, source.solved);
        let own = source.dressed.finishes.iter().filter(|own| !own.is_flat_work(house, solved) && !own.is_snow(house));
        for group in in_one_go(source, own) {
            let Some(&one) = group.first() else { continue };
            let pieces: Vec<usize> = group.iter().map(|own| own.piece).collect();
            let key = format!("{}/{}", self.piece_id(one.piece), one.finish);
            let (which, finish, of) = (self.named(&pieces), one.name, say(one.stuff.words()));
            let what = tr!("{which}, {finish} of {of}");
            let (name, sets) = (tr!("Cover {what}"), tr!("Dries: {what}"));
            let minutes = group.iter().map(|own| own.tally.minutes).sum();
            let new = New { kind: TaskKind::Cover, key: &key, name, pieces: pieces.clone(), minutes };
            let (work, dry) = self.work_then(new, TaskKind::Dry, sets, self.drying(Rate::Handle));
            self.may_split(work);
            self.units_before(&group, work);
            for piece in pieces {
                let before = covered.insert(piece, dry).or_else(|| set.get(&piece).copied());
                before.into_iter().for_each(|task| self.after(task, work));
            }
            self.spare(tr!("the {}", finish_name(source, one.finish)), &[work, dry]);
        }
        covered
    }

    /// Ornaments that are stuck on what stands; per part the task after which they hold.
    fn stick(&mut self, set: &BTreeMap<usize, usize>, covered: &BTreeMap<usize, usize>) -> BTreeMap<PartId, usize> {
        let source = self.source;
        let mut parts: BTreeMap<PartId, Vec<usize>> = BTreeMap::new();
        for (k, own) in source.dressed.ornaments.iter().enumerate() {
            let flat = own.is_flat_work(source.house);
            if let Some(host) = own.host.and_then(|host| source.solved.pieces.get(host)).filter(|_| !flat) {
                parts.entry(host.part.clone()).or_default().push(k);
            }
        }
        let mut stuck = BTreeMap::new();
        for (part, own) in parts {
            let hosts: BTreeSet<usize> = own.iter().filter_map(|&k| source.dressed.ornaments[k].host).collect();
            let mut before: BTreeSet<usize> =
                own.iter().filter_map(|k| self.go.ornaments.get(k)).flatten().copied().collect();
            before.extend(hosts.iter().filter_map(|piece| covered.get(piece).or_else(|| set.get(piece))));
            let minutes = own.len() as f64 * self.rate(Rate::StickOrnament);
            let what = self.part_name(&part);
            let name = tr!("Stick {n} ornament on {what}" | "Stick {n} ornaments on {what}" % own.len());
            let sets = tr!("Ornaments on {what} dry");
            let new = New { kind: TaskKind::Stick, key: &part.0, name, pieces: hosts.into_iter().collect(), minutes };
            let (work, dry) = self.work_then(new, TaskKind::Dry, sets, self.drying(Rate::Handle));
            self.may_split(work);
            before.into_iter().for_each(|task| self.after(task, work));
            self.spare(tr!("the ornaments").to_owned(), &[work, dry]);
            stuck.insert(part, dry);
        }
        stuck
    }

    /// Snow comes last, part by part.
    fn snow(
        &mut self,
        set: &BTreeMap<usize, usize>,
        covered: &BTreeMap<usize, usize>,
        stuck: &BTreeMap<PartId, usize>,
    ) {
        let source = self.source;
        let mut parts: BTreeMap<PartId, (f64, BTreeSet<usize>, usize)> = BTreeMap::new();
        for own in source.dressed.finishes.iter().filter(|own| own.is_snow(source.house)) {
            let Some(piece) = source.solved.pieces.get(own.piece) else { continue };
            let part = parts.entry(piece.part.clone()).or_insert((0.0, BTreeSet::new(), own.finish));
            part.0 += own.tally.minutes;
            part.1.insert(own.piece);
        }
        for (part, (minutes, pieces, finish)) in parts {
            let mut before: BTreeSet<usize> =
                pieces.iter().filter_map(|k| covered.get(k).or_else(|| set.get(k)).copied()).collect();
            before.extend(stuck.get(&part));
            let what = self.part_name(&part);
            let (name, sets) = (tr!("Snow on {what}"), tr!("Snow on {what} dries"));
            let new = New { kind: TaskKind::Snow, key: &part.0, name, pieces: pieces.into_iter().collect(), minutes };
            let (work, dry) = self.work_then(new, TaskKind::Dry, sets, self.drying(Rate::Handle));
            self.may_split(work);
            before.into_iter().for_each(|task| self.after(task, work));
            self.spare(tr!("the {}", finish_name(source, finish)), &[work, dry]);
        }
    }

    /// What stands free, and the lights.
    fn beside(&mut self, set: &BTreeMap<usize, usize>) {
        let all: BTreeSet<usize> = set.values().copied().collect();
        let extras = &self.source.dressed.extras;
        if !extras.is_empty() {
            let things: BTreeSet<usize> = extras.iter().map(|own| own.ornament).collect();
            let mut minutes = things.len() as f64 * self.rate(Rate::PlaceExtra);
            minutes +=
                extras.iter().filter(|own| own.stuff == Stuff::Sweets).count() as f64 * self.rate(Rate::StickOrnament);
            let name = tr!("Place what stands beside the house: {n} thing"
                | "Place what stands beside the house: {n} things" % things.len());
            let sets = tr!("What stands beside the house dries").to_owned();
            let new = New { kind: TaskKind::Extras, key: "extras", name, pieces: Vec::new(), minutes };
            let (work, dry) = self.work_then(new, TaskKind::Dry, sets, self.drying(Rate::Handle));
            self.may_split(work);
            let made: BTreeSet<usize> = self.go.extras.values().flatten().chain(&all).copied().collect();
            made.into_iter().for_each(|task| self.after(task, work));
            self.spare(tr!("what stands beside the house").to_owned(), &[work, dry]);
        }
        if self.ask.lights {
            let name = tr!("Lay in the lights and try them").to_owned();
            let new = New {
                kind: TaskKind::Lights,
                key: "lights",
                name,
                pieces: Vec::new(),
                minutes: self.rate(Rate::Lights),
            };
            let work = self.work(new);
            all.into_iter().for_each(|task| self.after(task, work));
        }
    }
}
