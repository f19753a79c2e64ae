//! Where along a line two pieces really face each other, measured in slices across it.

use super::lump::Lump;
use gable_plane::{P2, P3, V3};

/// How far from an end a slice is taken that stands for it, mm.
const INSIDE: f64 = 0.01;
/// Steps in which an end is drawn in, mm.
const STEP: f64 = 0.25;
/// How closely an end is found, mm.
const CLOSE: f64 = 0.02;

/// The line with its ends drawn in to where the pieces are at most `room` mm apart; none when less than `least` mm is left.
pub(super) fn facing(a: &[Lump], b: &[Lump], line: [P3; 2], room: f64, least: f64) -> Option<[P3; 2]> {
    let length = (line[1] - line[0]).norm();
    if length < least {
        return None;
    }
    let along = (line[1] - line[0]) / length;
    let near = |one: &'_ Lump, other: &'_ Lump| one.near(other, room + INSIDE);
    let pairs: Vec<[&Lump; 2]> =
        a.iter().flat_map(|p| b.iter().map(move |q| [p, q])).filter(|[p, q]| near(p, q)).collect();
    let faces = |s: f64| {
        let slice = Slice::new(line[0] + along * s, along);
        pairs.iter().any(|pair| slice.apart(pair).is_some_and(|d| d <= room))
    };
    let low = first(length, faces)?;
    let high = length - first(length - low, |s| faces(length - s))?;
    (high - low >= least).then(|| [line[0] + along * low, line[0] + along * high])
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

    /// Distance of two lumps in this plane, mm; none when the plane misses one of them.
    fn apart(&self, [a, b]: &[&Lump; 2]) -> Option<f64> {
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
fn distance(a: &[P2], b: &[P2]) -> f64 {
    let one_way = |points: &[P2], edges: &[P2]| {
        let edges = edges.chunks_exact(2).map(|e| (e[0], e[1]));
        edges.flat_map(|(p, q)| points.iter().map(move |c| to_edge(c, &p, &q))).fold(f64::INFINITY, f64::min)
    };
    one_way(a, b).min(one_way(b, a))
}

fn to_edge(p: &P2, from: &P2, to: &P2) -> f64 {
    let edge = to - from;
    let share = if edge.norm_squared() > 0.0 { (p - from).dot(&edge) / edge.norm_squared() } else { 0.0 };
    (p - (from + edge * share.clamp(0.0, 1.0))).norm()
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::Solid;

    fn block(low: [f64; 3], high: [f64; 3]) -> Vec<Lump> {
        vec![Lump::new(Solid::block(low.into(), high.into()))]
    }

    #[test]
    fn ends_are_drawn_in_to_where_both_pieces_are() {
        let long = block([0.0, 0.0, 0.0], [100.0, 10.0, 8.0]);
        let short = block([12.0, 10.5, 0.0], [70.0, 20.0, 8.0]);
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(100.0, 10.0, 0.0)];
        let [from, to] = facing(&long, &short, line, 0.6, 3.0).unwrap();
        assert!((from.x - 12.0).abs() < 2.0 * CLOSE && (to.x - 70.0).abs() < 2.0 * CLOSE, "{from} {to}");
        assert!(facing(&long, &short, line, 0.4, 3.0).is_none());
        assert!(facing(&long, &short, line, 0.6, 60.0).is_none());
    }

    #[test]
    fn ends_that_are_right_stay_as_they_are() {
        let (one, other) = (block([0.0; 3], [50.0, 10.0, 8.0]), block([0.0, 10.8, 0.0], [50.0, 20.0, 8.0]));
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(50.0, 10.0, 0.0)];
        assert_eq!(facing(&one, &other, line, 0.81, 3.0), Some(line));
    }
}
