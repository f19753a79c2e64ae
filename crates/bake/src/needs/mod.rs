//! What a house takes: dough, icing, glazing, pastes, sweets and what is bought by the piece.

mod dough;
mod glazing;
mod icing;
mod leaves;
mod pastes;
#[cfg(test)]
mod tests;

pub use dough::{DoughNeed, DoughNeeds};
pub use glazing::GlazingNeed;
pub use icing::{Consistency, IcingNeed, IcingUse};
pub use leaves::leaves;
pub use pastes::{PasteNeed, SweetsNeed};

use crate::{Figures, HandOver, Lot, ToBake};
use gable_dress::Dressed;
use gable_measure::Length;
use gable_raise::Guide;
use gable_shell::{House, Solved};
use std::collections::BTreeSet;

/// What needs are worked out from.
#[derive(Clone, Copy, Debug)]
pub struct About<'a> {
    /// The house.
    pub house: &'a House,
    /// What it was solved to.
    pub solved: &'a Solved,
    /// What is put on it.
    pub dressed: &'a Dressed,
    /// How it is raised; without it every joint counts as within reach of a hand.
    pub guide: Option<&'a Guide>,
    /// Width and depth of its base board; nothing if it has none.
    pub board: Option<(Length, Length)>,
}

/// What one house takes. What is baked already takes no dough any more.
#[derive(Clone, Debug, PartialEq)]
pub struct Needs {
    /// Dough, by thickness.
    pub dough: DoughNeeds,
    /// Icing, by consistency and colour.
    pub icing: Vec<IcingNeed>,
    /// Leaves and sugar for panes.
    pub glazing: Vec<GlazingNeed>,
    /// Fondant and gum paste, by colour.
    pub pastes: Vec<PasteNeed>,
    /// Sweets that cover faces, by colour.
    pub sweets: Vec<SweetsNeed>,
    /// Width and depth of the base board.
    pub board: Option<(Length, Length)>,
    /// Whether light from inside would show.
    pub lights: bool,
}

impl Needs {
    /// Works out what a house takes.
    pub fn of(about: &About<'_>, figures: &Figures) -> Self {
        let glazing = glazing::needs(about, figures);
        Self {
            dough: dough::needs(&ToBake::all(about), figures),
            icing: icing::needs(about, figures),
            lights: !glazing.is_empty(),
            glazing,
            pastes: pastes::pastes(about, figures),
            sweets: pastes::sweets(about, figures),
            board: about.board,
        }
    }

    /// The icing that those still need who finish one copy of a house that is handed over so.
    pub(crate) fn icing_left(lot: &Lot<'_>, until: HandOver, figures: &Figures) -> Vec<IcingNeed> {
        let standing = if until == HandOver::Finished { BTreeSet::new() } else { lot.raised(until) };
        icing::left(&lot.about, figures, until, &standing)
    }
}
