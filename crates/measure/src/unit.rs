use crate::Length;

/// The smallest division of an inch that is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum InchStep {
    /// 1/16 in
    #[default]
    Sixteenth,
    /// 1/32 in
    ThirtySecond,
}

/// The unit in which a house is typed and printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres, printed to 0.1 mm.
    #[default]
    Millimetre,
    /// Inches, printed as reduced fractions.
    Inch(InchStep),
}

impl Unit {
    /// A bare number in this unit.
    pub fn length(self, number: f64) -> Length {
        match self {
            Self::Millimetre => Length::mm_of(number),
            Self::Inch(_) => Length::inches(number),
        }
    }

    /// How many of this unit a length is.
    pub fn number(self, length: Length) -> f64 {
        match self {
            Self::Millimetre => length.mm(),
            Self::Inch(_) => length.in_inches(),
        }
    }

    /// How many of this unit a length is, rounded to 1e-9 so that 8.5 in is 8.5 and not 8.500000000000002.
    pub fn tidy_number(self, length: Length) -> f64 {
        tidy(self.number(length))
    }
}

/// A number rounded to 1e-9, far below any size and far above the noise of arithmetic; never minus zero.
pub fn tidy(number: f64) -> f64 {
    const STEPS: f64 = 1e9;
    // Above this the steps are beyond what an f64 tells apart.
    if number.abs() > 1e6 { number } else { (number * STEPS).round() / STEPS + 0.0 }
}
