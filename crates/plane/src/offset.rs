use crate::{Contour, P2, SAME_POINT, Segment, V2, ring_area};

/// Edges that turn by less than this and move by different distances are joined by a step, radians: where their lines cross
/// may be far away.
const NEARLY_STRAIGHT: f64 = 0.5;
/// A sharp corner reaches at most so many times the distance out.
const MOST_REACH: f64 = 6.0;

/// A ring whose edges were moved.
#[derive(Clone, Debug, PartialEq)]
pub struct MovedRing {
    /// Corners, in the order of the ring that was moved.
    pub corners: Vec<P2>,
    /// `edges[k]` is the edge of the ring that was moved which starts at `corners[k]`; of a step, the one after it.
    pub edges: Vec<usize>,
}

/// A line that an edge lies on once it has moved.
#[derive(Clone, Copy)]
struct Line {
    edge: usize,
    start: P2,
    end: P2,
    along: V2,
    by: f64,
}

impl Line {
    fn out(&self) -> V2 {
        V2::new(self.along.y, -self.along.x)
    }
}

/// A counter-clockwise ring with edge `k` moved straight out by `by(k)` mm (inwards where that is negative), corners sharp.
///
/// Edges that come to nothing vanish, as do those that `kept` does not want. Where no edge vanishes, moving all by the
/// opposite distance gives the ring back. `None` where nothing is left, or where the ring would run into itself, as a neck
/// does that is narrower than twice the distance.
pub fn moved_out(ring: &[P2], by: impl Fn(usize) -> f64, kept: impl Fn(usize) -> bool) -> Option<MovedRing> {
    let count = ring.len();
    let line = |edge: usize| {
        let (start, end) = (ring[edge], ring[(edge + 1) % count]);
        Some(Line { edge, start, end, along: (end - start).try_normalize(SAME_POINT)?, by: by(edge) })
    };
    let mut lines: Vec<Line> = (0..count).filter(|k| kept(*k)).filter_map(line).collect();
    loop {
        if lines.len() < 3 {
            return None;
        }
        let joins: Vec<Vec<P2>> =
            (0..lines.len()).map(|k| join(&lines[(k + lines.len() - 1) % lines.len()], &lines[k])).collect();
        let length = |k: usize| {
            let to = joins[(k + 1) % joins.len()].first().zip(joins[k].last()).map(|(to, from)| to - from);
            to.map_or(f64::NEG_INFINITY, |way| way.dot(&lines[k].along))
        };
        let shortest = (0..lines.len()).min_by(|a, b| length(*a).total_cmp(&length(*b)))?;
        if length(shortest) <= SAME_POINT {
            lines.remove(shortest);
            continue;
        }
        let mut moved = MovedRing { corners: Vec::new(), edges: Vec::new() };
        for (corners, line) in joins.iter().zip(&lines) {
            moved.corners.extend(corners);
            moved.edges.extend(corners.iter().map(|_| line.edge));
        }
        let sound = moved.corners.iter().all(|p| p.x.is_finite() && p.y.is_finite());
        return (sound && ring_area(&moved.corners) > 0.0 && !crosses_itself(&moved.corners)).then_some(moved);
    }
}

/// Where two lines meet that follow each other: one corner, or two of a step or of a tip cut off.
fn join(before: &Line, after: &Line) -> Vec<P2> {
    let turn = before.along.perp(&after.along).atan2(before.along.dot(&after.along));
    let (from, to) = (before.end + before.out() * before.by, after.start + after.out() * after.by);
    if turn.abs() < NEARLY_STRAIGHT && (before.by - after.by).abs() > SAME_POINT && before.end == after.start {
        return vec![from, to];
    }
    if turn.abs() < 1e-9 {
        return vec![nalgebra::center(&from, &to)];
    }
    let share = (to - from).perp(&after.along) / before.along.perp(&after.along);
    let most = MOST_REACH * before.by.abs().max(after.by.abs());
    if turn > 0.0 && share > most && before.end == after.start {
        return vec![from + before.along * most, to - after.along * most];
    }
    vec![from + before.along * share]
}

/// Whether edges that are not neighbours cross, touch, or lie on each other.
fn crosses_itself(ring: &[P2]) -> bool {
    let count = ring.len();
    let edge = |k: usize| (ring[k], ring[(k + 1) % count]);
    let side = |p: P2, q: P2, r: P2| (q - p).perp(&(r - p));
    let meet = |(a, b): (P2, P2), (c, d): (P2, P2)| {
        let sides = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
        if sides.iter().all(|s| *s == 0.0) {
            // All on one line: they meet where their stretches along it do.
            let along = |p: P2| (p - a).dot(&(b - a));
            let (low, high) = (along(c).min(along(d)), along(c).max(along(d)));
            return low <= (b - a).norm_squared() && high >= 0.0;
        }
        sides[0] * sides[1] <= 0.0 && sides[2] * sides[3] <= 0.0
    };
    (0..count).any(|k| (k + 2..count).any(|n| (k, n) != (0, count - 1) && meet(edge(k), edge(n))))
}

