//! Working through a timetable.

use super::moment::minute;
use super::plan::tests::judge::wrong;
use super::plan::{Answer, ROUNDS, plan};
use super::tasks::tests::{ask, built, tasks_of};
use super::*;
use crate::{BakePlan, Lots, Notebook, PieceOf};
use gable_shell::kitchen::Kitchen;
use jiff::ToSpan;
use jiff::civil::{DateTime, date};
use std::collections::BTreeSet;

/// All work that the table has done by a moment, ticked off as it was planned.
fn followed(tasks: &Tasks, table: &Timetable, until: DateTime) -> Log {
    let mut log = Log::default();
    for entry in table.entries.iter().filter(|entry| !entry.kind.is_wait() || entry.kind == TaskKind::Bake) {
        let task = &tasks.tasks[tasks.find(&entry.id).unwrap()];
        if entry.to() <= until {
            log.done(task, entry.to(), Some(entry.minutes() as f64), Some(entry.kitchen));
        }
    }
    log
}

/// A piece of the only house.
fn of(piece: usize) -> PieceOf {
    PieceOf { lot: 0, copy: 0, piece }
}

fn later(ask: &Ask, now: DateTime) -> Ask {
    Ask { now, ..ask.clone() }
}

fn schedule_is_sound(tasks: &Tasks) {
    match plan(&tasks.project, 3).unwrap() {
        Answer::Fits(plan) => assert_eq!(wrong(&tasks.project, &plan.schedule, true), Vec::<String>::new()),
        Answer::DoesNotFit(trouble) => {
            assert_eq!(wrong(&tasks.project, &trouble.schedule, false), Vec::<String>::new())
        }
    }
}

/// Whoever keeps to the plan keeps the day, whenever it is planned anew.
#[test]
fn what_is_left_still_fits_when_all_went_as_planned() {
    let ask = ask();
    let all = tasks_of("pilot-house", &ask);
    let table = Timetable::of(&all, &ask, 5).unwrap();
    for (day, hour, min) in [(1, 21, 30), (3, 20, 0), (6, 12, 0), (8, 20, 15), (10, 21, 0)] {
        let now = date(2026, 12, day).at(hour, min, 0, 0);
        let log = followed(&all, &table, now);
        let left = tasks_of("pilot-house", &later(&ask, now)).rest(&log);
        assert!(left.tasks.len() < all.tasks.len());
        assert_eq!(left.project.faults(), []);
        schedule_is_sound(&left);
        let again = Timetable::of(&left, &later(&ask, now), 5).unwrap();
        assert_eq!(again.trouble, None, "on the {day}th");
        let done: BTreeSet<&str> = log.ticks.iter().map(|tick| tick.id.as_str()).collect();
        assert!(again.entries.iter().all(|entry| !done.contains(entry.id.as_str())));
        assert!(again.entries.iter().all(|entry| entry.to() > now));
    }
}

#[test]
fn waits_go_on_by_themselves() {
    let ask = ask();
    let all = tasks_of("boat-hut", &ask);
    let mix = all.tasks.iter().find(|task| task.kind == TaskKind::MixDough).unwrap();
    let rest = mix.id.replace("mix-dough", "rest-dough");
    let mut log = Log::default();
    let done = date(2026, 11, 27).at(20, 0, 0, 0);
    log.done(mix, done, Some(25.0), None);
    let at = |hour: i8| tasks_of("boat-hut", &later(&ask, date(2026, 11, 27).at(hour, 0, 0, 0))).rest(&log);
    let early = at(21);
    assert_eq!(early.running.len(), 1);
    assert_eq!((early.running[0].task.id.as_str(), early.running[0].span.1), (rest.as_str(), minute(done) + 120));
    assert_eq!(early.find(&rest), None);
    let table = Timetable::of(&early, &later(&ask, date(2026, 11, 27).at(21, 0, 0, 0)), 2).unwrap();
    let cuts = table.entries.iter().filter(|entry| entry.kind == TaskKind::Cut);
    assert!(cuts.min_by_key(|e| e.from()).unwrap().from() >= done.checked_add(2.hours()).unwrap());
    let late = at(23);
    assert_eq!((late.running.len(), late.find(&rest)), (0, None));
}

