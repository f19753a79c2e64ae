//! Where parts stand: hosts before guests, and each guest relative to its host.

use super::part::PartSolution;
use super::plan::{PlanSide, level};
use crate::{House, Part, PartId, Place, Placing, Spot};
use gable_plane::{P2, Rigid, V2, V3};
use std::collections::BTreeMap;

/// Points of a plan within this of the foremost one are at the front too, mm.
const FRONT: f64 = 1e-6;

/// What keeps a part from being placed.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Lost {
    /// No part has the name of its host.
    NoHost(String),
    /// It stands on itself, by way of these parts.
    Circle(Vec<String>),
    /// The host has no such side.
    NoSide(String),
    /// The host has no pieces, so nothing can stand on its roof.
    HostFailed,
}

/// Where a part stands.
pub(super) struct Stand {
    pub(super) house_from_part: Rigid,
    /// How deep its walls reach before they are cut to what it stands on, in its own coordinates.
    pub(super) foot: f64,
    /// Whether it stands on the base board.
    pub(super) on_board: bool,
}

/// The parts in the order of the list, but hosts before guests; parts that cannot be placed come last with the reason.
pub(super) fn order(house: &House) -> Vec<(usize, Option<Lost>)> {
    let index: BTreeMap<&PartId, usize> = house.parts.iter().enumerate().map(|(k, p)| (&p.id, k)).rev().collect();
    let host_of = |k: usize| house.parts[k].place.host().map(|id| index.get(id).copied());
    let mut placed = vec![false; house.parts.len()];
    let mut order: Vec<(usize, Option<Lost>)> = Vec::new();
    let mut waiting: Vec<usize> = (0..house.parts.len()).collect();
    loop {
        let ready = |k: &usize| host_of(*k).is_none_or(|host| host.is_some_and(|host| placed[host]));
        let Some(at) = waiting.iter().position(ready) else { break };
        let next = waiting.remove(at);
        placed[next] = true;
        order.push((next, None));
    }
    order.extend(waiting.iter().map(|&k| (k, Some(why_lost(house, k)))));
    order
}

/// Why a part never gets its turn: a host that is not there, or a circle.
fn why_lost(house: &House, part: usize) -> Lost {
    let mut path = vec![part];
    loop {
        let last = &house.parts[path[path.len() - 1]];
        let Some(host) = last.place.host() else { return Lost::HostFailed };
        let Some(next) = house.parts.iter().position(|p| &p.id == host) else {
            return if path.len() == 1 { Lost::NoHost(host.0.clone()) } else { Lost::HostFailed };
        };
        if let Some(start) = path.iter().position(|&k| k == next) {
            let names = path[start..].iter().chain([&next]).map(|&k| house.parts[k].name.clone());
            // A part that only hangs on a circle is not to blame for it.
            return if start == 0 { Lost::Circle(names.collect()) } else { Lost::HostFailed };
        }
        path.push(next);
    }
}

/// Where the first part on the board stands. Everything is worked out seen from there, so that a house elsewhere on the board
/// has the very same pieces, to the last digit.
pub(super) fn start(house: &House) -> Spot {
    let on_board = house.parts.iter().find_map(|p| if let Place::Ground(spot) = p.place { Some(spot) } else { None });
    on_board.unwrap_or_default()
}

/// Places a part on the board, given what became of its host.
pub(super) fn place(part: &Part, host: Option<(&Part, &PartSolution)>) -> Result<Stand, Lost> {
    place_from(&Spot::default(), part, host)
}

