//! What is asked of biscuit, on a face that lies on the table, and the key to it.

use super::draw::{item, text_shape};
use super::paper::Paper;
use crate::theme::Palette;
use egui::{FontId, Painter, Rect, Ui, vec2};
use gable_drawing::{Drawing, Item};
use gable_mesh::Theme;
use gable_words::tr;

/// Height of the words, in points.
const WORDS: f32 = 12.5;

/// The bands with their lines and numbers. Bands have the tones of biscuit in every light: lines on them are dark, and numbers lie on
/// patches of paper.
pub(super) fn map(painter: &Painter, map: &Drawing, paper: &Paper, palette: &Palette) {
    let ink = Palette::of_theme(Theme::Light).ink;
    let on_bands = Palette { ink, ..*palette };
    map.items.iter().filter(|i| !matches!(i, Item::Text(_))).for_each(|band| item(painter, band, paper, &on_bands));
    for words in &map.items {
        let Item::Text(words) = words else { continue };
        let (at, galley) = text_shape(painter, words, paper, palette);
        painter.rect_filled(Rect::from_min_size(at, galley.size()).expand2(vec2(2.0, 0.0)), 3.0, palette.paper);
        painter.galley(at, galley, palette.ink);
    }
}

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
