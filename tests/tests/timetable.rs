//! Timetables of houses: judged by counting on made-up houses, and their files read by libraries that know nothing of the
//! program.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise, helpers included")]

// Judges by counting, and knows nothing of how schedules are made.
#[path = "../../crates/bake/src/timetable/plan/tests/judge.rs"]
mod judge;
mod python_env;

use gable_bake::timetable::plan::{Answer, Hands, Need, Place, Placed, Project, Schedule, plan};
use gable_bake::timetable::{Ask, CalendarChoice, Helper, Rates, Shift, TaskKind, Tasks, Timetable, Workplace, when};
use gable_bake::{
    About, BakeClass, Basis, Figures, Lots, Minutes, Needs, OnTray, Ovenful, Ovenfuls, PieceSize, ToBake,
};
use gable_dress::dress;
use gable_export::stage_words;
use gable_measure::Length;
use gable_raise::Guide;
use gable_shell::kitchen::{Kitchen, Tray};
use gable_shell::{House, demo, solve};
use gable_tests::{Random, random_many};
use jiff::ToSpan;
use jiff::civil::{Date, date, time};
use python_env::{python, said, scripts};
use serde_json::Value;
use std::collections::BTreeSet;
use std::process::Command;

const FIRST: Date = date(2026, 11, 27);

/// A helper with the same hours on so many days.
fn helper(name: &str, days: i32, (from, to): (i8, i8), kitchen: usize) -> Helper {
    let shift = |k: i32| Shift {
        date: FIRST.checked_add(k.days()).unwrap(),
        from: time(from, 0, 0, 0),
        to: time(to, 0, 0, 0),
        kitchen,
    };
    Helper { name: name.to_owned(), shifts: (0..days).map(shift).collect() }
}

fn ask() -> Ask {
    Ask {
        now: FIRST.at(12, 0, 0, 0),
        stand_by: date(2026, 12, 12).at(12, 0, 0, 0),
        reserve: 1440,
        kitchens: vec![Workplace::usual("Ida's kitchen, first floor")],
        home: 0,
        between: 30,
        helpers: vec![helper("Ida", 21, (18, 22), 0), helper("Tøve; and co", 21, (19, 21), 0)],
        damp: false,
        lights: true,
        carried: true,
        rates: Rates::default(),
        learned: std::collections::BTreeMap::new(),
    }
}

/// The tasks of a house; laid on trays, or three pieces a tray where that would take too long.
fn tasks(house: &House, ask: &Ask, laid: bool) -> Tasks {
    let solved = solve(house);
    let dressed = dress(house, &solved);
    let guide = Guide::of(&solved).ok();
    let about = About { house, solved: &solved, dressed: &dressed, guide: guide.as_ref(), board: None };
    let figures = Figures::default();
    let to_bake = ToBake::all(&about);
    let ovenfuls = if laid { Ovenfuls::of(&to_bake, &Kitchen::default(), &figures, &[]) } else { threes(&to_bake) };
    Tasks::of(&Lots::one(about, 1), &[&Needs::of(&about, &figures)], &ovenfuls, &figures, ask)
}

fn threes(to_bake: &[ToBake]) -> Ovenfuls {
    let minutes = Minutes { usual: 15.0, least: 12.0, most: 18.0, basis: Basis::Practice };
    let thick = Length::mm_of(6.0);
    let on = |one: &ToBake| OnTray {
        id: one.id.clone(),
        name: one.name.clone(),
        mark: one.mark,
        template: one.template,
        outline: one.outline.clone(),
        holes: one.holes.clone(),
    };
    let tray = |own: &[ToBake]| Ovenful {
        class: 0,
        tray: Tray::usual()[0].clone(),
        pieces: own.iter().map(on).collect(),
        mass: own.iter().map(|one| one.mass(1.25)).sum(),
        trim_minutes: 2.0 * own.len() as f64,
    };
    Ovenfuls {
        classes: vec![BakeClass { thinnest: thick, thickest: thick, size: PieceSize::Large, minutes }],
        trays: to_bake.chunks(3).map(tray).collect(),
        rolled: Vec::new(),
        too_large: Vec::new(),
        assumed_tray: true,
    }
}

