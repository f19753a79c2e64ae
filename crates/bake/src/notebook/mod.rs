//! What a person has written down: their figures, recipes, prices, how their oven bakes, who helps when, and what is done of
//! each bake. It is theirs, and never part of a house, which is shared.

mod days;
mod file;
mod snaps;
#[cfg(test)]
mod tests;
mod ticks;
mod types;

pub use file::{NotebookError, read, write};
pub use ticks::Moment;

use crate::shopping::Cupboard;
use crate::timetable::{Ask, BETWEEN, Build, Log, Person, Rates, Workplace};
use crate::{Figure, Figures, Ingredient, Makes, OvenNote, Pantry, Recipe, Scaling, SnapTest, Snapped, TestBiscuits};
use gable_measure::Length;
use gable_shell::{DoughId, House};
use jiff::ToSpan;
use jiff::civil::DateTime;
use std::collections::BTreeMap;

/// A person's notebook.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Notebook {
    /// Their own figures.
    pub figures: Figures,
    /// How long things take them.
    pub rates: Rates,
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
    /// Kitchens and what is in them, the one in which houses are put up first; none for one as many have it.
    pub kitchens: Vec<Workplace>,
    /// Minutes from one kitchen to another, once that was said.
    pub between: Option<u32>,
    /// Whether the air is damp, above 60 %.
    pub damp: bool,
    /// Who helps and when; nobody while that was not said.
    pub people: Vec<Person>,
    /// What is known of each bake, by the title of the house.
    pub builds: Vec<Build>,
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

    /// What is known of the bake of a house.
    pub fn build(&self, house: &House) -> Option<&Build> {
        self.builds.iter().find(|build| build.house == title(house))
    }

    /// What is known of the bake of a house, to be changed.
    pub fn build_mut(&mut self, house: &House) -> &mut Build {
        let known = self.builds.iter().position(|build| build.house == title(house));
        let k = known.unwrap_or_else(|| {
            self.builds.push(Build::new(title(house)));
            self.builds.len() - 1
        });
        &mut self.builds[k]
    }

    /// Titles of bakes that a house could go on with if it was called otherwise before: all others, while nothing is said of
    /// its own.
    pub fn bakes_before(&self, house: &House) -> Vec<&str> {
        let fresh = |build: &Build| *build == Build::new(&build.house);
        if self.build(house).is_some_and(|build| !fresh(build)) {
            return Vec::new();
        }
        self.builds.iter().filter(|build| !fresh(build)).map(|build| build.house.as_str()).collect()
    }

    /// A house that was called otherwise goes on with its bake: nothing that is done is forgotten. False where there is no such
    /// bake, or the house has one of its own that something is said of.
    pub fn carry_over(&mut self, from: &str, house: &House) -> bool {
        if !self.bakes_before(house).contains(&from) {
            return false;
        }
        self.builds.retain(|build| build.house != title(house));
        if let Some(build) = self.builds.iter_mut().find(|build| build.house == from) {
            title(house).clone_into(&mut build.house);
        }
        true
    }

    /// The kitchens that there are.
    pub fn workplaces(&self) -> Vec<Workplace> {
        if self.kitchens.is_empty() { vec![Workplace::usual(Workplace::FIRST)] } else { self.kitchens.clone() }
    }

    /// Whoever helps; one person with usual hours while nobody was named.
    pub fn helpers(&self) -> Vec<Person> {
        if self.people.is_empty() { vec![Person::usual()] } else { self.people.clone() }
    }

    /// What is asked of a timetable from a moment on; none before it is known by when the house must stand.
    pub fn ask(&self, build: &Build, lights: bool, now: DateTime) -> Option<Ask> {
        let stand_by = build.ready_by?;
        let (kitchens, between) = (self.workplaces(), self.between.unwrap_or(BETWEEN));
        let helpers = self.helpers();
        let last = stand_by.checked_add(AFTERWARDS.days()).unwrap_or(stand_by);
        Some(Ask {
            now,
            stand_by,
            reserve: build.reserve,
            helpers: helpers.iter().map(|person| person.helper(now, last, &kitchens, between)).collect(),
            kitchens,
            home: 0,
            between,
            damp: self.damp,
            lights,
            carried: build.carried,
            rates: self.rates.clone(),
            learned: Log::factors(self.builds.iter().map(|build| &build.log)),
        })
    }
}

/// Days after it is due for which hours are laid out, so that it can be said when a late house would stand.
const AFTERWARDS: i64 = 14;

/// What a bake of a house is called.
pub fn title(house: &House) -> &str {
    if house.owner.title.is_empty() { "The house" } else { &house.owner.title }
}
