//! Amounts as recipes give them: `2 1/2 cups`, `250 g`, `3 eggs`.

use super::Ingredient;
use crate::Mass;
use gable_measure::{ReadError, decimal, read_number};
use gable_words::tr;

/// How something is measured out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    /// g.
    Gram,
    /// kg.
    Kilogram,
    /// oz, by weight.
    Ounce,
    /// lb.
    Pound,
    /// ml.
    Millilitre,
    /// Level US cup.
    Cup,
    /// Level tablespoon.
    Tablespoon,
    /// Level teaspoon.
    Teaspoon,
    /// By the piece, as large eggs are.
    Piece,
}

/// So many of a measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    /// How many.
    pub number: f64,
    /// Of what.
    pub measure: Measure,
}

/// Why an amount could not be read or weighed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AmountError {
    /// The number is none.
    #[error(transparent)]
    Number(#[from] ReadError),
    /// The word behind it means no measure.
    #[error("{}", tr!("\"{0}\" is no measure; give g, kg, oz, lb, ml, cups, tbsp, tsp, or a number of eggs", .0))]
    Measure(String),
    /// Nothing, less, or a mountain of it.
    #[error("{}", tr!("{} is no amount for a kitchen; give more than 0 and at most 100 kg", .0))]
    Size(String),
    /// Nobody knows what that weighs.
    #[error("{}", tr!("what {measure} of {ingredient} weighs is not known; weigh it and give grams"))]
    Unweighed {
        /// Of what.
        ingredient: String,
        /// Measured how.
        measure: &'static str,
    },
}

impl Measure {
    /// A US cup, ml (NIST Handbook 44, appendix C: 16 tablespoons of half a fluid ounce).
    pub const CUP_ML: f64 = 236.588_236_5;
    /// Tablespoons in a cup, and three times as many teaspoons.
    const SPOONS: f64 = 16.0;
    /// The heaviest that makes sense, g.
    const MOST: f64 = 100_000.0;

    const ALL: [(Self, &'static [&'static str]); 9] = [
        (Self::Gram, &["g", "gram", "grams"]),
        (Self::Kilogram, &["kg"]),
        (Self::Ounce, &["oz", "ounce", "ounces"]),
        (Self::Pound, &["lb", "lbs", "pound", "pounds"]),
        (Self::Millilitre, &["ml"]),
        (Self::Cup, &["cup", "cups"]),
        (Self::Tablespoon, &["tbsp", "tablespoon", "tablespoons"]),
        (Self::Teaspoon, &["tsp", "teaspoon", "teaspoons"]),
        (Self::Piece, &["piece", "pieces", "egg", "eggs", "white", "whites", "yolk", "yolks", ""]),
    ];

    /// Its word, as printed behind a number and in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Gram => "g",
            Self::Kilogram => "kg",
            Self::Ounce => "oz",
            Self::Pound => "lb",
            Self::Millilitre => "ml",
            Self::Cup => "cup",
            Self::Tablespoon => "tbsp",
            Self::Teaspoon => "tsp",
            Self::Piece => "piece",
        }
    }
}

impl Amount {
    /// So many grams.
    pub const fn grams(number: f64) -> Self {
        Self { number, measure: Measure::Gram }
    }

    /// Reads an amount: a number with fractions, then a measure; a bare number counts pieces.
    ///
    /// # Errors
    /// When the number or the measure is none, or the amount is not above 0.
    ///
    /// ```
    /// use gable_bake::{Amount, Measure};
    /// assert_eq!(Amount::read("2 1/2 cups"), Ok(Amount { number: 2.5, measure: Measure::Cup }));
    /// assert_eq!(Amount::read("3 eggs"), Ok(Amount { number: 3.0, measure: Measure::Piece }));
    /// let wrong = Amount::read("2 handfuls").unwrap_err().to_string();
    /// assert!(wrong.starts_with("\"handfuls\" is no measure"));
    /// ```
    pub fn read(text: &str) -> Result<Self, AmountError> {
        let text = text.trim();
        let end = text.find(char::is_alphabetic).unwrap_or(text.len());
        let (number, word) = text.split_at(end);
        let number = read_number(number.trim())?;
        let said = word.trim().to_lowercase();
        let found = Measure::ALL.iter().find(|(_, words)| words.contains(&said.as_str()));
        let (measure, _) = found.ok_or_else(|| AmountError::Measure(word.trim().to_owned()))?;
        let amount = Self { number, measure: *measure };
        // The lightest unit of all is the gram.
        if number > 0.0 && number <= Measure::MOST { Ok(amount) } else { Err(AmountError::Size(text.to_owned())) }
    }

