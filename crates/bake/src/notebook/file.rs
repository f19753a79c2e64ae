//! A notebook as text.

use super::snaps::{snap, snap_data};
use super::types::{BiscuitData, HeadData, IngredientData, LineData, NotebookData, OvenData, RecipeData};
use super::{Notebook, days};
use crate::shopping::Cupboard;
use crate::{
    Allergen, Amount, Basis, Family, Ingredient, Line, Makes, Mass, OvenNote, PieceSize, Presence, Recipe, Scaling,
    Settable, TestBiscuits, Values,
};
use gable_measure::Length;
use std::collections::BTreeMap;

const FORMAT: &str = "gablewright-notebook";
/// Version 2 has rates, kitchens, people and bakes; all that version 1 says means the same.
const VERSION: u32 = 2;

/// Why a notebook could not be read: where, what is wrong and what to do.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{place}: {what}")]
pub struct NotebookError {
    /// Where it stands, such as `recipes[0].lines[2].amount`.
    pub place: String,
    /// What is wrong, and what to do.
    pub what: String,
}

pub(super) fn wrong(place: impl Into<String>, what: impl Into<String>) -> NotebookError {
    NotebookError { place: place.into(), what: what.into() }
}

/// A notebook as JSON.
pub fn write(notebook: &Notebook) -> String {
    let data = NotebookData {
        format: FORMAT.to_owned(),
        version: VERSION,
        figures: notebook.figures.own().map(|(figure, value)| (figure.known().word.to_owned(), value)).collect(),
        rates: notebook.rates.own().map(|(rate, value)| (rate.known().word.to_owned(), value)).collect(),
        ingredients: notebook.ingredients.iter().map(ingredient_data).collect(),
        recipes: notebook.recipes.iter().map(recipe_data).collect(),
        chosen: notebook.chosen.iter().map(|(makes, id)| (makes.word().to_owned(), id.clone())).collect(),
        scaling: Some(notebook.scaling.word().to_owned()),
        at_home: notebook.cupboard.at_home.clone(),
        prices: notebook.cupboard.prices.clone(),
        currency: notebook.cupboard.currency.clone(),
        oven: notebook.oven_log.iter().map(oven_data).collect(),
        biscuits: notebook.biscuits.iter().map(biscuit_data).collect(),
        snaps: notebook.snaps.iter().map(snap_data).collect(),
        kitchens: notebook.kitchens.iter().map(days::kitchen_data).collect(),
        between: notebook.between,
        damp: notebook.damp,
        people: notebook.people.iter().map(days::person_data).collect(),
        bakes: notebook.builds.iter().map(days::build_data).collect(),
    };
    // Strings and numbers always have a form in JSON.
    serde_json::to_string_pretty(&data).map_or_else(|_| String::new(), |text| text + "\n")
}

/// Reads what [`write`] wrote, or what somebody has written by hand.
///
/// # Errors
/// When it is no notebook of this version, or something in it makes no sense: the first such thing.
pub fn read(text: &str) -> Result<Notebook, NotebookError> {
    // A newer one has fields that this program does not know, so its version is looked at first.
    let head: HeadData = parsed(text)?;
    if head.format != FORMAT {
        return Err(wrong("format", format!("\"{}\" is something else; a notebook says {FORMAT}", head.format)));
    }
    if !(1..=VERSION).contains(&head.version) {
        let what = format!(
            "this is version {}, and this program knows versions 1 to {VERSION}; take a newer program",
            head.version
        );
        return Err(wrong("version", what));
    }
    let data: NotebookData = parsed(text)?;
    let mut notebook = Notebook {
        figures: values("figures", &data.figures)?,
        rates: values("rates", &data.rates)?,
        ingredients: each("ingredients", &data.ingredients, ingredient)?,
        ..Notebook::default()
    };
    notebook.recipes = each("recipes", &data.recipes, recipe)?;
    for (word, id) in &data.chosen {
        let makes = makes(&format!("chosen.{word}"), word)?;
        notebook.chosen.insert(makes, id.clone());
    }
    if let Some(word) = &data.scaling {
        let known = Scaling::ALL.into_iter().find(|s| s.word() == word);
        notebook.scaling = known.ok_or_else(|| wrong("scaling", "give exact, whole-eggs or whole-batches"))?;
    }
    for (id, price) in &data.prices {
        positive(&format!("prices.{id}"), *price)?;
    }
    notebook.cupboard = Cupboard { at_home: data.at_home, prices: data.prices, currency: data.currency };
    notebook.oven_log = each("oven", &data.oven, oven)?;
    notebook.biscuits = each("biscuits", &data.biscuits, biscuit)?;
    notebook.snaps = each("snaps", &data.snaps, snap)?;
    notebook.kitchens = each("kitchens", &data.kitchens, days::kitchen)?;
    notebook.between = data.between.map(|minutes| minutes.min(24 * 60));
    notebook.damp = data.damp;
    notebook.people = each("people", &data.people, |place, d| days::person(place, d, &notebook.kitchens))?;
    notebook.builds = each("bakes", &data.bakes, days::build)?;
    Ok(notebook)
}