impl Contour {
    /// The outline moved out by a distance all round, mm (inwards where it is negative), corners sharp: arcs stay arcs about
    /// their centres, and moving it back gives it back. `None` where a segment comes to nothing.
    pub fn moved_out(&self, by: f64) -> Option<Self> {
        let by = by * self.area().signum();
        let pairs: Vec<(P2, Segment)> = self.pairs().collect();
        let count = pairs.len();
        let corner = |k: usize| meeting(&pairs[(k + count - 1) % count], &pairs[k], by);
        let corners = (0..count).map(corner).collect::<Option<Vec<P2>>>()?;
        let mut segments = Vec::new();
        for (k, (from, segment)) in pairs.iter().enumerate() {
            let (start, to) = (corners[k], corners[(k + 1) % count]);
            segments.push(match *segment {
                Segment::Line { to: old } => {
                    if (to - start).dot(&(old - from)) <= 0.0 {
                        return None;
                    }
                    Segment::Line { to }
                }
                Segment::Arc { centre, sweep, .. } => {
                    let run = if count == 1 { sweep } else { run(start - centre, to - centre, sweep)? };
                    Segment::Arc { to, centre, sweep: run }
                }
            });
        }
        Some(Self::new(*corners.first()?, segments))
    }
}

/// The sweep between two arms that is nearest to the one there was; `None` if it would run the other way.
fn run(from: V2, to: V2, before: f64) -> Option<f64> {
    let turn = from.perp(&to).atan2(from.dot(&to));
    let whole = ((before - turn) / std::f64::consts::TAU).round() * std::f64::consts::TAU;
    Some(turn + whole).filter(|s| s * before > 0.0)
}

/// Direction of a segment at a share of its way, and the radius by which its arc moves out, where it is one.
fn heading((from, segment): &(P2, Segment), at_end: bool) -> V2 {
    match *segment {
        Segment::Line { to } => to - from,
        Segment::Arc { to, centre, sweep } => {
            let arm = if at_end { to - centre } else { from - centre };
            V2::new(-arm.y, arm.x) * sweep.signum()
        }
    }
    .try_normalize(0.0)
    .unwrap_or_else(V2::zeros)
}

/// Where the moved segments meet that met at the end of the first.
fn meeting(before: &(P2, Segment), after: &(P2, Segment), by: f64) -> Option<P2> {
    let corner = after.0;
    let (into, away) = (heading(before, true), heading(after, false));
    let out = |v: V2| V2::new(v.y, -v.x);
    let (one, other) = (Moved::new(before, by)?, Moved::new(after, by)?);
    let bisector = out(into) + out(away);
    let near = corner + bisector * (2.0 * by / bisector.norm_squared().max(0.05));
    if into.perp(&away).abs() < 1e-9 {
        return (into.dot(&away) > 0.0).then(|| corner + out(into) * by);
    }
    let found = one.crossings(&other);
    found.into_iter().min_by(|a, b| (a - near).norm().total_cmp(&(b - near).norm()))
}

/// What a moved segment lies on.
enum Moved {
    Line { at: P2, along: V2 },
    Circle { centre: P2, radius: f64 },
}

impl Moved {
    fn new(pair: &(P2, Segment), by: f64) -> Option<Self> {
        match pair.1 {
            Segment::Line { .. } => {
                let along = heading(pair, false);
                Some(Self::Line { at: pair.0 + V2::new(along.y, -along.x) * by, along })
            }
            Segment::Arc { centre, sweep, .. } => {
                let radius = (pair.0 - centre).norm() + by * sweep.signum();
                (radius > SAME_POINT).then_some(Self::Circle { centre, radius })
            }
        }
    }

