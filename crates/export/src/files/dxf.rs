//! A template as DXF of release 12, for machines that cut.
//!
//! Written by hand: of the crates that write DXF none writes release 12 so that independent readers take it (subclass
//! markers in its tables, vertices on the wrong layer), and what a template needs are six kinds of entities.

use super::layer::FileLayer;
use gable_drawing::{Anchor, Drawing, Fill, Item, Stroke, Text};
use gable_measure::decimal;
use gable_plane::{P2, Segment};
use std::f64::consts::FRAC_PI_2;
use std::fmt::{Display, Write};

/// Decimals kept of a millimetre.
const DECIMALS: usize = 6;
/// An arc of more than this is written in halves, radians: bulges of longer ones grow without end.
const LONGEST_ARC: f64 = 2.0 * FRAC_PI_2 + 0.1;

/// A drawing as DXF of release 12 (AC1009): 1 unit is 1 mm, x to the right, y up; layers CUT, PRESSED, GUIDE and TEXT.
///
/// Closed lines are closed polylines in which arcs are bulges; open ones are lines, arcs or open polylines. Release 12
/// has no variable for the unit ($INSUNITS came later), so a comment and the bar say it.
pub(super) fn dxf(drawing: &Drawing, title: &str) -> String {
    let mut file = Tags::default();
    file.tag(999, plain(title));
    file.tag(999, "1 drawing unit = 1 mm (this release of DXF has no variable for units)");
    head(&mut file, drawing);
    tables(&mut file);
    file.section("ENTITIES");
    for layer in FileLayer::ALL {
        for item in drawing.items.iter().filter(|item| FileLayer::of(item) == layer) {
            entity(&mut file, item, layer);
        }
    }
    file.tag(0, "ENDSEC");
    file.tag(0, "EOF");
    file.0
}

/// Group codes with their values, a line each.
#[derive(Default)]
struct Tags(String);

impl Tags {
    fn tag(&mut self, code: u16, value: impl Display) {
        // Writing to a string does not fail.
        let _ = write!(self.0, "{code}\r\n{value}\r\n");
    }

    fn number(&mut self, code: u16, value: f64) {
        self.tag(code, decimal(if value.is_finite() { value } else { 0.0 }, DECIMALS));
    }

    /// A point in the plane under the codes of x, y and z.
    fn point(&mut self, code: u16, p: P2) {
        self.number(code, p.x);
        self.number(code + 10, p.y);
        self.number(code + 20, 0.0);
    }

    fn section(&mut self, name: &str) {
        self.tag(0, "SECTION");
        self.tag(2, name);
    }

    fn begin(&mut self, kind: &str, layer: FileLayer) {
        self.tag(0, kind);
        self.tag(8, layer.name());
    }
}

fn head(file: &mut Tags, drawing: &Drawing) {
    file.section("HEADER");
    file.tag(9, "$ACADVER");
    file.tag(1, "AC1009");
    for (name, corner) in [("$EXTMIN", P2::origin()), ("$EXTMAX", P2::new(drawing.width, drawing.height))] {
        file.tag(9, name);
        file.point(10, corner);
    }
    file.tag(0, "ENDSEC");
}

fn tables(file: &mut Tags) {
    file.section("TABLES");
    file.tag(0, "TABLE");
    file.tag(2, "LTYPE");
    file.tag(70, 1);
    for (code, value) in
        [(0, "LTYPE"), (2, "CONTINUOUS"), (70, "0"), (3, "Solid line"), (72, "65"), (73, "0"), (40, "0.0")]
    {
        file.tag(code, value);
    }
    file.tag(0, "ENDTAB");
    file.tag(0, "TABLE");
    file.tag(2, "LAYER");
    file.tag(70, FileLayer::ALL.len() + 1);
    let layers = FileLayer::ALL.iter().map(|layer| (layer.name(), layer.dxf_colour()));
    for (name, colour) in std::iter::once(("0", 7)).chain(layers) {
        file.tag(0, "LAYER");
        file.tag(2, name);
        file.tag(70, 0);
        file.tag(62, colour);
        file.tag(6, "CONTINUOUS");
    }
    file.tag(0, "ENDTAB");
    file.tag(0, "TABLE");
    file.tag(2, "STYLE");
    file.tag(70, 1);
    for (code, value) in [
        (0, "STYLE"),
        (2, "STANDARD"),
        (70, "0"),
        (40, "0.0"),
        (41, "1.0"),
        (50, "0.0"),
        (71, "0"),
        (42, "2.5"),
        (3, "txt"),
        (4, ""),
    ] {
        file.tag(code, value);
    }
    file.tag(0, "ENDTAB");
    file.tag(0, "ENDSEC");
}

fn entity(file: &mut Tags, item: &Item, layer: FileLayer) {
    match item {
        Item::Stroke(stroke) => line(file, stroke, layer),
        Item::Fill(fill) => rings(file, fill, layer),
        Item::Text(text) => words(file, text, layer),
    }
}

fn line(file: &mut Tags, stroke: &Stroke, layer: FileLayer) {
    let steps = halved(stroke);
    match steps.as_slice() {
        [] => {}
        [(from, Segment::Line { to })] => {
            file.begin("LINE", layer);
            file.point(10, *from);
            file.point(11, *to);
        }
        [(from, Segment::Arc { to, centre, sweep })] if !stroke.closed => {
            // Arcs of DXF run counter-clockwise.
            let (start, end) = if *sweep > 0.0 { (from, to) } else { (to, from) };
            file.begin("ARC", layer);
            file.point(10, *centre);
            file.number(40, (from - centre).norm());
            for (code, p) in [(50, start), (51, end)] {
                file.number(code, (p.y - centre.y).atan2(p.x - centre.x).to_degrees().rem_euclid(360.0));
            }
        }
        _ => polyline(file, &steps, stroke.closed, layer),
    }
}

