use gable_measure::{Length, Unit};
use gable_plane::{bounds, ring_area};
use gable_shell::{Mode, Piece, Solved};

/// One row per piece as CSV: sizes in the house's unit and in mm, area less openings in mm², volume in mm³.
pub fn pieces_csv(solved: &Solved) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let unit = match solved.unit {
        Unit::Millimetre => "mm",
        Unit::Inch(_) => "in",
    };
    let in_unit = ["width", "height", "rolled", "thickness"].map(|name| format!("{name}_{unit}"));
    let in_mm = ["width", "height", "rolled", "thickness"].map(|name| format!("{name}_mm"));
    let mut head = ["id", "name", "group", "material"].map(String::from).to_vec();
    head.extend(in_unit);
    if unit != "mm" {
        head.extend(in_mm);
    }
    head.extend(["openings", "area_mm2"].map(String::from));
    writer.write_record(&head)?;
    for piece in &solved.pieces {
        writer.write_record(row(solved, piece, unit != "mm"))?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn row(solved: &Solved, piece: &Piece, also_mm: bool) -> Vec<String> {
    let size =
        bounds(piece.outline.iter().chain(&piece.outline_back)).map(|(low, high)| high - low).unwrap_or_default();
    let lengths = [Length::mm_of(size.x), Length::mm_of(size.y), piece.rolled, piece.thickness];
    let group = solved.groups.get(piece.group).map_or(piece.group + 1, |g| g.number);
    let mut row = vec![piece.id.0.clone(), piece.name.clone(), group.to_string(), piece.dough.0.clone()];
    row.extend(lengths.map(|l| match solved.unit {
        Unit::Millimetre => plain(l.mm()),
        Unit::Inch(_) => plain(l.in_inches()),
    }));
    if also_mm {
        row.extend(lengths.map(|l| plain(l.mm())));
    }
    let cut: f64 = piece.openings.iter().filter(|o| o.mode == Mode::Cut).map(|o| o.contour.area().abs()).sum();
    row.push((piece.openings.len() + piece.notches.len()).to_string());
    row.push(plain(ring_area(&piece.outline) - cut));
    row
}

/// At most four decimals, without trailing zeros.
fn plain(number: f64) -> String {
    let text = format!("{number:.4}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".into() } else { short.into() }
}
