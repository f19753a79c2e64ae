use std::ops::{Add, Div, Mul, Neg, Sub};

/// An angle, kept in radians.
///
/// ```
/// use gable_measure::Angle;
/// assert!((Angle::degrees(45.0).tan() - 1.0).abs() < 1e-12);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Angle(f64);

impl Angle {
    /// No angle.
    pub const ZERO: Self = Self(0.0);
    /// A right angle.
    pub const RIGHT: Self = Self(std::f64::consts::FRAC_PI_2);

    /// An angle of so many radians.
    pub const fn radians(radians: f64) -> Self {
        Self(radians)
    }

    /// An angle of so many degrees.
    pub const fn degrees(degrees: f64) -> Self {
        Self(degrees.to_radians())
    }

    /// The slope of a roof that rises `rise` over a level `run`.
    pub fn of_slope(rise: f64, run: f64) -> Self {
        Self(rise.atan2(run))
    }

    /// The angle in radians.
    pub const fn rad(self) -> f64 {
        self.0
    }

    /// The angle in degrees.
    pub const fn deg(self) -> f64 {
        self.0.to_degrees()
    }

    /// Sine.
    pub fn sin(self) -> f64 {
        self.0.sin()
    }

    /// Cosine.
    pub fn cos(self) -> f64 {
        self.0.cos()
    }

    /// Tangent.
    pub fn tan(self) -> f64 {
        self.0.tan()
    }
}

impl Add for Angle {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Angle {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Angle {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Angle {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl Div<f64> for Angle {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self(self.0 / divisor)
    }
}
