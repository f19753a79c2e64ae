use gable_drawing::{Item, Layer, LineRole};

/// A layer of a file for machines and drawing programs, in the order in which layers are painted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum FileLayer {
    /// What helps to lay and to pipe; not to be cut.
    Guide,
    /// To press into the dough, not through it.
    Pressed,
    /// To cut.
    Cut,
    /// Names, letters, arrows and the bar.
    Text,
}

impl FileLayer {
    pub(super) const ALL: [Self; 4] = [Self::Guide, Self::Pressed, Self::Cut, Self::Text];

    /// The layer that an item belongs to.
    pub(super) fn of(item: &Item) -> Self {
        match item {
            Item::Stroke(s) => match (s.layer, s.role) {
                (Layer::Cut, LineRole::Edge) => Self::Cut,
                (Layer::Guide, LineRole::Pressed) => Self::Pressed,
                (Layer::Cut | Layer::Guide, _) => Self::Guide,
                _ => Self::Text,
            },
            Item::Fill(_) | Item::Text(_) => Self::Text,
        }
    }

    /// Its name in a file: capitals alone, which every reader takes.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Guide => "GUIDE",
            Self::Pressed => "PRESSED",
            Self::Cut => "CUT",
            Self::Text => "TEXT",
        }
    }

    /// What it is, for people.
    pub(super) fn title(self) -> &'static str {
        match self {
            Self::Guide => "Guides, not to be cut",
            Self::Pressed => "Lines to press in, not through",
            Self::Cut => "Lines to cut",
            Self::Text => "Names, letters, arrows and the bar to measure",
        }
    }

    /// Colour as on the web; told apart by everybody, and 3:1 or more on white. Machines often know layers by colour.
    pub(super) fn hex(self) -> &'static str {
        match self {
            Self::Guide => "#009e73",
            Self::Pressed => "#d55e00",
            Self::Cut => "#000000",
            Self::Text => "#0072b2",
        }
    }

    /// Number of its colour in DXF: 1 red, 3 green, 5 blue, 7 black on white ground.
    pub(super) fn dxf_colour(self) -> u8 {
        match self {
            Self::Guide => 3,
            Self::Pressed => 1,
            Self::Cut => 7,
            Self::Text => 5,
        }
    }
}
