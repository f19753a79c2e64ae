//! Parts as they are, once more: beside themselves, mirrored, in a row.

mod copy;
mod mirror;
mod row;
#[cfg(test)]
mod tests;

use gable_words::tr;
pub use mirror::Mirror;

use super::guests::choose::Ground;
use super::guests::site::Site;
use crate::{House, Part, PartId, Place, Placing};
use gable_measure::Length;
use std::fmt;

/// Why a part is not copied, mirrored or repeated. Written for the person who wanted it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotArranged {
    /// The house has no such part.
    NoSuchPart,
    /// The host cannot be built itself.
    HostFails,
    /// It stands on the board, by nothing that it could be mirrored at or repeated along.
    NoHost {
        /// Name of the part.
        part: String,
    },
    /// It stands in the middle, so that its mirror image would be in its own place.
    InTheMiddle {
        /// Name of the part.
        part: String,
    },
    /// The host has no side opposite to the one it stands by, or none that is like it.
    NoOtherSide {
        /// Name of the part.
        part: String,
    },
    /// Other parts take the room, or the host is too short.
    NoRoom {
        /// Name of the part.
        part: String,
    },
}

impl std::error::Error for NotArranged {}

impl fmt::Display for NotArranged {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchPart => f.write_str(tr!("choose a part of the house first")),
            Self::HostFails => f.write_str(tr!("the part that it stands by cannot be built as it is; mend that first")),
            Self::NoHost { part } => write!(f, "{part} stands by no other part; let it stand by one first"),
            Self::InTheMiddle { part } => write!(f, "{part} stands in the middle, and there its mirror image would be"),
            Self::NoOtherSide { part } => write!(f, "there is no side like it opposite to where {part} stands"),
            Self::NoRoom { part } => write!(f, "there is no room for one more {part}; move other parts first"),
        }
    }
}

impl House {
    /// A part and all that stand by it, by their guests too; the part comes first.
    pub fn with_guests(&self, part: &PartId) -> Vec<PartId> {
        let mut found = vec![part.clone()];
        let mut next = 0;
        while let Some(host) = found.get(next).cloned() {
            let guests = self.parts.iter().filter(|p| p.place.host() == Some(&host)).map(|p| p.id.clone());
            let new: Vec<PartId> = guests.filter(|g| !found.contains(g)).collect();
            found.extend(new);
            next += 1;
        }
        found
    }

    fn place_mut(&mut self, part: &PartId) -> Option<&mut Place> {
        self.parts.iter_mut().find(|p| &p.id == part).map(|p| &mut p.place)
    }
}

/// How far a part reaches along the side that it stands by, mm.
fn extent(part: &Part) -> f64 {
    let (sin, cos) = part.place.turn().rad().sin_cos();
    let across = part.outline.corners().into_iter().map(|p| p.x * cos - p.y * sin);
    let (low, high) = across.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (l.min(x), h.max(x)));
    high - low
}

/// The same place so much farther to the right, seen from outside.
pub(super) fn moved(place: &Place, by: Length) -> Place {
    let mut place = place.clone();
    match &mut place {
        Place::Ground(spot) | Place::OnTop { spot, .. } => spot.x += by,
        Place::Astride { along, .. } => *along += by,
        Place::Against { along, .. } | Place::OnSlope { along, .. } => match along {
            Placing::Centred { offset: at } | Placing::FromLeft { distance: at } => *at += by,
            Placing::FromRight { distance } => *distance -= by,
        },
    }
    place
}

/// The host with what stands round it, to judge what is added.
fn judge<'a>(house: &'a House, part: &Part) -> Result<(Site<'a>, Ground), NotArranged> {
    let host = part.place.host().ok_or_else(|| NotArranged::NoHost { part: part.name.clone() })?;
    let site = Site::by(house, host).map_err(|_| NotArranged::HostFails)?;
    let ground = Ground::of(&site).ok_or(NotArranged::HostFails)?;
    Ok((site, ground))
}
