use super::{Stuff, Tint};
use crate::Spot;
use gable_measure::Length;
use gable_words::tr;

/// Something that stands free on the base board, made of flat pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct Extra {
    /// What it is.
    pub kind: ExtraKind,
    /// Where its middle stands on the base board.
    pub spot: Spot,
    /// Height over all.
    pub height: Length,
    /// Width or length over all; an outline of one's own follows its height.
    pub width: Length,
    /// The outline of [`ExtraKind::Outline`], as path data of SVG; y runs down there.
    pub path: String,
    /// What it is made of.
    pub stuff: Stuff,
    /// How thick it is when it is finished.
    pub thickness: Length,
    /// Its colour.
    pub tint: Tint,
}

/// Kinds of extras.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ExtraKind {
    /// Two halves slotted into each other.
    Tree,
    /// A run of pales.
    Fence,
    /// Two runners and a seat.
    Sledge,
    /// A person in outline.
    Figure,
    /// An outline of one's own.
    Outline,
}

impl ExtraKind {
    /// Every kind with the word that a file has for it.
    pub const ALL: [(&'static str, Self); 5] = [
        ("tree", Self::Tree),
        ("fence", Self::Fence),
        ("sledge", Self::Sledge),
        ("figure", Self::Figure),
        ("outline", Self::Outline),
    ];

    /// The word that a file has for it.
    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(_, kind)| *kind == self).map_or("", |(word, _)| word)
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Tree => tr!("tree"),
            Self::Fence => tr!("fence"),
            Self::Sledge => tr!("sledge"),
            Self::Figure => tr!("figure"),
            Self::Outline => tr!("outline"),
        }
    }
}

impl Extra {
    /// An extra as most would have it (common practice, no source).
    pub fn usual(kind: ExtraKind) -> Self {
        let (height, width, tint) = match kind {
            ExtraKind::Tree => (90.0, 60.0, Tint::Pistachio),
            ExtraKind::Fence => (25.0, 120.0, Tint::Icing),
            ExtraKind::Sledge => (16.0, 44.0, Tint::Raspberry),
            ExtraKind::Figure => (45.0, 30.0, Tint::Ginger),
            ExtraKind::Outline => (40.0, 40.0, Tint::Honey),
        };
        Self {
            kind,
            spot: Spot::default(),
            height: Length::mm_of(height),
            width: Length::mm_of(width),
            path: if kind == ExtraKind::Outline { "M0 0 L10 0 L5 -10 Z".to_owned() } else { String::new() },
            stuff: Stuff::Dough,
            thickness: Length::mm_of(5.0),
            tint,
        }
    }
}
