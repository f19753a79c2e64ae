//! How long a whole plan takes: tasks of each demo and their timetable, in time and too late with what would help.
//!
//! The baseline of each group is the solver on the same house, measured in the same run. Compare ratios, not seconds.

use criterion::{Criterion, criterion_group, criterion_main};
use gable_bake::timetable::plan::ROUNDS;
use gable_bake::timetable::{Ask, Helper, Rates, Shift, Tasks, Timetable, Workplace};
use gable_bake::{About, Figures, Lots, Needs, Ovenfuls, ToBake};
use gable_raise::Guide;
use gable_shell::kitchen::Kitchen;
use gable_shell::{demo, solve};
use jiff::ToSpan;
use jiff::civil::{Date, date, time};
use std::collections::BTreeMap;
use std::hint::black_box;

const FIRST: Date = date(2026, 11, 27);

fn helper(name: &str, from: i8, to: i8) -> Helper {
    let shift = |k: i32| {
        let date = FIRST.checked_add(k.days()).ok()?;
        Some(Shift { date, from: time(from, 0, 0, 0), to: time(to, 0, 0, 0), kitchen: 0 })
    };
    Helper { name: name.to_owned(), shifts: (0..21).filter_map(shift).collect() }
}

/// Two helpers on evenings, done by a day of December.
fn ask(day: i8) -> Ask {
    Ask {
        now: FIRST.at(12, 0, 0, 0),
        stand_by: date(2026, 12, day).at(12, 0, 0, 0),
        reserve: 1440,
        kitchens: vec![Workplace::usual("kitchen")],
        home: 0,
        between: 30,
        helpers: vec![helper("Ida", 18, 22), helper("Tove", 19, 21)],
        damp: false,
        lights: true,
        carried: true,
        rates: Rates::default(),
        learned: BTreeMap::new(),
    }
}

fn plans(c: &mut Criterion) {
    for name in demo::names() {
        let Some(house) = demo::house(name) else { continue };
        let solved = solve(&house);
        let dressed = gable_dress::dress(&house, &solved);
        let guide = Guide::of(&solved).ok();
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: guide.as_ref(), board: None };
        let figures = Figures::default();
        let ovenfuls = Ovenfuls::of(&ToBake::all(&about), &Kitchen::default(), &figures, &[]);
        let (lots, needs) = (Lots::one(about, 1), Needs::of(&about, &figures));
        let table = |ask: &Ask| {
            let tasks = Tasks::of(&lots, &[&needs], &ovenfuls, &figures, ask);
            Timetable::of(&tasks, ask, ROUNDS)
        };
        let mut group = c.benchmark_group(name);
        group.sample_size(10);
        group.bench_function("baseline: solve", |b| b.iter(|| solve(black_box(&house))));
        group.bench_function("tasks and timetable", |b| b.iter(|| table(black_box(&ask(12)))));
        group.bench_function("too late, and what would help", |b| b.iter(|| table(black_box(&ask(2)))));
        group.finish();
    }
}

criterion_group!(benches, plans);
criterion_main!(benches);
