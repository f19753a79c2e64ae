//! Which parts are one room, because passages lead from one to the other.

use gable_shell::{FloorKind, House, Part, PartId, Place, Solved};

/// The rooms of a house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rooms {
    /// Number of the room of each part.
    room: Vec<usize>,
}

impl Rooms {
    /// Finds the rooms by the passages that the solver cut.
    pub fn of(house: &House, solved: &Solved) -> Self {
        let mut room: Vec<usize> = (0..house.parts.len()).collect();
        let number = |id: &str| house.parts.iter().position(|p| p.id.0 == id);
        for piece in &solved.pieces {
            let passages = piece.openings.iter().filter_map(|o| o.id.0.strip_prefix("passage-"));
            for guest in passages.filter_map(number) {
                let Some(host) = number(&piece.part.0) else { continue };
                let (from, to) = (room[guest], room[host]);
                room.iter_mut().filter(|r| **r == from).for_each(|r| *r = to);
            }
        }
        Self { room }
    }

    /// The room of a part; nothing for an unknown one.
    pub fn of_part(&self, house: &House, id: &PartId) -> Option<usize> {
        house.parts.iter().position(|p| &p.id == id).and_then(|k| self.room.get(k).copied())
    }

    /// The parts of a room.
    pub fn parts<'a>(&'a self, house: &'a House, room: usize) -> impl Iterator<Item = &'a Part> {
        house.parts.iter().zip(&self.room).filter(move |(_, r)| **r == room).map(|(part, _)| part)
    }

    /// Whether a room has a part that stands on the base board and has no floor: a hole in the board lets a lamp in.
    pub fn opens_to_board(&self, house: &House, room: usize) -> bool {
        self.parts(house, room).any(on_bare_board)
    }
}

/// Whether a part stands on the base board without a floor of its own.
fn on_bare_board(part: &Part) -> bool {
    let on_board = matches!(part.place, Place::Ground(_) | Place::Against { .. });
    on_board && part.floor.kind == FloorKind::None && part.raised.mm() <= 0.0
}
