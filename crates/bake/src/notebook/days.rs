//! What of a notebook the days are planned by: kitchens, who helps when, and every bake with what is done of it.

use super::file::{NotebookError, each, wrong};
use super::types::{BrokenData, BuildData, KitchenData, OtherData, PersonData, TickData};
use crate::HandOver;
use crate::timetable::{Broken, Build, Log, Mending, Other, Person, RESERVE, TaskKind, Tick, Times, Workplace};
use jiff::civil::DateTime;

/// More ovens or trays nobody has.
const MOST: u32 = 1000;

pub(super) fn kitchen_data(own: &Workplace) -> KitchenData {
    KitchenData {
        name: own.name.clone(),
        ovens: own.ovens,
        shelves: own.shelves,
        trays: own.trays,
        freezer: own.freezer,
        table: own.table,
    }
}

pub(super) fn kitchen(place: &str, d: &KitchenData) -> Result<Workplace, NotebookError> {
    if d.name.trim().is_empty() {
        return Err(wrong(format!("{place}.name"), "a kitchen needs a name, by which hours say where they are"));
    }
    for (word, count) in
        [("ovens", d.ovens), ("shelves", d.shelves), ("trays", d.trays), ("freezer", d.freezer), ("table", d.table)]
    {
        let least = u32::from(word == "shelves");
        if !(least..=MOST).contains(&count) {
            return Err(wrong(format!("{place}.{word}"), format!("give {least} to {MOST}")));
        }
    }
    Ok(Workplace {
        name: d.name.trim().to_owned(),
        ovens: d.ovens,
        shelves: d.shelves,
        trays: d.trays,
        freezer: d.freezer,
        table: d.table,
    })
}

pub(super) fn person_data(person: &Person) -> PersonData {
    PersonData { name: person.name.clone(), hours: person.hours.iter().map(ToString::to_string).collect() }
}

/// A person whose hours are in kitchens that there are.
pub(super) fn person(place: &str, d: &PersonData, kitchens: &[Workplace]) -> Result<Person, NotebookError> {
    if d.name.trim().is_empty() {
        return Err(wrong(format!("{place}.name"), "whoever helps needs a name"));
    }
    let line = |place: &str, text: &String| {
        let times = Times::read(text).map_err(|e| wrong(place, e.to_string()))?;
        if times.kitchen.is_empty() || kitchens.iter().any(|own| own.name == times.kitchen) {
            return Ok(times);
        }
        Err(wrong(place, format!("there is no kitchen called '{}'; name it under kitchens", times.kitchen)))
    };
    Ok(Person { name: d.name.trim().to_owned(), hours: each(&format!("{place}.hours"), &d.hours, line)? })
}

pub(super) fn build_data(build: &Build) -> BuildData {
    BuildData {
        house: build.house.clone(),
        ready_by: build.ready_by.map(said),
        reserve: Some(build.reserve),
        copies: Some(build.copies),
        others: build.others.iter().map(|own| OtherData { house: own.house.clone(), copies: own.copies }).collect(),
        hand_over: (build.until != HandOver::Finished).then(|| build.until.word().to_owned()),
        carried: build.carried,
        done: build.log.ticks.iter().map(tick_data).collect(),
        broken: build.broken.iter().map(broken_data).collect(),
    }
}

pub(super) fn build(place: &str, d: &BuildData) -> Result<Build, NotebookError> {
    let copies = |place: &str, copies: usize| {
        let wrong = || wrong(format!("{place}.copies"), format!("give 1 to {}", Build::MOST_COPIES));
        (1..=Build::MOST_COPIES).contains(&copies).then_some(copies).ok_or_else(wrong)
    };
    let other = |place: &str, d: &OtherData| Ok(Other { house: d.house.clone(), copies: copies(place, d.copies)? });
    let until = d.hand_over.as_deref().unwrap_or(HandOver::Finished.word());
    let until = HandOver::ALL.into_iter().find(|own| own.word() == until);
    Ok(Build {
        house: d.house.clone(),
        ready_by: d.ready_by.as_ref().map(|text| moment(&format!("{place}.ready_by"), text)).transpose()?,
        reserve: d.reserve.unwrap_or(RESERVE).min(Build::MOST_RESERVE),
        copies: copies(place, d.copies.unwrap_or(1))?,
        others: each(&format!("{place}.others"), &d.others, other)?,
        until: until.ok_or_else(|| wrong(format!("{place}.hand_over"), "give kits, walls, shells or finished"))?,
        carried: d.carried,
        log: Log { ticks: each(&format!("{place}.done"), &d.done, tick)? },
        broken: each(&format!("{place}.broken"), &d.broken, broken)?,
    })
}

fn tick_data(tick: &Tick) -> TickData {
    TickData {
        task: tick.id.clone(),
        kind: tick.kind.word().to_owned(),
        usual: tick.usual,
        done: tick.done.map(said),
        minutes: tick.minutes,
        kitchen: tick.kitchen,
    }
}

fn tick(place: &str, d: &TickData) -> Result<Tick, NotebookError> {
    let kind = TaskKind::of_word(&d.kind);
    for (word, minutes) in [("minutes", d.minutes), ("usual", Some(d.usual))] {
        if minutes.is_some_and(|m| !(0.0..=1e6).contains(&m)) {
            return Err(wrong(format!("{place}.{word}"), "give 0 to a million minutes"));
        }
    }
    Ok(Tick {
        id: d.task.clone(),
        kind: kind.ok_or_else(|| wrong(format!("{place}.kind"), format!("\"{}\" is no kind of task", d.kind)))?,
        usual: d.usual,
        done: d.done.as_ref().map(|text| moment(&format!("{place}.done"), text)).transpose()?,
        minutes: d.minutes,
        kitchen: d.kitchen,
    })
}

fn broken_data(broken: &Broken) -> BrokenData {
    BrokenData { piece: broken.piece.clone(), at: said(broken.at), way: broken.way.word().to_owned() }
}

fn broken(place: &str, d: &BrokenData) -> Result<Broken, NotebookError> {
    let way = Mending::ALL.into_iter().find(|way| way.word() == d.way);
    Ok(Broken {
        piece: d.piece.clone(),
        at: moment(&format!("{place}.at"), &d.at)?,
        way: way.ok_or_else(|| wrong(format!("{place}.way"), "give bake-again or mend"))?,
    })
}

fn said(at: DateTime) -> String {
    at.strftime("%Y-%m-%dT%H:%M").to_string()
}

fn moment(place: &str, text: &str) -> Result<DateTime, NotebookError> {
    // A day alone would mean its first minute, which nobody thinks of.
    let read = text.parse::<DateTime>().ok().filter(|_| text.contains(':'));
    read.ok_or_else(|| wrong(place, format!("\"{text}\" is no moment; give one such as 2026-12-20T15:00")))
}
