use gable_plane::P2;

/// A flat piece that has to find its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Outline, a simple ring in mm. What lies inside it is taken, holes included.
    pub outline: Vec<P2>,
    /// How it may be turned.
    pub turns: Turns,
}

/// How a piece may be turned. Nothing is ever turned over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turns {
    /// Not at all.
    None,
    /// End for end: what keeps to the rolling direction.
    Half,
    /// To the left by a right angle, or not at all: words on it can be read from below or from the right.
    Left,
    /// By quarter turns.
    Quarter,
    /// By any angle.
    Free,
}

impl Turns {
    /// The turns to choose from in radians, when they can be counted.
    pub(crate) fn counted(self) -> Option<&'static [f32]> {
        use std::f32::consts::{FRAC_PI_2, PI};
        match self {
            Self::None => Some(&[0.0]),
            Self::Half => Some(&[0.0, PI]),
            Self::Left => Some(&[0.0, FRAC_PI_2]),
            Self::Quarter => Some(&[0.0, FRAC_PI_2, PI, 3.0 * FRAC_PI_2]),
            Self::Free => None,
        }
    }
}
