//! One flat picture in millimetres: layers, strokes with a line role, fills and texts.
//!
//! PDF, SVG and the screen all draw the same [`Drawing`], so they cannot disagree.
//! x runs to the right and y **up**; the origin is the lower left corner of the sheet.

mod item;
mod role;

pub use item::{Anchor, Fill, Item, Layer, Stroke, Text};
pub use role::{LineRole, Shade};

use gable_plane::P2;

/// A sheet with everything drawn on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Width of the sheet, mm.
    pub width: f64,
    /// Height of the sheet, mm.
    pub height: f64,
    /// What is on it, in the order it is painted.
    pub items: Vec<Item>,
}

impl Drawing {
    /// An empty sheet of a size in mm.
    pub fn new(width: f64, height: f64) -> Self {
        Self { width, height, items: Vec::new() }
    }

    /// Paints an item over what is there.
    pub fn push(&mut self, item: impl Into<Item>) {
        self.items.push(item.into());
    }

    /// Strokes a straight line.
    pub fn line(&mut self, layer: Layer, role: LineRole, from: P2, to: P2) {
        self.push(Stroke::polyline(layer, role, &[from, to]));
    }
}