/// A tray on which biscuit cools is taken, and what was begun takes only the rest of its time.
#[test]
fn what_is_under_way_counts() {
    let mut ask = ask();
    ask.kitchens[0].trays = 1;
    let all = tasks_of("pilot-house", &ask);
    let mut log = Log::default();
    let trims: Vec<&Task> = all.tasks.iter().filter(|task| task.kind == TaskKind::Trim).collect();
    let key = trims[0].id.strip_prefix("trim/").unwrap();
    let out = date(2026, 11, 28).at(18, 30, 0, 0);
    for kind in ["cut", "firm", "bake", "trim"] {
        log.done(&all.tasks[all.find(&format!("{kind}/{key}")).unwrap()], out, None, Some(0));
    }
    let board = &all.tasks[all.find("board/board").unwrap()];
    log.begun(board, 45.0, Some(0));
    let now = out.checked_add(5.minutes()).unwrap();
    let left =
        tasks_of("pilot-house", &Ask { stand_by: date(2026, 12, 16).at(12, 0, 0, 0), ..later(&ask, now) }).rest(&log);
    assert_eq!(left.project.taken.len(), 1, "the tray under what cools");
    assert_eq!(left.project.taken[0].to, minute(out) + 20);
    assert_eq!(left.project.jobs[left.find("board/board").unwrap()].minutes, 15);
    schedule_is_sound(&left);
}

/// What came out of the oven must be trimmed at once, also when everything else is planned as late as may be.
#[test]
fn what_is_hot_is_trimmed_at_once() {
    let ask = ask();
    let all = tasks_of("boat-hut", &ask);
    let bake = all.tasks.iter().find(|task| task.kind == TaskKind::Bake).unwrap();
    let key = bake.id.strip_prefix("bake/").unwrap();
    let out = date(2026, 11, 28).at(19, 0, 0, 0);
    let mut log = Log::default();
    for kind in ["cut", "firm", "bake"] {
        log.done(&all.tasks[all.find(&format!("{kind}/{key}")).unwrap()], out, None, Some(0));
    }
    let now = later(&ask, out);
    let table = Timetable::of(&tasks_of("boat-hut", &now).rest(&log), &now, 5).unwrap();
    let trim = table.entry(&format!("trim/{key}")).unwrap();
    assert!(minute(trim.from()) - minute(out) <= 6, "{trim:?}");
}

#[test]
fn the_page_of_a_day_says_what_is_on() {
    let ask = ask();
    let tasks = tasks_of("pilot-house", &ask);
    let table = Timetable::of(&tasks, &ask, 5).unwrap();
    let now = date(2026, 12, 8).at(20, 30, 0, 0);
    let page = table.today(now);
    let busy: Vec<&String> = page.now.iter().flat_map(|entry| &entry.who).collect();
    assert_eq!(busy.len(), busy.iter().collect::<BTreeSet<_>>().len(), "nobody does two things");
    assert!(!page.waits.is_empty() && page.waits.iter().all(|entry| entry.from() <= now && now < entry.to()));
    assert!(page.next.iter().all(|entry| entry.spans.iter().any(|span| span.0 > now)));
    let end = date(2026, 12, 9).at(4, 0, 0, 0);
    assert!(page.later.iter().all(|entry| entry.spans.iter().any(|span| now < span.0 && span.0 < end)));
    let before = table.today(ask.now);
    assert!(before.now.is_empty() && before.waits.is_empty() && !before.next.is_empty());
}

