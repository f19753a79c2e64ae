//! Large pieces over several pages, joined by marks.

use super::clip::Window;
use super::lying::{Lying, shift};
use super::sheet::{Heading, Sheet, area, frame};
use super::template::Template;
use super::words::PLAIN;
use super::{PackError, letters};
use gable_drawing::{Anchor, Drawing, Item, Layer, LineRole, Shade, Stroke, Text};
use gable_plane::{Contour, P2, V2};

/// How far neighbouring tiles overlap, mm.
pub(super) const OVERLAP: f64 = 10.0;
/// More tiles than this are not a template any more.
const MOST_TILES: usize = 400;
/// Distance from the middle of a mark to its tips, mm.
const MARK: f64 = 2.5;
/// Where the marks of a join are, as shares of its length.
const MARK_PLACES: [f64; 2] = [0.25, 0.75];

/// The tiles of one template on one kind of page.
pub(super) struct Tiling<'a> {
    lying: Lying<'a>,
    sheet: Sheet,
    columns: usize,
    rows: usize,
    origin: P2,
}

/// One page of a tiling.
pub(super) struct TilePage {
    /// The kind of page.
    pub(super) sheet: Sheet,
    /// What is drawn.
    pub(super) items: Vec<Item>,
    /// What its stamp says.
    pub(super) heading: Heading,
}

/// A mark on the line where two tiles join, in the coordinates of the piece.
struct Mark {
    at: P2,
    letter: String,
    /// Whether the join runs upwards.
    upright: bool,
}

impl<'a> Tiling<'a> {
    /// The tiling with the fewest pages over both ways of laying the piece and both of laying the paper.
    pub(super) fn best(template: &'a Template, sheets: &[Sheet]) -> Result<Self, PackError> {
        let mut found: Vec<Self> = Vec::new();
        for turns in [0, 1] {
            for sheet in sheets {
                found.push(Self::new(Lying::new(template, turns), *sheet));
            }
        }
        let best = found.into_iter().min_by_key(|t| t.columns.saturating_mul(t.rows));
        let tiles = best.as_ref().map_or(0, |t| t.columns.saturating_mul(t.rows));
        best.filter(|_| tiles <= MOST_TILES).ok_or_else(|| PackError::TooLarge {
            name: template.name.clone(),
            tiles,
            most: MOST_TILES,
        })
    }

    fn new(lying: Lying<'a>, sheet: Sheet) -> Self {
        let tile = sheet.content.size();
        let step = tile - V2::new(OVERLAP, OVERLAP);
        let count = |need: f64, step: f64| ((need - OVERLAP) / step - 1e-9).ceil().max(1.0);
        let (columns, rows) = (count(lying.size.x, step.x), count(lying.size.y, step.y));
        let reach = V2::new(step.x * columns + OVERLAP, step.y * rows + OVERLAP);
        let origin = P2::from((lying.size - reach) / 2.0);
        Self { lying, sheet, columns: columns as usize, rows: rows as usize, origin }
    }

    fn window(&self, column: usize, row: usize) -> Window {
        let tile = self.sheet.content.size();
        let step = tile - V2::new(OVERLAP, OVERLAP);
        let low = self.origin + V2::new(step.x * column as f64, step.y * row as f64);
        Window { low, high: low + tile }
    }

    /// The tiles that show something, from the upper left to the lower right, as column and row.
    fn shown(&self) -> Vec<(usize, usize)> {
        let places = (0..self.rows).rev().flat_map(|row| (0..self.columns).map(move |column| (column, row)));
        places.filter(|&(column, row)| self.lying.shows_in(&self.window(column, row))).collect()
    }

    /// How many pages there are.
    pub(super) fn count(&self) -> usize {
        self.shown().len()
    }

    /// The pages.
    pub(super) fn pages(&self) -> Vec<TilePage> {
        let shown = self.shown();
        let marks = self.marks(&shown);
        let page = |(k, &place): (usize, &(usize, usize))| {
            let window = self.window(place.0, place.1);
            let here: Vec<&Mark> = marks.iter().filter(|m| window.shrunk(MARK).holds(&m.at)).collect();
            let taken: Vec<Vec<P2>> = here.iter().map(|m| m.area()).collect();
            let mut items = self.lying.part(&window, &taken);
            items.extend(self.join_lines(&shown, place, &window));
            items.extend(here.iter().flat_map(|m| m.draw()));
            let to_page = self.sheet.content.low - window.low;
            items.iter_mut().for_each(|item| shift(item, to_page));
            TilePage { sheet: self.sheet, items, heading: self.heading(k, &shown) }
        };
        shown.iter().enumerate().map(page).collect()
    }

    fn heading(&self, k: usize, shown: &[(usize, usize)]) -> Heading {
        let template = self.lying.template;
        Heading {
            what: format!("{}, tile {} of {}", template.called(), k + 1, shown.len()),
            hints: vec![
                "Cut off one sheet along the dash-and-dots line and".into(),
                "lay it over the other, like marks on like marks.".into(),
            ],
            map: self.map(shown, shown[k]),
        }
    }