/// The same, seen from the `start`.
pub(super) fn place_from(start: &Spot, part: &Part, host: Option<(&Part, &PartSolution)>) -> Result<Stand, Lost> {
    let raised = part.raised.mm();
    let on_board = |house_from_part: Rigid| {
        let on_board = house_from_part.translation.z.abs() < FRONT;
        Stand { house_from_part, foot: 0.0, on_board }
    };
    if let Place::Ground(spot) = &part.place {
        let up = Rigid::translation(0.0, 0.0, raised);
        return Ok(on_board(if spot == start { up } else { at_spot(start, 0.0).inverse() * at_spot(spot, raised) }));
    }
    let Some((host_part, host)) = host else { return Err(Lost::HostFailed) };
    let house_from_host = host.stand.house_from_part;
    let side = |id: &crate::SideId| {
        let found = host_part.sides.iter().position(|s| &s.id == id);
        found.and_then(|k| host.sides.get(k)).ok_or_else(|| Lost::NoSide(id.0.clone()))
    };
    let plan = part.outline.corners();
    match &part.place {
        Place::Ground(_) => Err(Lost::HostFailed),
        Place::Against { side: id, along, out, turn, .. } => {
            let by = beside(&plan, side(id)?, along, -out.mm(), turn.rad());
            let up = Rigid::translation(0.0, 0.0, raised);
            Ok(on_board(house_from_host * up * by))
        }
        Place::OnSlope { side: id, along, up, turn, .. } => {
            let by = beside(&plan, side(id)?, along, up.mm(), turn.rad());
            let front = front(&plan, &by, side(id)?);
            let upper = host.roof_heights().ok_or(Lost::HostFailed)?;
            let base = front.into_iter().map(|p| upper.upper(p)).fold(f64::INFINITY, f64::min);
            on_roof(&plan, host, base, by)
        }
        Place::Astride { along, turn, .. } => {
            let roof = host.roof_heights().ok_or(Lost::HostFailed)?;
            let top = roof.top();
            let at = top.middle + top.direction * along.mm();
            let by = Rigid::new(V3::new(at.x, at.y, 0.0), V3::z() * turn.rad());
            on_roof(&plan, host, top.height, by)
        }
        Place::OnTop { spot, .. } => {
            let roof = host.roof_heights().ok_or(Lost::HostFailed)?;
            on_roof(&plan, host, roof.lid_top().unwrap_or_else(|| roof.top().height), at_spot(spot, 0.0))
        }
    }
}

/// From the plan of what stands at a spot to where the spot is given.
pub(super) fn at_spot(spot: &Spot, height: f64) -> Rigid {
    Rigid::new(V3::new(spot.x.mm(), spot.y.mm(), height), V3::z() * spot.turn.rad())
}

/// On a roof at height `base` of the host, with walls that reach down to its underside.
fn on_roof(plan: &[P2], host: &PartSolution, base: f64, by: Rigid) -> Result<Stand, Lost> {
    let roof = host.roof_heights().ok_or(Lost::HostFailed)?;
    let under = plan.iter().map(|&p| roof.under((by * level(p, 0.0)).xy()));
    let deepest = under.fold(base, f64::min);
    let lifted = Rigid::translation(0.0, 0.0, base) * by;
    Ok(Stand { house_from_part: host.stand.house_from_part * lifted, foot: deepest - base, on_board: false })
}

/// Beside a wall: turned to it, its extent along the wall placed like an opening, its foremost point `front` inside.
fn beside(plan: &[P2], side: &PlanSide, along: &Placing, front: f64, turn: f64) -> Rigid {
    let facing = side.along.y.atan2(side.along.x);
    let turned = Rigid::new(V3::zeros(), V3::z() * (facing + turn));
    let extent = |direction: V2| {
        let reach = plan.iter().map(|&p| (turned * level(p, 0.0)).xy().coords.dot(&direction));
        reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), a| (low.min(a), high.max(a)))
    };
    let (left, right) = extent(side.along);
    let (foremost, _) = extent(side.inward);
    let length = side.length();
    let shift = match along {
        Placing::Centred { offset } => length / 2.0 + offset.mm() - (left + right) / 2.0,
        Placing::FromLeft { distance } => distance.mm() - left,
        Placing::FromRight { distance } => length - distance.mm() - right,
    };
    let at = side.start + side.along * shift + side.inward * (front - foremost);
    Rigid::translation(at.x, at.y, 0.0) * turned
}

/// The foremost points of a placed plan, in the host.
fn front(plan: &[P2], by: &Rigid, side: &PlanSide) -> Vec<P2> {
    let placed: Vec<P2> = plan.iter().map(|&p| (by * level(p, 0.0)).xy()).collect();
    let foremost = placed.iter().map(|&p| side.depth(p)).fold(f64::INFINITY, f64::min);
    placed.into_iter().filter(|&p| side.depth(p) < foremost + FRONT).collect()
}
