//! Icing where parts meet: what was cut off a piece and is not filled by anything solid, and what hosts leave of a
//! part's own icing.

use super::contacts::{Contact, along};
use super::lump::Lump;
use super::tool::Owner;
use super::{Body, order};
use crate::House;
use crate::solve::part::PartSolution;
use gable_plane::{HalfSpace, P3, Solid};
use rayon::prelude::*;
use std::borrow::{Borrow, Cow};

/// Smaller bodies are dropped, mm³: a grain of a tenth of a millimetre. Larger ones, side by side, would leave a tunnel.
const CRUMB: f64 = 1e-3;

/// Gives every contact its icing and takes away icing where something else is.
pub(super) fn settle(
    house: &House,
    solutions: &mut [Option<PartSolution>],
    bodies: &[Body],
    order: &[usize],
    contacts: &mut [Contact],
) {
    for &part in order {
        if bodies[part].hosts.is_empty() && bodies[part].guests.is_empty() {
            continue;
        }
        let filled = filled(solutions, bodies, contacts, part);
        let beyond = beyond(house, solutions, bodies, part);
        own(solutions, bodies, part, &filled, &beyond);
        for host in &bodies[part].hosts {
            make_room(solutions, contacts, bodies, *host, part);
        }
        cut_off(solutions, bodies, contacts, part, &filled, &beyond);
    }
    for (part, solution) in solutions.iter_mut().enumerate() {
        let Some(solution) = solution else { continue };
        let place = solution.stand.house_from_part;
        for body in std::mem::take(&mut solution.loose) {
            take_up(solution, contacts, part, body.moved(&place));
        }
    }
}

/// Gives icing whose joint was cut away to the nearest joint of its part that is left.
fn take_up(solution: &mut PartSolution, contacts: &mut [Contact], part: usize, body: Solid) {
    let place = solution.stand.house_from_part;
    let middle = middle(&body);
    let own = solution.joints.iter().enumerate().map(|(k, j)| (off_line(&j.line.map(|p| place * p), &middle), k));
    let met = contacts.iter().enumerate().filter(|(_, c)| c.first.0 == part || c.second.0 == part);
    let met = met.map(|(k, c)| (off_line(&c.line, &middle), k));
    let nearest = |found: Option<(f64, usize)>| found.unwrap_or((f64::INFINITY, 0));
    let own = nearest(own.min_by(|a, b| a.0.total_cmp(&b.0)));
    let met = nearest(met.min_by(|a, b| a.0.total_cmp(&b.0)));
    if own.0 <= met.0 {
        if let Some(joint) = solution.joints.get_mut(own.1) {
            joint.icing.push(body.moved(&place.inverse()));
        }
    } else if let Some(contact) = contacts.get_mut(met.1) {
        contact.icing.push(body);
    }
}

fn middle(body: &Solid) -> P3 {
    let corners = body.corners();
    P3::from(corners.iter().fold(gable_plane::V3::zeros(), |s, p| s + p.coords) / corners.len().max(1) as f64)
}

/// Everything solid, or iced, in the hosts of a part.
fn filled<'a>(
    solutions: &[Option<PartSolution>],
    bodies: &'a [Body],
    contacts: &[Contact],
    part: usize,
) -> Vec<Cow<'a, Lump>> {
    let mut found = Vec::new();
    for &host in &bodies[part].hosts {
        found.extend(bodies[host].envelope.iter().chain(biscuit(&bodies[host])).map(Cow::Borrowed));
        let Some(solution) = &solutions[host] else { continue };
        let place = solution.stand.house_from_part;
        let own = solution.joints.iter().flat_map(|j| &j.icing).chain(&solution.loose).map(|s| s.moved(&place));
        let met = contacts.iter().filter(|c| c.second.0 == host).flat_map(|c| c.icing.iter().cloned());
        found.extend(own.chain(met).map(|s| Cow::Owned(Lump::new(s))));
    }
    found
}

/// What is left of all pieces.
fn biscuit(body: &Body) -> impl Iterator<Item = &Lump> {
    body.pieces.iter().flat_map(|p| &p.lumps)
}

/// The planes beyond which a part keeps nothing.
fn beyond(house: &House, solutions: &[Option<PartSolution>], bodies: &[Body], part: usize) -> Vec<HalfSpace> {
    let of_host = |&h: &usize| Some(order::beyond_ridge(house, part, h, solutions[h].as_ref()?));
    bodies[part].hosts.iter().filter_map(of_host).flatten().collect()
}

fn outside<L: Borrow<Lump>>(from: Lump, taken: &[L]) -> Vec<Lump> {
    let near = taken.iter().map(Borrow::borrow).filter(|tool| tool.near(&from, 0.0)).collect::<Vec<&Lump>>();
    near.into_iter().fold(vec![from], |rest, tool| rest.into_iter().flat_map(|l| tool.taken_from(l, CRUMB)).collect())
}

