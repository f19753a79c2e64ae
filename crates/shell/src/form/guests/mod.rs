//! New parts that stand by one that is there: in good proportion to it, in round sizes, and such that they can be built.

pub(super) mod choose;
mod ground;
mod place;
mod porch;
mod reason;
mod roof;
pub(super) mod site;
#[cfg(test)]
mod tests;

use gable_words::tr;
pub use reason::NoGuest;

use crate::{House, Part, PartId, SideId};
use site::Site;

/// Kinds of parts that stand by another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum GuestKind {
    /// A lower house at a right angle to a wall.
    Wing,
    /// One slope against a wall.
    LeanTo,
    /// Eight walls and a spire, let into a corner.
    Tower,
    /// Half a hexagon under the eave.
    Bay,
    /// A little house on a slope.
    Dormer,
    /// A small gable before a door, on posts.
    Porch,
    /// Plates laid on each other before a door.
    Steps,
    /// Astride the ridge, or on a slope.
    Chimney,
    /// Eight small walls on top of a flat roof or of a point.
    Lantern,
}

impl GuestKind {
    /// Every kind, in the order in which they are offered.
    pub const ALL: [Self; 9] = [
        Self::Wing,
        Self::LeanTo,
        Self::Porch,
        Self::Steps,
        Self::Bay,
        Self::Tower,
        Self::Dormer,
        Self::Chimney,
        Self::Lantern,
    ];

    /// Name for people.
    pub fn name(self) -> &'static str {
        match self {
            Self::Wing => tr!("Wing"),
            Self::LeanTo => tr!("Lean-to"),
            Self::Tower => tr!("Tower"),
            Self::Bay => tr!("Bay"),
            Self::Dormer => tr!("Dormer"),
            Self::Porch => tr!("Porch"),
            Self::Steps => tr!("Steps"),
            Self::Chimney => tr!("Chimney"),
            Self::Lantern => tr!("Lantern"),
        }
    }

    /// Whether it stands on the base board.
    const fn is_on_board(self) -> bool {
        matches!(self, Self::Wing | Self::LeanTo | Self::Tower | Self::Bay | Self::Porch | Self::Steps)
    }

    /// What might do, the best first; the reason when nothing might.
    fn proposals(self, site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
        let found = match self {
            Self::Wing => ground::wings(site),
            Self::LeanTo => ground::lean_tos(site),
            Self::Tower => ground::towers(site),
            Self::Bay => ground::bays(site),
            Self::Porch => porch::porches(site),
            Self::Steps => porch::steps(site),
            Self::Dormer => roof::dormers(site),
            Self::Chimney => roof::chimneys(site),
            Self::Lantern => roof::lanterns(site),
        }?;
        if found.is_empty() { Err(site.too_small(self)) } else { Ok(found) }
    }
}

impl House {
    /// A new part of a kind that stands by `host`, on or against `side` if one is given, else where it suits best. It has
    /// an id and a name that no part has, and is not in the house yet.
    ///
    /// # Errors
    /// When such a part cannot stand there, with the reason.
    pub fn guest(&self, kind: GuestKind, host: &PartId, side: Option<&SideId>) -> Result<Part, NoGuest> {
        let site = Site::of(self, kind, host, side)?;
        choose::first_that_can_be_built(&site, kind.proposals(&site)?).ok_or_else(|| site.no_room(kind))
    }

    /// Whether a kind can stand there by the shape of the host alone; there may still be no room for it.
    ///
    /// # Errors
    /// When such a part cannot stand there, with the reason.
    pub fn offers_guest(&self, kind: GuestKind, host: &PartId, side: Option<&SideId>) -> Result<(), NoGuest> {
        let site = Site::of(self, kind, host, side)?;
        kind.proposals(&site).map(|_| ())
    }
}
