use super::length::{Typed, field};
use crate::adapters::sentence;
use egui::{Grid, TextEdit, Ui};
use gable_export::{Spread, Way};
use gable_measure::{Length, Unit};
use gable_words::tr;

/// What the dough does in the oven, with what is typed about it.
#[derive(Clone, Debug, Default)]
pub(super) struct SpreadChoice {
    on: bool,
    share: f64,
    edge: Length,
    way: Way,
    typed: [Typed; 2],
}

impl SpreadChoice {
    /// Whether dough spreads.
    pub(super) fn ask(&mut self, ui: &mut Ui) {
        ui.checkbox(&mut self.on, tr!("Make up for dough that spreads"));
    }

    /// Its fields, where it does. Gives what patterns allow for, and what is wrong.
    pub(super) fn show(&mut self, ui: &mut Ui, unit: Unit) -> (Option<Spread>, Vec<String>) {
        if !self.on {
            return (None, Vec::new());
        }
        let mut errors = Vec::new();
        ui.label(tr!("Bake a long strip and a biscuit with a hole, and measure both before and after."));
        Grid::new("spread").num_columns(2).spacing([12.0, 6.0]).show(ui, |ui| {
            errors.extend(self.share_field(ui));
            ui.end_row();
            errors.extend(field(ui, tr!("Grows at each edge by"), &mut self.edge, &mut self.typed[1], unit));
            ui.end_row();
        });
        ui.radio_value(&mut self.way, Way::TrimWarm, tr!("Trim warm: cut larger, trim to size once baked"));
        ui.radio_value(&mut self.way, Way::CutOnce, tr!("Cut once: cut smaller, so that it grows into its size"));
        match Spread::new(self.share, self.edge, self.way) {
            Ok(spread) => (Some(spread), errors),
            Err(error) => {
                errors.push(sentence(&error.to_string()));
                (None, errors)
            }
        }
    }

    fn share_field(&mut self, ui: &mut Ui) -> Option<String> {
        let name = tr!("Grows in proportion by");
        let label = ui.label(name);
        let plain = format!("{} %", (self.share * 1e4).round() / 100.0);
        let mut text = self.typed[0].clone().unwrap_or(plain);
        let edit = TextEdit::singleline(&mut text).desired_width(130.0).align(egui::Align2::LEFT_CENTER);
        let field = ui.add(edit).labelled_by(label.id);
        if field.changed() {
            // A bare number means hundredths here, as the field shows them.
            self.typed[0] = Some(text);
        }
        let typed = self.typed[0].clone()?;
        let with_sign = if typed.contains('%') { typed } else { format!("{typed}%") };
        match Spread::read_share(&with_sign) {
            Ok(share) => {
                self.share = share;
                if field.lost_focus() {
                    self.typed[0] = None;
                }
                None
            }
            Err(_) => Some(tr!("{name}: give a number of hundredths, such as 2 %.")),
        }
    }

    /// Without what was typed and could not be read.
    pub(super) fn settled(self) -> Self {
        Self { typed: Default::default(), ..self }
    }
}
