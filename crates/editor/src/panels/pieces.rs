use egui::{Button, Grid, ScrollArea, Ui};
use gable_plane::bounds;
use gable_shell::{Piece, PieceId, Solved};
use gable_words::tr;

/// Room for a piece with its size, in points.
const WIDTH: f32 = 560.0;

/// Every piece with its size: the same as the view shows, as a list. Returns the piece that was clicked.
pub(crate) fn pieces(ui: &mut Ui, solved: &Solved, chosen: Option<&PieceId>) -> Option<PieceId> {
    if solved.pieces.is_empty() {
        ui.label(tr!("No pieces yet."));
        return None;
    }
    let mut clicked = None;
    let abreast = ((ui.available_width() / WIDTH) as usize).max(1);
    ScrollArea::vertical().id_salt("pieces").auto_shrink([false, false]).show(ui, |ui| {
        Grid::new("list of pieces").num_columns(4 * abreast).striped(true).spacing([18.0, 4.0]).show(ui, |ui| {
            for row in solved.pieces.chunks(abreast) {
                for piece in row {
                    if cells(ui, solved, piece, chosen == Some(&piece.id)) {
                        clicked = Some(piece.id.clone());
                    }
                }
                ui.end_row();
            }
        });
    });
    clicked
}

/// Whether a piece is baked already, and how it differs from the plan because something is.
fn fate(solved: &Solved, piece: &Piece) -> String {
    let change = solved.changes.iter().find(|c| c.piece == piece.id).map(|c| c.words(solved.unit));
    match (piece.baked, change) {
        (true, Some(change)) => tr!("baked; {change}"),
        (true, None) => tr!("a piece" => "baked").to_owned(),
        (false, Some(change)) => tr!("to print anew: {change}"),
        (false, None) => String::new(),
    }
}

fn cells(ui: &mut Ui, solved: &Solved, piece: &Piece, is_chosen: bool) -> bool {
    let clicked = ui.add(Button::selectable(is_chosen, &piece.name)).on_hover_text(tr!("Show it")).clicked();
    let size = bounds(&piece.outline).map_or_else(String::new, |(low, high)| {
        let length = |mm: f64| solved.unit.print(gable_measure::Length::mm_of(mm));
        format!("{} × {}", length(high.x - low.x), length(high.y - low.y))
    });
    ui.label(size);
    ui.label(fate(solved, piece));
    ui.label(tr!("template {}", piece.group + 1));
    clicked
}
