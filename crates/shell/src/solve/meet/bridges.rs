//! Places where a piece that was cut is narrower than it is thick.

use super::Body;
use crate::solve::draft::Draft;
use crate::solve::findings::Findings;
use crate::solve::part::PartSolution;
use gable_plane::{P2, ring_contains};
use gable_words::tr;

/// Corners that point inwards by less than this are none, mm per mm.
const STRAIGHT: f64 = 1e-3;
/// The middle of a bridge is at least this share of its width from all edges; along an edge it would be on one.
const INSIDE: f64 = 0.3;

/// Says which pieces that others cut have a bridge or hook narrower than they are thick.
pub(super) fn narrow(solutions: &[Option<PartSolution>], bodies: &[Body], findings: &mut [Findings]) {
    for ((solution, body), findings) in solutions.iter().zip(bodies).zip(findings) {
        let Some(solution) = solution else { continue };
        for (draft, _) in solution.drafts.iter().zip(&body.pieces).filter(|(d, body)| body.changed && !d.is_gone()) {
            let Some(width) = narrowest(&rings(draft)).filter(|w| *w < draft.plate.thickness) else { continue };
            let what = tr!("{} is only {} wide at one place, less than it is thick", draft.name, findings.print(width));
            let remedy = tr!("move what cuts it a little, or let the other part be cut instead");
            findings.note("narrow-bridge", "", what, remedy);
        }
    }
}

/// A rim, counter-clockwise, and holes, clockwise.
fn rings(draft: &Draft) -> Vec<Vec<P2>> {
    let holes = draft.holes.iter().map(|h| h.ring.iter().rev().copied().collect());
    std::iter::once(draft.front.clone()).chain(holes).collect()
}

/// The least distance, across the dough, of a corner that points inwards from an edge, mm.
fn narrowest(rings: &[Vec<P2>]) -> Option<f64> {
    let edges: Vec<[P2; 2]> = rings.iter().flat_map(|r| (0..r.len()).map(|k| [r[k], r[(k + 1) % r.len()]])).collect();
    let dough = |p: P2| rings.iter().enumerate().all(|(k, ring)| ring_contains(ring, p) == (k == 0));
    let clear = |p: P2, room: f64| edges.iter().all(|edge| (nearest(p, edge) - p).norm() > room);
    let across = |at: P2, edge: &[P2; 2]| {
        let other = nearest(at, edge);
        let (middle, width) = (nalgebra::center(&at, &other), (other - at).norm());
        (width > 0.0 && dough(middle) && clear(middle, width * INSIDE)).then_some(width)
    };
    let corners = rings.iter().flat_map(|ring| inward(ring));
    corners.flat_map(|at| edges.iter().filter_map(move |edge| across(at, edge))).reduce(f64::min)
}

/// The corners at which a ring turns inwards.
fn inward(ring: &[P2]) -> impl Iterator<Item = P2> + '_ {
    let count = ring.len();
    let turns = move |k: &usize| {
        let (to, from) = (ring[*k] - ring[(k + count - 1) % count], ring[(k + 1) % count] - ring[*k]);
        to.perp(&from) < -STRAIGHT * to.norm() * from.norm()
    };
    (0..count).filter(turns).map(|k| ring[k])
}

fn nearest(p: P2, [a, b]: &[P2; 2]) -> P2 {
    let edge = b - a;
    let share =
        if edge.norm_squared() > 0.0 { ((p - a).dot(&edge) / edge.norm_squared()).clamp(0.0, 1.0) } else { 0.0 };
    a + edge * share
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(corners: &[(f64, f64)]) -> Vec<P2> {
        corners.iter().map(|&(x, y)| P2::new(x, y)).collect()
    }

    #[test]
    fn the_bridge_of_a_notched_piece_is_measured_and_small_steps_are_none() {
        let notched = ring(&[(0., 0.), (40., 0.), (40., 20.), (25., 20.), (25., 3.), (15., 3.), (15., 20.), (0., 20.)]);
        assert_eq!(narrowest(&[notched]), Some(3.0));
        let step = ring(&[(0., 0.), (40., 0.), (40., 20.), (20., 20.), (20., 19.5), (0., 19.5)]);
        assert!(narrowest(&[step]).is_some_and(|w| w > 15.0));
        assert_eq!(narrowest(&[ring(&[(0., 0.), (2., 0.), (2., 2.), (0., 2.)])]), None);
    }

    #[test]
    fn a_hole_near_the_rim_leaves_a_bridge() {
        let rim = ring(&[(0., 0.), (40., 0.), (40., 30.), (0., 30.)]);
        let hole = ring(&[(10., 4.), (10., 20.), (30., 20.), (30., 4.)]);
        assert_eq!(narrowest(&[rim, hole]), Some(4.0));
    }
}