/// Takes hosts, and guests in overhangs that yield, out of a part's own icing.
fn own(
    solutions: &mut [Option<PartSolution>],
    bodies: &[Body],
    part: usize,
    filled: &[Cow<'_, Lump>],
    beyond: &[HalfSpace],
) {
    let Some(solution) = &mut solutions[part] else { return };
    let place = solution.stand.house_from_part;
    let back = place.inverse();
    let joints = solution.joints.par_iter_mut().map(|j| &mut j.icing);
    joints.chain([&mut solution.loose]).for_each(|bodies_of_joint| {
        let old = std::mem::take(bodies_of_joint);
        for body in old {
            let Some(body) = body.moved(&place).clip_all(beyond) else { continue };
            let lumps = outside(Lump::new(body), filled).into_iter().flat_map(|l| yielded(bodies, part, l));
            bodies_of_joint.extend(lumps.map(|l| l.solid.moved(&back)));
        }
    });
}

/// What of an icing body is left of it where guests rise through the overhang.
fn yielded(bodies: &[Body], part: usize, lump: Lump) -> Vec<Lump> {
    let guests: Vec<&Lump> = bodies[part].guests.iter().filter_map(|&g| bodies[g].outer.as_ref()).collect();
    if guests.iter().all(|g| !g.near(&lump, 0.0)) {
        return vec![lump];
    }
    let over_walls = lump.solid.clip_all(&bodies[part].sides).map(Lump::new);
    let mut rest: Vec<Lump> = lump.solid.without(&bodies[part].sides).into_iter().map(Lump::new).collect();
    for guest in guests {
        rest = rest.into_iter().flat_map(|l| guest.taken_from(l, CRUMB)).collect();
    }
    rest.into_iter().chain(over_walls).filter(|l| l.solid.volume() > CRUMB).collect()
}

/// A guest's biscuit may reach into what would be icing of the host, as a chimney's foot into an open ridge.
fn make_room(
    solutions: &mut [Option<PartSolution>],
    contacts: &mut [Contact],
    bodies: &[Body],
    host: usize,
    guest: usize,
) {
    let biscuit: Vec<&Lump> = biscuit(&bodies[guest]).collect();
    let Some(solution) = &mut solutions[host] else { return };
    let place = solution.stand.house_from_part;
    let back = place.inverse();
    let joints = solution.joints.iter_mut().map(|j| &mut j.icing);
    for icing in joints.chain([&mut solution.loose]) {
        if icing.is_empty() {
            continue;
        }
        let old = std::mem::take(icing);
        for body in old {
            let lump = Lump::new(body.moved(&place));
            if biscuit.iter().all(|b| !b.near(&lump, 0.0)) {
                icing.push(body);
            } else {
                icing.extend(outside(lump, &biscuit).into_iter().map(|l| l.solid.moved(&back)));
            }
        }
    }
    for contact in contacts.iter_mut().filter(|c| c.second.0 == host) {
        let old = std::mem::take(&mut contact.icing);
        contact.icing = old.into_iter().flat_map(|b| outside(Lump::new(b), &biscuit)).map(|l| l.solid).collect();
    }
}

/// Gives what was cut off the pieces of a part, and is not filled by its hosts, to the joints where it was cut.
fn cut_off(
    solutions: &mut [Option<PartSolution>],
    bodies: &[Body],
    contacts: &mut [Contact],
    part: usize,
    filled: &[Cow<'_, Lump>],
    beyond: &[HalfSpace],
) {
    let left = |(lump, owner): &(Lump, Owner)| {
        // Only what a square cut took over the walls; an overhang that yields leaves air.
        let yields = matches!(owner, Owner::Guest(_) | Owner::Beyond);
        let within = if yields { &bodies[part].sides[..] } else { &[] };
        let lump = lump.solid.clip_all(within.iter().chain(beyond)).map(Lump::new);
        lump.map_or_else(Vec::new, |lump| outside(lump, filled))
    };
    let lost = bodies[part].pieces.iter().enumerate().flat_map(|(d, body)| body.lost.iter().map(move |lost| (d, lost)));
    let lost: Vec<_> = lost.filter(|(_, (_, owner))| *owner != Owner::Opening).collect();
    let left: Vec<Vec<Lump>> = lost.par_iter().map(|(_, lost)| left(lost)).collect();
    for ((draft, (_, owner)), rests) in lost.into_iter().zip(left) {
        let host = match owner {
            Owner::Piece(p, d) => Some((*p, Some(*d))),
            Owner::Envelope(p) => Some((*p, None)),
            Owner::Itself | Owner::Guest(_) | Owner::Beyond | Owner::Opening => None,
        };
        for rest in rests {
            match host {
                Some(host) => give(solutions, contacts, part, draft, host, rest.solid),
                None => lay_aside(solutions, part, rest.solid),
            }
        }
    }
}

/// Puts a body of icing where it belongs: the contact it was cut for, else the nearest contact of the piece or part.
fn give(
    solutions: &mut [Option<PartSolution>],
    contacts: &mut [Contact],
    part: usize,
    draft: usize,
    (host, piece): (usize, Option<usize>),
    body: Solid,
) {
    let origin = |d: usize| solutions[part].as_ref().and_then(|s| s.drafts[d].fragment_of).unwrap_or(d);
    let middle = middle(&body);
    let rank = |c: &Contact| {
        let same_piece = origin(c.second.1) == draft;
        let same_host = c.first.0 == host && piece.is_none_or(|d| d == c.first.1);
        (!same_piece, !same_host)
    };
    let apart = |c: &Contact| off_line(&c.line, &middle);
    let own = contacts.iter_mut().filter(|c| c.second.0 == part);
    let best = own.min_by(|a, b| rank(a).cmp(&rank(b)).then(apart(a).total_cmp(&apart(b))));
    match best {
        Some(contact) => contact.icing.push(body),
        None => lay_aside(solutions, part, body),
    }
}

/// Keeps icing for the joint that is nearest in the end.
fn lay_aside(solutions: &mut [Option<PartSolution>], part: usize, body: Solid) {
    let Some(solution) = &mut solutions[part] else { return };
    let back = solution.stand.house_from_part.inverse();
    solution.loose.push(body.moved(&back));
}

/// Distance of a point from a stretch of a line, mm.
fn off_line(line: &[P3; 2], p: &P3) -> f64 {
    let (along, length) = (along(line), (line[1] - line[0]).norm());
    let at = (p - line[0]).dot(&along).clamp(0.0, length);
    (p - (line[0] + along * at)).norm()
}
