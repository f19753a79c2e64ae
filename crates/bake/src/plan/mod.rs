//! All of it for one person: what a house takes, what is made of it, what is bought.

mod kits;
#[cfg(test)]
mod tests;

pub use kits::Kit;

use crate::shopping::{self, Basket};
use crate::{
    About, Allergen, Basis, Caution, Figure, Makes, Mass, Needs, Notebook, Ovenfuls, Presence, Quantity, Recipe, Shelf,
    Shopping, ToBake, Weighed,
};
use gable_shell::kitchen::Kitchen;
use gable_shell::{Glass, Stuff};
use std::collections::{BTreeMap, BTreeSet};

/// What follows from the pieces of a house, for one person and some copies of it.
#[derive(Clone, Debug, PartialEq)]
pub struct BakePlan {
    /// How many houses of it are made.
    pub copies: usize,
    /// What one house takes.
    pub needs: Needs,
    /// What is mixed, for all copies: dough, icing, sugar.
    pub batches: Vec<Batch>,
    /// Mass of the biscuit of all copies.
    pub baked: Mass,
    /// Which share of its mass the dough loses in the oven.
    pub loss: f64,
    /// How everything is baked.
    pub ovenfuls: Ovenfuls,
    /// What is bought, for all copies.
    pub shopping: Shopping,
    /// What some people must not eat, and how surely it is in the house.
    pub allergens: BTreeMap<Allergen, Presence>,
    /// Where someone could be hurt or made ill.
    pub cautions: Vec<Caution>,
    /// Figures that are no more than assumptions, with what they were taken as.
    pub assumed: Vec<(Figure, f64)>,
    /// What goes to each who builds one.
    pub kit: Kit,
    /// What could not be worked out, and what to do.
    pub problems: Vec<String>,
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
    /// Plans a house, or several copies of it.
    pub fn of(about: &About<'_>, kitchen: &Kitchen, notebook: &Notebook, copies: usize) -> Self {
        let figures = &notebook.figures;
        let needs = Needs::of(about, figures);
        let one = ToBake::all(about);
        let ovenfuls = baked(&one, copies, |some| Ovenfuls::of(some, kitchen, figures, &notebook.oven_log));
        let mut problems = Vec::new();
        let batches = batches(&needs, notebook, copies, &mut problems);
        for name in &ovenfuls.too_large {
            problems
                .push(format!("{name} fits on none of the trays; bake it on a larger one, or make the house smaller"));
        }
        let loss = notebook.expected_loss();
        let allergens = allergens(&needs, &batches, notebook);
        let made: Vec<Makes> = batches.iter().map(|b| b.recipe.makes).collect();
        let used: Vec<&str> = batches.iter().flat_map(|b| &b.recipe.lines).map(|l| l.ingredient.as_str()).collect();
        Self {
            copies,
            baked: needs.dough.net * (copies as f64 * (1.0 - loss)),
            loss,
            shopping: shopping(&needs, &batches, notebook, about, copies),
            cautions: Caution::of(&needs, &allergens, &used, &made),
            assumed: figures.assumed().into_iter().filter(|(figure, _)| !figure.is_of_strength()).collect(),
            kit: Kit::of(&one, &needs, &allergens),
            needs,
            batches,
            ovenfuls,
            allergens,
            problems,
        }
    }

    /// What is made of a kind.
    pub fn batch(&self, makes: Makes) -> Option<&Batch> {
        self.batches.iter().find(|b| b.recipe.makes == makes)
    }
}

/// Pieces that are laid on trays at once; the time that takes grows faster than their number.
const AT_ONCE: usize = 200;

/// The ovenfuls of all copies: as many copies as make [`AT_ONCE`] pieces are laid on trays once, and that layout is baked
/// again and again; the rest is laid by itself.
fn baked(one: &[ToBake], copies: usize, lay: impl Fn(&[ToBake]) -> Ovenfuls) -> Ovenfuls {
    let block = (AT_ONCE / one.len().max(1)).clamp(1, copies.max(1));
    let mut all = lay(&copied(one, block));
    let (trays, rolled) = (all.trays.clone(), all.rolled.clone());
    for _ in 1..copies / block {
        all.trays.extend(trays.iter().cloned());
        all.rolled.extend(rolled.iter().cloned());
    }
    if !copies.is_multiple_of(block) {
        let last = lay(&copied(one, copies % block));
        all.trays.extend(last.trays);
        all.rolled.extend(last.rolled);
    }
    // Classes are those of one copy, so all trays name the same; alike ones are baked one after the other.
    all.trays.sort_by_key(|tray| tray.class);
    all
}

/// Everything to bake so many times, each copy with ids of its own.
fn copied(one: &[ToBake], copies: usize) -> Vec<ToBake> {
    let copy = |k: usize| {
        one.iter()
            .map(move |b| if k == 0 { b.clone() } else { ToBake { id: format!("{}#{}", b.id, k + 1), ..b.clone() } })
    };
    (0..copies).flat_map(copy).collect()
}