/// Households as they come: one to three helpers, one or two kitchens, few or many trays, damp or dry air.
fn household(seed: u64) -> Ask {
    let mut random = Random::new(seed);
    let mut pick = |most: u64| (random.unit() * most as f64) as u64;
    let mut ask = ask();
    if pick(2) == 0 {
        ask.kitchens.push(Workplace {
            ovens: 2,
            shelves: 1,
            trays: 4,
            freezer: 0,
            table: 60,
            name: "Other kitchen".to_owned(),
        });
    }
    let kitchens = ask.kitchens.len() as u64;
    ask.kitchens[0].trays = 1 + pick(3) as u32;
    ask.kitchens[0].table = 20 + pick(100) as u32;
    ask.helpers = (0..1 + pick(3))
        .map(|k| {
            let from = 8 + pick(12) as i8;
            helper(
                &format!("helper {k}"),
                21,
                (from, from + 2 + pick(3) as i8),
                if k == 0 { 0 } else { pick(kitchens) as usize },
            )
        })
        .collect();
    ask.damp = pick(3) == 0;
    ask.carried = pick(2) == 0;
    ask.stand_by = FIRST.checked_add((5 + pick(14) as i32).days()).unwrap().at(12, 0, 0, 0);
    ask
}

/// Never more of a helper, an oven or a tray than there is, nothing before what it waits for.
#[test]
fn made_up_houses_are_planned_without_breaking_anything() {
    let count = std::env::var("GABLE_HOUSES").ok().and_then(|n| n.parse().ok()).unwrap_or(150);
    let (mut fit, mut not) = (0, 0);
    for seed in 0..count {
        let tasks = tasks(&random_many(seed), &household(seed), false);
        assert_eq!(tasks.project.faults(), [], "seed {seed}");
        match plan(&tasks.project, 1).unwrap() {
            Answer::Fits(plan) => {
                fit += 1;
                assert_eq!(judge::wrong(&tasks.project, &plan.schedule, true), [""; 0], "seed {seed}");
            }
            Answer::DoesNotFit(trouble) => {
                not += 1;
                assert_eq!(judge::wrong(&tasks.project, &trouble.schedule, false), [""; 0], "seed {seed}");
                assert!(!trouble.short.is_empty());
            }
        }
    }
    println!("{fit} fit, {not} do not");
    assert!(fit > 0 && not > 0);
}

/// The build guide and the timetable agree on what is done while a piece lies flat: the stage in which it is raised names exactly the pieces
/// that have a task of glazing, decorating, bars or ornaments before.
#[test]
fn guide_and_timetable_agree_on_what_is_done_flat() {
    let flat_kind = |kind: TaskKind| {
        matches!(kind, TaskKind::Glaze | TaskKind::Fill | TaskKind::Melt | TaskKind::Decorate | TaskKind::Bars)
    };
    let mut seen = 0;
    for name in demo::names() {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let dressed = dress(&house, &solved);
        let guide = Guide::of(&solved).unwrap();
        let all = tasks(&house, &ask(), false);
        let flat: BTreeSet<usize> = all
            .tasks
            .iter()
            .filter(|t| flat_kind(t.kind) || (t.kind == TaskKind::Stick && t.id.contains("flat")))
            .flat_map(|t| t.pieces.iter().map(|p| p.piece))
            .collect();
        for (k, stage) in guide.stages.iter().enumerate() {
            let words = stage_words((&house, &solved, &dressed), &guide, k);
            let line = words.iter().find_map(|w| w.strip_prefix("Done while flat, and dry: ")).unwrap_or_default();
            let told: BTreeSet<&str> = line.split("; ").filter_map(|own| Some(own.split_once(": ")?.0)).collect();
            let raised = stage.steps.iter().map(|step| step.piece).filter(|k| flat.contains(k));

            let done: BTreeSet<&str> = raised
                .map(|k| solved.pieces[k].name.as_str())
                .map(|n| n.split_once(": ").map_or(n, |(_, own)| own))
                .collect();
            assert_eq!(told, done, "{name}, stage {}", k + 1);
            seen += told.len();
        }
    }
    assert!(seen > 40, "only {seen} pieces are decorated flat");
}

