//! Glazing of the openings.

use gable_measure::{Finding, Length};
use gable_plane::{Contour, Rigid};
use gable_shell::{House, OpeningId, Solved};

/// A sheet of glazing.
#[derive(Clone, Debug, PartialEq)]
pub struct Pane {
    /// The piece it belongs to, as an index into [`Solved::pieces`].
    pub piece: usize,
    /// The opening that it closes.
    pub opening: OpeningId,
    /// Its outline at z = 0 of the pane; it reaches to z = `thickness`.
    pub outline: Contour,
    /// How thick it is.
    pub thickness: Length,
    /// Where the finished house has it.
    pub house_from_pane: Rigid,
}

/// The panes of a house: none, since no opening of the model asks for glazing yet.
pub(crate) fn panes(_house: &House, _solved: &Solved, _findings: &mut Vec<Finding>) -> Vec<Pane> {
    Vec::new()
}
