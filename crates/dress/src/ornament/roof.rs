//! Ornaments along the edges of slopes.

use super::piece::{Bench, OrnamentPiece, placed, rectangle};
use crate::finish::Standing;
use gable_plane::{ClipLine, ConvexPolygon, P2, P3, Rigid, V2, V3, ring_centroid};
use gable_shell::{EdgeKind, Joint, JointEnd, JointKind, OrnamentKind, Piece, Solved};

/// Edges that rise less than this are level (sine).
const LEVEL: f64 = 0.02;
/// Shorter edges get no board, mm.
const SHORT: f64 = 20.0;
/// What is left between two strips at a ridge, on each side, mm.
const HAIR: f64 = 0.2;
/// What is left between a strip and what stands in its way, mm.
const ROOM: f64 = 1.5;
/// Points of one scallop.
const STEPS: usize = 8;

/// Bargeboards and fascias of a slope: boards on its free edges.
pub(super) fn boards(bench: &Bench<'_>, solved: &Solved, piece: &Piece) -> Vec<OrnamentPiece> {
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
        let tops = if is_rake {
            [k + count - 1, k + 1].map(|e| knee_top(solved, piece, e % count, (at, x, y)))
        } else {
            [None; 2]
        };
        let (length, top) = ((b - a).norm(), piece.thickness.mm());
        let board = Board { length, top, depth: bench.ornament.size.mm(), lean, tops };
        // Seen from outside, an edge of a counter-clockwise ring runs to the right with the good face up.
        let what = if found.is_empty() { String::new() } else { (found.len() + 1).to_string() };
        let mut made = bench.plate((&what, &what), board.outline(is_rake), placed(at, x, y));
        made.parts = board.parts(is_rake);
        found.push(made);
    }
    found
}

/// The upper face of the slope that follows over a knee, as a line in the plane of a board: points with
/// normal . p <= offset are under it. A flatter slope hides nothing of a board; over it the board of a steeper one would
/// stick up.
fn knee_top(solved: &Solved, piece: &Piece, edge: usize, (at, x, y): (P3, V3, V3)) -> Option<(V2, f64)> {
    let Some(EdgeKind::Joint(j)) = piece.edges.get(edge) else { return None };
    let joint = solved.joints.get(*j).filter(|j| j.kind == JointKind::Knee)?;
    let other = joint.ends.iter().find_map(|end| match end {
        JointEnd::Piece(k) => solved.pieces.get(*k).filter(|p| p.id != piece.id),
        _ => None,
    })?;
    let (up, on) = (other.house_from_piece * V3::z(), other.house_from_piece * P3::new(0.0, 0.0, other.thickness.mm()));
    let normal = V2::new(up.dot(&x), up.dot(&y));
    let length = normal.norm();
    (length > LEVEL).then(|| (normal / length, up.dot(&(on - at)) / length))
}

/// A board along an edge: x along it, y square to the slope; both ends plumb, and under the slope beyond a knee.
struct Board {
    length: f64,
    top: f64,
    depth: f64,
    /// Rise over run of the edge.
    lean: f64,
    /// Upper faces of what follows over a knee, at the start and at the end.
    tops: [Option<(V2, f64)>; 2],
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
        self.under_tops(ring)
    }

    /// Without what would stick up over the slopes beyond knees: of a ring only upper corners do.
    fn under_tops(&self, ring: Vec<P2>) -> Vec<P2> {
        self.tops.iter().flatten().fold(ring, |ring, (normal, offset)| {
            let over = |p: &P2| normal.dot(&p.coords) - offset;
            let mut kept = Vec::new();
            for k in 0..ring.len() {
                let (p, q) = (ring[k], ring[(k + 1) % ring.len()]);
                let (here, there) = (over(&p), over(&q));
                if here <= 0.0 {
                    kept.push(p);
                }
                if here * there < 0.0 {
                    kept.push(p + (q - p) * (here / (here - there)));
                }
            }
            kept
        })
    }

    fn parts(&self, scalloped: bool) -> Vec<Vec<P2>> {
        let hem = self.hem(scalloped);
        let body = [(0.0, hem), (self.length, hem), (self.length, self.top), (0.0, self.top)];
        let mut parts = vec![self.under_tops(body.map(|(x, y)| self.end(x, y)).to_vec())];
        if scalloped {
            parts.extend(self.scallops());
        }
        parts
    }
}

