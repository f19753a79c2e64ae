//! Stress as a map on a piece: bands that are told apart by how dark they are and by lines with their numbers, not by colour.

use super::levels::{above, lines};
use super::{Bends, Held, Shape};
use gable_drawing::{Anchor, Drawing, Fill, Layer, LineRole, Shade, Stroke, Text};
use gable_measure::decimal;
use gable_plane::{Contour, P2, V2, bounds};
use gable_shell::Piece;
use gable_words::tr;

/// Lines that a map has, at most.
const LINES: usize = 5;
/// White about the piece, mm.
const MARGIN: f64 = 5.0;
/// Height of letters, mm.
const LETTERS: f64 = 2.5;
/// Height of the numbers at lines, mm.
const NUMBERS: f64 = 1.8;
/// Lines shorter than so many heights of their number have none.
const SHORT: f64 = 8.0;
/// Half the cross at the worst place, in heights of numbers.
const CROSS: f64 = 1.1;
/// A square of the legend, mm.
const SQUARE: f64 = 5.0;
/// Width of one entry of the legend, mm.
const ENTRY: f64 = 27.0;

/// The map of a bent piece, its upper edge up, drawn at a scale (1 is full size), with where it is held, the worst place, and a legend
/// under it.
///
/// Bands are shares of what biscuit carries, at the usual load and strength. Letters keep their size at every scale. A piece that could
/// not be bent is drawn without bands.
pub fn map(piece: &Piece, one: &Bends, scale: f64) -> Drawing {
    let seen = Place::of(piece, scale);
    let ring: Vec<P2> = piece.outline.iter().chain(&piece.outline_back).map(|p| seen.at(*p)).collect();
    let (low, high) = bounds(&ring).unwrap_or_else(|| (P2::origin(), P2::origin()));
    let shares = shares(one);
    let worst = shares.iter().copied().fold(0.0, f64::max);
    let levels = levels(worst);
    let size = high - low;
    let per_row = ((size.x.max(2.0 * ENTRY) / ENTRY) as usize).max(1);
    let rows = (levels.len() + 1).div_ceil(per_row) as f64;
    let legend = rows * (SQUARE + 2.0) + LETTERS + 4.0;
    let foot = MARGIN + legend;
    let width = size.x.max(2.0 * ENTRY) + 2.0 * MARGIN;
    let mut sheet = Drawing::new(width, size.y + foot + MARGIN);
    let left = (width - size.x) / 2.0;
    let place = Place { origin: P2::new(left, foot) - low.coords, ..seen };
    face(&mut sheet, &place, (piece, one), (&shares, &levels), NUMBERS);
    key(&mut sheet, P2::new(MARGIN, MARGIN), &levels, per_row, worst);
    sheet
}

/// The same at full size without a legend, to be laid over the piece: to the right of the origin what lies to the right when it is seen
/// from outside with its upper edge up. Numbers are so high, mm.
pub fn overlay(piece: &Piece, one: &Bends, numbers: f64) -> Drawing {
    let mut sheet = Drawing::new(0.0, 0.0);
    let shares = shares(one);
    let levels = levels(shares.iter().copied().fold(0.0, f64::max));
    face(&mut sheet, &Place::of(piece, 1.0), (piece, one), (&shares, &levels), numbers);
    sheet
}

fn face(
    sheet: &mut Drawing,
    place: &Place,
    (piece, one): (&Piece, &Bends),
    (shares, levels): (&[f64], &[f64]),
    letters: f64,
) {
    bands(sheet, place, one, shares, levels);
    outlines(sheet, place, piece, one);
    if one.bent.is_ok() {
        cross(sheet, place, one.at, letters * CROSS);
        numbers(sheet, place, one, (shares, levels), letters);
    }
}

/// From the piece to the sheet.
struct Place {
    right: V2,
    up: V2,
    scale: f64,
    origin: P2,
}

impl Place {
    /// The upper edge up, the face along z of the piece towards the reader: that of slopes and lids which is outside.
    fn of(piece: &Piece, scale: f64) -> Self {
        let up = piece.up;
        Self { right: V2::new(up.y, -up.x), up, scale, origin: P2::origin() }
    }

    fn at(&self, p: P2) -> P2 {
        self.origin + V2::new(p.coords.dot(&self.right), p.coords.dot(&self.up)) * self.scale
    }

    fn ring(&self, ring: &[P2]) -> Vec<P2> {
        ring.iter().map(|p| self.at(*p)).collect()
    }
}

/// Share of what biscuit carries at every point of the mesh.
fn shares(one: &Bends) -> Vec<f64> {
    let by = one.load.usual / one.strength.usual;
    one.bent.iter().flat_map(|b| b.stresses()).map(|s| s.abs() * by).collect()
}

/// Round shares below the worst, in equal steps of 1, 2 or 5 times a power of ten.
fn levels(worst: f64) -> Vec<f64> {
    let decades = (-7..=4).map(|n| 10_f64.powi(n));
    let mut steps = decades.flat_map(|d| [1.0, 2.0, 5.0].map(|s| s * d));
    let Some(step) = steps.find(|step| worst <= step * (LINES as f64 + 0.9)) else { return Vec::new() };
    (1..=LINES).map(|k| k as f64 * step).filter(|level| *level < worst * 0.98).collect()
}

/// A share in per cent, with as many places as tell levels apart.
fn percent(share: f64) -> String {
    let value = share * 100.0;
    decimal(
        value,
        if value < 0.1 {
            3
        } else if value < 1.0 {
            2
        } else {
            1
        },
    )
}

/// The darkness of a band: the more is asked the darker.
fn shade(band: usize, levels: &[f64]) -> Shade {
    Shade::Biscuit { light: 1.0 - band as f64 / levels.len().max(1) as f64 }
}

