//! Figures and times: each with its basis and range, to be changed and taken back.

use super::drafts::{Drafts, number};
use crate::adapters::sentence;
use crate::theme::bold;
use egui::{RichText, Ui};
use gable_bake::timetable::Rate;
use gable_bake::{Basis, Figure, Notebook, Settable, Values};
use gable_measure::decimal;
use gable_words::tr;

pub(super) fn show(ui: &mut Ui, notebook: &mut Notebook, drafts: &mut Drafts) {
    ui.label(tr!("What amounts and days go by. Whatever you know better, type in; it is kept in your notebook."));
    ui.add_space(6.0);
    ui.label(bold(tr!("Amounts")));
    rows(ui, &mut notebook.figures, Figure::all(), drafts);
    ui.add_space(8.0);
    ui.label(bold(tr!("How long things take")));
    rows(ui, &mut notebook.rates, Rate::all(), drafts);
}

fn rows<S: Settable>(ui: &mut Ui, values: &mut Values<S>, all: &[S], drafts: &mut Drafts) {
    for &one in all {
        let known = one.known();
        let say = |value: f64| decimal(known.shown(value), 2);
        let name = capital(known.words);
        ui.label(&name);
        ui.horizontal(|ui| {
            let read = |text: &str| {
                let typed = number(text.trim().trim_end_matches(known.unit))?;
                let value = if known.unit == "%" { typed / 100.0 } else { typed };
                let mut probe = Values::default();
                probe.set(one, value).map_err(|e| sentence(&e.to_string()))?;
                Ok(value)
            };
            let typed = drafts.field(ui, &name, (&say(values.get(one)), 70.0), read);
            if let Some(value) = typed
                && let Err(error) = values.set(one, value)
            {
                ui.label(sentence(&error.to_string()));
            }
            ui.label(known.unit);
            if values.basis(one) == Basis::Own {
                let usual = tr!("As assumed: {} {}", say(known.usual), known.unit);
                let back = ui.button(usual).on_hover_text(tr!("Take back what you set for {}", known.words));
                let spoken = tr!("As assumed: {}", known.words);
                back.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, &spoken));
                if back.clicked() {
                    values.forget(one);
                    drafts.drop_one(&name);
                }
            }
        });
        let (low, high) = (say(known.range.0), say(known.range.1));
        let basis = if values.basis(one) == Basis::Own { Basis::Own.words().to_owned() } else { known.founded() };
        ui.label(RichText::new(tr!("Seen {low} to {high} {}; {basis}.", known.unit)).small());
        ui.add_space(4.0);
    }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
