//! Joints between pieces of different parts.

use super::facing::{Room, Span, apart, facing, joined};
use super::lump::Lump;
use super::recut::ToolEdge;
use super::tool::Owner;
use super::{Body, frame_in_house};
use crate::solve::draft::{Draft, JointDraft};
use crate::solve::joints::wedge;
use crate::solve::part::PartSolution;
use crate::{JointKind, Role, WedgeSide};
use gable_plane::{P2, P3, Solid, V3};
use rayon::prelude::*;
use std::collections::BTreeSet;

/// Beside a bevelled edge of an obstacle a piece may be this many gaps away.
const ROUND: f64 = 1.5;
/// Allowance for contact, mm.
pub(super) const NEAR: f64 = 0.05;
/// Shorter contacts between parts are no joints, mm: there the bevels of obstacles would show.
const SHORTEST: f64 = 3.0;
/// Room beside lumps when only their ends matter, mm.
pub(super) const ANYWHERE: f64 = 1e3;
/// An edge that was not cut touches a host when it is a gap away, give or take this, mm.
const TOUCH: f64 = 0.01;
/// An edge that leaves a face by less than this, mm per mm, runs along it.
const ALONG: f64 = 1e-4;

/// An edge that another part made, not yet known to be a joint.
pub(super) struct Pending {
    pub(super) owner: Owner,
    pub(super) part: usize,
    pub(super) draft: usize,
    pub(super) at: ToolEdge,
}

/// A joint between pieces of two parts, in the house.
pub(in crate::solve) struct Contact {
    /// The piece that stays whole there: part and draft.
    pub(in crate::solve) first: (usize, usize),
    /// The piece that is cut to it.
    pub(in crate::solve) second: (usize, usize),
    /// The edge of the second piece, when it is on its outline.
    pub(in crate::solve) edge: Option<usize>,
    pub(in crate::solve) line: [P3; 2],
    pub(in crate::solve) kind: JointKind,
    /// Angle between the two, measured inside the house, radians.
    pub(in crate::solve) dihedral: f64,
    /// Bevel from square that would lay the edge on the first piece, radians.
    pub(in crate::solve) bevel: f64,
    pub(in crate::solve) wedge: (WedgeSide, f64),
    pub(in crate::solve) icing: Vec<Solid>,
}

/// Works out which pieces the edges meet.
pub(super) fn find(solutions: &[Option<PartSolution>], bodies: &[Body], pending: &[Pending]) -> Vec<Contact> {
    let joints = |edges: &[Pending]| -> Vec<Contact> {
        edges.par_iter().flat_map_iter(|p| contact(solutions, bodies, p)).collect()
    };
    let mut found = joints(pending);
    let known = found.iter().filter_map(|c| Some((c.second, c.edge?))).collect();
    let more = touching(solutions, bodies, &known);
    found.extend(joints(&more));
    found
}

/// Edges that end just where a host begins, so that it had nothing to cut off.
fn touching(
    solutions: &[Option<PartSolution>],
    bodies: &[Body],
    known: &BTreeSet<((usize, usize), usize)>,
) -> Vec<Pending> {
    let cut = (0..bodies.len()).filter(|&part| !bodies[part].hosts.is_empty());
    let drafts = |part: usize| 0..solutions[part].as_ref().map_or(0, |s| s.drafts.len());
    let pieces: Vec<(usize, usize)> = cut.flat_map(|part| drafts(part).map(move |d| (part, d))).collect();
    let touching = |piece: &(usize, usize)| touching_at(solutions, bodies, known, *piece).unwrap_or_default();
    pieces.par_iter().flat_map_iter(touching).collect()
}

