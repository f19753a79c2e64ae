use super::sizes::{DECIMALS, Sizes, table};
use gable_measure::{Length, decimal};
use gable_plane::ring_area;
use gable_shell::{Piece, Solved};

/// One row per piece as CSV: sizes in the house's unit and in mm, area less openings in mm².
pub fn pieces_csv(solved: &Solved) -> Result<String, csv::Error> {
    let sizes = Sizes(solved.unit);
    let mut head = ["id", "name", "group", "material"].map(String::from).to_vec();
    head.extend(sizes.head(&["width", "height", "rolled", "thickness"]));
    head.extend(["openings", "area_mm2"].map(String::from));
    table(&head, solved.pieces.iter().map(|piece| row(solved, piece)))
}

fn row(solved: &Solved, piece: &Piece) -> Vec<String> {
    let (width, height) = piece.size();
    let lengths: [Length; 4] = [width, height, piece.rolled, piece.thickness];
    let group = solved.template_number(piece).to_string();
    let mut row = vec![piece.id.0.clone(), piece.name.clone(), group, piece.dough.0.clone()];
    row.extend(Sizes(solved.unit).row(&lengths));
    let cut: f64 = piece.openings.iter().filter(|o| o.mode.goes_through()).map(|o| o.contour.area().abs()).sum();
    row.push((piece.openings.len() + piece.notches.len()).to_string());
    row.push(decimal(ring_area(&piece.outline) - cut, DECIMALS));
    row
}
