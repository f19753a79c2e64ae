//! The house as a person thinks of it: sizes, sides, roof settings, openings. Nothing here is computed.

mod baked;
mod credit;
mod dressing;
mod opening;
mod outline;
mod part;
mod place;
mod posts;
mod raised;
mod relation;

pub use baked::{Baked, Batch, CutPiece};
pub use dressing::{
    Bond, Covering, Dressing, Extra, ExtraKind, Faces, Finish, Ornament, OrnamentKind, Rates, Share, Stuff, Style,
    TileShape, Tint, Where,
};
pub use opening::{
    Bars, Door, Glass, Glazier, Glazing, Hinge, Layout, Mode, Opening, OpeningId, Placing, Repeat, Shape, Surface,
};
pub use outline::Outline;
pub use part::{Behind, Corners, Floor, FloorKind, Lid, Parapet, Part, PartId, Ridges, Side, SideId, Top};
pub use place::{Place, Spot};
pub use posts::{Posts, Steps, StepsHigh};
pub use raised::{Before, PieceKind, Raised};
pub use relation::{Gives, Measure, Measured, Relation};

use gable_measure::{Length, Unit};
use gable_words::tr;

/// The whole design, one file.
#[derive(Clone, Debug, PartialEq)]
pub struct House {
    /// What belongs to the person who drew it; the program only keeps credits: see [`House::keep_credit`].
    pub owner: Owner,
    /// Unit of bare numbers, on screen and on paper.
    pub unit: Unit,
    /// Gap left for icing wherever two pieces meet.
    pub gap: Length,
    /// The doughs it is made of; never empty.
    pub doughs: Vec<Dough>,
    /// The parts, in the order they were added; never empty.
    pub parts: Vec<Part>,
    /// Pairs of parts for which the person decided which one stays whole; they come before every other rule.
    pub decided: Vec<Decided>,
    /// Measures that follow others.
    pub relations: Vec<Relation>,
    /// What the person wants of the order in which it is put up.
    pub order: Vec<Before>,
    /// What came out of the oven already.
    pub baked: Vec<Baked>,
    /// Finishes, ornaments and extras.
    pub dressing: Dressing,
}

/// Of two parts that meet, which one stays whole.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Decided {
    /// It stays whole.
    pub whole: PartId,
    /// It is cut to fit.
    pub cut: PartId,
}

/// Title, credit and the like.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Owner {
    /// Name of the house.
    pub title: String,
    /// Which edition of the design this is, such as '2' or '2026'.
    pub edition: String,
    /// Who drew it.
    pub credit: String,
    /// Whose design it is drawn after; who else that one is drawn after.
    pub after: String,
    /// Terms under which it is shared.
    pub licence: String,
    /// Anything else worth telling a builder.
    pub notes: String,
}

/// Name of a dough within a house.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DoughId(pub String);

impl DoughId {
    /// What people call it: the usual doughs in the language that is spoken, any other by its own name.
    pub fn words(&self) -> &str {
        dough_words(&self.0)
    }
}

/// The same of a name of a dough, or of `ornaments`, which are made of the dough of walls.
pub fn dough_words(name: &str) -> &str {
    match name {
        "walls" => tr!("a dough" => "walls"),
        "roofs" => tr!("a dough" => "roofs"),
        "ornaments" => tr!("a dough" => "ornaments"),
        own => own,
    }
}

/// A dough class: what it is rolled to and how much it rises.
#[derive(Clone, Debug, PartialEq)]
pub struct Dough {
    /// Its name, by which parts choose it.
    pub id: DoughId,
    /// Thickness it is rolled to.
    pub rolled: Length,
    /// Baked thickness over rolled thickness.
    pub rise: f64,
}

impl Dough {
    /// Baked over rolled thickness until the test biscuit is baked: an assumption.
    pub const USUAL_RISE: f64 = 1.25;

    /// What a new house is made of: `walls` and `roofs`, rolled to 1/4 in (common practice, no source).
    pub fn usual() -> Vec<Self> {
        let dough =
            |id: &str| Self { id: DoughId(id.to_owned()), rolled: Length::inches(0.25), rise: Self::USUAL_RISE };
        vec![dough("walls"), dough("roofs")]
    }

    /// Thickness of the biscuit, which all geometry uses.
    pub fn baked(&self) -> Length {
        self.rolled * self.rise
    }
}

impl House {
    /// Gap for icing of a new house: what a thin bead leaves when it is pressed (common practice, no source).
    pub const USUAL_GAP: Length = Length::mm_of(0.8);

    /// The dough of a name.
    pub fn dough(&self, id: &DoughId) -> Option<&Dough> {
        self.doughs.iter().find(|d| &d.id == id)
    }

    /// The part of an id.
    pub fn part(&self, id: &PartId) -> Option<&Part> {
        self.parts.iter().find(|p| &p.id == id)
    }
}
