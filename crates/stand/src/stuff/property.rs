//! One property with its range, basis and source.

use crate::Range;
use gable_bake::{Basis, Figure, Figures, Spread};
use gable_words::tr;

/// A property of biscuit or icing: its range, and how well that is founded. The unit stands where the property is named.
#[derive(Clone, Debug, PartialEq)]
pub struct Property {
    /// Least, usual and most.
    pub range: Range,
    /// How well the usual value is founded.
    pub basis: Basis,
    /// How well it is founded and by what, in words.
    pub founded: String,
}

impl Property {
    /// A figure: with its range until the person sets it, from then on with the scatter of one kitchen.
    pub fn of(figures: &Figures, figure: Figure) -> Self {
        let (known, usual, basis) = (figure.known(), figures.get(figure), figures.basis(figure));
        if basis == Basis::Own {
            let scatter = own_scatter(figure);
            let range = Range::new(usual * (1.0 - scatter), usual, usual * (1.0 + scatter));
            return Self { range, basis, founded: basis.words().to_owned() };
        }
        let (least, most) = known.range;
        Self { range: Range::new(least, usual, most), basis, founded: known.founded() }
    }

    /// What strips said.
    pub(super) fn of_spread(spread: Spread) -> Self {
        let range = Range::new(spread.low, spread.mean, spread.high);
        Self { range, basis: Basis::Own, founded: tr!("your snap test").to_owned() }
    }

    /// Whether the person measured or chose it.
    pub fn is_own(&self) -> bool {
        self.basis == Basis::Own
    }

    /// The same by a factor with a range of its own.
    pub(super) fn times(&self, factor: Range) -> Self {
        Self { range: self.range * factor, ..self.clone() }
    }
}

/// By how much one kitchen's value scatters about what a person sets: strengths of baked goods by 20 to 30 % (from memory, typical of
/// brittle ones); what is weighed or read off hardly.
fn own_scatter(figure: Figure) -> f64 {
    match figure {
        Figure::BiscuitStrength | Figure::BiscuitStiffness | Figure::BondStrength | Figure::IcingYield => 0.3,
        _ => 0.0,
    }
}
