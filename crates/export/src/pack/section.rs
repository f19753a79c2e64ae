use gable_words::tr;
/// What a pack can hold, in the order of its pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Section {
    /// What the house is, what lines mean, which templates there are.
    Cover,
    /// The page that shows whether a printer prints true.
    Calibration,
    /// Templates at true scale.
    Patterns,
    /// What stands where on the base board.
    Board,
    /// The order of assembly, stage by stage.
    Guide,
    /// Every piece with its sizes, to cut with a ruler alone.
    Ruler,
    /// Angles and heights to cut out of card.
    Gauges,
    /// Every piece, joint, opening and ornament.
    Tables,
    /// What to mix, what lies on which tray, what to buy.
    BakePlan,
    /// Two biscuits that tell how the dough rises and grows.
    TestBiscuits,
    /// What will stand and travel, what needs care, what is likely to break.
    Stand,
    /// Strips to break, which tell what the biscuit carries.
    SnapTest,
    /// Where someone could be hurt, and who must not eat it.
    Cautions,
    /// Nets with glue tabs, to try the house of paper.
    MockUp,
}

impl Section {
    /// Every section in its order.
    pub const ALL: [Self; 14] = [
        Self::Cover,
        Self::Calibration,
        Self::Patterns,
        Self::Board,
        Self::Guide,
        Self::Ruler,
        Self::Gauges,
        Self::Tables,
        Self::BakePlan,
        Self::TestBiscuits,
        Self::Stand,
        Self::SnapTest,
        Self::Cautions,
        Self::MockUp,
    ];

    /// What it is called where it is typed.
    pub fn word(self) -> &'static str {
        match self {
            Self::Cover => "cover",
            Self::Calibration => "calibration",
            Self::Patterns => "patterns",
            Self::Board => "board",
            Self::Guide => "guide",
            Self::Ruler => "ruler-card",
            Self::Gauges => "gauges",
            Self::Tables => "tables",
            Self::BakePlan => "bake-plan",
            Self::TestBiscuits => "test-biscuits",
            Self::Stand => "stand",
            Self::SnapTest => "snap-test",
            Self::Cautions => "cautions",
            Self::MockUp => "mock-up",
        }
    }

    /// What it is, for people.
    pub fn title(self) -> &'static str {
        match self {
            Self::Cover => tr!("Cover"),
            Self::Calibration => tr!("Calibration page"),
            Self::Patterns => tr!("Patterns of every piece"),
            Self::Board => tr!("Base-board plan"),
            Self::Guide => tr!("Build guide, stage by stage"),
            Self::Ruler => tr!("Ruler card: every piece with its sizes"),
            Self::Gauges => tr!("Card gauges: angles and heights"),
            Self::Tables => tr!("Tables of pieces and joints"),
            Self::BakePlan => tr!("Bake plan: dough, icing, trays, shopping"),
            Self::TestBiscuits => tr!("Two test biscuits"),
            Self::Stand => tr!("Will it stand, will it travel"),
            Self::SnapTest => tr!("Snap test: strips to break"),
            Self::Cautions => tr!("Cautions and allergens"),
            Self::MockUp => tr!("Paper mock-up, at half size"),
        }
    }
}

/// Size of the paper mock-up as a share of the house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MockUpSize(pub f64);

/// Half the size.
impl Default for MockUpSize {
    fn default() -> Self {
        Self(0.5)
    }
}

/// A choice of sections.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sections {
    chosen: [bool; Section::ALL.len()],
}

/// All of them.
impl Default for Sections {
    fn default() -> Self {
        Self { chosen: [true; Section::ALL.len()] }
    }
}

impl Sections {
    /// These and no others.
    pub fn only(sections: &[Section]) -> Self {
        Self { chosen: Section::ALL.map(|s| sections.contains(&s)) }
    }

    /// All but these.
    pub fn without(sections: &[Section]) -> Self {
        Self { chosen: Section::ALL.map(|s| !sections.contains(&s)) }
    }

    /// Whether a section is among them.
    pub fn holds(&self, section: Section) -> bool {
        self.chosen[section as usize]
    }

    /// Takes a section in or leaves it out.
    pub fn set(&mut self, section: Section, chosen: bool) {
        self.chosen[section as usize] = chosen;
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        !self.chosen.contains(&true)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sections_are_numbered_as_they_are_listed() {
        for (k, section) in Section::ALL.into_iter().enumerate() {
            assert_eq!(section as usize, k);
            let only = Sections::only(&[section]);
            assert!(Section::ALL.into_iter().all(|s| only.holds(s) == (s == section)));
            assert!(!Sections::without(&[section]).holds(section));
        }
        assert!(Sections::only(&[]).is_empty());
    }
}
