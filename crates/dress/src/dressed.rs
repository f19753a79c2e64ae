use crate::{Covered, DoorPiece, OpeningLine, OrnamentPiece, Pane};
use gable_measure::Finding;

/// Everything that is put on a house. Plain data: print, screen and plans only read it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Dressed {
    /// Finishes, in the order of the pieces; snow after what it lies on.
    pub finishes: Vec<Covered>,
    /// What is made apart and stuck on.
    pub ornaments: Vec<OrnamentPiece>,
    /// What stands free on the base board.
    pub extras: Vec<OrnamentPiece>,
    /// Glazing, by piece and opening.
    pub panes: Vec<Pane>,
    /// Doors of their own in openings.
    pub doors: Vec<DoorPiece>,
    /// Bars to pipe and lines to press in openings.
    pub opening_lines: Vec<OpeningLine>,
    /// What was noticed.
    pub findings: Vec<Finding>,
}