/// A broken wall is baked again, glazed and decorated again, and only then put up; or it is mended.
#[test]
fn a_broken_piece_is_baked_again_or_mended() {
    let ask = ask();
    let house = built("pilot-house");
    let all = tasks_of("pilot-house", &ask);
    let table = Timetable::of(&all, &ask, 5).unwrap();
    let piece = house.solved.pieces.iter().position(|piece| piece.id.0 == "main/wall-right").unwrap();
    let raise = table.entries.iter().find(|e| e.kind == TaskKind::Raise && e.pieces.contains(&of(piece))).unwrap();
    let now = later(&ask, raise.from());
    let log = followed(&all, &table, now.now);
    let all = tasks_of("pilot-house", &now);
    let (lots, notebook, kitchen) = (Lots::one(house.about(), 1), Notebook::default(), Kitchen::default());
    let broke = |log: &Log, ask: &Ask| {
        let done = broke::Done { base: &all, left: &all.rest(log), log, round: 0 };
        Broke::of(of(piece), &done, (&lots, &notebook, &kitchen), ask, 5).unwrap()
    };
    let found = broke(&log, &now).unwrap();
    let again = found.again.unwrap();
    assert!((50.0..1000.0).contains(&found.dough.g()), "{:?}", found.dough);
    for way in [&again, &found.mend] {
        schedule_is_sound(&way.tasks);
        let ready = way.when.unwrap().1;
        let raise =
            way.table.entries.iter().find(|e| e.kind == TaskKind::Raise && e.pieces.contains(&of(piece))).unwrap();
        assert!(minute(raise.from()) >= minute(ready) + 720, "{} waits until it is dry", raise.name);
        assert_eq!(way.in_time, way.table.trouble.is_none());
    }
    let anew: Vec<TaskKind> = again.tasks.tasks.iter().filter(|t| t.id.ends_with("/again")).map(|t| t.kind).collect();
    for kind in [TaskKind::MixDough, TaskKind::Cut, TaskKind::Bake, TaskKind::Trim, TaskKind::Glaze, TaskKind::Decorate]
    {
        assert!(anew.contains(&kind), "{kind:?} in {anew:?}");
    }
    // What takes icing again takes some that is no older than three days (from memory of a public table for raw whites).
    let mixes = again.table.entries.iter().filter(|e| e.id.starts_with("icing/decorating")).map(Entry::to);
    let made: Vec<DateTime> = mixes.chain(log.of("icing/decorating").and_then(|tick| tick.done)).collect();
    let iced = again.table.entries.iter().filter(|e| e.id.ends_with("/again"));
    for entry in iced.filter(|e| matches!(e.kind, TaskKind::Glaze | TaskKind::Decorate)) {
        let fresh = |at: &DateTime| *at <= entry.from() && entry.to() <= *at + 3.days();
        assert!(made.iter().any(fresh), "{}: {made:?}", entry.line());
    }
    let mixed = again.tasks.doughs.last().unwrap();
    assert!([&mixed.mix, &mixed.rests, &mixed.cuts[0]].iter().all(|id| again.tasks.find(id).is_some()), "{mixed:?}");
    assert!(broke(&Log::default(), &now).is_none(), "nothing is lost before it is baked");
    // Once it stands it is mended where it is.
    let mut stands = log;
    stands.done(&all.tasks[all.find(&raise.id).unwrap()], raise.to(), None, Some(0));
    assert!(broke(&stands, &later(&ask, raise.to())).unwrap().again.is_none());
}

/// All work that is left, ticked off as it is planned, as a person in this kitchen would.
fn follow(build: &mut Build, work: &Work, until: DateTime) {
    let table = Timetable::of(&work.left, &work.ask, 2).unwrap();
    assert_eq!(table.trouble, None);
    for entry in table.entries.iter().filter(|entry| !entry.kind.is_wait() || entry.kind == TaskKind::Bake) {
        if entry.to() <= until {
            build.log.done(work.task(&entry.id).unwrap(), entry.to(), None, Some(entry.kitchen));
        }
    }
}

