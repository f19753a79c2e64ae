//! Recipes: what goes in, in which proportion, and how much of it is needed.

mod scale;
mod usual;

pub use scale::Scaling;

use crate::{Allergen, Amount, AmountError, Basis, Family, Mass, Pantry, Presence};
use gable_words::tr;
use std::collections::BTreeMap;

/// What a recipe makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Makes {
    /// Dough for walls, roofs and what is baked with them.
    Dough,
    /// Royal icing.
    Icing,
    /// Fondant to roll.
    Fondant,
    /// Gum paste.
    GumPaste,
    /// Sugar to boil for panes.
    BoiledSugar,
}

impl Makes {
    /// Everything that recipes make.
    pub const ALL: [Self; 5] = [Self::Dough, Self::Icing, Self::Fondant, Self::GumPaste, Self::BoiledSugar];

    /// In words, also in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Dough => "dough",
            Self::Icing => "icing",
            Self::Fondant => "fondant",
            Self::GumPaste => "gum-paste",
            Self::BoiledSugar => "boiled-sugar",
        }
    }
}

/// A recipe: one batch of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Recipe {
    /// Stable id.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it makes.
    pub makes: Makes,
    /// What goes in, in the order in which it is written.
    pub lines: Vec<Line>,
    /// What to do, a sentence each.
    pub steps: Vec<String>,
    /// How well it is founded.
    pub basis: Basis,
    /// Where its proportions come from.
    pub source: String,
}

/// One ingredient of a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Id of the ingredient.
    pub ingredient: String,
    /// How much of it goes into a batch.
    pub amount: Amount,
}

/// A recipe with everything weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// What goes in, in the recipe's order.
    pub lines: Vec<WeighedLine>,
    /// All of it.
    pub mass: Mass,
    /// Share of water in it.
    pub water: f64,
    /// What is not known of it and was taken as none.
    pub unknown_water: Vec<String>,
}

/// One ingredient, weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct WeighedLine {
    /// Id of the ingredient.
    pub ingredient: String,
    /// Its name.
    pub name: String,
    /// Its mass.
    pub mass: Mass,
    /// Baker's percentage: its mass for 100 of flour; where there is no flour, of sugar.
    pub percent: f64,
}

/// Why a recipe cannot be used.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RecipeError {
    /// It names what nobody knows.
    #[error("{}", tr!("{recipe}: there is no ingredient \"{ingredient}\"; add it, or name a known one"))]
    Ingredient {
        /// Which recipe.
        recipe: String,
        /// The id that it names.
        ingredient: String,
    },
    /// It measures something in a way that nobody has weighed.
    #[error("{recipe}: {error}")]
    Amount {
        /// Which recipe.
        recipe: String,
        /// What is wrong.
        error: AmountError,
    },
    /// Nothing goes in.
    #[error("{}", tr!("{}: nothing goes in; give it at least one ingredient", .0))]
    Empty(String),
}

impl Recipe {
    /// The recipes of the house, as it were: one of everything that can be made, the first of each kind the usual one.
    pub fn usual() -> Vec<Self> {
        usual::recipes()
    }

    /// Weighs every ingredient of a batch.
    ///
    /// # Errors
    /// When an ingredient is not known, or is measured in a way that nobody has weighed.
    pub fn weighed(&self, pantry: &Pantry) -> Result<Weighed, RecipeError> {
        let mut found = Vec::new();
        for line in &self.lines {
            let missing = || RecipeError::Ingredient { recipe: self.name.clone(), ingredient: line.ingredient.clone() };
            let ingredient = pantry.get(&line.ingredient).ok_or_else(missing)?;
            let wrong = |error| RecipeError::Amount { recipe: self.name.clone(), error };
            found.push((ingredient, line.amount.mass(ingredient).map_err(wrong)?));
        }
        let of = |family: Family| found.iter().filter(|(i, _)| i.family == family).map(|(_, m)| *m).sum::<Mass>();
        let mass: Mass = found.iter().map(|(_, m)| *m).sum();
        if mass <= Mass::ZERO {
            return Err(RecipeError::Empty(self.name.clone()));
        }
        let base = [of(Family::Flour), of(Family::Sugar), mass].into_iter().find(|b| *b > Mass::ZERO).unwrap_or(mass);
        let water: Mass = found.iter().map(|(i, m)| *m * i.water.unwrap_or(0.0)).sum();
        let line = |(i, m): &(&crate::Ingredient, Mass)| WeighedLine {
            ingredient: i.id.clone(),
            name: i.name.clone(),
            mass: *m,
            percent: *m / base * 100.0,
        };
        Ok(Weighed {
            lines: found.iter().map(line).collect(),
            mass,
            water: water / mass,
            unknown_water: found.iter().filter(|(i, _)| i.water.is_none()).map(|(i, _)| i.name.clone()).collect(),
        })
    }

    /// What it holds that some people must not eat, in a fixed order; what is surely in it counts before what may be.
    pub fn allergens(&self, pantry: &Pantry) -> BTreeMap<Allergen, Presence> {
        let mut all = BTreeMap::new();
        let known = self.lines.iter().filter_map(|l| pantry.get(&l.ingredient));
        for (allergen, presence) in known.flat_map(|i| &i.allergens) {
            all.entry(*allergen).and_modify(|p: &mut Presence| *p = (*p).min(*presence)).or_insert(*presence);
        }
        all
    }
}

impl Weighed {
    /// Share of its mass that dough loses in the oven until the biscuit holds so much water: (w0 - wf) / (1 - wf), because
    /// what is not water stays.
    pub fn loss_to(&self, water_left: f64) -> f64 {
        ((self.water - water_left) / (1.0 - water_left)).max(0.0)
    }
}

#[cfg(test)]
mod tests;
