use crate::Caution;
use gable_words::tr;

/// What kind of task it is. What a person takes for tasks of a kind is learned per kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TaskKind {
    /// Weigh and mix dough.
    MixDough,
    /// Dough rests.
    RestDough,
    /// Roll out and cut.
    Cut,
    /// Cut pieces get firm.
    Firm,
    /// Bake an ovenful.
    Bake,
    /// Take it out and trim what is warm.
    Trim,
    /// It cools on its tray.
    Cool,
    /// It dries flat.
    DryFlat,
    /// Make icing.
    Icing,
    /// Glaze with leaf.
    Glaze,
    /// Pour sugar panes.
    Pour,
    /// Fill openings with crushed sweets.
    Fill,
    /// Melt them in the oven.
    Melt,
    /// Decorate a flat piece.
    Decorate,
    /// Pipe bars.
    Bars,
    /// Make ornaments.
    Ornaments,
    /// Stick ornaments on.
    Stick,
    /// What was iced, glued or cut from paste dries.
    Dry,
    /// Prepare the base board.
    Board,
    /// Put up pieces.
    Raise,
    /// Joints set.
    Set,
    /// Hang doors.
    Doors,
    /// Lay tiles or whatever covers roofs.
    Cover,
    /// Snow.
    Snow,
    /// Things that stand free.
    Extras,
    /// Lights.
    Lights,
    /// Everything cures.
    Cure,
    /// Photographs.
    Photograph,
    /// Carry it to where it stands.
    Carry,
    /// Mend a broken piece.
    Mend,
    /// Pack kits.
    Pack,
}

impl TaskKind {
    /// Every kind.
    pub const ALL: [Self; 31] = [
        Self::MixDough,
        Self::RestDough,
        Self::Cut,
        Self::Firm,
        Self::Bake,
        Self::Trim,
        Self::Cool,
        Self::DryFlat,
        Self::Icing,
        Self::Glaze,
        Self::Pour,
        Self::Fill,
        Self::Melt,
        Self::Decorate,
        Self::Bars,
        Self::Ornaments,
        Self::Stick,
        Self::Dry,
        Self::Board,
        Self::Raise,
        Self::Set,
        Self::Doors,
        Self::Cover,
        Self::Snow,
        Self::Extras,
        Self::Lights,
        Self::Cure,
        Self::Photograph,
        Self::Carry,
        Self::Mend,
        Self::Pack,
    ];

    /// The kind of a word in files.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// Stable word for files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::MixDough => "mix-dough",
            Self::RestDough => "rest-dough",
            Self::Cut => "cut",
            Self::Firm => "firm",
            Self::Bake => "bake",
            Self::Trim => "trim",
            Self::Cool => "cool",
            Self::DryFlat => "dry-flat",
            Self::Icing => "icing",
            Self::Glaze => "glaze",
            Self::Pour => "pour",
            Self::Fill => "fill",
            Self::Melt => "melt",
            Self::Decorate => "decorate",
            Self::Bars => "bars",
            Self::Ornaments => "ornaments",
            Self::Stick => "stick",
            Self::Dry => "dry",
            Self::Board => "board",
            Self::Raise => "raise",
            Self::Set => "set",
            Self::Doors => "doors",
            Self::Cover => "cover",
            Self::Snow => "snow",
            Self::Extras => "extras",
            Self::Lights => "lights",
            Self::Cure => "cure",
            Self::Photograph => "photograph",
            Self::Carry => "carry",
            Self::Mend => "mend",
            Self::Pack => "pack",
        }
    }

    /// What it is, at the beginning of a name.
    pub fn words(self) -> &'static str {
        match self {
            Self::MixDough => tr!("Mix dough"),
            Self::RestDough => tr!("Dough rests"),
            Self::Cut => tr!("Roll and cut"),
            Self::Firm => tr!("Cut pieces get firm"),
            Self::Bake => tr!("Bake"),
            Self::Trim => tr!("Trim while warm"),
            Self::Cool => tr!("Cools"),
            Self::DryFlat => tr!("Dries flat under a board"),
            Self::Icing => tr!("Make icing"),
            Self::Glaze => tr!("Glaze"),
            Self::Pour => tr!("Boil and pour sugar panes"),
            Self::Fill => tr!("Fill panes with crushed sweets"),
            Self::Melt => tr!("Melt panes in the oven"),
            Self::Decorate => tr!("Decorate"),
            Self::Bars => tr!("Pipe bars"),
            Self::Ornaments => tr!("Make ornaments"),
            Self::Stick => tr!("Stick on ornaments"),
            Self::Dry => tr!("Dries"),
            Self::Board => tr!("Base board"),
            Self::Raise => tr!("Put up"),
            Self::Set => tr!("Sets"),
            Self::Doors => tr!("Hang doors"),
            Self::Cover => tr!("Cover"),
            Self::Snow => tr!("Snow"),
            Self::Extras => tr!("What stands beside the house"),
            Self::Lights => tr!("Lights"),
            Self::Cure => tr!("Cures right through"),
            Self::Photograph => tr!("Photograph"),
            Self::Carry => tr!("Carry"),
            Self::Mend => tr!("Mend"),
            Self::Pack => tr!("Pack kits"),
        }
    }

    /// Whether nobody works on it.
    pub const fn is_wait(self) -> bool {
        matches!(
            self,
            Self::RestDough
                | Self::Firm
                | Self::Bake
                | Self::Cool
                | Self::DryFlat
                | Self::Melt
                | Self::Dry
                | Self::Set
                | Self::Cure
        )
    }

    /// Where it can hurt someone.
    pub const fn cautions(self) -> &'static [Caution] {
        match self {
            Self::MixDough => &[Caution::RawDough],
            Self::Cut => &[Caution::RawDough, Caution::Blades],
            Self::Bake => &[Caution::Oven],
            Self::Trim => &[Caution::Oven, Caution::Blades],
            Self::Icing => &[Caution::RawWhite],
            Self::Glaze | Self::Ornaments | Self::Cover => &[Caution::Blades],
            Self::Pour => &[Caution::HotSugar],
            Self::Fill => &[Caution::Choking],
            Self::Melt => &[Caution::HotSugar, Caution::Oven],
            Self::Stick => &[Caution::Choking],
            Self::Pack => &[Caution::Allergens],
            Self::Lights => &[Caution::Lights, Caution::ButtonCells],
            Self::Board => &[Caution::Glue],
            _ => &[],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_a_word_of_its_own() {
        for kind in TaskKind::ALL {
            assert_eq!(TaskKind::of_word(kind.word()), Some(kind));
        }
    }
}