    /// What so much of an ingredient weighs.
    ///
    /// # Errors
    /// When it is measured in a way that nobody has weighed, or comes to more than 100 kg.
    pub fn mass(&self, of: &Ingredient) -> Result<Mass, AmountError> {
        let spoons = |count: f64| of.cup.map(|cup| cup * (1.0 / count));
        let one = match self.measure {
            Measure::Gram => Some(Mass::grams(1.0)),
            Measure::Kilogram => Some(Mass::grams(1000.0)),
            Measure::Ounce => Some(Mass::OUNCE),
            Measure::Pound => Some(Mass::POUND),
            Measure::Millilitre => of.density().map(Mass::grams),
            Measure::Cup => of.cup,
            Measure::Tablespoon => {
                of.tablespoon.or_else(|| spoons(Measure::SPOONS)).or_else(|| of.teaspoon.map(|t| t * 3.0))
            }
            Measure::Teaspoon => {
                let third = of.tablespoon.map(|t| t * (1.0 / 3.0));
                of.teaspoon.or_else(|| spoons(3.0 * Measure::SPOONS)).or(third)
            }
            Measure::Piece => of.each,
        };
        let unknown = || AmountError::Unweighed { ingredient: of.name.clone(), measure: self.measure.word() };
        let mass = one.ok_or_else(unknown)? * self.number;
        if mass.g() <= Measure::MOST {
            Ok(mass)
        } else {
            Err(AmountError::Size(tr!("{} of {}", self.print(), of.name)))
        }
    }

    /// As recipes write it: `2 1/2 cups`, `250 g`.
    pub fn print(&self) -> String {
        let whole = matches!(self.measure, Measure::Cup | Measure::Tablespoon | Measure::Teaspoon | Measure::Piece);
        let number = if whole { fraction(self.number) } else { decimal(self.number, 1) };
        let many = self.number > 1.0 && self.measure == Measure::Cup;
        match self.measure {
            Measure::Piece => number,
            measure => format!("{number} {}{}", measure.word(), if many { "s" } else { "" }),
        }
    }

    /// A mass in cups and spoons, to a quarter of the largest measure that holds it once: `2 1/4 cups`, `1/2 tsp`. Nothing
    /// for what is not measured so.
    pub fn household(mass: Mass, of: &Ingredient) -> Option<Self> {
        if let Some(each) = of.each {
            return Some(Self { number: quarters(mass / each), measure: Measure::Piece });
        }
        let measures = [Measure::Cup, Measure::Tablespoon, Measure::Teaspoon];
        let least = [0.25, 1.0, 0.0];
        let of_measure = |measure| Some(mass / Self { number: 1.0, measure }.mass(of).ok()?);
        let fitting = measures.into_iter().zip(least).filter(|(m, _)| *m != Measure::Cup || of.cup.is_some());
        let mut counts = fitting.filter_map(|(m, least)| Some((m, of_measure(m)?, least)));
        let (measure, number, _) = counts.find(|(_, count, least)| quarters(*count) >= *least)?;
        Some(Self { number: quarters(number).max(0.25), measure })
    }
}

fn quarters(number: f64) -> f64 {
    (number * 4.0).round() / 4.0
}

