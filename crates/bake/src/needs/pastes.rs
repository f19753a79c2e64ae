//! Fondant, gum paste and sweets, by colour.

use super::About;
use crate::{Figure, Figures, Mass};
use gable_plane::ring_area;
use gable_shell::{Covering, Stuff, Tint};
use std::collections::BTreeMap;

/// Fondant or gum paste of one colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PasteNeed {
    /// Fondant or gum paste.
    pub stuff: Stuff,
    /// Its colour.
    pub tint: Tint,
    /// What is on the house.
    pub net: Mass,
    /// With what is trimmed off.
    pub to_make: Mass,
}

/// Sweets of one colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SweetsNeed {
    /// Their colour.
    pub tint: Tint,
    /// How many, cut ones and spare ones included.
    pub count: usize,
    /// Their mass.
    pub mass: Mass,
}

/// Fondant and gum paste on the house.
pub(super) fn pastes(about: &About<'_>, figures: &Figures) -> Vec<PasteNeed> {
    let need = |((stuff, tint), net): ((Stuff, Tint), Mass)| {
        let spare = if stuff == Stuff::Fondant { Figure::FondantSpare } else { Figure::GumPasteSpare };
        PasteNeed { stuff, tint, net, to_make: net * (1.0 + figures.get(spare)) }
    };
    let mut all: BTreeMap<(Stuff, Tint), Mass> = BTreeMap::new();
    for own in on_house(about).filter(|o| matches!(o.stuff, Stuff::Fondant | Stuff::GumPaste)) {
        *all.entry((own.stuff, own.tint)).or_default() += own.mass;
    }
    all.into_iter().map(need).collect()
}

/// Something of one stuff and colour that is on the house.
#[derive(Clone, Copy)]
pub(super) struct OnHouse {
    pub(super) stuff: Stuff,
    pub(super) tint: Tint,
    pub(super) mass: Mass,
    /// Whether it is snow.
    pub(super) snow: bool,
}

/// What is on the house: finishes as they are tallied, divided by the areas of their shades, and ornaments.
pub(super) fn on_house<'a>(about: &About<'a>) -> impl Iterator<Item = OnHouse> + 'a {
    let About { house, dressed, .. } = *about;
    let finishes = dressed.finishes.iter().flat_map(move |face| {
        let mut areas = vec![0.0; face.tints.len()];
        for unit in &face.units {
            let area = ring_area(&unit.outline) + unit.holes.iter().map(|h| ring_area(h)).sum::<f64>();
            areas.get_mut(unit.shade).into_iter().for_each(|sum| *sum += area);
        }
        let whole: f64 = areas.iter().sum::<f64>().max(f64::MIN_POSITIVE);
        let own = house.dressing.finishes.get(face.finish);
        let snow = own.is_some_and(|f| matches!(f.covering, Covering::Snow { .. }));
        let shade = move |(tint, area): (&Tint, f64)| OnHouse {
            stuff: face.stuff,
            tint: *tint,
            mass: Mass::grams(face.tally.mass * area / whole),
            snow,
        };
        face.tints.iter().zip(areas).map(shade)
    });
    let apart = dressed.ornaments.iter().chain(&dressed.extras);
    finishes.chain(apart.map(|o| OnHouse { stuff: o.stuff, tint: o.tint, mass: Mass::grams(o.mass()), snow: false }))
}

/// Sweets that cover faces.
pub(super) fn sweets(about: &About<'_>, figures: &Figures) -> Vec<SweetsNeed> {
    let mut counts: BTreeMap<Tint, usize> = BTreeMap::new();
    for face in about.dressed.finishes.iter().filter(|f| f.stuff == Stuff::Sweets) {
        for unit in &face.units {
            face.tints.get(unit.shade).into_iter().for_each(|tint| *counts.entry(*tint).or_default() += 1);
        }
    }
    let all: Vec<OnHouse> = on_house(about).filter(|o| o.stuff == Stuff::Sweets).collect();
    let more = 1.0 + figures.get(Figure::SweetsSpare);
    let need = |(tint, count): (Tint, usize)| SweetsNeed {
        tint,
        count: (count as f64 * more).ceil() as usize,
        mass: all.iter().filter(|o| o.tint == tint).map(|o| o.mass).sum::<Mass>() * more,
    };
    counts.into_iter().map(need).collect()
}
