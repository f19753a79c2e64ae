//! By when, for how many, who helps when, and in which kitchens.

use super::drafts::{Drafts, whole};
use super::{BakeAsked, lots};
use crate::adapters::sentence;
use crate::theme::bold;
use egui::{Grid, Ui, WidgetInfo, accesskit::Role};
use gable_bake::Notebook;
use gable_bake::timetable::{BETWEEN, Build, Person, Times, Workplace};
use gable_shell::House;
use gable_words::tr;
use jiff::civil::{Date, DateTime, Time};

pub(super) fn show(ui: &mut Ui, house: &House, notebook: &mut Notebook, drafts: &mut Drafts) -> BakeAsked {
    ui.label(bold(tr!("This bake")));
    this_bake(ui, house, notebook, drafts);
    ui.add_space(8.0);
    ui.label(bold(tr!("How many of which houses")));
    let asked = lots::show(ui, house, notebook, drafts);
    ui.add_space(8.0);
    ui.label(bold(tr!("Who helps, and when")));
    people(ui, notebook, drafts);
    ui.add_space(8.0);
    ui.label(bold(tr!("Where")));
    kitchens(ui, notebook, drafts);
    asked
}

/// '2026-12-20 15:00', also with a T between.
pub(super) fn moment(text: &str) -> Result<DateTime, String> {
    let wrong = || tr!("Give a day and a time, such as 2026-12-20 15:00.").to_owned();
    let (day, time) = text.trim().split_once([' ', 'T']).ok_or_else(wrong)?;
    let day: Date = day.parse().map_err(|_| wrong())?;
    let (hour, minute) = time.trim().split_once(':').ok_or_else(wrong)?;
    let number = |text: &str| text.parse::<i8>().ok();
    let time = number(hour).zip(number(minute)).and_then(|(h, m)| Time::new(h, m, 0, 0).ok()).ok_or_else(wrong)?;
    Ok(day.to_datetime(time))
}

pub(super) fn said(at: DateTime) -> String {
    at.strftime("%Y-%m-%d %H:%M").to_string()
}

fn this_bake(ui: &mut Ui, house: &House, notebook: &mut Notebook, drafts: &mut Drafts) {
    let fresh = Build::new("");
    let known = notebook.build(house).unwrap_or(&fresh).clone();
    let mut changed = known.clone();
    ui.horizontal_wrapped(|ui| {
        ui.label(tr!("Must stand by"));
        let shown = known.ready_by.map_or_else(String::new, said);
        let read = |text: &str| if text.trim().is_empty() { Ok(None) } else { moment(text).map(Some) };
        if let Some(by) = drafts.field(ui, tr!("Must stand by"), (&shown, 150.0), read) {
            changed.ready_by = by;
        }
        ui.label(tr!("day and time, such as 2026-12-20 15:00"));
    });
    ui.horizontal_wrapped(|ui| {
        ui.label(tr!("Done so many hours before, if there is time"));
        let shown = (known.reserve / 60).to_string();
        let read = |text: &str| whole(text, (0, Build::MOST_RESERVE / 60));
        if let Some(hours) = drafts.field(ui, tr!("Hours to spare"), (&shown, 50.0), read) {
            changed.reserve = hours * 60;
        }
    });
    ui.checkbox(&mut changed.carried, tr!("It is carried somewhere once it stands"));
    ui.checkbox(&mut notebook.damp, tr!("The air is damp, above 60 %: everything dries for longer"));
    if changed != known {
        let build = notebook.build_mut(house);
        *build = Build { house: build.house.clone(), ..changed };
    }
}

fn people(ui: &mut Ui, notebook: &mut Notebook, drafts: &mut Drafts) {
    if notebook.people.is_empty() {
        ui.label(tr!("Nobody is named yet. Taken as: {}.", Person::usual()));
    } else {
        ui.label(
            tr!("Hours such as: mon-fri 18:00-21:00, sat 9:00-17:00, 2026-12-05 off. A day with a date has those hours alone."),
        );
    }
    let kitchens: Vec<String> = notebook.workplaces().into_iter().map(|own| own.name).collect();
    let mut away = None;
    for (k, person) in notebook.people.iter_mut().enumerate() {
        let number = k + 1;
        ui.horizontal_wrapped(|ui| {
            let read = |text: &str| {
                if text.trim().is_empty() { Err(tr!("Give a name.").to_owned()) } else { Ok(text.to_owned()) }
            };
            let shown = person.name.clone();
            if let Some(name) = drafts.field(ui, &tr!("Name of helper {number}"), (&shown, 110.0), read) {
                person.name = name;
            }
            let shown: Vec<String> = person.hours.iter().map(ToString::to_string).collect();
            let read = |text: &str| {
                if text.trim().is_empty() {
                    return Ok(Vec::new());
                }
                let times = Times::read_all(text).map_err(|e| sentence(&e.to_string()))?;
                let unknown = times.iter().find(|t| !t.kitchen.is_empty() && !kitchens.contains(&t.kitchen));
                match unknown {
                    Some(times) => Err(tr!("There is no kitchen called '{}': name it below.", times.kitchen)),
                    None => Ok(times),
                }
            };
            let name = tr!("Hours of helper {number}");
            if let Some(hours) = drafts.field(ui, &name, (&shown.join(", "), 380.0), read) {
                person.hours = hours;
            }
            let strike = ui.button(tr!("Remove"));
            let spoken = tr!("Strike out helper {number}");
            strike.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
            if strike.clicked() {
                away = Some(k);
            }
        });
    }
    if let Some(k) = away {
        notebook.people.remove(k);
        for number in k..=notebook.people.len() {
            drafts.drop_one(&tr!("Name of helper {}", number + 1));
            drafts.drop_one(&tr!("Hours of helper {}", number + 1));
        }
    }
    if ui.button(tr!("Somebody else helps")).clicked() {
        let usual = Person::usual();
        let name = if notebook.people.is_empty() { usual.name } else { tr!("Helper {}", notebook.people.len() + 1) };
        notebook.people.push(Person { name, hours: usual.hours });
    }
}

