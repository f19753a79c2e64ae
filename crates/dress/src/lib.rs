//! What is put on the finished pieces: finishes, panes, ornaments and free-standing extras.
//!
//! `House -> Solved -> Dressed`, one way. [`Dressed`] is plain data like [`Solved`]: print, screen and plans only read it.

mod amounts;
mod dressed;
mod extra;
mod finish;
mod ornament;
mod panes;

pub use amounts::{FinishAmount, GlassAmount, duration, finish_amounts, glass_amounts};
pub use dressed::Dressed;
pub use finish::{Covered, Tally, Unit};
pub use ornament::OrnamentPiece;
pub use panes::{DoorPiece, GlassFacts, OpeningLine, Pane, glass_facts};

use gable_shell::{House, Solved};

/// Works out everything that is put on a house. `solved` must be what `house` was solved to.
pub fn dress(house: &House, solved: &Solved) -> Dressed {
    let mut findings = Vec::new();
    let closed = panes::closed(house, solved, &mut findings);
    let (panes, doors, opening_lines) = (closed.panes, closed.doors, closed.lines);
    let ornaments = ornament::ornaments(house, solved, &mut findings);
    let finishes = finish::finishes(house, solved, &ornaments, &mut findings);
    let extras = extra::extras(house, &mut findings);
    Dressed { extras, finishes, ornaments, panes, doors, opening_lines, findings }
}
