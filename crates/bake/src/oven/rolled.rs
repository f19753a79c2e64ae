//! Dough as it is rolled: sheets no larger than a tray, so that cut pieces are carried over on their paper.

use super::{OnTray, laid};
use crate::{Figure, Figures, Mass, ToBake};
use gable_measure::Length;
use gable_plane::{P2, bounds, ring_area};
use gable_shell::kitchen::Tray;
use rayon::prelude::*;

/// One sheet of dough with what is cut from it.
#[derive(Clone, Debug, PartialEq)]
pub struct RolledSheet {
    /// Which dough of the house, or 'ornaments'.
    pub dough: String,
    /// How thick it is rolled.
    pub rolled: Length,
    /// How wide.
    pub width: Length,
    /// How deep.
    pub depth: Length,
    /// Dough in it.
    pub mass: Mass,
    /// Share of it that is left as scraps.
    pub scraps: f64,
    /// What is cut from it; rolling goes along y.
    pub pieces: Vec<OnTray>,
}

/// Sheets of dough for everything, by dough and thickness in the order of the pieces.
pub(super) fn sheets(to_bake: &[ToBake], trays: &[Tray], figures: &Figures) -> Vec<RolledSheet> {
    let area = |t: &&Tray| t.width.mm() * t.depth.mm();
    let Some(largest) = trays.iter().max_by(|a, b| area(a).total_cmp(&area(b))) else { return Vec::new() };
    let mut sorts: Vec<Vec<&ToBake>> = Vec::new();
    for one in to_bake {
        let alike = |sort: &&mut Vec<&ToBake>| {
            sort.first().is_some_and(|o| o.dough == one.dough && (o.rolled - one.rolled).mm().abs() < 1e-9)
        };
        match sorts.iter_mut().find(alike) {
            Some(sort) => sort.push(one),
            None => sorts.push(vec![one]),
        }
    }
    let space = Length::mm_of(figures.get(Figure::DoughSpace));
    let of_sort = |sort: &Vec<&ToBake>| -> Vec<RolledSheet> {
        let Some(first) = sort.first() else { return Vec::new() };
        let laid = laid::on_dough(sort, largest, space).sheets;
        laid.into_iter().map(|(_, pieces)| sheet(first, sort, pieces, figures)).collect()
    };
    sorts.par_iter().flat_map_iter(of_sort).collect()
}

/// A sheet as large as what lies on it, with half the space round it.
fn sheet(first: &ToBake, sort: &[&ToBake], pieces: Vec<(usize, OnTray)>, figures: &Figures) -> RolledSheet {
    let half = figures.get(Figure::DoughSpace) / 2.0;
    let all = || pieces.iter().flat_map(|(_, on)| &on.outline);
    let size: P2 = bounds(all()).map_or(P2::origin(), |(_, high)| high);
    let (width, depth) = (size.x + half, size.y + half);
    let cut: f64 = pieces.iter().map(|(k, _)| ring_area(&sort[*k].outline)).sum();
    let grams = width * depth * first.rolled.mm() * figures.get(Figure::DoughDensity) / 1000.0;
    RolledSheet {
        dough: first.dough.clone(),
        rolled: first.rolled,
        width: Length::mm_of(width),
        depth: Length::mm_of(depth),
        mass: Mass::grams(grams),
        scraps: if width * depth > 0.0 { 1.0 - cut / (width * depth) } else { 0.0 },
        pieces: pieces.into_iter().map(|(_, on)| on).collect(),
    }
}
