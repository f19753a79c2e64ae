//! What is said about one thing that is asked of biscuit or icing.

use crate::Range;
use gable_words::tr;

/// How well something will do, by the share of what it can carry that it is asked to carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// Nothing speaks against it, even with the least of what is known of the material.
    Sound,
    /// It may well hold, but not with every batch: handle with care.
    Care,
    /// Likely to break, slide or tip.
    Breaks,
}

impl Class {
    /// The class of a share asked of what can be carried (1 is the limit).
    ///
    /// Sound when even the worst of the range stays below the limit and the usual share is at most a third of it (a factor of 3 is
    /// common practice, no source); likely to break when the usual share passes the limit.
    pub fn of(share: Range) -> Self {
        if share.usual.is_nan() || share.usual >= 1.0 {
            Self::Breaks
        } else if share.high >= 1.0 || share.usual > 1.0 / 3.0 {
            Self::Care
        } else {
            Self::Sound
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Sound => tr!("sound"),
            Self::Care => tr!("handle with care"),
            Self::Breaks => tr!("likely to break"),
        }
    }
}

/// What is said about one thing. About cake: never a promise of safety.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer<Place> {
    /// How well it will do.
    pub class: Class,
    /// The number that decides, in the unit that its reason names.
    pub number: Range,
    /// The share asked of what can be carried; 1 is the limit.
    pub share: Range,
    /// Why, in a plain sentence without its full stop.
    pub reason: String,
    /// Where.
    pub place: Place,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_class_follows_the_usual_and_the_worst() {
        let class = |low, usual, high| Class::of(Range { low, usual, high });
        assert_eq!(class(0.1, 0.2, 0.9), Class::Sound);
        assert_eq!(class(0.1, 0.2, 1.1), Class::Care);
        assert_eq!(class(0.1, 0.4, 0.9), Class::Care);
        assert_eq!(class(0.1, 1.0, 5.0), Class::Breaks);
        assert_eq!(class(f64::NAN, f64::NAN, f64::NAN), Class::Breaks);
        assert!(Class::Sound < Class::Care && Class::Care < Class::Breaks);
    }
}
