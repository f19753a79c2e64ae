use super::Form;
use super::form::NAME_WIDTH;
use crate::adapters;
use egui::{ComboBox, Response, TextEdit, Ui};
use gable_measure::{Length, Pitch};
use gable_words::tr;
use std::ops::RangeInclusive;

impl Form<'_> {
    /// A length, which may be typed as a sum.
    pub(crate) fn length(&mut self, ui: &mut Ui, field: (&str, &str, &str), value: &mut Length) {
        if let Some(new) = self.length_of(ui, field, Some(*value)) {
            *value = new;
        }
    }

    /// A length that several things share; `None` shows that they differ.
    pub(crate) fn length_of(
        &mut self,
        ui: &mut Ui,
        field: (&str, &str, &str),
        value: Option<Length>,
    ) -> Option<Length> {
        let unit = self.unit;
        let shown = value.map_or_else(|| tr!("differs").to_owned(), |v| unit.print(v));
        self.entry(ui, field, &shown, |text| adapters::read_length(text, unit))
    }

    /// A length in the words of a drawing, without anything round it: a field of its own beside the one among the sizes.
    pub(crate) fn on_drawing(
        &mut self,
        ui: &mut Ui,
        (place, name): (&str, &str),
        shown: &str,
        font: egui::FontId,
    ) -> (Response, Option<Length>) {
        let (unit, size) = (self.unit, ui.max_rect().size());
        let read = |text: &str| adapters::read_length(text, unit);
        self.type_in(ui, (place, name), shown, read, |text| {
            let bare = TextEdit::singleline(text).frame(egui::Frame::NONE).margin(egui::Margin::symmetric(4, 0));
            bare.font(font).desired_width(size.x - 8.0).min_size(size).align(egui::Align2::CENTER_CENTER)
        })
    }

    /// A roof pitch: degrees, rise in run, or a ridge height; `None` shows that they differ.
    pub(crate) fn pitch_of(&mut self, ui: &mut Ui, field: (&str, &str, &str), value: Option<Pitch>) -> Option<Pitch> {
        let unit = self.unit;
        let shown = value.map_or_else(|| tr!("differs").to_owned(), |v| v.print(unit));
        self.entry(ui, field, &shown, |text| adapters::read_pitch(text, unit))
    }

    /// A bare number, such as a rise or an angle in degrees.
    pub(crate) fn number(&mut self, ui: &mut Ui, field: (&str, &str, &str), value: &mut f64) {
        let read = |text: &str| {
            let number = text.trim().replace(',', ".").parse::<f64>().ok().filter(|n| n.is_finite());
            number.ok_or_else(|| tr!("'{}' is not a number. Type one such as 1.25.", text.trim()))
        };
        if let Some(new) = self.entry(ui, field, &plain(*value), read) {
            *value = new;
        }
    }

    /// A count between two bounds.
    pub(crate) fn count(
        &mut self,
        ui: &mut Ui,
        field: (&str, &str, &str),
        range: RangeInclusive<u8>,
        value: u8,
    ) -> Option<u8> {
        let (low, high) = (*range.start(), *range.end());
        let read = |text: &str| {
            let number = text.trim().parse::<u8>().ok().filter(|n| range.contains(n));
            number.ok_or_else(|| tr!("'{}' will not do. Type a whole number from {low} to {high}.", text.trim()))
        };
        self.entry(ui, field, &value.to_string(), read)
    }

    /// One line of words.
    pub(crate) fn words(&mut self, ui: &mut Ui, field: (&str, &str, &str), value: &mut String) {
        let shown = value.clone();
        if let Some(new) = self.entry(ui, field, &shown, |text| Ok::<_, String>(text.to_owned())) {
            *value = new;
        }
    }

    /// Several lines of words, under their name.
    pub(crate) fn story(&mut self, ui: &mut Ui, (place, label, name): (&str, &str, &str), value: &mut String) {
        let title = ui.label(label);
        let shown = value.clone();
        let read = |text: &str| Ok::<_, String>(text.to_owned());
        let (response, new) = self.type_in(ui, (place, name), &shown, read, |text| {
            TextEdit::multiline(text).desired_rows(3).desired_width(f32::INFINITY)
        });
        response.labelled_by(title.id);
        if let Some(new) = new {
            *value = new;
        }
    }

    /// One of a few choices.
    pub(crate) fn choice<T: PartialEq + Clone>(
        &mut self,
        ui: &mut Ui,
        (place, label, name): (&str, &str, &str),
        value: &mut T,
        choices: &[(T, String)],
    ) {
        let old = value.clone();
        if fits_beside(ui, choices) {
            self.row(ui, label, |_, ui| combo(ui, place, value, choices));
        } else {
            let name = ui.label(label);
            combo(ui, place, value, choices).labelled_by(name.id);
        }
        if *value != old {
            self.touch(place, name);
        }
        self.remarks(ui, place);
    }

    /// One of many choices, which are looked for only while they are shown; `shown` is what the value is called.
    pub(crate) fn choice_among<T: PartialEq + Clone>(
        &mut self,
        ui: &mut Ui,
        (place, label, name): (&str, &str, &str),
        value: &mut T,
        shown: &str,
        choices: impl FnOnce() -> Vec<(T, String)>,
    ) {
        let old = value.clone();
        let title = ui.label(label);
        let combo =
            ComboBox::from_id_salt(("choice", place)).selected_text(shown).width(ui.available_width()).truncate();
        let shown = combo.show_ui(ui, |ui| {
            for (choice, words) in choices() {
                ui.selectable_value(value, choice, words);
            }
        });
        shown.response.labelled_by(title.id);
        if *value != old {
            self.touch(place, name);
        }
    }

    /// Yes or no.
    pub(crate) fn tick(&mut self, ui: &mut Ui, (place, label, name): (&str, &str, &str), value: &mut bool) {
        if ui.checkbox(value, label).changed() {
            self.touch(place, name);
        }
        self.remarks(ui, place);
    }
}

/// Whether every choice can be read in full beside its name.
fn fits_beside<T>(ui: &Ui, choices: &[(T, String)]) -> bool {
    // Padding on both sides and the arrow.
    const FRAME: f32 = 44.0;
    let font = egui::TextStyle::Button.resolve(ui.style());
    let width =
        |words: &str| ui.painter().layout_no_wrap(words.to_owned(), font.clone(), egui::Color32::BLACK).size().x;
    let room = ui.available_width() - NAME_WIDTH - ui.spacing().item_spacing.x - FRAME;
    choices.iter().all(|(_, words)| width(words) <= room)
}

fn combo<T: PartialEq + Clone>(ui: &mut Ui, place: &str, value: &mut T, choices: &[(T, String)]) -> Response {
    let shown = choices.iter().find(|(v, _)| v == value).map_or(tr!("differs"), |(_, words)| words.as_str());
    ComboBox::from_id_salt(("choice", place))
        .selected_text(shown)
        .width(ui.available_width())
        .truncate()
        .show_ui(ui, |ui| {
            for (choice, words) in choices {
                ui.selectable_value(value, choice.clone(), words.as_str());
            }
        })
        .response
}

/// A number without needless noughts.
fn plain(number: f64) -> String {
    let text = format!("{number:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
