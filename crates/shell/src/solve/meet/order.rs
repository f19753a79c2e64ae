//! Which part stays whole, and in which order they are cut.

use super::{Body, moved};
use crate::solve::part::PartSolution;
use crate::solve::{place, roof::Slope};
use crate::{House, Place};
use gable_plane::{HalfSpace, P2, V3, ring_contains};

/// Parts further apart than this do not meet, mm: wider than any gap.
const REACH: f64 = 5.0;
/// A side without a wall that is so near to the host lies against it, mm.
const AGAINST: f64 = 1.0;

/// Fills in hosts and guests, and gives an order in which every part comes after its hosts.
pub(super) fn decide(house: &House, bodies: &mut [Body]) -> Vec<usize> {
    let rank: Vec<usize> = place::order(house).into_iter().map(|(k, _)| k).collect();
    let rank_of = |k: usize| rank.iter().position(|&r| r == k).unwrap_or(k);
    for a in 0..bodies.len() {
        for b in a + 1..bodies.len() {
            if !meet(&bodies[a], &bodies[b]) {
                continue;
            }
            let (whole, cut) = if first_stays_whole(house, a, b, rank_of(a) < rank_of(b)) { (a, b) } else { (b, a) };
            bodies[cut].hosts.push(whole);
            bodies[whole].guests.push(cut);
        }
    }
    let mut order: Vec<usize> = Vec::new();
    while order.len() < bodies.len() {
        let waiting = || rank.iter().copied().filter(|k| !order.contains(k));
        let free = |k: &usize| bodies[*k].hosts.iter().all(|h| order.contains(h));
        let Some(next) = waiting().find(free).or_else(|| waiting().next()) else { break };
        // In a circle of decisions one of them has to give way: the first part then stays whole.
        let late: Vec<usize> = bodies[next].hosts.iter().copied().filter(|h| !order.contains(h)).collect();
        for other in late {
            bodies[next].hosts.retain(|&h| h != other);
            bodies[other].guests.retain(|&g| g != next);
            bodies[other].hosts.push(next);
            bodies[next].guests.push(other);
        }
        order.push(next);
    }
    order
}

fn meet(a: &Body, b: &Body) -> bool {
    let lumps = |body: &Body| body.outer.iter().chain(body.pieces.iter().flat_map(|p| &p.lumps)).cloned().collect();
    let (a, b): (Vec<super::Lump>, Vec<super::Lump>) = (lumps(a), lumps(b));
    a.iter().any(|one| b.iter().any(|other| one.near(other, REACH)))
}

fn first_stays_whole(house: &House, a: usize, b: usize, a_ranks_first: bool) -> bool {
    let (first, second) = (&house.parts[a], &house.parts[b]);
    let said = |whole: usize, cut: usize| {
        house.decided.iter().any(|d| d.whole == house.parts[whole].id && d.cut == house.parts[cut].id)
    };
    match (said(a, b), said(b, a)) {
        (true, false) => true,
        (false, true) => false,
        _ if first.stays_whole != second.stays_whole => first.stays_whole,
        _ => a_ranks_first,
    }
}

/// Whether the inside of a part is shut off all round: by its own walls, or by the host that a side without one is in.
pub(super) fn is_closed(house: &House, solutions: &[Option<PartSolution>], part: usize) -> bool {
    let Some(solution) = &solutions[part] else { return false };
    let host = house.parts[part].place.host().and_then(|id| house.parts.iter().position(|p| &p.id == id));
    let host = host.and_then(|h| solutions[h].as_ref());
    let open = house.parts[part].sides.iter().zip(&solution.sides).filter(|(side, _)| !side.wall);
    open.into_iter().all(|(_, side)| {
        host.is_some_and(|host| {
            let to_host = host.stand.house_from_part.inverse() * solution.stand.house_from_part;
            let inside = nalgebra::center(&side.start, &side.end) - side.inward * AGAINST;
            let p: P2 = (to_host * super::super::plan::level(inside, 0.0)).xy();
            ring_contains(&host.plan, p)
        })
    })
}

/// The planes beyond which a part on a slope keeps nothing: those through the ridges of its slope with slopes of the
/// other side of the roof.
pub(super) fn beyond_ridge(house: &House, part: usize, host: usize, whole: &PartSolution) -> Vec<HalfSpace> {
    let Place::OnSlope { host: id, side, .. } = &house.parts[part].place else { return Vec::new() };
    let host_part = &house.parts[host];
    if &host_part.id != id {
        return Vec::new();
    }
    let Some(roof) = &whole.roof else { return Vec::new() };
    let side = host_part.sides.iter().position(|s| &s.id == side);
    let Some(own) = roof.slopes.iter().rfind(|s| s.side == side && side.is_some()) else { return Vec::new() };
    let level = |s: &Slope| V3::new(s.plane.normal.x, s.plane.normal.y, 0.0);
    let opposite = roof.slopes.iter().filter(|s| level(s).dot(&level(own)) < -1e-9);
    let lines = opposite.filter_map(|other| own.lower_than(other));
    lines
        .map(|line| {
            let half = HalfSpace { normal: V3::new(line.normal.x, line.normal.y, 0.0), offset: line.offset };
            moved(&half, &whole.stand.house_from_part)
        })
        .collect()
}
