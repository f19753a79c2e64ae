use super::asking;
use super::pack::{PaperChoice, Typed, field};
use crate::panels::units;
use crate::person::{Look, Settings, TEXT_SIZES};
use crate::theme::{Palette, bold};
use egui::{ComboBox, Context, Grid, Ui, WidgetInfo, accesskit::Role};
use gable_measure::Unit;
use gable_words::tr;

/// Settings as they are being chosen. They count at once.
#[derive(Clone, Debug)]
pub(crate) struct SettingsChoice {
    pub(crate) settings: Settings,
    paper: PaperChoice,
    rolled: Typed,
}

/// What the person said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Heard {
    /// It is done.
    Done,
    /// Go on to the kitchen.
    Kitchen,
}

impl SettingsChoice {
    /// As they are.
    pub(crate) fn of(settings: &Settings) -> Self {
        Self { settings: settings.clone(), paper: PaperChoice::of(settings.paper), rolled: None }
    }

    /// What new houses begin with, and what is wrong with it.
    pub(super) fn begins(&mut self, ui: &mut Ui) -> Vec<String> {
        let mut wrong = Vec::new();
        Grid::new("begins").num_columns(2).spacing([12.0, 8.0]).show(ui, |ui| {
            ui.label(tr!("Unit"));
            unit(ui, &mut self.settings.unit);
            ui.end_row();
            ui.label(tr!("Paper"));
            ui.vertical(|ui| {
                ui.set_max_width(300.0);
                wrong.extend(self.paper.show(ui, &mut self.settings.paper, self.settings.unit));
            });
            ui.end_row();
            wrong.extend(field(
                ui,
                tr!("Dough rolled to"),
                &mut self.settings.rolled,
                &mut self.rolled,
                self.settings.unit,
            ));
            ui.end_row();
        });
        wrong.extend(self.settings.unlikely());
        for words in &wrong {
            ui.colored_label(Palette::of(ui.ctx()).blocking, words);
        }
        wrong
    }
}

fn unit(ui: &mut Ui, unit: &mut Unit) {
    let units = units();
    let shown = units.iter().find(|(u, _)| u == unit).map_or("", |(_, words)| words.as_str());
    let list = ComboBox::from_id_salt("usual unit").selected_text(shown).width(180.0);
    let inner = list.show_ui(ui, |ui| {
        for (choice, words) in &units {
            ui.selectable_value(unit, *choice, words.as_str());
        }
    });
    let label = tr!("Usual unit: {shown}");
    inner.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &label));
}

/// Shows the settings; what is chosen counts at once as far as it can be.
pub(crate) fn settings(ctx: &Context, choice: &mut SettingsChoice, languages: &[(&str, &str)]) -> Option<Heard> {
    let mut answer = None;
    let modal = asking(ctx, "settings").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 480.0));
        ui.heading(tr!("Settings"));
        let tall = (room.y - 170.0).max(120.0);
        egui::ScrollArea::vertical().max_height(tall).auto_shrink([false, true]).show(ui, |ui| {
            ui.label(bold(tr!("New houses begin with")));
            choice.begins(ui);
            ui.label(tr!("Houses that are there already keep their own unit and dough."));
            ui.add_space(8.0);
            ui.separator();
            ui.label(bold(tr!("How the window looks")));
            looks(ui, &mut choice.settings);
            language(ui, &mut choice.settings.language, languages);
            ui.add_space(8.0);
            ui.separator();
            ui.label(tr!("Your name, trays and tools are under 'Your kitchen'."));
        });
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            answer = ui.button(tr!("Done")).clicked().then_some(Heard::Done);
            answer = answer.or(ui.button(tr!("Your kitchen…")).clicked().then_some(Heard::Kitchen));
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(Heard::Done));
    }
    answer
}

/// The language of the window, each by its own name.
fn language(ui: &mut Ui, language: &mut Option<String>, languages: &[(&str, &str)]) {
    ui.horizontal(|ui| {
        ui.label(tr!("Language"));
        let system = tr!("As the system");
        let all = [("en", "English")].into_iter().chain(languages.iter().copied());
        let name =
            |code: &str| all.clone().find(|(own, _)| *own == code).map_or_else(|| code.to_owned(), |l| l.1.to_owned());
        let shown = language.as_deref().map_or_else(|| system.to_owned(), name);
        let inner = ComboBox::from_id_salt("language").selected_text(&shown).show_ui(ui, |ui| {
            ui.selectable_value(language, None, system);
            for (code, name) in all.clone() {
                ui.selectable_value(language, Some(code.to_owned()), name);
            }
        });
        let label = tr!("Language: {shown}");
        inner.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &label));
    });
}

fn looks(ui: &mut Ui, settings: &mut Settings) {
    ui.horizontal_wrapped(|ui| {
        for (look, words) in
            [(Look::System, tr!("As the system")), (Look::Light, tr!("Light")), (Look::Dark, tr!("Dark"))]
        {
            ui.radio_value(&mut settings.look, look, words);
        }
    });
    ui.horizontal(|ui| {
        ui.label(tr!("Size of text"));
        let shown = format!("{} %", settings.text);
        let inner = ComboBox::from_id_salt("size of text").selected_text(&shown).show_ui(ui, |ui| {
            for size in TEXT_SIZES {
                ui.selectable_value(&mut settings.text, size, format!("{size} %"));
            }
        });
        let label = tr!("Size of text: {shown}");
        inner.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &label));
    });
    let tip = tr!("Lists and menus appear at once");
    ui.checkbox(&mut settings.still, tr!("Nothing moves by itself")).on_hover_text(tip);
}
