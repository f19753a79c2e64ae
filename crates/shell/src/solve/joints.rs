//! Joints from the causes of the edges.

use super::draft::{Draft, JointDraft};
use super::plate::{Cause, Cut, Plate};
use super::posts::Post;
use super::ring::Meeting;
use super::roof::Roof;
use crate::{JointKind, Tier, WedgeSide};
use gable_plane::{HalfSpace, P2, P3};

/// Shorter contacts are no joints, mm.
pub(super) const SHORTEST_JOINT: f64 = 0.5;
/// What sticks out by less is flush, mm.
const FLUSH: f64 = 0.01;
/// A gap that is wider than the icing gap by less than this is closed, mm: the same allowance as for contact.
const CLOSED: f64 = 0.05;

/// Where the drafts of a part are, by what they stand for.
#[derive(Default)]
pub(super) struct Places {
    /// The plate that walls and posts stand on, or that lies between them.
    pub(super) floor: Option<usize>,
    /// All plates of the floor, from the ground.
    pub(super) layers: Vec<usize>,
    pub(super) posts: Vec<Post>,
    /// Per side.
    pub(super) walls: Vec<Option<usize>>,
    /// Per slope.
    pub(super) slopes: Vec<Option<usize>>,
    /// Per edge of the lid.
    pub(super) parapet: Vec<Option<usize>>,
}

/// Which side a joint is open on, from its widths inside and outside.
pub(super) fn wedge(outside: f64, inside: f64, gap: f64) -> (WedgeSide, f64) {
    let open = |width: f64| width > gap + CLOSED;
    let side = match (open(outside), open(inside)) {
        (false, false) => WedgeSide::Closed,
        (true, false) => WedgeSide::Outside,
        (false, true) => WedgeSide::Inside,
        (true, true) => WedgeSide::Both,
    };
    (side, outside.max(inside))
}

fn length(line: &[P3; 2]) -> f64 {
    (line[1] - line[0]).norm()
}

/// Joints at the corners of a ring of walls or parapet strips. `places` gives the draft of each side.
pub(super) fn corners(
    drafts: &[Draft],
    places: &[Option<usize>],
    meetings: &[Meeting],
    gap: f64,
) -> Vec<(usize, JointDraft)> {
    let count = meetings.len();
    let mut found = Vec::new();
    for (k, meeting) in meetings.iter().enumerate() {
        let (before, after) = ((k + count - 1) % count, k);
        let (first, second) = match *meeting {
            Meeting::Alone => continue,
            Meeting::Lap { through, cut } => (through, cut),
            Meeting::Mitre(_) => (before, after),
        };
        let (Some(a), Some(b)) = (places[first], places[second]) else { continue };
        let ends = |own: usize, other: usize| {
            let draft = &drafts[own];
            let is_end = |c: Cause| c == Cause::Corner(k) || c == Cause::WallPlane(other);
            (0..draft.causes.len()).filter(|&e| is_end(draft.causes[e])).map(|e| (own, e)).collect::<Vec<_>>()
        };
        let edges: Vec<_> = ends(a, second).into_iter().chain(ends(b, first)).collect();
        let Some(line) = corner_line(drafts, &edges, [a, b], *meeting) else { continue };
        let (wedge, halved) = corner_wedge(drafts, &edges, [a, b], *meeting, gap);
        found.push((
            k,
            JointDraft {
                kind: JointKind::Corner,
                first: Some(a),
                second: b,
                edges,
                line,
                gap,
                halved,
                wedge,
                icing: vec![],
            },
        ));
    }
    found
}

