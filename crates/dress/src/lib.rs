//! What is put on the finished pieces: finishes, panes, ornaments and free-standing extras.
//!
//! `House -> Solved -> Dressed`, one way. [`Dressed`] is plain data like [`Solved`]: print, screen and plans only read it.

mod dressed;
mod finish;
mod ornament;
mod panes;

pub use dressed::Dressed;
pub use finish::{Covered, Tally, Unit};
pub use ornament::OrnamentPiece;
pub use panes::Pane;

use gable_shell::{House, Solved};

/// Works out everything that is put on a house. `solved` must be what `house` was solved to.
pub fn dress(house: &House, solved: &Solved) -> Dressed {
    let mut findings = Vec::new();
    let panes = panes::panes(house, solved, &mut findings);
    let ornaments = ornament::ornaments(house, solved, &mut findings);
    let finishes = finish::finishes(house, solved, &ornaments, &mut findings);
    Dressed { finishes, ornaments, panes, findings }
}
