//! Fitting an outline into its piece: inside, or cut through the foot.

use super::super::draft::Draft;
use super::super::findings::Findings;
use super::super::plate::Cause;
use super::foot_of;
use super::near::{between, edge, edge_distance};
use crate::{Opening, PieceOpening};
use gable_plane::{P2, SAME_POINT, ring_contains};
use gable_words::tr;

/// How closely the arcs of a door that reaches the foot are followed by the outline, mm.
const ARC_TOLERANCE: f64 = 0.005;

/// What is being fitted.
pub(super) struct Fitting<'a> {
    pub(super) opening: &'a Opening,
    /// Where it is in the part.
    pub(super) place: &'a str,
    /// Least width of biscuit that shall be left, mm.
    pub(super) least: f64,
}

/// Adds an opening to its piece.
pub(super) fn fit(draft: &mut Draft, found: PieceOpening, job: &Fitting<'_>, findings: &mut Findings) {
    let foot = foot_of(draft);
    let (low, _) = found.contour.bounds();
    let at_foot = job.opening.shape.has_foot() && low.y <= foot + SAME_POINT && draft.reference_is_outside();
    let ring: Vec<P2> = found.contour.flatten(ARC_TOLERANCE);
    let margin = clearance(draft, &ring, at_foot);
    if margin < SAME_POINT {
        let face = if draft.reference_is_outside() { "wall" } else { "slope" };
        let what = tr!("{} reaches out of its {face}", found.name);
        let remedy = tr!("move it, make it smaller, or make the {face} larger");
        findings.block("opening-outside-wall", job.place, what, &remedy);
        return;
    }
    let distances =
        draft.openings.iter().chain(&draft.notches).map(|o| (between(&o.contour, &found.contour, job.least), o));
    let nearest = distances.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(far, other)| (far, other.name.clone()));
    if let Some((_, other)) = nearest.as_ref().filter(|n| n.0 < SAME_POINT) {
        let what = tr!("{} and {other} overlap", found.name);
        findings.block("openings-overlap", job.place, what, tr!("move one of them, or make it smaller"));
        return;
    }
    if found.mode.goes_through() {
        narrow(job, &found.name, margin, nearest, findings);
    }
    if at_foot && found.mode.goes_through() {
        cut_through_foot(draft, &ring, foot);
        draft.notches.push(found);
    } else {
        draft.openings.push(found);
    }
}

/// Findings about what is left between an opening, its neighbour and the edges.
fn narrow(job: &Fitting<'_>, name: &str, margin: f64, nearest: Option<(f64, String)>, findings: &mut Findings) {
    let least = findings.print(job.least);
    if let Some((far, other)) = nearest.filter(|n| n.0 < job.least) {
        let far = findings.print(far);
        let what = tr!("only {far} of biscuit is left between {name} and {other}, less than {least}");
        findings.caution_once("openings-near-each-other", job.place, what, tr!("move them apart, or make one smaller"));
    }
    if margin < job.least {
        let margin = findings.print(margin);
        let what = tr!("only {margin} of biscuit is left beside {name}, less than {least}");
        findings.caution_once(
            "opening-near-edge",
            job.place,
            what,
            tr!("move it away from the edge, or make it smaller"),
        );
    }
}

/// Least distance of an opening from the edges of its piece (the foot not counted for a door), on either face; 0 where it
/// reaches out. The piece may have a notch.
fn clearance(draft: &Draft, opening: &[P2], at_foot: bool) -> f64 {
    let plate = &draft.plate;
    let counted = |k: &usize| !(at_foot && plate.causes[*k] == Cause::Base);
    let to_face = |wall: &Vec<P2>| {
        let above = opening.iter().filter(|p| !at_foot || p.y > foot_of(draft) + SAME_POINT);
        if above.into_iter().any(|p| !ring_contains(wall, *p)) {
            return 0.0;
        }
        let edges = (0..plate.count()).filter(counted).map(|k| edge(wall, k));
        let pairs = edges.flat_map(|e| (0..opening.len()).map(move |j| edge_distance(e, edge(opening, j))));
        pairs.fold(f64::INFINITY, f64::min)
    };
    to_face(&plate.front).min(to_face(&plate.back))
}

/// Cuts the ring of a door out of the foot of the outline: its path up, over and down is put into the foot's edge.
fn cut_through_foot(draft: &mut Draft, ring: &[P2], foot: f64) {
    let xs = || ring.iter().map(|p| p.x);
    let (left, right) = (xs().fold(f64::INFINITY, f64::min), xs().fold(f64::NEG_INFINITY, f64::max));
    let spans = |k: &usize| {
        let next = draft.front[(k + 1) % draft.front.len()];
        draft.causes[*k] == Cause::Base && draft.front[*k].x < left && right < next.x
    };
    let Some(k) = (0..draft.front.len()).find(spans) else { return };
    // The door's ring runs counter-clockwise from its lower left corner; the outline goes round it the other way.
    let mut path = vec![P2::new(left, foot)];
    path.extend(ring.iter().skip(1).rev().filter(|p| p.y > foot + SAME_POINT));
    path.push(P2::new(right, foot));
    let mut causes = vec![Cause::Open; path.len()];
    if let Some(last) = causes.last_mut() {
        *last = Cause::Base;
    }
    draft.front.splice(k + 1..k + 1, path.iter().copied());
    draft.back.splice(k + 1..k + 1, path);
    draft.causes.splice(k + 1..k + 1, causes);
}
