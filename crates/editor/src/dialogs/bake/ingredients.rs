//! Ingredients of the person's own: what they weigh, what is in them, what they cost.

use super::drafts::{Drafts, number};
use crate::theme::bold;
use egui::{CollapsingHeader, ComboBox, Ui, WidgetInfo, accesskit::Role};
use gable_bake::{Allergen, Basis, Family, Ingredient, Mass, Measure, Notebook, Presence};
use gable_measure::decimal;
use gable_words::tr;

pub(super) fn show(ui: &mut Ui, notebook: &mut Notebook, drafts: &mut Drafts) {
    let title = tr!("Ingredients of your own: {}", notebook.ingredients.len());
    CollapsingHeader::new(bold(title)).id_salt("own ingredients").show(ui, |ui| {
        ui.label(tr!("What the program does not know yet, or knows otherwise than your packet says. Recipes can use it from then on."));
        let mut away = None;
        for k in 0..notebook.ingredients.len() {
            if own(ui, k, notebook, drafts) {
                away = Some(k);
            }
            ui.add_space(6.0);
        }
        if let Some(k) = away {
            let gone = notebook.ingredients.remove(k);
            notebook.cupboard.prices.remove(&gone.id);
            drafts.drop_all("ingredient ");
        }
        if ui.button(tr!("A new ingredient")).clicked() {
            let fresh = fresh(notebook);
            notebook.ingredients.push(fresh);
        }
    });
}

/// One of which nothing is known yet.
fn fresh(notebook: &Notebook) -> Ingredient {
    let pantry = notebook.pantry();
    let mut ids = (1..).map(|k| format!("my-ingredient-{k}"));
    let id = ids.find(|id| pantry.get(id).is_none()).unwrap_or_default();
    Ingredient {
        id,
        name: tr!("Ingredient {}", notebook.ingredients.len() + 1),
        family: Family::Sugar,
        cup: None,
        tablespoon: None,
        teaspoon: None,
        each: None,
        water: None,
        allergens: Vec::new(),
        note: None,
        basis: Basis::Own,
        source: tr!("your notebook").to_owned(),
    }
}

/// One ingredient; whether it shall go.
fn own(ui: &mut Ui, k: usize, notebook: &mut Notebook, drafts: &mut Drafts) -> bool {
    let used = user(notebook, k);
    let Some(own) = notebook.ingredients.get_mut(k) else { return false };
    let field = |what: &str| tr!("{what} of ingredient {}", k + 1);
    ui.horizontal_wrapped(|ui| {
        let read = |text: &str| match text.trim() {
            "" => Err(tr!("Give it a name.").to_owned()),
            text => Ok(text.to_owned()),
        };
        let shown = own.name.clone();
        if let Some(name) = drafts.field(ui, &field(tr!("Name")), (&shown, 220.0), read) {
            own.name = name;
        }
        family(ui, k, &mut own.family);
    });
    ui.horizontal_wrapped(|ui| {
        for (words, name, value) in [
            (tr!("A cup weighs"), tr!("Weight of a cup"), &mut own.cup),
            (tr!("a tablespoon"), tr!("Weight of a tablespoon"), &mut own.tablespoon),
            (tr!("one of it"), tr!("Weight of one"), &mut own.each),
        ] {
            ui.label(words);
            let shown = value.map_or_else(String::new, |mass| decimal(mass.g(), 1));
            if let Some(mass) = drafts.field(ui, &field(name), (&shown, 50.0), |text| some(text, (0.01, 5000.0), "g")) {
                *value = mass.map(Mass::grams);
            }
            ui.label("g");
        }
        if let Some(cup) = own.cup {
            ui.label(tr!("(100 ml weigh {} g)", decimal(cup.g() / Measure::CUP_ML * 100.0, 0)));
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.label(tr!("Water in it"));
        let shown = own.water.map_or_else(String::new, |share| decimal(share * 100.0, 1));
        if let Some(share) =
            drafts.field(ui, &field(tr!("Water")), (&shown, 50.0), |text| some(text, (0.0, 100.0), "%"))
        {
            own.water = share.map(|share| share / 100.0);
        }
        ui.label(tr!("%;  a kilogram costs"));
        let id = own.id.clone();
        let prices = &mut notebook.cupboard.prices;
        let shown = prices.get(&id).map_or_else(String::new, |price| decimal(*price, 2));
        match drafts.field(ui, &field(tr!("Price")), (&shown, 60.0), |text| some(text, (0.001, 1e6), tr!("as a price")))
        {
            Some(Some(price)) => drop(prices.insert(id, price)),
            Some(None) => drop(prices.remove(&id)),
            None => {}
        }
        ui.label(&notebook.cupboard.currency);
    });
    let Some(own) = notebook.ingredients.get_mut(k) else { return false };
    allergens(ui, k, own);
    strike(ui, &own.name, used)
}

fn family(ui: &mut Ui, k: usize, family: &mut Family) {
    let words = |family: Family| match family {
        Family::Raising => tr!("raising agent or salt"),
        Family::Setting => tr!("for decorating"),
        Family::Flour => tr!("flour"),
        Family::Sugar => tr!("sugar"),
        Family::Syrup => tr!("syrup"),
        Family::Fat => tr!("fat"),
        Family::Egg => tr!("egg"),
        Family::Milk => tr!("milk"),
        Family::Liquid => tr!("liquid"),
        Family::Spice => tr!("spice"),
    };
    let combo = ComboBox::from_id_salt(("family", k)).selected_text(words(*family)).width(170.0).show_ui(ui, |ui| {
        for own in Family::ALL {
            ui.selectable_value(family, own, words(own));
        }
    });
    let spoken = tr!("Kind of ingredient {}: {}", k + 1, words(*family));
    combo.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &spoken));
}

