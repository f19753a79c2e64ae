use gable_measure::{Unit, decimal};
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul};

/// A mass.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Mass {
    grams: f64,
}

impl Mass {
    /// Nothing.
    pub const ZERO: Self = Self { grams: 0.0 };
    /// An avoirdupois ounce, exactly (NIST Handbook 44, appendix C).
    pub const OUNCE: Self = Self { grams: 28.349_523_125 };
    /// Sixteen of them.
    pub const POUND: Self = Self { grams: 453.592_37 };

    /// So many grams.
    pub const fn grams(grams: f64) -> Self {
        Self { grams }
    }

    /// In grams.
    pub const fn g(self) -> f64 {
        self.grams
    }

    /// As a person weighs it, in kilograms from one on; with pounds and ounces where the house is in inches.
    ///
    /// ```
    /// use gable_bake::Mass;
    /// use gable_measure::{InchStep, Unit};
    /// assert_eq!(Mass::grams(849.6).print(Unit::Millimetre), "850 g");
    /// assert_eq!(Mass::grams(2604.0).print(Unit::Millimetre), "2.6 kg");
    /// assert_eq!(Mass::grams(850.0).print(Unit::Inch(InchStep::Sixteenth)), "850 g (1 lb 14 oz)");
    /// ```
    pub fn print(self, unit: Unit) -> String {
        let metric = if self.grams < 999.5 {
            format!("{} g", decimal(self.grams, if self.grams < 9.95 { 1 } else { 0 }))
        } else {
            format!("{} kg", decimal(self.grams / 1000.0, 2))
        };
        match unit {
            Unit::Millimetre => metric,
            Unit::Inch(_) => format!("{metric} ({})", self.pounds()),
        }
    }

    /// In pounds and ounces, to a quarter of an ounce below a pound.
    fn pounds(self) -> String {
        let ounces = self / Self::OUNCE;
        if ounces < 15.875 {
            return format!("{} oz", decimal((ounces * 4.0).round() / 4.0, 2));
        }
        let whole = ounces.round() as u64;
        match (whole / 16, whole % 16) {
            (pounds, 0) => format!("{pounds} lb"),
            (pounds, ounces) => format!("{pounds} lb {ounces} oz"),
        }
    }
}

impl Add for Mass {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::grams(self.grams + other.grams)
    }
}

impl AddAssign for Mass {
    fn add_assign(&mut self, other: Self) {
        self.grams += other.grams;
    }
}

impl Mul<f64> for Mass {
    type Output = Self;

    fn mul(self, factor: f64) -> Self {
        Self::grams(self.grams * factor)
    }
}

impl Div for Mass {
    type Output = f64;

    fn div(self, other: Self) -> f64 {
        self.grams / other.grams
    }
}

impl Sum for Mass {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, Add::add)
    }
}
