use crate::{LineRole, Shade};
use gable_plane::{Contour, P2, Segment};

/// What kind of thing an item shows; writers turn these into layers of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// Edges to cut.
    Cut,
    /// Lines to press or to pipe, not to cut.
    Guide,
    /// Names, letters, arrows, dimensions.
    Notes,
    /// Bars, matching marks, page map, stamp.
    Sheet,
    /// Pictures of the house.
    Picture,
}

/// A line along an open or closed path.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// What it shows.
    pub layer: Layer,
    /// What it means, which fixes its dash and width.
    pub role: LineRole,
    /// Where it starts.
    pub start: P2,
    /// How it goes on; arcs stay arcs.
    pub segments: Vec<Segment>,
    /// Whether the end is joined to the start.
    pub closed: bool,
}

impl Stroke {
    /// An open line through points.
    pub fn polyline(layer: Layer, role: LineRole, points: &[P2]) -> Self {
        let start = points.first().copied().unwrap_or_else(P2::origin);
        let segments = points.iter().skip(1).map(|&to| Segment::Line { to }).collect();
        Self { layer, role, start, segments, closed: false }
    }

    /// All round a closed outline.
    pub fn contour(layer: Layer, role: LineRole, contour: &Contour) -> Self {
        Self { layer, role, start: contour.start(), segments: contour.segments().to_vec(), closed: true }
    }
}

/// A filled area; rings after the first are holes (even-odd rule).
#[derive(Clone, Debug, PartialEq)]
pub struct Fill {
    /// What it shows.
    pub layer: Layer,
    /// Its tone.
    pub shade: Shade,
    /// Closed rings, first corner not repeated.
    pub rings: Vec<Vec<P2>>,
}

/// Which point of a text stands at its position.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Anchor {
    /// Left end of the base line.
    #[default]
    Start,
    /// Middle of the base line.
    Middle,
    /// Right end of the base line.
    End,
}

/// A line of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// What it shows.
    pub layer: Layer,
    /// The words.
    pub text: String,
    /// Where its anchor stands.
    pub at: P2,
    /// Height of a capital letter, mm (ISO 3098 series: 1.8, 2.5, 3.5, 5, 7 …).
    pub height: f64,
    /// Turn of the base line from the x axis, radians, counter-clockwise.
    pub turn: f64,
    /// Which point of the text stands at `at`.
    pub anchor: Anchor,
    /// Whether it is set in the bold face.
    pub bold: bool,
}

impl Text {
    /// A level line of notes in the regular face.
    pub fn note(at: P2, height: f64, anchor: Anchor, text: impl Into<String>) -> Self {
        Self { layer: Layer::Notes, text: text.into(), at, height, turn: 0.0, anchor, bold: false }
    }
}

/// One thing on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A line.
    Stroke(Stroke),
    /// An area.
    Fill(Fill),
    /// Words.
    Text(Text),
}

impl From<Stroke> for Item {
    fn from(stroke: Stroke) -> Self {
        Self::Stroke(stroke)
    }
}

impl From<Fill> for Item {
    fn from(fill: Fill) -> Self {
        Self::Fill(fill)
    }
}

impl From<Text> for Item {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}
