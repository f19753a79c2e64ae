//! Which parts stand by which.

use gable_measure::{Angle, Length};
use gable_shell::{House, PartId, Place, Placing, SideId, Spot};

/// A part that another may stand by.
#[derive(Clone, Debug)]
pub(crate) struct Host {
    /// Its stable name.
    pub(crate) id: PartId,
    /// Its name for people.
    pub(crate) name: String,
    /// Its sides.
    pub(crate) sides: Vec<SideId>,
}

/// The parts that a part may stand by: all but itself and those that stand by it.
pub(crate) fn possible(house: &House, part: usize) -> Vec<Host> {
    let Some(id) = house.parts.get(part).map(|p| &p.id) else { return Vec::new() };
    let closed = house.with_guests(id);
    let open = house.parts.iter().filter(|p| !closed.contains(&p.id));
    let host = |p: &gable_shell::Part| Host {
        id: p.id.clone(),
        name: p.name.clone(),
        sides: p.sides.iter().map(|s| s.id.clone()).collect(),
    };
    open.map(host).collect()
}

/// Whether something would be left of the house without a part and its guests, none of which is locked.
pub(crate) fn can_go(house: &House, part: &PartId) -> bool {
    let gone = house.with_guests(part);
    gone.len() < house.parts.len() && !house.parts.iter().any(|p| p.locked && gone.contains(&p.id))
}

/// Takes a part away, and its guests with it.
pub(crate) fn remove(house: &mut House, part: &PartId) {
    let gone = house.with_guests(part);
    house.parts.retain(|p| !gone.contains(&p.id));
    house.forget_lost();
}

/// A place of another kind (0 board, 1 against, 2 slope, 3 astride, 4 on top), by the same part if there was one.
pub(crate) fn converted(place: &Place, kind: i32, hosts: &[Host]) -> Option<Place> {
    let turn = Angle::degrees(0.0);
    if kind == 0 {
        return Some(Place::Ground(Spot::default()));
    }
    let found = hosts.iter().find(|h| Some(&h.id) == place.host()).or(hosts.first())?;
    let host = found.id.clone();
    let side = match place {
        Place::Against { side, .. } | Place::OnSlope { side, .. } => side.clone(),
        _ => found.sides.first()?.clone(),
    };
    let along = Placing::Centred { offset: Length::ZERO };
    let reach = Length::mm_of(20.0);
    Some(match kind {
        1 => Place::Against { host, side, along, out: reach, turn },
        2 => Place::OnSlope { host, side, along, up: reach, turn },
        3 => Place::Astride { host, along: Length::ZERO, turn },
        _ => Place::OnTop { host, spot: Spot::default() },
    })
}
