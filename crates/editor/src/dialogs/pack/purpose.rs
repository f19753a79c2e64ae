use super::length::{Typed, field};
use super::spread::SpreadChoice;
use crate::adapters::sentence;
use egui::{Grid, Ui};
use gable_export::{PackOptions, Printer, Purpose, calibration_bars};
use gable_measure::{Length, Unit};
use gable_words::tr;

/// Whom the pack is for, with what is typed about one's printer.
#[derive(Clone, Debug, Default)]
pub(super) struct PurposeChoice {
    to_share: bool,
    corrected: bool,
    /// What the level and the upright bar measure, once that was said.
    measured: [Option<Length>; 2],
    typed: [Typed; 2],
    spread: SpreadChoice,
}

impl PurposeChoice {
    /// The choice, and fields for both bars where the printer needs them. Gives what is wrong.
    pub(super) fn show(&mut self, ui: &mut Ui, options: &mut PackOptions, unit: Unit) -> Vec<String> {
        ui.radio_value(&mut self.to_share, false, tr!("For myself"));
        ui.indent("printer", |ui| {
            ui.add_enabled_ui(!self.to_share, |ui| {
                ui.checkbox(&mut self.corrected, tr!("Make up for my printer"));
                self.spread.ask(ui);
            });
        });
        ui.radio_value(&mut self.to_share, true, tr!("To share, without my printer and my oven"));
        options.purpose = if self.to_share { Purpose::Share } else { Purpose::default() };
        if self.to_share {
            return Vec::new();
        }
        let (printer, mut errors) = self.printer(ui, options, unit);
        let (spread, wrong) = self.spread.show(ui, unit);
        errors.extend(wrong);
        options.purpose = Purpose::Mine { printer, spread };
        errors
    }

    fn printer(&mut self, ui: &mut Ui, options: &PackOptions, unit: Unit) -> (Printer, Vec<String>) {
        let as_it_is = (Printer::default(), Vec::new());
        if !self.corrected {
            return as_it_is;
        }
        let Ok((level, upright)) = calibration_bars(options, unit) else { return as_it_is };
        let mut errors = Vec::new();
        ui.label(tr!("What do both bars of the calibration page measure, printed without this?"));
        Grid::new("bars").num_columns(3).spacing([12.0, 6.0]).show(ui, |ui| {
            for (k, (name, should)) in
                [(tr!("Level bar"), level), (tr!("Upright bar"), upright)].into_iter().enumerate()
            {
                let mut length = self.measured[k].unwrap_or(should);
                errors.extend(field(ui, name, &mut length, &mut self.typed[k], unit));
                if length != should {
                    self.measured[k] = Some(length);
                }
                ui.label(tr!("should be {}", unit.print(should)));
                ui.end_row();
            }
        });
        let bars = [(0, level), (1, upright)].map(|(k, should)| (self.measured[k].unwrap_or(should), should));
        let printer = Printer::by_bars(bars[0], bars[1]).unwrap_or_else(|error| {
            errors.push(sentence(&error.to_string()));
            Printer::default()
        });
        (printer, errors)
    }

    /// Without what was typed and could not be read.
    pub(super) fn settled(self) -> Self {
        Self { typed: Default::default(), spread: self.spread.settled(), ..self }
    }
}