/// The edges of one piece that touch a host.
fn touching_at(
    solutions: &[Option<PartSolution>],
    bodies: &[Body],
    known: &BTreeSet<((usize, usize), usize)>,
    (part, d): (usize, usize),
) -> Option<Vec<Pending>> {
    let solution = solutions[part].as_ref()?;
    let draft = &solution.drafts[d];
    let frame = frame_in_house(solution, draft);
    let joined: BTreeSet<usize> =
        solution.joints.iter().flat_map(|j| &j.edges).filter(|(of, _)| *of == d).map(|(_, edge)| *edge).collect();
    let touching = |edge: usize| {
        let ends = |ring: &[P2]| [ring[edge], ring[(edge + 1) % ring.len()]];
        let (front, back) = (ends(&draft.front), ends(&draft.back));
        let at = ToolEdge { tool: 0, draft: d, edge: Some(edge), front, back };
        let front = front.map(|p| frame.point(p, 0.0));
        let back = back.map(|p| frame.point(p, draft.plate.thickness));
        let middles = [front, back].map(|e| nalgebra::center(&e[0], &e[1]));
        let near = |d: (usize, usize)| middles.iter().any(|p| distance(bodies, d, p) < solution.gap + TOUCH);
        let mut pieces = bodies[part].hosts.iter().flat_map(|&h| (0..bodies[h].pieces.len()).map(move |k| (h, k)));
        let (host, piece) = pieces.find(|&p| near(p))?;
        Some(Pending { owner: Owner::Piece(host, piece), part, draft: d, at })
    };
    let free = (0..draft.front.len()).filter(|edge| !known.contains(&((part, d), *edge)) && !joined.contains(edge));
    Some(free.filter_map(touching).collect())
}

/// The joints of an edge with what it was cut to: as many as there are stretches where the two meet.
fn contact(solutions: &[Option<PartSolution>], bodies: &[Body], at: &Pending) -> Vec<Contact> {
    contacts_at(solutions, bodies, at).unwrap_or_default()
}

fn contacts_at(solutions: &[Option<PartSolution>], bodies: &[Body], at: &Pending) -> Option<Vec<Contact>> {
    let solution = solutions[at.part].as_ref()?;
    let draft = solution.drafts.get(at.draft)?;
    let frame = frame_in_house(solution, draft);
    let front = at.at.front.map(|p| frame.point(p, 0.0));
    let back = at.at.back.map(|p| frame.point(p, draft.plate.thickness));
    let middles = [&front, &back].map(|e| nalgebra::center(&e[0], &e[1]));
    let own = &bodies[at.part].pieces[at.draft].lumps;
    let first = first(bodies, at, front, solution.gap)?;
    let apart = middles.map(|p| distance(bodies, first, &p));
    let line = if apart[1] < apart[0] - NEAR { back } else { front };
    let host = solutions[first.0].as_ref()?;
    let host_draft = host.drafts.get(first.1)?;
    let room = room(solution.gap, &frame_in_house(host, host_draft).z, &frame.z);
    let whole = &bodies[first.0].pieces[first.1].lumps;
    let iced = iced(host, first.1);
    let iced: Vec<&Lump> = whole.iter().chain(&iced).collect();
    let own_lumps: Vec<&Lump> = own.iter().collect();
    let lines = beside(whole, line, ROUND * solution.gap + NEAR, SHORTEST).into_iter();
    let lines = lines.flat_map(|line| beside(own, line, ANYWHERE, SHORTEST));
    let lines = lines.flat_map(|line| facing(&iced, &own_lumps, line, room, SHORTEST));
    let lines = lines.filter_map(|line| level_with(whole, line, SHORTEST));
    let turned = |s: &PartSolution, d: &Draft| s.stand.house_from_part.rotation * d.outward();
    let turn = turned(host, host_draft).angle(&turned(solution, draft));
    let kind = kind(&host_draft.role, &draft.role);
    let [outside, inside] = if draft.reference_is_outside() { apart } else { [apart[1], apart[0]] };
    let found = lines.map(|line| Contact {
        first,
        second: (at.part, at.draft),
        edge: at.at.edge,
        line,
        kind,
        dihedral: if kind == JointKind::Valley { std::f64::consts::PI + turn } else { turn },
        bevel: (std::f64::consts::FRAC_PI_2 - turn).abs(),
        wedge: wedge(outside, inside, solution.gap),
        icing: Vec::new(),
    });
    Some(found.collect())
}

/// How far apart two pieces are where one is cut to the other.
///
/// A piece that is cut square to a face clears what of the obstacle is in its own slab, one gap thicker on both faces, and
/// by one gap in its own plane. Where the face stands at an angle a to the slab, the corner of the piece is then
/// g (1 + cot a) from it level with the slab, which is g (sin a + cos a) square to the face.
fn room(gap: f64, whole: &V3, cut: &V3) -> Room {
    let cos = whole.dot(cut).abs().min(1.0);
    let faces = gap * ((1.0 - cos * cos).sqrt() + cos);
    Room { faces: faces + NEAR, edges: ROUND * gap + NEAR }
}

