//! Where along a line two pieces really face each other, measured in slices across it.

use super::lump::Lump;
use gable_plane::{P2, P3, V3};

/// How far from an end a slice is taken that stands for it, mm.
const INSIDE: f64 = 0.01;
/// Stretches that are no further from each other are one, mm: lumps of one piece lie side by side.
const MEETS: f64 = 0.05;
/// How closely an end is found, mm.
const CLOSE: f64 = 0.02;
/// Distances nearer than this are the same, mm.
const SAME: f64 = 1e-6;

/// A stretch of a line, as distances from its start, mm.
pub(super) type Span = (f64, f64);

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

/// The stretches of a line along which two pieces are as near as `room` says, none shorter than `least` mm. `b` is cut to
/// `a`.
///
/// The distance of two convex solids in the slices across a line is a convex function of the place along it: what lies in
/// the same slice of both is a convex set, and so are the differences of its points. So each pair of lumps is near in one
/// stretch, and a stretch whose ends are near is near all along.
pub(super) fn facing(a: &[&Lump], b: &[&Lump], line: [P3; 2], room: Room, least: f64) -> Vec<[P3; 2]> {
    let length = (line[1] - line[0]).norm();
    if length < least {
        return Vec::new();
    }
    let along = (line[1] - line[0]) / length;
    let most = room.faces.max(room.edges) + INSIDE;
    let pairs = a.iter().flat_map(|p| b.iter().map(move |q| [*p, *q])).filter(|[p, q]| p.near(q, most));
    let ruler = Ruler { from: line[0], along, length };
    let near = pairs.filter_map(|pair| ruler.near(&pair, room)).collect();
    let long = joined(near).into_iter().filter(|s| s.1 - s.0 >= least);
    long.map(|s| [line[0] + along * s.0, line[0] + along * s.1]).collect()
}

/// Stretches as distances along a line, those that meet made one.
pub(super) fn joined(mut spans: Vec<Span>) -> Vec<Span> {
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    spans.into_iter().fold(Vec::new(), |mut joined: Vec<Span>, span| {
        match joined.last_mut() {
            Some(last) if span.0 - last.1 < MEETS => last.1 = last.1.max(span.1),
            _ => joined.push(span),
        }
        joined
    })
}

/// A line to measure along.
struct Ruler {
    from: P3,
    along: V3,
    length: f64,
}

impl Ruler {
    fn slice(&self, at: f64) -> Slice {
        Slice::new(self.from + self.along * at, self.along)
    }

    /// The stretch in which two convex lumps are near.
    fn near(&self, pair: &[&Lump; 2], room: Room) -> Option<Span> {
        let start = self.along.dot(&self.from.coords);
        let reach = pair.map(|lump| lump.reach(&self.along));
        let low = (reach[0].0.max(reach[1].0) - start).max(0.0);
        let high = (reach[0].1.min(reach[1].1) - start).min(self.length);
        if high - low < 2.0 * INSIDE {
            return None;
        }
        let (first, last) = (low + INSIDE, high - INSIDE);
        let apart = |at: f64| self.slice(at).apart(pair);
        let holds = |at: f64| apart(at).is_some_and(|apart| room.holds(&apart));
        let ends = [holds(first), holds(last)];
        if ends == [true, true] {
            return Some((low, high));
        }
        let within = match ends {
            [true, _] => first,
            [_, true] => last,
            _ => nearest(first, last, |at| apart(at).map_or(f64::INFINITY, |apart| apart.any), holds)?,
        };
        let from = if ends[0] { low } else { turn(first, within, holds) };
        let to = if ends[1] { high } else { turn(last, within, holds) };
        Some((from, to))
    }
}

/// A place where something holds, looked for where a convex function is least.
fn nearest(low: f64, high: f64, apart: impl Fn(f64) -> f64, holds: impl Fn(f64) -> bool) -> Option<f64> {
    let (mut low, mut high) = (low, high);
    while high - low > CLOSE {
        let (one, other) = (low + (high - low) * 0.4, low + (high - low) * 0.6);
        if let Some(found) = [one, other].into_iter().find(|&at| holds(at)) {
            return Some(found);
        }
        if apart(one) < apart(other) { high = other } else { low = one }
    }
    None
}

