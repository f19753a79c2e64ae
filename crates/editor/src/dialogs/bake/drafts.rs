//! Fields in which something is typed that is read as one types.

use crate::adapters::read_length;
use crate::theme::Palette;
use egui::{Align2, RichText, TextEdit, Ui};
use gable_bake::Mass;
use gable_measure::{Length, Unit, decimal};
use gable_words::tr;
use std::collections::BTreeMap;

/// What is typed in which field, where it is not just what is kept.
#[derive(Clone, Debug, Default)]
pub(crate) struct Drafts(BTreeMap<String, String>);

impl Drafts {
    /// A field with a name for those who do not see it; `shown` is what is kept. Gives what was typed, if it has changed and
    /// can be read; else it says below why not, and what is kept stays.
    pub(crate) fn field<T>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        (shown, width): (&str, f32),
        read: impl Fn(&str) -> Result<T, String>,
    ) -> Option<T> {
        let mut text = self.0.get(name).map_or(shown, String::as_str).to_owned();
        let edit = TextEdit::singleline(&mut text).desired_width(width).align(Align2::LEFT_CENTER);
        let field = ui.add(edit);
        ui.ctx().accesskit_node_builder(field.id, |node| node.set_label(name));
        let read = read(&text);
        if field.changed() {
            self.0.insert(name.to_owned(), text);
        }
        match read {
            Ok(value) => {
                if !field.has_focus() {
                    self.0.remove(name);
                }
                field.changed().then_some(value)
            }
            Err(error) => {
                if self.0.contains_key(name) {
                    let error = RichText::new(error).color(Palette::of(ui.ctx()).blocking);
                    ui.label(error);
                }
                None
            }
        }
    }

    /// What is typed in fields whose names hold some words counts no more.
    pub(super) fn drop_all(&mut self, words: &str) {
        self.0.retain(|name, _| !name.contains(words));
    }

    /// What is typed in a field counts no more.
    pub(super) fn drop_one(&mut self, name: &str) {
        self.0.remove(name);
    }
}

/// A number, with a comma or a point.
pub(super) fn number(text: &str) -> Result<f64, String> {
    let read = text.trim().replace(',', ".").parse::<f64>().ok().filter(|n| n.is_finite());
    read.ok_or_else(|| tr!("Give a number.").to_owned())
}

/// A whole number from one to another.
pub(super) fn whole(text: &str, (least, most): (u32, u32)) -> Result<u32, String> {
    let read = text.trim().parse::<u32>().ok().filter(|n| (least..=most).contains(n));
    read.ok_or_else(|| tr!("Give a whole number from {least} to {most}."))
}

/// A field for a length; empty for none.
pub(crate) fn length(ui: &mut Ui, name: &str, value: &mut Length, drafts: &mut Drafts, unit: Unit) {
    let shown = if value.mm() > 0.0 { unit.print(*value) } else { String::new() };
    let read = |text: &str| if text.trim().is_empty() { Ok(Length::mm_of(0.0)) } else { read_length(text, unit) };
    ui.vertical(|ui| {
        if let Some(length) = drafts.field(ui, name, (&shown, 90.0), read) {
            *value = length;
        }
    });
}

/// A field for a mass; empty for none.
pub(crate) fn mass(ui: &mut Ui, name: &str, value: &mut Option<Mass>, drafts: &mut Drafts, unit: Unit) {
    let ounces = matches!(unit, Unit::Inch(_));
    let per = if ounces { Mass::OUNCE.g() } else { 1.0 };
    let shown = value.map_or_else(String::new, |m| decimal(m.g() / per, 1));
    let read = |text: &str| {
        let plain = text.trim().trim_end_matches(if ounces { "oz" } else { "g" });
        if plain.is_empty() { Ok(None) } else { number(plain).map(|n| Some(Mass::grams(n * per))) }
    };
    ui.horizontal(|ui| {
        if let Some(mass) = drafts.field(ui, name, (&shown, 70.0), read) {
            *value = mass;
        }
        ui.label(if ounces { "oz" } else { "g" });
    });
}
