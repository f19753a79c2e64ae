use super::length::{Typed, field};
use crate::adapters::sentence;
use egui::{ComboBox, Grid, Ui, WidgetInfo, accesskit::Role};
use gable_export::Paper;
use gable_measure::{Length, Unit};
use gable_words::tr;

/// The paper that is chosen, with what is typed for one of another size.
#[derive(Clone, Debug)]
pub(crate) struct PaperChoice {
    kind: Kind,
    sides: [Length; 2],
    typed: [Typed; 2],
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Named(Paper),
    Size,
    Roll,
}

impl Default for PaperChoice {
    fn default() -> Self {
        Self::of(Paper::A4)
    }
}

impl PaperChoice {
    /// This paper.
    pub(crate) fn of(paper: Paper) -> Self {
        let (width, height) = paper.size();
        let kind = match paper {
            Paper::Custom { .. } => Kind::Size,
            Paper::Roll { .. } => Kind::Roll,
            named => Kind::Named(named),
        };
        Self { kind, sides: [width, height], typed: Default::default() }
    }

    /// A list of papers, and fields where none of them will do. Gives what is wrong.
    pub(crate) fn show(&mut self, ui: &mut Ui, paper: &mut Paper, unit: Unit) -> Vec<String> {
        let chosen = match self.kind {
            Kind::Named(paper) => words_of(paper, unit),
            Kind::Size => tr!("Another size").to_owned(),
            Kind::Roll => tr!("From a roll").to_owned(),
        };
        let list = ComboBox::from_id_salt("paper")
            .selected_text(chosen.clone())
            .width(ui.available_width() - 8.0)
            .height(400.0);
        let label = tr!("Paper: {chosen}");
        let inner = list.show_ui(ui, |ui| {
            for named in Paper::ALL {
                ui.selectable_value(&mut self.kind, Kind::Named(named), words_of(named, unit));
            }
            ui.selectable_value(&mut self.kind, Kind::Size, tr!("Another size"));
            ui.selectable_value(&mut self.kind, Kind::Roll, tr!("From a roll"));
        });
        inner.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &label));
        let names: &[&str] = match self.kind {
            Kind::Named(named) => {
                *paper = named;
                return Vec::new();
            }
            Kind::Size => &[tr!("Width of the paper"), tr!("Height of the paper")],
            Kind::Roll => &[tr!("Width of the roll")],
        };
        let mut errors = Vec::new();
        Grid::new("paper size").num_columns(2).spacing([12.0, 6.0]).show(ui, |ui| {
            for (k, name) in names.iter().enumerate() {
                errors.extend(field(ui, name, &mut self.sides[k], &mut self.typed[k], unit));
                ui.end_row();
            }
        });
        let made = match self.kind {
            Kind::Roll => Paper::roll(self.sides[0], unit),
            _ => Paper::custom(self.sides[0], self.sides[1], unit),
        };
        match made {
            Ok(made) => *paper = made,
            Err(error) => errors.push(sentence(&error.to_string())),
        }
        errors
    }

    /// Without what was typed and could not be read.
    pub(super) fn settled(self) -> Self {
        Self { typed: Default::default(), ..self }
    }
}

fn words_of(paper: Paper, unit: Unit) -> String {
    let (width, height) = paper.size();
    let size = format!("{} × {}", unit.print_bare(width), unit.print(height));
    match paper {
        Paper::A4AndLetter => tr!("A4 or Letter: pages that fit on both, {size}"),
        named => format!("{named}, {size}"),
    }
}
