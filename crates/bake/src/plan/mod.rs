//! All of it for one person: what houses take, what is made of it, what is bought.

mod basket;
mod kits;
mod laid;
#[cfg(test)]
mod tests;

pub use kits::Kit;

use crate::{
    Allergen, Basis, Caution, Figure, HandOver, Lot, Lots, Makes, Mass, Needs, Notebook, Ovenfuls, Presence, Recipe,
    Shopping, ToBake, Weighed,
};
use gable_shell::kitchen::Kitchen;
use gable_shell::{Glass, Stuff};
use gable_words::tr;
use std::collections::{BTreeMap, BTreeSet};

/// What follows from the pieces of the houses of one bake, for one person.
#[derive(Clone, Debug, PartialEq)]
pub struct BakePlan {
    /// Each house, the one that the bake belongs to first.
    pub houses: Vec<HousePlan>,
    /// What is mixed, for all copies: dough, icing, sugar.
    pub batches: Vec<Batch>,
    /// Which share of its mass the dough loses in the oven.
    pub loss: f64,
    /// How everything is baked.
    pub ovenfuls: Ovenfuls,
    /// What is bought, for all copies.
    pub shopping: Shopping,
    /// What some people must not eat, and how surely it is in any of the houses.
    pub allergens: BTreeMap<Allergen, Presence>,
    /// Where someone could be hurt or made ill.
    pub cautions: Vec<Caution>,
    /// Figures that are no more than assumptions, with what they were taken as.
    pub assumed: Vec<(Figure, f64)>,
    /// As what houses are handed over.
    pub until: HandOver,
    /// What could not be worked out, and what to do.
    pub problems: Vec<String>,
}

/// What follows from one house.
#[derive(Clone, Debug, PartialEq)]
pub struct HousePlan {
    /// What it is called.
    pub title: String,
    /// Its letter, where there are several houses.
    pub mark: Option<char>,
    /// How many of it are made.
    pub copies: usize,
    /// What one takes.
    pub needs: Needs,
    /// Mass of the biscuit of one.
    pub baked: Mass,
    /// What goes to each who builds one.
    pub kit: Kit,
}

/// So much of a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Batch {
    /// The recipe.
    pub recipe: Recipe,
    /// What is needed of it.
    pub needed: Mass,
    /// How many times the recipe is made.
    pub batches: f64,
    /// Its ingredients, so many times.
    pub weighed: Weighed,
}

impl BakePlan {
    /// Plans houses that are baked together, so many of each.
    pub fn of(lots: &Lots<'_>, kitchen: &Kitchen, notebook: &Notebook) -> Self {
        let figures = &notebook.figures;
        let one: Vec<Vec<ToBake>> = lots.iter().map(Lot::to_bake).collect();
        let ovenfuls = laid::ovenfuls(lots, &one, kitchen, (figures, &notebook.oven_log));
        let loss = notebook.expected_loss();
        let mut houses: Vec<HousePlan> =
            lots.iter().zip(&one).map(|(lot, one)| house((lot, lots.until), one, notebook, loss)).collect();
        let mut problems = Vec::new();
        let batches = batches(&houses, notebook, &mut problems);
        for name in &ovenfuls.too_large {
            problems.push(tr!("{name} fits on none of the trays; bake it on a larger one, or make the house smaller"));
        }
        for own in &mut houses {
            own.kit.allergens = allergens(&own.needs, &batches, notebook).into_iter().collect();
        }
        let (allergens, cautions) = (everywhere(&houses), cautions(&houses, &batches));
        Self {
            loss,
            shopping: basket::shopping(lots, &houses, &batches, notebook),
            cautions,
            assumed: figures.assumed().into_iter().filter(|(figure, _)| !figure.is_of_strength()).collect(),
            houses,
            batches,
            ovenfuls,
            allergens,
            until: lots.until,
            problems,
        }
    }

    /// What is made of a kind.
    pub fn batch(&self, makes: Makes) -> Option<&Batch> {
        self.batches.iter().find(|b| b.recipe.makes == makes)
    }

    /// How many are made of all houses.
    pub fn copies(&self) -> usize {
        self.houses.iter().map(|house| house.copies).sum()
    }

    /// Mass of the biscuit of all copies.
    pub fn baked(&self) -> Mass {
        self.houses.iter().map(|house| house.baked * house.copies as f64).sum()
    }

    /// Whether light from inside would show in any house.
    pub fn lights(&self) -> bool {
        self.houses.iter().any(|house| house.needs.lights)
    }
}

