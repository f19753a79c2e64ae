//! What every page carries: bars to measure, the stamp, the map of tiles or pages.

use super::clip::Window;
use super::words::{LARGE, PLAIN, SMALLEST, fitted};
use super::{PackError, PackOptions};
use gable_drawing::{Anchor, Drawing, Fill, Item, Layer, LineRole, Shade, Stroke, Text};
use gable_measure::{InchStep, Length, Unit};
use gable_plane::{Contour, P2, Segment, V2};

/// Height of the strip with bar and stamp, mm.
const STRIP: f64 = 25.0;
/// Width of the strip with the upright bar, mm.
const BAR_STRIP: f64 = 8.5;
/// Longest bars: 100 mm where the house is drawn in millimetres, 4 in where it is in inches.
const MOST_CENTIMETRES: f64 = 10.0;
const MOST_INCHES: f64 = 4.0;
/// A page that has no room for a bar of this length and a drawing beside it is too small, mm.
const LEAST_ROOM: f64 = 60.0;
/// Base lines of the three lines of the stamp, mm above the foot of the strip.
const STAMP: [f64; 3] = [9.3, 5.2, 1.1];
/// Height of the level bar above the foot of the strip, mm.
const BAR_HEIGHT: f64 = 17.0;
/// Side of the square for the map, mm: it ends below the patterns.
const MAP: f64 = 12.3;
/// Height of the map above the foot of the strip, mm: above the stamp, whose lines may be long.
const MAP_HEIGHT: f64 = 12.4;
/// Half the width of a line of the widest role, mm: what a line on the rim of the drawing prints beyond it.
const HALF_LINE: f64 = 0.25;
/// How far chords may be from an arc, mm.
const CHORD: f64 = 0.002;

/// The page in one of both orientations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sheet {
    /// Width and height of the page as it is printed, mm.
    pub(super) size: V2,
    /// Length in the file over length as it is printed, across and up the page.
    stretch: V2,
    /// What a printer reaches.
    safe: Window,
    /// Where patterns may be drawn.
    pub(super) content: Window,
}

/// What every page of a pack says.
#[derive(Clone, Debug)]
pub(super) struct Stamp {
    /// From the top down.
    pub(super) lines: [String; 3],
    /// Unit of the house, in which the bars have a whole length.
    pub(super) unit: Unit,
}

/// What the stamp of a page says besides what all pages say.
#[derive(Clone, Debug, Default)]
pub(super) struct Heading {
    /// Such as 'template 4, tile 2 of 6'.
    pub(super) what: String,
    /// Lines of small print under it.
    pub(super) hints: Vec<String>,
    /// The map of tiles, or of pages, drawn in a square of 1 × 1.
    pub(super) map: Vec<Item>,
}

impl Sheet {
    /// The page upright or lying.
    ///
    /// Lying, each side keeps the larger of the two margins that may come there, as printers turn pages either way.
    pub(super) fn new(options: &PackOptions, lying: bool) -> Result<Self, PackError> {
        let (w, h) = options.paper.size();
        let printer = options.purpose.printer();
        let (w, h) = (w.mm() * printer.across(), h.mm() * printer.along());
        // A page that comes out larger than its paper loses at its sides what it is larger by.
        let lost = [w - w / printer.across(), h - h / printer.along()].map(|l: f64| l.max(0.0));
        let m = options.margins;
        let margins = [m.left, m.right, m.top, m.bottom].map(|l| l.mm());
        if margins.iter().any(|m| !m.is_finite() || *m < 0.0) {
            return Err(PackError::Margins);
        }
        let [left, right, top, bottom] = [0, 1, 2, 3].map(|k| margins[k] + lost[k / 2]);
        let (size, low, high) = if lying {
            let (x, y) = (top.max(bottom), left.max(right));
            (V2::new(h, w), V2::new(x, y), V2::new(x, y))
        } else {
            (V2::new(w, h), V2::new(left, bottom), V2::new(right, top))
        };
        let safe = Window { low: P2::from(low), high: P2::from(size - high) };
        let inner = safe.shrunk(HALF_LINE);
        let content = Window { low: inner.low + V2::new(BAR_STRIP, STRIP), high: inner.high };
        let room = content.size();
        if room.x < LEAST_ROOM || room.y < LEAST_ROOM {
            return Err(PackError::NoRoom { width: room.x.max(0.0), height: room.y.max(0.0), least: LEAST_ROOM });
        }
        let stretch = V2::new(1.0 / printer.across(), 1.0 / printer.along());
        Ok(Self { size, stretch: if lying { stretch.yx() } else { stretch }, safe, content })
    }

