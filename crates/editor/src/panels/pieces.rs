use egui::{Button, Grid, ScrollArea, Ui};
use gable_plane::bounds;
use gable_shell::{PieceId, Solved};

/// Every piece with its size: the same as the view shows, as a list. Returns the piece that was clicked.
pub(crate) fn pieces(ui: &mut Ui, solved: &Solved, chosen: Option<&PieceId>) -> Option<PieceId> {
    if solved.pieces.is_empty() {
        ui.label("No pieces yet.");
        return None;
    }
    let mut clicked = None;
    ScrollArea::vertical().id_salt("pieces").auto_shrink([false, false]).show(ui, |ui| {
        Grid::new("list of pieces").num_columns(3).striped(true).spacing([18.0, 4.0]).show(ui, |ui| {
            for piece in &solved.pieces {
                let is_chosen = chosen == Some(&piece.id);
                if ui.add(Button::selectable(is_chosen, &piece.name)).clicked() {
                    clicked = Some(piece.id.clone());
                }
                let size = bounds(&piece.outline).map_or_else(String::new, |(low, high)| {
                    let length = |mm: f64| solved.unit.print(gable_measure::Length::mm_of(mm));
                    format!("{} × {}", length(high.x - low.x), length(high.y - low.y))
                });
                ui.label(size);
                ui.label(format!("template {}", piece.group + 1));
                ui.end_row();
            }
        });
    });
    clicked
}
