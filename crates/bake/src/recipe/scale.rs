//! How much of a recipe is made.

use super::{Recipe, RecipeError, Weighed};
use crate::{Mass, Measure, Pantry};

/// How a recipe is brought to the mass that is needed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Scaling {
    /// Just what is needed.
    Exact,
    /// As much more as it takes until what is counted, eggs above all, is whole.
    #[default]
    WholeEggs,
    /// Whole batches.
    WholeBatches,
}

impl Scaling {
    /// Every way.
    pub const ALL: [Self; 3] = [Self::Exact, Self::WholeEggs, Self::WholeBatches];

    /// Stable word for files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Exact => "exact",
            Self::WholeEggs => "whole-eggs",
            Self::WholeBatches => "whole-batches",
        }
    }
}

/// What is a hair above a whole number is that number.
const EVEN: f64 = 1e-6;

impl Recipe {
    /// How many batches make at least so much.
    ///
    /// # Errors
    /// As [`Self::weighed`].
    pub fn batches_for(&self, needed: Mass, scaling: Scaling, pantry: &Pantry) -> Result<f64, RecipeError> {
        let exact = needed / self.weighed(pantry)?.mass;
        let up = |number: f64| (number - EVEN).ceil().max(0.0);
        Ok(match scaling {
            Scaling::Exact => exact,
            Scaling::WholeBatches => up(exact),
            // What is counted least decides: of one egg and two whites a half batch makes half an egg.
            Scaling::WholeEggs => {
                let counted = self.lines.iter().filter(|l| l.amount.measure == Measure::Piece).map(|l| l.amount.number);
                match counted.reduce(f64::min) {
                    Some(least) => up(exact * least) / least,
                    None => exact,
                }
            }
        })
    }

    /// The recipe with every amount so many times as much.
    pub fn times(&self, batches: f64) -> Self {
        let mut more = self.clone();
        more.lines.iter_mut().for_each(|line| line.amount.number *= batches);
        more
    }
}

impl Weighed {
    /// All of it so many times.
    pub fn times(&self, batches: f64) -> Self {
        let mut more = self.clone();
        more.lines.iter_mut().for_each(|line| line.mass = line.mass * batches);
        more.mass = more.mass * batches;
        more
    }
}
