//! Where along a line two pieces really face each other, measured in slices across it.

use super::lump::Lump;
use gable_plane::{P2, P3, Solid, V3};
use smallvec::SmallVec;
use std::cell::RefCell;

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
    let ruler = Ruler::new(line[0], along);
    let near = pairs.filter_map(|pair| ruler.near(pair, length, room)).collect();
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

/// A line to measure along, and two directions across it.
struct Ruler {
    from: P3,
    along: V3,
    x: V3,
    y: V3,
}

impl Ruler {
    fn new(from: P3, along: V3) -> Self {
        let other = if along.z.abs() < 0.9 { V3::z() } else { V3::x() };
        let x = along.cross(&other).normalize();
        Self { from, along, x, y: along.cross(&x) }
    }

    fn seen<'a>(&'a self, lump: &'a Lump) -> Seen<'a> {
        let places: SmallVec<[f64; 32]> = lump.solid.corners().iter().map(|p| self.along.dot(&p.coords)).collect();
        let reach = places.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |r, p| (r.0.min(*p), r.1.max(*p)));
        Seen { ruler: self, solid: &lump.solid, places, reach }
    }

    /// The stretch within the first `length` mm in which two convex lumps are near.
    fn near(&self, pair: [&Lump; 2], length: f64, room: Room) -> Option<Span> {
        let pair = Pair { seen: pair.map(|lump| self.seen(lump)), slices: RefCell::default() };
        let start = self.along.dot(&self.from.coords);
        let [one, other] = [&pair.seen[0].reach, &pair.seen[1].reach];
        let low = (one.0.max(other.0) - start).max(0.0);
        let high = (one.1.min(other.1) - start).min(length);
        if high - low < 2.0 * INSIDE {
            return None;
        }
        let (first, last) = (low + INSIDE, high - INSIDE);
        let at = |at: f64| (at, pair.apart_at(at));
        let near = |place: &Place| place.1.is_some_and(|apart| room.holds(&apart));
        let known = [first, last].map(at);
        let ends = [near(&known[0]), near(&known[1])];
        if ends == [true, true] {
            return Some((low, high));
        }
        let most = room.faces.max(room.edges);
        let within = match ends {
            [true, _] => known[0],
            [_, true] => known[1],
            _ => at(nearest(known, at, near, most)?),
        };
        let from = if ends[0] { low } else { turn(known[0], within, at, near, most) };
        let to = if ends[1] { high } else { turn(known[1], within, at, near, most) };
        Some((from, to))
    }
}

/// A place along a line, mm, and how far two lumps are apart in the slice there; nothing when it misses one of them.
type Place = (f64, Option<Apart>);

/// A place where two lumps are near, looked for where their distance, a convex function, is least; none as soon as its
/// slopes show that it stays above `most`.
fn nearest(
    [mut low, mut high]: [Place; 2],
    at: impl Fn(f64) -> Place,
    near: impl Fn(&Place) -> bool,
    most: f64,
) -> Option<f64> {
    let value = |place: &Place| place.1.map_or(f64::INFINITY, |apart| apart.any);
    while high.0 - low.0 > CLOSE {
        let [one, other] = [0.4, 0.6].map(|share| at(low.0 + (high.0 - low.0) * share));
        if let Some(found) = [&one, &other].into_iter().find(|place| near(place)) {
            return Some(found.0);
        }
        if stays_above([&low, &one, &other, &high].map(|place| (place.0, value(place))), most) {
            return None;
        }
        if value(&one) < value(&other) { high = other } else { low = one }
    }
    None
}

/// Whether a convex function with these values, at places in order, is above a limit everywhere between the first and the
/// last: on each stretch it is above the lines through the points on either side of it.
fn stays_above(points: [(f64, f64); 4], limit: f64) -> bool {
    if points.iter().any(|p| !p.1.is_finite()) {
        return false;
    }
    let slope = |k: usize| (points[k + 1].1 - points[k].1) / (points[k + 1].0 - points[k].0);
    let [(x0, _), (x1, y1), (x2, y2), (x3, _)] = points;
    let (left, across, right) = (slope(0), slope(1), slope(2));
    let middle = {
        // Where the lines from both sides cross.
        let at = if right > left { (y1 - left * x1 - y2 + right * x2) / (right - left) } else { x1 };
        y1 + left * (at.clamp(x1, x2) - x1)
    };
    [y1, y2, middle, y1 + across * (x0 - x1), y1 + across * (x3 - x1)].into_iter().all(|least| least > limit + SAME)
}