/// The upright line over the part of the corner where both plates stand.
fn corner_line(drafts: &[Draft], edges: &[(usize, usize)], [a, b]: [usize; 2], meeting: Meeting) -> Option<[P3; 2]> {
    // Beside a notch an end has several edges: the longest one is where the two stand side by side.
    let longest = |piece: usize| {
        let own = edges.iter().filter(|e| e.0 == piece).copied();
        own.max_by(|&(d, p), &(_, q)| length(&drafts[d].edge_in_part(p)).total_cmp(&length(&drafts[d].edge_in_part(q))))
    };
    let (end_a, end_b) = (longest(a)?.1, longest(b)?.1);
    let span = |[p, q]: [P3; 2]| (p.z.min(q.z), p.z.max(q.z));
    let (a_span, b_span) = (span(drafts[a].edge_in_part(end_a)), span(drafts[b].edge_in_part(end_b)));
    let (host, guest) = (&drafts[a].plate, &drafts[b].plate);
    // At a sharp corner the inner edge of the one stands against the face of the other, whose top may slope down
    // from its own end to there.
    let against_face = matches!(meeting, Meeting::Lap { .. }) && host.is_sharp_to(guest);
    let touching = host.frame.flat(drafts[b].back_edge_in_part(end_b)[0]);
    let there = if against_face { host.top_at(touching.x) } else { f64::INFINITY };
    let (low, high) = (a_span.0.max(b_span.0), a_span.1.min(b_span.1).min(there));
    let foot = edges.iter().find(|e| e.0 == a).map(|&(d, e)| drafts[d].edge_in_part(e)[0])?;
    (high - low > SHORTEST_JOINT).then(|| [P3::new(foot.x, foot.y, low), P3::new(foot.x, foot.y, high)])
}

/// How far the corner is open outside and inside, and whether both ends are alike.
fn corner_wedge(
    drafts: &[Draft],
    edges: &[(usize, usize)],
    [a, b]: [usize; 2],
    meeting: Meeting,
    gap: f64,
) -> ((WedgeSide, f64), bool) {
    let of = |piece: usize| edges.iter().find(|e| e.0 == piece).copied();
    let (Some((a, ka)), Some((b, kb))) = (of(a), of(b)) else { return ((WedgeSide::Closed, gap), false) };
    let point = |p: P3| P3::new(p.x, p.y, 0.0);
    let (outside, inside) = (point(drafts[b].edge_in_part(kb)[0]), point(drafts[b].back_edge_in_part(kb)[0]));
    if let Meeting::Mitre(cut) = meeting {
        let widths = [drafts[a].edge_in_part(ka)[0], drafts[a].back_edge_in_part(ka)[0]].map(point);
        let found = wedge((outside - widths[0]).norm(), (inside - widths[1]).norm(), gap);
        return if cut == Cut::Bevel { ((WedgeSide::Closed, gap), true) } else { (found, true) };
    }
    let host = &drafts[a].plate;
    let Some(end) = host.edges_of(drafts[a].causes[ka]).next().map(|e| host.side_of(e)) else {
        return ((WedgeSide::Closed, gap), false);
    };
    let slab = host.frame.slab(host.thickness);
    let off = |p: P3| slab.iter().map(|h| h.excess(&p)).fold(0.0, f64::max).hypot(end.excess(&p).max(0.0));
    (wedge(off(outside), off(inside), gap), false)
}

impl Places {
    /// Walls and strips of posts, each with its side.
    fn upright(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        let walls = self.walls.iter().enumerate().filter_map(|(side, wall)| Some((side, (*wall)?)));
        walls.chain(self.posts.iter().flat_map(|post| post.strips.iter().map(|&strip| (post.side, strip))))
    }
}

