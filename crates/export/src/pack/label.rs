//! The words inside a template: the block with its name, and the letters along its edges.

use super::clip::Window;
use super::ground::{Ground, rectangle};
use super::template::{EdgeMark, Template};
use super::words::{HEADING, LARGE, LEADING, PLAIN, SMALLEST, wrapped};
use crate::fonts::text_width;
use gable_drawing::{Anchor, Drawing, Fill, Item, Layer, LineRole, Shade, Text};
use gable_plane::{P2, V2};

/// Space kept between words and lines, mm.
const CLEAR: f64 = 1.2;
/// Width of the column that holds the arrow, upright or lying, mm.
const ARROW_COLUMN: [f64; 2] = [7.0, 15.0];
/// Length of the arrow, mm.
const ARROW: f64 = 12.0;
/// Widths that are tried for the block, mm.
const WIDTHS: [f64; 6] = [88.0, 72.0, 60.0, 50.0, 40.0, 32.0];
/// Heights of name, count and the rest that are tried for the block, mm, and how many of the widths: large letters in a
/// narrow block read worse than small ones.
const HEIGHTS: [([f64; 3], usize); 3] =
    [([HEADING, LARGE, PLAIN], 3), ([LARGE, PLAIN, SMALLEST], 4), ([PLAIN, PLAIN, SMALLEST], 6)];

/// Widths that are tried for the block with the name alone, mm.
const NARROW: [f64; 4] = [60.0, 45.0, 35.0, 27.0];

/// A block of lines with the arrow beside it.
pub(super) struct Block {
    lines: Vec<(String, f64, bool)>,
    /// Width of the column of the arrow.
    column: f64,
    /// Where the arrow points.
    up: V2,
    /// Width and height.
    pub(super) size: V2,
}

/// Width of the column for an arrow along `up`.
fn arrow_column(up: V2) -> f64 {
    ARROW_COLUMN[usize::from(up.x.abs() > 0.5)]
}

impl Block {
    /// The block of a template, wrapped to a width.
    pub(super) fn new(template: &Template, up: V2, [name, count, rest]: [f64; 3], width: f64) -> Self {
        let mut lines = Vec::new();
        let column = width - arrow_column(up);
        let mut add = |text: &str, height: f64, bold: bool| {
            lines.extend(wrapped(text, height, bold, column).into_iter().map(|line| (line, height, bold)));
        };
        add(&template.title(), name, true);
        add(&template.count, count, true);
        add(template.face, rest, false);
        add(&template.dough, rest, false);
        add(&template.note, rest, false);
        if template.is_bevelled() {
            add("bevelled: cut along the outer of both lines, then bevel to the inner one", rest, false);
        }
        Self::of_lines(lines, up)
    }

    /// Number, name and count, for pieces that have no room for all.
    fn named(template: &Template, up: V2, [name, count]: [f64; 2], width: f64) -> Self {
        let column = width - arrow_column(up);
        let title = template.title();
        let line = |height: f64| move |text: String| (text, height, true);
        let mut lines: Vec<_> = wrapped(&title, name, true, column).into_iter().map(line(name)).collect();
        lines.extend(wrapped(&template.count, count, true, column).into_iter().map(line(count)));
        Self::of_lines(lines, up)
    }

    /// Number and count only, for small pieces.
    pub(super) fn short(template: &Template, up: V2, height: f64) -> Self {
        let count = template.count.split(',').next().unwrap_or_default();
        Self::of_lines(vec![(template.short_title(), height, true), (count.to_owned(), SMALLEST, false)], up)
    }

    fn of_lines(lines: Vec<(String, f64, bool)>, up: V2) -> Self {
        let widest = lines.iter().map(|(text, h, bold)| text_width(text, *h, *bold)).fold(0.0, f64::max);
        let tall: f64 = lines.iter().map(|(_, h, _)| h * LEADING).sum();
        let column = arrow_column(up);
        Self { lines, column, up, size: V2::new(widest + column, tall.max(ARROW)) }
    }

    /// Draws it with its lower left corner at `low`.
    pub(super) fn draw(&self, low: P2) -> Vec<Item> {
        let mut items = arrow(low + V2::new(self.column / 2.0 - 1.0, self.size.y / 2.0), self.up);
        let mut y = low.y + self.size.y;
        for (text, height, bold) in &self.lines {
            y -= height * LEADING;
            let at = P2::new(low.x + self.column, y + height * (LEADING - 1.0) / 2.0);
            items.push(Text { bold: *bold, ..Text::note(at, *height, Anchor::Start, text.clone()) }.into());
        }
        items
    }

