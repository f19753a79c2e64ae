//! Where along a line two pieces really face each other, measured in slices across it.

use super::lump::Lump;
use gable_plane::{P2, P3, V3};

/// How far from an end a slice is taken that stands for it, mm.
const INSIDE: f64 = 0.01;
/// Steps in which an end is drawn in, mm.
const STEP: f64 = 0.25;
/// How closely an end is found, mm.
const CLOSE: f64 = 0.02;
/// Distances nearer than this are the same, mm.
const SAME: f64 = 1e-6;

/// How far apart two pieces may be and still meet, mm.
#[derive(Clone, Copy)]
pub(super) struct Room {
    /// A corner of the piece that is cut from a face of the one that stays whole.
    pub(super) faces: f64,
    /// From an edge of the one that stays whole.
    pub(super) edges: f64,
}

impl Room {
    /// The same everywhere.
    pub(super) fn even(room: f64) -> Self {
        Self { faces: room, edges: room }
    }

    fn holds(&self, apart: &Apart) -> bool {
        apart.any <= if apart.face <= apart.any + SAME { self.faces } else { self.edges }
    }
}

/// How far apart two areas are, mm.
#[derive(Clone, Copy)]
struct Apart {
    any: f64,
    /// Corners of the second from faces of the first, where they lie over them.
    face: f64,
}

impl Apart {
    fn nearer(self, other: Self) -> Self {
        Self { any: self.any.min(other.any), face: self.face.min(other.face) }
    }
}

/// The line with its ends drawn in to where the pieces are as near as `room` says; none when less than `least` mm is
/// left. `b` is cut to `a`.
pub(super) fn facing(a: &[&Lump], b: &[&Lump], line: [P3; 2], room: Room, least: f64) -> Option<[P3; 2]> {
    let length = (line[1] - line[0]).norm();
    if length < least {
        return None;
    }
    let along = (line[1] - line[0]) / length;
    let most = room.faces.max(room.edges) + INSIDE;
    let pairs: Vec<[&Lump; 2]> =
        a.iter().flat_map(|p| b.iter().map(move |q| [*p, *q])).filter(|[p, q]| p.near(q, most)).collect();
    let faces = |s: f64| {
        let slice = Slice::new(line[0] + along * s, along);
        let apart = pairs.iter().filter_map(|pair| slice.apart(pair)).reduce(Apart::nearer);
        apart.is_some_and(|apart| room.holds(&apart))
    };
    let low = first(length, faces)?;
    let high = length - first(length - low, |s| faces(length - s))?;
    (high - low >= least).then(|| [line[0] + along * low, line[0] + along * high])
}

/// Distance, mm, of two pieces in the slice across the middle of a line; infinite when it misses one of them.
pub(super) fn apart(a: &[Lump], b: &[Lump], line: [P3; 2]) -> f64 {
    let Some(along) = (line[1] - line[0]).try_normalize(SAME) else { return f64::INFINITY };
    let slice = Slice::new(nalgebra::center(&line[0], &line[1]), along);
    let pairs = a.iter().flat_map(|p| b.iter().map(move |q| [p, q]));
    pairs.filter_map(|pair| slice.apart(&pair)).reduce(Apart::nearer).map_or(f64::INFINITY, |apart| apart.any)
}

/// The least distance, up to `most`, from which on something holds.
fn first(most: f64, holds: impl Fn(f64) -> bool) -> Option<f64> {
    if holds(INSIDE.min(most / 2.0)) {
        return Some(0.0);
    }
    let (mut out, mut into) = (0.0, STEP);
    while !holds(into) {
        (out, into) = (into, into + STEP);
        if into > most {
            return None;
        }
    }
    while into - out > CLOSE {
        let middle = (out + into) / 2.0;
        if holds(middle) { into = middle } else { out = middle }
    }
    Some(into)
}

/// A plane across a line.
struct Slice {
    at: P3,
    along: V3,
    x: V3,
    y: V3,
}

impl Slice {
    fn new(at: P3, along: V3) -> Self {
        let other = if along.z.abs() < 0.9 { V3::z() } else { V3::x() };
        let x = along.cross(&other).normalize();
        Self { at, along, x, y: along.cross(&x) }
    }

