//! Tables: every piece, joint, opening and ornament, and what to mind.

use super::Draft;
use super::cover::About;
use super::flow::{Flow, row};
use super::sheet::Sheet;
use super::words::{HEADING, PLAIN};
use gable_dress::OrnamentPiece;
use gable_measure::Length;
use gable_shell::{JointEnd, Mode, Piece, PieceOpening, WedgeSide};

/// Where the columns begin, as shares of the width. Pieces: name, template, size, thickness, dough.
const PIECES: [f64; 5] = [0.0, 0.5, 0.58, 0.77, 0.88];
/// Joints: letter, kind, both sides, length, angle, bevel, wedge.
const JOINTS: [f64; 7] = [0.0, 0.05, 0.16, 0.68, 0.77, 0.84, 0.91];
/// Openings: name, piece, size, shape.
const OPENINGS: [f64; 4] = [0.0, 0.3, 0.66, 0.84];
/// Ornaments: name, pieces, thickness, made of.
const ORNAMENTS: [f64; 4] = [0.0, 0.56, 0.66, 0.78];

/// The pages of the tables.
pub(super) fn pages(about: &About<'_>, sheet: &Sheet) -> Vec<Draft> {
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Tables");
    pieces(&mut flow, about);
    joints(&mut flow, about);
    openings(&mut flow, about);
    ornaments(&mut flow, about);
    flow.drafts(sheet, "tables", "Tables")
}

fn pieces(flow: &mut Flow, about: &About<'_>) {
    let unit = about.solved.unit;
    flow.heading("Pieces");
    row(flow, true, &PIECES, &[0], &["Piece", "Template", "Size", "Baked", "Dough"].map(String::from));
    for piece in &about.solved.pieces {
        let (width, height) = piece.size();
        let cells = [
            if piece.baked { format!("{} (baked already)", piece.name) } else { piece.name.clone() },
            about.solved.template_number(piece).to_string(),
            format!("{} × {}", unit.print_bare(width), unit.print(height)),
            // Finer than a ruler: thicknesses add up where pieces meet.
            format!("{:.2} mm", piece.thickness.mm()),
            piece.dough.0.clone(),
        ];
        row(flow, false, &PIECES, &[0], &cells);
    }
}

fn joints(flow: &mut Flow, about: &About<'_>) {
    let solved = about.solved;
    let unit = solved.unit;
    flow.heading("Joints");
    flow.paragraph(PLAIN, false, &what_joints_are(solved.gap));
    let head = ["", "Kind", "Of, and with", "Length", "Angle", "Bevel", "Wedge"].map(String::from);
    row(flow, true, &JOINTS, &[2], &head);
    let side = |end: &JointEnd| match end {
        JointEnd::Board => "base board",
        JointEnd::Piece(k) => solved.pieces.get(*k).map_or("", |p| p.name.as_str()),
    };
    let degrees = |a: gable_measure::Angle| format!("{}°", (a.deg() * 10.0).round() / 10.0);
    for joint in &solved.joints {
        let wedge = match joint.wedge.side {
            WedgeSide::Closed => "–".to_owned(),
            _ => unit.print(joint.wedge.width),
        };
        let cells = [
            joint.letter.clone(),
            joint.kind.word().to_owned(),
            format!("{}, {}", side(&joint.ends[0]), side(&joint.ends[1])),
            unit.print(Length::mm_of((joint.line[1] - joint.line[0]).norm())),
            degrees(joint.dihedral),
            if joint.bevel.deg().abs() < 0.05 { "–".to_owned() } else { degrees(joint.bevel) },
            wedge,
        ];
        row(flow, false, &JOINTS, &[2], &cells);
    }
}

/// How pieces lie at a joint.
fn what_joints_are(gap: Length) -> String {
    let leave = if gap > Length::ZERO {
        format!(
            "Between two pieces lies a gap of {:.2} mm for icing; walls stand on the base board without. ",
            gap.mm()
        )
    } else {
        "Pieces touch, without a gap for icing. ".to_owned()
    };
    leave
        + "The first piece of a joint runs through or stays whole, the second ends at it: at its face along the line with the \
           letter, or behind it at a corner, flush outside. Lines are where the outer face of a wall or the lower face of a \
           roof comes to stand, or the face that touches first if the piece leans. Ridges, hips and knees: the lower edges \
           of both pieces are the gap apart. Angles are measured inside."
}

fn openings(flow: &mut Flow, about: &About<'_>) {
    let unit = about.solved.unit;
    let of_piece =
        |p: &Piece| p.openings.iter().chain(&p.notches).cloned().map(|o| (p.name.clone(), o)).collect::<Vec<_>>();
    let all: Vec<(String, PieceOpening)> = about.solved.pieces.iter().flat_map(of_piece).collect();
    if all.is_empty() {
        return;
    }
    flow.heading("Openings");
    row(flow, true, &OPENINGS, &[0, 1], &["Opening", "In", "Size", ""].map(String::from));
    for (piece, opening) in all {
        let (low, high) = opening.contour.bounds();
        let said = |mm: f64| Length::mm_of(mm);
        let mode = match opening.mode {
            Mode::Cut => "cut out",
            Mode::Glazed => "glazed",
            Mode::Pressed => "pressed",
        };
        let size = format!("{} × {}", unit.print_bare(said(high.x - low.x)), unit.print(said(high.y - low.y)));
        row(flow, false, &OPENINGS, &[0, 1], &[opening.name, piece, size, mode.to_owned()]);
    }
}

fn ornaments(flow: &mut Flow, about: &About<'_>) {
    let unit = about.solved.unit;
    let mut kinds: Vec<(&OrnamentPiece, usize)> = Vec::new();
    for piece in about.dressed.ornaments.iter().chain(&about.dressed.extras) {
        let like = |o: &OrnamentPiece| o.name == piece.name && o.stuff == piece.stuff && o.thickness == piece.thickness;
        match kinds.iter_mut().find(|(other, _)| like(other)) {
            Some((_, count)) => *count += 1,
            None => kinds.push((piece, 1)),
        }
    }
    if kinds.is_empty() {
        return;
    }
    flow.heading("Ornaments, and what stands free");
    row(flow, true, &ORNAMENTS, &[0], &["Ornament", "Pieces", "Thick", "Made of"].map(String::from));
    for (piece, count) in kinds {
        let made = format!("{}, {}", piece.stuff.words(), piece.tint.word());
        let cells = [piece.name.clone(), count.to_string(), unit.print(piece.thickness), made];
        row(flow, false, &ORNAMENTS, &[0], &cells);
    }
}
