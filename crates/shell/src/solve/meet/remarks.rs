//! What the meeting of parts gives reason to say.

use super::contacts::Contact;
use super::lump::Lump;
use super::{Body, frame_in_house, moved, order, within};
use crate::solve::draft::Draft;
use crate::solve::findings::Findings;
use crate::solve::part::PartSolution;
use crate::solve::plate::Cause;
use crate::{House, Place, Role};
use gable_plane::{HalfSpace, P2, P3};
use gable_words::tr;

/// A foot in the air shorter than this is not worth a word, mm.
const SHORT: f64 = 2.0;
/// What is this far in front of an opening covers it, mm.
const IN_FRONT: f64 = 2.0;
/// Share of the height of an opening that a floor before it may cover.
const FOOT: f64 = 0.25;
/// What to do about a part inside another.
const HIDDEN: &str = "move it out, make it larger, or take it away";
/// A point this near to a plane is on it, mm.
const ON_PLANE: f64 = 1e-6;
/// Arcs of openings are followed this closely, mm.
const ARC_TOLERANCE: f64 = 0.1;
/// An open back lower than this is a line of icing, mm.
const LOW: f64 = 0.5;

pub(super) fn all(
    house: &House,
    solutions: &[Option<PartSolution>],
    bodies: &[Body],
    contacts: &[Contact],
    findings: &mut [Findings],
) {
    super::levels::near(house, solutions, bodies, findings);
    super::bridges::narrow(solutions, bodies, findings);
    covered(house, solutions, bodies, findings);
    open_behind(house, solutions, bodies, findings);
    for (k, part) in house.parts.iter().enumerate() {
        let Some(solution) = &solutions[k] else { continue };
        if bodies[k].pieces.is_empty() {
            continue;
        }
        let name = &part.name;
        let alone = !contacts.iter().any(|c| c.first.0 == k || c.second.0 == k);
        if solution.drafts.iter().all(|d| d.is_gone()) {
            let what = tr!("nothing of {name} shows: it lies inside another part");
            findings[k].caution("part-hidden", "place", what, HIDDEN);
        } else if alone && !bodies[k].hosts.is_empty() && has_lost_its_walls(solution) {
            let what = tr!("the walls of {name} lie inside other parts, and what is left of it touches nothing");
            findings[k].caution("part-hidden", "place", what, HIDDEN);
        } else if part.place.host().is_some() && alone {
            let what = tr!("{name} touches nothing of the part that it stands by");
            findings[k].caution("touches-nothing", "place", what, tr!("move it nearer, or place it on the board"));
        } else if !matches!(part.place, Place::Ground(_)) && !solution.stand.on_board {
            let what = tr!("part of the walls of {name} hangs in the air");
            if in_the_air(solution) {
                findings[k].caution(
                    "hangs-in-the-air",
                    "place",
                    what,
                    tr!("move it further onto the roof, or make it smaller"),
                );
            }
        }
    }
}

/// Says which doors and windows are behind another part that has no passage there.
fn covered(house: &House, solutions: &[Option<PartSolution>], bodies: &[Body], findings: &mut [Findings]) {
    for (host, body) in bodies.iter().enumerate() {
        let Some(solution) = &solutions[host] else { continue };
        for draft in &solution.drafts {
            let frame = frame_in_house(solution, draft);
            for opening in draft.openings.iter().filter(|o| !o.id.0.starts_with("passage-")) {
                let ring = opening.contour.flatten(ARC_TOLERANCE);
                let in_front = |p: &P2| frame.point(*p, -IN_FRONT);
                let points: Vec<P3> = ring.iter().map(in_front).collect();
                let behind = |guest: &&usize| is_behind(&points, &bodies[**guest], solutions[**guest].as_ref());
                let Some(&guest) = body.guests.iter().find(behind) else { continue };
                let what = tr!("{} is behind {}", opening.name, house.parts[guest].name);
                let remedy = tr!("move one of them, or give the part a passage");
                findings[host].caution("opening-behind", "openings", what, remedy);
            }
        }
    }
}

/// Whether a guest covers points round an opening: a closed one with all of its body, an open one with its pieces. A floor may
/// stand before the foot of a door.
fn is_behind(points: &[P3], guest: &Body, solution: Option<&PartSolution>) -> bool {
    let within = |lump: &Lump| points.iter().any(|p| lump.holds(p));
    if guest.envelope.is_some() {
        return guest.outer.as_ref().is_some_and(within);
    }
    let heights = points.iter().map(|p| p.z);
    let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), z| (l.min(z), h.max(z)));
    let is_floor = |d: &Draft| matches!(d.role, Role::Floor | Role::Layer(_));
    let covers = |(draft, body): (&Draft, &super::PieceBody)| {
        body.lumps
            .iter()
            .any(|lump| within(lump) && (!is_floor(draft) || lump.bounds().1.z > low + FOOT * (high - low)))
    };
    solution.is_some_and(|s| s.drafts.iter().zip(&guest.pieces).any(covers))
}

