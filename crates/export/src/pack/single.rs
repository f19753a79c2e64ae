//! Templates one by one, for files of their own: what is cut stays one closed line, and nothing is painted over.

use super::lying::{Lying, shift};
use super::sheet::{bar, step};
use super::template::Template;
use super::{PackOptions, all_templates};
use gable_drawing::{Drawing, Fill, Item, Layer, LineRole, Shade, Stroke};
use gable_dress::Dressed;
use gable_measure::Unit;
use gable_plane::{Contour, P2, Rest, V2, ring_area};
use gable_shell::Solved;

/// Paper left round what is drawn, mm.
const RIM: f64 = 5.0;
/// Room for the bar under a template, mm.
const BAR_ROOM: f64 = 12.0;
/// Chords of a flattened arc may be so far off it, mm; see [`Contour::with_arcs`].
const CHORD: f64 = 0.021;
/// Less area than this between both faces is no bevel, mm².
const NO_BEVEL: f64 = 0.01;

/// One template on a sheet of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct TemplateDrawing {
    /// Its number, from 1.
    pub number: usize,
    /// Names of what is cut with it.
    pub name: String,
    /// Such as 'cut 2'.
    pub count: String,
    /// The sheet, in mm: cut lines of layer `Cut` and role `Edge` are closed outlines.
    pub drawing: Drawing,
}

/// Every template of a house on a sheet of its own, in the order of their numbers: those that the pack prints.
///
/// Arcs are arcs, in outlines that came flattened too. Where a piece is bevelled the cut line goes round both faces, and
/// its good face is drawn as a guide. Guides have gaps under words.
pub fn template_drawings(solved: &Solved, dressed: &Dressed) -> Vec<TemplateDrawing> {
    let made = all_templates(solved, dressed, &PackOptions::default());
    made.iter().map(|template| drawn(template, solved.unit)).collect()
}

fn drawn(template: &Template, unit: Unit) -> TemplateDrawing {
    let art = Lying::new(template, 0).whole();
    let mut items = art.items;
    cut_round_both_faces(&mut items, template);
    for item in &mut items {
        with_arcs(item);
    }
    let mut items = gaps_under_words(items);
    let length = bar_length(art.size.x, unit);
    let size = V2::new(art.size.x.max(length), art.size.y);
    items.iter_mut().for_each(|item| shift(item, V2::new(RIM, RIM + BAR_ROOM)));
    let mut drawing = Drawing { width: size.x + 2.0 * RIM, height: size.y + 2.0 * RIM + BAR_ROOM, items };
    bar(&mut drawing, P2::new(RIM, RIM + 2.0), V2::x(), length, unit);
    TemplateDrawing { number: template.number, name: template.name.clone(), count: template.count.clone(), drawing }
}

/// A bar as long as the template, 50 to 100 mm or 2 to 4 in.
fn bar_length(room: f64, unit: Unit) -> f64 {
    let (least, most) = if unit == Unit::Millimetre { (5.0, 10.0) } else { (2.0, 4.0) };
    (room / step(unit)).floor().clamp(least, most) * step(unit)
}

/// Where the faces of a piece differ, the outline round both is what is cut, and that of the good face is a guide.
fn cut_round_both_faces(items: &mut Vec<Item>, template: &Template) {
    let ring = |corners: &[P2]| Rest { labels: vec![(); corners.len()], corners: corners.to_vec() };
    let both = ring(&template.outline).joined(&ring(&template.back));
    let Some(outer) = both.first().filter(|b| b.area() > ring_area(&template.outline) + NO_BEVEL) else { return };
    let count = template.outline.len();
    let is_outline = |s: &Stroke| s.layer == Layer::Cut && s.role == LineRole::Edge && s.segments.len() == count;
    let own = items.iter_mut().find_map(|item| match item {
        Item::Stroke(s) if is_outline(s) => Some(s),
        _ => None,
    });
    let Some(own) = own else { return };
    let moved = own.start - template.outline[0];
    (own.layer, own.role) = (Layer::Guide, LineRole::Thin);
    let corners: Vec<P2> = outer.rim.corners.iter().map(|p| p + moved).collect();
    items.push(Stroke::contour(Layer::Cut, LineRole::Edge, &Contour::polygon(&corners)).into());
}

/// Finds the arcs of closed lines that came flattened.
fn with_arcs(item: &mut Item) {
    use gable_plane::Segment::Line;
    let Item::Stroke(stroke) = item else { return };
    if !stroke.closed || !stroke.segments.iter().all(|s| matches!(s, Line { .. })) {
        return;
    }
    let mut ring = vec![stroke.start];
    ring.extend(stroke.segments.iter().map(gable_plane::Segment::to));
    if ring.len() > 1 && (ring[0] - ring[ring.len() - 1]).norm() < gable_plane::SAME_POINT {
        ring.pop();
    }
    stroke.segments = Contour::with_arcs(&ring, CHORD).segments().to_vec();
}

