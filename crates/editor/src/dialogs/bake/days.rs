//! The timetable: drawn over all days, and day by day to be ticked off.

use super::drafts::{Drafts, number};
use super::hours::{moment, said};
use super::planner::Days;
use super::{BakeAsked, picture};
use crate::theme::{Palette, bold};
use egui::{RichText, Ui};
use gable_bake::notebook::Moment;
use gable_bake::timetable::{Entry, Person, Task, TaskKind};
use gable_bake::{BakePlan, Notebook};
use gable_measure::decimal;
use gable_shell::House;
use gable_words::tr;
use jiff::civil::DateTime;

/// What everything is ticked off by.
pub(super) struct Desk<'d> {
    pub(super) house: &'d House,
    pub(super) plan: &'d BakePlan,
    pub(super) days: &'d Days,
    pub(super) now: DateTime,
}

pub(super) fn show(ui: &mut Ui, desk: &Desk<'_>, notebook: &mut Notebook, drafts: &mut Drafts) -> BakeAsked {
    let table = &desk.days.table;
    verdict(ui, desk, notebook);
    ui.add_space(6.0);
    if let Some(chart) = table.chart(&desk.days.work.ask, f64::from(ui.available_width()) / 4.4) {
        picture(ui, &chart, ui.available_width(), tr!("Chart of all days: dark is work, pale is waiting"));
    }
    let mut asked = BakeAsked::Nothing;
    ui.horizontal(|ui| {
        if ui.button(tr!("Save as a calendar…")).on_hover_text(tr!("For the calendar of a phone or computer")).clicked()
        {
            asked = BakeAsked::Calendar;
        }
        if ui.button(tr!("Save as a table…")).on_hover_text(tr!("For spreadsheets (CSV)")).clicked() {
            asked = BakeAsked::Table;
        }
    });
    ui.add_space(6.0);
    done(ui, desk, notebook, drafts);
    ui.label(tr!("Tick off what is done; the rest is then planned anew. What waits needs no tick."));
    for day in table.entries.chunk_by(|a, b| a.from().date() == b.from().date()) {
        let Some(first) = day.first() else { continue };
        ui.add_space(4.0);
        ui.label(bold(first.from().strftime("%A %-d %B").to_string()));
        for entry in day {
            line(ui, entry, desk, notebook);
        }
    }
    asked
}

/// Whether it is done in time, and what would help.
pub(super) fn verdict(ui: &mut Ui, desk: &Desk<'_>, notebook: &Notebook) {
    let table = &desk.days.table;
    let palette = Palette::of(ui.ctx());
    for (k, line) in table.verdict().into_iter().enumerate() {
        let late = k == 0 && table.trouble.is_some();
        let line = RichText::new(line);
        ui.label(if late { line.color(palette.blocking).strong() } else { line });
    }
    if notebook.people.is_empty() {
        ui.label(tr!("Hours taken as: {}. Say under 'Who and when' who really helps.", Person::usual()));
    }
}

/// A task with its box, or what waits.
pub(super) fn line(ui: &mut Ui, entry: &Entry, desk: &Desk<'_>, notebook: &mut Notebook) {
    if !is_ticked(entry.kind) {
        ui.label(RichText::new(entry.line()).color(Palette::of(ui.ctx()).faint_ink));
        return;
    }
    let mut is_done = false;
    let words = entry.line();
    let words = if entry.slack == Some(0) { tr!("{words}; cannot begin later") } else { words };
    if ui.checkbox(&mut is_done, words).changed()
        && let Some(task) = task(desk, &entry.id)
    {
        let moment = Moment { done: Some(desk.now), minutes: None, kitchen: Some(entry.kitchen) };
        notebook.tick(desk.house, task, moment, &desk.plan.ovenfuls);
    }
}

fn task<'d>(desk: &'d Desk<'_>, id: &str) -> Option<&'d Task> {
    desk.days.work.tasks.iter().find(|task| task.id == id)
}

/// Work is ticked off, and what somebody watches over; other waits end by themselves.
fn is_ticked(kind: TaskKind) -> bool {
    !kind.is_wait() || matches!(kind, TaskKind::Bake | TaskKind::Melt)
}

/// What is done, with the minutes that it took.
fn done(ui: &mut Ui, desk: &Desk<'_>, notebook: &mut Notebook, drafts: &mut Drafts) {
    let ticks = notebook.build(desk.house).map_or_else(Vec::new, |build| build.log.ticks.clone());
    if ticks.is_empty() {
        return;
    }
    egui::CollapsingHeader::new(bold(tr!("Done: {}", ticks.len()))).id_salt("done").default_open(true).show(ui, |ui| {
        ui.label(tr!("The minutes that tasks really took teach the program how long the next ones take you."));
        for tick in &ticks {
            let task = task(desk, &tick.id);
            let name = task.map_or(tick.id.as_str(), |task| task.name.as_str()).to_owned();
            ui.horizontal_wrapped(|ui| {
                let mut is_done = tick.done.is_some();
                if ui.checkbox(&mut is_done, &name).changed() {
                    notebook.take_back(desk.house, &tick.id, &desk.plan.ovenfuls);
                    return;
                }
                let Some(task) = task else { return };
                ui.label(tr!("a time" => "at"));
                let shown = tick.done.map_or_else(String::new, said);
                let at = drafts.field(ui, &tr!("When done: {name}"), (&shown, 130.0), moment);
                ui.label(tr!("a time" => "took"));
                let shown = tick.minutes.map_or_else(String::new, |m| decimal(m, 0));
                let read = |text: &str| match text.trim() {
                    "" => Ok(None),
                    text => number(text).and_then(|m| {
                        if (0.0..=10_000.0).contains(&m) { Ok(Some(m)) } else { Err(tr!("Give minutes.").to_owned()) }
                    }),
                };
                let took = drafts.field(ui, &tr!("Minutes taken: {name}"), (&shown, 44.0), read);
                ui.label("min");
                if at.is_some() || took.is_some() {
                    let (done, minutes) = (at.or(tick.done), took.unwrap_or(tick.minutes));
                    let moment = Moment { done, minutes, kitchen: tick.kitchen };
                    notebook.tick(desk.house, task, moment, &desk.plan.ovenfuls);
                }
            });
        }
    });
    ui.add_space(6.0);
}
