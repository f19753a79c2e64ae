//! The pieces and joints as data for other programs: a stable contract, in millimetres and degrees.

mod joint;
mod piece;
mod sizes;
mod table;
mod tables;

pub use table::pieces_csv;
pub use tables::{joints_csv, openings_csv, ornaments_csv};

use gable_shell::Solved;
use serde::Serialize;

/// What `pieces --json` writes.
#[derive(Serialize)]
struct Contract<'a> {
    pieces: Vec<piece::PieceData<'a>>,
    joints: Vec<joint::JointData<'a>>,
}

/// Every single piece and every joint as JSON.
///
/// Lengths in mm, angles in degrees. A piece's solid joins `outline` at z = 0 to `outline_back` at z = `thickness`,
/// corner by corner; both rings run counter-clockwise with the first corner not repeated, holes clockwise and straight
/// through. `house_from_piece` is a rigid 4 × 4 matrix, row by row. Numbers are not rounded.
pub fn pieces_json(solved: &Solved) -> Result<String, serde_json::Error> {
    let contract = Contract {
        pieces: solved.pieces.iter().map(|p| piece::PieceData::new(solved, p)).collect(),
        joints: solved.joints.iter().map(|j| joint::JointData::new(solved, j)).collect(),
    };
    let mut text = serde_json::to_string_pretty(&contract)?;
    text.push('\n');
    Ok(text)
}

#[cfg(test)]
mod tests;
