//! Where the overhangs of two roofs meet.

use super::Body;
use super::lump::Lump;
use crate::Role;
use crate::solve::part::PartSolution;
use gable_plane::{HalfSpace, P2, V3, convex_hull};

/// Room that two overhangs must share to be said to meet, mm³.
const MEET: f64 = 1.0;

/// What a slope must leave free where its overhang runs into the overhang of a host: all that would hang under it there.
///
/// Two overhangs that meet end along the line where they cross, like the roofs in a valley. Cut by the host's plate alone,
/// the guest's overhang would go on below it. Given as half-spaces, one set for each overhang and each side of the guest.
pub(super) fn over_eaves(whole: &PartSolution, host: &Body, guest: &Body, draft: usize) -> Vec<Vec<HalfSpace>> {
    let mut found = Vec::new();
    let own = &guest.pieces[draft].lumps;
    for (d, piece) in whole.drafts.iter().zip(&host.pieces) {
        if !matches!(d.role, Role::Slope(..) | Role::Lid) {
            continue;
        }
        for lump in piece.lumps.iter().filter(|l| own.iter().any(|o| o.near(l, 0.0))) {
            for eave in host.sides.iter().filter_map(|side| lump.solid.clip(&side.flipped())) {
                let eave = Lump::new(eave);
                for side in &guest.sides {
                    let past = side.flipped();
                    let shared = |o: &Lump| {
                        o.solid.clip_all(eave.halves.iter().chain([&past])).is_some_and(|s| s.volume() > MEET)
                    };
                    if own.iter().any(shared) {
                        found.push(below(&eave).into_iter().chain([past]).collect());
                    }
                }
            }
        }
    }
    found
}

/// A convex solid and everything straight below it.
fn below(lump: &Lump) -> Vec<HalfSpace> {
    let plan: Vec<P2> = lump.solid.corners().iter().map(|p| p.xy()).collect();
    let hull = convex_hull(&plan);
    let wall = |k: usize| {
        let (a, b) = (hull[k], hull[(k + 1) % hull.len()]);
        HalfSpace::through([a.x, a.y, 0.0].into(), V3::new(b.y - a.y, a.x - b.x, 0.0))
    };
    let tops = lump.halves.iter().filter(|h| h.normal.z > 1e-9).copied();
    (0..hull.len()).map(wall).chain(tops).collect()
}
