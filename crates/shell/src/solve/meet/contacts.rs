//! Joints between pieces of different parts.

use super::recut::ToolEdge;
use super::tool::Owner;
use super::{Body, frame_in_house};
use crate::solve::draft::Draft;
use crate::solve::joints::{SHORTEST_JOINT, wedge};
use crate::solve::part::PartSolution;
use crate::{JointKind, Role, WedgeSide};
use gable_plane::{P3, Solid, V3};

/// Beside a bevelled edge of an obstacle a piece may be this many gaps away.
const ROUND: f64 = 1.6;
/// Allowance for contact, mm.
const NEAR: f64 = 0.05;

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
pub(super) fn find(solutions: &[Option<PartSolution>], bodies: &[Body], pending: Vec<Pending>) -> Vec<Contact> {
    pending.iter().filter_map(|p| contact(solutions, bodies, p)).collect()
}

fn contact(solutions: &[Option<PartSolution>], bodies: &[Body], at: &Pending) -> Option<Contact> {
    let solution = solutions[at.part].as_ref()?;
    let draft = solution.drafts.get(at.draft)?;
    let frame = frame_in_house(solution, draft);
    let front = at.at.front.map(|p| frame.point(p, 0.0));
    let back = at.at.back.map(|p| frame.point(p, draft.plate.thickness));
    let middles = [&front, &back].map(|e| nalgebra::center(&e[0], &e[1]));
    let first = first(bodies, at, &middles, solution.gap)?;
    let apart = middles.map(|p| distance(bodies, first, &p));
    let line = if apart[1] < apart[0] - NEAR { back } else { front };
    if (line[1] - line[0]).norm() < SHORTEST_JOINT {
        return None;
    }
    let host = solutions[first.0].as_ref()?;
    let host_draft = host.drafts.get(first.1)?;
    let turned = |s: &PartSolution, d: &Draft| s.stand.house_from_part.rotation * d.outward();
    let turn = turned(host, host_draft).angle(&turned(solution, draft));
    let kind = kind(&host_draft.role, &draft.role);
    let [outside, inside] = if draft.reference_is_outside() { apart } else { [apart[1], apart[0]] };
    Some(Contact {
        first,
        second: (at.part, at.draft),
        edge: at.at.edge,
        line,
        kind,
        dihedral: if kind == JointKind::Valley { std::f64::consts::PI + turn } else { turn },
        bevel: (std::f64::consts::FRAC_PI_2 - turn).abs(),
        wedge: wedge(outside, inside, solution.gap),
        icing: Vec::new(),
    })
}

/// The piece that an edge touches.
fn first(bodies: &[Body], at: &Pending, middles: &[P3; 2], gap: f64) -> Option<(usize, usize)> {
    let other = match at.owner {
        Owner::Piece(part, draft) => return Some((part, draft)),
        Owner::Envelope(part) | Owner::Guest(part) => part,
        Owner::Beyond | Owner::Opening => return None,
    };
    let apart = |d: usize| middles.iter().map(|p| distance(bodies, (other, d), p)).fold(f64::INFINITY, f64::min);
    let nearest = (0..bodies[other].pieces.len()).min_by(|&a, &b| apart(a).total_cmp(&apart(b)))?;
    (apart(nearest) < ROUND * gap + NEAR).then_some((other, nearest))
}

/// Distance of a point from a piece, mm.
fn distance(bodies: &[Body], (part, draft): (usize, usize), p: &P3) -> f64 {
    bodies[part].pieces[draft].lumps.iter().map(|l| l.excess(p)).fold(f64::INFINITY, f64::min)
}

fn kind(whole: &Role, cut: &Role) -> JointKind {
    match (whole, cut) {
        (Role::Slope(..), Role::Slope(..) | Role::Lid) => JointKind::Valley,
        (Role::Lid, Role::Wall(_) | Role::Parapet(_)) => JointKind::Base,
        _ => JointKind::Abutment,
    }
}

/// Unit direction of a line.
pub(super) fn along(line: &[P3; 2]) -> V3 {
    (line[1] - line[0]).normalize()
}