/// Joints along the tops of walls and posts: with the slope or lid that lies on each top edge.
pub(super) fn tops(drafts: &[Draft], places: &Places, roof: &Roof, gap: f64) -> Vec<(usize, usize, JointDraft)> {
    let mut found = Vec::new();
    for (side, w) in places.upright() {
        for (s, slope) in roof.slopes.iter().enumerate() {
            let Some(cover) = places.slopes[s] else { continue };
            let raised = slope.plane.moved(gap);
            for e in drafts[w].edges_of(Cause::Slope(s)) {
                let (outer, inner) = (drafts[w].edge_in_part(e), drafts[w].back_edge_in_part(e));
                let below = |points: [P3; 2]| -raised.excess(&points[0]).max(raised.excess(&points[1]));
                let touching = if below(inner) < below(outer) - FLUSH { inner } else { outer };
                let cover_plate = &drafts[cover].plate;
                let edges_of_cover = (0..cover_plate.count()).map(|k| cover_plate.side_of(k));
                let Some(line) = beside(touching, edges_of_cover) else { continue };
                let level = (line[0].z - line[1].z).abs() < 1e-6;
                let kind = if level { JointKind::Eave } else { JointKind::Rake };
                let wedge = wedge(below(outer), below(inner), gap);
                let mut edges = vec![(w, e)];
                if slope.side == Some(side) && level {
                    // The letter also stands on the slope, at its eave.
                    edges.extend(drafts[cover].edges_of(Cause::Rim(side)).into_iter().map(|r| (cover, r)));
                }
                let (first, second) = (Some(w), cover);
                found.push((
                    side,
                    s,
                    JointDraft { kind, first, second, edges, line, gap, halved: false, wedge, icing: vec![] },
                ));
            }
        }
    }
    found
}

/// Joints between slopes, and between a slope and the lid.
pub(super) fn slopes(
    drafts: &[Draft],
    places: &Places,
    roof: &Roof,
    laps: &[(usize, usize)],
    gap: f64,
) -> Vec<(usize, usize, JointDraft)> {
    let mut found = Vec::new();
    for s in 0..roof.slopes.len() {
        for r in s + 1..roof.slopes.len() {
            let covered = laps.contains(&(r, s));
            let (s, r) = if covered { (r, s) } else { (s, r) };
            let (Some(a), Some(b)) = (places.slopes[s], places.slopes[r]) else { continue };
            let (ea, eb) = (drafts[a].edges_of(Cause::Slope(r)), drafts[b].edges_of(Cause::Slope(s)));
            let (Some(&ea), Some(&eb)) = (ea.first(), eb.first()) else { continue };
            // The covered edge lies under the ridge; the covering one is past it.
            let Some(line) = shared(drafts[b].edge_in_part(eb), drafts[a].edge_in_part(ea)) else { continue };
            let kind = ridge_kind(roof, s, r, &line);
            let lapped = laps.contains(&(s, r));
            let top = |d: usize, e: usize| drafts[d].back_edge_in_part(e);
            let outside = if lapped { gap } else { line_distance(top(a, ea), top(b, eb)) };
            let edges = vec![(a, ea), (b, eb)];
            let wedge = wedge(outside, gap, gap);
            let draft =
                JointDraft { kind, first: Some(a), second: b, edges, line, gap, halved: !lapped, wedge, icing: vec![] };
            found.push((s, r, draft));
        }
    }
    found
}

/// The part of a line within the bounds of what it runs beside; `None` when it is too short for a joint.
fn beside(line: [P3; 2], bounds: impl Iterator<Item = HalfSpace>) -> Option<[P3; 2]> {
    let (mut low, mut high) = (0.0, 1.0);
    for bound in bounds {
        // A line may run exactly under the rim: rounding must not decide.
        let side = bound.moved(FLUSH);
        let (from, to) = (side.excess(&line[0]), side.excess(&line[1]));
        if from > 0.0 && to > 0.0 {
            return None;
        }
        let cut = from / (from - to);
        if from > 0.0 {
            low = cut.max(low);
        } else if to > 0.0 {
            high = cut.min(high);
        }
    }
    let at = |share: f64| line[0] + (line[1] - line[0]) * share;
    let part = [at(low), at(high)];
    (high > low && length(&part) >= SHORTEST_JOINT).then_some(part)
}

/// The two ends of the foot of a wall, on its inner face.
fn feet_of(wall: &Plate) -> impl Iterator<Item = HalfSpace> {
    let inner = |p: P2| wall.frame.point(p, wall.thickness);
    let foot = wall.edges_of(Cause::Base).next().map(|k| [k, (k + 1) % wall.count()].map(|k| inner(wall.back[k])));
    foot.into_iter().flat_map(|[a, b]| [HalfSpace::through(a, a - b), HalfSpace::through(b, b - a)])
}

