use gable_measure::Length;
use gable_plane::P2;

/// What pieces lie on: the part of a tray, a page, a leaf that may be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Outline, a simple ring in mm. Pieces may touch it.
    pub outline: Vec<P2>,
    /// How many there are; as many as it takes if not given. Sheets that are counted cost nothing (the hole that an
    /// opening leaves) and are filled first.
    pub at_most: Option<usize>,
}

impl Sheet {
    /// A rectangle with its lower left corner at the origin, as many as it takes.
    pub fn rectangle(width: Length, height: Length) -> Self {
        let (w, h) = (width.mm(), height.mm());
        let outline = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)].map(|(x, y)| P2::new(x, y)).to_vec();
        Self { outline, at_most: None }
    }
}