    /// The page no higher than what is on it asks for, and the items moved down with its upper end: paper from a roll.
    pub(super) fn cut_to(&self, mut items: Vec<Item>) -> (Self, Vec<Item>) {
        let lowest = items.iter().map(lowest).fold(f64::INFINITY, f64::min);
        let spare = (lowest - self.content.low.y).min(self.content.size().y - LEAST_ROOM);
        if !spare.is_finite() || spare <= 0.0 {
            return (*self, items);
        }
        let down = V2::new(0.0, -spare);
        items.iter_mut().for_each(|item| super::lying::shift(item, down));
        let shorter = |w: &Window| Window { low: w.low, high: w.high + down };
        let sheet =
            Self { size: self.size + down, safe: shorter(&self.safe), content: shorter(&self.content), ..*self };
        (sheet, items)
    }

    /// The page with only the upper part of its room, of a height in mm.
    pub(super) fn upper(&self, height: f64) -> Self {
        let low = P2::new(self.content.low.x, self.content.low.y.max(self.content.high.y - height));
        Self { content: Window { low, ..self.content }, ..*self }
    }

    /// A page with bars and stamp.
    pub(super) fn page(&self, items: Vec<Item>, stamp: &Stamp, number: &str, heading: &Heading) -> Drawing {
        let mut drawing = Drawing { width: self.size.x, height: self.size.y, items };
        self.bars(&mut drawing, stamp.unit);
        let map_room = if heading.map.is_empty() { 0.0 } else { MAP + 3.0 };
        let right = self.safe.high.x - map_room;
        let foot = self.safe.low;
        for (k, (line, y)) in stamp.lines.iter().zip(STAMP).enumerate() {
            let (line, height) = fitted(line, PLAIN, k == 0, self.safe.high.x - foot.x);
            let at = P2::new(foot.x, foot.y + y);
            drawing.push(Text { layer: Layer::Sheet, bold: k == 0, ..Text::note(at, height, Anchor::Start, line) });
        }
        let mut write = |y: f64, height: f64, bold: bool, text: &str| {
            let (text, height) =
                fitted(text, height, bold, right - foot.x - BAR_STRIP - self.bar_length(stamp.unit).x - 8.0);
            let at = P2::new(right, foot.y + y);
            drawing.push(Text { layer: Layer::Sheet, bold, ..Text::note(at, height, Anchor::End, text) });
        };
        write(21.0, LARGE, true, number);
        write(17.0, PLAIN, true, &heading.what);
        for (k, hint) in heading.hints.iter().enumerate() {
            write(13.8 - 3.0 * k as f64, SMALLEST, false, hint);
        }
        let corner = P2::new(self.safe.high.x - MAP - HALF_LINE, foot.y + MAP_HEIGHT);
        for item in &heading.map {
            drawing.push(scaled(item, MAP, corner));
        }
        if self.stretch == V2::new(1.0, 1.0) { drawing } else { stretched(&drawing, self.stretch) }
    }

    /// Lengths of the bars: as long as the page allows, in whole centimetres or inches.
    fn bar_length(&self, unit: Unit) -> V2 {
        self.content.size().map(|room| whole_length(room, unit))
    }

    fn bars(&self, drawing: &mut Drawing, unit: Unit) {
        let foot = self.safe.low;
        let length = self.bar_length(unit);
        let start = P2::new(foot.x + BAR_STRIP, foot.y + BAR_HEIGHT);
        bar(drawing, start, V2::x(), length.x, unit);
        // The upright bar has its words on its right, so its ticks must start inside the printable area.
        let start = P2::new(foot.x + 2.0 + HALF_LINE, self.content.low.y);
        bar(drawing, start, V2::y(), length.y, unit);
    }
}

/// A centimetre or an inch, mm.
pub(super) fn step(unit: Unit) -> f64 {
    match unit {
        Unit::Millimetre => 10.0,
        Unit::Inch(_) => Length::inches(1.0).mm(),
    }
}

fn whole_length(room: f64, unit: Unit) -> f64 {
    let most = if unit == Unit::Millimetre { MOST_CENTIMETRES } else { MOST_INCHES };
    (room / step(unit)).floor().min(most) * step(unit)
}

/// A bar with ticks at every centimetre or inch, longer ones at its ends, and what it must measure.
pub(super) fn bar(drawing: &mut Drawing, start: P2, along: V2, length: f64, unit: Unit) {
    let left = V2::new(-along.y, along.x);
    drawing.line(Layer::Sheet, LineRole::Thin, start, start + along * length);
    let count = (length / step(unit)).round() as u32;
    for k in 0..=count {
        let at = start + along * (step(unit) * f64::from(k));
        let half = if k == 0 || k == count { 2.0 } else { 0.8 };
        drawing.line(Layer::Sheet, LineRole::Thin, at - left * half, at + left * half);
    }
    // Level: above the bar. Upright: on its right, read from below, so that it stays on the page.
    let aside = if along.y > 0.5 { -left * (1.9 + PLAIN) } else { left * 1.4 };
    let text = Text {
        layer: Layer::Sheet,
        turn: along.y.atan2(along.x),
        ..Text::note(start + along * (length / 2.0) + aside, PLAIN, Anchor::Middle, must_measure(length, unit))
    };
    drawing.push(text);
}

