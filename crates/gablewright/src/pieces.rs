use crate::args::PiecesArgs;
use crate::failure::Failure;
use crate::house;
use gable_shell::{Piece, Solved};
use std::io::Write;

/// Lists the pieces: for people, as JSON or as CSV.
pub(crate) fn run(args: &PiecesArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let solved = gable_shell::solve(&house::load(&args.house)?);
    if args.json {
        let text = gable_export::pieces_json(&solved).map_err(|e| Failure::Usage(e.to_string()))?;
        write!(out, "{text}")?;
    } else if args.csv {
        let text = gable_export::pieces_csv(&solved).map_err(|e| Failure::Usage(e.to_string()))?;
        write!(out, "{text}")?;
    } else {
        for piece in &solved.pieces {
            writeln!(out, "{}", line(&solved, piece))?;
        }
    }
    out.flush()?;
    house::refuse_blocked(&args.house, &solved)
}

fn line(solved: &Solved, piece: &Piece) -> String {
    let unit = solved.unit;
    let (width, height) = piece.size();
    format!(
        "{:<28} {} × {}, {} thick, dough '{}', template {}  ({}){}",
        piece.id.0,
        unit.print_bare(width),
        unit.print(height),
        unit.print(piece.thickness),
        piece.dough.0,
        solved.template_number(piece),
        piece.name,
        if piece.baked { ", baked already" } else { "" }
    )
}
