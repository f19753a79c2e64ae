//! A drawing as PDF operations.

use super::{font_id, layer_id, pt};
use crate::fonts::{CAP_HEIGHT, text_width};
use gable_drawing::{Anchor, Drawing, Fill, Item, Layer, LineRole, Shade, Stroke, Text};
use gable_plane::{P2, Segment, V2};
use printpdf::{
    Color, Greyscale, Line, LineCapStyle, LineDashPattern, LineJoinStyle, LinePoint, Op, PaintMode, PdfFontHandle,
    Point, Polygon, PolygonRing, TextItem, TextMatrix, WindingOrder,
};

/// Arcs are cut into cubic curves of at most this angle. The radius of such a curve is off by at most 4.2e-6 of itself
/// (0.001 mm at a radius of 240 mm).
const CURVE_ANGLE: f64 = std::f64::consts::FRAC_PI_4;

/// Whether every size and position is a finite number.
pub(super) fn is_finite(drawing: &Drawing) -> bool {
    let point = |p: &P2| p.x.is_finite() && p.y.is_finite();
    let segment = |s: &Segment| match s {
        Segment::Line { to } => point(to),
        Segment::Arc { to, centre, sweep } => point(to) && point(centre) && sweep.is_finite(),
    };
    let item = |item: &Item| match item {
        Item::Stroke(s) => point(&s.start) && s.segments.iter().all(segment),
        Item::Fill(f) => f.rings.iter().flatten().all(point),
        Item::Text(t) => point(&t.at) && t.height.is_finite() && t.turn.is_finite(),
    };
    drawing.width.is_finite() && drawing.height.is_finite() && drawing.items.iter().all(item)
}

/// Everything on a drawing, in the order it is painted.
pub(super) fn operations(drawing: &Drawing) -> Vec<Op> {
    let mut writer = Writer { ops: vec![Op::SetLineJoinStyle { join: LineJoinStyle::Miter }], ..Writer::default() };
    for item in &drawing.items {
        match item {
            Item::Stroke(stroke) => writer.stroke(stroke),
            Item::Fill(fill) => writer.fill(fill),
            Item::Text(text) => writer.text(text),
        }
    }
    writer.close_layer();
    writer.ops
}

/// Collects operations and remembers what is set, so that nothing is said twice.
#[derive(Default)]
struct Writer {
    ops: Vec<Op>,
    layer: Option<Layer>,
    role: Option<LineRole>,
    grey: Option<f32>,
}

impl Writer {
    fn close_layer(&mut self) {
        if self.layer.take().is_some() {
            self.ops.push(Op::EndLayer);
        }
    }

    fn on_layer(&mut self, layer: Layer) {
        if self.layer != Some(layer) {
            self.close_layer();
            self.ops.push(Op::BeginLayer { layer_id: layer_id(layer) });
            self.layer = Some(layer);
        }
    }

    fn in_role(&mut self, role: LineRole) {
        if self.role == Some(role) {
            return;
        }
        self.role = Some(role);
        let dashes: Vec<f32> = role.dashes().iter().map(|&mm| pt(mm).0).collect();
        // Round ends would close the gaps of a dashed line.
        let cap = if dashes.is_empty() { LineCapStyle::Round } else { LineCapStyle::Butt };
        self.ops.push(Op::SetOutlineThickness { pt: pt(role.width()) });
        self.ops.push(Op::SetLineDashPattern { dash: LineDashPattern::new(0.0, &dashes) });
        self.ops.push(Op::SetLineCapStyle { cap });
    }

    fn in_grey(&mut self, grey: f32) {
        if self.grey != Some(grey) {
            self.grey = Some(grey);
            let col = Color::Greyscale(Greyscale { percent: grey, icc_profile: None });
            self.ops.push(Op::SetFillColor { col });
        }
    }

    fn stroke(&mut self, stroke: &Stroke) {
        if stroke.segments.is_empty() {
            return;
        }
        self.on_layer(stroke.layer);
        self.in_role(stroke.role);
        let mut points = vec![corner(stroke.start)];
        let mut from = stroke.start;
        for segment in &stroke.segments {
            add_segment(&mut points, from, segment);
            from = segment.to();
        }
        // A closed path ends where it began of itself; the end point is left out only when a straight line returns to it.
        if stroke.closed && matches!(stroke.segments.last(), Some(Segment::Line { to }) if *to == stroke.start) {
            points.pop();
        }
        self.ops.push(Op::DrawLine { line: Line { points, is_closed: stroke.closed } });
    }

    fn fill(&mut self, fill: &Fill) {
        self.on_layer(fill.layer);
        self.in_grey(grey(fill.shade));
        let ring = |r: &Vec<P2>| PolygonRing { points: r.iter().map(|&p| corner(p)).collect() };
        let rings = fill.rings.iter().filter(|r| r.len() >= 3).map(ring).collect();
        let polygon = Polygon { rings, mode: PaintMode::Fill, winding_order: WindingOrder::EvenOdd };
        self.ops.push(Op::DrawPolygon { polygon });
    }

