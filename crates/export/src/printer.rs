use crate::Spread;
use gable_measure::Length;
use gable_words::tr;
use thiserror::Error;

/// What a printer makes of a true length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printer {
    across: f64,
    along: f64,
}

/// A printer that prints true.
impl Default for Printer {
    fn default() -> Self {
        Self { across: 1.0, along: 1.0 }
    }
}

/// A bar that is too far from what it should measure.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
#[error("{}", tr!("a bar that measures {percent:.1} % of what it should is too far off to make up for; print the calibration page \
     again at 100 % ('actual size')"))]
pub struct TooFarOff {
    percent: f64,
}

impl Printer {
    /// Least share of a length that may come out of a printer.
    const LEAST: f64 = 0.85;
    /// Largest share.
    const MOST: f64 = 1.15;

    /// A printer by its bars on an uncorrected page: what each measures, and what it should. The level bar lies across
    /// the upright sheet, the upright bar along it.
    ///
    /// # Errors
    ///
    /// When a bar is more than 15 % off, or a length is not above zero.
    pub fn by_bars(level: (Length, Length), upright: (Length, Length)) -> Result<Self, TooFarOff> {
        let share = |(is, should): (Length, Length)| {
            let share = is.mm() / should.mm();
            if (Self::LEAST..=Self::MOST).contains(&share) {
                Ok(share)
            } else {
                Err(TooFarOff { percent: share * 100.0 })
            }
        };
        Ok(Self { across: share(level)?, along: share(upright)? })
    }

    /// Printed over true length, across the upright sheet.
    pub fn across(self) -> f64 {
        self.across
    }

    /// Printed over true length, along the upright sheet.
    pub fn along(self) -> f64 {
        self.along
    }

    /// Whether lengths come out as they are.
    pub fn is_true(self) -> bool {
        self == Self::default()
    }
}

/// Whom a pack is for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Purpose {
    /// Oneself: for one's own printer and oven.
    Mine {
        /// What the printer makes of a true length.
        printer: Printer,
        /// What the oven makes of the dough, where patterns allow for it.
        spread: Option<Spread>,
    },
    /// Others: nothing of anyone's printer or oven is in it.
    Share,
}

impl Default for Purpose {
    fn default() -> Self {
        Self::Mine { printer: Printer::default(), spread: None }
    }
}

impl Purpose {
    /// The printer that pages are corrected for.
    pub fn printer(self) -> Printer {
        match self {
            Self::Mine { printer, .. } => printer,
            Self::Share => Printer::default(),
        }
    }

    /// The spread of dough that patterns allow for.
    pub fn spread(self) -> Option<Spread> {
        match self {
            Self::Mine { spread, .. } => spread,
            Self::Share => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_say_what_a_printer_does_unless_they_are_far_off() {
        let mm = Length::mm_of;
        let printer = Printer::by_bars((mm(97.0), mm(100.0)), (mm(252.0), mm(250.0))).unwrap();
        assert!((printer.across() - 0.97).abs() < 1e-12 && (printer.along() - 1.008).abs() < 1e-12);
        assert!(Printer::by_bars((mm(50.0), mm(100.0)), (mm(1.0), mm(1.0))).is_err());
        assert!(Printer::by_bars((mm(0.0), mm(0.0)), (mm(1.0), mm(1.0))).is_err());
    }
}
