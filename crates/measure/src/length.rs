use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// A length, kept in millimetres.
///
/// ```
/// use gable_measure::Length;
/// assert!((Length::inches(8.5).mm() - 215.9).abs() < 1e-12);
/// assert_eq!(Length::mm_of(10.0) / 4.0, Length::mm_of(2.5));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length(f64);

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0.0);

    /// A length of so many millimetres.
    pub const fn mm_of(mm: f64) -> Self {
        Self(mm)
    }

    /// A length of so many centimetres.
    pub const fn cm_of(cm: f64) -> Self {
        Self(cm * 10.0)
    }

    /// A length of so many inches of exactly 25.4 mm (ISO 31-1, international inch).
    pub const fn inches(inches: f64) -> Self {
        Self(inches * 25.4)
    }

    /// The length in millimetres.
    pub const fn mm(self) -> f64 {
        self.0
    }

    /// The length in inches.
    pub const fn in_inches(self) -> f64 {
        self.0 / 25.4
    }

    /// The same length without its sign.
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// The smaller of the two.
    pub const fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// The larger of the two.
    pub const fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// False for the results of bad arithmetic (NaN, infinity).
    pub const fn is_finite(self) -> bool {
        self.0.is_finite()
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Length {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl Div<f64> for Length {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self(self.0 / divisor)
    }
}

/// The ratio of two lengths.
impl Div for Length {
    type Output = f64;
    fn div(self, other: Self) -> f64 {
        self.0 / other.0
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}
