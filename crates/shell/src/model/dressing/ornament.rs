use super::{Stuff, Tint};
use crate::{OpeningId, PartId, SideId};
use gable_measure::Length;
use gable_words::tr;

/// Something that is made apart and stuck on; it follows the size of what it belongs to.
#[derive(Clone, Debug, PartialEq)]
pub struct Ornament {
    /// What it is.
    pub kind: OrnamentKind,
    /// The part it belongs to.
    pub part: PartId,
    /// At openings: which one; all that suit it when not given.
    pub opening: Option<OpeningId>,
    /// On one side only.
    pub side: Option<SideId>,
    /// The size that does not follow from what it belongs to; see [`OrnamentKind::size_words`].
    pub size: Length,
    /// Pressed lines of shutters and doors.
    pub style: Style,
    /// What it is made of.
    pub stuff: Stuff,
    /// How thick it is when it is finished.
    pub thickness: Length,
    /// Its colour.
    pub tint: Tint,
}

/// Kinds of ornaments.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum OrnamentKind {
    /// A pair of shutters, half the opening each, on both sides of a window.
    Shutters,
    /// The leaf of a door, in front of its opening or set into it.
    Door,
    /// A strip under a window.
    Sill,
    /// A strip over an opening.
    Lintel,
    /// A band round an opening.
    Surround,
    /// A box under a window.
    WindowBox,
    /// A board along a rake, on the end of the slopes.
    Bargeboard,
    /// A board along an eave, on the end of a slope.
    Fascia,
    /// Two strips that cover a ridge.
    RidgeCap,
    /// Two strips that cover a hip.
    HipCap,
    /// Blocks up a corner, long and short in turn.
    Quoins,
    /// A plate on the lid of a chimney.
    ChimneyCap,
}

impl OrnamentKind {
    /// Every kind with the word that a file has for it.
    pub const ALL: [(&'static str, Self); 12] = [
        ("shutters", Self::Shutters),
        ("door", Self::Door),
        ("sill", Self::Sill),
        ("lintel", Self::Lintel),
        ("surround", Self::Surround),
        ("window-box", Self::WindowBox),
        ("bargeboard", Self::Bargeboard),
        ("fascia", Self::Fascia),
        ("ridge-cap", Self::RidgeCap),
        ("hip-cap", Self::HipCap),
        ("quoins", Self::Quoins),
        ("chimney-cap", Self::ChimneyCap),
    ];

    /// The word that a file has for it.
    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(_, kind)| *kind == self).map_or("", |(word, _)| word)
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Shutters => tr!("shutters"),
            Self::Door => tr!("door"),
            Self::Sill => tr!("sill"),
            Self::Lintel => tr!("lintel"),
            Self::Surround => tr!("surround"),
            Self::WindowBox => tr!("window box"),
            Self::Bargeboard => tr!("bargeboard"),
            Self::Fascia => tr!("fascia"),
            Self::RidgeCap => tr!("ridge cap"),
            Self::HipCap => tr!("hip cap"),
            Self::Quoins => tr!("quoins"),
            Self::ChimneyCap => tr!("chimney cap"),
        }
    }

    /// Whether it belongs to an opening; all others belong to a part or a side of it.
    pub fn is_at_openings(self) -> bool {
        self <= Self::WindowBox
    }

    /// What the size is.
    pub fn size_words(self) -> &'static str {
        match self {
            Self::Shutters => tr!("gap beside the opening"),
            Self::Door => tr!("gap round the leaf"),
            Self::Sill | Self::Lintel => tr!("height"),
            Self::Surround => tr!("width"),
            Self::WindowBox => tr!("height"),
            Self::Bargeboard | Self::Fascia => tr!("depth"),
            Self::RidgeCap | Self::HipCap => tr!("width of a strip"),
            Self::Quoins => tr!("height of a block"),
            Self::ChimneyCap => tr!("how far it reaches past the lid"),
        }
    }

    /// Usual size (common practice, no source).
    pub fn usual_size(self) -> Length {
        Length::mm_of(match self {
            Self::Shutters | Self::Door => 0.8,
            Self::Sill | Self::Lintel => 3.0,
            Self::Surround => 3.5,
            Self::WindowBox | Self::Quoins | Self::Fascia => 7.0,
            Self::Bargeboard => 9.0,
            Self::RidgeCap | Self::HipCap => 6.0,
            Self::ChimneyCap => 2.0,
        })
    }
}

/// Pressed lines of shutters and doors.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Style {
    /// None.
    #[default]
    Plain,
    /// Level slats in a frame.
    Slatted,
    /// Upright boards.
    Boarded,
    /// Upright boards with two battens across.
    Battened,
}

impl Ornament {
    /// An ornament as most would have it (common practice, no source).
    pub fn usual(kind: OrnamentKind, part: PartId) -> Self {
        let (style, tint) = match kind {
            OrnamentKind::Shutters => (Style::Slatted, Tint::Pistachio),
            OrnamentKind::Door => (Style::Battened, Tint::Raspberry),
            OrnamentKind::WindowBox => (Style::Boarded, Tint::Honey),
            OrnamentKind::RidgeCap | OrnamentKind::HipCap | OrnamentKind::ChimneyCap => (Style::Plain, Tint::Cocoa),
            _ => (Style::Plain, Tint::Icing),
        };
        Self {
            kind,
            part,
            opening: None,
            side: None,
            size: kind.usual_size(),
            style,
            stuff: Stuff::GumPaste,
            thickness: Length::mm_of(1.5),
            tint,
        }
    }
}
