//! Which recipe is used for what, and the person's own recipes, to begin with as copies of those that are built in.

use super::chapter;
use super::drafts::Drafts;
use super::ingredients;
use crate::adapters::sentence;
use crate::theme::{Palette, bold};
use egui::{ComboBox, RichText, TextEdit, Ui, WidgetInfo, accesskit::Role};
use gable_bake::{Amount, BakePlan, Basis, Ingredient, Line, Makes, Measure, Notebook, Recipe, Scaling};
use gable_measure::Unit;
use gable_words::tr;

pub(super) fn show(ui: &mut Ui, plan: &BakePlan, notebook: &mut Notebook, drafts: &mut Drafts, unit: Unit) {
    for makes in Makes::ALL {
        choice(ui, makes, notebook);
    }
    scaling(ui, notebook);
    ui.add_space(8.0);
    for k in 0..notebook.recipes.len() {
        own(ui, k, notebook, drafts);
    }
    notebook.recipes.retain(|recipe| !recipe.lines.is_empty());
    ingredients::show(ui, notebook, drafts);
    ui.add_space(8.0);
    plan.recipe_cards(notebook, unit).iter().for_each(|card| chapter(ui, card));
}

fn words(makes: Makes) -> &'static str {
    match makes {
        Makes::Dough => tr!("Dough"),
        Makes::Icing => tr!("Icing"),
        Makes::Fondant => tr!("Fondant"),
        Makes::GumPaste => tr!("Gum paste"),
        Makes::BoiledSugar => tr!("Boiled sugar"),
    }
}

/// The recipe for something, and a copy of it to change.
fn choice(ui: &mut Ui, makes: Makes, notebook: &mut Notebook) {
    let all: Vec<Recipe> = notebook.all_recipes().into_iter().filter(|r| r.makes == makes).collect();
    let current = notebook.recipe_for(makes);
    let name = words(makes);
    let bought = matches!(makes, Makes::Fondant | Makes::GumPaste);
    let shown = current.as_ref().map_or(tr!("bought ready"), |r| r.name.as_str()).to_owned();
    ui.horizontal(|ui| {
        let label = ui.label(name);
        let combo = ComboBox::from_id_salt(("recipe", name)).selected_text(&shown).width(240.0).show_ui(ui, |ui| {
            let chosen = current.as_ref().map(|r| r.id.clone());
            if bought && ui.selectable_label(chosen.is_none(), tr!("bought ready")).clicked() {
                notebook.chosen.remove(&makes);
            }
            for recipe in &all {
                if ui.selectable_label(chosen.as_ref() == Some(&recipe.id), &recipe.name).clicked() {
                    notebook.chosen.insert(makes, recipe.id.clone());
                }
            }
        });
        let spoken = format!("{name}: {shown}");
        combo.response.labelled_by(label.id).widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &spoken));
        let Some(recipe) = current else { return };
        if recipe.basis != Basis::Own {
            let copy = ui.button(tr!("Make it mine")).on_hover_text(tr!("A copy of this recipe that you can change"));
            let spoken = tr!("Make it mine: {}", recipe.name);
            copy.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
            if copy.clicked() {
                let id = free_id(notebook, &recipe.id);
                notebook.chosen.insert(makes, id.clone());
                let (basis, source) = (Basis::Own, tr!("your notebook").to_owned());
                notebook.recipes.push(Recipe { id, name: tr!("My {}", lower(&recipe.name)), basis, source, ..recipe });
            }
        }
    });
}