fn batches(needs: &Needs, notebook: &Notebook, copies: usize, problems: &mut Vec<String>) -> Vec<Batch> {
    let icing: Mass = needs.icing.iter().map(|i| i.to_make).sum();
    let sugar: Mass = needs.glazing.iter().filter(|g| g.glass == Glass::Poured).filter_map(|g| g.mass).sum();
    let paste = |stuff: Stuff| needs.pastes.iter().filter(|p| p.stuff == stuff).map(|p| p.to_make).sum::<Mass>();
    let wanted = [
        (Makes::Dough, needs.dough.to_make),
        (Makes::Icing, icing),
        (Makes::Fondant, paste(Stuff::Fondant)),
        (Makes::GumPaste, paste(Stuff::GumPaste)),
        (Makes::BoiledSugar, sugar),
    ];
    let mut all = Vec::new();
    for (makes, one) in wanted {
        let needed = one * copies as f64;
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

/// Everything in recipes, and what is bought ready.
fn allergens(needs: &Needs, batches: &[Batch], notebook: &Notebook) -> BTreeMap<Allergen, Presence> {
    let pantry = notebook.pantry();
    let mut all: BTreeMap<Allergen, Presence> = BTreeMap::new();
    let mut add = |allergen: Allergen, presence: Presence| {
        all.entry(allergen).and_modify(|p| *p = (*p).min(presence)).or_insert(presence);
    };
    batches.iter().flat_map(|b| b.recipe.allergens(&pantry)).for_each(|(a, p)| add(a, p));
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

fn shopping(needs: &Needs, batches: &[Batch], notebook: &Notebook, about: &About<'_>, copies: usize) -> Shopping {
    let pantry = notebook.pantry();
    let mut basket = Basket::new(&pantry, &notebook.cupboard);
    let times = copies as f64;
    let many = |count: usize| Quantity::Count(count * copies);
    batches.iter().flat_map(|b| &b.weighed.lines).for_each(|line| basket.ingredient(&line.ingredient, line.mass));
    let made = |makes: Makes| batches.iter().any(|b| b.recipe.makes == makes);
    for paste in &needs.pastes {
        let (makes, id, name) = match paste.stuff {
            Stuff::Fondant => (Makes::Fondant, "fondant", "Fondant"),
            _ => (Makes::GumPaste, "gum-paste", "Gum paste"),
        };
        if !made(makes) {
            let id = format!("{id}-{}", paste.tint.word());
            let name =
                format!("{name}, {}", if paste.tint == gable_shell::Tint::Icing { "white" } else { paste.tint.word() });
            basket.other(
                Shelf::CakeDecoration,
                &id,
                name,
                Quantity::Mass(paste.to_make * times),
                "or white and a colour",
            );
        }
    }
    let tints: BTreeSet<_> = needs
        .icing
        .iter()
        .map(|i| i.tint)
        .chain(
            needs
                .pastes
                .iter()
                .filter(|p| match p.stuff {
                    Stuff::Fondant => made(Makes::Fondant),
                    _ => made(Makes::GumPaste),
                })
                .map(|p| p.tint),
        )
        .collect();
    for tint in tints {
        if let Some(name) = shopping::colour(tint) {
            basket.other(
                Shelf::CakeDecoration,
                &format!("colour-{}", tint.word()),
                name,
                Quantity::Count(1),
                "sold as food",
            );
        }
    }
    for glazing in &needs.glazing {
        let glazier = &about.house.dressing.glazier;
        let unit = about.house.unit;
        let size = Quantity::Size(glazier.leaf_length, glazier.leaf_width).print(unit);
        match (glazing.glass, glazing.leaves, glazing.mass) {
            (Glass::Leaf, Some(leaves), _) => {
                basket.other(
                    Shelf::CakeDecoration,
                    "leaves",
                    format!("Gelatine leaves, {size}"),
                    many(leaves),
                    "measure one: sizes differ",
                );
            }
            (Glass::Crushed, _, Some(mass)) => {
                basket.other(
                    Shelf::Sweets,
                    "clear-sweets",
                    "Clear hard sweets to crush",
                    Quantity::Mass(mass * times),
                    "",
                );
            }
            _ => {}
        }
    }
    for sweets in &needs.sweets {
        let id = format!("sweets-{}", sweets.tint.word());
        basket.other(Shelf::Sweets, &id, format!("Sweets, {}", sweets.tint.word()), many(sweets.count), "");
    }
    let bags: usize = needs.icing.iter().map(|i| i.bags).sum();
    basket.other(Shelf::Household, "bags", "Piping bags", many(bags), "");
    basket.other(
        Shelf::Household,
        "baking-paper",
        "Baking paper, a roll",
        Quantity::Count(1),
        "between patterns and dough, and on trays",
    );
    if let Some((width, depth)) = needs.board {
        let name =
            if copies > 1 { format!("Base boards, {copies}, at least") } else { "Base board, at least".to_owned() };
        basket.other(
            Shelf::Household,
            "board",
            name,
            Quantity::Size(width, depth),
            "with foil or paper for food over it",
        );
    }
    if needs.lights {
        basket.other(
            Shelf::Household,
            "lights",
            "String of LED lights, if it is to be lit",
            many(1),
            "battery box screwed shut",
        );
    }
    basket.list()
}

/// How well the loss in the oven is founded.
impl BakePlan {
    /// Measured by the person, or derived from the recipe.
    pub fn loss_basis(&self, notebook: &Notebook) -> Basis {
        if notebook.loss().is_some() { Basis::Own } else { Basis::Derived }
    }
}