fn parsed<'t, D: serde::Deserialize<'t>>(text: &'t str) -> Result<D, NotebookError> {
    serde_json::from_str(text).map_err(|e| wrong(format!("line {}", e.line()), format!("this is no notebook: {e}")))
}

fn values<S: Settable>(name: &str, data: &BTreeMap<String, f64>) -> Result<Values<S>, NotebookError> {
    let mut values = Values::default();
    for (word, value) in data {
        let place = format!("{name}.{word}");
        let one = S::of_word(word).ok_or_else(|| wrong(&place, "there is no such figure; leave it out"))?;
        values.set(one, *value).map_err(|e| wrong(&place, e.to_string()))?;
    }
    Ok(values)
}

pub(super) fn each<D, T>(
    name: &str,
    data: &[D],
    one: impl Fn(&str, &D) -> Result<T, NotebookError>,
) -> Result<Vec<T>, NotebookError> {
    data.iter().enumerate().map(|(k, d)| one(&format!("{name}[{k}]"), d)).collect()
}

fn positive(place: &str, value: f64) -> Result<f64, NotebookError> {
    if value > 0.0 && value <= 1e6 { Ok(value) } else { Err(wrong(place, format!("{value} must be above 0"))) }
}

pub(super) fn masses(place: &str, grams: Option<f64>) -> Result<Option<Mass>, NotebookError> {
    grams.map(|g| positive(place, g).map(Mass::grams)).transpose()
}

fn makes(place: &str, word: &str) -> Result<Makes, NotebookError> {
    let words = Makes::ALL.map(Makes::word).join(", ");
    let known = Makes::ALL.into_iter().find(|m| m.word() == word);
    known.ok_or_else(|| wrong(place, format!("\"{word}\" is nothing that recipes make; give one of {words}")))
}

fn ingredient_data(i: &Ingredient) -> IngredientData {
    let of = |presence: Presence| {
        i.allergens.iter().filter(|(_, p)| *p == presence).map(|(a, _)| a.word().to_owned()).collect()
    };
    IngredientData {
        id: i.id.clone(),
        name: i.name.clone(),
        family: i.family.word().to_owned(),
        cup: i.cup.map(Mass::g),
        tablespoon: i.tablespoon.map(Mass::g),
        teaspoon: i.teaspoon.map(Mass::g),
        each: i.each.map(Mass::g),
        water: i.water,
        contains: of(Presence::Contains),
        may_contain: of(Presence::May),
    }
}

