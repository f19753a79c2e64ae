use gable_words::tr;

/// How well a figure is founded, for the person to judge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// Measured or chosen by the person.
    Own,
    /// Read in the source that is named with it.
    Published,
    /// Worked out from published figures.
    Derived,
    /// What bakers usually do; nobody has measured it.
    Practice,
    /// From memory, unverified.
    Memory,
}

impl Basis {
    /// Whether it must be shown as an assumption.
    pub const fn is_assumption(self) -> bool {
        !matches!(self, Self::Own | Self::Published)
    }

    /// In words, as shown beside a figure.
    pub fn words(self) -> &'static str {
        match self {
            Self::Own => tr!("yours"),
            Self::Published => tr!("published"),
            Self::Derived => tr!("derived from published figures"),
            Self::Practice => tr!("common practice, no source"),
            Self::Memory => tr!("from memory, not verified"),
        }
    }
}
