//! What biscuit and icing are known to be: values with ranges, their basis and source.

mod humidity;
mod property;

pub use humidity::Softened;
pub use property::Property;

use crate::Range;
use gable_bake::{Figure, Notebook};
use gable_measure::Length;
use gable_shell::DoughId;

/// Standard gravity, m/s² (3rd General Conference on Weights and Measures, 1901).
pub const GRAVITY: f64 = 9.806_65;

/// What one dough of a house and the icing are, in one person's kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Stuff {
    /// Bending strength of crisp biscuit, MPa.
    pub strength: Property,
    /// Young's modulus of crisp biscuit, MPa.
    pub stiffness: Property,
    /// Poisson's ratio of biscuit.
    pub narrowing: Property,
    /// Mass of biscuit by volume of the dough that it was rolled as, g/cm³.
    pub biscuit: Property,
    /// Humidity of the room, from 0 to 1, at which biscuit has lost half its strength.
    pub soft_at: Property,
    /// Humidity over which what is left falls by a factor of e.
    pub soft_over: Property,
    /// Mass of fresh icing, g/cm³.
    pub fresh_icing: Property,
    /// Mass of set icing by volume of the fresh, g/cm³.
    pub set_icing: Property,
    /// Yield stress of fresh stiff icing, Pa.
    pub icing_yield: Property,
    /// Strength of a joint of set icing, MPa of the area that it holds.
    pub bond: Property,
}

impl Stuff {
    /// What a dough and icing are, by a person's figures, snap tests and test biscuits.
    ///
    /// Strength and stiffness are those of the snap test unless the person has set the figure: their last word counts.
    pub fn of(notebook: &Notebook, dough: &DoughId) -> Self {
        let figure = |figure| Property::of(&notebook.figures, figure);
        let snapped = notebook.snapped(dough);
        let tested = |which, spread: Option<gable_bake::Spread>| {
            let known = figure(which);
            spread.filter(|_| !known.is_own()).map_or(known, Property::of_spread)
        };
        let water = figure(Figure::IcingWater);
        let fresh_icing = figure(Figure::IcingDensity);
        Self {
            strength: tested(Figure::BiscuitStrength, snapped.map(|s| s.strength)),
            stiffness: tested(Figure::BiscuitStiffness, snapped.and_then(|s| s.stiffness)),
            narrowing: figure(Figure::BiscuitNarrowing),
            biscuit: biscuit(notebook),
            soft_at: figure(Figure::SoftAt),
            soft_over: figure(Figure::SoftOver),
            set_icing: fresh_icing.times(water.range.left()),
            fresh_icing,
            icing_yield: figure(Figure::IcingYield),
            bond: figure(Figure::BondStrength),
        }
    }

    /// Mass of biscuit by its area, g/mm², rolled so thick: the same for every piece of one thickness, whatever it rose to.
    pub fn mass_by_area(&self, rolled: Length) -> Range {
        self.biscuit.range * (rolled.mm() / 1000.0)
    }

    /// Mass of biscuit by its own volume, g/cm³, of a piece rolled so thick that came out so thick.
    pub fn density(&self, rolled: Length, thickness: Length) -> Range {
        self.biscuit.range * (rolled / thickness)
    }

    /// Strength and stiffness of biscuit that has come to rest with the air of a room, humidity from 0 to 1.
    pub fn at(&self, humidity: f64) -> Softened {
        Softened::of(self, humidity)
    }
}

/// Mass of biscuit by the volume of its dough: what dough weighs, less what it loses in the oven.
fn biscuit(notebook: &Notebook) -> Property {
    let water = Property::of(&notebook.figures, Figure::BiscuitWater);
    let loss = water.range.map(|left| notebook.loss_down_to(left));
    Property::of(&notebook.figures, Figure::DoughDensity).times(loss.left())
}

#[cfg(test)]
mod tests;
