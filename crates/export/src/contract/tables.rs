//! Joints, openings and ornaments as tables.

use super::joint::{piece_id, side};
use super::sizes::{DECIMALS, Sizes, table};
use crate::pack::seen_from_outside;
use gable_dress::{Dressed, OrnamentPiece};
use gable_measure::{Length, decimal};
use gable_plane::{P2, bounds};
use gable_shell::{Joint, Mode, Piece, PieceOpening, Solved};

/// Decimals kept of an angle in degrees.
const ANGLE_DECIMALS: usize = 3;

/// One row per joint as CSV: the two pieces, lengths in the house's unit and in mm, angles in degrees, icing in mm³.
pub fn joints_csv(solved: &Solved) -> Result<String, csv::Error> {
    let sizes = Sizes(solved.unit);
    let mut head = ["letter", "kind", "first", "second"].map(String::from).to_vec();
    head.extend(sizes.head(&["length", "gap", "wedge_width"]));
    head.extend(["wedge_side", "dihedral_deg", "bevel_deg", "icing_mm3"].map(String::from));
    let row = |joint: &Joint| {
        let mut row = vec![joint.letter.clone(), joint.kind.word().to_owned()];
        row.extend(joint.ends.iter().map(|end| piece_id(solved, end).to_owned()));
        let length = Length::mm_of((joint.line[1] - joint.line[0]).norm());
        row.extend(sizes.row(&[length, joint.gap, joint.wedge.width]));
        row.push(side(joint.wedge.side).to_owned());
        row.extend([joint.dihedral, joint.bevel].map(|angle| decimal(angle.deg(), ANGLE_DECIMALS)));
        row.push(decimal(joint.wedge.volume, DECIMALS));
        row
    };
    table(&head, solved.joints.iter().map(row))
}

/// One row per opening of every piece as CSV, as one sees it from outside: how wide and high it is, how far its left end
/// is from the left end of the piece and its foot above the lowest corner, its area in mm², and how many panes close it.
pub fn openings_csv(solved: &Solved, dressed: &Dressed) -> Result<String, csv::Error> {
    let sizes = Sizes(solved.unit);
    let mut head = ["piece", "opening", "copy", "name", "mode"].map(String::from).to_vec();
    head.extend(sizes.head(&["width", "height", "from_left", "above_foot"]));
    head.extend(["area_mm2", "panes"].map(String::from));
    let row = |(index, piece, opening): (usize, &Piece, &PieceOpening)| {
        let seen = |ring: &[P2]| {
            let ring: Vec<P2> = ring.iter().map(|p| seen_from_outside(piece, *p)).collect();
            bounds(&ring).unwrap_or((P2::origin(), P2::origin()))
        };
        let (low, high) = seen(&opening.contour.flatten(0.001));
        let all: Vec<P2> = piece.outline.iter().chain(&piece.outline_back).copied().collect();
        let (corner, _) = seen(&all);
        let own =
            |pane: &&gable_dress::Pane| pane.piece == index && pane.opening == opening.id && pane.copy == opening.copy;
        let mode = match opening.mode {
            Mode::Cut => "cut",
            Mode::Glazed => "glazed",
            Mode::Pressed => "pressed",
        };
        let copy = (opening.copy + 1).to_string();
        let mut row = vec![piece.id.0.clone(), opening.id.0.clone(), copy, opening.name.clone(), mode.to_owned()];
        let lengths = [high.x - low.x, high.y - low.y, low.x - corner.x, low.y - corner.y].map(Length::mm_of);
        row.extend(sizes.row(&lengths));
        row.push(decimal(opening.contour.area().abs(), DECIMALS));
        row.push(dressed.panes.iter().filter(own).count().to_string());
        row
    };
    let openings = solved
        .pieces
        .iter()
        .enumerate()
        .flat_map(|(k, piece)| piece.openings.iter().chain(&piece.notches).map(move |opening| (k, piece, opening)));
    table(&head, openings.map(row))
}

/// One row per piece of ornament and per piece of what stands free as CSV: what it is made of, its sizes, area in mm² and
/// mass in g, and the piece that it is stuck on, if any.
pub fn ornaments_csv(solved: &Solved, dressed: &Dressed) -> Result<String, csv::Error> {
    let sizes = Sizes(solved.unit);
    let mut head = ["id", "name", "material", "colour", "stuck_on"].map(String::from).to_vec();
    head.extend(sizes.head(&["width", "height", "thickness"]));
    head.extend(["area_mm2", "mass_g"].map(String::from));
    let row = |piece: &OrnamentPiece| {
        let size = bounds(&piece.outline).map(|(low, high)| high - low).unwrap_or_default();
        let host = piece.host.and_then(|k| solved.pieces.get(k)).map_or("", |p| p.id.0.as_str());
        let words = [piece.id.as_str(), &piece.name, piece.stuff.words(), piece.tint.word(), host];
        let mut row = words.map(String::from).to_vec();
        row.extend(sizes.row(&[Length::mm_of(size.x), Length::mm_of(size.y), piece.thickness]));
        row.extend([piece.area(), piece.mass()].map(|number| decimal(number, DECIMALS)));
        row
    };
    table(&head, dressed.ornaments.iter().chain(&dressed.extras).map(row))
}
