//! What is in a kitchen cupboard: ingredients, how they are measured, who must not eat them.

mod allergen;
mod amount;
mod usual;

pub use allergen::{Allergen, Presence};
pub use amount::{Amount, AmountError, Measure};

use crate::{Basis, Mass};

/// Something that goes into a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Ingredient {
    /// Stable id, such as `flour`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What kind of thing it is.
    pub family: Family,
    /// Mass of a US cup of 236.588 ml; nothing if it is never measured so.
    pub cup: Option<Mass>,
    /// Mass of a level tablespoon.
    pub tablespoon: Option<Mass>,
    /// Mass of a level teaspoon.
    pub teaspoon: Option<Mass>,
    /// Mass of one, of what is counted: a large egg.
    pub each: Option<Mass>,
    /// Water in it, share of its mass; nothing if it is not known.
    pub water: Option<f64>,
    /// What it holds that some people must not eat.
    pub allergens: Vec<(Allergen, Presence)>,
    /// What is to be said where it is used.
    pub note: Option<&'static str>,
    /// How well masses and water are founded.
    pub basis: Basis,
    /// Where they come from.
    pub source: String,
}

/// What kind of thing an ingredient is; also where it stands in the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// Flour: what baker's percentages refer to in a dough.
    Flour,
    /// Dry sugars.
    Sugar,
    /// Syrup, honey, molasses.
    Syrup,
    /// Butter, shortening.
    Fat,
    /// Eggs, fresh.
    Egg,
    /// Milk and cream.
    Milk,
    /// Water, juice.
    Liquid,
    /// Raising agents and salt.
    Raising,
    /// Spices and flavours.
    Spice,
    /// Dried white, gelatine, gums: what stands with cake decorations.
    Setting,
}

impl Family {
    /// Every family.
    pub const ALL: [Self; 10] = [
        Self::Flour,
        Self::Sugar,
        Self::Syrup,
        Self::Fat,
        Self::Egg,
        Self::Milk,
        Self::Liquid,
        Self::Raising,
        Self::Spice,
        Self::Setting,
    ];

    /// Stable word for files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Flour => "flour",
            Self::Sugar => "sugar",
            Self::Syrup => "syrup",
            Self::Fat => "fat",
            Self::Egg => "egg",
            Self::Milk => "milk",
            Self::Liquid => "liquid",
            Self::Raising => "raising",
            Self::Spice => "spice",
            Self::Setting => "setting",
        }
    }
}

/// Every ingredient that a person can use: the usual ones and their own.
#[derive(Clone, Debug, PartialEq)]
pub struct Pantry {
    ingredients: Vec<Ingredient>,
}

impl Default for Pantry {
    fn default() -> Self {
        Self { ingredients: usual::ingredients() }
    }
}

impl Pantry {
    /// The usual ingredients and more; one with the id of a usual one takes its place.
    pub fn with(own: impl IntoIterator<Item = Ingredient>) -> Self {
        let mut pantry = Self::default();
        for ingredient in own {
            match pantry.ingredients.iter_mut().find(|i| i.id == ingredient.id) {
                Some(known) => *known = ingredient,
                None => pantry.ingredients.push(ingredient),
            }
        }
        pantry
    }

    /// The ingredient of an id.
    pub fn get(&self, id: &str) -> Option<&Ingredient> {
        self.ingredients.iter().find(|i| i.id == id)
    }

    /// All of them.
    pub fn all(&self) -> &[Ingredient] {
        &self.ingredients
    }
}

impl Ingredient {
    /// Mass of a cubic centimetre, g, where it is measured by the cup.
    pub fn density(&self) -> Option<f64> {
        self.cup.map(|cup| cup.g() / Measure::CUP_ML)
    }
}
