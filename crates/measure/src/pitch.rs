use crate::{Angle, Length};

/// The slope of a roof, as the person gave it.
///
/// The way of saying it is kept, so that '8 in 12' does not come back as 33.69 degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pitch {
    /// From the level, in degrees.
    Angle(Angle),
    /// Rise in run, such as 8 in 12 or 2:3.
    RiseInRun {
        /// Height gained.
        rise: f64,
        /// Level distance over which it is gained.
        run: f64,
    },
    /// As steep as it takes for the ridge to come to this height above the foot of its part.
    RidgeHeight(Length),
}

impl Pitch {
    /// The slope, where it can be told without working out the roof.
    pub fn angle(self) -> Option<Angle> {
        match self {
            Self::Angle(angle) => Some(angle),
            Self::RiseInRun { rise, run } => Some(Angle::of_slope(rise, run)),
            Self::RidgeHeight(_) => None,
        }
    }
}
