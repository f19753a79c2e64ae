use gable_words::tr;

/// What some people must not eat, in the finer of the two usual divisions.
///
/// EU: the fourteen of Regulation (EU) 1169/2011, annex II. US: the nine of 21 U.S.C. 343(w) with the FASTER Act of 2021
/// (read in copies). The US names wheat alone, the EU every cereal with gluten.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Allergen {
    /// Wheat.
    Wheat,
    /// Rye, barley, oats and what is made of them.
    OtherGluten,
    /// Crabs, prawns.
    Crustaceans,
    /// Eggs.
    Eggs,
    /// Fish.
    Fish,
    /// Peanuts.
    Peanuts,
    /// Soya.
    Soya,
    /// Milk.
    Milk,
    /// Almonds, hazelnuts, walnuts and the like.
    Nuts,
    /// Celery.
    Celery,
    /// Mustard.
    Mustard,
    /// Sesame.
    Sesame,
    /// Sulphur dioxide and sulphites above 10 mg/kg.
    Sulphites,
    /// Lupin.
    Lupin,
    /// Mussels, squid.
    Molluscs,
}

/// How surely something is in an ingredient.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Presence {
    /// It is made of it.
    Contains,
    /// Some makers' are: read the label.
    May,
}

impl Allergen {
    /// Every one.
    pub const ALL: [Self; 15] = [
        Self::Wheat,
        Self::OtherGluten,
        Self::Crustaceans,
        Self::Eggs,
        Self::Fish,
        Self::Peanuts,
        Self::Soya,
        Self::Milk,
        Self::Nuts,
        Self::Celery,
        Self::Mustard,
        Self::Sesame,
        Self::Sulphites,
        Self::Lupin,
        Self::Molluscs,
    ];

    /// What it is called on a label in the EU.
    pub const fn eu(self) -> &'static str {
        match self {
            Self::Wheat | Self::OtherGluten => "cereals containing gluten",
            Self::Crustaceans => "crustaceans",
            Self::Eggs => "eggs",
            Self::Fish => "fish",
            Self::Peanuts => "peanuts",
            Self::Soya => "soybeans",
            Self::Milk => "milk",
            Self::Nuts => "nuts",
            Self::Celery => "celery",
            Self::Mustard => "mustard",
            Self::Sesame => "sesame",
            Self::Sulphites => "sulphites",
            Self::Lupin => "lupin",
            Self::Molluscs => "molluscs",
        }
    }

    /// What it is called on a label in the US; nothing where that need not be declared.
    pub const fn us(self) -> Option<&'static str> {
        match self {
            Self::Wheat => Some("wheat"),
            Self::Crustaceans => Some("crustacean shellfish"),
            Self::Eggs => Some("egg"),
            Self::Fish => Some("fish"),
            Self::Peanuts => Some("peanuts"),
            Self::Soya => Some("soybeans"),
            Self::Milk => Some("milk"),
            Self::Nuts => Some("tree nuts"),
            Self::Sesame => Some("sesame"),
            Self::OtherGluten | Self::Celery | Self::Mustard | Self::Sulphites | Self::Lupin | Self::Molluscs => None,
        }
    }

    /// In a word, for people.
    pub fn words(self) -> &'static str {
        match self {
            Self::Wheat => tr!("wheat (gluten)"),
            Self::OtherGluten => tr!("rye, barley or oats (gluten)"),
            Self::Crustaceans => tr!("crustaceans"),
            Self::Eggs => tr!("eggs"),
            Self::Fish => tr!("fish"),
            Self::Peanuts => tr!("peanuts"),
            Self::Soya => tr!("soybeans"),
            Self::Milk => tr!("milk"),
            Self::Nuts => tr!("nuts"),
            Self::Celery => tr!("celery"),
            Self::Mustard => tr!("mustard"),
            Self::Sesame => tr!("sesame"),
            Self::Sulphites => tr!("sulphites"),
            Self::Lupin => tr!("lupin"),
            Self::Molluscs => tr!("molluscs"),
        }
    }

    /// The allergen of a stable word in files: the first word of [`Self::words`].
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|a| a.word() == word)
    }

    /// Stable word for files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Wheat => "wheat",
            Self::OtherGluten => "gluten",
            other => other.eu(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Fourteen in the EU (Regulation 1169/2011, annex II), nine in the US (FALCPA 2004 and the FASTER Act 2021).
    #[test]
    fn there_are_fourteen_in_the_eu_and_nine_in_the_us() {
        let eu: BTreeSet<_> = Allergen::ALL.iter().map(|a| a.eu()).collect();
        let us: BTreeSet<_> = Allergen::ALL.iter().filter_map(|a| a.us()).collect();
        assert_eq!((eu.len(), us.len()), (14, 9));
        for allergen in Allergen::ALL {
            assert_eq!(Allergen::of_word(allergen.word()), Some(allergen));
        }
    }
}