fn kitchens(ui: &mut Ui, notebook: &mut Notebook, drafts: &mut Drafts) {
    let mut all = notebook.workplaces();
    let known = all.clone();
    let mut away = None;
    for (k, own) in all.iter_mut().enumerate() {
        kitchen(ui, k, own, drafts);
        if k > 0 {
            let strike = ui.button(tr!("Remove this kitchen"));
            let spoken = tr!("Strike out kitchen {}", k + 1);
            strike.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
            if strike.clicked() {
                away = Some(k);
            }
        }
        ui.add_space(6.0);
    }
    if let Some(k) = away {
        let gone = all.remove(k).name;
        // Whoever helped there helps in the first one.
        let times = notebook.people.iter_mut().flat_map(|p| &mut p.hours);
        times.filter(|t| t.kitchen == gone).for_each(|t| t.kitchen.clear());
    }
    if ui.button(tr!("There is another kitchen")).clicked() {
        all.push(Workplace::usual(&tr!("Kitchen {}", all.len() + 1)));
    }
    if all != known {
        for (old, new) in known.iter().zip(&all).filter(|(old, new)| away.is_none() && old.name != new.name) {
            let times = notebook.people.iter_mut().flat_map(|p| &mut p.hours);
            times.filter(|t| t.kitchen == old.name).for_each(|t| t.kitchen.clone_from(&new.name));
        }
        notebook.kitchens = all;
    }
    if notebook.kitchens.len() > 1 {
        ui.horizontal(|ui| {
            ui.label(tr!("Minutes from one kitchen to another"));
            let shown = notebook.between.unwrap_or(BETWEEN).to_string();
            if let Some(minutes) =
                drafts.field(ui, tr!("Minutes between kitchens"), (&shown, 50.0), |t| whole(t, (0, 1440)))
            {
                notebook.between = Some(minutes);
            }
        });
    }
}

fn kitchen(ui: &mut Ui, k: usize, own: &mut Workplace, drafts: &mut Drafts) {
    let number = k + 1;
    ui.horizontal_wrapped(|ui| {
        ui.label(tr!("Kitchen {number}"));
        let read = |text: &str| {
            let plain = text.trim();
            let fits = !plain.is_empty() && !plain.contains([',', ':']);
            if fits { Ok(plain.to_owned()) } else { Err(tr!("Give a name without commas.").to_owned()) }
        };
        let shown = own.name.clone();
        if let Some(name) = drafts.field(ui, &tr!("Name of kitchen {number}"), (&shown, 180.0), read) {
            own.name = name;
        }
        if k == 0 {
            ui.label(tr!("Here the house is put up."));
        }
    });
    Grid::new(("kitchen", k)).num_columns(2).show(ui, |ui| {
        for (words, value, range) in [
            (tr!("Ovens"), &mut own.ovens, (0, 20)),
            (tr!("Trays that an oven takes at once"), &mut own.shelves, (1, 10)),
            (tr!("Trays"), &mut own.trays, (0, 100)),
            (tr!("Trays in the freezer"), &mut own.freezer, (0, 100)),
            (tr!("Table for what dries, dm²"), &mut own.table, (0, 1000)),
        ] {
            ui.label(words);
            let shown = value.to_string();
            let name = tr!("{words}, kitchen {number}");
            // A number that is none is told beside it.
            ui.horizontal(|ui| {
                if let Some(count) = drafts.field(ui, &name, (&shown, 60.0), |text| whole(text, range)) {
                    *value = count;
                }
            });
            ui.end_row();
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_are_read_as_they_are_shown() {
        let at = moment("2026-12-20 15:00").unwrap();
        assert_eq!(moment("2026-12-20T15:00"), Ok(at));
        assert_eq!(moment(&said(at)), Ok(at));
        for wrong in ["", "Christmas", "2026-12-20", "2026-12-20 25:00", "2026-12-20 3 pm"] {
            assert!(moment(wrong).is_err(), "{wrong}");
        }
    }
}
