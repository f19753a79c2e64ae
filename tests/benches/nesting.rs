//! How densely pieces are packed: irregular bins with a known optimum, and our own pieces on a strip.
//!
//! `GABLE_STRIP=FILE GABLE_SECONDS=60 cargo bench -p gable-tests --bench nesting` packs the biscuit of the pilot house on a
//! strip of rolled dough for 60 seconds of the processor, and writes its outlines for `tests/python/strips.py`, which gives them to an independent search.
//! With `GABLE_PIECES=FOLDER/TA001.txt` it packs those of a published instance on a strip as high as its sheet.
//!
//! `GABLE_NESTING=FOLDER cargo bench -p gable-tests --bench nesting` reads instances of the ESICUP datasets (CC0-1.0;
//! Terashima-Marin, Lopez-Camacho and others): count, width and height of the sheet, then per piece the number of corners
//! and their x and y. Optimal numbers of sheets are those of the datasets' own solutions (sheets without any waste).

#![expect(clippy::print_stdout, reason = "a bench reports what it measured")]

use cpu_time::ProcessTime;
use gable_measure::Length;
use gable_nest::{Item, Job, Search, Sheet, Strip, Turns};
use gable_plane::P2;
use std::path::Path;
use std::time::Duration;

/// Instance and the fewest sheets.
const INSTANCES: [(&str, usize); 9] = [
    ("TA001", 3),
    ("TC001", 6),
    ("TF001", 2),
    ("TM001", 5),
    ("TO001", 7),
    ("TR001", 9),
    ("TA001C5", 3),
    ("TM001C5", 5),
    ("TV001C5", 5),
];

fn read(path: &Path) -> Option<(Vec<Item>, Sheet)> {
    let text = std::fs::read_to_string(path).ok()?;
    let mut numbers = text.split_whitespace().filter_map(|word| word.parse::<f64>().ok());
    let count = numbers.next()? as usize;
    let sheet = Sheet::rectangle(Length::mm_of(numbers.next()?), Length::mm_of(numbers.next()?));
    let mut item = || {
        let corners = numbers.next()? as usize;
        let outline = (0..corners).map(|_| Some(P2::new(numbers.next()?, numbers.next()?))).collect::<Option<_>>()?;
        Some(Item::new(outline, Turns::None))
    };
    let items = (0..count).map(|_| item()).collect::<Option<_>>()?;
    Some((items, sheet))
}

fn run(folder: &Path, name: &str, best: usize, seconds: u64) -> Option<()> {
    let (items, sheet) = read(&folder.join(format!("{name}.txt")))?;
    let job = Job::new(items, vec![sheet], Length::ZERO).ok()?;
    let begin = ProcessTime::now();
    let mut search = Search::new(job, 1);
    let (at_once, first) = (begin.elapsed(), search.best().sheets.len());
    while !search.is_least() && begin.elapsed() < Duration::from_secs(seconds) {
        search.improve(1);
    }
    let faults = search.best().faults(search.job()).len();
    let found = search.best().sheets.len();
    println!(
        "{name}: at once {first} in {at_once:.0?}, after {:.1?} {found}, optimum {best}, faults {faults}",
        begin.elapsed()
    );
    Some(())
}

/// Height of the strip of dough, mm.
const HEIGHT: f64 = 400.0;

/// Outlines of the pieces of the pilot house, each as often as it is cut, and the height of the strip.
fn biscuit() -> Option<(Vec<Vec<P2>>, f64)> {
    let solved = gable_shell::solve(&gable_shell::demo::house("pilot-house")?);
    Some((solved.pieces.into_iter().map(|p| p.outline).collect(), HEIGHT))
}

/// The same of a published instance.
fn published(file: &Path) -> Option<(Vec<Vec<P2>>, f64)> {
    let (items, sheet) = read(file)?;
    let (low, high) = gable_plane::bounds(&sheet.outline)?;
    Some((items.iter().map(|i| i.outline().to_vec()).collect(), high.y - low.y))
}

/// Packs pieces, turned end for end at most, on a strip.
fn strip(file: &Path, (outlines, height): (Vec<Vec<P2>>, f64), seconds: u64) -> Option<()> {
    let corners = |i: &Vec<P2>| i.iter().map(|p| format!(" {:.6} {:.6}", p.x, p.y)).collect::<String>();
    let lines = outlines.iter().map(|i| format!("{}{}\n", i.len(), corners(i))).collect::<String>();
    std::fs::write(file, format!("{} {height}\n{lines}", outlines.len())).ok()?;
    let area: f64 = outlines.iter().map(|i| gable_plane::ring_area(i).abs()).sum();
    let count = outlines.len();
    let items = outlines.into_iter().map(|outline| Item::new(outline, Turns::Half)).collect();
    let begin = ProcessTime::now();
    let mut strip = Strip::new(items, Length::mm_of(height), Length::ZERO, 1).ok()?;
    let said = |strip: &Strip| {
        format!("{:.1} mm, {:.2} %", strip.length().mm(), 100.0 * area / (height * strip.length().mm()))
    };
    println!("{count} pieces, at once ({:.0?}): {}", begin.elapsed(), said(&strip));
    while begin.elapsed() < Duration::from_secs(seconds) {
        if strip.improve(1) && std::env::var_os("GABLE_TRACE").is_some() {
            println!("{:.1?}: {}", begin.elapsed(), said(&strip));
        }
    }
    let faults = strip.best().faults(strip.job()).len();
    println!("{count} pieces, {:.0?}: {}, faults {faults}", begin.elapsed(), said(&strip));
    Some(())
}

fn main() {
    let seconds = std::env::var("GABLE_SECONDS").ok().and_then(|s| s.parse().ok()).unwrap_or(30);
    if let Some(file) = std::env::var_os("GABLE_STRIP") {
        let pieces = std::env::var_os("GABLE_PIECES").map_or_else(biscuit, |from| published(Path::new(&from)));
        if pieces.and_then(|pieces| strip(Path::new(&file), pieces, seconds)).is_none() {
            println!("the strip cannot be packed");
        }
        return;
    }
    let Some(folder) = std::env::var_os("GABLE_NESTING") else {
        println!("set GABLE_NESTING to the folder with the instances, or GABLE_STRIP to a file to write");
        return;
    };
    for (name, best) in INSTANCES {
        if run(Path::new(&folder), name, best, seconds).is_none() {
            println!("{name}: cannot be read");
        }
    }
}