/// A wall breaks twice: each time it is baked again, nothing that was done is forgotten, and in the end nothing is left.
#[test]
fn a_build_is_worked_through_whatever_breaks() {
    let ask = ask();
    let house = built("boat-hut");
    let (lots, kitchen) = (Lots::one(house.about(), 1), Kitchen::default());
    let mut notebook =
        Notebook { people: vec![Person::read("Ida: daily 18:00-22:00").unwrap()], ..Notebook::default() };
    let plan = BakePlan::of(&lots, &kitchen, &notebook);
    let id = |k: usize| house.solved.pieces[k].id.0.clone();
    let piece = house.solved.pieces.iter().position(|piece| piece.id.0.contains("wall")).unwrap();
    let mut build = Build { ready_by: Some(date(2026, 12, 20).at(15, 0, 0, 0)), ..Build::new("Boat hut") };
    let mut now = ask.now;
    for round in 0..2 {
        // Everything is planned as late as may be, so the day is put off each time.
        build.ready_by = Some(date(2026, 12, 12 + 9 * round).at(15, 0, 0, 0));
        // Until the wall is dry and lies there.
        let work = build.work(&lots, &plan, (&notebook, &kitchen), now).unwrap();
        let table = Timetable::of(&work.left, &work.ask, 2).unwrap();
        let bake = table.entries.iter().rfind(|e| e.kind == TaskKind::Bake && e.pieces.contains(&of(piece))).unwrap();
        now = bake.to().checked_add(2.hours()).unwrap();
        follow(&mut build, &work, now);
        let work = build.work(&lots, &plan, (&notebook, &kitchen), now).unwrap();
        let found = work.broke(of(piece), &build, (&lots, &notebook, &kitchen), 2).unwrap();
        build.broken.push(Broken { piece: id(piece), at: now, way: Mending::BakeAgain });
        let work = build.work(&lots, &plan, (&notebook, &kitchen), now).unwrap();
        let again = if round == 0 { "/again" } else { "/again-2" };
        let anew = work.left.tasks.iter().filter(|t| t.id.ends_with(again)).count();
        let offered = found.unwrap().again.unwrap().tasks;
        let names = |tasks: &Tasks| tasks.tasks.iter().map(|t| t.id.clone()).collect::<BTreeSet<_>>();
        assert_eq!(names(&offered), names(&work.left), "what is done is what was offered");
        assert!(anew >= 5, "round {round}: dough, cutting, baking, trimming, drying: {anew}");
        schedule_is_sound(&work.left);
    }
    let ids: BTreeSet<&str> = build.log.ticks.iter().map(|tick| tick.id.as_str()).collect();
    assert_eq!(ids.len(), build.log.ticks.len());
    let end = date(2026, 12, 30).at(15, 0, 0, 0);
    build.ready_by = Some(end);
    let work = build.work(&lots, &plan, (&notebook, &kitchen), now).unwrap();
    follow(&mut build, &work, DateTime::MAX);
    let work = build.work(&lots, &plan, (&notebook, &kitchen), end).unwrap();
    assert_eq!(work.left.tasks, [], "all of it is done");
    // What was learned serves the next house.
    build.log.ticks.iter_mut().for_each(|tick| tick.minutes = Some(tick.usual * 1.5));
    notebook.builds = vec![build];
    let next = Build { ready_by: Some(ask.stand_by), ..Build::new("Another") };
    let learned = notebook.ask(&next, false, ask.now).unwrap().learned;
    assert!((learned[&TaskKind::Cut] - 1.5).abs() < 1e-9, "{learned:?}");
}

#[test]
fn tasks_are_meant_by_their_names() {
    let ask = ask();
    let house = built("boat-hut");
    let (lots, kitchen, notebook) = (Lots::one(house.about(), 1), Kitchen::default(), Notebook::default());
    let plan = BakePlan::of(&lots, &kitchen, &notebook);
    let build = Build { ready_by: Some(ask.stand_by), ..Build::new("Boat hut") };
    let work = build.work(&lots, &plan, (&notebook, &kitchen), ask.now).unwrap();
    assert_eq!(work.task("base board").unwrap().kind, TaskKind::Board);
    assert_eq!(work.task("bake ovenful 1").unwrap().kind, TaskKind::Bake);
    let several = work.task("ovenful").unwrap_err().to_string();
    assert!(several.contains("could be 'Roll and cut ovenful 1' or '"), "{several}");
    assert_eq!(work.task("wash up").unwrap_err().to_string(), "no task is called 'wash up'");
    assert!(build.work(&lots, &plan, (&notebook, &kitchen), ask.now).is_some());
    assert!(Build::new("x").work(&lots, &plan, (&notebook, &kitchen), ask.now).is_none(), "nobody said by when");
}

