use gable_measure::{Length, Unit};
use gable_words::tr;
use std::ops::RangeInclusive;
use thiserror::Error;

/// How dough grows in one oven, and how one works with that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    share: f64,
    edge: Length,
    /// How one works.
    pub way: Way,
}

/// How to come to the finished outline with dough that spreads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Way {
    /// Cut larger, bake, and trim to the finished outline while it is warm.
    #[default]
    TrimWarm,
    /// Cut smaller, so that it grows into the finished outline.
    CutOnce,
}

/// A growth that no dough has.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum SpreadError {
    /// In proportion.
    #[error("{}", tr!("dough does not grow by {0:.1} %; measure a long strip before and after baking: -10 % to 20 % can be", .0))]
    Share(f64),
    /// At each edge.
    #[error("{}", tr!("dough does not grow by {0:.1} mm at an edge; measure a biscuit with a hole: -3 mm to 6 mm can be", .0))]
    Edge(f64),
    /// Not to be read as a share.
    #[error("{}", tr!("give a share such as 2% or 0.02"))]
    Unreadable,
}

impl Spread {
    const SHARES: RangeInclusive<f64> = -0.1..=0.2;
    const EDGES: RangeInclusive<f64> = -3.0..=6.0;

    /// Dough that grows by a share of its size and, beyond that, by a length at each edge; holes close at their edges.
    /// Shrinking is negative.
    ///
    /// # Errors
    /// When either is more than dough does.
    pub fn new(share: f64, edge: Length, way: Way) -> Result<Self, SpreadError> {
        if !Self::SHARES.contains(&share) {
            return Err(SpreadError::Share(share * 100.0));
        }
        if !Self::EDGES.contains(&edge.mm()) {
            return Err(SpreadError::Edge(edge.mm()));
        }
        Ok(Self { share, edge, way })
    }

    /// Reads '2%', '2 %' or '0.02'.
    ///
    /// # Errors
    /// When it is no number.
    pub fn read_share(text: &str) -> Result<f64, SpreadError> {
        let text = text.trim();
        let number = |text: &str| text.trim().replace(',', ".").parse::<f64>().ok().filter(|n| n.is_finite());
        let read = text.strip_suffix('%').map_or_else(|| number(text), |t| number(t).map(|n| n / 100.0));
        read.ok_or(SpreadError::Unreadable)
    }

    /// Growth in proportion: 0.02 for two in a hundred.
    pub fn share(self) -> f64 {
        self.share
    }

    /// Growth at each edge.
    pub fn edge(self) -> Length {
        self.edge
    }

    /// '2 % and 0.8 mm at each edge'.
    pub fn words(self, unit: Unit) -> String {
        format!("{} % and {} at each edge", (self.share * 1000.0).round() / 10.0, unit.print(self.edge))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn growth_is_read_and_kept_within_what_dough_does() {
        assert_eq!(["2%", " 2 % ", "0.02", "0,02"].map(|t| Spread::read_share(t).unwrap()), [0.02; 4]);
        assert_eq!(Spread::read_share("two").unwrap_err().to_string(), "give a share such as 2% or 0.02");
        let spread = Spread::new(0.02, Length::mm_of(0.8), Way::CutOnce).unwrap();
        assert_eq!(spread.words(Unit::Millimetre), "2 % and 0.8 mm at each edge");
        assert!(Spread::new(2.0, Length::ZERO, Way::CutOnce).is_err());
        assert!(Spread::new(0.0, Length::mm_of(f64::NAN), Way::CutOnce).is_err());
    }
}
