use super::house_sizes::units;
use crate::actions::{Action, Group};
use crate::theme::bold;
use egui::{Button, ComboBox, MenuBar, ScrollArea, Ui};
use gable_measure::Unit;
use gable_words::tr;

/// Less than this shows nothing of a title but dots, in points.
const ROOM_FOR_TITLE: f32 = 100.0;

/// The bar over a menu and the rim of it, in points.
const ROUND_MENUS: f32 = 64.0;

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
    /// Names of what can be taken back, the last thing first.
    pub(crate) done: Vec<&'a str>,
    /// Names of what can be done again, the next thing first.
    pub(crate) undone: Vec<&'a str>,
    /// What is switched on.
    pub(crate) on: Vec<Action>,
    /// What there is nothing for at the moment.
    pub(crate) idle: Vec<Action>,
    /// Whether there is room for more than menus.
    pub(crate) wide: bool,
    /// Whether there is a house at all.
    pub(crate) has_house: bool,
}

/// The bar on top: menus, undo and redo, unit, name of the house. Returns what was asked for; `steps` are those of the
/// history that are taken back (below zero) or done again.
pub(crate) fn topbar(ui: &mut Ui, bar: &TopBar<'_>, unit: &mut Unit, steps: &mut isize) -> Option<Action> {
    let mut asked = None;
    MenuBar::new().ui(ui, |ui| {
        for group in Group::ALL {
            ui.menu_button(group.name(), |ui| {
                // Large text makes menus longer than the window is high.
                let high = (ui.ctx().content_rect().height() - ROUND_MENUS).max(120.0);
                ScrollArea::vertical().max_height(high).min_scrolled_height(high).show(ui, |ui| {
                    // The bar beside what scrolls takes room that words would have had.
                    ui.style_mut().wrap_mode = Some(egui::TextWrapMode::Extend);
                    for action in group.actions() {
                        if Group::parts_before(action) {
                            ui.separator();
                        }
                        item(ui, bar, action, &mut asked);
                    }
                    if group == Group::Edit {
                        history(ui, bar, steps);
                    }
                });
            });
        }
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
            let mark = if bar.changed { tr!(" (not saved)") } else { "" };
            // What is left of a title that finds no room says nothing; the window has it, too.
            if bar.wide && ui.available_width() > ROOM_FOR_TITLE {
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
    let label = tr!("Unit: {shown}");
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
        _ => (bar.has_house || !action.needs_house()) && !bar.idle.contains(&action),
    }
}

/// So many steps are listed.
const LISTED: usize = 12;

/// What was done and can be taken back, or done again, in one go.
fn history(ui: &mut Ui, bar: &TopBar<'_>, steps: &mut isize) {
    let listed = |ui: &mut Ui, words: &str, names: &[&str], way: isize| {
        if names.is_empty() {
            return None;
        }
        ui.separator();
        ui.label(words);
        let mut chosen = None;
        for (k, name) in names.iter().take(LISTED).enumerate() {
            if ui.button(format!("{}. {name}", k + 1)).clicked() {
                chosen = Some(way * (k as isize + 1));
                ui.close();
            }
        }
        chosen
    };
    let back = listed(ui, tr!("Take back, up to and with"), &bar.done, -1);
    *steps = back.or(listed(ui, tr!("Do again, up to and with"), &bar.undone, 1)).unwrap_or(*steps);
}

fn item(ui: &mut Ui, bar: &TopBar<'_>, action: Action, asked: &mut Option<Action>) {
    let keys = action.key_names(ui.ctx()).into_iter().next().unwrap_or_default();
    let button = Button::new(label(bar, action)).shortcut_text(keys).selected(bar.on.contains(&action));
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