/// Where two lumps begin to be near on the way from a place where they are not to one where they are, by halving the way.
///
/// Their distance often grows evenly: then where it comes to `most` is known at once, and a step to either side of that
/// tells most of the halves without looking.
fn turn(out: Place, into: Place, at: impl Fn(f64) -> Place, near: impl Fn(&Place) -> bool, most: f64) -> f64 {
    let value = |place: &Place| place.1.map_or(f64::INFINITY, |apart| apart.any);
    let way = (into.0 - out.0).signum();
    // Places that have been looked at: the last where they are not near, the first where they are.
    let (mut far, mut close) = (out.0, into.0);
    let share = (value(&out) - most) / (value(&out) - value(&into));
    if share > 0.0 && share < 1.0 && (close - far).abs() > 8.0 * CLOSE {
        let guess = far + (close - far) * share;
        for place in [guess - way * CLOSE / 4.0, guess + way * CLOSE / 4.0] {
            if (place - far) * way > 0.0 && (close - place) * way > 0.0 {
                *(if near(&at(place)) { &mut close } else { &mut far }) = place;
            }
        }
    }
    let (mut out, mut into) = (out.0, into.0);
    while (into - out).abs() > CLOSE {
        let middle = f64::midpoint(out, into);
        let known = (middle - close) * way >= 0.0 || (far - middle) * way >= 0.0;
        let holds = if known { (middle - close) * way >= 0.0 } else { near(&at(middle)) };
        if holds { into = middle } else { out = middle }
    }
    into
}

/// Distance, mm, of two pieces in the slice across the middle of a line; infinite when it misses one of them.
pub(super) fn apart(a: &[Lump], b: &[Lump], line: [P3; 2]) -> f64 {
    let Some(along) = (line[1] - line[0]).try_normalize(SAME) else { return f64::INFINITY };
    let ruler = Ruler::new(nalgebra::center(&line[0], &line[1]), along);
    let section = |lump: &Lump| {
        let mut edges = Section::new();
        ruler.seen(lump).section(0.0, &mut edges).then_some(edges)
    };
    let others: Vec<Section> = b.iter().filter_map(section).collect();
    let nearest = |p: Section| others.iter().map(|q| distance(&p, q).any).fold(f64::INFINITY, f64::min);
    a.iter().filter_map(section).map(nearest).fold(f64::INFINITY, f64::min)
}

/// A lump as a ruler sees it.
struct Seen<'a> {
    ruler: &'a Ruler,
    solid: &'a Solid,
    /// Per corner how far along the direction of the ruler it is, mm.
    places: SmallVec<[f64; 32]>,
    /// The least and the greatest of these.
    reach: (f64, f64),
}

/// A slice of a lump: the edges of a convex area, each with a corner of its own first.
type Section = Vec<[P2; 2]>;

impl Seen<'_> {
    /// Puts the slice at a place across the ruler into a list; false when it misses the lump or only touches it.
    fn section(&self, at: f64, edges: &mut Section) -> bool {
        edges.clear();
        let Ruler { from, along, x, y } = self.ruler;
        let middle = from + along * at;
        let here = along.dot(&middle.coords);
        if here <= self.reach.0 || here >= self.reach.1 {
            return false;
        }
        let corners = self.solid.corners();
        for ring in self.solid.rings() {
            // The ring of a face comes up through the slice once, and goes down once.
            let (mut up, mut down) = (None, None);
            for (k, p) in ring.iter().enumerate() {
                let [p, q] = [p, ring.get(k + 1).unwrap_or(&ring[0])].map(|corner| *corner as usize);
                let (before, after) = (self.places[p] - here, self.places[q] - here);
                if (before > 0.0) != (after > 0.0) {
                    let (p, q) = (corners[p], corners[q]);
                    let end = p + (q - p) * (before / (before - after)) - middle;
                    *(if after > 0.0 { &mut up } else { &mut down }) = Some(P2::new(end.dot(x), end.dot(y)));
                }
            }
            edges.extend(up.zip(down).map(|(up, down)| [up, down]));
        }
        true
    }
}

/// Two lumps on one ruler, with lists for their slices.
struct Pair<'a> {
    seen: [Seen<'a>; 2],
    slices: RefCell<[Section; 2]>,
}

impl Pair<'_> {
    /// How far apart they are in the slice at a place; nothing when it misses one of them.
    fn apart_at(&self, at: f64) -> Option<Apart> {
        let [a, b] = &mut *self.slices.borrow_mut();
        (self.seen[0].section(at, a) && self.seen[1].section(at, b)).then(|| distance(a, b))
    }
}

/// Distance of two convex areas; nothing is inside the other.
fn distance(a: &[[P2; 2]], b: &[[P2; 2]]) -> Apart {
    let to_faces = to_edges(b, a);
    Apart { any: to_faces.any.min(to_edges(a, b).any), ..to_faces }
}

/// How far the corners of one area are from the edges of another.
fn to_edges(area: &[[P2; 2]], edges: &[[P2; 2]]) -> Apart {
    let (mut any, mut face) = (f64::INFINITY, f64::INFINITY);
    for ends in edges {
        let edge = ends[1] - ends[0];
        let length = edge.norm_squared();
        for [p, _] in area {
            let share = if length > 0.0 { (p - ends[0]).dot(&edge) / length } else { 0.0 };
            let far = (p - (ends[0] + edge * share.clamp(0.0, 1.0))).norm_squared();
            any = any.min(far);
            if share > 0.0 && share < 1.0 {
                face = face.min(far);
            }
        }
    }
    Apart { any: any.sqrt(), face: face.sqrt() }
}

#[cfg(test)]
mod tests;
