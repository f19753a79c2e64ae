//! Dough: what the pieces weigh before they are baked.

use crate::{Figure, Figures, Mass, ToBake};
use gable_measure::Length;

/// Dough of one house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DoughNeeds {
    /// By what it is for and how thick it is rolled; walls and roofs first, what is made apart last.
    pub sorts: Vec<DoughNeed>,
    /// All of it, as it lies in the pieces.
    pub net: Mass,
    /// With what is trimmed off and not rolled again.
    pub to_make: Mass,
}

/// What is cut from dough of one thickness.
#[derive(Clone, Debug, PartialEq)]
pub struct DoughNeed {
    /// Which dough of the house, or 'ornaments'.
    pub name: String,
    /// How thick it is rolled.
    pub rolled: Length,
    /// How many pieces.
    pub pieces: usize,
    /// Area of all of them, openings left out, mm².
    pub area: f64,
    /// Their mass before they are baked.
    pub net: Mass,
}

/// What all that is still to be baked takes.
pub(super) fn needs(to_bake: &[ToBake], figures: &Figures) -> DoughNeeds {
    let density = figures.get(Figure::DoughDensity);
    let mut sorts: Vec<DoughNeed> = Vec::new();
    for one in to_bake {
        let alike = |n: &DoughNeed| n.name == one.dough && (n.rolled - one.rolled).mm().abs() < 1e-9;
        let at = sorts.iter().position(alike).unwrap_or_else(|| {
            let (name, rolled) = (one.dough.clone(), one.rolled);
            sorts.push(DoughNeed { name, rolled, pieces: 0, area: 0.0, net: Mass::ZERO });
            sorts.len() - 1
        });
        let sort = &mut sorts[at];
        sort.pieces += 1;
        sort.area += one.area;
        sort.net += one.mass(density);
    }
    let net: Mass = sorts.iter().map(|s| s.net).sum();
    DoughNeeds { net, to_make: net * (1.0 + figures.get(Figure::DoughTrim)), sorts }
}