fn bands(sheet: &mut Drawing, place: &Place, one: &Bends, shares: &[f64], levels: &[f64]) {
    let whole = one.standing.plate.shape.rings.iter().map(|r| place.ring(r)).collect();
    sheet.push(Fill { layer: Layer::Picture, shade: shade(0, levels), rings: whole });
    let Ok(bent) = &one.bent else { return };
    for (k, level) in levels.iter().enumerate() {
        let rings = above(&bent.mesh, shares, *level).iter().map(|r| place.ring(r)).collect();
        sheet.push(Fill { layer: Layer::Picture, shade: shade(k + 1, levels), rings });
    }
    for level in levels {
        for line in lines(&bent.mesh, shares, *level) {
            sheet.push(Stroke::polyline(Layer::Picture, LineRole::Fine, &place.ring(&line)));
        }
    }
}

/// Free edges thin, what holds the piece thick.
fn outlines(sheet: &mut Drawing, place: &Place, piece: &Piece, one: &Bends) {
    let closed = |ring: &[P2]| Stroke::contour(Layer::Picture, LineRole::Thin, &Contour::polygon(&place.ring(ring)));
    sheet.push(closed(&piece.outline));
    for opening in crate::weights::through(piece) {
        sheet.push(closed(&opening));
    }
    for held in &one.standing.held {
        for run in within(&one.standing.plate.shape, held) {
            sheet.push(Stroke::polyline(Layer::Picture, LineRole::Edge, &place.ring(&run)));
        }
    }
}

/// The parts of a held line that lie in a piece or along its edge.
fn within(shape: &Shape, held: &Held) -> Vec<[P2; 2]> {
    let way = held.to - held.from;
    let steps = (way.norm() / STEP).ceil().max(1.0);
    let at = |k: usize| held.from + way * (k as f64 / steps).min(1.0);
    let is_in = |p: P2| shape.contains(p) || shape.edge_distance(p) < STEP;
    let mut runs: Vec<[P2; 2]> = Vec::new();
    let mut going = false;
    for p in (0..=steps as usize).map(at) {
        let inside = is_in(p);
        match runs.last_mut() {
            Some(run) if inside && going => run[1] = p,
            _ if inside => runs.push([p, p]),
            _ => {}
        }
        going = inside;
    }
    runs
}

/// Held lines are followed in steps of this, mm.
const STEP: f64 = 1.0;

fn cross(sheet: &mut Drawing, place: &Place, at: P2, half: f64) {
    let middle = place.at(at);
    for arm in [V2::new(half, half), V2::new(half, -half)] {
        sheet.line(Layer::Picture, LineRole::Edge, middle - arm, middle + arm);
    }
}

/// The number of each level at the middle of its longest line.
fn numbers(sheet: &mut Drawing, place: &Place, one: &Bends, (shares, levels): (&[f64], &[f64]), height: f64) {
    let Ok(bent) = &one.bent else { return };
    let mut taken: Vec<P2> = vec![place.at(one.at)];
    for level in levels {
        let length = |line: &Vec<P2>| line.windows(2).map(|w| (w[1] - w[0]).norm()).sum::<f64>() * place.scale;
        let all = lines(&bent.mesh, shares, *level);
        let Some(line) = all.iter().max_by(|a, b| length(a).total_cmp(&length(b))) else { continue };
        if length(line) < SHORT * height {
            continue;
        }
        // Far from other numbers and, twice as gladly, from edges.
        let free = |p: &P2| {
            let edge = one.standing.plate.shape.edge_distance(*p) * place.scale;
            taken.iter().map(|q| (place.at(*p) - q).norm()).fold(edge * 2.0, f64::min)
        };
        let Some(at) = line.iter().max_by(|a, b| free(a).total_cmp(&free(b))).map(|p| place.at(*p)) else { continue };
        taken.push(at);
        let text = format!("{} %", percent(*level));
        sheet.push(Text::note(at - V2::new(0.0, height / 2.0), height, Anchor::Middle, text));
    }
}

fn key(sheet: &mut Drawing, corner: P2, levels: &[f64], per_row: usize, worst: f64) {
    let top = (levels.len() + 1).div_ceil(per_row);
    for band in 0..=levels.len() {
        let (row, column) = (band / per_row, band % per_row);
        let at = corner + V2::new(column as f64 * ENTRY, (top - 1 - row) as f64 * (SQUARE + 2.0));
        let ring = vec![at, at + V2::new(SQUARE, 0.0), at + V2::new(SQUARE, SQUARE), at + V2::new(0.0, SQUARE)];
        sheet.push(Fill { layer: Layer::Picture, shade: shade(band, levels), rings: vec![ring.clone()] });
        sheet.push(Stroke::contour(Layer::Picture, LineRole::Fine, &Contour::polygon(&ring)));
        let words = match (band.checked_sub(1).map(|b| levels[b]), levels.get(band)) {
            (None, Some(to)) => tr!("below {} %", percent(*to)),
            (Some(from), Some(to)) => tr!("{} to {} %", percent(from), percent(*to)),
            (Some(from), None) => tr!("above {} %", percent(from)),
            (None, None) => tr!("all over").to_owned(),
        };
        sheet.push(Text::note(at + V2::new(SQUARE + 1.5, 1.2), LETTERS, Anchor::Start, words));
    }
    let heading = corner + V2::new(0.0, top as f64 * (SQUARE + 2.0) + 0.5);
    let words = tr!("× most, {} % of what biscuit carries", percent(worst));
    sheet.push(Text::note(heading, LETTERS, Anchor::Start, words));
}