    /// The largest block that finds a place on the ground, with its place.
    pub(super) fn placed(template: &Template, up: V2, ground: &Ground) -> Option<(Self, P2)> {
        let full = HEIGHTS.iter().flat_map(|(h, n)| WIDTHS.iter().take(*n).map(|w| Self::new(template, up, *h, *w)));
        full.into_iter().find_map(|block| block.find(ground))
    }

    /// The largest block with the name, or at least with the number, that finds a place.
    pub(super) fn short_placed(template: &Template, up: V2, ground: &Ground) -> Option<(Self, P2)> {
        let heights = [[LARGE, PLAIN], [PLAIN, SMALLEST], [SMALLEST, SMALLEST]];
        let named = heights.iter().flat_map(|h| NARROW.iter().map(|w| Self::named(template, up, *h, *w)));
        let short = [HEADING, LARGE, PLAIN].iter().map(|h| Self::short(template, up, *h));
        named.chain(short).find_map(|block| block.find(ground))
    }

    fn find(self, ground: &Ground) -> Option<(Self, P2)> {
        let margin = V2::new(CLEAR, CLEAR);
        let low = ground.place(self.size + margin * 2.0)? + margin;
        Some((self, low))
    }
}

/// An arrow about `middle` that points along `up`.
pub(super) fn arrow(middle: P2, up: V2) -> Vec<Item> {
    let aside = V2::new(-up.y, up.x);
    let (tail, tip) = (middle - up * (ARROW / 2.0), middle + up * (ARROW / 2.0));
    let barb = tip - up * 4.0;
    let mut sheet = Drawing::new(0.0, 0.0);
    sheet.line(Layer::Notes, LineRole::Thin, tail, barb);
    let ring = vec![tip, barb + aside * 1.6, barb - aside * 1.6];
    sheet.push(Fill { layer: Layer::Notes, shade: Shade::Ink, rings: vec![ring] });
    sheet.items
}

/// Where letters can stand: on the piece, and on the paper round it where there is any.
pub(super) struct Places {
    /// All lines that letters can belong to.
    pub(super) lines: Vec<[P2; 2]>,
    /// On the piece.
    pub(super) inside: Ground,
    /// Round it.
    pub(super) outside: Option<Ground>,
}

impl Places {
    /// The letters and the bevel of an edge from `a` to `b`, inside the outline that runs counter-clockwise; on the
    /// paper beside it where the piece is too small for them. What they cover is blocked.
    pub(super) fn edge_texts(&mut self, a: P2, b: P2, mark: &EdgeMark) -> Vec<Item> {
        let (Some(edge), Some(back)) = (Edge::new(a, b), Edge::new(b, a)) else { return Vec::new() };
        let short = EdgeMark { board: false, ..mark.clone() };
        let label = self.beside(&edge, &self.inside, mark).or_else(|| self.beside(&edge, &self.inside, &short));
        let label = label.or_else(|| edge.led_label(&self.inside, &short));
        self.put(label, &back, &short).unwrap_or_else(|| self.at_last(edge.label(&short, SMALLEST, 0.0, 0.5)))
    }

    /// The letters of a line from `a` to `b` across the piece, on either side of it.
    pub(super) fn stand_texts(&mut self, a: P2, b: P2, letters: &[String]) -> Vec<Item> {
        let mark = EdgeMark { letters: letters.to_vec(), ..EdgeMark::default() };
        let (Some(edge), Some(back)) = (Edge::new(a, b), Edge::new(b, a)) else { return Vec::new() };
        let label = self.beside(&edge, &self.inside, &mark).or_else(|| self.beside(&back, &self.inside, &mark));
        let label = label.or_else(|| edge.led_label(&self.inside, &mark));
        self.put(label, &back, &mark).unwrap_or_else(|| self.at_last(edge.label(&mark, SMALLEST, 0.0, 0.5)))
    }

    /// Takes a label that has found its place, or one on the paper on the other side of the edge.
    fn put(&mut self, label: Option<EdgeLabel>, back: &Edge, mark: &EdgeMark) -> Option<Vec<Item>> {
        if let Some(label) = label {
            return Some(self.at_last(label));
        }
        let outside = self.outside.as_ref()?;
        let label = self.beside(back, outside, mark).or_else(|| back.led_label(outside, mark))?;
        let outside = self.outside.as_mut()?;
        outside.block(label.area.to_vec());
        label.pointer.into_iter().for_each(|line| outside.block(line.to_vec()));
        Some(label.texts)
    }