    /// Marks on every join of two tiles that are both shown.
    fn marks(&self, shown: &[(usize, usize)]) -> Vec<Mark> {
        let mut marks: Vec<Mark> = Vec::new();
        for &(column, row) in shown {
            let window = self.window(column, row);
            for (upright, next) in [(true, (column + 1, row)), (false, (column, row.wrapping_sub(1)))] {
                if !shown.contains(&next) {
                    continue;
                }
                let (low, high) = self.join(&window, upright);
                for share in MARK_PLACES {
                    let at = low + (high - low) * share;
                    marks.push(Mark { at, letter: letters(marks.len(), b'a'), upright });
                }
            }
        }
        marks
    }

    /// The middle of the overlap with the tile on the right (upright) or below, without the corners where four meet,
    /// and no farther than the piece reaches.
    fn join(&self, window: &Window, upright: bool) -> (P2, P2) {
        let half = OVERLAP / 2.0;
        let span = |low: f64, high: f64, size: f64| {
            let (a, b) = ((low + OVERLAP).max(0.0), (high - OVERLAP).min(size));
            if b - a > 4.0 * MARK { (a, b) } else { (low + OVERLAP, high - OVERLAP) }
        };
        if upright {
            let (a, b) = span(window.low.y, window.high.y, self.lying.size.y);
            let x = window.high.x - half;
            (P2::new(x, a), P2::new(x, b))
        } else {
            let (a, b) = span(window.low.x, window.high.x, self.lying.size.x);
            let y = window.low.y + half;
            (P2::new(a, y), P2::new(b, y))
        }
    }

    /// Lines to cut along, in the middle of each overlap with a tile that is shown.
    fn join_lines(&self, shown: &[(usize, usize)], (column, row): (usize, usize), window: &Window) -> Vec<Item> {
        let half = OVERLAP / 2.0;
        let (low, high) = (window.low, window.high);
        let mut sheet = Drawing::new(0.0, 0.0);
        let mut line = |a: P2, b: P2| sheet.line(Layer::Sheet, LineRole::Neighbour, a, b);
        let upright = |x: f64| (P2::new(x, low.y), P2::new(x, high.y));
        let level = |y: f64| (P2::new(low.x, y), P2::new(high.x, y));
        let sides = [
            (column.wrapping_sub(1), row, upright(low.x + half)),
            (column + 1, row, upright(high.x - half)),
            (column, row.wrapping_sub(1), level(low.y + half)),
            (column, row + 1, level(high.y - half)),
        ];
        for (c, r, (a, b)) in sides {
            if shown.contains(&(c, r)) {
                line(a, b);
            }
        }
        sheet.items
    }

    /// The grid of tiles with the piece in it and one tile dark, within a square of 1 × 1.
    fn map(&self, shown: &[(usize, usize)], here: (usize, usize)) -> Vec<Item> {
        let first = self.window(0, 0).low;
        let whole = self.window(self.columns - 1, self.rows - 1).high - first;
        let scale = 1.0 / whole.x.max(whole.y);
        let at = |p: P2| P2::from((p - first) * scale);
        let small = |w: Window| Window { low: at(w.low), high: at(w.high) };
        let mut items =
            vec![area(Layer::Sheet, Shade::Biscuit { light: 0.3 }, &small(self.window(here.0, here.1))).into()];
        for &(column, row) in shown {
            items.push(frame(Layer::Sheet, LineRole::Thin, &small(self.window(column, row))).into());
        }
        let outline: Vec<P2> = self.lying.outline.iter().map(|p| at(*p)).collect();
        items.push(Stroke::contour(Layer::Sheet, LineRole::Thin, &Contour::polygon(&outline)).into());
        items
    }
}

impl Mark {
    /// A diamond with a cross through it, and its letter where both sheets have it.
    fn draw(&self) -> Vec<Item> {
        let (x, y) = (V2::new(MARK, 0.0), V2::new(0.0, MARK));
        let mut sheet = Drawing::new(0.0, 0.0);
        let diamond = [self.at + x, self.at + y, self.at - x, self.at - y];
        sheet.push(Stroke::contour(Layer::Sheet, LineRole::Thin, &Contour::polygon(&diamond)));
        sheet.line(Layer::Sheet, LineRole::Thin, self.at - x, self.at + x);
        sheet.line(Layer::Sheet, LineRole::Thin, self.at - y, self.at + y);
        // Once on each side of the join, so that a sheet keeps its letter when it is cut there.
        let beside = MARK + 1.0;
        let places = if self.upright {
            [(V2::new(-0.9, beside), Anchor::End), (V2::new(0.9, beside), Anchor::Start)]
        } else {
            [(V2::new(beside, 0.9), Anchor::Start), (V2::new(beside, -0.9 - PLAIN), Anchor::Start)]
        };
        for (offset, anchor) in places {
            let note = Text::note(self.at + offset, PLAIN, anchor, self.letter.clone());
            sheet.push(Text { layer: Layer::Sheet, bold: true, ..note });
        }
        sheet.items
    }

    fn area(&self) -> Vec<P2> {
        let reach = if self.upright { V2::new(MARK, MARK + 4.5) } else { V2::new(MARK + 6.0, MARK) };
        super::ground::rectangle(self.at - V2::new(MARK, MARK), reach + V2::new(MARK, MARK)).to_vec()
    }
}
