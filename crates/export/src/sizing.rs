//! The size that a house should have: what a person has, the factor that follows from it, and what a size means.

use crate::{PackError, PackOptions, Paper, PaperError, Section, Sections, board_size, pack};
use gable_bake::{About, Figures, Mass, Needs};
use gable_measure::{Length, ReadError, Severity, Unit};
use gable_shell::kitchen::Tray;
use gable_shell::{FACTORS, House, Resizing, Solved, resized, solve};
use gable_words::tr;
use thiserror::Error;

/// How exactly the largest size that fits is found, as a share of it.
const EXACT: f64 = 1e-4;
/// Sizes tried for the smallest sound one, as shares of the house as it is.
const STEPS: [f64; 16] = [1.0, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55, 0.5, 0.45, 0.4, 0.35, 0.3, 0.25];

/// How large a house should be.
#[derive(Clone, Debug, PartialEq)]
pub enum Wanted {
    /// So much of what it is.
    Share(f64),
    /// Until the longer side of the whole, roof included, is so long.
    Length(Length),
    /// The largest of which every piece lies on a tray.
    Tray(Tray),
    /// The largest of which every piece is on one sheet of paper, within its usual margins.
    Paper(Paper),
    /// The largest that stands on a board, with what stands beside it and a rim.
    Board(Tray),
    /// The largest that so much raw dough is enough for, trimmings included.
    Dough(Mass),
}