    /// Distance of two lumps in this plane; none when the plane misses one of them.
    fn apart(&self, [a, b]: &[&Lump; 2]) -> Option<Apart> {
        Some(distance(&self.section(a)?, &self.section(b)?))
    }

    /// The convex ring in which the plane cuts a lump: the ends of its edges, two for each.
    fn section(&self, lump: &Lump) -> Option<Vec<P2>> {
        let (low, high) = lump.reach(&self.along);
        let here = self.along.dot(&self.at.coords);
        if here <= low || here >= high {
            return None;
        }
        let height = |p: &P3| self.along.dot(&p.coords) - here;
        let mut ends: Vec<P2> = Vec::new();
        for [p, q] in lump.solid.face_edges() {
            let (from, to) = (height(p), height(q));
            if (from > 0.0) != (to > 0.0) {
                ends.push(self.flat(&(p + (q - p) * (from / (from - to)))));
            }
        }
        Some(ends)
    }

    fn flat(&self, p: &P3) -> P2 {
        let from = p - self.at;
        P2::new(from.dot(&self.x), from.dot(&self.y))
    }
}

/// Distance of two convex areas given by the ends of their edges, two for each; nothing is inside the other.
fn distance(a: &[P2], b: &[P2]) -> Apart {
    let one_way = |points: &[P2], edges: &[P2]| {
        let edges = edges.chunks_exact(2).map(|e| (e[0], e[1]));
        let pairs = edges.flat_map(|(p, q)| points.iter().map(move |c| to_edge(c, &p, &q)));
        pairs.reduce(Apart::nearer).unwrap_or(Apart { any: f64::INFINITY, face: f64::INFINITY })
    };
    let to_faces = one_way(b, a);
    Apart { any: to_faces.any.min(one_way(a, b).any), ..to_faces }
}

fn to_edge(p: &P2, from: &P2, to: &P2) -> Apart {
    let edge = to - from;
    let share = if edge.norm_squared() > 0.0 { (p - from).dot(&edge) / edge.norm_squared() } else { 0.0 };
    let any = (p - (from + edge * share.clamp(0.0, 1.0))).norm();
    Apart { any, face: if share > 0.0 && share < 1.0 { any } else { f64::INFINITY } }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::Solid;

    fn block(low: [f64; 3], high: [f64; 3]) -> Lump {
        Lump::new(Solid::block(low.into(), high.into()))
    }

    #[test]
    fn ends_are_drawn_in_to_where_both_pieces_are() {
        let long = block([0.0, 0.0, 0.0], [100.0, 10.0, 8.0]);
        let short = block([12.0, 10.5, 0.0], [70.0, 20.0, 8.0]);
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(100.0, 10.0, 0.0)];
        let [from, to] = facing(&[&long], &[&short], line, Room::even(0.6), 3.0).unwrap();
        assert!((from.x - 12.0).abs() < 2.0 * CLOSE && (to.x - 70.0).abs() < 2.0 * CLOSE, "{from} {to}");
        assert!(facing(&[&long], &[&short], line, Room::even(0.4), 3.0).is_none());
        assert!(facing(&[&long], &[&short], line, Room::even(0.6), 60.0).is_none());
    }

    #[test]
    fn ends_that_are_right_stay_as_they_are() {
        let (one, other) = (block([0.0; 3], [50.0, 10.0, 8.0]), block([0.0, 10.8, 0.0], [50.0, 20.0, 8.0]));
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(50.0, 10.0, 0.0)];
        assert_eq!(facing(&[&one], &[&other], line, Room::even(0.81), 3.0), Some(line));
    }

    #[test]
    fn off_an_edge_of_what_stays_whole_there_may_be_more_room() {
        let whole = block([0.0; 3], [50.0, 10.0, 8.0]);
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(50.0, 10.0, 0.0)];
        let room = Room { faces: 0.85, edges: 1.2 };
        let cut = |y: f64, z: f64| block([0.0, y, z], [50.0, y + 9.0, z + 9.0]);
        let meets = |cut: &Lump| facing(&[&whole], &[cut], line, room, 3.0).is_some();
        assert!(meets(&cut(10.8, 3.0)) && !meets(&cut(11.0, 3.0)));
        assert!(meets(&cut(10.8, 8.8)) && !meets(&cut(10.9, 8.9)));
    }
}