    fn crossings(&self, other: &Self) -> Vec<P2> {
        match (self, other) {
            (Self::Line { at, along }, Self::Line { at: p, along: v }) => {
                let across = along.perp(v);
                if across == 0.0 { Vec::new() } else { vec![at + along * ((p - at).perp(v) / across)] }
            }
            (Self::Line { at, along }, Self::Circle { centre, radius })
            | (Self::Circle { centre, radius }, Self::Line { at, along }) => {
                let foot = at + along * (centre - at).dot(along);
                let half = (radius * radius - (foot - centre).norm_squared()).max(0.0).sqrt();
                vec![foot - along * half, foot + along * half]
            }
            (Self::Circle { centre: a, radius: r }, Self::Circle { centre: b, radius: s }) => {
                let way = b - a;
                let apart = way.norm();
                if apart < SAME_POINT {
                    return Vec::new();
                }
                let along = (apart * apart + r * r - s * s) / (2.0 * apart);
                let half = (r * r - along * along).max(0.0).sqrt();
                let (unit, foot) = (way / apart, a + way * (along / apart));
                let aside = V2::new(-unit.y, unit.x) * half;
                vec![foot - aside, foot + aside]
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::regular_polygon;

    fn all(_: usize) -> bool {
        true
    }

    fn ring(corners: &[(f64, f64)]) -> Vec<P2> {
        corners.iter().map(|&(x, y)| P2::new(x, y)).collect()
    }

    /// Closed forms: (80 + 2 d) by (50 + 2 d), and a square with one side moved.
    #[test]
    fn a_rectangle_grows_by_the_distance_on_each_side() {
        let rectangle = ring(&[(0.0, 0.0), (80.0, 0.0), (80.0, 50.0), (0.0, 50.0)]);
        for by in [3.0, -3.0] {
            let moved = moved_out(&rectangle, |_| by, all).unwrap();
            assert!((ring_area(&moved.corners) - (80.0 + 2.0 * by) * (50.0 + 2.0 * by)).abs() < 1e-9);
        }
        let right = moved_out(&rectangle, |k| if k == 1 { 2.0 } else { 0.0 }, all).unwrap();
        assert!((ring_area(&right.corners) - 82.0 * 50.0).abs() < 1e-9);
    }

    /// Closed forms: a circle of radius 20 and a round-headed door, whose parts are a rectangle and half a circle.
    #[test]
    fn arcs_stay_arcs_about_their_centres() {
        let pi = std::f64::consts::PI;
        let centre = P2::new(5.0, 5.0);
        let half = |x: f64| Segment::Arc { to: P2::new(x, 5.0), centre, sweep: pi };
        let circle = Contour::new(P2::new(25.0, 5.0), vec![half(-15.0), half(25.0)]);
        for by in [1.5, -1.5] {
            let moved = circle.moved_out(by).unwrap();
            assert!((moved.area() - pi * (20.0 + by) * (20.0 + by)).abs() < 1e-9, "{by}");
            let door = Contour::round_headed(P2::origin(), P2::new(40.0, 70.0)).unwrap();
            let area = (40.0 + 2.0 * by) * (50.0 + by) + pi * (20.0 + by) * (20.0 + by) / 2.0;
            assert!((door.moved_out(by).unwrap().area() - area).abs() < 1e-9, "{by}");
            // Run through the other way it is still moved away from what lies within.
            let mirrored = door.mapped(true, |p| P2::new(-p.x, p.y));
            assert!((mirrored.moved_out(by).unwrap().area() + area).abs() < 1e-9, "{by}");
        }
        assert!(circle.moved_out(-20.0).is_none());
    }

    /// A pointed arch, a segment of a circle and a ring that is not convex, there and back.
    #[test]
    fn what_is_moved_in_and_out_is_as_before() {
        let (a, b, top) = (P2::origin(), P2::new(30.0, 0.0), P2::new(15.0, 15.0 * 3f64.sqrt()));
        let third = std::f64::consts::FRAC_PI_3;
        let arch = Contour::new(
            a,
            vec![
                Segment::Line { to: b },
                Segment::Arc { to: top, centre: a, sweep: third },
                Segment::Arc { to: a, centre: b, sweep: third },
            ],
        );
        for by in [2.0, -2.0] {
            let back = arch.moved_out(by).unwrap().moved_out(-by).unwrap();
            for ((p, _), (q, _)) in arch.pairs().zip(back.pairs()) {
                assert!((p - q).norm() < 1e-9, "{p} {q}");
            }
        }
        let angle = ring(&[(0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (20.0, 20.0), (20.0, 60.0), (0.0, 60.0)]);
        let there = moved_out(&angle, |_| -1.0, all).unwrap();
        let back = moved_out(&there.corners, |_| 1.0, all).unwrap();
        assert!(angle.iter().zip(&back.corners).all(|(p, q)| (p - q).norm() < 1e-9));
    }

    /// An edge of 0.3 mm between two of a square's sides vanishes when they move in by 1 mm; a neck does not open.
    #[test]
    fn short_edges_vanish_and_necks_are_refused() {
        let cut = ring(&[(0.0, 0.0), (20.0, 0.0), (20.0, 19.8), (19.8, 20.0), (0.0, 20.0)]);
        let moved = moved_out(&cut, |_| -1.0, all).unwrap();
        assert_eq!(moved.edges, [0, 1, 3, 4]);
        let waist = [(0., 0.), (30., 0.), (30., 10.), (16., 10.), (16., 12.), (30., 12.), (30., 22.), (0., 22.)];
        let mut necked = ring(&waist);
        necked.extend(ring(&[(0.0, 12.0), (14.5, 12.0), (14.5, 10.0), (0.0, 10.0)]));
        assert!(moved_out(&necked, |_| -1.0, all).is_none());
        let polygon: Vec<P2> = regular_polygon(12, 5.0);
        assert!(moved_out(&polygon, |_| -6.0, all).is_none());
    }
}
