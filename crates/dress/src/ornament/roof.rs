//! Ornaments along the edges of slopes.

use super::piece::{Bench, OrnamentPiece, placed, rectangle};
use gable_plane::{P2, P3, V2, V3, ring_centroid};
use gable_shell::{EdgeKind, Joint, JointEnd, JointKind, OrnamentKind, Piece, Solved};

/// Edges that rise less than this are level (sine).
const LEVEL: f64 = 0.02;
/// Shorter edges get no board, mm.
const SHORT: f64 = 12.0;
/// What is left between two strips at a ridge, on each side, mm.
const HAIR: f64 = 0.2;
/// Points of one scallop.
const STEPS: usize = 8;

/// Bargeboards and fascias of a slope: boards on its free edges.
pub(super) fn boards(bench: &Bench<'_>, piece: &Piece) -> Vec<OrnamentPiece> {
    let count = piece.outline.len();
    let mut found = Vec::new();
    for k in (0..count).filter(|k| piece.edges.get(*k) == Some(&EdgeKind::Free)) {
        let (a, b) = (piece.outline[k], piece.outline[(k + 1) % count]);
        let Some(along) = (b - a).try_normalize(1e-9).filter(|_| (b - a).norm() > SHORT) else { continue };
        let turn = &piece.house_from_piece;
        let rise = (turn * V3::new(along.x, along.y, 0.0)).z;
        let is_rake = rise.abs() > LEVEL;
        if is_rake != (bench.ornament.kind == OrnamentKind::Bargeboard) {
            continue;
        }
        // The right side of a counter-clockwise edge is outside; only upright edge faces take a bargeboard.
        let outward = turn * V3::new(along.y, -along.x, 0.0);
        if is_rake && outward.z.abs() > LEVEL {
            continue;
        }
        let at = turn * P3::new(a.x, a.y, 0.0);
        let (x, y) = (turn * V3::new(along.x, along.y, 0.0), turn * V3::z());
        let lean = if is_rake { rise / (1.0 - rise * rise).max(1e-6).sqrt() } else { 0.0 };
        let board = Board { length: (b - a).norm(), top: piece.thickness.mm(), depth: bench.ornament.size.mm(), lean };
        // Seen from outside, an edge of a counter-clockwise ring runs to the right with the good face up.
        let what = if found.is_empty() { String::new() } else { (found.len() + 1).to_string() };
        let mut made = bench.plate(&what, board.outline(is_rake), placed(at, x, y));
        made.parts = board.parts(is_rake);
        found.push(made);
    }
    found
}

/// A board along an edge: x along it, y square to the slope; both ends plumb.
struct Board {
    length: f64,
    top: f64,
    depth: f64,
    /// Rise over run of the edge.
    lean: f64,
}

impl Board {
    /// The point of an end at a height.
    fn end(&self, x: f64, y: f64) -> P2 {
        P2::new(x + y * self.lean, y)
    }

    fn foot(&self) -> f64 {
        self.top - self.depth
    }

    /// Scallops hang from the lower third.
    fn hem(&self, scalloped: bool) -> f64 {
        if scalloped { self.foot() + self.depth * 0.35 } else { self.foot() }
    }

    fn scallops(&self) -> Vec<Vec<P2>> {
        let (from, to) = (self.end(0.0, self.hem(true)), self.end(self.length, self.hem(true)));
        let count = ((to.x - from.x) / self.depth.max(1.0)).round().clamp(1.0, 200.0);
        let step = (to.x - from.x) / count;
        let drop = (self.hem(true) - self.foot()).min(step / 2.0);
        let arc = |k: usize| {
            let point = |i: usize| {
                let share = i as f64 / STEPS as f64;
                P2::new(from.x + step * (k as f64 + share), from.y - drop * (std::f64::consts::PI * share).sin())
            };
            (0..=STEPS).map(point).collect()
        };
        (0..count as usize).map(arc).collect()
    }

    fn outline(&self, scalloped: bool) -> Vec<P2> {
        let mut ring: Vec<P2> = if scalloped { self.scallops().concat() } else { Vec::new() };
        if !scalloped {
            ring = vec![self.end(0.0, self.foot()), self.end(self.length, self.foot())];
        }
        ring.dedup_by(|a, b| (*a - *b).norm() < 1e-9);
        ring.extend([self.end(self.length, self.top), self.end(0.0, self.top)]);
        ring
    }

    fn parts(&self, scalloped: bool) -> Vec<Vec<P2>> {
        let hem = self.hem(scalloped);
        let body = [(0.0, hem), (self.length, hem), (self.length, self.top), (0.0, self.top)];
        let mut parts = vec![body.map(|(x, y)| self.end(x, y)).to_vec()];
        if scalloped {
            parts.extend(self.scallops());
        }
        parts
    }
}

/// Strips on both sides of the ridges or hips of a part.
pub(super) fn caps(bench: &Bench<'_>, solved: &Solved, joint: &Joint) -> Vec<OrnamentPiece> {
    let half = joint.dihedral.rad() / 2.0;
    let ends = joint.ends.iter().filter_map(|end| if let JointEnd::Piece(k) = end { Some(*k) } else { None });
    let strip = |(n, k): (usize, usize)| {
        let piece = solved.pieces.get(k)?;
        let [a, b] = joint.line.map(|p| piece.house_from_piece.inverse_transform_point(&p).xy());
        let along = (b - a).try_normalize(1e-9).filter(|_| (b - a).norm() > SHORT)?;
        let middle = ring_centroid(&piece.outline);
        // x along the joint so that the piece lies to the left: then y points into the piece.
        let (a, along) = if along.perp(&(middle - a)) > 0.0 { (a, along) } else { (b, -along) };
        let inward = V2::new(-along.y, along.x);
        // The upper faces meet this far beyond the line in which the lower ones do.
        let beyond = piece.thickness.mm() / half.tan();
        let low = HAIR - beyond;
        let outline = rectangle(
            P2::new(0.0, low),
            P2::new((b_of(joint, piece) - a).norm(), low + bench.ornament.size.mm() + beyond),
        );
        let turn = &piece.house_from_piece;
        let at = turn * P3::new(a.x, a.y, piece.thickness.mm());
        let place = placed(at, turn * V3::new(along.x, along.y, 0.0), turn * V3::new(inward.x, inward.y, 0.0));
        let side = ["a", "b"][n % 2];
        Some(OrnamentPiece {
            host: k,
            ..bench.plate(&format!("{}-{side}", joint.letter.to_lowercase()), outline, place)
        })
    };
    ends.enumerate().filter_map(strip).collect()
}

/// Whether a joint takes caps of a kind.
pub(super) fn takes_cap(joint: &Joint, kind: OrnamentKind) -> bool {
    let wanted = if kind == OrnamentKind::RidgeCap { JointKind::Ridge } else { JointKind::Hip };
    joint.kind == wanted
}

fn b_of(joint: &Joint, piece: &Piece) -> P2 {
    let [a, b] = joint.line.map(|p| piece.house_from_piece.inverse_transform_point(&p).xy());
    let middle = ring_centroid(&piece.outline);
    if (b - a).perp(&(middle - a)) > 0.0 { b } else { a }
}
