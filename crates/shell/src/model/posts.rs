//! Posts under a roof, and floors built up of several plates.

use super::SideId;
use gable_measure::Length;

/// A row of posts on a side without a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Posts {
    /// How many, those at the ends counted, even where one of them belongs to the row round the corner too.
    pub count: u8,
    /// Along the side.
    pub width: Length,
    /// Strips of dough laid face to face that make one post thick; 1 is a plain strip.
    pub strips: u8,
    /// The first and the last stand at the ends of the side; otherwise the row has the same room there as between posts.
    pub at_ends: bool,
}

impl Posts {
    /// Two strips thick and about as wide, at both ends of a side.
    pub fn usual(thickness: Length) -> Self {
        Self { count: 2, width: thickness * 2.0, strips: 2, at_ends: true }
    }
}

/// A floor of several plates laid on each other. The plan of the part is the topmost; on some sides each step under it
/// reaches out by the tread.
#[derive(Clone, Debug, PartialEq)]
pub struct Steps {
    /// How high it is built.
    pub high: StepsHigh,
    /// Plates of dough in the rise of one step: a rise is a whole number of plates with the icing between them.
    pub plates: u8,
    /// How far each step reaches out from under the next.
    pub tread: Length,
    /// Sides with steps; on the others all plates are flush.
    pub sides: Vec<SideId>,
}

/// How the height of steps is given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StepsHigh {
    /// By their number.
    Count(u8),
    /// By the height of the topmost plate above the ground; as many plates are laid as come nearest to it.
    Height(Length),
}

impl Steps {
    /// Plates of a baked `thickness`, with `gap` of icing between them: at least one, at most [`Self::MOST_PLATES`].
    pub fn plates(&self, thickness: Length, gap: Length) -> usize {
        let wanted = match self.high {
            StepsHigh::Count(steps) => f64::from(steps) * f64::from(self.plates),
            StepsHigh::Height(height) => (height + gap).mm() / (thickness + gap).mm(),
        };
        // Saturates, and what is no number becomes one plate.
        (wanted.round() as usize).clamp(1, Self::MOST_PLATES)
    }

    /// Height of so many plates.
    pub fn height_of(plates: usize, thickness: Length, gap: Length) -> Length {
        thickness * plates as f64 + gap * plates.saturating_sub(1) as f64
    }

    /// How many steps there are under the topmost above plate `layer` of `plates`, counted from the ground.
    pub fn steps_above(&self, layer: usize, plates: usize) -> usize {
        plates.saturating_sub(layer + 1) / usize::from(self.plates.max(1))
    }

    /// More plates are a tower of biscuit.
    pub const MOST_PLATES: usize = 60;
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steps(high: StepsHigh, plates: u8) -> Steps {
        Steps { high, plates, tread: Length::mm_of(15.0), sides: vec![SideId("front".into())] }
    }

    #[test]
    fn a_rise_is_a_whole_number_of_plates() {
        let (thickness, gap) = (Length::mm_of(8.0), Length::mm_of(0.8));
        let two_each = steps(StepsHigh::Count(3), 2);
        assert_eq!(two_each.plates(thickness, gap), 6);
        assert_eq!((0..6).map(|layer| two_each.steps_above(layer, 6)).collect::<Vec<_>>(), [2, 2, 1, 1, 0, 0]);
        // 8 + 0.8 + 8 + 0.8 + 8.
        assert!((Steps::height_of(3, thickness, gap).mm() - 25.6).abs() < 1e-12);
    }

    #[test]
    fn a_typed_height_is_met_as_nearly_as_plates_allow() {
        let (thickness, gap) = (Length::mm_of(8.0), Length::mm_of(0.8));
        let plates = |mm: f64| steps(StepsHigh::Height(Length::mm_of(mm)), 1).plates(thickness, gap);
        assert_eq!([0.0, 8.0, 20.0, 22.0, 25.6].map(plates), [1, 1, 2, 3, 3]);
        assert_eq!(plates(f64::NAN), 1);
        assert_eq!(plates(1e9), Steps::MOST_PLATES);
    }
}
