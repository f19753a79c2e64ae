use gable_measure::{Length, Unit, read_length};
use gable_words::tr;
use std::fmt;
use thiserror::Error;

/// What the pack is printed on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    #[default]
    A4,
    /// 8 1/2 × 11 in, 215.9 × 279.4 mm (ASME Y14.1).
    Letter,
    /// The rectangle that both have, 210 × 279.4 mm.
    ///
    /// The page of the file has just this size. A viewer that prints without scaling puts such a page in the middle or
    /// in a corner of the paper; as it is nowhere larger than either paper, all of it lands on the sheet each time. A
    /// viewer that fits it to the paper cannot enlarge it on A4 (same width) or on Letter (same height).
    A4AndLetter,
    /// 297 × 420 mm (ISO 216).
    A3,
    /// 420 × 594 mm (ISO 216), for a copy shop.
    A2,
    /// 8 1/2 × 14 in, 215.9 × 355.6 mm.
    Legal,
    /// 11 × 17 in, 279.4 × 431.8 mm (ASME Y14.1).
    Tabloid,
    /// Any other.
    Custom {
        /// Of the upright page: the shorter side.
        width: Length,
        /// Of the upright page: the longer side.
        height: Length,
    },
    /// From a roll: pages as long as what is on them asks for.
    Roll {
        /// Of the roll.
        width: Length,
    },
}

/// Why a paper cannot be used.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum PaperError {
    /// It is no name and no size.
    #[error("{}", tr!("there is no paper of that name; give one of {names}, or a size such as 300x400 or '18 in x 24 in', or 'roll 610'",
        names = Paper::NAMES.map(|(name, _)| name).join(", ")))]
    Unknown,
    /// A side that cannot be read.
    #[error("{0}")]
    Length(String),
    /// A side that no paper has.
    #[error("{}", tr!("{side} is no side of a sheet of paper: give {least} to {most}"))]
    Side {
        /// What was given.
        side: String,
        /// The least, in the same unit.
        least: String,
        /// The most, in the same unit.
        most: String,
    },
}

impl Paper {
    /// Every paper with a name of its own.
    pub const ALL: [Self; 7] =
        [Self::A4, Self::Letter, Self::A4AndLetter, Self::A3, Self::A2, Self::Legal, Self::Tabloid];
    /// What they are called where they are typed.
    pub const NAMES: [(&'static str, Self); 7] = [
        ("a4", Self::A4),
        ("letter", Self::Letter),
        ("a4+letter", Self::A4AndLetter),
        ("a3", Self::A3),
        ("a2", Self::A2),
        ("legal", Self::Legal),
        ("tabloid", Self::Tabloid),
    ];
    /// Shortest side of paper.
    pub const SHORTEST: Length = Length::mm_of(100.0);
    /// Longest side of paper.
    pub const LONGEST: Length = Length::mm_of(3000.0);
    /// Most that is taken off a roll for one page.
    const OFF_A_ROLL: Length = Length::mm_of(1500.0);

    /// Reads a name, a size such as `300x400` (in the given unit) or `roll 610`.
    ///
    /// # Errors
    ///
    /// When it is none of these, or a side is no length from [`Self::SHORTEST`] to [`Self::LONGEST`].
    pub fn read(text: &str, unit: Unit) -> Result<Self, PaperError> {
        let text = text.trim().to_lowercase();
        if let Some((_, paper)) = Self::NAMES.into_iter().find(|(name, _)| *name == text) {
            return Ok(paper);
        }
        if let Some(width) = text.strip_prefix("roll") {
            return Self::roll(side(width, unit)?, unit);
        }
        let (width, height) = text.split_once(['x', '×']).ok_or(PaperError::Unknown)?;
        Self::custom(side(width, unit)?, side(height, unit)?, unit)
    }

    /// Paper of any size, whichever side is given first.
    ///
    /// # Errors
    ///
    /// When a side is not from [`Self::SHORTEST`] to [`Self::LONGEST`].
    pub fn custom(a: Length, b: Length, unit: Unit) -> Result<Self, PaperError> {
        let (a, b) = (possible(a, unit)?, possible(b, unit)?);
        Ok(if a <= b { Self::Custom { width: a, height: b } } else { Self::Custom { width: b, height: a } })
    }

    /// Paper from a roll.
    ///
    /// # Errors
    ///
    /// When its width is not from [`Self::SHORTEST`] to [`Self::LONGEST`].
    pub fn roll(width: Length, unit: Unit) -> Result<Self, PaperError> {
        Ok(Self::Roll { width: possible(width, unit)? })
    }

    /// Width and height of the upright page; of paper from a roll, the longest page that is taken off it.
    pub fn size(self) -> (Length, Length) {
        let mm = |w: f64, h: f64| (Length::mm_of(w), Length::mm_of(h));
        match self {
            Self::A4 => mm(210.0, 297.0),
            Self::Letter => mm(215.9, 279.4),
            Self::A4AndLetter => mm(210.0, 279.4),
            Self::A3 => mm(297.0, 420.0),
            Self::A2 => mm(420.0, 594.0),
            Self::Legal => mm(215.9, 355.6),
            Self::Tabloid => mm(279.4, 431.8),
            Self::Custom { width, height } => (width, height),
            Self::Roll { width } => (width, Self::OFF_A_ROLL),
        }
    }

    /// Whether pages end where what is on them ends.
    pub fn is_endless(self) -> bool {
        matches!(self, Self::Roll { .. })
    }
}

/// The name for people; sizes in mm.
impl fmt::Display for Paper {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |l: &Length| Unit::Millimetre.print_bare(*l);
        match self {
            Self::A4 => f.write_str("A4"),
            Self::Letter => f.write_str("Letter"),
            Self::A4AndLetter => f.write_str("A4 and Letter"),
            Self::A3 => f.write_str("A3"),
            Self::A2 => f.write_str("A2"),
            Self::Legal => f.write_str("Legal"),
            Self::Tabloid => f.write_str("Tabloid"),
            Self::Custom { width, height } => write!(f, "{} × {} mm", mm(width), mm(height)),
            Self::Roll { width } => write!(f, "roll of {} mm", mm(width)),
        }
    }
}

