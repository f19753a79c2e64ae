//! How many are made of which houses, and how far they are taken.

use super::BakeAsked;
use super::drafts::{Drafts, whole};
use egui::{ComboBox, Ui, WidgetInfo, accesskit::Role};
use gable_bake::notebook::title;
use gable_bake::timetable::{Build, Other};
use gable_bake::{HandOver, Lots, Notebook};
use gable_shell::{House, demo};
use gable_words::tr;
use std::path::Path;

pub(super) fn show(ui: &mut Ui, house: &House, notebook: &mut Notebook, drafts: &mut Drafts) -> BakeAsked {
    let fresh = Build::new("");
    let known = notebook.build(house).unwrap_or(&fresh).clone();
    let mut changed = known.clone();
    count(ui, title(house), tr!("How many houses"), &mut changed.copies, drafts);
    let mut away = None;
    for (k, other) in changed.others.iter_mut().enumerate() {
        let name = shown(&other.house);
        ui.horizontal(|ui| {
            count(ui, &name, &tr!("How many of house {}", k + 2), &mut other.copies, drafts);
            let strike = ui.button(tr!("Remove")).on_hover_text(&other.house);
            let spoken = tr!("Do not bake {name} with it");
            strike.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
            if strike.clicked() {
                away = Some(k);
            }
        });
    }
    if let Some(k) = away {
        changed.others.remove(k);
        (k..=changed.others.len()).for_each(|k| drafts.drop_one(&tr!("How many of house {}", k + 2)));
    }
    let asked = another(ui, &mut changed.others);
    hand_over(ui, &mut changed.until);
    if changed != known {
        let build = notebook.build_mut(house);
        *build = Build { house: build.house.clone(), ..changed };
    }
    before(ui, house, notebook);
    asked
}

/// Offers a house that was renamed since it was opened to go on with its bake.
pub(super) fn renamed(ui: &mut Ui, house: &House, former: &str, notebook: &mut Notebook) {
    if former == title(house) || !notebook.bakes_before(house).contains(&former) {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.label(tr!("When this house was called {former}, its bake was planned{}.", done(notebook, former)));
        let carry =
            ui.button(tr!("Go on with that bake")).on_hover_text(tr!("Otherwise a new one begins under the new name"));
        if carry.clicked() {
            notebook.carry_over(former, house);
        }
    });
}

/// How much of a bake is done.
fn done(notebook: &Notebook, title: &str) -> String {
    let build = notebook.builds.iter().find(|build| build.house == title);
    match build.map_or(0, |build| build.log.ticks.len()) {
        0 => String::new(),
        1 => tr!(", and 1 task is done").to_owned(),
        count => tr!(", and {count} tasks are done"),
    }
}

/// Goes on with the bake of a house that was called otherwise before.
fn before(ui: &mut Ui, house: &House, notebook: &mut Notebook) {
    let all: Vec<String> = notebook.bakes_before(house).into_iter().map(str::to_owned).collect();
    if all.is_empty() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(tr!("Or go on with what was planned under another name"));
        let combo = ComboBox::from_id_salt("bake before").selected_text(tr!("Which?")).width(220.0).show_ui(ui, |ui| {
            for from in &all {
                if ui.selectable_label(false, format!("{from}{}", done(notebook, from))).clicked() {
                    notebook.carry_over(from, house);
                }
            }
        });
        let spoken = tr!("Go on with a bake under another name");
        combo.response.labelled_by(label.id).widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, spoken));
    });
}

fn count(ui: &mut Ui, title: &str, name: &str, copies: &mut usize, drafts: &mut Drafts) {
    ui.horizontal(|ui| {
        let most = u32::try_from(Build::MOST_COPIES).unwrap_or(u32::MAX);
        let text = copies.to_string();
        if let Some(count) = drafts.field(ui, name, (&text, 50.0), |text| whole(text, (1, most))) {
            *copies = count as usize;
        }
        ui.label(format!("× {title}"));
    });
}

/// What a house is called by the name it is found by: that of its file without its ending, or its title where it is built in.
fn shown(house: &str) -> String {
    let built_in = demo::house(house).filter(|_| !Path::new(house).is_file());
    let file = || Path::new(house).file_name().map_or(house.to_owned(), |name| name.to_string_lossy().into_owned());
    built_in.map_or_else(
        || file().trim_end_matches(".json").trim_end_matches(".house").to_owned(),
        |own| title(&own).to_owned(),
    )
}

/// Another house, from a file or of those that are built in.
fn another(ui: &mut Ui, others: &mut Vec<Other>) -> BakeAsked {
    let mut asked = BakeAsked::Nothing;
    if others.len() + 1 >= Lots::MOST {
        ui.label(tr!("No more houses can be baked together."));
        return asked;
    }
    ui.horizontal_wrapped(|ui| {
        if ui.button(tr!("Bake another house with it…")).clicked() {
            asked = BakeAsked::Another;
        }
        let combo = ComboBox::from_id_salt("another house").selected_text(tr!("or one that is built in")).width(180.0);
        let combo = combo.show_ui(ui, |ui| {
            for name in demo::names() {
                if ui.selectable_label(false, shown(name)).clicked() {
                    others.push(Other { house: name.to_owned(), copies: 1 });
                }
            }
        });
        let spoken = tr!("Bake a house that is built in with it");
        combo.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, spoken));
    });
    asked
}

fn hand_over(ui: &mut Ui, until: &mut HandOver) {
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(tr!("Handed over as"));
        let combo = ComboBox::from_id_salt("hand over").selected_text(until.words()).width(320.0).show_ui(ui, |ui| {
            for own in HandOver::ALL.into_iter().rev() {
                ui.selectable_value(until, own, own.words());
            }
        });
        let spoken = tr!("Handed over as: {}", until.words());
        combo.response.labelled_by(label.id).widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &spoken));
    });
}
