use super::{NotArranged, extent, judge, moved};
use crate::{Decided, House, Ornament, Part, PartId, Place, Relation};
use gable_measure::Length;
use std::collections::BTreeMap;

impl House {
    /// A part once more with all that stand by it, beside it where there is room; gives the id of the copy.
    ///
    /// # Errors
    /// When there is no such part, or no place where the copy can be built.
    pub fn copy_part(&mut self, part: &PartId) -> Result<PartId, NotArranged> {
        let original = self.part(part).ok_or(NotArranged::NoSuchPart)?.clone();
        let no_room = || NotArranged::NoRoom { part: original.name.clone() };
        if let Place::Ground(_) = original.place {
            let by = self.beside(&original).ok_or_else(no_room)?;
            return Ok(self.double(&original, by));
        }
        let (site, ground) = judge(self, &original)?;
        let step = extent(&original) + site.wall * 2.5;
        let steps = [1.0, -1.0, 2.0, -2.0, 3.0, -3.0].map(|k| moved(&original.place, site.round(step * k)));
        let at = |place: &Place| Part { place: place.clone(), ..original.clone() };
        let buildable = |place: &&Place| {
            let mut tried = self.clone();
            tried.double(&original, (*place).clone());
            ground.cautions(&tried).is_some()
        };
        let free = steps.iter().filter(|place| ground.is_free(&site, &at(place))).find(buildable);
        let place = free.or_else(|| steps.iter().find(buildable)).ok_or_else(no_room)?.clone();
        Ok(self.double(&original, place))
    }

    /// A place on the board to the right of everything.
    fn beside(&self, part: &Part) -> Option<Place> {
        let solved = crate::solve(self);
        let right = solved.parts.iter().flat_map(|p| &p.plan).map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
        let own = &solved.parts.iter().find(|p| p.id == part.id)?.plan;
        let left = own.iter().map(|p| p.x).fold(f64::INFINITY, f64::min);
        let step = self.unit.length(self.unit.number(Length::mm_of(right - left)).ceil() + 1.0);
        Some(moved(&part.place, step))
    }

    /// Adds a part once more at a place, with all that stand by it; gives the id of the copy.
    pub(super) fn double(&mut self, part: &Part, place: Place) -> PartId {
        let mut names: BTreeMap<PartId, PartId> = BTreeMap::new();
        for id in self.with_guests(&part.id) {
            let Some(mut copy) = self.part(&id).cloned() else { continue };
            (copy.id, copy.name) = self.free_name(&copy);
            names.insert(id, copy.id.clone());
            copy.locked = false;
            match copy.place.host().and_then(|host| names.get(host)).cloned() {
                Some(host) => set_host(&mut copy.place, host),
                None => copy.place = place.clone(),
            }
            self.parts.push(copy);
        }
        self.decide_alike(&names);
        self.relate_alike(&names);
        self.dress_alike(&names);
        names.get(&part.id).cloned().unwrap_or_else(|| part.id.clone())
    }

    /// What was decided of parts counts for their copies too.
    fn decide_alike(&mut self, names: &BTreeMap<PartId, PartId>) {
        let named = |id: &PartId| names.get(id).unwrap_or(id).clone();
        let alike = |d: &Decided| Decided { whole: named(&d.whole), cut: named(&d.cut) };
        let new: Vec<Decided> = self.decided.iter().map(alike).filter(|d| !self.decided.contains(d)).collect();
        self.decided.extend(new);
    }

    /// What sizes of parts follow, those of their copies follow too; what follows each other among them does so anew.
    fn relate_alike(&mut self, names: &BTreeMap<PartId, PartId>) {
        let alike = |r: &Relation| {
            let mut copy = r.clone();
            copy.follower.part = names.get(&r.follower.part)?.clone();
            copy.leader.part = names.get(&r.leader.part).unwrap_or(&r.leader.part).clone();
            Some(copy)
        };
        let new: Vec<Relation> = self.relations.iter().filter_map(alike).collect();
        self.relations.extend(new);
    }

    /// What covers a part and what is stuck on it, its copy has too.
    fn dress_alike(&mut self, names: &BTreeMap<PartId, PartId>) {
        let dressing = &mut self.dressing;
        let mut finishes = Vec::with_capacity(dressing.finishes.len());
        for finish in dressing.finishes.drain(..) {
            let copy = finish.faces.part.as_ref().and_then(|id| names.get(id)).map(|id| {
                let mut copy = finish.clone();
                copy.faces.part = Some(id.clone());
                copy
            });
            // Beside its original: of several finishes the last one counts.
            finishes.push(finish);
            finishes.extend(copy);
        }
        dressing.finishes = finishes;
        let copies = dressing.ornaments.iter().filter_map(|ornament| {
            let part = names.get(&ornament.part)?.clone();
            Some(Ornament { part, ..ornament.clone() })
        });
        let copies: Vec<Ornament> = copies.collect();
        dressing.ornaments.extend(copies);
    }

    /// An id and a name after those of a part that no part has: 'dormer-3' after 'dormer-1'.
    fn free_name(&self, part: &Part) -> (PartId, String) {
        let id_stem = without_number(&part.id.0, '-');
        let name_stem = without_number(&part.name, ' ');
        let new = |k: usize| (PartId(format!("{id_stem}-{k}")), format!("{name_stem} {k}"));
        let free = |(id, name): &(PartId, String)| self.parts.iter().all(|p| &p.id != id && &p.name != name);
        (2..=2 * self.parts.len() + 2).map(new).find(free).unwrap_or_else(|| new(2 * self.parts.len() + 3))
    }
}

fn set_host(place: &mut Place, new: PartId) {
    match place {
        Place::Ground(_) => {}
        Place::Against { host, .. }
        | Place::OnSlope { host, .. }
        | Place::Astride { host, .. }
        | Place::OnTop { host, .. } => *host = new,
    }
}

/// 'dormer' of 'dormer-1'.
fn without_number(text: &str, joint: char) -> &str {
    match text.rsplit_once(joint) {
        Some((stem, number)) if !stem.is_empty() && number.parse::<u32>().is_ok() => stem,
        _ => text,
    }
}
