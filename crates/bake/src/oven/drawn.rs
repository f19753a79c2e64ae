//! A tray, or a sheet of dough, as a picture.

use super::OnTray;
use gable_drawing::{Anchor, Drawing, Fill, Layer, LineRole, Shade, Stroke, Text};
use gable_measure::Length;
use gable_plane::{Contour, P2, bounds, ring_centroid, ring_contains};

/// Height of capitals, mm on paper (ISO 3098).
const LETTERS: f64 = 2.5;
/// Smaller letters where those do not fit.
const SMALL: f64 = 1.8;
/// Width of a capital beside its height, about.
const WIDE: f64 = 0.75;

/// A tray from above at a scale (paper over tray), pieces by the numbers of their templates.
pub fn tray_drawing(width: Length, depth: Length, pieces: &[OnTray], scale: f64) -> Drawing {
    let at = |p: &P2| P2::from(p.coords * scale);
    let ring = |ring: &Vec<P2>| ring.iter().map(at).collect::<Vec<P2>>();
    let mut drawing = Drawing::new(width.mm() * scale, depth.mm() * scale);
    let rim = Contour::rectangle(P2::origin(), P2::new(drawing.width, drawing.height));
    drawing.push(Stroke::contour(Layer::Picture, LineRole::Neighbour, &rim));
    for piece in pieces {
        let rings: Vec<Vec<P2>> = std::iter::once(&piece.outline).chain(&piece.holes).map(ring).collect();
        for line in &rings {
            drawing.push(Stroke::contour(Layer::Picture, LineRole::Thin, &Contour::polygon(line)));
        }
        drawing.items.insert(1, Fill { layer: Layer::Picture, shade: Shade::Tint, rings: rings.clone() }.into());
        let Some(number) = piece.number() else { continue };
        if let Some((at, height)) = place(&rings, number.len()) {
            let at = P2::new(at.x, at.y - height / 2.0);
            drawing.push(Text { bold: true, ..Text::note(at, height, Anchor::Middle, number) });
        }
    }
    drawing
}

/// Where a number fits into a piece, and how large.
fn place(rings: &[Vec<P2>], figures: usize) -> Option<(P2, f64)> {
    let (rim, holes) = rings.split_first()?;
    let (low, high) = bounds(rim)?;
    let steps = (1..8).flat_map(|i| (1..8).map(move |k| (f64::from(i) / 8.0, f64::from(k) / 8.0)));
    let inside = steps.map(|(u, v)| P2::new(low.x + (high.x - low.x) * u, low.y + (high.y - low.y) * v));
    let middle = ring_centroid(rim);
    let mut spots: Vec<P2> = inside.collect();
    spots.sort_by(|a, b| (a - middle).norm().total_cmp(&(b - middle).norm()));
    let fits = |at: &P2, height: f64| {
        let (w, h) = (height * WIDE * figures as f64 / 2.0 + 0.4, height / 2.0 + 0.4);
        let corners = [(-w, -h), (w, -h), (w, h), (-w, h), (0.0, 0.0)].map(|(x, y)| P2::new(at.x + x, at.y + y));
        corners.iter().all(|c| ring_contains(rim, *c) && !holes.iter().any(|hole| ring_contains(hole, *c)))
    };
    let of_height = |height: f64| spots.iter().find(|at| fits(at, height)).map(|at| (*at, height));
    of_height(LETTERS).or_else(|| of_height(SMALL))
}
