//! The page of today: what to do now, what comes next, what waits; and what to do about what broke.

use super::chapter;
use super::days::{Desk, line, verdict};
use super::planner::{Found, PieceState};
use crate::theme::{Palette, bold};
use egui::{Button, ComboBox, RichText, Ui, WidgetInfo, accesskit::Role};
use gable_bake::Notebook;
use gable_bake::timetable::{Broken, Entry, Mending, when};
use gable_words::tr;

pub(super) fn show(ui: &mut Ui, desk: &Desk<'_>, notebook: &mut Notebook) {
    ui.label(bold(when(desk.now)));
    verdict(ui, desk, notebook);
    let page = desk.days.table.today(desk.now);
    let chapters = page.chapters();
    for (title, entries, none) in [
        (tr!("Now"), &page.now, tr!("Nothing is to be done at this moment.")),
        (tr!("Next"), &page.next, tr!("Nothing is left to be done.")),
        (tr!("Later today"), &page.later, ""),
    ] {
        entries_under(ui, title, (entries, none), desk, notebook);
    }
    // What waits, and where someone could be hurt.
    chapters.iter().skip(3).for_each(|c| chapter(ui, c));
}

fn entries_under(
    ui: &mut Ui,
    title: &str,
    (entries, none): (&[&Entry], &str),
    desk: &Desk<'_>,
    notebook: &mut Notebook,
) {
    if entries.is_empty() && none.is_empty() {
        return;
    }
    ui.add_space(4.0);
    ui.label(bold(title));
    if entries.is_empty() {
        ui.label(none);
    }
    let mut day = desk.now.date();
    for entry in entries {
        if entry.from().date() != day {
            day = entry.from().date();
            ui.label(RichText::new(day.strftime("%A %-d %B").to_string()).small());
        }
        line(ui, entry, desk, notebook);
    }
}

/// A piece that broke: choose it, see what can be done, say which.
pub(super) fn broke(
    ui: &mut Ui,
    chosen: &mut Option<String>,
    (pieces, desk): (&[PieceState], &Desk<'_>),
    ways: Option<Found>,
    notebook: &mut Notebook,
) {
    ui.add_space(8.0);
    ui.label(bold(tr!("Something broke")));
    struck(ui, pieces, desk, notebook);
    let name = |id: &str| pieces.iter().find(|p| p.id == id).map_or_else(|| id.to_owned(), |p| p.name.clone());
    let shown = chosen.as_deref().map_or_else(|| tr!("Which piece?").to_owned(), name);
    let combo = ComboBox::from_id_salt("broke").selected_text(&shown).width(300.0).show_ui(ui, |ui| {
        for piece in pieces.iter().filter(|piece| piece.is_baked) {
            if ui.selectable_label(chosen.as_deref() == Some(&piece.id), &piece.name).clicked() {
                *chosen = Some(piece.id.clone());
            }
        }
        if pieces.iter().all(|piece| !piece.is_baked) {
            ui.label(tr!("Nothing is baked yet by what is ticked off."));
        }
    });
    let spoken = tr!("Piece that broke: {shown}");
    combo.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &spoken));
    let Some(piece) = chosen.clone() else { return };
    let Some(found) = ways else {
        ui.label(tr!("Working out what can be done…"));
        return;
    };
    let ways = match found {
        Some(Ok(ways)) => ways,
        Some(Err(error)) => {
            ui.label(RichText::new(error).color(Palette::of(ui.ctx()).blocking));
            return;
        }
        None => {
            ui.label(tr!("It is not baked yet by what is ticked off, so nothing is lost: cut it anew."));
            return;
        }
    };
    ways.lines.iter().for_each(|line| _ = ui.label(line));
    ui.horizontal(|ui| {
        for (way, words, can) in
            [(Mending::BakeAgain, tr!("Bake it again"), ways.again), (Mending::Mend, tr!("Mend it"), true)]
        {
            if ui.add_enabled(can, Button::new(words)).clicked() {
                let broken = Broken { piece: piece.clone(), at: desk.now, way };
                notebook.build_mut(desk.house).broken.push(broken);
                *chosen = None;
            }
        }
        if ui.button(tr!("It did not break")).clicked() {
            *chosen = None;
        }
    });
}

/// What broke before, to be taken back.
fn struck(ui: &mut Ui, pieces: &[PieceState], desk: &Desk<'_>, notebook: &mut Notebook) {
    let broken = notebook.build(desk.house).map_or_else(Vec::new, |build| build.broken.clone());
    for (k, one) in broken.iter().enumerate() {
        let name = pieces.iter().find(|p| p.id == one.piece).map_or(one.piece.as_str(), |p| p.name.as_str());
        let how = if one.way == Mending::Mend { tr!("is mended") } else { tr!("is baked again") };
        ui.horizontal_wrapped(|ui| {
            ui.label(tr!("{name} broke on {}; it {how}.", when(one.at)));
            let back = ui.button(tr!("Take back"));
            let spoken = tr!("Take back: {name} broke");
            back.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
            if back.clicked() {
                notebook.build_mut(desk.house).broken.remove(k);
            }
        });
    }
}