/// Where something begins to hold on the way from a place where it does not to one where it does.
fn turn(mut out: f64, mut into: f64, holds: impl Fn(f64) -> bool) -> f64 {
    while (into - out).abs() > CLOSE {
        let middle = f64::midpoint(out, into);
        if holds(middle) { into = middle } else { out = middle }
    }
    into
}

/// Distance, mm, of two pieces in the slice across the middle of a line; infinite when it misses one of them.
pub(super) fn apart(a: &[Lump], b: &[Lump], line: [P3; 2]) -> f64 {
    let Some(along) = (line[1] - line[0]).try_normalize(SAME) else { return f64::INFINITY };
    let slice = Slice::new(nalgebra::center(&line[0], &line[1]), along);
    let pairs = a.iter().flat_map(|p| b.iter().map(move |q| [p, q]));
    pairs.filter_map(|pair| slice.apart(&pair)).reduce(Apart::nearer).map_or(f64::INFINITY, |apart| apart.any)
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
        let [from, to] = facing(&[&long], &[&short], line, Room::even(0.6), 3.0)[0];
        assert!((from.x - 12.0).abs() < 2.0 * CLOSE && (to.x - 70.0).abs() < 2.0 * CLOSE, "{from} {to}");
        assert!(facing(&[&long], &[&short], line, Room::even(0.4), 3.0).is_empty());
        assert!(facing(&[&long], &[&short], line, Room::even(0.6), 60.0).is_empty());
    }

    #[test]
    fn ends_that_are_right_stay_as_they_are() {
        let (one, other) = (block([0.0; 3], [50.0, 10.0, 8.0]), block([0.0, 10.8, 0.0], [50.0, 20.0, 8.0]));
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(50.0, 10.0, 0.0)];
        assert_eq!(facing(&[&one], &[&other], line, Room::even(0.81), 3.0), vec![line]);
    }

    #[test]
    fn pieces_that_meet_twice_along_a_line_have_two_stretches() {
        let wall = block([0.0; 3], [100.0, 10.0, 8.0]);
        let legs = [[5.0, 30.0], [60.0, 90.0]].map(|[from, to]| block([from, 10.8, 0.0], [to, 20.0, 8.0]));
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(100.0, 10.0, 0.0)];
        let found = facing(&[&wall], &[&legs[0], &legs[1]], line, Room::even(0.85), 3.0);
        let ends: Vec<[f64; 2]> = found.iter().map(|s| s.map(|p| (p.x * 10.0).round() / 10.0)).collect();
        assert_eq!(ends, [[5.0, 30.0], [60.0, 90.0]]);
    }

    #[test]
    fn a_stretch_in_the_middle_is_found() {
        let wall = block([0.0; 3], [100.0, 10.0, 8.0]);
        // Its lower face bends: one gap away at x = 37, more to both sides.
        let points = [[0.0, 15.0], [37.0, 10.8], [100.0, 14.0], [100.0, 20.0], [0.0, 20.0]];
        let bent =
            Lump::new(Solid::prism(&points.map(|[x, y]| P3::new(x, y, 0.0)), &points.map(|[x, y]| P3::new(x, y, 8.0))));
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(100.0, 10.0, 0.0)];
        let [from, to] = facing(&[&wall], &[&bent], line, Room::even(1.0), 3.0)[0];
        // 0.2 mm more at 4.2 mm in 37 and 3.2 mm in 63.
        assert!((from.x - (37.0 - 0.2 * 37.0 / 4.2)).abs() < 0.05, "{from}");
        assert!((to.x - (37.0 + 0.2 * 63.0 / 3.2)).abs() < 0.05, "{to}");
    }

    #[test]
    fn off_an_edge_of_what_stays_whole_there_may_be_more_room() {
        let whole = block([0.0; 3], [50.0, 10.0, 8.0]);
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(50.0, 10.0, 0.0)];
        let room = Room { faces: 0.85, edges: 1.2 };
        let cut = |y: f64, z: f64| block([0.0, y, z], [50.0, y + 9.0, z + 9.0]);
        let meets = |cut: &Lump| !facing(&[&whole], &[cut], line, room, 3.0).is_empty();
        assert!(meets(&cut(10.8, 3.0)) && !meets(&cut(11.0, 3.0)));
        assert!(meets(&cut(10.8, 8.8)) && !meets(&cut(10.9, 8.9)));
    }
}