fn lower(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// An id that no recipe has.
fn free_id(notebook: &Notebook, like: &str) -> String {
    let all = notebook.all_recipes();
    let mut ids = (1..).map(|k| if k == 1 { format!("my-{like}") } else { format!("my-{like}-{k}") });
    ids.find(|id| all.iter().all(|r| r.id != *id)).unwrap_or_default()
}

fn scaling(ui: &mut Ui, notebook: &mut Notebook) {
    ui.horizontal_wrapped(|ui| {
        ui.label(tr!("Make"));
        for (way, words) in [
            (Scaling::Exact, tr!("just what is needed")),
            (Scaling::WholeEggs, tr!("until eggs are whole")),
            (Scaling::WholeBatches, tr!("whole batches")),
        ] {
            ui.radio_value(&mut notebook.scaling, way, words);
        }
    });
}

/// A recipe of the person's own: its name, what goes in, what to do.
fn own(ui: &mut Ui, k: usize, notebook: &mut Notebook, drafts: &mut Drafts) {
    let pantry = notebook.pantry();
    let all: Vec<Ingredient> = pantry.all().to_vec();
    let Some(recipe) = notebook.recipes.get_mut(k) else { return };
    let title = recipe.name.clone();
    let id = recipe.id.clone();
    egui::CollapsingHeader::new(bold(tr!("{title} (yours)"))).id_salt(("own recipe", &id)).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.label(tr!("Name"));
            let read = |text: &str| {
                if text.trim().is_empty() { Err(tr!("Give it a name.").to_owned()) } else { Ok(text.to_owned()) }
            };
            if let Some(name) = drafts.field(ui, &tr!("Name of recipe {}", k + 1), (&title, 240.0), read) {
                recipe.name = name;
            }
        });
        let mut away = None;
        for (n, line) in recipe.lines.iter_mut().enumerate() {
            let known = all.iter().find(|one| one.id == line.ingredient);
            let what = known.map_or(line.ingredient.as_str(), |one| one.name.as_str()).to_owned();
            ui.horizontal(|ui| {
                let read = |text: &str| {
                    let amount = Amount::read(text).map_err(|e| sentence(&e.to_string()))?;
                    if let Some(known) = known {
                        amount.mass(known).map_err(|e| sentence(&e.to_string()))?;
                    }
                    Ok(amount)
                };
                let shown = line.amount.print();
                if let Some(amount) = drafts.field(ui, &tr!("Amount of {what} in {title}"), (&shown, 90.0), read) {
                    line.amount = amount;
                }
                ui.label(&what);
                let strike = ui.button(tr!("Leave out"));
                let spoken = tr!("Leave out {what}");
                strike.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
                if strike.clicked() {
                    away = Some(n);
                }
            });
        }
        if let Some(n) = away {
            recipe.lines.remove(n);
        }
        more(ui, recipe, &all);
        ui.label(tr!("What to do, a line for each step"));
        let mut steps = recipe.steps.join("\n");
        let field = ui.add(TextEdit::multiline(&mut steps).desired_rows(3).desired_width(f32::INFINITY));
        ui.ctx().accesskit_node_builder(field.id, |node| node.set_label(tr!("Steps of {title}")));
        if field.changed() {
            recipe.steps = steps.split('\n').map(str::to_owned).collect();
        }
        if let Err(error) = recipe.weighed(&pantry) {
            ui.label(RichText::new(sentence(&error.to_string())).color(Palette::of(ui.ctx()).blocking));
        }
        let strike = ui.button(tr!("Strike out this recipe"));
        if strike.clicked() {
            recipe.lines.clear();
        }
    });
    let gone = notebook.recipes.get(k).is_some_and(|recipe| recipe.lines.is_empty());
    if gone {
        notebook.chosen.retain(|_, chosen| *chosen != id);
    }
}

/// Another ingredient.
fn more(ui: &mut Ui, recipe: &mut Recipe, all: &[Ingredient]) {
    let combo = ComboBox::from_id_salt(("more", &recipe.id)).selected_text(tr!("Add an ingredient…")).width(240.0);
    let combo = combo.show_ui(ui, |ui| {
        for one in all.iter().filter(|one| recipe.lines.iter().all(|line| line.ingredient != one.id)) {
            if ui.selectable_label(false, &one.name).clicked() {
                let amount = Amount { number: 100.0, measure: Measure::Gram };
                recipe.lines.push(Line { ingredient: one.id.clone(), amount });
                return;
            }
        }
    });
    let spoken = tr!("Add an ingredient to {}", recipe.name);
    combo.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &spoken));
}