/// Why a size cannot be had.
#[derive(Debug, Error)]
pub enum SizeError {
    /// No share.
    #[error("{}", tr!("give a share such as 75% or 1.5, from {least} to {most}", least = percent(*FACTORS.start()), most = percent(*FACTORS.end())))]
    Share,
    /// Not two sides.
    #[error("{}", tr!("give two sides, such as 430x350 or '16 1/2 in x 11 1/2 in'"))]
    Sides,
    /// No side of a tray or board.
    #[error("{0}")]
    Side(String),
    /// No length.
    #[error("{0}")]
    Length(#[from] ReadError),
    /// No paper.
    #[error("{0}")]
    Paper(#[from] PaperError),
    /// Nothing fits on this paper.
    #[error("{0}")]
    Room(#[from] PackError),
    /// No mass.
    #[error("{}", tr!("give a mass such as 1kg, 800g, 2lb or 24oz"))]
    Mass,
    /// No size does.
    #[error("{}", tr!("no sound house is so small"))]
    TooSmall,
    /// The size is out of reach.
    #[error("{}", tr!("{} is too much at once: {} to {} are possible", percent(*.0), percent(*FACTORS.start()), percent(*FACTORS.end())))]
    TooMuch(f64),
}

impl Wanted {
    /// Reads a share such as 75%, 0.75 or 3/4.
    ///
    /// # Errors
    /// When it is none, or none that a house can be resized by.
    pub fn share(text: &str) -> Result<Self, SizeError> {
        let (number, hundredths) = text.trim().strip_suffix('%').map_or((text.trim(), 1.0), |t| (t.trim(), 100.0));
        let number = match number.split_once('/') {
            Some((a, b)) => a.trim().parse::<f64>().ok().zip(b.trim().parse::<f64>().ok()).map(|(a, b)| a / b),
            None => number.replace(',', ".").parse().ok(),
        };
        number.map(|n| n / hundredths).filter(|n| FACTORS.contains(n)).map(Self::Share).ok_or(SizeError::Share)
    }

    /// Reads a length of the longer side.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn length(text: &str, unit: Unit) -> Result<Self, SizeError> {
        Ok(Self::Length(gable_measure::read_length(text, unit)?))
    }

    /// Reads a tray such as 430x350.
    ///
    /// # Errors
    /// When there are not two sides, or one is no side of a tray.
    pub fn tray(text: &str, unit: Unit) -> Result<Self, SizeError> {
        flat(text, unit).map(Self::Tray)
    }

    /// Reads a board such as 400x300.
    ///
    /// # Errors
    /// As of trays.
    pub fn board(text: &str, unit: Unit) -> Result<Self, SizeError> {
        flat(text, unit).map(Self::Board)
    }

    /// Reads the name or size of a paper.
    ///
    /// # Errors
    /// When there is no such paper.
    pub fn paper(text: &str, unit: Unit) -> Result<Self, SizeError> {
        Ok(Self::Paper(Paper::read(text, unit)?))
    }

    /// Reads a mass of dough such as 1kg or '2 lb'.
    ///
    /// # Errors
    /// When it is none.
    pub fn dough(text: &str) -> Result<Self, SizeError> {
        let text = text.trim().to_lowercase();
        // 'kg' before 'g'.
        let units = [("kg", Mass::grams(1000.0)), ("g", Mass::grams(1.0)), ("lb", Mass::POUND), ("oz", Mass::OUNCE)];
        let read = units.into_iter().find_map(|(word, one)| {
            let number: f64 = text.strip_suffix(word)?.trim().replace(',', ".").parse().ok()?;
            (number.is_finite() && number > 0.0).then(|| one * number)
        });
        read.map(Self::Dough).ok_or(SizeError::Mass)
    }

    /// The factor that gives a house the size that is wanted: exact as a share, else as near as makes no difference.
    ///
    /// # Errors
    /// When no sound house is so small, or the factor is out of reach.
    pub fn factor(&self, house: &House, rules: Resizing) -> Result<f64, SizeError> {
        let on = |fits: &dyn Fn(&House, &Solved) -> bool| {
            let found = largest(|f| {
                let house = resized(house, f, rules);
                let solved = solve(&house);
                solved.blocking().next().is_none() && fits(&house, &solved)
            });
            found.ok_or(SizeError::TooSmall)
        };
        let lie_in = |tray: &Tray, solved: &Solved| {
            solved.pieces.iter().all(|p| tray.holds(&p.outline) && tray.holds(&p.outline_back))
        };
        let factor = match self {
            Self::Share(share) => *share,
            Self::Length(length) => on(&|_, solved| longest(solved).is_some_and(|l| l <= *length))?,
            Self::Tray(tray) => on(&|_, solved| lie_in(tray, solved))?,
            Self::Paper(paper) => {
                let options = PackOptions { paper: *paper, ..PackOptions::default() };
                let (width, depth) = options.room()?;
                let page = Tray { name: String::new(), width, depth };
                on(&|_, solved| lie_in(&page, solved))?
            }
            Self::Board(board) => {
                let (long, short) = (board.width.max(board.depth), board.width.min(board.depth));
                let stands = |w: Length, d: Length| w.max(d) <= long && w.min(d) <= short;
                on(&|house, solved| board_size(house, solved).is_some_and(|(w, d)| stands(w, d)))?
            }
            Self::Dough(mass) => on(&|house, solved| dough(house, solved) <= *mass)?,
        };
        if FACTORS.contains(&factor) { Ok(factor) } else { Err(SizeError::TooMuch(factor)) }
    }
}

/// Reads something flat such as 430x350 or '16 1/2 in x 11 1/2 in'.
///
/// # Errors
/// When there are not two sides, or one is no side of a tray.
pub fn flat(text: &str, unit: Unit) -> Result<Tray, SizeError> {
    let (width, depth) = text.split_once(['x', 'X', '×']).ok_or(SizeError::Sides)?;
    let side = |text: &str| {
        let length = gable_measure::read_length(text.trim(), unit)?;
        if (Tray::SMALLEST..=Tray::LARGEST).contains(&length) {
            return Ok(length);
        }
        let [least, most] = [Tray::SMALLEST, Tray::LARGEST].map(|l| unit.print(l));
        let words = format!("{} is no side of a tray or board: give {least} to {most}", unit.print(length));
        Err(SizeError::Side(words))
    };
    Ok(Tray { name: text.to_owned(), width: side(width)?, depth: side(depth)? })
}

/// The raw dough that a house takes, with what is trimmed off and not rolled again.
fn dough(house: &House, solved: &Solved) -> Mass {
    let dressed = gable_dress::dress(house, solved);
    let about = About { house, solved, dressed: &dressed, guide: None, board: None };
    Needs::of(&about, &Figures::default()).dough.to_make
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

/// What a size means.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// Over the house as it is.
    pub factor: f64,
    /// Width, depth and height over all, roof included; nothing if it cannot be built.
    pub overall: Option<[Length; 3]>,
    /// How many pieces it has.
    pub pieces: usize,
    /// Pages of patterns on A4; nothing if they cannot be made.
    pub pages: Option<usize>,
    /// Raw dough that it takes.
    pub dough: Mass,
    /// How much has to be put right first, and how much to be minded.
    pub findings: [usize; 2],
}

impl Size {
    /// What a house at its own size means; `factor` is only noted.
    pub fn of(house: &House, factor: f64) -> Self {
        let solved = solve(house);
        let dressed = gable_dress::dress(house, &solved);
        let count = |s: Severity| solved.findings.iter().chain(&dressed.findings).filter(|f| f.severity == s).count();
        let patterns = PackOptions { sections: Sections::only(&[Section::Patterns]), ..PackOptions::default() };
        Self {
            factor,
            overall: overall(&solved),
            pieces: solved.pieces.len(),
            pages: pack(&solved, house, &patterns).ok().map(|p| p.len()),
            dough: dough(house, &solved),
            findings: [count(Severity::Blocking), count(Severity::Caution)],
        }
    }

    /// '210 × 180 × 160 mm'.
    pub fn overall_words(&self, unit: Unit) -> String {
        match self.overall {
            Some([w, d, h]) => format!("{} × {} × {}", unit.print_bare(w), unit.print_bare(d), unit.print(h)),
            None => "cannot be built".to_owned(),
        }
    }

    /// 'nothing to mind', '2 to mind', '1 to put right first'.
    pub fn findings_words(&self) -> String {
        match self.findings {
            [0, 0] => tr!("nothing to mind").to_owned(),
            [0, n] => tr!("{n} to mind"),
            [n, _] => tr!("{n} to put right first"),
        }
    }

    /// '75 %: 210 × 180 × 160 mm, 54 pieces, 14 pages of patterns (A4), 1.2 kg of dough, nothing to mind'.
    pub fn line(&self, unit: Unit) -> String {
        let pages =
            self.pages.map_or(String::new(), |n| tr!(", 1 page of patterns (A4)" | ", {n} pages of patterns (A4)" % n));
        let (size, dough, findings) = (self.overall_words(unit), self.dough.print(unit), self.findings_words());
        let pieces = tr!("1 piece" | "{n} pieces" % self.pieces);
        format!("{:>6}: {size}, {pieces}{pages}, {dough} of dough, {findings}", percent(self.factor))
    }
}

/// The smallest of a few sizes whose findings are all found in the house as it is, by kind.
pub fn smallest_sound(house: &House, rules: Resizing) -> Option<f64> {
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

/// '75 %'.
pub fn percent(factor: f64) -> String {
    format!("{} %", (factor * 1000.0).round() / 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_bake::{Figure, ToBake};

    #[test]
    fn shares_are_read_or_refused() {
        for (text, wanted) in [("75%", 0.75), ("1.5", 1.5), ("3/4", 0.75), ("66,6 %", 0.666)] {
            assert!(matches!(Wanted::share(text), Ok(Wanted::Share(f)) if (f - wanted).abs() < 1e-12), "{text}");
        }
        for wrong in ["", "-1", "0", "x", "1/0", "NaN"] {
            assert!(Wanted::share(wrong).is_err(), "{wrong}");
        }
    }

    /// The pound and the ounce: NIST Handbook 44, appendix C.
    #[test]
    fn masses_are_read_or_refused() {
        for (text, grams) in
            [("1kg", 1000.0), ("1,5 KG", 1500.0), ("800 g", 800.0), ("2 lb", 907.184_74), ("8oz", 226.796_185)]
        {
            assert!(matches!(Wanted::dough(text), Ok(Wanted::Dough(m)) if (m.g() - grams).abs() < 1e-6), "{text}");
        }
        for wrong in ["", "1", "kg", "-1kg", "0 g", "NaN kg", "1e999 kg", "a cup"] {
            assert!(Wanted::dough(wrong).is_err(), "{wrong}");
        }
    }

    /// The boat hut as long as asked, no piece too long for its tray, and enough dough but not much left.
    #[test]
    fn sizes_are_found() {
        let house = gable_shell::demo::house("boat-hut").unwrap();
        let rules = Resizing::default();
        let factor = Wanted::Length(Length::mm_of(200.0)).factor(&house, rules).unwrap();
        let got = longest(&solve(&resized(&house, factor, rules))).unwrap();
        assert!((got.mm() - 200.0).abs() < 0.1, "{got:?}");
        let factor = Wanted::tray("200x150", Unit::Millimetre).unwrap().factor(&house, rules).unwrap();
        let fits = |f: f64| {
            let tray = Tray { name: String::new(), width: Length::mm_of(200.0), depth: Length::mm_of(150.0) };
            solve(&resized(&house, f, rules)).pieces.iter().all(|p| tray.holds(&p.outline))
        };
        assert!(fits(factor) && !fits(factor * 1.002), "{factor}");
        assert!(matches!(Wanted::Length(Length::mm_of(1e6)).factor(&house, rules), Ok(_) | Err(SizeError::TooMuch(_))));
        assert!(matches!(Wanted::Length(Length::mm_of(1.0)).factor(&house, rules), Err(SizeError::TooSmall)));
    }

    /// Dough by hand: area times rolled thickness times 1.25 g/cm³ (facts/food.md 2.1), and what is not rolled again.
    #[test]
    fn a_kilogram_of_dough_is_used_up() {
        let house = gable_shell::demo::house("boat-hut").unwrap();
        let rules = Resizing::default();
        let factor = Wanted::dough("1kg").unwrap().factor(&house, rules).unwrap();
        let net = |f: f64| {
            let house = resized(&house, f, rules);
            let solved = solve(&house);
            let dressed = gable_dress::dress(&house, &solved);
            let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
            ToBake::all(&about).iter().map(|one| one.area * one.rolled.mm() * 1.25 / 1000.0).sum::<f64>()
        };
        let trim = Figures::default().get(Figure::DoughTrim);
        assert!((0.0..0.5).contains(&trim), "{trim}");
        let made = net(factor) * (1.0 + trim);
        assert!(made <= 1000.0 + 1e-6 && made > 999.0, "{made} g");
    }
}
