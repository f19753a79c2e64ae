//! How lengths, angles and pitches lie in a file.

use gable_measure::{Angle, Length, Pitch, Unit, tidy};

/// A length as it is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Figure {
    /// A number in the house's unit.
    InUnit(f64),
    /// Millimetres in a house in inches.
    InMillimetres(f64),
}

impl Figure {
    /// The house's unit where the length is a round number of it; otherwise millimetres.
    pub(super) fn of(length: Length, unit: Unit) -> Self {
        // Ten thousand times the noise of house-sized arithmetic, a hundredth of the grid in inches.
        const SAME: f64 = 1e-10;
        let round = |l: Length| {
            let number = unit.tidy_number(l);
            ((unit.length(number) - l).abs().mm() <= SAME).then_some(Self::InUnit(number))
        };
        let mm = tidy(length.mm());
        // The second look is at what would be read back, so that the same choice is made then.
        match unit {
            Unit::Millimetre => Self::InUnit(mm),
            Unit::Inch(_) => round(length).or_else(|| round(Length::mm_of(mm))).unwrap_or(Self::InMillimetres(mm)),
        }
    }

    pub(super) fn length(self, unit: Unit) -> Length {
        match self {
            Self::InUnit(number) => unit.length(number),
            Self::InMillimetres(mm) => Length::mm_of(mm),
        }
    }

    /// With its unit, for text.
    pub(super) fn words(self, unit: Unit) -> String {
        match (self, unit) {
            (Self::InUnit(number), Unit::Inch(_)) => digits(number) + " in",
            (Self::InUnit(mm), Unit::Millimetre) | (Self::InMillimetres(mm), _) => digits(mm) + " mm",
        }
    }
}

/// A number as people write it, but 1e300 rather than three hundred zeros.
pub(super) fn digits(number: f64) -> String {
    const LONGEST: f64 = 1e12;
    if number.abs() < LONGEST { number.to_string() } else { format!("{number:e}") }
}

/// The length that a file can hold, next to a given one.
pub(super) fn settled(length: Length, unit: Unit) -> Length {
    Figure::of(length, unit).length(unit)
}

/// The angle that a file can hold, next to a given one.
pub(super) fn settled_angle(angle: Angle) -> Angle {
    Angle::degrees(tidy(angle.deg()))
}

/// The pitch that a file can hold, next to a given one.
pub(super) fn settled_pitch(pitch: Pitch, unit: Unit) -> Pitch {
    match pitch {
        Pitch::Angle(angle) => Pitch::Angle(settled_angle(angle)),
        Pitch::RiseInRun { rise, run } => Pitch::RiseInRun { rise: tidy(rise), run: tidy(run) },
        Pitch::RidgeHeight(height) => Pitch::RidgeHeight(settled(height, unit)),
    }
}
