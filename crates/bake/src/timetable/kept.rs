//! Checks that no icing is kept too long.
//!
//! Three days: raw whites of egg keep 2 to 4 days in the cold (from memory of a public table of cold storage).

use super::plan::ROUNDS;
use super::tasks::tests::built;
use super::*;
use crate::{BakePlan, Lots, Notebook};
use gable_shell::demo;
use gable_shell::kitchen::Kitchen;
use jiff::ToSpan;
use jiff::civil::{DateTime, date};

const NOW: DateTime = date(2026, 11, 27).at(12, 0, 0, 0);
const KEEPS: i64 = 3 * 24;

struct Baker {
    lots: Lots<'static>,
    notebook: Notebook,
    plan: BakePlan,
    build: Build,
}

impl Baker {
    /// One house, worked on in these hours of every day, due in a fortnight.
    fn of(house: &str, hours: &str) -> Self {
        let lots = Lots::one(built(house).about(), 1);
        let people = vec![Person::read(&format!("Ida: daily {hours}")).unwrap()];
        let notebook = Notebook { people, ..Notebook::default() };
        let plan = BakePlan::of(&lots, &Kitchen::default(), &notebook);
        let build = Build { ready_by: Some(date(2026, 12, 12).at(12, 0, 0, 0)), ..Build::new(house) };
        Self { lots, notebook, plan, build }
    }

    fn days(&self, now: DateTime) -> (Work, Timetable) {
        let work = self.build.work(&self.lots, &self.plan, (&self.notebook, &Kitchen::default()), now).unwrap();
        assert_eq!(work.left.project.faults(), []);
        let table = Timetable::of(&work.left, &work.ask, ROUNDS).unwrap();
        (work, table)
    }
}

/// Whether icing goes on what lies flat, by what bakers do; none where no icing is needed.
fn lies_flat(entry: &Entry) -> Option<bool> {
    match entry.kind {
        TaskKind::Glaze | TaskKind::Decorate | TaskKind::Bars => Some(true),
        TaskKind::Stick => Some(entry.id.ends_with("/flat")),
        TaskKind::Raise | TaskKind::Doors | TaskKind::Cover | TaskKind::Snow | TaskKind::Extras => Some(false),
        _ => None,
    }
}

/// Every use of icing for which none was made within so many hours before it ends; `made` besides what is planned.
fn too_old(table: &Timetable, made: &[(bool, DateTime)], hours: i64) -> Vec<String> {
    let mixes = table.entries.iter().filter(|entry| entry.kind == TaskKind::Icing);
    let mut all: Vec<(bool, DateTime)> = mixes.map(|mix| (mix.id.contains("decorating"), mix.to())).collect();
    all.extend(made);
    let fresh = |entry: &Entry, flat: bool| {
        all.iter().any(|(own, at)| *own == flat && *at <= entry.from() && entry.to() <= *at + hours.hours())
    };
    let stale = |entry: &&Entry| lies_flat(entry).is_some_and(|flat| !fresh(entry, flat));
    table.entries.iter().filter(stale).map(Entry::line).collect()
}

#[test]
fn no_icing_is_older_than_it_keeps() {
    let mut again = 0;
    for hours in ["18:00-20:00", "18:00-22:00", "08:00-20:00"] {
        for name in demo::names() {
            let (work, table) = Baker::of(name, hours).days(NOW);
            assert_eq!(too_old(&table, &[], KEEPS), [""; 0], "{name} from {hours}: {:?}", table.verdict());
            assert!(table.entries.iter().all(|entry| work.task(&entry.id).is_ok()), "every task can be ticked off");
            again += table.entries.iter().filter(|entry| entry.name.starts_with("Make fresh icing: ")).count();
        }
    }
    assert!(again > 0, "some house takes longer than icing keeps");
}

/// As much is made as before, in more goes; and not more often than it must be.
#[test]
fn icing_that_keeps_is_made_once() {
    let mixes = |keeps: f64, hours: &str| {
        let mut baker = Baker::of("pilot-house", hours);
        baker.notebook.rates.set(Rate::IcingKeeps, keeps).unwrap();
        let (_, table) = baker.days(NOW);
        let own = table.entries.iter().filter(|entry| entry.kind == TaskKind::Icing);
        assert_eq!(too_old(&table, &[], keeps as i64), [""; 0], "{keeps} h");
        own.count()
    };
    // Dried white: a fortnight.
    assert_eq!(mixes(336.0, "18:00-22:00"), 2);
    let (long, short) = (mixes(72.0, "18:00-22:00"), mixes(24.0, "18:00-22:00"));
    assert!(2 < long && long < short, "{long} {short}");
}