    fn text(&mut self, text: &Text) {
        if text.text.trim().is_empty() {
            return;
        }
        self.on_layer(text.layer);
        self.in_grey(0.0);
        let width = text_width(&text.text, text.height, text.bold);
        let back = match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => width / 2.0,
            Anchor::End => width,
        };
        let (sin, cos) = text.turn.sin_cos();
        let at = text.at - V2::new(cos, sin) * back;
        let matrix = [cos as f32, sin as f32, -sin as f32, cos as f32, pt(at.x).0, pt(at.y).0];
        self.ops.extend([
            Op::StartTextSection,
            Op::SetFont { font: PdfFontHandle::External(font_id(text.bold)), size: pt(text.height / CAP_HEIGHT) },
            Op::SetTextMatrix { matrix: TextMatrix::Raw(matrix) },
            Op::ShowText { items: vec![TextItem::Text(text.text.clone())] },
            Op::EndTextSection,
        ]);
    }
}

fn grey(shade: Shade) -> f32 {
    match shade {
        Shade::Paper => 1.0,
        Shade::Biscuit { light } => (0.45 + 0.5 * light.clamp(0.0, 1.0)) as f32,
        Shade::Coloured { rgb, light } => {
            // Luma of ITU-R BT.601.
            let [r, g, b] = Shade::lit(rgb, light).map(f32::from);
            (0.299 * r + 0.587 * g + 0.114 * b) / 255.0
        }
        // Opaque and pale: a printed picture is of lines, and see-through paint is what printers fail at.
        Shade::Glass { light, .. } => (0.72 + 0.16 * light.clamp(0.0, 1.0)) as f32,
        Shade::Tint => 0.92,
        Shade::Ink => 0.0,
    }
}

fn point(p: P2, bezier: bool) -> LinePoint {
    LinePoint { p: Point { x: pt(p.x), y: pt(p.y) }, bezier }
}

fn corner(p: P2) -> LinePoint {
    point(p, false)
}

fn add_segment(points: &mut Vec<LinePoint>, from: P2, segment: &Segment) {
    match *segment {
        Segment::Line { to } => points.push(corner(to)),
        Segment::Arc { to, centre, sweep } => {
            for [a, b, end] in curves(from, to, centre, sweep) {
                points.extend([point(a, true), point(b, true), corner(end)]);
            }
        }
    }
}

/// Control points and end of the cubic curves along an arc; the last one ends at `to` exactly.
///
/// A curve over the angle a has its control points 4/3 tan(a/4) radii along the tangents of its ends.
fn curves(from: P2, to: P2, centre: P2, sweep: f64) -> Vec<[P2; 3]> {
    let steps = (sweep.abs() / CURVE_ANGLE - 1e-9).ceil().clamp(1.0, 64.0);
    let step = sweep / steps;
    let reach = 4.0 / 3.0 * (step / 4.0).tan();
    let mut found = Vec::new();
    let mut start = from;
    for k in 1..=steps as u32 {
        let arm = turned(from - centre, step * f64::from(k));
        let end = if f64::from(k) >= steps { to } else { centre + arm };
        let leave = start + across(start - centre) * reach;
        let arrive = end - across(end - centre) * reach;
        found.push([leave, arrive, end]);
        start = end;
    }
    found
}

fn turned(v: V2, angle: f64) -> V2 {
    let (sin, cos) = angle.sin_cos();
    V2::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}

/// A vector turned left by a right angle.
fn across(v: V2) -> V2 {
    V2::new(-v.y, v.x)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The published worst case of the cubic through 45 degrees is below 5e-6 of the radius (closed form checked here).
    #[test]
    fn curves_stay_on_their_circle() {
        let centre = P2::new(30.0, 40.0);
        let radius = 200.0;
        for sweep in [0.3, std::f64::consts::PI, -5.0, std::f64::consts::TAU] {
            let from = centre + V2::new(radius, 0.0);
            let to = centre + turned(V2::new(radius, 0.0), sweep);
            let mut start = from;
            for [a, b, end] in curves(from, to, centre, sweep) {
                for t in (0..=20).map(|k| f64::from(k) / 20.0) {
                    let u = 1.0 - t;
                    let p = start.coords * (u * u * u)
                        + a.coords * (3.0 * u * u * t)
                        + b.coords * (3.0 * u * t * t)
                        + end.coords * (t * t * t);
                    assert!(((p - centre.coords).norm() - radius).abs() < 0.001);
                }
                start = end;
            }
            assert!((start - to).norm() < 1e-9);
        }
    }
}
