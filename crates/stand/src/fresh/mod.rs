//! Before icing has set: what slides, what tips, what is pushed out, and what joints carry afterwards.
//!
//! Stages and props are those of the guide ([`gable_raise::Guide`]); here it is only worked out how much they are needed.

mod bow;
mod buckle;
mod carried;
mod panel;
mod push;
mod slide;
#[cfg(test)]
mod tests;
mod tip;

pub use bow::{Bow, bows};
pub(crate) use buckle::buckles;
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

impl Icing {
    /// What it holds after so many hours: from what it holds when it can be handled, evenly up to what it holds when it has cured (that it
    /// grows evenly is an assumption, no source). The slowest icing is the weakest here.
    pub fn after(&self, hours: f64, waits: &Waits) -> Range {
        let share = |handle: f64, cure: f64| ((hours - handle) / (cure - handle).max(1e-9)).clamp(0.0, 1.0);
        let grown = |from: f64, to: f64, share: f64| from + (to - from) * share;
        let (from, to, Waits { handle, cure }) = (self.handled, self.cured, waits);
        Range::new(
            grown(from.low, to.low, share(handle.high, cure.high)),
            grown(from.usual, to.usual, share(handle.usual, cure.usual)),
            grown(from.high, to.high, share(handle.low, cure.low)),
        )
    }
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
    all.extend(push::told(site, icing, waits));
    all.extend(carried::told(site, icing));
    all
}
