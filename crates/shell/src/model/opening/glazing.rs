use gable_measure::Length;

/// What closes a glazed opening.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Glazing {
    /// Of what.
    pub glass: Glass,
    /// Bars piped on it.
    pub bars: Bars,
}

/// What panes are made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Glass {
    /// Sheet gelatine, glued behind the opening.
    #[default]
    Leaf,
    /// Boiled sugar poured into the opening.
    Poured,
    /// Crushed hard sweets melted in the opening in the oven.
    Crushed,
}

/// Glazing bars, piped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bars {
    /// None.
    #[default]
    None,
    /// Upright and level ones.
    Grid {
        /// Lights beside each other.
        across: u8,
        /// Lights over each other.
        up: u8,
    },
    /// Crossing ones on the slant.
    Diamond {
        /// Whole diamonds beside each other.
        across: u8,
    },
    /// From the middle of the foot outwards.
    Fan {
        /// Lights round the middle.
        rays: u8,
    },
}

/// What the person glazes and cuts with; one for the house. Blade and bridge are the person's own: they come from the
/// kitchen ([`crate::kitchen::Kitchen::equip`]) or from an older file, and are not written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glazier {
    /// Length of a leaf as sold.
    pub leaf_length: Length,
    /// Width of a leaf.
    pub leaf_width: Length,
    /// How far a leaf reaches past its opening, to be glued.
    pub margin: Length,
    /// The narrowest blade or cutter that the person owns.
    pub blade: Length,
    /// The narrowest bar or bridge of biscuit that the person wants; the thickness of the dough where it is not given.
    pub bridge: Option<Length>,
}

impl Default for Glazier {
    /// A leaf of 230 by 70 mm (from memory), 6 mm to glue it (common practice, no source), and the tip of a knife.
    fn default() -> Self {
        Self {
            leaf_length: Length::mm_of(230.0),
            leaf_width: Length::mm_of(70.0),
            margin: Length::mm_of(6.0),
            blade: Length::mm_of(2.0),
            bridge: None,
        }
    }
}
