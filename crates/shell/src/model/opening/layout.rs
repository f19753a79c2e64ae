use super::Opening;
use gable_plane::P2;

/// Where the copies of an opening lie on its face, seen from outside: x in mm from the left corner of the plan, y from the
/// line that sills are measured from.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Lower left and upper right corner of each copy: from left to right, then the next row above.
    pub boxes: Vec<(P2, P2)>,
}

impl Opening {
    /// The copies on a face over a wall of `length` mm; none for a whole face.
    pub fn layout(&self, length: f64) -> Layout {
        if self.shape.is_whole_face() {
            return Layout { boxes: Vec::new() };
        }
        let repeat = self.repeat.unwrap_or_default();
        let (width, height) = (self.width.mm(), self.height.mm());
        let across = f64::from(repeat.across);
        let margins = (length - across * width) / (across + 1.0);
        let (left, gap) = match (self.repeat, repeat.gap) {
            (Some(_), None) => (margins, margins),
            (_, gap) => {
                let gap = gap.map_or(0.0, |g| g.mm());
                let whole = across * width + (across - 1.0) * gap;
                (self.placing.left_edge(whole, length), gap)
            }
        };
        let at = |column: u8, row: u8| {
            let x = left + f64::from(column) * (width + gap);
            let y = self.sill.mm() + f64::from(row) * (height + repeat.gap_up.mm());
            (P2::new(x, y), P2::new(x + width, y + height))
        };
        let boxes = (0..repeat.up).flat_map(|row| (0..repeat.across).map(move |column| (column, row)));
        Layout { boxes: boxes.map(|(column, row)| at(column, row)).collect() }
    }
}
