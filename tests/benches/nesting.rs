//! How densely pieces are packed: irregular bins with a known optimum, and our own pieces on a strip.
//!
//! `GABLE_STRIP=FILE GABLE_SECONDS=60 cargo bench -p gable-tests --bench nesting` packs the biscuit of the pilot house on a
//! strip of rolled dough for 60 seconds of the processor, and writes its outlines for `tests/python/strips.py`, which gives them to an independent search.
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
        Some(Item { outline, turns: Turns::None })
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

/// The pieces of the pilot house, each as often as it is cut, turned end for end at most.
fn strip(file: &Path, seconds: u64) -> Option<()> {
    let solved = gable_shell::solve(&gable_shell::demo::house("pilot-house")?);
    let item = |p: &gable_shell::Piece| Item { outline: p.outline.clone(), turns: Turns::Half };
    let items: Vec<Item> = solved.pieces.iter().map(item).collect();
    let corners = |i: &Item| i.outline.iter().map(|p| format!(" {:.6} {:.6}", p.x, p.y)).collect::<String>();
    let lines = items.iter().map(|i| format!("{}{}\n", i.outline.len(), corners(i))).collect::<String>();
    std::fs::write(file, format!("{} {HEIGHT}\n{lines}", items.len())).ok()?;
    let area: f64 = items.iter().map(|i| gable_plane::ring_area(&i.outline).abs()).sum();
    let count = items.len();
    let begin = ProcessTime::now();
    let mut strip = Strip::new(items, Length::mm_of(HEIGHT), Length::ZERO, 1).ok()?;
    let said = |strip: &Strip| {
        format!("{:.1} mm, {:.2} %", strip.length().mm(), 100.0 * area / (HEIGHT * strip.length().mm()))
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
        if strip(Path::new(&file), seconds).is_none() {
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