/// A bowl that is made keeps no longer because somebody was held up.
#[test]
fn icing_is_made_again_when_work_is_put_off() {
    let mut baker = Baker::of("boat-hut", "18:00-22:00");
    let (work, table) = baker.days(NOW);
    let mix = table.entries.iter().find(|entry| entry.id == "icing/decorating").unwrap();
    for entry in table.entries.iter().filter(|entry| entry.to() <= mix.to()) {
        baker.build.log.done(work.task(&entry.id).unwrap(), entry.to(), None, Some(0));
    }
    // Four days in bed.
    let now = mix.to() + 4.days();
    baker.build.ready_by = Some(date(2026, 12, 20).at(12, 0, 0, 0));
    let (work, table) = baker.days(now);
    let fresh = table.entries.iter().find(|entry| entry.kind == TaskKind::Icing).unwrap();
    assert!(fresh.id.starts_with("icing/decorating/for/") && fresh.minutes() == 25, "{fresh:?}");
    assert_eq!(too_old(&table, &[(true, mix.to())], KEEPS), [""; 0]);
    // It is made and ticked off: it stays known, and is not made again.
    for entry in table.entries.iter().filter(|entry| entry.to() <= fresh.to()) {
        baker.build.log.done(work.task(&entry.id).unwrap(), entry.to(), None, Some(0));
    }
    let (then, table) = baker.days(fresh.to());
    assert_eq!(then.task(&fresh.id).unwrap().name, fresh.name);
    assert_eq!(table.entry(&fresh.id), None);
    assert_eq!(too_old(&table, &[(true, mix.to()), (true, fresh.to())], KEEPS), [""; 0]);
}

/// Four houses take many bowls; made in more goes they are no fewer, and none is made for nothing.
#[test]
fn many_bowls_are_shared_out() {
    let lots = Lots::one(built("boat-hut").about(), 4);
    let people = vec![Person::read("Ida: daily 18:00-20:00").unwrap()];
    let mut notebook = Notebook { people, ..Notebook::default() };
    notebook.rates.set(Rate::Bowl, 300.0).unwrap();
    let plan = BakePlan::of(&lots, &Kitchen::default(), &notebook);
    let build = Build { ready_by: Some(date(2027, 1, 30).at(12, 0, 0, 0)), ..Build::new("Boat hut") };
    let minutes = |keeps: f64| {
        let mut notebook = notebook.clone();
        notebook.rates.set(Rate::IcingKeeps, keeps).unwrap();
        let work = build.work(&lots, &plan, (&notebook, &Kitchen::default()), NOW).unwrap();
        let own = work.left.tasks.iter().filter(|task| task.kind == TaskKind::Icing);
        (own.clone().count(), own.map(|task| task.usual).sum::<f64>())
    };
    let (once, often) = (minutes(2000.0), minutes(48.0));
    assert!(once.0 == 2 && often.0 > 3, "{once:?} {often:?}");
    // Bowls are whole: at most one more for each time that it is made.
    assert!(often.1 >= once.1 && often.1 <= once.1 + 25.0 * (often.0 - once.0) as f64, "{once:?} {often:?}");
}

/// About a week in the cold, about a month frozen (AP, in a newspaper of Dec 2008).
#[test]
fn dough_that_waits_for_more_than_a_week_is_frozen() {
    let mut baker = Baker::of("boat-hut", "18:00-22:00");
    let (work, table) = baker.days(NOW);
    assert_eq!(table.remarks, [""; 0], "planned as late as may be, it is fresh");
    for id in ["mix-dough/walls", "mix-dough/roofs"] {
        baker.build.log.done(work.task(id).unwrap(), NOW, None, Some(0));
    }
    let (_, table) = baker.days(NOW + 1.hour());
    let late = table.entries.iter().filter(|e| e.kind == TaskKind::Cut && e.from().date() > date(2026, 12, 4));
    assert!(late.count() > 0, "a fortnight is longer than a week");
    let said = "Dough keeps for about 7 days in the cold. Freeze what is not cut by then: roofs by Fri 4 Dec, walls by Fri 4 Dec. \
                Frozen it keeps for about a month; let it thaw in the cold overnight.";
    assert_eq!(table.remarks, [said]);
    assert!(table.verdict().contains(&said.to_owned()));
    // A week before it is due it is cut within a week.
    baker.build.ready_by = Some(date(2026, 12, 4).at(12, 0, 0, 0));
    assert_eq!(baker.days(NOW + 1.hour()).1.remarks, [""; 0]);
}

/// What is late is planned forwards, as early as can be: icing is made when it is wanted all the same, and never for nothing.
#[test]
fn icing_waits_until_it_is_wanted() {
    let mut baker = Baker::of("boat-hut", "18:00-19:00");
    baker.build.ready_by = Some(date(2026, 12, 1).at(12, 0, 0, 0));
    let (_, table) = baker.days(NOW);
    assert!(table.trouble.is_some());
    assert_eq!(too_old(&table, &[], KEEPS), [""; 0]);
    for flat in [true, false] {
        let mixes = table.entries.iter().filter(|e| e.kind == TaskKind::Icing && e.id.contains("decorating") == flat);
        let mut ends: Vec<DateTime> = mixes.map(Entry::to).collect();
        ends.push(DateTime::MAX);
        for pair in ends.windows(2) {
            let mut uses = table.entries.iter().filter(|e| lies_flat(e) == Some(flat));
            assert!(uses.any(|e| pair[0] <= e.from() && e.from() < pair[1]), "{ends:?}");
        }
    }
}