/// The icing in the corners and ridges of a piece, in the house: what is cut to its part is cut to them too.
fn iced(solution: &PartSolution, draft: usize) -> Vec<Lump> {
    let place = solution.stand.house_from_part;
    let closed = |kind| matches!(kind, JointKind::Corner | JointKind::Ridge | JointKind::Hip | JointKind::Knee);
    let mine = |j: &&JointDraft| closed(j.kind) && (j.first == Some(draft) || j.second == draft);
    solution.joints.iter().filter(mine).flat_map(|j| &j.icing).map(|s| Lump::new(s.moved(&place))).collect()
}

/// The piece that an edge touches.
fn first(bodies: &[Body], at: &Pending, edge: [P3; 2], gap: f64) -> Option<(usize, usize)> {
    let other = match at.owner {
        Owner::Piece(part, draft) => return Some((part, draft)),
        Owner::Envelope(part) | Owner::Guest(part) => part,
        Owner::Beyond | Owner::Opening | Owner::Itself => return None,
    };
    let own = &bodies[at.part].pieces[at.draft].lumps;
    let room = ROUND * gap + NEAR;
    let near = |lump: &Lump| own.iter().any(|o| o.near(lump, room));
    let pieces = bodies[other].pieces.iter().enumerate().filter(|(_, p)| p.lumps.iter().any(near));
    let apart = pieces.map(|(d, p)| (d, apart(&p.lumps, own, edge)));
    let nearest = apart.min_by(|a, b| a.1.total_cmp(&b.1))?;
    (nearest.1 < room).then_some((other, nearest.0))
}

/// Distance of a point from a piece, mm.
fn distance(bodies: &[Body], (part, draft): (usize, usize), p: &P3) -> f64 {
    bodies[part].pieces[draft].lumps.iter().map(|l| l.excess(p)).fold(f64::INFINITY, f64::min)
}

/// The stretches of an edge that really have the lumps beside them, within `room` mm, none shorter than `least`.
///
/// An obstacle was grown all round before it cast its shadow, so the edge that it made reaches past its ends.
pub(super) fn beside(lumps: &[Lump], edge: [P3; 2], room: f64, least: f64) -> Vec<[P3; 2]> {
    let length = (edge[1] - edge[0]).norm();
    let spans = joined(lumps.iter().filter_map(|l| span(l, &edge, length, room)).collect());
    let at = |s: f64| edge[0] + (edge[1] - edge[0]) * (s / length);
    spans.into_iter().filter(|s| s.1 - s.0 >= least).map(|s| [at(s.0), at(s.1)]).collect()
}

/// The stretch of a line whose slices hit a piece itself, not only the icing in its corners.
fn level_with(lumps: &[Lump], line: [P3; 2], least: f64) -> Option<[P3; 2]> {
    let (way, length) = (along(&line), (line[1] - line[0]).norm());
    let start = way.dot(&line[0].coords);
    let reach = lumps.iter().map(|l| l.reach(&way)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
    let (low, high) = ((reach.0 - start).max(0.0), (reach.1 - start).min(length));
    (high - low >= least).then(|| [line[0] + way * low, line[0] + way * high])
}

/// The stretch of an edge beside a lump: past the faces that it runs outside of by no more than `room`, and within the
/// others.
fn span(lump: &Lump, edge: &[P3; 2], length: f64, room: f64) -> Option<Span> {
    let (mut low, mut high) = (0.0, length);
    for half in &lump.halves {
        let (from, to) = (half.excess(&edge[0]), half.excess(&edge[1]));
        // A face that the edge runs along, or nearly so, is one that it lies on.
        let slope = (to - from) / length;
        let limit = if slope.abs() < ALONG { room } else { 0.0 };
        if slope.abs() < 1e-12 {
            if from > limit {
                return None;
            }
            continue;
        }
        let crossing = (limit - from) / slope;
        if slope > 0.0 {
            high = f64::min(high, crossing);
        } else {
            low = f64::max(low, crossing);
        }
    }
    (high > low).then_some((low, high))
}

fn kind(whole: &Role, cut: &Role) -> JointKind {
    match (whole, cut) {
        (Role::Slope(..), Role::Slope(..) | Role::Lid) => JointKind::Valley,
        (Role::Lid, Role::Wall(_) | Role::Post(..) | Role::Parapet(_)) => JointKind::Base,
        _ => JointKind::Abutment,
    }
}

/// Unit direction of a line.
pub(super) fn along(line: &[P3; 2]) -> V3 {
    (line[1] - line[0]).normalize()
}
