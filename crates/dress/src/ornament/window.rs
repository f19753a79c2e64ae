//! Ornaments that follow an opening. They are made in the coordinates of the face: u to the right, v up, seen from outside.

use super::piece::{Bench, OrnamentPiece, placed, rectangle};
use crate::finish::Face;
use gable_plane::{P2, P3, V2, ring_area};
use gable_shell::{OrnamentKind, Piece, PieceOpening, Style};
use gable_words::tr;

/// Openings are flattened within this, mm.
const FLAT: f64 = 0.05;
/// Width of a slat or a board of shutters and doors, mm.
const BOARD: f64 = 4.0;
/// Bars and battens lie this far from the rim of a leaf, mm.
const RIM: f64 = 2.0;

/// An opening on its face.
pub(super) struct Hole<'a> {
    pub(super) face: &'a Face,
    pub(super) piece: &'a Piece,
    ring: Vec<P2>,
    low: P2,
    high: P2,
    is_cut: bool,
    is_door: bool,
}

impl<'a> Hole<'a> {
    pub(super) fn new(face: &'a Face, piece: &'a Piece, opening: &PieceOpening) -> Option<Self> {
        let mut ring: Vec<P2> = opening.contour.flatten(FLAT).iter().map(|p| face.of_piece(*p)).collect();
        if ring_area(&ring) < 0.0 {
            ring.reverse();
        }
        let (low, high) = gable_plane::bounds(&ring)?;
        Some(Self {
            face,
            piece,
            ring,
            low,
            high,
            is_cut: opening.mode.goes_through(),
            is_door: piece.is_door(opening),
        })
    }

    pub(super) fn is_door(&self) -> bool {
        self.is_door
    }

    /// Where a plate lies flat on the face, its origin at a point of it and so far out.
    fn flat(&self, at: P2, out: f64) -> gable_plane::Rigid {
        let (origin, [u, v, w]) = self.face.frame_in(self.piece);
        placed(origin + u * at.x + v * at.y + w * out, u, v)
    }

    /// The pieces of an ornament at this opening.
    pub(super) fn pieces(&self, bench: &Bench<'_>, sill: f64) -> Vec<OrnamentPiece> {
        let size = bench.ornament.size.mm();
        match bench.ornament.kind {
            OrnamentKind::Shutters => self.shutters(bench, size),
            OrnamentKind::Door => self.door(bench, size).into_iter().collect(),
            OrnamentKind::Sill => vec![self.bar(bench, (self.low.y - size, self.low.y), size)],
            OrnamentKind::Lintel => vec![self.bar(bench, (self.high.y, self.high.y + size), size)],
            OrnamentKind::Surround => self.surround(bench, size).into_iter().collect(),
            OrnamentKind::WindowBox => self.window_box(bench, size, sill),
            _ => Vec::new(),
        }
    }

    /// A level bar that reaches past the opening on both sides.
    fn bar(&self, bench: &Bench<'_>, (from, to): (f64, f64), past: f64) -> OrnamentPiece {
        let outline = rectangle(P2::new(self.low.x - past, from), P2::new(self.high.x + past, to));
        bench.plate(("", ""), outline, self.flat(P2::origin(), 0.0))
    }

    /// Each leaf has the shape of its half of the opening, as if it were swung open.
    fn shutters(&self, bench: &Bench<'_>, gap: f64) -> Vec<OrnamentPiece> {
        let middle = (self.low.x + self.high.x) / 2.0;
        let place = self.flat(P2::origin(), 0.0);
        let leaf = |what: (&str, &str), left: bool| {
            let jamb = if left { self.low.x - gap / 2.0 } else { self.high.x + gap / 2.0 };
            let half = half_of(&self.ring, middle, left);
            let mut outline: Vec<P2> = half.iter().map(|p| P2::new(2.0 * jamb - p.x, p.y)).collect();
            outline.reverse();
            let mut piece = bench.plate(what, outline, place);
            piece.pressed = pressed(&piece.outline, bench.ornament.style);
            piece
        };
        vec![leaf(("left", tr!("left")), true), leaf(("right", tr!("right")), false)]
    }

    /// In a cut opening the leaf stands in it, flush with the face; on a pressed one it lies on the face.
    fn door(&self, bench: &Bench<'_>, gap: f64) -> Option<OrnamentPiece> {
        let outline = grown(&self.ring, -gap, self.is_door());
        let out = if self.is_cut { -bench.ornament.thickness.mm() } else { 0.0 };
        let mut piece = bench.plate(("", ""), outline?, self.flat(P2::origin(), out));
        piece.pressed = pressed(&piece.outline, bench.ornament.style);
        Some(piece)
    }

    /// A band all round a window, and over both sides and the head of a door.
    fn surround(&self, bench: &Bench<'_>, width: f64) -> Option<OrnamentPiece> {
        let door = self.is_door();
        let outer = grown(&self.ring, width, door)?;
        let count = self.ring.len();
        let is_foot = |k: usize| {
            let (a, b) = (self.ring[k], self.ring[(k + 1) % count]);
            door && (a.y - self.low.y).abs() < 1e-6 && (b.y - self.low.y).abs() < 1e-6
        };
        let quad = |k: usize| {
            let n = (k + 1) % count;
            vec![outer[k], outer[n], self.ring[n], self.ring[k]]
        };
        let parts: Vec<Vec<P2>> = (0..count).filter(|k| !is_foot(*k)).map(quad).collect();
        let place = self.flat(P2::origin(), 0.0);
        let foot = (0..count).find(|k| is_foot(*k));
        let (outline, holes) = match foot {
            // From one end of the foot round to the other, and back along the opening.
            Some(foot) => {
                let round = |ring: &[P2]| (0..count).map(|k| ring[(foot + 1 + k) % count]).collect::<Vec<P2>>();
                (round(&outer).into_iter().chain(round(&self.ring).into_iter().rev()).collect(), Vec::new())
            }
            None => (outer, vec![self.ring.iter().rev().copied().collect()]),
        };
        Some(OrnamentPiece { parts, holes, ..bench.plate(("", ""), outline, place) })
    }

