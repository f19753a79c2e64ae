//! A value that is known only between two others.

use std::ops::{Div, Mul};

/// A positive quantity that lies between `low` and `high` and is usually near `usual`; all three in the same unit, in order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The least that is to be expected.
    pub low: f64,
    /// What is to be expected.
    pub usual: f64,
    /// The most that is to be expected.
    pub high: f64,
}

impl Range {
    /// The range of three values, put in order.
    pub fn new(low: f64, usual: f64, high: f64) -> Self {
        let mut all = [low, usual, high];
        all.sort_by(f64::total_cmp);
        let [low, usual, high] = all;
        Self { low, usual, high }
    }

    /// What is known exactly.
    pub const fn exactly(value: f64) -> Self {
        Self { low: value, usual: value, high: value }
    }

    /// What a share leaves of one: 1 - x.
    pub fn left(self) -> Self {
        self.map(|share| 1.0 - share)
    }

    /// The range of what grows, or falls, with this one.
    pub fn map(self, rising: impl Fn(f64) -> f64) -> Self {
        Self::new(rising(self.low), rising(self.usual), rising(self.high))
    }
}

/// Of independent quantities, extremes met with extremes: wider than chance would have it.
impl Mul for Range {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self { low: self.low * other.low, usual: self.usual * other.usual, high: self.high * other.high }
    }
}

impl Mul<f64> for Range {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        self.map(|value| value * factor)
    }
}

/// Of independent quantities, the least by the most: wider than chance would have it.
impl Div for Range {
    type Output = Self;
    fn div(self, by: Self) -> Self {
        Self { low: self.low / by.high, usual: self.usual / by.usual, high: self.high / by.low }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn extremes_meet_extremes() {
        let load = Range::new(2.0, 3.0, 4.0);
        let strength = Range::new(8.0, 1.0, 4.0);
        assert_eq!(strength, Range { low: 1.0, usual: 4.0, high: 8.0 });
        assert_eq!(load / strength, Range { low: 0.25, usual: 0.75, high: 4.0 });
        assert_eq!(load * strength, Range { low: 2.0, usual: 12.0, high: 32.0 });
        assert_eq!(load * -1.0, Range { low: -4.0, usual: -3.0, high: -2.0 });
        assert_eq!(Range::exactly(2.0).map(f64::sqrt) / load, Range::exactly(2f64.sqrt()) / load);
    }
}
