//! What makes a plain box a house: finishes, ornaments and free-standing extras.

mod covering;
mod extra;
mod finish;
mod ornament;
mod stuff;

pub use covering::{Bond, Covering, TileShape};
pub use extra::{Extra, ExtraKind};
pub use finish::{Faces, Finish, Rates, Share, Where};
pub use ornament::{Ornament, OrnamentKind, Style};
pub use stuff::{Stuff, Tint};

use super::Glazier;
use crate::{House, PartId, SideId};

impl House {
    /// Takes away finishes and ornaments of parts, sides and openings that are no longer there.
    pub fn drop_lost_dressing(&mut self) {
        let Self { parts, dressing, .. } = self;
        let part = |id: &PartId| parts.iter().find(|p| &p.id == id);
        let has_side = |id: &PartId, side: &Option<SideId>| {
            part(id).is_some_and(|p| side.as_ref().is_none_or(|own| p.sides.iter().any(|s| &s.id == own)))
        };
        dressing.finishes.retain(|f| f.faces.part.as_ref().is_none_or(|id| has_side(id, &f.faces.side)));
        dressing.ornaments.retain(|o| {
            let has_opening = |own| part(&o.part).is_some_and(|p| p.openings.iter().any(|k| &k.id == own));
            has_side(&o.part, &o.side) && o.opening.as_ref().is_none_or(has_opening)
        });
    }
}

/// Everything that is put onto or beside the house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Dressing {
    /// What covers faces. Of two on one face the later one counts; snow lies over whatever else is there.
    pub finishes: Vec<Finish>,
    /// What is made apart and stuck on.
    pub ornaments: Vec<Ornament>,
    /// What stands free on the base board.
    pub extras: Vec<Extra>,
    /// How fast the person works.
    pub rates: Rates,
    /// What the person glazes and cuts with.
    pub glazier: Glazier,
}
