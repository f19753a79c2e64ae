use super::pack::{Typed, field};
use super::settings::SettingsChoice;
use super::{asking, body};
use crate::person::Settings;
use crate::theme::Palette;
use egui::{Button, ComboBox, Context, Grid, Ui, WidgetInfo, accesskit::Role};
use gable_measure::{Length, Unit};
use gable_shell::kitchen::Tray;
use gable_words::tr;

/// The four questions of the first start.
#[derive(Clone, Debug)]
pub(crate) struct FirstChoice {
    choice: SettingsChoice,
    tray: Pick,
    sides: [Length; 2],
    typed: [Typed; 2],
}

/// The largest tray there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Pick {
    /// Nobody has looked.
    Unknown,
    /// One that many people have, by number.
    Usual(usize),
    /// Another.
    Size,
}

/// What the person said: settings and a tray, or not now.
pub(crate) type Told = Option<(Settings, Option<Tray>)>;

impl FirstChoice {
    /// Before anything is said.
    pub(crate) fn of(settings: &Settings) -> Self {
        let sides = [Length::mm_of(400.0), Length::mm_of(300.0)];
        Self { choice: SettingsChoice::of(settings), tray: Pick::Unknown, sides, typed: Default::default() }
    }

    fn tray(&self) -> Option<Tray> {
        match self.tray {
            Pick::Unknown => None,
            Pick::Usual(k) => Tray::usual().get(k).cloned(),
            Pick::Size => {
                let [width, depth] = self.sides;
                Some(Tray { name: tr!("My tray").to_owned(), width, depth })
            }
        }
    }

    /// The list of trays, and fields for one that is not in it; what is wrong.
    fn trays(&mut self, ui: &mut Ui) -> Vec<String> {
        let unit = self.choice.settings.unit;
        let usual = Tray::usual();
        let shown = match self.tray {
            Pick::Unknown => tr!("I have not measured it yet").to_owned(),
            Pick::Usual(k) => usual.get(k).map_or_else(String::new, |t| words(t, unit)),
            Pick::Size => tr!("Another size").to_owned(),
        };
        let label = tr!("Largest tray: {shown}");
        let list = ComboBox::from_id_salt("largest tray").selected_text(shown).width(292.0);
        let inner = list.show_ui(ui, |ui| {
            ui.selectable_value(&mut self.tray, Pick::Unknown, tr!("I have not measured it yet"));
            for (k, tray) in usual.iter().enumerate() {
                ui.selectable_value(&mut self.tray, Pick::Usual(k), words(tray, unit));
            }
            ui.selectable_value(&mut self.tray, Pick::Size, tr!("Another size"));
        });
        inner.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &label));
        let mut wrong = Vec::new();
        if self.tray == Pick::Size {
            Grid::new("tray size").num_columns(2).spacing([12.0, 6.0]).show(ui, |ui| {
                for (k, name) in [tr!("Width inside"), tr!("Depth inside")].into_iter().enumerate() {
                    wrong.extend(field(ui, name, &mut self.sides[k], &mut self.typed[k], unit));
                    ui.end_row();
                }
            });
            if self.sides.iter().any(|s| *s < Tray::SMALLEST || *s > Tray::LARGEST) {
                let (least, most) = (unit.print(Tray::SMALLEST), unit.print(Tray::LARGEST));
                wrong.push(tr!("A tray is between {least} and {most} on each side."));
            }
        }
        wrong
    }
}

fn words(tray: &Tray, unit: Unit) -> String {
    format!("{}, {} × {}", tray.name, unit.print_bare(tray.width), unit.print(tray.depth))
}

/// Asks the four questions.
pub(crate) fn first(ctx: &Context, choice: &mut FirstChoice) -> Option<Told> {
    let mut answer = None;
    let modal = asking(ctx, "first").show(ctx, |ui| {
        ui.set_width((ctx.content_rect().width() - 80.0).clamp(260.0, 460.0));
        ui.heading(tr!("Welcome to your kitchen"));
        let wrong = body(ui, |ui| {
            ui.label(tr!(
                "Four things, so that new houses fit your paper and your oven. All of it can be changed later under House."
            ));
            ui.add_space(8.0);
            let mut wrong = choice.choice.begins(ui);
            ui.add_space(4.0);
            ui.label(tr!("The largest tray that goes into your oven"));
            let trays = choice.trays(ui);
            for words in &trays {
                ui.colored_label(Palette::of(ui.ctx()).blocking, words);
            }
            wrong.extend(trays);
            wrong
        });
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            if ui.add_enabled(wrong.is_empty(), Button::new(tr!("Keep this"))).clicked() {
                answer = Some(Some((choice.choice.settings.clone(), choice.tray())));
            }
            if ui
                .button(tr!("Later"))
                .on_hover_text(tr!("Millimetres, A4 and dough of 1/4 in until you say otherwise"))
                .clicked()
            {
                answer = Some(None);
            }
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(None));
    }
    answer
}
