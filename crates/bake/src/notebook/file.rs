//! A notebook as text.

use super::Notebook;
use super::snaps::{snap, snap_data};
use super::types::{BiscuitData, IngredientData, LineData, NotebookData, OvenData, RecipeData};
use crate::shopping::Cupboard;
use crate::{
    Allergen, Amount, Basis, Family, Figure, Ingredient, Line, Makes, Mass, OvenNote, PieceSize, Presence, Recipe,
    Scaling, TestBiscuits,
};
use gable_measure::Length;

const FORMAT: &str = "gablewright-notebook";
const VERSION: u32 = 1;

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
    };
    // Strings and numbers always have a form in JSON.
    serde_json::to_string_pretty(&data).map_or_else(|_| String::new(), |text| text + "\n")
}

/// Reads what [`write`] wrote, or what somebody has written by hand.
///
/// # Errors
/// When it is no notebook of this version, or something in it makes no sense: the first such thing.
pub fn read(text: &str) -> Result<Notebook, NotebookError> {
    let data: NotebookData = serde_json::from_str(text)
        .map_err(|e| wrong(format!("line {}", e.line()), format!("this is no notebook: {e}")))?;
    if data.format != FORMAT {
        return Err(wrong("format", format!("\"{}\" is something else; a notebook says {FORMAT}", data.format)));
    }
    if data.version != VERSION {
        let what =
            format!("this is version {}, and this program knows version {VERSION}; take a newer program", data.version);
        return Err(wrong("version", what));
    }
    let mut notebook = Notebook::default();
    for (word, value) in &data.figures {
        let place = format!("figures.{word}");
        let figure = Figure::of_word(word).ok_or_else(|| wrong(&place, "there is no such figure; leave it out"))?;
        notebook.figures.set(figure, *value).map_err(|e| wrong(&place, e.to_string()))?;
    }
    notebook.ingredients = each("ingredients", &data.ingredients, ingredient)?;
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
    Ok(notebook)
}

fn each<D, T>(
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{SnapTest, Strip};
    use gable_shell::DoughId;

    fn full() -> Notebook {
        let mm = Length::mm_of;
        let mut notebook = Notebook { scaling: Scaling::Exact, ..Notebook::default() };
        notebook.figures.set(Figure::DoughTrim, 0.3).unwrap();
        notebook.ingredients.push(Ingredient {
            id: "treacle".to_owned(),
            name: "Black treacle".to_owned(),
            family: Family::Syrup,
            cup: Some(Mass::grams(331.5)),
            tablespoon: None,
            teaspoon: None,
            each: None,
            water: Some(0.22),
            allergens: vec![(Allergen::Milk, Presence::Contains), (Allergen::Sulphites, Presence::May)],
            note: None,
            basis: Basis::Own,
            source: "your notebook".to_owned(),
        });
        let dough = Recipe::usual().remove(0);
        notebook.recipes.push(Recipe {
            id: "harbour".to_owned(),
            name: "Harbour dough".to_owned(),
            basis: Basis::Own,
            source: "your notebook".to_owned(),
            ..dough
        });
        notebook.chosen.insert(Makes::Dough, "harbour".to_owned());
        notebook.cupboard.at_home.insert("salt".to_owned());
        notebook.cupboard.prices.insert("flour".to_owned(), 0.89);
        "EUR".clone_into(&mut notebook.cupboard.currency);
        notebook.oven_log.push(OvenNote { rolled: mm(6.0), size: PieceSize::Small, minutes: 9.5 });
        notebook.biscuits.push(TestBiscuits {
            dough: "walls".to_owned(),
            rolled: mm(6.0),
            baked: mm(7.5),
            strip_cut: mm(200.0),
            strip_baked: mm(204.0),
            hole_cut: mm(40.0),
            hole_baked: mm(39.0),
            before: Some(Mass::grams(150.0)),
            after: Some(Mass::grams(131.0)),
            minutes: None,
        });
        let strip = |grams| Strip { width: mm(40.0), thickness: mm(7.0), broke_at: Mass::grams(grams), sag: None };
        let mut strips = [900.0, 1000.0, 1100.0, 1200.0, 1300.0].map(strip).to_vec();
        strips[2].sag = Some((Mass::grams(500.0), mm(0.5)));
        notebook.snaps.push(SnapTest { dough: "walls".to_owned(), span: SnapTest::SPAN, strips });
        notebook
    }

    #[test]
    fn a_notebook_is_read_back() {
        for notebook in [Notebook::default(), full()] {
            assert_eq!(read(&write(&notebook)), Ok(notebook));
        }
        let notebook = full();
        assert_eq!(notebook.recipe_for(Makes::Dough).unwrap().name, "Harbour dough");
        assert!(notebook.recipe_for(Makes::Fondant).is_none(), "it is bought");
        assert!((notebook.loss().unwrap() - (1.0 - 131.0 / 150.0)).abs() < 1e-12);
        // By hand: 204 + 39 of 200 + 40 is 1.25 % more, and the edges do the rest.
        let (share, edge) = notebook.spread().unwrap();
        assert!((share - 0.0125).abs() < 1e-12 && (edge.mm() - 0.75).abs() < 1e-9);
        let snapped = |name: &str| notebook.snapped(&DoughId(name.to_owned())).map(|s| s.strength.mean);
        // By hand: 3 · 1.1 · 9.80665 · 100 / (2 · 40 · 49) = 0.82556; another dough is taken to carry as much.
        assert!((snapped("walls").unwrap() - 0.825_56).abs() < 1e-4 && snapped("walls") == snapped("roofs"));
        let house = gable_shell::demo::house("boat-hut").unwrap();
        let here = notebook.baked_here(&house);
        let rise = |house: &gable_shell::House, name: &str| house.doughs.iter().find(|d| d.id.0 == name).unwrap().rise;
        assert_eq!((rise(&here, "walls"), rise(&here, "roofs")), (1.25, rise(&house, "roofs")));
    }

    #[test]
    fn what_makes_no_sense_is_refused_with_its_place() {
        let whole = write(&full());
        for (old, new, said) in [
            ("gablewright-notebook", "diary", "format: \"diary\" is something else"),
            ("\"version\": 1", "\"version\": 9", "version: this is version 9"),
            ("\"dough-trim\": 0.3", "\"dough-trim\": 30.0", "figures.dough-trim: dough for trimming"),
            ("dough-trim", "dough-trimmings", "figures.dough-trimmings: there is no such figure"),
            ("500 g", "500 miles", "recipes[0].lines[0].amount: \"miles\" is no measure"),
            ("\"family\": \"syrup\"", "\"family\": \"goo\"", "ingredients[0].family: give one of flour"),
            ("\"makes\": \"dough\"", "\"makes\": \"soup\"", "recipes[0].makes: \"soup\" is nothing"),
            ("\"size\": \"small\"", "\"size\": \"tiny\"", "oven[0].size: give large or small"),
            ("\"strip_baked\": 204.0", "\"strip_baked\": 8.0", "biscuits[0]: test biscuits: dough does not grow"),
            ("\"flour\": 0.89", "\"flour\": -1.0", "prices.flour: -1 must be above 0"),
            ("\"milk\"", "\"moonlight\"", "ingredients[0].contains: \"moonlight\" is no allergen"),
            ("\"version\": 1,", "\"version\": 1;", "line 3: this is no notebook"),
        ] {
            let text = whole.replacen(old, new, 1);
            assert_ne!(text, whole, "{old}");
            let error = read(&text).unwrap_err().to_string();
            assert!(error.starts_with(said), "{error}");
        }
    }
}
