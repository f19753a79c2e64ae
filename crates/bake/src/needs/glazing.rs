//! What panes are made of.

use super::{About, leaves};
use crate::{Figure, Figures, Mass};
use gable_dress::glass_amounts;
use gable_shell::Glass;

/// Glazing of one material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GlazingNeed {
    /// The material.
    pub glass: Glass,
    /// How many panes.
    pub panes: usize,
    /// Leaves to buy, spare ones included; nothing for sugar, or where a pane is larger than a leaf.
    pub leaves: Option<usize>,
    /// Sugar or sweets to melt, with what stays in the pan; nothing for leaves.
    pub mass: Option<Mass>,
}

pub(super) fn needs(about: &About<'_>, figures: &Figures) -> Vec<GlazingNeed> {
    let spare = |count: usize| (count as f64 * (1.0 + figures.get(Figure::LeafSpare))).ceil() as usize;
    let cut = || leaves(about.dressed, &about.house.dressing.glazier).map(spare);
    let more = 1.0 + figures.get(Figure::SugarSpare);
    let need = |a: &gable_dress::GlassAmount| GlazingNeed {
        glass: a.glass,
        panes: a.panes,
        leaves: if a.glass == Glass::Leaf { cut() } else { None },
        mass: a.mass.map(|grams| Mass::grams(grams * more)),
    };
    glass_amounts(about.dressed).iter().map(need).collect()
}
