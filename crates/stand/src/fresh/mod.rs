//! Before icing has set: what slides, what tips, what is pushed out, and what joints carry afterwards.
//!
//! Stages and props are those of the guide ([`gable_raise::Guide`]); here it is only worked out how much they are needed.

mod bow;
mod buckle;
mod carried;
mod push;
mod slide;
#[cfg(test)]
mod tests;
mod tip;

pub use bow::{Bow, bows};
pub use buckle::critical_height;
pub use carried::{Carried, carried};
#[cfg(test)]
use slide::slides;

use crate::told::Told;
use crate::{Range, Site};

/// What icing holds, N/mm².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Icing {
    /// Fresh: the stress at which stiff icing begins to flow.
    pub fresh: Range,
    /// When the next stage begins: it can be handled, but has not cured.
    pub handled: Range,
    /// When it has cured.
    pub cured: Range,
}

/// How long props stay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waits {
    /// Until icing can be handled, hours.
    pub handle: Range,
    /// Until it has cured, hours.
    pub cure: Range,
}

/// Everything about the assembly; nothing for a house without an order of assembly.
pub fn answers(site: &Site<'_>, icing: &Icing, waits: &Waits) -> Vec<Told> {
    let mut all = slide::told(site, icing, waits);
    all.extend(tip::told(site, waits));
    all.extend(push::told(site, icing));
    all.extend(carried::told(site, icing));
    all
}
