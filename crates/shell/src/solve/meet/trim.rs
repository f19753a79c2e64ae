//! What the own joints of a part keep after its pieces were cut.

use super::Body;
use super::contacts::{ANYWHERE, NEAR, beside};
use super::facing::{Room, Span, facing};
use crate::JointKind;
use crate::solve::draft::{Draft, JointDraft};
use crate::solve::joints::SHORTEST_JOINT;
use crate::solve::part::PartSolution;
use gable_plane::{P2, P3, Rigid, ring_contains};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Where old edges went: (draft, old edge) to the (draft, new edge)s that lie on it. Only for drafts that were cut.
pub(super) type Edges = BTreeMap<(usize, usize), Vec<(usize, usize)>>;

/// A point this near to the rim of a piece is on it, mm.
const ON_RIM: f64 = 2.0;

/// Sine of the least angle between a wall and a roof that close, however flat.
const STEEPEST: f64 = 0.2;

/// Brings the joints of a part up to date.
pub(super) fn joints(solution: &mut PartSolution, body: &Body, edges: &Edges) {
    let old = std::mem::take(&mut solution.joints);
    let place = solution.stand.house_from_part;
    let drafts = &solution.drafts;
    let left = |mut joint: JointDraft| {
        let touched = joint.first.into_iter().chain([joint.second]).any(|d| body.pieces[d].changed);
        if !touched {
            return (vec![joint], Vec::new());
        }
        let icing = std::mem::take(&mut joint.icing);
        let there = |part: JointDraft| {
            let lines = stretches(&part, drafts, body, place);
            lines
                .into_iter()
                .map(|line| JointDraft { line: line.map(|p| place.inverse() * p), ..part.clone() })
                .collect::<Vec<_>>()
        };
        let mut left: Vec<JointDraft> = pieces_of(&joint, drafts, edges).into_iter().flat_map(there).collect();
        match left.first_mut() {
            Some(first) => {
                first.icing = icing;
                (left, Vec::new())
            }
            None => (left, icing),
        }
    };
    let (joints, loose): (Vec<_>, Vec<_>) = old.into_par_iter().map(left).unzip();
    solution.joints = joints.into_iter().flatten().collect();
    solution.loose.extend(loose.into_iter().flatten());
}

/// Where along a joint both of its pieces really are, and face each other, in the house.
fn stretches(part: &JointDraft, drafts: &[Draft], body: &Body, place: Rigid) -> Vec<[P3; 2]> {
    let ends = part.first.into_iter().chain([part.second]);
    let line = ends.fold(vec![part.line.map(|p| place * p)], |lines, d| {
        let lumps = &body.pieces[d].lumps;
        lines.into_iter().flat_map(|line| beside(lumps, line, ANYWHERE, SHORTEST_JOINT)).collect()
    });
    let Some(first) = part.first else { return line };
    let [a, b] = [first, part.second].map(|d| body.pieces[d].lumps.iter().collect::<Vec<_>>());
    let room = Room::even(widest(drafts, part) + NEAR);
    line.into_iter().flat_map(|line| facing(&a, &b, line, room, SHORTEST_JOINT)).collect()
}

/// How far apart the two pieces of a joint are where they close, mm. A roof that ends flush with its wall stops before
/// the nearest point of it.
fn widest(drafts: &[Draft], joint: &JointDraft) -> f64 {
    let flush = |first: usize| {
        let turn = drafts[first].outward().angle(&drafts[joint.second].outward());
        joint.gap / turn.sin().max(STEEPEST)
    };
    let under_roof = matches!(joint.kind, JointKind::Eave | JointKind::Rake);
    joint.first.filter(|_| under_roof).map_or(joint.gap, flush)
}

fn pieces_of(joint: &JointDraft, drafts: &[Draft], edges: &Edges) -> Vec<JointDraft> {
    let firsts: Vec<Option<usize>> =
        joint.first.map_or_else(|| vec![None], |d| fragments(drafts, d).into_iter().map(Some).collect());
    let mut found = Vec::new();
    for &first in &firsts {
        for second in fragments(drafts, joint.second) {
            let here = first.map_or_else(|| vec![whole(joint)], |d| presence(joint, drafts, edges, joint.first, d));
            let there = presence(joint, drafts, edges, Some(joint.second), second);
            for span in common(&here, &there) {
                found.push(stretch(joint, drafts, edges, first, second, span));
            }
        }
    }
    found
}

/// A draft and what fell off it.
fn fragments(drafts: &[Draft], of: usize) -> Vec<usize> {
    let own = std::iter::once(of).filter(|&d| !drafts[d].is_gone());
    own.chain((0..drafts.len()).filter(|&d| drafts[d].fragment_of == Some(of))).collect()
}

fn whole(joint: &JointDraft) -> Span {
    (0.0, (joint.line[1] - joint.line[0]).norm())
}

/// New edges of the joint that belong to draft `d`.
fn edges_of(joint: &JointDraft, edges: &Edges, d: usize) -> Vec<(usize, usize)> {
    let moved = |e: &(usize, usize)| edges.get(e).cloned().unwrap_or_else(|| vec![*e]);
    joint.edges.iter().flat_map(moved).filter(|e| e.0 == d).collect()
}

