use egui::{Button, Grid, ScrollArea, Ui};
use gable_plane::bounds;
use gable_shell::{Piece, PieceId, Solved};

/// Room for a piece with its size, in points.
const WIDTH: f32 = 400.0;

/// Every piece with its size: the same as the view shows, as a list. Returns the piece that was clicked.
pub(crate) fn pieces(ui: &mut Ui, solved: &Solved, chosen: Option<&PieceId>) -> Option<PieceId> {
    if solved.pieces.is_empty() {
        ui.label("No pieces yet.");
        return None;
    }
    let mut clicked = None;
    let abreast = ((ui.available_width() / WIDTH) as usize).max(1);
    ScrollArea::vertical().id_salt("pieces").auto_shrink([false, false]).show(ui, |ui| {
        Grid::new("list of pieces").num_columns(3 * abreast).striped(true).spacing([18.0, 4.0]).show(ui, |ui| {
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

fn cells(ui: &mut Ui, solved: &Solved, piece: &Piece, is_chosen: bool) -> bool {
    let clicked = ui.add(Button::selectable(is_chosen, &piece.name)).on_hover_text("Show it").clicked();
    let size = bounds(&piece.outline).map_or_else(String::new, |(low, high)| {
        let length = |mm: f64| solved.unit.print(gable_measure::Length::mm_of(mm));
        format!("{} × {}", length(high.x - low.x), length(high.y - low.y))
    });
    ui.label(size);
    ui.label(format!("template {}", piece.group + 1));
    clicked
}