fn read(kind: &str, text: &str) -> Value {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    std::fs::write(&file, text).unwrap();
    let mut command = Command::new(python());
    command.arg(scripts().join("read_files.py")).arg(kind).arg(file).env("PYTHONDONTWRITEBYTECODE", "1");
    let done = command.output().unwrap();
    assert!(done.status.success(), "{}", said(&done));
    serde_json::from_slice::<Vec<Value>>(&done.stdout).unwrap().remove(0)
}

fn choice() -> CalendarChoice {
    CalendarChoice {
        house: "Pilot house, Gannet Sound".to_owned(),
        stamp: date(2026, 11, 27).at(11, 0, 0, 0),
        helper: None,
        waits: true,
        alarm: Some(10),
    }
}

fn demo_table(ask: &Ask) -> Timetable {
    let house = demo::house("lookout").unwrap();
    Timetable::of(&tasks(&house, ask, true), ask, 5).unwrap()
}

/// Read by icalendar from PyPI, which gives back every span of the timetable.
#[test]
fn calendars_are_read_by_an_independent_library() {
    let ask = ask();
    let table = demo_table(&ask);
    let text = table.calendar(&ask, &choice());
    assert_eq!(text, table.calendar(&ask, &choice()), "the same bytes every time");
    let events = read("ics", &text);
    let events = events.as_array().unwrap();
    let word = |event: &Value, key: &str| event[key].as_str().unwrap_or_default().to_owned();
    let uids: BTreeSet<String> = events.iter().map(|event| word(event, "uid")).collect();
    assert_eq!(uids.len(), events.len(), "ids are unique");
    let clock = |at: jiff::civil::DateTime| at.strftime("%Y-%m-%d %H:%M").to_string();
    let mut expected: Vec<_> = table
        .entries
        .iter()
        .flat_map(|entry| entry.spans.iter().map(|span| (clock(span.0), clock(span.1), entry.who.is_empty())))
        .chain([(clock(ask.stand_by), String::new(), true)])
        .collect();
    let mut found: Vec<_> =
        events.iter().map(|event| (word(event, "start"), word(event, "end"), event["free"] == true)).collect();
    expected.sort();
    found.sort();
    assert_eq!(found, expected);
    for event in events {
        let alarms = event["alarms"].as_array().unwrap();
        match (event["free"] == true, alarms.first()) {
            (false, Some(alarm)) => assert_eq!(*alarm, serde_json::json!([-10, "START"])),
            (true, Some(alarm)) => assert_eq!(*alarm, serde_json::json!([0, "END"])),
            (false, None) => panic!("work without an alarm: {event}"),
            (true, None) => {}
        }
    }
    let with = |words: &str| events.iter().any(|event| word(event, "words").contains(words));
    assert!(with("Tøve; and co") && with("Raw dough: "), "names and cautions survive");
    assert!(events.iter().any(|event| word(event, "place") == "Ida's kitchen, first floor"));
}

/// Planned anew on another day, the same task has the same id; a helper's own calendar has only their work.
#[test]
fn events_keep_their_ids() {
    let ask = ask();
    let other = Ask { stand_by: date(2026, 12, 11).at(20, 0, 0, 0), ..ask.clone() };
    let uids = |ask: &Ask, choice: &CalendarChoice| {
        let text = demo_table(ask).calendar(ask, choice);
        let lines = text.replace("\r\n ", "");
        lines
            .lines()
            .filter(|line| line.starts_with("UID:") && !line.contains('+'))
            .map(str::to_owned)
            .collect::<BTreeSet<_>>()
    };
    let (first, then) = (uids(&ask, &choice()), uids(&other, &choice()));
    assert_eq!(first, then);
    let own = CalendarChoice { helper: Some("Ida".to_owned()), waits: false, alarm: None, ..choice() };
    let mine = uids(&ask, &own);
    assert!(mine.len() < first.len() && mine.is_subset(&first));
}

