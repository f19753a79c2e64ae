//! Which part stays whole, and in which order they are cut.

use super::{Body, moved};
use crate::solve::part::PartSolution;
use crate::solve::{place, roof::Slope};
use crate::{House, Place};
use gable_plane::{HalfSpace, P3, V3};
use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{RTree, RTreeObject};

/// Parts further apart than this do not meet, mm: wider than any gap.
const REACH: f64 = 5.0;
/// A side without a wall that is so near to others is closed by them, mm.
const AGAINST: f64 = 2.0;
/// Cosine of the angle within which a face looks out of a side.
const FACES: f64 = 0.999_999;

/// Cosine of the angle by which slopes of two sides of a ridge are turned at least; less is a hip, which a dormer may cross.
const OPPOSITE: f64 = -0.75;

/// The bodies whose boxes come near each body, in order.
pub(super) fn near(bodies: &[Body]) -> Vec<Vec<usize>> {
    type Boxed = GeomWithData<Rectangle<[f64; 3]>, usize>;
    let reach = V3::repeat(REACH);
    let boxed = |(k, body): (usize, &Body)| {
        let (low, high) = body.bounds()?;
        Some(Boxed::new(Rectangle::from_corners((low - reach).into(), (high + reach).into()), k))
    };
    let boxes: Vec<Option<Boxed>> = bodies.iter().enumerate().map(boxed).collect();
    let tree = RTree::bulk_load(boxes.iter().flatten().copied().collect());
    let beside = |own: &Boxed| {
        let mut found: Vec<usize> =
            tree.locate_in_envelope_intersecting(&own.geom().envelope()).map(|b| b.data).collect();
        found.retain(|&k| k != own.data);
        found.sort_unstable();
        found
    };
    boxes.iter().map(|own| own.as_ref().map(beside).unwrap_or_default()).collect()
}

/// Fills in hosts and guests, and gives an order in which every part comes after its hosts.
pub(super) fn decide(house: &House, bodies: &mut [Body], near: &[Vec<usize>]) -> Vec<usize> {
    let ranked: Vec<usize> = place::order(house).into_iter().map(|(k, _)| k).collect();
    let mut rank = vec![0; bodies.len()];
    ranked.iter().enumerate().for_each(|(r, &k)| rank[k] = r);
    for a in 0..bodies.len() {
        for &b in near[a].iter().filter(|&&b| b > a) {
            if !meet(&bodies[a], &bodies[b]) {
                continue;
            }
            let (whole, cut) = if first_stays_whole(house, a, b, rank[a] < rank[b]) { (a, b) } else { (b, a) };
            bodies[cut].hosts.push(whole);
            bodies[whole].guests.push(cut);
        }
    }
    let mut waiting = ranked;
    let mut done = vec![false; bodies.len()];
    let mut order: Vec<usize> = Vec::new();
    while !waiting.is_empty() {
        let free = |k: &usize| bodies[*k].hosts.iter().all(|&h| done[h]);
        let next = waiting.remove(waiting.iter().position(free).unwrap_or(0));
        // In a circle of decisions one of them has to give way: the first part then stays whole.
        let late: Vec<usize> = bodies[next].hosts.iter().copied().filter(|&h| !done[h]).collect();
        for other in late {
            bodies[next].hosts.retain(|&h| h != other);
            bodies[other].guests.retain(|&g| g != next);
            bodies[other].hosts.push(next);
            bodies[next].guests.push(other);
        }
        done[next] = true;
        order.push(next);
    }
    order
}

fn meet(a: &Body, b: &Body) -> bool {
    a.lumps().any(|one| b.lumps().any(|other| one.near(other, REACH)))
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

/// Whether the inside of a part is shut off all round: by its own walls, or by others that a side without one is in.
pub(super) fn is_closed(
    house: &House,
    solutions: &[Option<PartSolution>],
    bodies: &[Body],
    near: &[Vec<usize>],
    part: usize,
) -> bool {
    let (Some(solution), Some(own)) = (&solutions[part], &bodies[part].envelope) else { return false };
    let place = solution.stand.house_from_part;
    let others = || near[part].iter().filter_map(|&k| bodies[k].outer.as_ref());
    let within = |p: &P3| others().any(|lump| lump.excess(p) < AGAINST);
    let open = house.parts[part].sides.iter().zip(&solution.sides).filter(|(side, _)| !side.wall);
    open.into_iter().all(|(_, side)| {
        let out = place.rotation * V3::new(-side.inward.x, -side.inward.y, 0.0);
        let faces = own.solid.faces().filter(|f| f.normal.dot(&out) > FACES);
        faces.into_iter().all(|face| points_of(&face.corners).all(|p| within(&p)))
    })
}

/// The corners of a face, its middle, and points between.
fn points_of(corners: &[P3]) -> impl Iterator<Item = P3> + '_ {
    let middle = corners.iter().map(|p| p.coords).sum::<V3>() / corners.len().max(1) as f64;
    let shares = [0.02, 0.25, 0.5, 0.75, 1.0];
    corners.iter().flat_map(move |p| shares.map(|s| P3::from(p.coords + (middle - p.coords) * s)))
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
    let turned = |s: &Slope| level(s).dot(&level(own)) / (level(s).norm() * level(own).norm());
    let opposite = roof.slopes.iter().filter(|s| turned(s) < OPPOSITE);
    let lines = opposite.filter_map(|other| own.lower_than(other));
    lines
        .map(|line| {
            let half = HalfSpace { normal: V3::new(line.normal.x, line.normal.y, 0.0), offset: line.offset };
            moved(&half, &whole.stand.house_from_part)
        })
        .collect()
}
