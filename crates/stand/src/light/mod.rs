//! Light: which windows a lamp reaches through the passages, and whether a hand reaches the lamp.

#[cfg(test)]
mod tests;

use crate::told::{Matter, Spot, Told};
use crate::{Answer, Class, Range, Site};
use gable_dress::Rooms;
use gable_plane::{P3, ring_centroid};
use gable_raise::hand_reaches;
use gable_shell::{House, Mode, Part, PartId, Place, Solved, solve};
use gable_words::tr;

/// How high above its floor a lamp is reached for, mm (an assumption).
const LAMP: f64 = 30.0;

/// One room as a lamp sees it.
#[derive(Clone, Debug, PartialEq)]
pub struct LitRoom {
    /// The parts that passages make one room.
    pub parts: Vec<PartId>,
    /// Their names.
    pub names: Vec<String>,
    /// Its glazed openings: piece, as an index into [`Solved::pieces`], and name.
    pub windows: Vec<(usize, String)>,
    /// Whether the cable of the base-board plan comes up in it.
    pub has_cable: bool,
    /// Whether a hole in the board would let a lamp in.
    pub from_below: bool,
    /// Whether a hand reaches a lamp in it from outside when everything stands and is glazed.
    pub by_hand: bool,
}

/// The rooms with glazed openings.
pub fn rooms(site: &Site<'_>) -> Vec<LitRoom> {
    let (house, solved) = (site.about.house, site.about.solved);
    let all = Rooms::of(house, solved);
    let mut numbers: Vec<usize> = house.parts.iter().filter_map(|p| all.of_part(house, &p.id)).collect();
    numbers.sort_unstable();
    numbers.dedup();
    // The board plan has its hole in the middle of the first part that touches the board.
    let on_board = |p: &gable_shell::Part| matches!(p.place, Place::Ground(_) | Place::Against { .. });
    let cable = house.parts.iter().find(|p| on_board(p)).and_then(|p| all.of_part(house, &p.id));
    let shut = glazed_shut(house);
    let room = |number: usize| {
        let parts: Vec<&Part> = all.parts(house, number).collect();
        let own = |k: usize| parts.iter().any(|p| p.id == solved.pieces[k].part);
        let windows = (0..solved.pieces.len()).filter(|&k| own(k)).flat_map(|k| {
            let glazed = solved.pieces[k].openings.iter().filter(|o| o.mode == Mode::Glazed);
            glazed.map(move |o| (k, o.name.clone()))
        });
        let lamps: Vec<P3> = parts.iter().filter_map(|p| lamp(solved, &p.id)).collect();
        LitRoom {
            windows: windows.collect(),
            has_cable: cable == Some(number),
            from_below: all.opens_to_board(house, number),
            by_hand: hand_reaches(&shut, &lamps).contains(&true),
            names: parts.iter().map(|p| p.name.clone()).collect(),
            parts: parts.iter().map(|p| p.id.clone()).collect(),
        }
    };
    numbers.into_iter().map(room).filter(|r| !r.windows.is_empty()).collect()
}

/// The house with its glazed openings closed: no hand goes through a pane. Doors to the foot are part of a wall's outline, so the walls
/// are worked out without them; fields of faces that are glazed as a whole are openings of the piece alone.
fn glazed_shut(house: &House) -> Solved {
    let mut shut = house.clone();
    shut.parts.iter_mut().for_each(|p| p.openings.retain(|o| o.mode != Mode::Glazed));
    let mut solved = solve(&shut);
    solved.pieces.iter_mut().for_each(|p| p.openings.retain(|o| o.mode != Mode::Glazed));
    solved
}

/// Where a lamp would stand in a part.
fn lamp(solved: &Solved, part: &PartId) -> Option<P3> {
    let own = solved.parts.iter().find(|p| &p.id == part)?;
    let middle = ring_centroid(&own.plan);
    let foot = own.house_from_part.translation.vector.z;
    Some(P3::new(middle.x, middle.y, foot.max(0.0) + LAMP))
}

/// What is to be said about light; nothing for a house without glazing.
pub fn answers(site: &Site<'_>) -> Vec<Told> {
    rooms(site).iter().map(|room| one(site, room)).collect()
}

fn one(site: &Site<'_>, room: &LitRoom) -> Told {
    let count = tr!("1 glazed opening" | "{n} glazed openings" % room.windows.len());
    let name = room.names.join(", ");
    let (class, reason, remedy) = match (room.has_cable, room.from_below, room.by_hand) {
        (true, true, _) => (
            Class::Sound,
            tr!("a lamp at the cable lights its {count}, and is reached from below through a hatch in the board"),
            String::new(),
        ),
        (true, false, true) => (
            Class::Sound,
            tr!("a lamp at the cable lights its {count}, and a hand reaches it from outside"),
            String::new(),
        ),
        (true, false, false) => (
            Class::Care,
            tr!(
                "a lamp at the cable lights its {count}, but its floor shuts the board off and no hand reaches it from outside"
            ),
            tr!("cut a hole in the floor over the cable, and keep the switch outside").to_owned(),
        ),
        (false, true, _) => (
            Class::Care,
            tr!("no passage lets the light of the cable to its {count}"),
            tr!("bore a second hole in the board under {name}, or let a passage be cut"),
        ),
        (false, false, true) => (
            Class::Care,
            tr!("no passage lets the light of the cable to its {count}; a hand reaches in from outside"),
            tr!("let a passage be cut, or lay in a lamp of its own with the switch outside").to_owned(),
        ),
        (false, false, false) => (
            Class::Care,
            tr!("no lamp gets to its {count}: no passage leads to it, and no hand reaches in"),
            tr!("let a passage be cut behind it, lay a lamp in while it is open, or only press these windows in")
                .to_owned(),
        ),
    };
    let number = Range::exactly(room.windows.len() as f64);
    let share = Range::exactly(if class == Class::Sound { 0.0 } else { 0.5 });
    let piece = room.windows.first().map(|(k, _)| *k);
    let at = piece.and_then(|k| site.weights[k].biscuit.middle());
    let answer = Answer { class, number, share, reason, place: Spot { piece, joint: None, at, name } };
    Told { matter: Matter::Light, answer, unit: "", remedy }
}
