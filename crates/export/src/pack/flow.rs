//! Words set from the top of a page down.

use super::Draft;
use super::clip::Window;
use super::sheet::{Heading, Sheet};
use super::words::{LARGE, LEADING, PLAIN, fitted, wrapped};
use gable_drawing::{Anchor, Item, Layer, LineRole, Stroke, Text};
use gable_plane::P2;

/// Items set from the top down over as many pages as it takes.
#[derive(Clone)]
pub(super) struct Flow {
    pub(super) room: Window,
    pub(super) pages: Vec<Vec<Item>>,
    y: f64,
}

impl Flow {
    pub(super) fn new(sheet: &Sheet) -> Self {
        Self::within(sheet.content)
    }

    /// In a part of a page.
    pub(super) fn within(room: Window) -> Self {
        Self { room, pages: vec![Vec::new()], y: room.high.y }
    }

    pub(super) fn width(&self) -> f64 {
        self.room.size().x
    }

    /// Goes down by `height`, on the next page if this one is full, and gives the lower edge.
    pub(super) fn take(&mut self, height: f64) -> f64 {
        if self.y - height < self.room.low.y && self.y < self.room.high.y {
            self.pages.push(Vec::new());
            self.y = self.room.high.y;
        }
        self.y -= height;
        self.y
    }

    /// The pages, with what their stamp says of them; the first one is in the list of contents.
    pub(super) fn drafts(self, sheet: &Sheet, what: &str, bookmark: &str) -> Vec<Draft> {
        let draft = |(k, items): (usize, Vec<Item>)| Draft {
            sheet: *sheet,
            items,
            heading: Heading { what: what.to_owned(), ..Heading::default() },
            templates: Vec::new(),
            bookmark: (k == 0).then(|| bookmark.to_owned()),
            is_cover: false,
        };
        self.pages.into_iter().enumerate().map(draft).collect()
    }

    /// What is left of the page.
    pub(super) fn rest(&self) -> Window {
        Window { low: self.room.low, high: P2::new(self.room.high.x, self.y) }
    }

    /// Goes on with the next page, unless this one is empty.
    pub(super) fn next_page(&mut self) {
        if self.pages.last().is_some_and(|page| !page.is_empty()) {
            self.pages.push(Vec::new());
            self.y = self.room.high.y;
        }
    }

    pub(super) fn space(&mut self, height: f64) {
        self.y -= height;
    }

    pub(super) fn put(&mut self, item: impl Into<Item>) {
        if let Some(page) = self.pages.last_mut() {
            page.push(item.into());
        }
    }

    pub(super) fn paragraph(&mut self, height: f64, bold: bool, text: &str) {
        for line in wrapped(text, height, bold, self.width()) {
            let y = self.take(height * LEADING) + height * (LEADING - 1.0) / 2.0;
            let at = P2::new(self.room.low.x, y);
            self.put(Text { bold, ..Text::note(at, height, Anchor::Start, line) });
        }
    }

    pub(super) fn heading(&mut self, text: &str) {
        self.space(2.0);
        // Never alone at the foot of a page.
        if self.y - 25.0 < self.room.low.y {
            self.take(self.room.size().y);
            self.y = self.room.high.y;
        }
        self.paragraph(LARGE, true, text);
    }

    pub(super) fn point(&mut self, text: &str) {
        let indent = 4.0;
        for (k, line) in wrapped(text, PLAIN, false, self.width() - indent).into_iter().enumerate() {
            let y = self.take(PLAIN * LEADING) + PLAIN * (LEADING - 1.0) / 2.0;
            if k == 0 {
                self.put(Text::note(P2::new(self.room.low.x, y), PLAIN, Anchor::Start, "•"));
            }
            self.put(Text::note(P2::new(self.room.low.x + indent, y), PLAIN, Anchor::Start, line));
        }
    }
}

/// One row of a table whose columns begin at some shares of the width. Some cells may take several lines, the others
/// take one.
pub(super) fn row<const N: usize>(
    flow: &mut Flow,
    bold: bool,
    columns: &[f64; N],
    wraps: &[usize],
    cells: &[String; N],
) {
    let width = flow.width();
    let end = |k: usize| columns.get(k + 1).copied().unwrap_or(1.0);
    let room = |k: usize| (end(k) - columns[k]) * width - 2.0;
    let lines: Vec<Vec<(String, f64)>> = cells
        .iter()
        .enumerate()
        .map(|(k, cell)| match wraps.contains(&k) {
            true => wrapped(cell, PLAIN, bold, room(k)).into_iter().map(|l| (l, PLAIN)).collect(),
            false => vec![fitted(cell, PLAIN, bold, room(k))],
        })
        .collect();
    let count = lines.iter().map(Vec::len).max().unwrap_or(1);
    let step = PLAIN * LEADING;
    let foot = flow.take(step * count as f64 + 0.8);
    let x = flow.room.low.x;
    for (k, cell) in lines.into_iter().enumerate() {
        for (n, (text, height)) in cell.into_iter().enumerate() {
            let y = foot + step * (count - n) as f64 - step + PLAIN * (LEADING - 1.0) / 2.0 + 0.4;
            let at = P2::new(x + columns[k] * width, y);
            flow.put(Text { bold, ..Text::note(at, height, Anchor::Start, text) });
        }
    }
    let line = Stroke::polyline(Layer::Notes, LineRole::Thin, &[P2::new(x, foot), P2::new(x + width, foot)]);
    flow.put(line);
}