/// Strips on both sides of a ridge or hip, broken where other parts stand.
pub(super) fn caps(bench: &Bench<'_>, solved: &Solved, standing: &Standing<'_>, joint: &Joint) -> Vec<OrnamentPiece> {
    let ends = joint.ends.iter().filter_map(|end| if let JointEnd::Piece(k) = end { Some(*k) } else { None });
    let mut found = Vec::new();
    for (k, side) in ends.zip(["a", "b"]) {
        let Some(piece) = solved.pieces.get(k) else { continue };
        let Some(strip) = Strip::new(piece, joint, bench.ornament.size.mm()) else { continue };
        let lines = strip.half_ways(piece, solved, (k, joint), bench.ornament.kind);
        for (n, (from, to)) in strip.free(&standing.on(piece)).into_iter().enumerate() {
            let whole = rectangle(P2::new(from, strip.low), P2::new(to, strip.high));
            let own = labelled(ConvexPolygon { corners: whole, labels: Vec::new() });
            let Some(outline) = lines.iter().try_fold(own, |polygon, line| polygon.clip(line)).map(|p| p.corners)
            else {
                continue;
            };
            let what = format!("{}-{side}{}", joint.letter.to_lowercase(), n + 1);
            found.push(OrnamentPiece { host: Some(k), ..bench.plate((&what, &what), outline, strip.place) });
        }
    }
    found
}

/// A strip on the upper face of a slope: x along the joint, y down the slope.
struct Strip {
    place: Rigid,
    length: f64,
    low: f64,
    high: f64,
}

impl Strip {
    fn new(piece: &Piece, joint: &Joint, width: f64) -> Option<Self> {
        let [a, b] = joint.line.map(|p| piece.house_from_piece.inverse_transform_point(&p).xy());
        // x along the joint so that the piece lies to the left: then y points into the piece.
        let (a, b) = if (b - a).perp(&(ring_centroid(&piece.outline) - a)) > 0.0 { (a, b) } else { (b, a) };
        let length = (b - a).norm();
        let along = (b - a).try_normalize(1e-9).filter(|_| length > SHORT)?;
        // The upper faces meet this far beyond the line in which the lower ones do.
        let beyond = piece.thickness.mm() / (joint.dihedral.rad() / 2.0).tan();
        let turn = &piece.house_from_piece;
        let at = turn * P3::new(a.x, a.y, piece.thickness.mm());
        let (x, y) = (V3::new(along.x, along.y, 0.0), V3::new(-along.y, along.x, 0.0));
        Some(Self { place: placed(at, turn * x, turn * y), length, low: HAIR - beyond, high: HAIR + width })
    }

    /// Where the strips along two edges of a slope would meet, as at the tip of a spire, each ends half-way between them.
    fn half_ways(
        &self,
        piece: &Piece,
        solved: &Solved,
        (k, joint): (usize, &Joint),
        kind: OrnamentKind,
    ) -> Vec<ClipLine<()>> {
        let others = solved
            .joints
            .iter()
            .filter(|j| takes_cap(j, kind) && !std::ptr::eq(*j, joint) && j.ends.contains(&JointEnd::Piece(k)));
        let line = |other: &Joint| {
            let strip = Self::new(piece, other, self.high)?;
            // Its x axis and its y axis, into the slope, in this one's coordinates.
            let own = self.place.inverse() * strip.place;
            let (at, into) = (own * P3::origin(), own * V3::y());
            let normal = V2::y() - into.xy();
            let length = normal.norm();
            // As far from its own joint as from the other, less a hair: y <= into . (p - at).
            let offset = -into.xy().dot(&at.coords.xy());
            (length > LEVEL).then(|| ClipLine { normal: normal / length, offset: offset / length - HAIR, label: () })
        };
        others.filter_map(line).collect()
    }

    /// The stretches along it that no area, given in the house, reaches into.
    fn free(&self, areas: &[Vec<P3>]) -> Vec<(f64, f64)> {
        let mut taken: Vec<(f64, f64)> = Vec::new();
        for area in areas {
            let flat: Vec<P2> = area.iter().map(|p| self.place.inverse_transform_point(p).xy()).collect();
            let hull = ConvexPolygon { corners: gable_plane::convex_hull(&flat), labels: Vec::new() };
            let lines = [(V2::y(), self.high), (-V2::y(), -self.low)];
            let within = lines.iter().try_fold(labelled(hull), |polygon, (normal, offset)| {
                polygon.clip(&ClipLine { normal: *normal, offset: *offset, label: () })
            });
            if let Some((low, high)) = within.and_then(|p| gable_plane::bounds(&p.corners)) {
                taken.push((low.x - ROOM, high.x + ROOM));
            }
        }
        taken.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (mut from, mut free) = (0.0, Vec::new());
        for (low, high) in taken.into_iter().chain([(self.length, self.length)]) {
            let low = low.min(self.length);
            if low - from > SHORT {
                free.push((from, low));
            }
            from = high.max(from);
        }
        free
    }
}

fn labelled(polygon: ConvexPolygon<()>) -> ConvexPolygon<()> {
    ConvexPolygon { labels: vec![(); polygon.corners.len()], corners: polygon.corners }
}

/// Whether a joint takes caps of a kind.
pub(super) fn takes_cap(joint: &Joint, kind: OrnamentKind) -> bool {
    let wanted = if kind == OrnamentKind::RidgeCap { JointKind::Ridge } else { JointKind::Hip };
    joint.kind == wanted
}