    /// The largest label along an edge that is nearer to it than to any other line, so that nobody takes it for theirs.
    fn beside(&self, edge: &Edge, ground: &Ground, mark: &EdgeMark) -> Option<EdgeLabel> {
        let own = [edge.start, edge.start + edge.along * edge.length];
        let others: Vec<&[P2; 2]> = self.lines.iter().filter(|line| !on_line(line, &own)).collect();
        edge.free_label(ground, mark, |area| {
            let near = apart(area, &own) + NEARER;
            others.iter().all(|line| apart(area, line) > near)
        })
    }

    fn at_last(&mut self, label: EdgeLabel) -> Vec<Item> {
        self.inside.block(label.area.to_vec());
        label.texts
    }
}

/// Places along an edge that are tried, as shares of its length.
const ALONG: [f64; 11] = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9];
/// Widths that are tried for a label with a pointer, mm.
const LED_WIDTHS: [f64; 3] = [40.0, 16.0, 1.0];
/// How far from its edge a label with a pointer may stand, mm.
const FARTHEST: f64 = 40.0;
/// Further distances from the edge that are tried, mm.
const EXTRA: [f64; 5] = [0.0, 2.0, 4.5, 7.0, 10.0];

/// By how much letters are nearer to their own line than to others, mm.
const NEARER: f64 = 0.5;

/// Whether a line is part of another.
fn on_line(line: &[P2; 2], of: &[P2; 2]) -> bool {
    line.iter().all(|p| distance_to(p, of) < 1e-6) || of.iter().all(|p| distance_to(p, line) < 1e-6)
}

/// Distance of an area from a line that does not cross it.
fn apart(area: &[P2; 4], line: &[P2; 2]) -> f64 {
    let corners = area.iter().map(|p| distance_to(p, line));
    let sides = (0..4).map(|k| [area[k], area[(k + 1) % 4]]);
    let ends = sides.flat_map(|side| line.map(|p| distance_to(&p, &side)));
    corners.chain(ends).fold(f64::INFINITY, f64::min)
}

fn distance_to(p: &P2, [a, b]: &[P2; 2]) -> f64 {
    let v = b - a;
    let share = if v.norm_squared() > 0.0 { ((p - a).dot(&v) / v.norm_squared()).clamp(0.0, 1.0) } else { 0.0 };
    (p - (a + v * share)).norm()
}

struct Edge {
    start: P2,
    along: V2,
    length: f64,
}

struct EdgeLabel {
    texts: Vec<Item>,
    area: [P2; 4],
    /// From the words to the edge.
    pointer: Option<[P2; 2]>,
}

impl Edge {
    fn new(a: P2, b: P2) -> Option<Self> {
        Some(Self { start: a, along: (b - a).try_normalize(1e-9)?, length: (b - a).norm() })
    }

    /// The largest label that finds a place along the edge that pleases.
    fn free_label(&self, ground: &Ground, mark: &EdgeMark, pleases: impl Fn(&[P2; 4]) -> bool) -> Option<EdgeLabel> {
        let heights = if mark.letters.len() == 1 { [LARGE, PLAIN, SMALLEST] } else { [PLAIN, SMALLEST, SMALLEST] };
        let mut tries =
            heights.iter().flat_map(|h| EXTRA.iter().flat_map(move |e| ALONG.iter().map(move |t| (*h, *e, *t))));
        tries.find_map(|(height, extra, share)| {
            let label = self.label(mark, height, extra, share);
            Some(label).filter(|label| ground.is_free(&label.area) && pleases(&label.area))
        })
    }

    /// A small label at the nearest free place, with a line that points to the middle of the edge.
    fn led_label(&self, ground: &Ground, mark: &EdgeMark) -> Option<EdgeLabel> {
        LED_WIDTHS
            .iter()
            .find_map(|width| self.led_in_rows(ground, Self { length: *width, ..*self }.rows(mark, SMALLEST)))
    }