fn ingredient(place: &str, d: &IngredientData) -> Result<Ingredient, NotebookError> {
    let families = Family::ALL.map(Family::word).join(", ");
    let family = Family::ALL.into_iter().find(|f| f.word() == d.family);
    let water = d.water.filter(|w| (0.0..=1.0).contains(w));
    if water != d.water {
        return Err(wrong(format!("{place}.water"), "give a share from 0 to 1"));
    }
    let mut allergens = Vec::new();
    for (words, presence) in [(&d.contains, Presence::Contains), (&d.may_contain, Presence::May)] {
        for word in words {
            let unknown = || wrong(format!("{place}.contains"), format!("\"{word}\" is no allergen of the lists"));
            allergens.push((Allergen::of_word(word).ok_or_else(unknown)?, presence));
        }
    }
    Ok(Ingredient {
        id: d.id.clone(),
        name: d.name.clone(),
        family: family.ok_or_else(|| wrong(format!("{place}.family"), format!("give one of {families}")))?,
        cup: masses(&format!("{place}.cup"), d.cup)?,
        tablespoon: masses(&format!("{place}.tablespoon"), d.tablespoon)?,
        teaspoon: masses(&format!("{place}.teaspoon"), d.teaspoon)?,
        each: masses(&format!("{place}.each"), d.each)?,
        water,
        allergens,
        note: None,
        basis: Basis::Own,
        source: "your notebook".to_owned(),
    })
}

fn recipe_data(r: &Recipe) -> RecipeData {
    let line = |l: &Line| LineData { ingredient: l.ingredient.clone(), amount: exact(&l.amount) };
    RecipeData {
        id: r.id.clone(),
        name: r.name.clone(),
        makes: r.makes.word().to_owned(),
        lines: r.lines.iter().map(line).collect(),
        steps: r.steps.clone(),
    }
}

/// An amount with all its decimals.
fn exact(amount: &Amount) -> String {
    format!("{} {}", amount.number, amount.measure.word())
}

fn recipe(place: &str, d: &RecipeData) -> Result<Recipe, NotebookError> {
    let line = |place: &str, l: &LineData| {
        let amount = Amount::read(&l.amount).map_err(|e| wrong(format!("{place}.amount"), e.to_string()))?;
        Ok(Line { ingredient: l.ingredient.clone(), amount })
    };
    Ok(Recipe {
        id: d.id.clone(),
        name: d.name.clone(),
        makes: makes(&format!("{place}.makes"), &d.makes)?,
        lines: each(&format!("{place}.lines"), &d.lines, line)?,
        steps: d.steps.clone(),
        basis: Basis::Own,
        source: "your notebook".to_owned(),
    })
}

fn oven_data(note: &OvenNote) -> OvenData {
    OvenData { rolled: note.rolled.mm(), size: note.size.word().to_owned(), minutes: note.minutes }
}

fn oven(place: &str, d: &OvenData) -> Result<OvenNote, NotebookError> {
    let size = [PieceSize::Large, PieceSize::Small].into_iter().find(|s| s.word() == d.size);
    Ok(OvenNote {
        rolled: Length::mm_of(positive(&format!("{place}.rolled"), d.rolled)?),
        size: size.ok_or_else(|| wrong(format!("{place}.size"), "give large or small"))?,
        minutes: positive(&format!("{place}.minutes"), d.minutes)?,
    })
}

fn biscuit_data(b: &TestBiscuits) -> BiscuitData {
    BiscuitData {
        dough: b.dough.clone(),
        rolled: b.rolled.mm(),
        baked: b.baked.mm(),
        strip_cut: b.strip_cut.mm(),
        strip_baked: b.strip_baked.mm(),
        hole_cut: b.hole_cut.mm(),
        hole_baked: b.hole_baked.mm(),
        before: b.before.map(Mass::g),
        after: b.after.map(Mass::g),
        minutes: b.minutes,
    }
}

fn biscuit(place: &str, d: &BiscuitData) -> Result<TestBiscuits, NotebookError> {
    let test = TestBiscuits {
        dough: d.dough.clone(),
        rolled: Length::mm_of(d.rolled),
        baked: Length::mm_of(d.baked),
        strip_cut: Length::mm_of(d.strip_cut),
        strip_baked: Length::mm_of(d.strip_baked),
        hole_cut: Length::mm_of(d.hole_cut),
        hole_baked: Length::mm_of(d.hole_baked),
        before: masses(&format!("{place}.before"), d.before)?,
        after: masses(&format!("{place}.after"), d.after)?,
        minutes: d.minutes,
    };
    test.judge().map_err(|e| wrong(place, e.to_string()))?;
    Ok(test)
}