/// Where along the joint's line a fragment `d` of piece `origin` still is.
fn presence(joint: &JointDraft, drafts: &[Draft], edges: &Edges, origin: Option<usize>, d: usize) -> Vec<Span> {
    // A slope lies over a wall with its face, also where its rim happens to end there.
    let covers = matches!(joint.kind, JointKind::Eave | JointKind::Rake) && origin == Some(joint.second);
    let had_edges = joint.edges.iter().any(|e| Some(e.0) == origin);
    if covers || !had_edges {
        return on_face(joint, &drafts[d]);
    }
    let spans = edges_of(joint, edges, d).into_iter().map(|(d, e)| span_of(joint, drafts[d].edge_in_part(e)));
    spans.filter(|s| s.1 > s.0).collect()
}

/// The stretch of the line beside an edge.
fn span_of(joint: &JointDraft, edge: [P3; 2]) -> Span {
    let (from, length) = (joint.line[0], whole(joint).1);
    let along = (joint.line[1] - from) / length;
    let [a, b] = edge.map(|p| (p - from).dot(&along));
    (a.min(b).max(0.0), a.max(b).min(length))
}

/// Where the line runs over the face of a piece.
fn on_face(joint: &JointDraft, draft: &Draft) -> Vec<Span> {
    let length = whole(joint).1;
    let [a, b] = joint.line.map(|p| draft.plate.frame.flat(p));
    let at = |s: f64| a + (b - a) * (s / length);
    let along = |p: &P2| (p - a).dot(&(b - a)) / length;
    let mut stops = vec![0.0, length];
    // A line may run along the rim itself: then it can only change at corners.
    stops.extend(draft.front.iter().map(along).filter(|&s| s > 0.0 && s < length));
    for ring in std::iter::once(&draft.front).chain(draft.holes.iter().map(|h| &h.ring)) {
        for k in 0..ring.len() {
            let (p, q) = (ring[k], ring[(k + 1) % ring.len()]);
            let (from, to) = ((b - a).perp(&(p - a)), (b - a).perp(&(q - a)));
            if (from > 0.0) != (to > 0.0) {
                let crossing = p + (q - p) * (from / (from - to));
                stops.push(((crossing - a).dot(&(b - a)) / length).clamp(0.0, length));
            }
        }
    }
    stops.sort_by(f64::total_cmp);
    let spans = stops.windows(2).map(|w| (w[0], w[1])).filter(|s| s.1 - s.0 > 1e-6);
    let there = spans.filter(|s| is_on(draft, at((s.0 + s.1) / 2.0)));
    there.fold(Vec::new(), |mut found: Vec<Span>, span| {
        match found.last_mut() {
            Some(last) if span.0 - last.1 < 1e-6 => last.1 = span.1,
            _ => found.push(span),
        }
        found
    })
}

fn is_on(draft: &Draft, p: P2) -> bool {
    let near = |ring: &[P2]| {
        (0..ring.len()).any(|k| {
            let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
            let share = (p - a).dot(&(b - a)) / (b - a).norm_squared();
            (0.0..=1.0).contains(&share) && (p - (a + (b - a) * share)).norm() < ON_RIM
        })
    };
    let within = ring_contains(&draft.front, p) && !draft.holes.iter().any(|h| ring_contains(&h.ring, p));
    within || near(&draft.front) || draft.holes.iter().any(|h| near(&h.ring))
}

fn common(a: &[Span], b: &[Span]) -> Vec<Span> {
    let mut found: Vec<Span> = Vec::new();
    for one in a {
        for other in b {
            let span = (one.0.max(other.0), one.1.min(other.1));
            if span.1 - span.0 >= SHORTEST_JOINT {
                found.push(span);
            }
        }
    }
    found.sort_by(|p, q| p.0.total_cmp(&q.0));
    // Two edges of one piece, one after the other on the same line, are one joint.
    found.into_iter().fold(Vec::new(), |mut merged: Vec<Span>, span| {
        match merged.last_mut() {
            Some(last) if span.0 - last.1 < SHORTEST_JOINT => last.1 = last.1.max(span.1),
            _ => merged.push(span),
        }
        merged
    })
}

fn stretch(
    joint: &JointDraft,
    drafts: &[Draft],
    edges: &Edges,
    first: Option<usize>,
    second: usize,
    span: Span,
) -> JointDraft {
    let length = whole(joint).1;
    let at = |s: f64| joint.line[0] + (joint.line[1] - joint.line[0]) * (s / length);
    let beside = |&(d, e): &(usize, usize)| {
        let own = span_of(joint, drafts[d].edge_in_part(e));
        own.1.min(span.1) - own.0.max(span.0) > SHORTEST_JOINT / 2.0
    };
    let own = first.into_iter().chain([second]).flat_map(|d| edges_of(joint, edges, d));
    JointDraft {
        kind: joint.kind,
        first,
        second,
        edges: own.filter(beside).collect(),
        line: [at(span.0), at(span.1)],
        gap: joint.gap,
        halved: joint.halved,
        wedge: joint.wedge,
        icing: Vec::new(),
    }
}