    fn led_in_rows(&self, ground: &Ground, rows: Vec<(String, f64, bool)>) -> Option<EdgeLabel> {
        let width = rows.iter().map(|(t, h, bold)| text_width(t, *h, *bold)).fold(0.0, f64::max);
        let tall = rows.iter().map(|(_, h, _)| h * LEADING).sum::<f64>();
        let size = V2::new(width, tall) + V2::new(1.2, 1.2);
        let target = self.start + self.along * (self.length / 2.0);
        let pointer = |low: P2| {
            let (middle, half) = (low + size / 2.0, size / 2.0);
            let way = target - middle;
            let leaves = (half.x / way.x.abs()).min(half.y / way.y.abs());
            (middle + way * leaves.min(1.0), target)
        };
        let pleases = |low: P2| {
            let (from, to) = pointer(low);
            (to - from).norm() <= FARTHEST && ground.is_clear(from, to)
        };
        let low = ground.place_near(size, target, pleases)?;
        let mut sheet = Drawing::new(0.0, 0.0);
        let (from, to) = pointer(low);
        sheet.line(Layer::Notes, LineRole::Thin, from, to);
        let mut y = low.y + size.y - 0.6;
        for (text, h, bold) in rows {
            y -= h * LEADING;
            let at = P2::new(low.x + size.x / 2.0, y + h * (LEADING - 1.0) / 2.0);
            sheet.push(Text { bold, ..Text::note(at, h, Anchor::Middle, text) });
        }
        Some(EdgeLabel { texts: sheet.items, area: rectangle(low, size), pointer: Some([from, to]) })
    }

    /// Rows of letters, no wider than the edge allows, then the bevel; from the top down.
    fn rows(&self, mark: &EdgeMark, height: f64) -> Vec<(String, f64, bool)> {
        let mut rows: Vec<(String, f64, bool)> = Vec::new();
        let room = (self.length * 0.9).max(height * 2.0);
        let letters = super::runs::of_letters(&mark.letters);
        for (k, letter) in letters.iter().enumerate() {
            let more = if k + 1 < letters.len() { " /" } else { "" };
            let joined = rows.last().map(|(row, ..)| format!("{row} {letter}{more}"));
            match joined.filter(|j| text_width(j, height, true) <= room) {
                Some(joined) => {
                    if let Some(last) = rows.last_mut() {
                        last.0 = joined;
                    }
                }
                None => rows.push((format!("{letter}{more}"), height, true)),
            }
        }
        if mark.board {
            rows.push(("base board".to_owned(), SMALLEST, false));
        }
        if mark.trim {
            rows.push(("trim".to_owned(), SMALLEST, false));
        }
        if let Some(bevel) = mark.bevel {
            rows.push((format!("bevel {}°", (bevel.deg() * 10.0).round() / 10.0), SMALLEST, false));
        }
        rows
    }

    /// One letter alone stands upright; longer texts run along the edge, the way they can be read.
    fn label(&self, mark: &EdgeMark, height: f64, extra: f64, share: f64) -> EdgeLabel {
        let rows = self.rows(mark, height);
        let inward = V2::new(-self.along.y, self.along.x);
        let upright = rows.len() == 1 && mark.letters.len() == 1 && mark.bevel.is_none() && !mark.board && !mark.trim;
        let reads = self.along.x > 1e-9 || (self.along.x.abs() <= 1e-9 && self.along.y > 0.0);
        let x = match (upright, reads) {
            (true, _) => V2::x(),
            (false, true) => self.along,
            (false, false) => -self.along,
        };
        let y = V2::new(-x.y, x.x);
        let width = rows.iter().map(|(t, h, bold)| text_width(t, *h, *bold)).fold(0.0, f64::max);
        let last = rows.last().map_or(0.0, |(_, h, _)| h * (LEADING - 1.0));
        let tall = rows.iter().map(|(_, h, _)| h * LEADING).sum::<f64>() - last;
        let half = V2::new(width / 2.0, tall / 2.0);
        let reach = half.x * inward.dot(&x).abs() + half.y * inward.dot(&y).abs();
        let middle = self.start + self.along * (self.length * share) + inward * (CLEAR + extra + reach);
        let mut texts = Vec::new();
        let mut top = half.y;
        for (text, h, bold) in rows {
            let at = middle + y * (top - h);
            top -= h * LEADING;
            let text = Text { turn: x.y.atan2(x.x), bold, ..Text::note(at, h, Anchor::Middle, text) };
            texts.push(text.into());
        }
        let grown = half + V2::new(0.6, 0.6);
        let area = rectangle(P2::from(-grown), grown * 2.0).map(|p| middle + x * p.x + y * p.y);
        EdgeLabel { texts, area, pointer: None }
    }
}

/// The part of an edge that lies in a window.
pub(super) fn visible(window: &Window, a: P2, b: P2) -> Option<(P2, P2)> {
    let line = gable_drawing::Stroke::polyline(Layer::Cut, LineRole::Edge, &[a, b]);
    let part = window.clip(&line).into_iter().next()?;
    Some((part.start, part.segments.last()?.to()))
}