/// What is in it that some must not eat: a click says that it contains it, another that it may, a third that it does not.
fn allergens(ui: &mut Ui, k: usize, own: &mut Ingredient) {
    ui.label(tr!("Who must not eat it: click once where it contains something, twice where it may contain it."));
    ui.horizontal_wrapped(|ui| {
        for allergen in Allergen::ALL {
            let known = own.allergens.iter().find(|(own, _)| *own == allergen).map(|(_, presence)| *presence);
            let (said, next) = match known {
                None => (allergen.words().to_owned(), Some(Presence::Contains)),
                Some(Presence::Contains) => (tr!("contains {}", allergen.words()), Some(Presence::May)),
                Some(Presence::May) => (tr!("may contain {}", allergen.words()), None),
            };
            let toggle = ui.selectable_label(known.is_some(), &said);
            let spoken = tr!("Ingredient {}: {said}", k + 1);
            toggle.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, known.is_some(), &spoken));
            if toggle.clicked() {
                own.allergens.retain(|(own, _)| *own != allergen);
                own.allergens.extend(next.map(|presence| (allergen, presence)));
            }
        }
    });
}

/// The recipe that uses an ingredient, if any does.
fn user(notebook: &Notebook, k: usize) -> Option<String> {
    let id = &notebook.ingredients.get(k)?.id;
    let uses = |recipe: &&gable_bake::Recipe| recipe.lines.iter().any(|line| line.ingredient == *id);
    notebook.recipes.iter().find(uses).map(|recipe| recipe.name.clone())
}

/// Whether it shall go, which it cannot while a recipe needs it.
fn strike(ui: &mut Ui, name: &str, used: Option<String>) -> bool {
    if let Some(recipe) = used {
        ui.label(tr!("{name} is used in {recipe}."));
        return false;
    }
    let strike = ui.button(tr!("Strike out this ingredient"));
    let spoken = tr!("Strike out ingredient {name}");
    strike.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
    strike.clicked()
}

/// A number within bounds, or nothing.
fn some(text: &str, (least, most): (f64, f64), unit: &str) -> Result<Option<f64>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let within = |value: f64| (least..=most).contains(&value).then_some(Some(value));
    number(text).and_then(|value| within(value).ok_or_else(|| tr!("Give {least} to {most} {unit}.")))
}