/// People begin on round minutes, whatever the clock says when it is planned, and whatever was ticked off at odd ones.
#[test]
fn all_that_is_to_be_done_begins_on_a_round_minute() {
    let ask = ask();
    let all = tasks_of("boat-hut", &ask);
    let mix = all.tasks.iter().find(|task| task.kind == TaskKind::MixDough).unwrap();
    let mut log = Log::default();
    log.done(mix, date(2026, 11, 27).at(18, 37, 0, 0), Some(31.0), Some(0));
    let now = later(&ask, date(2026, 11, 27).at(18, 43, 0, 0));
    let left = tasks_of("boat-hut", &now).rest(&log);
    let table = Timetable::of(&left, &now, 5).unwrap();
    assert_eq!(table.trouble, None);
    let running: BTreeSet<&str> = left.running.iter().map(|own| own.task.id.as_str()).collect();
    let baked = |entry: &&Entry| entry.kind == TaskKind::Bake;
    for entry in table.entries.iter().filter(|e| !running.contains(e.id.as_str()) && !baked(e)) {
        let odd = entry.spans.iter().find(|(from, to)| from.minute() % 5 != 0 || to.minute() % 5 != 0);
        assert_eq!(odd, None, "{}", entry.name);
    }
    // The oven is told to the minute all the same: in for as long as it takes, and out at once.
    let mut odd = 0;
    for bake in table.entries.iter().filter(baked) {
        let task = &left.tasks[left.find(&bake.id).unwrap()];
        assert!(bake.line().contains(&format!(", {:.0} min (", task.usual)), "{}", bake.line());
        assert_eq!(bake.minutes(), task.usual.round() as i64, "{}", bake.line());
        let out = table.entry(&bake.id.replace("bake/", "trim/")).unwrap();
        assert_eq!((bake.to(), out.from().minute() % 5), (out.from(), 0), "{}", out.line());
        odd += bake.from().minute() % 5;
    }
    assert!(odd > 0, "nothing takes an odd time");
}

/// Who cuts, bakes and trims in one go and ticks it all off afterwards has nothing in the freezer any more.
#[test]
fn a_wait_is_over_when_what_follows_it_is_done() {
    let ask = ask();
    let all = tasks_of("boat-hut", &ask);
    let table = Timetable::of(&all, &ask, 5).unwrap();
    let trim = table.entries.iter().find(|entry| entry.kind == TaskKind::Trim).unwrap();
    let key = trim.id.strip_prefix("trim/").unwrap();
    let now = trim.to() + 3.minutes();
    let mut log = followed(&all, &table, trim.from() - 1.hour());
    for kind in ["cut", "trim"] {
        log.done(&all.tasks[all.find(&format!("{kind}/{key}")).unwrap()], now, None, Some(0));
    }
    let left = tasks_of("boat-hut", &later(&ask, now)).rest(&log);
    let running: Vec<&str> = left.running.iter().map(|own| own.task.id.as_str()).collect();
    let there =
        |kind: &str| left.find(&format!("{kind}/{key}")).is_some() || running.contains(&&*format!("{kind}/{key}"));
    assert_eq!(["firm", "bake", "cool"].map(there), [false, false, true], "{running:?}");
    schedule_is_sound(&left);
}

/// What comes too late has hours to be done in all the same, so that it can be said when it would stand.
#[test]
fn a_late_house_is_told_when_it_would_stand() {
    let house = built("boat-hut");
    let (lots, kitchen) = (Lots::one(house.about(), 1), Kitchen::default());
    let notebook = Notebook { people: vec![Person::read("Ida: daily 18:00-21:00").unwrap()], ..Notebook::default() };
    let plan = BakePlan::of(&lots, &kitchen, &notebook);
    let (now, by) = (date(2026, 12, 1).at(12, 0, 0, 0), date(2026, 12, 3).at(15, 0, 0, 0));
    let build = Build { ready_by: Some(by), ..Build::new("Boat hut") };
    let work = build.work(&lots, &plan, (&notebook, &kitchen), now).unwrap();
    let table = Timetable::of(&work.left, &work.ask, 3).unwrap();
    let misfit = table.trouble.as_ref().unwrap();
    assert_eq!(misfit.without, 0, "everything finds a time afterwards");
    let stands = table.stands.unwrap();
    assert!(stands > by && stands < by + 14.days(), "{stands}");
    assert!(misfit.helps.iter().any(|help| help.words.starts_with("let it stand ")), "{:?}", table.verdict());
}

/// The same day for all: a plan is the same every time.
#[test]
fn timetables_are_the_same_every_time() {
    let ask = ask();
    let table = || Timetable::of(&tasks_of("lookout", &ask), &ask, ROUNDS).unwrap();
    assert_eq!(table(), table());
}
