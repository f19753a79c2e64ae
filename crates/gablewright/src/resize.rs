use crate::args::ResizeArgs;
use crate::check::flat;
use crate::failure::Failure;
use crate::house;
use gable_export::{Margins, PackOptions, Paper, Section, Sections, board_size, pack, save};
use gable_measure::{Length, Severity, Unit};
use gable_shell::kitchen::Tray;
use gable_shell::{FACTORS, House, Resizing, Solved, resized, solve};
use std::io::Write;

/// How exactly the largest size that fits is found, as a share of it.
const EXACT: f64 = 1e-4;
/// Sizes tried for the smallest sound one, as shares of the house as it is.
const STEPS: [f64; 16] = [1.0, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55, 0.5, 0.45, 0.4, 0.35, 0.3, 0.25];

/// Resizes a house, compares it with what it was, and writes it if that is asked for.
pub(crate) fn run(args: &ResizeArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let house = house::load(&args.house)?;
    let rules = Resizing { keeps_openings: args.keep_openings, keeps_ornaments: !args.scale_ornaments };
    let factors = factors(args, &house, rules)?;
    let mut sizes = vec![Size::of(&house, 1.0)];
    sizes.extend(factors.iter().map(|&f| Size::of(&resized(&house, f, rules), f)));
    for size in &sizes {
        writeln!(out, "{}", size.line(house.unit))?;
    }
    if let Some(least) = smallest_sound(&house, rules) {
        writeln!(out, "smallest size without findings that the house does not have now: {}", percent(least))?;
    }
    let Some(path) = &args.to else { return Ok(()) };
    let [factor] = factors.as_slice() else {
        return Err(Failure::Usage("--to: one house is written, so give one size".into()));
    };
    let opened = house;
    let mut house = resized(&opened, *factor, rules);
    house.keep_credit(&opened, &opened, &args.drawn_by);
    save(path, gable_shell::file::write(&house).as_bytes()).map_err(|e| Failure::Usage(e.to_string()))?;
    writeln!(out, "{}", path.display())?;
    Ok(())
}

fn factors(args: &ResizeArgs, house: &House, rules: Resizing) -> Result<Vec<f64>, Failure> {
    let found = if let Some(text) = &args.to_length {
        let length = gable_measure::read_length(text, house.unit)
            .map_err(|e| Failure::Usage(format!("--to-length {text}: {e}")))?;
        vec![to_length(house, length, rules)?]
    } else if let Some(text) = &args.fit {
        vec![to_fit(text, house, rules)?]
    } else {
        args.by.iter().map(|text| share("by", text)).collect::<Result<_, _>>()?
    };
    if found.is_empty() {
        return Err(Failure::Usage("give a size: --by 75%, --to-length 400mm, or --fit tray=430x350".into()));
    }
    match found.iter().find(|f| !FACTORS.contains(f)) {
        Some(f) => Err(Failure::Usage(format!(
            "{} is too much at once: {} to {} are possible",
            percent(*f),
            percent(*FACTORS.start()),
            percent(*FACTORS.end())
        ))),
        None => Ok(found),
    }
}

/// Reads 75%, 0.75 or 3/4 of an option.
pub(crate) fn share(option: &str, text: &str) -> Result<f64, Failure> {
    let wrong = || {
        let (low, high) = (percent(*FACTORS.start()), percent(*FACTORS.end()));
        Failure::Usage(format!("--{option} {text}: give a share such as 75% or 1.5, from {low} to {high}"))
    };
    let (number, hundredths) = text.trim().strip_suffix('%').map_or((text.trim(), 1.0), |t| (t.trim(), 100.0));
    let number = match number.split_once('/') {
        Some((a, b)) => a.trim().parse::<f64>().ok().zip(b.trim().parse::<f64>().ok()).map(|(a, b)| a / b),
        None => number.replace(',', ".").parse().ok(),
    };
    number.map(|n| n / hundredths).filter(|n| FACTORS.contains(n)).ok_or_else(wrong)
}

/// The larger of width and depth over all; nothing for a house that cannot be built.
fn longest(solved: &Solved) -> Option<Length> {
    let [width, depth, _] = overall(solved)?;
    Some(width.max(depth))
}

/// Width, depth and height over all; nothing for a house that cannot be built.
fn overall(solved: &Solved) -> Option<[Length; 3]> {
    solved.overall().filter(|_| solved.blocking().next().is_none())
}

/// The largest factor for which something holds that holds for small ones.
fn largest(holds: impl Fn(f64) -> bool) -> Option<f64> {
    let (mut low, mut high) = (*FACTORS.start(), *FACTORS.end());
    // From full size outwards, so that houses too small to be built are not asked.
    let mut trial = 1.0;
    if holds(trial) {
        while trial < high && holds(trial * 1.5) {
            trial *= 1.5;
        }
        (low, high) = (trial, (trial * 1.5).min(high));
    } else {
        while trial > low && !holds(trial / 1.5) {
            trial /= 1.5;
        }
        (low, high) = ((trial / 1.5).max(low), trial);
        if !holds(low) {
            return None;
        }
    }
    while high / low > 1.0 + EXACT {
        let middle = (low * high).sqrt();
        if holds(middle) { low = middle } else { high = middle }
    }
    Some(low)
}

fn to_length(house: &House, length: Length, rules: Resizing) -> Result<f64, Failure> {
    let holds = |f: f64| longest(&solve(&resized(house, f, rules))).is_some_and(|l| l <= length);
    largest(holds).ok_or_else(|| Failure::Usage(format!("no sound house is as short as {}", house.unit.print(length))))
}