#[test]
fn tables_are_read_by_an_independent_library() {
    let ask = ask();
    let table = demo_table(&ask);
    let rows = read("csv", &table.csv(&ask).unwrap());
    let rows = rows.as_array().unwrap();
    assert_eq!(rows.len(), table.entries.iter().map(|entry| entry.spans.len()).sum::<usize>());
    let minutes: i64 = rows.iter().map(|row| row["minutes"].as_str().unwrap().parse::<i64>().unwrap()).sum();
    assert_eq!(minutes, table.entries.iter().map(gable_bake::timetable::Entry::minutes).sum::<i64>());
    let begins: Vec<&str> = rows.iter().map(|row| row["begins"].as_str().unwrap()).collect();
    assert!(begins.is_sorted());
    assert!(rows.iter().any(|row| row["kitchen"] == "Ida's kitchen, first floor" && row["who"] == "Tøve; and co"));
}

/// What is drawn stays on its sheet, and every task of a day is on that day's sheets.
#[test]
fn charts_stay_on_their_sheets() {
    use gable_drawing::Item;
    let ask = ask();
    let table = demo_table(&ask);
    // The evening on which most begins.
    let count = |day: &Date| table.entries.iter().filter(|entry| entry.from().date() == *day).count();
    let day = table.entries.iter().map(|entry| entry.from().date()).max_by_key(count).unwrap();
    let days = table.day_charts(day, 190.0, 40.0);
    assert!(days.len() > 1 && days.iter().all(|sheet| sheet.height <= 40.0));
    let texts: Vec<&str> = days
        .iter()
        .flat_map(|sheet| &sheet.items)
        .filter_map(|item| match item {
            Item::Text(text) => Some(text.text.as_str()),
            Item::Stroke(_) | Item::Fill(_) => None,
        })
        .collect();
    let work = table.entries.iter().filter(|entry| !entry.who.is_empty() && entry.from().date() == day);
    for entry in work {
        let name: String = entry.name.chars().take(12).collect();
        assert!(texts.iter().any(|text| text.contains(&name)), "{}", entry.name);
    }
    let chart = table.chart(&ask, 277.0).unwrap();
    for sheet in days.iter().chain([&chart]) {
        for item in &sheet.items {
            let (x, y) = match item {
                Item::Stroke(stroke) => (stroke.start.x, stroke.start.y),
                Item::Fill(fill) => (fill.rings[0][0].x, fill.rings[0][0].y),
                Item::Text(text) => (text.at.x, text.at.y),
            };
            assert!((-1e-9..=sheet.width + 1e-9).contains(&x) && (0.0..=sheet.height).contains(&y), "{item:?}");
        }
    }
    assert_eq!(table.day_charts(date(2026, 11, 1), 190.0, 250.0), []);
}

/// Writes the pictures, to be looked at: `LOOK=folder cargo test -p gable-tests --test timetable look -- --ignored`.
#[test]
#[ignore = "to be looked at"]
fn look() {
    let folder = std::path::PathBuf::from(std::env::var("LOOK").unwrap());
    let ask = ask();
    let table = Timetable::of(&tasks(&demo::house("pilot-house").unwrap(), &ask, true), &ask, 40).unwrap();
    println!("{:?}", table.stands.map(when));
    let mut sheets = vec![table.chart(&ask, 277.0).unwrap()];
    sheets.extend(table.day_charts(date(2026, 12, 8), 190.0, 260.0));
    for (k, sheet) in sheets.iter().enumerate() {
        std::fs::write(folder.join(format!("chart-{k}.svg")), gable_export::write_svg(sheet)).unwrap();
        std::fs::write(folder.join(format!("chart-{k}.png")), gable_export::write_png(sheet, 1600).unwrap()).unwrap();
    }
}
