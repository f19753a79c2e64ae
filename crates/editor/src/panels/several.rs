//! What can be done with several things that are selected at once.

use crate::actions::Action;
use crate::fields::Form;
use crate::selection::Selection;
use crate::several::{Line, Space, count_words};
use crate::table::Member;
use egui::{Button, Ui, WidgetInfo, accesskit::Role};
use gable_measure::Length;
use gable_plane::V2;
use gable_shell::House;
use gable_words::tr;

/// Moves all by typed lengths, lines them up, spaces them, takes them away. Returns what was asked for.
pub(crate) fn several(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, held: &[Member]) -> Option<Action> {
    let names: Vec<Selection> = held.iter().map(|m| m.what.clone()).collect();
    let lead = names.first()?;
    let words = tr!("Line up with {}:", crate::layout::name_of(lead, house));
    let mut asked = None;
    go(ui, form, house, held);
    ui.add_space(6.0);
    ui.label(words);
    let mut row = |ui: &mut Ui, actions: &[(Action, &str)]| {
        ui.horizontal_wrapped(|ui| {
            for (action, words) in actions {
                let button = ui.add(Button::new(*words)).on_hover_text(action.tooltip(ui.ctx()));
                // Alone, words such as 'Middles' would not say enough.
                let whole = if *action == Action::Remove { words } else { action.label() };
                button.widget_info(|| WidgetInfo::labeled(Role::Button, true, whole));
                if button.clicked() {
                    asked = Some(*action);
                }
            }
        });
    };
    let line = Action::LineUp;
    row(
        ui,
        &[
            (line(Line::Left), tr!("Left edges")),
            (line(Line::Middle), tr!("Middles")),
            (line(Line::Right), tr!("Right edges")),
        ],
    );
    row(
        ui,
        &[
            (line(Line::Lower), tr!("Lower edges")),
            (line(Line::Level), tr!("Middles")),
            (line(Line::Upper), tr!("Upper edges")),
        ],
    );
    ui.add_space(6.0);
    ui.label(tr!("Equal spaces:"));
    let space = Action::Space;
    row(
        ui,
        &[
            (space(Space::Across), tr!("Across")),
            (space(Space::Upwards), tr!("Upwards")),
            (space(Space::Ends), tr!("Over the whole wall")),
        ],
    );
    ui.add_space(6.0);
    let remove = tr!("Remove {}", count_words(&names));
    row(ui, &[(Action::Remove, remove.as_str())]);
    asked
}

/// Moves all of it by what is typed.
fn go(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, held: &[Member]) {
    for (key, label, axis) in [("right", tr!("All to the right by"), V2::x()), ("up", tr!("All up by"), V2::y())] {
        if !held.iter().all(|m| m.can_go(axis)) {
            continue;
        }
        let place = format!("several.{key}");
        let typed = form.length_of(ui, (&place, label, tr!("move of what is selected")), Some(Length::ZERO));
        let Some(by) = typed else { continue };
        for member in crate::table::movers(held, house) {
            if let Some(now) = member.numbers(house) {
                member.put(house, now + member.growth(axis * by.mm()));
            }
        }
    }
}
