//! The program is killed at any moment while somebody edits and saves: the file is whole, and what the next window offers
//! lacks the last two seconds at most.
//!
//! The editor that is killed is a process of its own: this very test, told by variables what to do. `GABLE_KILLS=200` for
//! as many moments as are wanted.

#![cfg(unix)]
#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_editor::{Editor, Start};
use gable_shell::file;
use kitchen::{plain, press, shown, type_into, width};
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// Says to the process that is killed where it works.
const PLACE: &str = "GABLE_KILLED_IN";
/// The most that may be lost.
const LOST: Duration = Duration::from_secs(2);
/// How long a window works at most: long enough that more than that could be lost.
const LIVES: Duration = Duration::from_millis(4500);
/// How many windows work at once.
const AT_ONCE: usize = 8;

fn now() -> Duration {
    SystemTime::now().duration_since(UNIX_EPOCH).unwrap()
}

/// Edits and saves until it is killed; each change is written down once the window has it.
#[test]
fn edits_until_it_is_killed() {
    let Some(place) = std::env::var_os(PLACE).map(PathBuf::from) else { return };
    let file = place.join("hut.house.json");
    let start = if file.exists() { Start::File(file) } else { Start::House(Box::new(plain())) };
    let ctx = egui::Context::default();
    let editor = Editor::beside(&ctx, start).unwrap().keeping_in(&place.join("windows"));
    let mut kitchen = shown(editor, egui::vec2(1440.0, 1100.0));
    let mut log = OpenOptions::new().append(true).create(true).open(place.join("log")).unwrap();
    for number in 1_u32.. {
        // Never as it was at first, or there would be nothing to keep.
        let wide = 100.05 + f64::from(number % 1000) * 0.1;
        type_into(&mut kitchen, "Width", &format!("{wide}"));
        log.write_all(format!("{} {wide}\n", now().as_millis()).as_bytes()).unwrap();
        // Saved now and then, so that both the file and the copy are the newest in turn.
        if number % 40 == 0 && kitchen.state().path().is_some() {
            kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
            kitchen.run();
        }
    }
}

/// A window that works in a folder of its own, with a file to save to or without.
struct Victim {
    place: tempfile::TempDir,
    child: Child,
    /// How long it lives after the first change.
    dies: Duration,
}

impl Victim {
    fn new(dies: Duration, with_file: bool) -> Self {
        let place = tempfile::tempdir().unwrap();
        if with_file {
            fs::write(place.path().join("hut.house.json"), file::write(&plain())).unwrap();
        }
        let mut command = Command::new(std::env::current_exe().unwrap());
        command.args(["--exact", "edits_until_it_is_killed", "--nocapture"]).env(PLACE, place.path());
        let child = command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        Self { place, child, dies }
    }

    /// Ends it as the system ends what takes too much memory; says when.
    fn kill(&mut self) -> Duration {
        let patience = now() + Duration::from_secs(120);
        while fs::metadata(self.place.path().join("log")).map_or(0, |m| m.len()) == 0 {
            assert!(now() < patience, "the window never began to work");
            assert!(self.child.try_wait().unwrap().is_none(), "the window ended by itself");
            sleep(Duration::from_millis(5));
        }
        sleep(self.dies);
        assert!(self.child.try_wait().unwrap().is_none(), "the window ended by itself");
        let at = now();
        self.child.kill().unwrap();
        self.child.wait().unwrap();
        at
    }
}

/// What was written down, in the order of the changes: when, and how wide the house then was.
fn changes(place: &Path) -> Vec<(Duration, f64)> {
    let log = fs::read_to_string(place.join("log")).unwrap();
    let whole = log.rsplit_once('\n').map_or("", |(lines, _)| lines);
    let read = |line: &str| {
        let (when, wide) = line.split_once(' ').unwrap();
        (Duration::from_millis(when.parse().unwrap()), wide.parse().unwrap())
    };
    whole.lines().map(read).collect()
}

/// Opens the next window, goes on with what it offers, and gives the width of that house.
fn rescued(place: &Path) -> f64 {
    let path = place.join("hut.house.json");
    if path.exists() {
        // Whole, whatever happened.
        file::parse(&fs::read_to_string(&path).unwrap()).unwrap();
    }
    let start = if path.exists() { Start::File(path) } else { Start::Choose };
    let mut next =
        shown(Editor::without_window(start).unwrap().keeping_in(&place.join("windows")), egui::vec2(1440.0, 1100.0));
    for offer in ["Go on with the changes", "Go on with it"] {
        if next.query_by_label(offer).is_some() {
            press(&mut next, offer);
        }
    }
    assert!(next.query_by_label_contains("cannot be read").is_none());
    if next.state().house().is_some() { width(&next) } else { 0.0 }
}

fn check(place: &Path, killed: Duration) {
    let changes = changes(place);
    let found = rescued(place);
    let needed = changes.iter().rposition(|(when, _)| *when + LOST < killed);
    // The change under way when it was killed may have been kept and not written down.
    let last = changes.last().map_or(0.0, |(_, wide)| *wide);
    let have = if (found - last - 0.1).abs() < 1e-6 {
        Some(changes.len())
    } else {
        changes.iter().rposition(|(_, wide)| (wide - found).abs() < 1e-6)
    };
    let late = changes.len() - have.map_or(0, |k| k + 1).min(changes.len());
    assert!(have >= needed, "{late} changes of {} were lost, found {found}, needed {needed:?}", changes.len());
}

#[test]
fn whenever_it_is_killed_two_seconds_are_lost_at_most() {
    let kills: usize = std::env::var("GABLE_KILLS").ok().and_then(|n| n.parse().ok()).unwrap_or(8);
    let mut random = fastrand::Rng::with_seed(7);
    for round in 0..kills.div_ceil(AT_ONCE) {
        let count = AT_ONCE.min(kills - round * AT_ONCE);
        // One in each part of the time, so that a few are as good as many.
        let mut dies = |k: usize| LIVES.mul_f64((k as f64 + random.f64()) / AT_ONCE as f64);
        let victims: Vec<Victim> = (0..count).map(|k| Victim::new(dies(k), (k + round) % 2 == 0)).collect();
        let ends: Vec<_> =
            victims.into_iter().map(|mut victim| std::thread::spawn(move || (victim.kill(), victim.place))).collect();
        for end in ends {
            let (killed, place) = end.join().unwrap();
            check(place.path(), killed);
        }
    }
}