/// Reads what the house has to fit, and finds the largest size that does.
fn to_fit(text: &str, house: &House, rules: Resizing) -> Result<f64, Failure> {
    let wrong = |why: &str| Failure::Usage(format!("--fit {text}: {why}"));
    let (what, size) = text.split_once('=').ok_or_else(|| wrong("give tray=430x350, paper=a4 or board=400x300"))?;
    let lies_in = |tray: &Tray, solved: &Solved| {
        solved.pieces.iter().all(|p| tray.holds(&p.outline) && tray.holds(&p.outline_back))
    };
    let on = |fits: &dyn Fn(&House, &Solved) -> bool| {
        largest(|f| {
            let house = resized(house, f, rules);
            let solved = solve(&house);
            solved.blocking().next().is_none() && fits(&house, &solved)
        })
    };
    let found = match what {
        "tray" => {
            let tray = flat(&format!("--fit {what}="), size, house.unit)?;
            on(&|_, solved| lies_in(&tray, solved))
        }
        "paper" => {
            let paper = Paper::read(size, house.unit).map_err(|e| wrong(&e.to_string()))?;
            let options = PackOptions { paper, margins: Margins::default(), ..PackOptions::default() };
            let (width, depth) = options.room().map_err(|e| wrong(&e.to_string()))?;
            let page = Tray { name: String::new(), width, depth };
            on(&|_, solved| lies_in(&page, solved))
        }
        "board" => {
            let board = flat(&format!("--fit {what}="), size, house.unit)?;
            let (long, short) = (board.width.max(board.depth), board.width.min(board.depth));
            on(&|house, solved| board_size(house, solved).is_some_and(|(w, d)| w.max(d) <= long && w.min(d) <= short))
        }
        _ => return Err(wrong("give tray=430x350, paper=a4 or board=400x300")),
    };
    found.ok_or_else(|| wrong("no sound house is so small"))
}

/// What a size means.
struct Size {
    factor: f64,
    overall: Option<[Length; 3]>,
    pieces: usize,
    pages: Option<usize>,
    findings: [usize; 2],
}

impl Size {
    fn of(house: &House, factor: f64) -> Self {
        let solved = solve(house);
        let dressed = gable_dress::dress(house, &solved);
        let count = |s: Severity| solved.findings.iter().chain(&dressed.findings).filter(|f| f.severity == s).count();
        let patterns = PackOptions { sections: Sections::only(&[Section::Patterns]), ..PackOptions::default() };
        Self {
            factor,
            overall: overall(&solved),
            pieces: solved.pieces.len(),
            pages: pack(&solved, house, &patterns).ok().map(|p| p.len()),
            findings: [count(Severity::Blocking), count(Severity::Caution)],
        }
    }

    /// '75 %: 210 × 180 × 160 mm, 54 pieces, 14 pages of patterns (A4), nothing to mind'.
    fn line(&self, unit: Unit) -> String {
        let size = match self.overall {
            Some([w, d, h]) => {
                format!("{} × {} × {}", unit.print_bare(w), unit.print_bare(d), unit.print(h))
            }
            None => "cannot be built".to_owned(),
        };
        let pages = self.pages.map_or(String::new(), |n| format!(", {n} pages of patterns (A4)"));
        let findings = match self.findings {
            [0, 0] => "nothing to mind".to_owned(),
            [0, n] => format!("{n} to mind"),
            [n, _] => format!("{n} to put right first"),
        };
        format!("{:>6}: {size}, {} pieces{pages}, {findings}", percent(self.factor), self.pieces)
    }
}

/// The smallest of a few sizes whose findings are all found in the house as it is, by kind.
fn smallest_sound(house: &House, rules: Resizing) -> Option<f64> {
    let minded = |house: &House| {
        let solved = solve(house);
        let mut kinds: Vec<&'static str> =
            solved.findings.iter().filter(|f| f.severity != Severity::Note).map(|f| f.kind).collect();
        kinds.sort_unstable();
        kinds
    };
    let now = minded(house);
    let sound = |f: &&f64| {
        let mut left = now.clone();
        minded(&resized(house, **f, rules))
            .into_iter()
            .all(|kind| left.iter().position(|k| *k == kind).map(|at| left.swap_remove(at)).is_some())
    };
    STEPS.iter().take_while(sound).last().copied()
}

fn percent(factor: f64) -> String {
    format!("{} %", (factor * 1000.0).round() / 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_read_or_refused() {
        for (text, wanted) in [("75%", 0.75), ("1.5", 1.5), ("3/4", 0.75), ("66,6 %", 0.666)] {
            assert!((share("by", text).unwrap() - wanted).abs() < 1e-12, "{text}");
        }
        for wrong in ["", "-1", "0", "x", "1/0", "NaN"] {
            assert!(share("by", wrong).is_err(), "{wrong}");
        }
    }

    /// The boat hut as long as asked, and no piece too long for its tray.
    #[test]
    fn sizes_are_found() {
        let house = gable_shell::demo::house("boat-hut").unwrap();
        let rules = Resizing::default();
        let factor = to_length(&house, Length::mm_of(200.0), rules).unwrap();
        let got = longest(&solve(&resized(&house, factor, rules))).unwrap();
        assert!((got.mm() - 200.0).abs() < 0.1, "{got:?}");
        let factor = to_fit("tray=200x150", &house, rules).unwrap();
        let fits = |f: f64| {
            let tray = Tray { name: String::new(), width: Length::mm_of(200.0), depth: Length::mm_of(150.0) };
            solve(&resized(&house, f, rules)).pieces.iter().all(|p| tray.holds(&p.outline))
        };
        assert!(fits(factor) && !fits(factor * 1.002), "{factor}");
    }
}
