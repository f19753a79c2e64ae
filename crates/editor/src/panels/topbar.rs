use super::house_sizes::units;
use crate::actions::Action;
use crate::theme::bold;
use egui::{Button, ComboBox, MenuBar, Ui};
use gable_measure::Unit;

/// What the bar on top needs to know.
pub(crate) struct TopBar<'a> {
    /// Name of the house.
    pub(crate) title: &'a str,
    /// Whether it has changes that are in no file.
    pub(crate) changed: bool,
    /// Name of what undo would take back.
    pub(crate) undo: Option<&'a str>,
    /// Name of what redo would do again.
    pub(crate) redo: Option<&'a str>,
    /// Whether there is room for more than menus.
    pub(crate) wide: bool,
    /// Whether there is a house at all.
    pub(crate) has_house: bool,
}

/// The bar on top: menus, undo and redo, unit, name of the house. Returns what was asked for.
pub(crate) fn topbar(ui: &mut Ui, bar: &TopBar<'_>, unit: &mut Unit) -> Option<Action> {
    let mut asked = None;
    MenuBar::new().ui(ui, |ui| {
        ui.menu_button("House", |ui| {
            use Action::{Bake, MakePack, New, Open, Quit, Save, SaveAs, Settings, Trays, WriteFiles};
            for action in [New, Open, Save, SaveAs, MakePack, Bake, WriteFiles, Trays, Settings, Quit] {
                item(ui, bar, action, &mut asked);
            }
        });
        ui.menu_button("Edit", |ui| {
            for action in [Action::Undo, Action::Redo, Action::Resize] {
                item(ui, bar, action, &mut asked);
            }
        });
        ui.menu_button("Look", |ui| {
            use Action::{FitTable, FitView, Larger, Smaller, SwitchTheme, UsualSize};
            for action in [FitView, FitTable, SwitchTheme, Larger, Smaller, UsualSize] {
                item(ui, bar, action, &mut asked);
            }
        });
        ui.separator();
        for action in [Action::Undo, Action::Redo] {
            quick(ui, bar, action, &mut asked);
        }
        if bar.wide {
            quick(ui, bar, Action::MakePack, &mut asked);
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if bar.has_house {
                unit_switch(ui, unit);
                ui.separator();
            }
            let mark = if bar.changed { " (not saved)" } else { "" };
            if bar.wide {
                ui.add(egui::Label::new(bold(format!("{}{mark}", bar.title))).truncate());
            }
        });
    });
    asked
}

fn unit_switch(ui: &mut Ui, unit: &mut Unit) {
    let units = units();
    let shown = units.iter().find(|(u, _)| u == unit).map_or("", |(_, words)| words.as_str());
    let inner = ComboBox::from_id_salt("unit switch").selected_text(shown).width(120.0).show_ui(ui, |ui| {
        for (choice, words) in &units {
            ui.selectable_value(unit, *choice, words.as_str());
        }
    });
    let enabled = inner.response.enabled();
    let label = format!("Unit: {shown}");
    inner.response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::ComboBox, enabled, &label));
}

fn label(bar: &TopBar<'_>, action: Action) -> String {
    let name = match action {
        Action::Undo => bar.undo,
        Action::Redo => bar.redo,
        _ => None,
    };
    name.map_or_else(|| action.label().to_owned(), |name| format!("{} {name}", action.label()))
}

fn possible(bar: &TopBar<'_>, action: Action) -> bool {
    match action {
        Action::Undo => bar.undo.is_some(),
        Action::Redo => bar.redo.is_some(),
        Action::Save | Action::SaveAs | Action::MakePack | Action::WriteFiles | Action::Resize => bar.has_house,
        Action::FitView | Action::FitTable | Action::Bake => bar.has_house,
        Action::New | Action::Open | Action::Trays | Action::Settings | Action::Quit => true,
        Action::SwitchTheme | Action::Larger | Action::Smaller | Action::UsualSize => true,
    }
}

fn item(ui: &mut Ui, bar: &TopBar<'_>, action: Action, asked: &mut Option<Action>) {
    let keys = action.shortcuts().first().map(|k| ui.ctx().format_shortcut(k)).unwrap_or_default();
    let button = Button::new(label(bar, action)).shortcut_text(keys);
    if ui.add_enabled(possible(bar, action), button).on_hover_text(action.tip()).clicked() {
        *asked = Some(action);
        ui.close();
    }
}

fn quick(ui: &mut Ui, bar: &TopBar<'_>, action: Action, asked: &mut Option<Action>) {
    let tip = match action {
        Action::Undo | Action::Redo => format!("{}: {}", label(bar, action), action.tooltip(ui.ctx())),
        _ => action.tooltip(ui.ctx()),
    };
    let button = ui.add_enabled(possible(bar, action), Button::new(action.label()));
    if button.on_hover_text(tip).clicked() {
        *asked = Some(action);
    }
}
