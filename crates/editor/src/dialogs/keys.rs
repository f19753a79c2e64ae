use super::asking;
use crate::keys;
use crate::theme::bold;
use egui::{Context, Grid, ScrollArea};
use gable_words::tr;

/// Shows every key. `Some(true)`: make a card of them to print; `Some(false)`: enough.
pub(crate) fn key_list(ctx: &Context) -> Option<bool> {
    let mut answer = None;
    let modal = asking(ctx, "keys").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 680.0));
        ui.heading(tr!("All keys"));
        let tall = (room.y - 180.0).max(120.0);
        ScrollArea::vertical().max_height(tall).min_scrolled_height(tall).auto_shrink([false, true]).show(ui, |ui| {
            for (name, lines) in keys::groups(ctx) {
                ui.add_space(6.0);
                ui.label(bold(name));
                Grid::new(name).num_columns(2).min_col_width(210.0).spacing([12.0, 4.0]).show(ui, |ui| {
                    for (keys, words) in lines {
                        ui.label(keys);
                        ui.add(egui::Label::new(words).wrap());
                        ui.end_row();
                    }
                });
            }
        });
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            answer = ui.button(tr!("Close")).clicked().then_some(false);
            let tip = tr!("One page with all of them, to lay beside the keyboard");
            answer = answer.or(ui.button(tr!("Make a key card…")).on_hover_text(tip).clicked().then_some(true));
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(false));
    }
    answer
}