    /// A shelf that stands out from the wall, a board along its front and one at each end. They hang under a sill, if there is one.
    fn window_box(&self, bench: &Bench<'_>, height: f64, sill: f64) -> Vec<OrnamentPiece> {
        let (origin, [u, v, w]) = self.face.frame_in(self.piece);
        let foot = self.low.y - sill - height;
        let width = self.high.x - self.low.x;
        let at = |out: f64| -> P3 { origin + u * self.low.x + v * foot + w * out };
        // Seen from above: x to the right, y towards the wall.
        let shelf = bench.plate(
            ("shelf", tr!("shelf")),
            rectangle(P2::new(0.0, 0.0), P2::new(width, height)),
            placed(at(height), u, -w),
        );
        let front = rectangle(P2::origin(), P2::new(width, height));
        let mut front = bench.plate(("front", tr!("front")), front, placed(at(height), u, v));
        front.pressed = pressed(&front.outline, bench.ornament.style);
        // They stand on the shelf: x out of the wall, y up, thickness to the left.
        let thick = bench.ornament.thickness.mm();
        let end = |what: (&str, &str), right: f64| {
            let side = rectangle(P2::origin(), P2::new(height, (height - thick).max(0.1)));
            bench.plate(what, side, placed(at(0.0) + u * right + v * thick, w, v))
        };
        vec![shelf, front, end(("left end", tr!("left end")), thick), end(("right end", tr!("right end")), width)]
    }
}

/// The half of a convex ring left or right of an upright line.
fn half_of(ring: &[P2], middle: f64, left: bool) -> Vec<P2> {
    let inside = |p: &P2| if left { middle - p.x } else { p.x - middle };
    let mut half = Vec::new();
    for k in 0..ring.len() {
        let (p, q) = (ring[k], ring[(k + 1) % ring.len()]);
        let (here, there) = (inside(&p), inside(&q));
        if here >= 0.0 {
            half.push(p);
        }
        if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
            half.push(p + (q - p) * (here / (here - there)));
        }
    }
    half
}

/// A convex ring let out by a distance, corner by corner; `standing` keeps its foot where it is. `None` when it would
/// turn inside out.
fn grown(ring: &[P2], by: f64, standing: bool) -> Option<Vec<P2>> {
    let count = ring.len();
    let foot = ring.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let out = |k: usize| {
        let (a, b) = (ring[k % count], ring[(k + 1) % count]);
        let along = (b - a).try_normalize(1e-9)?;
        let held = standing && (a.y - foot).abs() < 1e-6 && (b.y - foot).abs() < 1e-6;
        Some((V2::new(along.y, -along.x), if held { 0.0 } else { by }))
    };
    let corner = |k: usize| {
        let ((n, d), (m, e)) = (out(k + count - 1)?, out(k)?);
        // The point that lies d past one side and e past the other.
        let across = n.perp(&m);
        let shift = if across.abs() < 1e-6 { n * d } else { V2::new(m.y * d - n.y * e, n.x * e - m.x * d) / across };
        Some(ring[k] + shift)
    };
    let grown: Option<Vec<P2>> = (0..count).map(corner).collect();
    grown.filter(|g| ring_area(g) > 0.0 && (ring_area(g) > ring_area(ring)) == (by > 0.0))
}

/// Pressed lines of a leaf.
fn pressed(outline: &[P2], style: Style) -> Vec<[P2; 2]> {
    let Some((low, high)) = gable_plane::bounds(outline) else { return Vec::new() };
    let (width, height) = (high.x - low.x, high.y - low.y);
    let span = |from: P2, to: P2| across(outline, from, to);
    let uprights = |count: usize| {
        let x = move |k: usize| low.x + width * k as f64 / count as f64;
        (1..count).filter_map(move |k| span(P2::new(x(k), low.y), P2::new(x(k), high.y)))
    };
    let level = |y: f64| span(P2::new(low.x, y), P2::new(high.x, y));
    let boards = ((width / BOARD).round() as usize).clamp(2, 40);
    match style {
        Style::Plain => Vec::new(),
        Style::Boarded => uprights(boards).collect(),
        Style::Slatted => {
            let slats = ((height / (BOARD * 0.75)).round() as usize).clamp(2, 80);
            (1..slats).filter_map(|k| level(low.y + height * k as f64 / slats as f64)).collect()
        }
        Style::Battened => {
            let bars = [0.18, 0.18 + RIM / height.max(1.0), 0.72, 0.72 + RIM / height.max(1.0)];
            uprights(boards).chain(bars.into_iter().filter_map(|share| level(low.y + height * share))).collect()
        }
    }
}

/// The stretch of a line within a convex ring, drawn in a little so that it ends on the leaf.
fn across(ring: &[P2], from: P2, to: P2) -> Option<[P2; 2]> {
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for k in 0..ring.len() {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        let (here, there) = ((b - a).perp(&(from - a)), (b - a).perp(&(to - a)));
        if here < 0.0 && there < 0.0 {
            return None;
        }
        let share = here / (here - there);
        if here < 0.0 {
            first = first.max(share);
        } else if there < 0.0 {
            last = last.min(share);
        }
    }
    let inset = 0.4 / (to - from).norm().max(1.0);
    (last - first > 2.5 * inset).then(|| [from + (to - from) * (first + inset), from + (to - from) * (last - inset)])
}
