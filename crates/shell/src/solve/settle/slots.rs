//! Which sizes a relation reads and which it sets, so that each is set before it is read.

use crate::{Gives, House, Measure, Measured, Outline, Part, PartId, Place, Relation};
use std::collections::{BTreeMap, BTreeSet};

/// A size of a part that one relation may set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Slot {
    Width,
    Depth,
    /// Height of the wall of a side, by its index.
    Eave(usize),
    Lid,
    /// What makes the ridge as high as it is, walls not counted.
    Ridge,
}

/// Sizes of parts, by index.
pub(super) type Slots = BTreeSet<(usize, Slot)>;

/// The parts of a house by their names.
pub(super) struct Parts<'a> {
    house: &'a House,
    indices: BTreeMap<&'a PartId, usize>,
    /// What follows something.
    followers: BTreeSet<&'a Measured>,
}

impl<'a> Parts<'a> {
    pub(super) fn new(house: &'a House) -> Self {
        let indices = house.parts.iter().enumerate().rev().map(|(k, p)| (&p.id, k)).collect();
        Self { house, indices, followers: house.relations.iter().map(|r| &r.follower).collect() }
    }

    pub(super) fn index(&self, id: &PartId) -> Option<usize> {
        self.indices.get(id).copied()
    }

    /// What a relation sets.
    pub(super) fn set(&self, relation: &Relation) -> Slots {
        let Some(k) = self.index(&relation.follower.part) else { return Slots::new() };
        let part = &self.house.parts[k];
        let mut slots = own(k, part, &relation.follower.measure);
        let ridge_by_walls = relation.follower.measure == Measure::Ridge && relation.gives == Gives::Walls;
        if ridge_by_walls {
            slots.extend(own(k, part, &Measure::Eave(None)));
        }
        // What lies on the walls rises with them unless it follows something itself.
        let lid = Measured { part: part.id.clone(), measure: Measure::Lid };
        if relation.follower.measure == Measure::Eave(None) && part.lid.is_some() && !self.followers.contains(&lid) {
            slots.insert((k, Slot::Lid));
        }
        slots
    }

    /// What a relation reads before it can set anything.
    pub(super) fn read(&self, relation: &Relation) -> Slots {
        let (Some(follower), Some(leader)) = (self.index(&relation.follower.part), self.index(&relation.leader.part))
        else {
            return Slots::new();
        };
        let part = |k: usize| &self.house.parts[k];
        let mut slots = match relation.leader.measure {
            Measure::Ridge => whole(leader, part(leader)),
            ref measure => own(leader, part(leader), measure),
        };
        if relation.leader.measure.is_height() && follower != leader {
            self.below(leader, &mut slots);
            self.below(follower, &mut slots);
        }
        if relation.follower.measure == Measure::Ridge {
            slots.extend(plan(follower, part(follower)));
            if relation.gives == Gives::Pitch {
                slots.extend(own(follower, part(follower), &Measure::Eave(None)));
            }
        }
        slots
    }

    /// What the height of a part's foot rests on.
    fn below(&self, part: usize, slots: &mut Slots) {
        let mut part = part;
        // A circle of hosts ends after as many steps as there are parts; who stands in it cannot be placed anyway.
        for _ in 0..self.house.parts.len() {
            let guest = &self.house.parts[part];
            let Some(host) = guest.place.host().and_then(|id| self.index(id)) else { return };
            if !matches!(guest.place, Place::Against { .. }) {
                // How high the roof is under its foremost points.
                slots.extend(plan(part, guest));
                slots.extend(whole(host, &self.house.parts[host]));
            }
            part = host;
        }
    }
}

fn own(k: usize, part: &Part, measure: &Measure) -> Slots {
    let has_one_size = matches!(part.outline, Outline::Polygon { .. } | Outline::HalfPolygon { .. });
    let slot = match measure {
        Measure::Depth if has_one_size => Slot::Width,
        Measure::Width => Slot::Width,
        Measure::Depth => Slot::Depth,
        Measure::Ridge => Slot::Ridge,
        Measure::Lid => Slot::Lid,
        Measure::Eave(None) => return (0..part.sides.len()).map(|s| (k, Slot::Eave(s))).collect(),
        Measure::Eave(Some(side)) => {
            return part.sides.iter().position(|s| &s.id == side).map(|s| (k, Slot::Eave(s))).into_iter().collect();
        }
    };
    Slots::from([(k, slot)])
}

fn plan(k: usize, part: &Part) -> Slots {
    own(k, part, &Measure::Width).into_iter().chain(own(k, part, &Measure::Depth)).collect()
}

/// Everything that the shape of a part rests on.
fn whole(k: usize, part: &Part) -> Slots {
    let rest = [Measure::Eave(None), Measure::Ridge, Measure::Lid];
    plan(k, part).into_iter().chain(rest.iter().flat_map(|m| own(k, part, m))).collect()
}