/// 'must measure 100 mm (3 15/16 in)', 'must measure 4 in (101.6 mm)'.
pub(super) fn must_measure(length: f64, unit: Unit) -> String {
    let length = Length::mm_of(length);
    let inches = Unit::Inch(InchStep::Sixteenth).print_bare(length);
    let millimetres = Unit::Millimetre.print(length);
    match unit {
        Unit::Millimetre => format!("must measure {millimetres} ({inches} in)"),
        Unit::Inch(_) => format!("must measure {inches} in ({millimetres})"),
    }
}

/// The lowest point of an item, mm; of words of what hangs below their base line.
fn lowest(item: &Item) -> f64 {
    match item {
        Item::Stroke(s) => s.segments.iter().map(|segment| segment.to().y).fold(s.start.y, f64::min) - HALF_LINE,
        Item::Fill(f) => f.rings.iter().flatten().map(|p| p.y).fold(f64::INFINITY, f64::min),
        Item::Text(t) => t.at.y - t.height,
    }
}

/// A drawing made wider and higher. Arcs stay arcs where both are the same, and become chords within 0.002 mm elsewhere.
fn stretched(drawing: &Drawing, by: V2) -> Drawing {
    let map = |p: P2| P2::from(p.coords.component_mul(&by));
    let even = (by.x - by.y).abs() < 1e-12;
    let segments = |stroke: &Stroke| -> Vec<Segment> {
        if even {
            let mapped = |segment: &Segment| match *segment {
                Segment::Line { to } => Segment::Line { to: map(to) },
                Segment::Arc { to, centre, sweep } => Segment::Arc { to: map(to), centre: map(centre), sweep },
            };
            return stroke.segments.iter().map(mapped).collect();
        }
        let mut from = stroke.start;
        let mut chords = Vec::new();
        for segment in &stroke.segments {
            chords.extend(segment.chords(from, CHORD));
            from = segment.to();
        }
        chords.into_iter().map(|p| Segment::Line { to: map(p) }).collect()
    };
    let item = |item: &Item| match item {
        Item::Stroke(s) => Stroke { start: map(s.start), segments: segments(s), ..s.clone() }.into(),
        Item::Fill(f) => {
            Fill { rings: f.rings.iter().map(|r| r.iter().map(|p| map(*p)).collect()).collect(), ..f.clone() }.into()
        }
        Item::Text(t) => Text { at: map(t.at), height: t.height * by.x.min(by.y), ..t.clone() }.into(),
    };
    Drawing {
        width: drawing.width * by.x,
        height: drawing.height * by.y,
        items: drawing.items.iter().map(item).collect(),
    }
}

/// An item made larger or smaller, its origin moved to `to`. Arcs become chords: only for pictures and maps.
pub(super) fn scaled(item: &Item, by: f64, to: P2) -> Item {
    let map = |p: P2| to + p.coords * by;
    match item {
        Item::Stroke(s) => {
            let points: Vec<P2> =
                std::iter::once(s.start).chain(s.segments.iter().map(gable_plane::Segment::to)).map(map).collect();
            Stroke { closed: s.closed, ..Stroke::polyline(s.layer, s.role, &points) }.into()
        }
        Item::Fill(f) => {
            Fill { rings: f.rings.iter().map(|r| r.iter().map(|p| map(*p)).collect()).collect(), ..f.clone() }.into()
        }
        Item::Text(t) => Text { at: map(t.at), height: t.height * by, ..t.clone() }.into(),
    }
}

/// A rectangle as a closed line.
pub(super) fn frame(layer: Layer, role: LineRole, window: &Window) -> Stroke {
    Stroke::contour(layer, role, &Contour::rectangle(window.low, window.high))
}

/// A rectangle as an area.
pub(super) fn area(layer: Layer, shade: Shade, window: &Window) -> Fill {
    Fill { layer, shade, rings: vec![super::ground::rectangle(window.low, window.size()).to_vec()] }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_say_their_length_in_both_units() {
        // 100 / 25.4 = 3.937, and 15/16 = 0.9375; 4 * 25.4 = 101.6.
        let inch = Unit::Inch(InchStep::Sixteenth);
        assert_eq!(must_measure(100.0, Unit::Millimetre), "must measure 100 mm (3 15/16 in)");
        assert_eq!(must_measure(101.6, inch), "must measure 4 in (101.6 mm)");
        assert_eq!([87.3, 287.3].map(|room| whole_length(room, Unit::Millimetre)), [80.0, 100.0]);
        for (room, length) in [(60.0, 50.8), (101.5, 76.2), (287.3, 101.6)] {
            assert!((whole_length(room, inch) - length).abs() < 1e-9, "{room}");
        }
    }
}
