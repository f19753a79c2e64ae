use crate::shape::Shape;
use gable_plane::P2;
use std::sync::{Arc, OnceLock};

/// A flat piece that has to find its place.
///
/// Making it ready for the search takes longer than laying it; that is done once, and copies of it share the result. So keep
/// items that go into several jobs, and hand in copies.
#[derive(Clone, Debug)]
pub struct Item {
    outline: Vec<P2>,
    turns: Turns,
    ready: Arc<OnceLock<Ready>>,
}

/// What became of an item with one gap round it.
#[derive(Debug)]
struct Ready {
    gap: f64,
    shape: Option<Shape>,
    measurable: OnceLock<Option<Shape>>,
}

impl Item {
    /// A piece by its outline, a simple ring in mm. What lies inside it is taken, holes included.
    pub fn new(outline: Vec<P2>, turns: Turns) -> Self {
        Self { outline, turns, ready: Arc::default() }
    }

    /// Its outline, mm.
    pub fn outline(&self) -> &[P2] {
        &self.outline
    }

    /// How it may be turned.
    pub fn turns(&self) -> Turns {
        self.turns
    }

    /// Its shape for the search; none when the outline is not simple or has no area. Only the first gap is remembered.
    pub(crate) fn shape(&self, gap: f64) -> Option<Shape> {
        let ready = self.ready.get_or_init(|| Ready::new(self, gap));
        if ready.gap == gap { ready.shape.clone() } else { Shape::new(self, gap) }
    }

    /// The same with what the search measures overlaps by.
    pub(crate) fn measurable(&self, gap: f64) -> Option<Shape> {
        let ready = self.ready.get_or_init(|| Ready::new(self, gap));
        let measurable = |shape: &Option<Shape>| shape.as_ref().and_then(Shape::measurable);
        if ready.gap == gap {
            ready.measurable.get_or_init(|| measurable(&ready.shape)).clone()
        } else {
            measurable(&Shape::new(self, gap))
        }
    }
}

impl Ready {
    fn new(item: &Item, gap: f64) -> Self {
        Self { gap, shape: Shape::new(item, gap), measurable: OnceLock::new() }
    }
}

impl PartialEq for Item {
    fn eq(&self, other: &Self) -> bool {
        self.turns == other.turns && self.outline == other.outline
    }
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
