//! Whether the first slope pushes the walls out before its neighbour stands.

use super::{Icing, Waits};
use crate::stuff::GRAVITY;
use crate::told::{Matter, Told, between, share as said};
use crate::{Answer, Class, Range, Site};
use gable_shell::JointKind;
use gable_words::tr;

/// Which share of a slope's weight lies on the wall at its eave: none knows how it divides between eave, rakes and props.
const ON_EAVE: Range = Range { low: 0.25, usual: 0.5, high: 1.0 };

/// A wall that a slope leans on with nothing on the other side yet.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Pushed {
    pub(super) wall: usize,
    pub(super) slope: usize,
    pub(super) joint: usize,
    /// What pushes its top out, N.
    pub(super) push: Range,
    /// What that turns it about its foot with, N mm.
    pub(super) turns: Range,
    /// What joints that can be handled hold against it, N mm.
    pub(super) holds: Range,
    /// The same for each N/mm² that icing holds, mm³.
    lever: f64,
}

/// Every wall under an eave while the slope on it is fresh.
pub(super) fn pushed(site: &Site<'_>, icing: &Icing) -> Vec<Pushed> {
    let pieces = site.pieces();
    let slopes = (0..pieces.len()).filter(|&k| site.when[k].is_some() && !pieces[k].role.is_upright());
    let of_slope = |slope: usize| {
        let eaves = site.joints(slope).filter(|(_, joint, _)| joint.kind == JointKind::Eave);
        eaves.filter_map(move |(j, _, wall)| wall.filter(|w| site.has_set(*w, slope)).map(|w| (slope, j, w)))
    };
    let found = slopes.into_iter().flat_map(of_slope);
    found.filter_map(|(slope, joint, wall)| one(site, icing, slope, joint, wall)).collect()
}

fn one(site: &Site<'_>, icing: &Icing, slope: usize, joint: usize, wall: usize) -> Option<Pushed> {
    let sine = site.downhill(slope).norm();
    if sine < 0.01 {
        return None;
    }
    let length = |j: usize| {
        let [a, b] = site.about.solved.joints[j].line;
        (b - a).norm()
    };
    let eaves: f64 = site.joints(slope).filter(|(_, j, _)| j.kind == JointKind::Eave).map(|(j, ..)| length(j)).sum();
    // Icing that flows bears square to the slope only: N = W cos, of which N sin pushes level.
    let weight = site.weights[slope].raised().newton() * length(joint) / eaves.max(1e-9);
    let push = ON_EAVE * (weight * sine * (1.0 - sine * sine).max(0.0).sqrt());
    let heights = || site.pieces()[wall].corners().map(|p| p.z);
    let (foot, top) = (heights().fold(f64::INFINITY, f64::min), heights().fold(f64::NEG_INFINITY, f64::max));
    let mut lever = 0.0;
    for (_, held, other) in site.joints(wall) {
        let area = site.seat(held);
        if other.is_some_and(|o| !site.has_set(o, slope)) {
            continue;
        }
        let middle = (held.line[0].z + held.line[1].z) / 2.0 - foot;
        lever += match held.kind {
            // The foot is stuck down over its thickness: a strip in bending, area × thickness / 6.
            JointKind::Base => area * site.pieces()[wall].thickness.mm() / 6.0,
            JointKind::Corner | JointKind::Abutment => area * middle.max(0.0),
            _ => 0.0,
        };
    }
    let (turns, holds) = (push * (top - foot), icing.handled * lever);
    Some(Pushed { wall, slope, joint, push, turns, holds, lever })
}

/// Hours that are tried before the first slope.
const WAITS: [f64; 6] = [3.0, 4.0, 6.0, 8.0, 12.0, 24.0];

/// The shortest wait after which the wall is better off, in words with what is asked then; else something that stands against it.
fn remedy(own: &Pushed, icing: &Icing, waits: &Waits) -> String {
    let now = own.turns / own.holds;
    let share = |hours: f64| own.turns / (icing.after(hours, waits) * own.lever);
    let helps = |hours: &f64| Class::of(share(*hours)) < Class::of(now);
    match WAITS.into_iter().find(helps) {
        Some(hours) => tr!(
            "let its corners set for {} h before the first slope ({} then)",
            gable_measure::decimal(hours, 0),
            said(share(hours))
        ),
        None => {
            tr!("let its corners cure overnight before the first slope, and stand something heavy outside against it")
                .to_owned()
        }
    }
}

pub(super) fn told(site: &Site<'_>, icing: &Icing, waits: &Waits) -> Vec<Told> {
    let mut all: Vec<Told> = Vec::new();
    for own in pushed(site, icing) {
        let share = own.turns / own.holds;
        let class = Class::of(share);
        let push = between(own.push.map(|n| n / GRAVITY * 1000.0), "g");
        let slope = &site.pieces()[own.slope].name;
        let reason = tr!(
            "{slope} pushes its top out like {push} until the slope across stands; that asks {} of what its joints hold by then",
            said(share)
        );
        let remedy = if class == Class::Sound { String::new() } else { remedy(&own, icing, waits) };
        let [a, b] = site.about.solved.joints[own.joint].line;
        let mut place = site.piece_spot(own.wall, Some(nalgebra::center(&a, &b)));
        place.joint = Some(own.joint);
        let number = own.push.map(|n| n / GRAVITY * 1000.0);
        all.push(Told {
            matter: Matter::Pushes,
            answer: Answer { class, number, share, reason, place },
            unit: "g",
            remedy,
        });
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: icing of 0.05 N/mm² after 2 h and 0.2 after 14 h holds 0.1 after 6 h. What asks 60 % of it at first asks 30 % then, which is
    /// sound; after 4 h it would be 40 %.
    #[test]
    fn the_shortest_wait_that_helps_is_told() {
        let icing = Icing { fresh: Range::exactly(5e-4), handled: Range::exactly(0.05), cured: Range::exactly(0.2) };
        let waits = Waits { handle: Range::exactly(2.0), cure: Range::exactly(14.0) };
        let own = |share: f64| Pushed {
            wall: 0,
            slope: 0,
            joint: 0,
            push: Range::exactly(1.0),
            turns: Range::exactly(share * 50.0),
            holds: Range::exactly(50.0),
            lever: 1000.0,
        };
        assert_eq!(remedy(&own(0.6), &icing, &waits), "let its corners set for 6 h before the first slope (30 % then)");
        // Four times as strong is all that it becomes: what asks for 500 % asks for 125 %.
        assert!(remedy(&own(5.0), &icing, &waits).contains("something heavy outside"));
    }
}
