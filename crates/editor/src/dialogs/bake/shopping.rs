//! What to buy: what is at home is ticked off, prices are typed in.

use super::BakeAsked;
use super::drafts::{Drafts, number};
use crate::theme::{Palette, bold};
use egui::{RichText, Ui};
use gable_bake::{BakePlan, Notebook, Quantity, Shelf, ToBuy};
use gable_measure::{Unit, decimal};
use gable_words::tr;

pub(super) fn show(
    ui: &mut Ui,
    plan: &BakePlan,
    notebook: &mut Notebook,
    drafts: &mut Drafts,
    unit: Unit,
) -> BakeAsked {
    let list = plan.shopping.clone().of(&notebook.cupboard);
    ui.label(tr!("Tick off what you have enough of at home."));
    ui.horizontal(|ui| {
        ui.label(tr!("Prices in"));
        let read = |text: &str| {
            if text.chars().count() <= 12 {
                Ok(text.trim().to_owned())
            } else {
                Err(tr!("Give a short name.").to_owned())
            }
        };
        let shown = notebook.cupboard.currency.clone();
        if let Some(currency) = drafts.field(ui, tr!("Currency"), (&shown, 60.0), read) {
            notebook.cupboard.currency = currency;
        }
        ui.label(sum(list.cost(), &notebook.cupboard.currency));
    });
    ui.add_space(6.0);
    for shelf in Shelf::ALL {
        let lines: Vec<&ToBuy> = list.lines.iter().filter(|line| line.shelf == shelf).collect();
        if lines.is_empty() {
            continue;
        }
        ui.label(bold(shelf.words()));
        for one in lines {
            line(ui, one, notebook, drafts, unit);
        }
        ui.add_space(8.0);
    }
    let mut asked = BakeAsked::Nothing;
    ui.horizontal(|ui| {
        if ui.button(tr!("Copy the list")).on_hover_text(tr!("To paste it into a message or a note")).clicked() {
            ui.ctx().copy_text(list.text(unit));
        }
        if ui.button(tr!("Save as a table…")).on_hover_text(tr!("For spreadsheets (CSV)")).clicked() {
            asked = BakeAsked::ShoppingList;
        }
    });
    asked
}

/// What everything to buy costs, as far as prices are known.
fn sum((cost, unpriced): (f64, usize), currency: &str) -> String {
    match (cost > 0.0, unpriced) {
        (false, _) => tr!("Type in what things cost, and their sum stands here.").to_owned(),
        (true, 0) => tr!("To buy: {cost:.2} {currency}"),
        (true, some) => tr!("To buy: {cost:.2} {currency}, and one thing without a price"
            | "To buy: {cost:.2} {currency}, and {n} things without a price" % some),
    }
}

fn line(ui: &mut Ui, one: &ToBuy, notebook: &mut Notebook, drafts: &mut Drafts, unit: Unit) {
    let cupboard = &mut notebook.cupboard;
    ui.horizontal(|ui| {
        let mut here = cupboard.at_home.contains(&one.id);
        let note = if one.note.is_empty() { String::new() } else { format!(" ({})", one.note) };
        let words = format!("{}  {}{note}", one.amount.print(unit), one.name);
        let words =
            if here { RichText::new(words).color(Palette::of(ui.ctx()).faint_ink) } else { RichText::new(words) };
        if ui.checkbox(&mut here, words).changed() {
            if here {
                cupboard.at_home.insert(one.id.clone());
            } else {
                cupboard.at_home.remove(&one.id);
            }
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            ui.label(if matches!(one.amount, Quantity::Mass(_)) { tr!("per kg") } else { tr!("a price" => "each") });
            let shown = cupboard.prices.get(&one.id).map_or_else(String::new, |price| decimal(*price, 2));
            let read = |text: &str| match text.trim() {
                "" => Ok(None),
                text => number(text).and_then(|p| {
                    if p > 0.0 && p < 1e6 { Ok(Some(p)) } else { Err(tr!("Give a price above 0.").to_owned()) }
                }),
            };
            match drafts.field(ui, &tr!("Price of {}", one.name), (&shown, 60.0), read) {
                Some(Some(price)) => drop(cupboard.prices.insert(one.id.clone(), price)),
                Some(None) => drop(cupboard.prices.remove(&one.id)),
                None => {}
            }
        });
    });
}

#[cfg(test)]
mod tests {
    #[test]
    fn nothing_costs_nothing_before_prices_are_known() {
        let empty: f64 = std::iter::empty::<f64>().sum();
        assert_eq!(super::sum((empty, 28), "EUR"), "Type in what things cost, and their sum stands here.");
        assert_eq!(super::sum((3.456, 0), "EUR"), "To buy: 3.46 EUR");
        assert_eq!(super::sum((3.456, 1), "EUR"), "To buy: 3.46 EUR, and one thing without a price");
        assert_eq!(super::sum((3.456, 2), "EUR"), "To buy: 3.46 EUR, and 2 things without a price");
    }
}