/// Quarters and thirds as fractions, everything else as a decimal.
fn fraction(number: f64) -> String {
    const PARTS: [(f64, &str); 6] =
        [(0.0, ""), (0.25, "1/4"), (1.0 / 3.0, "1/3"), (0.5, "1/2"), (2.0 / 3.0, "2/3"), (0.75, "3/4")];
    let (whole, rest) = ((number + 1e-9).floor(), number - (number + 1e-9).floor());
    match PARTS.iter().find(|(part, _)| (rest - part).abs() < 0.005) {
        Some((_, "")) => decimal(whole, 0),
        Some((_, part)) if whole < 1.0 => (*part).to_owned(),
        Some((_, part)) => format!("{whole} {part}"),
        None => decimal(number, 2),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Pantry;

    fn weighed(text: &str, of: &str) -> f64 {
        Amount::read(text).unwrap().mass(Pantry::default().get(of).unwrap()).unwrap().g()
    }

    /// Masses: USDA ARS SR, WEIGHT table. Ounces and pounds: NIST Handbook 44.
    #[test]
    fn amounts_are_weighed_as_the_usda_weighs_them() {
        for (text, of, grams) in [
            ("1 cup", "flour", 125.0),
            ("2 1/2 cups", "flour", 312.5),
            ("1/2 cup", "molasses", 168.5),
            ("1 tbsp", "honey", 21.0),
            ("2 tsp", "ginger", 3.6),
            ("1 tsp", "baking-soda", 4.6),
            ("3 eggs", "egg", 150.0),
            ("2 whites", "egg-white", 66.0),
            ("1 lb", "icing-sugar", 453.592),
            ("12 oz", "icing-sugar", 340.194),
            ("250 g", "butter", 250.0),
            ("0,5 kg", "flour", 500.0),
            ("236.588 ml", "milk", 244.0),
        ] {
            let found = weighed(text, of);
            assert!((found - grams).abs() < 0.002, "{text} of {of}: {found}, not {grams}");
        }
    }

    #[test]
    fn what_nobody_has_weighed_is_refused_with_a_reason() {
        let pantry = Pantry::default();
        let flour = pantry.get("flour").unwrap();
        let error = Amount::read("2 pieces").unwrap().mass(flour).unwrap_err().to_string();
        assert_eq!(error, "what piece of Wheat flour, plain weighs is not known; weigh it and give grams");
        for wrong in ["", "cup", "0 g", "-2 cups", "1e9 kg", "2 mm", "nan g", "3 furlongs", "999999 kg"] {
            let read = Amount::read(wrong);
            assert!(read.clone().is_err_and(|e| !e.to_string().is_empty()), "{wrong}: {read:?}");
        }
        assert!(Amount::read("90000 kg").unwrap().mass(flour).is_err());
    }

    #[test]
    fn masses_are_said_in_cups_and_spoons() {
        let pantry = Pantry::default();
        for (grams, of, said) in [
            (500.0, "flour", "4 cups"),
            (281.0, "flour", "2 1/4 cups"),
            (8.0, "flour", "1 tbsp"),
            (1.8, "ginger", "1 tsp"),
            (0.9, "ginger", "1/2 tsp"),
            (100.0, "egg", "2"),
            (25.0, "egg", "1/2"),
            (4.6, "baking-soda", "1 tsp"),
        ] {
            let amount = Amount::household(Mass::grams(grams), pantry.get(of).unwrap()).unwrap();
            assert_eq!(amount.print(), said, "{grams} g of {of}");
        }
    }

    #[test]
    fn what_is_printed_is_read_again() {
        for text in ["2 1/2 cups", "250 g", "1/3 cup", "1 lb", "2", "1 2/3 cups"] {
            let amount = Amount::read(text).unwrap();
            let again = Amount::read(&amount.print()).unwrap();
            assert_eq!(again.measure, amount.measure);
            assert!((again.number - amount.number).abs() < 1e-9, "{text}: {}", amount.print());
        }
    }
}