/// The segments with the points they start from, arcs no longer than a half circle or a little more.
fn halved(stroke: &Stroke) -> Vec<(P2, Segment)> {
    let mut from = stroke.start;
    let mut steps = Vec::new();
    for segment in &stroke.segments {
        match *segment {
            Segment::Arc { to, centre, sweep } if sweep.abs() > LONGEST_ARC => {
                let middle = segment.point_at(from, 0.5);
                let half = |to: P2| Segment::Arc { to, centre, sweep: sweep / 2.0 };
                steps.extend([(from, half(middle)), (middle, half(to))]);
            }
            _ => steps.push((from, *segment)),
        }
        from = segment.to();
    }
    steps
}

fn polyline(file: &mut Tags, steps: &[(P2, Segment)], closed: bool, layer: FileLayer) {
    file.begin("POLYLINE", layer);
    file.tag(66, 1);
    file.point(10, P2::origin());
    file.tag(70, u8::from(closed));
    let mut vertex = |p: P2, sweep: f64| {
        file.begin("VERTEX", layer);
        file.point(10, p);
        if sweep != 0.0 {
            // Of an arc to the next vertex; positive is counter-clockwise.
            file.number(42, (sweep / 4.0).tan());
        }
    };
    for (from, segment) in steps {
        vertex(*from, if let Segment::Arc { sweep, .. } = segment { *sweep } else { 0.0 });
    }
    let end = steps.last().map(|(_, segment)| segment.to());
    let back = end.zip(steps.first()).is_some_and(|(end, (start, _))| (end - start).norm() < gable_plane::SAME_POINT);
    if let Some(end) = end.filter(|_| !(closed && back)) {
        vertex(end, 0.0);
    }
    file.begin("SEQEND", layer);
}

fn rings(file: &mut Tags, fill: &Fill, layer: FileLayer) {
    for ring in fill.rings.iter().filter(|ring| ring.len() >= 3) {
        let contour = gable_plane::Contour::polygon(ring);
        polyline(file, &contour.pairs().collect::<Vec<_>>(), true, layer);
    }
}

fn words(file: &mut Tags, text: &Text, layer: FileLayer) {
    file.begin("TEXT", layer);
    file.point(10, text.at);
    file.number(40, text.height);
    file.tag(1, plain(&text.text));
    file.number(50, text.turn.to_degrees().rem_euclid(360.0));
    let place = match text.anchor {
        Anchor::Start => return,
        Anchor::Middle => 1,
        Anchor::End => 2,
    };
    file.tag(72, place);
    file.point(11, text.at);
}

/// Text in the letters of the first fonts of machines: signs that have plain words or signs of DXF for them are turned
/// into those, all others outside ASCII into their numbers, as later releases do.
fn plain(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '°' => out.push_str("%%d"),
            // Two of them begin a sign.
            '%' if out.ends_with('%') => out.push_str(" %"),
            '×' => out.push('x'),
            '–' | '—' | '−' => out.push('-'),
            '…' => out.push_str("..."),
            '‘' | '’' | '′' => out.push('\''),
            '“' | '”' | '″' => out.push('"'),
            '½' => fraction(&mut out, "1/2"),
            '¼' => fraction(&mut out, "1/4"),
            '¾' => fraction(&mut out, "3/4"),
            c if c.is_control() => out.push(' '),
            c if c.is_ascii() => out.push(c),
            c => c.encode_utf16(&mut [0; 2]).iter().for_each(|unit| {
                let _ = write!(out, "\\U+{unit:04X}");
            }),
        }
    }
    out
}

/// A fraction, apart from the whole number before it.
fn fraction(out: &mut String, text: &str) {
    if out.ends_with(|c: char| c.is_ascii_digit()) {
        out.push(' ');
    }
    out.push_str(text);
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_drawing::{Layer, LineRole};
    use gable_plane::Contour;

    #[test]
    fn letters_that_machines_lack_are_written_in_those_they_have() {
        assert_eq!(plain("8½\" – 33.7° × 2\nPâque ½ %%d"), "8 1/2\" - 33.7%%d x 2 P\\U+00E2que 1/2 % %d");
    }

    /// The bulge of a half circle is tan(180°/4) = 1, clockwise -1.
    #[test]
    fn a_half_circle_is_a_bulge_of_one() {
        let door = Contour::round_headed(P2::new(0.0, 0.0), P2::new(40.0, 70.0)).unwrap();
        let bulges = |contour: &Contour| {
            let mut drawing = Drawing::new(50.0, 80.0);
            drawing.push(Stroke::contour(Layer::Cut, LineRole::Edge, contour));
            let text = dxf(&drawing, "door");
            let lines: Vec<&str> = text.lines().collect();
            assert_eq!(text.matches("\r\nVERTEX\r\n8\r\nCUT\r\n").count(), 4);
            let pairs = lines.chunks(2).skip_while(|p| p[1] != "POLYLINE").filter(|p| p[0] == "42");
            pairs.map(|p| p[1].parse::<f64>().unwrap()).collect::<Vec<_>>()
        };
        assert_eq!(bulges(&door), [1.0]);
        assert_eq!(bulges(&door.mapped(true, |p| P2::new(50.0 - p.x, p.y))), [-1.0]);
    }
}
