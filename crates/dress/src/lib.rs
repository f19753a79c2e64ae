//! What is put on the finished pieces: finishes, panes, ornaments and free-standing extras.
//!
//! `House -> Solved -> Dressed`, one way. [`Dressed`] is plain data like [`Solved`]: print, screen and plans only read it.

mod amounts;
mod clash;
mod dressed;
mod extra;
mod finish;
mod ornament;
mod panes;
mod rooms;
mod when;

pub use amounts::{FinishAmount, GlassAmount, duration, finish_amounts, glass_amounts};
pub use dressed::Dressed;
pub use finish::{Covered, Tally, Unit};
pub use ornament::OrnamentPiece;
pub use panes::{DoorPiece, GlassFacts, OpeningLine, Pane, glass_facts};
pub use rooms::Rooms;

use gable_shell::{House, Solved};
use panes::solids::Solids;

/// Works out everything that is put on a house. `solved` must be what `house` was solved to.
pub fn dress(house: &House, solved: &Solved) -> Dressed {
    let mut findings = Vec::new();
    let biscuit = Solids::of(solved);
    let closed = panes::closed(house, solved, &biscuit, &mut findings);
    let ornaments = ornament::ornaments(house, solved);
    let finishes = finish::finishes(house, solved, &ornaments, &mut findings);
    let extras = extra::extras(house, &mut findings);
    let (panes, doors, opening_lines) = (closed.panes, closed.doors, closed.lines);
    let mut dressed = Dressed { extras, finishes, ornaments, panes, doors, opening_lines, findings: Vec::new() };
    clash::clashes(house, solved, &dressed, &biscuit, &mut findings);
    dressed.findings = findings;
    dressed
}