/// Says which parts come out of what closes them at their back, where they have no wall: parts on a slope above the roof
/// behind them, others by less than would make them open on purpose.
fn open_behind(house: &House, solutions: &[Option<PartSolution>], bodies: &[Body], findings: &mut [Findings]) {
    for (guest, part) in house.parts.iter().enumerate() {
        let Some(host) = part.place.host().and_then(|id| house.parts.iter().position(|p| &p.id == id)) else {
            continue;
        };
        let others: Vec<&Lump> = bodies[guest].hosts.iter().filter_map(|&h| bodies[h].outer.as_ref()).collect();
        let out = |p: &P3| others.iter().map(|o| o.excess(p)).fold(f64::INFINITY, f64::min);
        let back = back(house, solutions, bodies, guest);
        let open = back.iter().filter(|p| out(p) > LOW);
        let behind = &house.parts[host].name;
        let (what, remedy) = if matches!(part.place, Place::OnSlope { .. }) {
            let Some(roof) = &bodies[host].outer else { continue };
            let rise = open.map(|p| above(roof, p)).fold(0.0, f64::max);
            if rise <= LOW {
                continue;
            }
            let by = findings[guest].print(rise);
            let what =
                tr!("the inside of {} rises {by} above the roof of {behind} at its back, which stays open", part.name);
            (what, tr!("make it lower by as much, or put it astride the ridge"))
        } else {
            let by = open.map(out).fold(0.0, f64::max);
            if bodies[guest].envelope.is_none() || by <= LOW || !by.is_finite() {
                continue;
            }
            let by = findings[guest].print(by);
            let what = tr!("the inside of {} comes {by} out of {behind} at its back, which stays open", part.name);
            (what, tr!("make it lower or shorter, give it a wall there, or fill the hole with icing"))
        };
        findings[guest].caution("open-behind", "place", what, remedy);
    }
}

/// Corners of the inside of a part where it ends without a wall: at a side that has none or, on a slope, at the ridge.
fn back(house: &House, solutions: &[Option<PartSolution>], bodies: &[Body], guest: usize) -> Vec<P3> {
    let Some(solution) = &solutions[guest] else { return Vec::new() };
    let Some(own) = within(solution, |_| solution.gap) else { return Vec::new() };
    let hosts = bodies[guest].hosts.iter().filter_map(|&h| Some((h, solutions[h].as_ref()?)));
    let ridges: Vec<HalfSpace> = hosts.flat_map(|(h, whole)| order::beyond_ridge(house, guest, h, whole)).collect();
    let sides = house.parts[guest].sides.iter().zip(&solution.sides).filter(|(side, _)| !side.wall);
    let place = solution.stand.house_from_part;
    let bare = sides.map(|(_, plan)| moved(&plan.half_space(0.0), &place));
    let ends: Vec<HalfSpace> = ridges.iter().copied().chain(bare).collect();
    let Some(kept) = own.solid.clip_all(&ridges) else { return Vec::new() };
    kept.corners().iter().filter(|p| ends.iter().any(|end| end.excess(p).abs() < ON_PLANE)).copied().collect()
}

/// How far a point is above a roof, mm.
fn above(roof: &Lump, p: &P3) -> f64 {
    let over = roof.halves.iter().filter(|h| h.normal.z > ON_PLANE).map(|h| h.excess(p) / h.normal.z);
    over.fold(f64::NEG_INFINITY, f64::max)
}

fn has_lost_its_walls(solution: &PartSolution) -> bool {
    let mut walls = solution.drafts.iter().filter(|d| matches!(d.role, Role::Wall(_))).peekable();
    walls.peek().is_some() && walls.all(|d| d.is_gone())
}

/// Whether a wall of a part off the board still has some of its foot: nothing was there to cut it.
fn in_the_air(solution: &PartSolution) -> bool {
    let walls = solution.drafts.iter().filter(|d| matches!(d.role, Role::Wall(_)));
    walls.into_iter().any(|wall| {
        let feet = wall.edges_of(Cause::Base).into_iter().map(|e| wall.edge_in_part(e));
        feet.map(|[a, b]| (b - a).norm()).sum::<f64>() > SHORT
    })
}
