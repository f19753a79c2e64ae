use gable_measure::Length;

/// Copies of an opening in a row or grid. They are placed as a whole, so that the row follows the width of its wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeat {
    /// How many beside each other.
    pub across: u8,
    /// How many over each other, from the sill up.
    pub up: u8,
    /// Between two beside each other; where it is not given, so much that it is the same between all and at both ends.
    pub gap: Option<Length>,
    /// Between two over each other.
    pub gap_up: Length,
}

impl Default for Repeat {
    fn default() -> Self {
        Self { across: 1, up: 1, gap: None, gap_up: Length::mm_of(10.0) }
    }
}

impl Repeat {
    /// Number of copies, the first one counted.
    pub fn count(&self) -> usize {
        usize::from(self.across) * usize::from(self.up)
    }
}