fn house((lot, until): (&Lot<'_>, HandOver), one: &[ToBake], notebook: &Notebook, loss: f64) -> HousePlan {
    let needs = Needs::of(&lot.about, &notebook.figures);
    HousePlan {
        title: lot.title.clone(),
        mark: lot.mark,
        copies: lot.copies,
        baked: needs.dough.net * (1.0 - loss),
        kit: Kit::of(lot, one, &notebook.figures, until),
        needs,
    }
}

/// What one house takes of whatever is made by a recipe.
fn made_of(needs: &Needs) -> [(Makes, Mass); 5] {
    let paste = |stuff: Stuff| needs.pastes.iter().filter(|p| p.stuff == stuff).map(|p| p.to_make).sum::<Mass>();
    [
        (Makes::Dough, needs.dough.to_make),
        (Makes::Icing, needs.icing.iter().map(|i| i.to_make).sum()),
        (Makes::Fondant, paste(Stuff::Fondant)),
        (Makes::GumPaste, paste(Stuff::GumPaste)),
        (Makes::BoiledSugar, needs.glazing.iter().filter(|g| g.glass == Glass::Poured).filter_map(|g| g.mass).sum()),
    ]
}

fn batches(houses: &[HousePlan], notebook: &Notebook, problems: &mut Vec<String>) -> Vec<Batch> {
    let mut wanted: BTreeMap<Makes, Mass> = BTreeMap::new();
    for house in houses {
        made_of(&house.needs)
            .into_iter()
            .for_each(|(makes, one)| *wanted.entry(makes).or_default() += one * house.copies as f64);
    }
    let mut all = Vec::new();
    for (makes, needed) in wanted {
        // Fondant and gum paste are bought unless the person makes them.
        let Some(recipe) = notebook.recipe_for(makes).filter(|_| needed > Mass::ZERO) else { continue };
        let made = recipe.batches_for(needed, notebook.scaling, &notebook.pantry());
        let weighed = recipe.weighed(&notebook.pantry());
        match made.and_then(|batches| Ok((batches, weighed?))) {
            Ok((batches, weighed)) => {
                all.push(Batch { recipe, needed, batches, weighed: weighed.times(batches) });
            }
            Err(error) => problems.push(error.to_string()),
        }
    }
    all
}

/// Everything in the recipes that a house takes something of, and what is bought ready for it.
fn allergens(needs: &Needs, batches: &[Batch], notebook: &Notebook) -> BTreeMap<Allergen, Presence> {
    let pantry = notebook.pantry();
    let mut all: BTreeMap<Allergen, Presence> = BTreeMap::new();
    let mut add = |allergen: Allergen, presence: Presence| {
        all.entry(allergen).and_modify(|p| *p = (*p).min(presence)).or_insert(presence);
    };
    let taken: BTreeSet<Makes> =
        made_of(needs).into_iter().filter(|(_, mass)| *mass > Mass::ZERO).map(|(makes, _)| makes).collect();
    let own = batches.iter().filter(|batch| taken.contains(&batch.recipe.makes));
    own.flat_map(|batch| batch.recipe.allergens(&pantry)).for_each(|(a, p)| add(a, p));
    if needs.glazing.iter().any(|g| g.glass == Glass::Leaf) {
        add(Allergen::Fish, Presence::May);
    }
    if !needs.sweets.is_empty() || needs.glazing.iter().any(|g| g.glass == Glass::Crushed) {
        [Allergen::Milk, Allergen::Nuts, Allergen::Peanuts, Allergen::Soya, Allergen::Wheat]
            .into_iter()
            .for_each(|a| add(a, Presence::May));
    }
    all
}

/// What is in any of the houses, as surely as in the one that has it most surely.
fn everywhere(houses: &[HousePlan]) -> BTreeMap<Allergen, Presence> {
    let mut all: BTreeMap<Allergen, Presence> = BTreeMap::new();
    for &(allergen, presence) in houses.iter().flat_map(|house| &house.kit.allergens) {
        all.entry(allergen).and_modify(|p| *p = (*p).min(presence)).or_insert(presence);
    }
    all
}

/// Those of any house, in their usual order.
fn cautions(houses: &[HousePlan], batches: &[Batch]) -> Vec<Caution> {
    let made: Vec<Makes> = batches.iter().map(|b| b.recipe.makes).collect();
    let used: Vec<&str> = batches.iter().flat_map(|b| &b.recipe.lines).map(|l| l.ingredient.as_str()).collect();
    let own = houses.iter().flat_map(|house| Caution::of(&house.needs, !house.kit.allergens.is_empty(), &used, &made));
    let own: BTreeSet<Caution> = own.collect();
    Caution::ALL.into_iter().filter(|caution| own.contains(caution)).collect()
}

impl BakePlan {
    /// How well the loss in the oven is founded: measured by the person, or derived from the recipe.
    pub fn loss_basis(&self, notebook: &Notebook) -> Basis {
        if notebook.loss().is_some() { Basis::Own } else { Basis::Derived }
    }
}