fn ridge_kind(roof: &Roof, s: usize, r: usize, line: &[P3; 2]) -> JointKind {
    let (a, b) = (&roof.slopes[s], &roof.slopes[r]);
    let knee = a.side == b.side && a.tier != Tier::Single;
    if knee || a.side.is_none() || b.side.is_none() {
        JointKind::Knee
    } else if (line[0].z - line[1].z).abs() < 1e-6 {
        JointKind::Ridge
    } else {
        JointKind::Hip
    }
}

/// The part of `own` that lies beside `other`; `None` when it is too short for a joint.
fn shared(own: [P3; 2], other: [P3; 2]) -> Option<[P3; 2]> {
    let along = (own[1] - own[0]).try_normalize(1e-9)?;
    let at = |p: P3| (p - own[0]).dot(&along);
    let (c, d) = (at(other[0]), at(other[1]));
    let (low, high) = (c.min(d).max(0.0), c.max(d).min(length(&own)));
    (high - low > SHORTEST_JOINT).then(|| [own[0] + along * low, own[0] + along * high])
}

/// Distance from the middle of one line to another, taken as endless.
fn line_distance(a: [P3; 2], b: [P3; 2]) -> f64 {
    let along = (b[1] - b[0]).normalize();
    let arm = nalgebra::center(&a[0], &a[1]) - b[0];
    (arm - along * arm.dot(&along)).norm()
}

/// Feet of walls on the floor or the base board, floor against walls, parapet on lid.
pub(super) fn feet(drafts: &[Draft], places: &Places, floor_under: bool, on_board: bool, gap: f64) -> Vec<JointDraft> {
    let mut found = Vec::new();
    let mut stand = |piece: usize, on: Option<usize>, gap: f64| {
        for e in drafts[piece].edges_of(Cause::Base) {
            let line = drafts[piece].edge_in_part(e);
            if length(&line) < SHORTEST_JOINT {
                continue;
            }
            let (kind, edges, wedge) = (JointKind::Base, vec![(piece, e)], (WedgeSide::Closed, gap));
            found.push(JointDraft {
                kind,
                first: on,
                second: piece,
                edges,
                line,
                gap,
                halved: false,
                wedge,
                icing: vec![],
            });
        }
    };
    let under = places.floor.filter(|_| floor_under);
    // Without a floor, walls off the board have their feet on other parts.
    let footed = under.is_some() || on_board;
    for wall in places.walls.iter().flatten().filter(|_| footed) {
        stand(*wall, under, if under.is_some() { gap } else { 0.0 });
    }
    // On a side without a wall a floor between the walls reaches out under the posts.
    for strip in places.posts.iter().flat_map(|post| &post.strips).filter(|_| on_board || places.floor.is_some()) {
        stand(*strip, places.floor, if places.floor.is_some() { gap } else { 0.0 });
    }
    let lid = places.slopes.iter().flatten().copied().find(|&d| drafts[d].role == crate::Role::Lid);
    for strip in places.parapet.iter().flatten() {
        stand(*strip, lid, gap);
    }
    if let Some(floor) = places.floor.filter(|_| !floor_under) {
        found.extend(floor_sides(drafts, places, floor, gap));
    }
    found
}

fn floor_sides(drafts: &[Draft], places: &Places, floor: usize, gap: f64) -> Vec<JointDraft> {
    let against = |(j, wall): (usize, &Option<usize>)| {
        let first = Some((*wall)?);
        let e = *drafts[floor].edges_of(Cause::WallPlane(j)).first()?;
        let line = beside(drafts[floor].edge_in_part(e), feet_of(&drafts[first?].plate))?;
        let (kind, edges) = (JointKind::Abutment, vec![(floor, e)]);
        let wedge = (WedgeSide::Closed, gap);
        Some(JointDraft { kind, first, second: floor, edges, line, gap, halved: false, wedge, icing: vec![] })
    };
    places.walls.iter().enumerate().filter_map(against).collect()
}

/// Raised undersides of all slopes.
pub(super) fn raised(roof: &Roof, gap: f64) -> Vec<HalfSpace> {
    roof.slopes.iter().map(|s| s.plane.moved(gap)).collect()
}
