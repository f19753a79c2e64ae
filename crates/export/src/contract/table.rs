use gable_measure::{Length, Unit, decimal};
use gable_plane::ring_area;
use gable_shell::{Piece, Solved};

/// Decimals kept, trailing zeros not counted.
const DECIMALS: usize = 4;

/// One row per piece as CSV: sizes in the house's unit and in mm, area less openings in mm², volume in mm³.
pub fn pieces_csv(solved: &Solved) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let (unit, also_mm) = match solved.unit {
        Unit::Millimetre => ("mm", false),
        Unit::Inch(_) => ("in", true),
    };
    let in_unit = ["width", "height", "rolled", "thickness"].map(|name| format!("{name}_{unit}"));
    let in_mm = ["width", "height", "rolled", "thickness"].map(|name| format!("{name}_mm"));
    let mut head = ["id", "name", "group", "material"].map(String::from).to_vec();
    head.extend(in_unit);
    if also_mm {
        head.extend(in_mm);
    }
    head.extend(["openings", "area_mm2"].map(String::from));
    writer.write_record(&head)?;
    for piece in &solved.pieces {
        writer.write_record(row(solved, piece, also_mm))?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn row(solved: &Solved, piece: &Piece, also_mm: bool) -> Vec<String> {
    let (width, height) = piece.size();
    let lengths: [Length; 4] = [width, height, piece.rolled, piece.thickness];
    let group = solved.template_number(piece).to_string();
    let mut row = vec![piece.id.0.clone(), piece.name.clone(), group, piece.dough.0.clone()];
    row.extend(lengths.map(|l| decimal(solved.unit.number(l), DECIMALS)));
    if also_mm {
        row.extend(lengths.map(|l| decimal(l.mm(), DECIMALS)));
    }
    let cut: f64 = piece.openings.iter().filter(|o| o.mode.goes_through()).map(|o| o.contour.area().abs()).sum();
    row.push((piece.openings.len() + piece.notches.len()).to_string());
    row.push(decimal(ring_area(&piece.outline) - cut, DECIMALS));
    row
}
