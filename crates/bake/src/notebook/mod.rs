//! What a person has written down: their figures, recipes, prices, and how their oven bakes. It is theirs, and never part of
//! a house, which is shared.

mod file;
mod snaps;
mod types;

pub use file::{NotebookError, read, write};

use crate::shopping::Cupboard;
use crate::{Figure, Figures, Ingredient, Makes, OvenNote, Pantry, Recipe, Scaling, SnapTest, Snapped, TestBiscuits};
use gable_measure::Length;
use gable_shell::{DoughId, House};
use std::collections::BTreeMap;

/// A person's notebook.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Notebook {
    /// Their own figures.
    pub figures: Figures,
    /// Ingredients that they have added or weighed themselves.
    pub ingredients: Vec<Ingredient>,
    /// Recipes that they have added or changed.
    pub recipes: Vec<Recipe>,
    /// Which recipe they use, by what it makes; of fondant and gum paste none means that they buy it.
    pub chosen: BTreeMap<Makes, String>,
    /// How recipes are brought to the mass that is needed.
    pub scaling: Scaling,
    /// What they have at home, and prices.
    pub cupboard: Cupboard,
    /// How their oven bakes.
    pub oven_log: Vec<OvenNote>,
    /// Test biscuits, the latest last.
    pub biscuits: Vec<TestBiscuits>,
    /// Strips that they broke, the latest last.
    pub snaps: Vec<SnapTest>,
}

impl Notebook {
    /// Every ingredient that they can use.
    pub fn pantry(&self) -> Pantry {
        Pantry::with(self.ingredients.iter().cloned())
    }

    /// Every recipe that they can use: usual ones, and their own in place of those of the same id.
    pub fn all_recipes(&self) -> Vec<Recipe> {
        let mut all = Recipe::usual();
        for own in &self.recipes {
            match all.iter_mut().find(|r| r.id == own.id) {
                Some(known) => *known = own.clone(),
                None => all.push(own.clone()),
            }
        }
        all
    }

    /// The recipe for something: the chosen one, or the first; fondant and gum paste are bought unless one is chosen.
    pub fn recipe_for(&self, makes: Makes) -> Option<Recipe> {
        let all = self.all_recipes();
        let chosen = self.chosen.get(&makes).and_then(|id| all.iter().find(|r| &r.id == id && r.makes == makes));
        let bought = matches!(makes, Makes::Fondant | Makes::GumPaste);
        chosen.or_else(|| all.iter().find(|r| r.makes == makes && !bought)).cloned()
    }

    /// Which share of its mass dough loses in their oven, by the latest biscuits that were weighed.
    pub fn loss(&self) -> Option<f64> {
        self.biscuits.iter().rev().find_map(|b| b.judge().ok()?.loss)
    }

    /// Which share of its mass dough loses: as they weighed it, or else what its recipe has to lose until the biscuit holds the
    /// water that it keeps; nothing where the recipe cannot be weighed.
    pub fn expected_loss(&self) -> f64 {
        self.loss_down_to(self.figures.get(Figure::BiscuitWater))
    }

    /// The same of biscuit that keeps so much water, as a share of its mass.
    pub fn loss_down_to(&self, water: f64) -> f64 {
        let recipe = || self.recipe_for(Makes::Dough)?.weighed(&self.pantry()).ok();
        self.loss().or_else(|| recipe().map(|dough| dough.loss_to(water))).unwrap_or(0.0)
    }

    /// What strips of a dough carried, by the latest test of it; without one, by the latest of any dough, because a snap test of
    /// another dough in the same kitchen is still nearer than a value from memory.
    pub fn snapped(&self, dough: &DoughId) -> Option<Snapped> {
        let judged = |test: &SnapTest| test.judge().ok();
        let same = self.snaps.iter().rev().filter(|test| test.dough == dough.0).find_map(judged);
        same.or_else(|| self.snaps.iter().rev().find_map(judged))
    }

    /// How their dough grows: in proportion, and at each edge beyond that, by the latest test biscuits.
    pub fn spread(&self) -> Option<(f64, Length)> {
        let found = self.biscuits.iter().rev().find_map(|b| b.judge().ok())?;
        Some((found.share, found.edge))
    }

    /// The house as it is baked in their kitchen: doughs rise as the latest test biscuits of the same name did.
    pub fn baked_here(&self, house: &House) -> House {
        let mut house = house.clone();
        for biscuits in &self.biscuits {
            if let Ok(found) = biscuits.judge() {
                biscuits.set_rise(&found, &mut house);
            }
        }
        house
    }
}
