//! The key to what is asked of biscuit, on a face that lies on the table.

use crate::theme::Palette;
use egui::{FontId, Rect, Ui, vec2};
use gable_words::tr;

/// Height of the words, in points.
const WORDS: f32 = 12.5;

/// Says in a corner of the table what the bands are.
pub(super) fn key(ui: &Ui, table: Rect, is_mapped: bool, palette: &Palette) {
    let words = if is_mapped {
        tr!(
            "The darker, the more is asked. Lines: share of what biscuit carries where it stands; × most; thick: held by joints."
        )
    } else {
        tr!("It stands upright or lies on the board: its weight does not bend it.")
    };
    let galley = ui.painter().layout(words.to_owned(), FontId::proportional(WORDS), palette.ink, table.width() - 24.0);
    let rect = Rect::from_min_size(table.left_top() + vec2(8.0, 8.0), galley.size() + vec2(8.0, 4.0));
    ui.painter().rect_filled(rect, 4.0, palette.panel);
    ui.painter().galley(rect.min + vec2(4.0, 2.0), galley, palette.ink);
}
