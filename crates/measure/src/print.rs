//! How lengths and pitches are printed; what is printed can be read again.

use crate::{InchStep, Length, Pitch, Unit};

impl InchStep {
    /// How many of it make an inch.
    pub const fn parts(self) -> u32 {
        match self {
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
        }
    }
}

impl Unit {
    /// The length with its unit, to 0.1 mm or the nearest fraction of an inch. Whole hundredths of a millimetre are kept: somebody
    /// typed them, and dough rolled to 1/4 in is 6.35 mm.
    ///
    /// ```
    /// use gable_measure::{InchStep, Length, Unit};
    /// assert_eq!(Unit::Millimetre.print(Length::mm_of(216.041)), "216 mm");
    /// assert_eq!(Unit::Millimetre.print(Length::inches(0.25)), "6.35 mm");
    /// assert_eq!(Unit::Inch(InchStep::Sixteenth).print(Length::inches(4.25)), "4 1/4\"");
    /// ```
    pub fn print(self, length: Length) -> String {
        let number = self.print_bare(length);
        match self {
            Self::Millimetre => number + " mm",
            Self::Inch(_) => number + "\"",
        }
    }

    /// The same without the unit, for fields and tables that name it elsewhere.
    pub fn print_bare(self, length: Length) -> String {
        if !length.is_finite() {
            return "?".to_owned();
        }
        match self {
            Self::Millimetre => decimal(length.mm(), if is_whole(length.mm() * 100.0) { 2 } else { 1 }),
            Self::Inch(step) => fraction(length.in_inches(), step.parts()),
        }
    }
}

impl Pitch {
    /// The pitch the way it was given: `35°`, `8 in 12`, `ridge 216 mm`.
    pub fn print(&self, unit: Unit) -> String {
        match self {
            Self::Angle(angle) => decimal(angle.deg(), 2) + "°",
            Self::RiseInRun { rise, run } => format!("{} in {}", decimal(*rise, 3), decimal(*run, 3)),
            Self::RidgeHeight(height) => format!("ridge {}", unit.print(*height)),
        }
    }
}

/// So many decimals at most, without trailing zeros and without a minus before zero.
pub fn decimal(number: f64, decimals: usize) -> String {
    let text = format!("{number:.decimals$}");
    let short = if decimals == 0 { &text } else { text.trim_end_matches('0').trim_end_matches('.') };
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

/// Whether a number is whole but for what arithmetic with house-sized lengths loses.
fn is_whole(number: f64) -> bool {
    (number - number.round()).abs() < 1e-7
}

/// A mixed number in the given parts of one, reduced.
fn fraction(number: f64, parts: u32) -> String {
    let count = (number.abs() * f64::from(parts)).round();
    let sign = if number < 0.0 && count > 0.0 { "-" } else { "" };
    let whole = (count / f64::from(parts)).floor();
    // Below `parts`, so exact; trailing twos are all that a power of two can share with it.
    let rest = (count - whole * f64::from(parts)) as u32;
    let shift = rest.trailing_zeros().min(parts.trailing_zeros());
    let (above, below) = (rest >> shift, parts >> shift);
    match (whole > 0.0, rest > 0) {
        (_, false) => format!("{sign}{whole}"),
        (false, true) => format!("{sign}{above}/{below}"),
        (true, true) => format!("{sign}{whole} {above}/{below}"),
    }
}
