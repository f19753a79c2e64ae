use gable_words::tr;

/// What finishes and ornaments are made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stuff {
    /// The dough of the house, baked.
    #[default]
    Dough,
    /// Rolled fondant.
    Fondant,
    /// Gum paste.
    GumPaste,
    /// Royal icing.
    Icing,
    /// Bought sweets.
    Sweets,
}

impl Stuff {
    /// Every stuff.
    pub const ALL: [Self; 5] = [Self::Dough, Self::Fondant, Self::GumPaste, Self::Icing, Self::Sweets];

    /// Mass of a cubic millimetre, mg (the same figure as g/cm³).
    ///
    /// Assumptions: baked dough 0.65 and fondant and gum paste 1.4 from memory; icing between 1.0 and 1.48, derived;
    /// hard sweets at most 1.56, derived from weight and size of a sugar piece in USDA ARS SR, NDB 19340.
    pub fn density(self) -> f64 {
        match self {
            Self::Dough => 0.65,
            Self::Fondant | Self::GumPaste => 1.4,
            Self::Icing => 1.3,
            Self::Sweets => 1.5,
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Dough => tr!("dough"),
            Self::Fondant => tr!("fondant"),
            Self::GumPaste => tr!("gum paste"),
            Self::Icing => tr!("icing"),
            Self::Sweets => tr!("sweets"),
        }
    }
}

/// A colour from baking.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tint {
    /// White of royal icing.
    #[default]
    Icing,
    /// Butter cream.
    Cream,
    /// Pale biscuit.
    Biscuit,
    /// Honey.
    Honey,
    /// Caramel.
    Caramel,
    /// Dark gingerbread.
    Ginger,
    /// Cocoa.
    Cocoa,
    /// Cinnamon.
    Cinnamon,
    /// Raspberry.
    Raspberry,
    /// Pistachio.
    Pistachio,
    /// Blueberry.
    Blueberry,
    /// Poppy seed.
    Poppy,
}

impl Tint {
    /// Every tint, light to dark within each family.
    pub const ALL: [Self; 12] = [
        Self::Icing,
        Self::Cream,
        Self::Biscuit,
        Self::Honey,
        Self::Caramel,
        Self::Ginger,
        Self::Cocoa,
        Self::Cinnamon,
        Self::Raspberry,
        Self::Pistachio,
        Self::Blueberry,
        Self::Poppy,
    ];

    /// Red, green and blue.
    pub fn rgb(self) -> [u8; 3] {
        match self {
            Self::Icing => [250, 248, 242],
            Self::Cream => [246, 232, 200],
            Self::Biscuit => [222, 184, 130],
            Self::Honey => [226, 166, 72],
            Self::Caramel => [190, 118, 52],
            Self::Ginger => [150, 92, 48],
            Self::Cocoa => [98, 62, 42],
            Self::Cinnamon => [168, 80, 52],
            Self::Raspberry => [182, 52, 72],
            Self::Pistachio => [142, 168, 98],
            Self::Blueberry => [86, 98, 148],
            Self::Poppy => [72, 74, 84],
        }
    }

    /// In a word, in the language that is spoken; `word` is the one in files.
    pub fn words(self) -> &'static str {
        match self {
            Self::Icing => tr!("a colour" => "white"),
            Self::Cream => tr!("a colour" => "cream"),
            Self::Biscuit => tr!("a colour" => "biscuit"),
            Self::Honey => tr!("a colour" => "honey"),
            Self::Caramel => tr!("a colour" => "caramel"),
            Self::Ginger => tr!("a colour" => "ginger"),
            Self::Cocoa => tr!("a colour" => "cocoa"),
            Self::Cinnamon => tr!("a colour" => "cinnamon"),
            Self::Raspberry => tr!("a colour" => "raspberry"),
            Self::Pistachio => tr!("a colour" => "pistachio"),
            Self::Blueberry => tr!("a colour" => "blueberry"),
            Self::Poppy => tr!("a colour" => "poppy"),
        }
    }

    /// Stable word for files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Icing => "icing",
            Self::Cream => "cream",
            Self::Biscuit => "biscuit",
            Self::Honey => "honey",
            Self::Caramel => "caramel",
            Self::Ginger => "ginger",
            Self::Cocoa => "cocoa",
            Self::Cinnamon => "cinnamon",
            Self::Raspberry => "raspberry",
            Self::Pistachio => "pistachio",
            Self::Blueberry => "blueberry",
            Self::Poppy => "poppy",
        }
    }
}