fn side(text: &str, unit: Unit) -> Result<Length, PaperError> {
    read_length(text.trim(), unit).map_err(|e| PaperError::Length(e.to_string()))
}

fn possible(side: Length, unit: Unit) -> Result<Length, PaperError> {
    if (Paper::SHORTEST..=Paper::LONGEST).contains(&side) {
        return Ok(side);
    }
    let [side, least, most] = [side, Paper::SHORTEST, Paper::LONGEST].map(|l| unit.print(l));
    Err(PaperError::Side { side, least, most })
}

/// How much of each side of a page stays empty, because printers cannot reach it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margins {
    /// On the left.
    pub left: Length,
    /// On the right.
    pub right: Length,
    /// At the top.
    pub top: Length,
    /// At the bottom.
    pub bottom: Length,
}

impl Margins {
    /// The same on every side.
    pub fn all(margin: Length) -> Self {
        Self { left: margin, right: margin, top: margin, bottom: margin }
    }
}

/// 1/4 in all round, and 6.7 mm at the bottom, the most that printer handbooks ask for there.
impl Default for Margins {
    fn default() -> Self {
        Self { bottom: Length::mm_of(6.7), ..Self::all(Length::mm_of(6.35)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_measure::InchStep;

    #[test]
    fn papers_are_read_by_name_and_by_size() {
        let read = |text: &str| Paper::read(text, Unit::Millimetre).unwrap();
        assert_eq!(read(" A4+Letter"), Paper::A4AndLetter);
        assert_eq!(read("roll 610"), Paper::Roll { width: Length::mm_of(610.0) });
        // 18 in = 457.2 mm, 24 in = 609.6 mm; the longer side is the height.
        for text in ["18 in x 24 in", "609.6x457.2"] {
            let (w, h) = read(text).size();
            assert!((w.mm() - 457.2).abs() < 1e-9 && (h.mm() - 609.6).abs() < 1e-9, "{text}");
        }
        assert_eq!(read("300×400").to_string(), "300 × 400 mm");
        for (name, paper) in Paper::NAMES {
            assert_eq!(read(name), paper);
        }
    }

    /// ISO 216: each size is half the next larger one, to the millimetre below.
    #[test]
    fn sheets_of_the_a_series_halve() {
        let [a4, a3, a2] = [Paper::A4, Paper::A3, Paper::A2].map(Paper::size);
        for (small, large) in [(a4, a3), (a3, a2)] {
            assert_eq!((small.1.mm(), small.0.mm()), (large.0.mm(), (large.1.mm() / 2.0).floor()));
        }
    }

    #[test]
    fn what_is_no_paper_says_why() {
        let said = |text: &str, unit| Paper::read(text, unit).unwrap_err().to_string();
        assert!(
            said("foolscap", Unit::Millimetre).starts_with("there is no paper of that name; give one of a4, letter")
        );
        assert_eq!(said("20x300", Unit::Millimetre), "20 mm is no side of a sheet of paper: give 100 mm to 3000 mm");
        let inches = said("roll 1", Unit::Inch(InchStep::Sixteenth));
        assert!(inches.starts_with("1\" is no side"), "{inches}");
        assert!(matches!(Paper::read("axb", Unit::Millimetre), Err(PaperError::Length(_))));
    }
}