/// Paper under words, which hides guides in print, becomes gaps in the guides: a machine draws every line that it is given.
fn gaps_under_words(items: Vec<Item>) -> Vec<Item> {
    let is_paper = |item: &Item| matches!(item, Item::Fill(f) if f.shade == Shade::Paper);
    let (paper, rest): (Vec<Item>, Vec<Item>) = items.into_iter().partition(is_paper);
    let patches: Vec<Vec<P2>> =
        paper.into_iter().flat_map(|i| if let Item::Fill(Fill { rings, .. }) = i { rings } else { vec![] }).collect();
    let cut = |item: Item| match item {
        Item::Stroke(s) if s.role == LineRole::Fine && s.segments.len() == 1 => {
            let (a, b) = (s.start, s.segments[0].to());
            let line = |ends: [P2; 2]| Item::from(Stroke::polyline(s.layer, s.role, &ends));
            outside(a, b, &patches).into_iter().map(line).collect()
        }
        other => vec![other],
    };
    rest.into_iter().flat_map(cut).collect()
}

/// The parts of a straight line outside convex rings.
fn outside(a: P2, b: P2, rings: &[Vec<P2>]) -> Vec<[P2; 2]> {
    /// Shorter ends are left out, mm.
    const SHORT: f64 = 0.2;
    let mut hidden: Vec<(f64, f64)> = rings.iter().filter_map(|ring| within(a, b, ring)).collect();
    hidden.sort_by(|x, y| x.0.total_cmp(&y.0));
    let at = |t: f64| a + (b - a) * t;
    let mut parts = Vec::new();
    let mut from = 0.0;
    for (low, high) in hidden.into_iter().chain([(1.0, 1.0)]) {
        if (low - from) * (b - a).norm() > SHORT {
            parts.push([at(from), at(low)]);
        }
        from = high.max(from);
    }
    parts
}

/// Between which shares of its way a straight line is inside a convex ring.
fn within(a: P2, b: P2, ring: &[P2]) -> Option<(f64, f64)> {
    let sense = ring_area(ring).signum();
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for k in 0..ring.len() {
        let (p, edge) = (ring[k], ring[(k + 1) % ring.len()] - ring[k]);
        let depth = |q: P2| edge.perp(&(q - p)) * sense;
        let (start, end) = (depth(a), depth(b));
        if start < 0.0 && end < 0.0 {
            return None;
        }
        let crossing = start / (start - end);
        if start < 0.0 {
            low = low.max(crossing);
        } else if end < 0.0 {
            high = high.min(crossing);
        }
    }
    (low < high).then_some((low, high))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a square of 10 on a line of 30 leaves 10 on either side; its diagonal is as long as the square is wide.
    #[test]
    fn lines_stop_before_words_and_go_on_behind_them() {
        let square = [(10.0, -5.0), (20.0, -5.0), (20.0, 5.0), (10.0, 5.0)].map(|(x, y)| P2::new(x, y)).to_vec();
        let mut turned = square.clone();
        turned.reverse();
        for ring in [square, turned] {
            let parts = outside(P2::origin(), P2::new(30.0, 0.0), std::slice::from_ref(&ring));
            let ends: Vec<f64> = parts.iter().flatten().map(|p| p.x).collect();
            assert_eq!(ends, [0.0, 10.0, 20.0, 30.0]);
            assert!(outside(P2::new(12.0, 0.0), P2::new(18.0, 1.0), std::slice::from_ref(&ring)).is_empty());
            assert_eq!(outside(P2::new(0.0, 9.0), P2::new(30.0, 9.0), &[ring]).len(), 1);
        }
    }

    /// A frustum with its larger face behind: the cut line is that of the larger face, 60 × 40, the good face a guide.
    #[test]
    fn bevelled_pieces_are_cut_round_both_faces() {
        let ring = |x: f64, y: f64, w: f64, h: f64| {
            [(x, y), (x + w, y), (x + w, y + h), (x, y + h)].map(|(x, y)| P2::new(x, y)).to_vec()
        };
        let mut template = Template::plain(1, ring(5.0, 5.0, 50.0, 30.0), V2::new(60.0, 40.0));
        template.edges = vec![Default::default(); 4];
        let areas = |template: &Template, layer: Layer| -> Vec<f64> {
            let drawing = drawn(template, Unit::Millimetre).drawing;
            let strokes =
                drawing.items.into_iter().filter_map(|i| if let Item::Stroke(s) = i { Some(s) } else { None });
            let closed = strokes.filter(|s| s.closed && s.layer == layer);
            closed.map(|s| Contour::new(s.start, s.segments).area()).collect()
        };
        assert_eq!(areas(&template, Layer::Cut), [1500.0]);
        template.back = ring(0.0, 0.0, 60.0, 40.0);
        let (cut, guide) = (areas(&template, Layer::Cut), areas(&template, Layer::Guide));
        assert!(cut.len() == 1 && (cut[0] - 2400.0).abs() < 1e-6 && guide == [1500.0], "{cut:?} {guide:?}");
    }
}
