//! What each joint carries once it has set.

use super::Icing;
use crate::stuff::GRAVITY;
use crate::told::{Matter, Spot, Told, between, share as said};
use crate::{Answer, Class, Range, Site};
use gable_plane::V3;
use gable_shell::{Joint, JointEnd, JointKind};
use gable_words::tr;

/// What goes through a joint in the finished house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carried {
    /// The joint, as an index into [`gable_shell::Solved::joints`].
    pub joint: usize,
    /// The weight that goes through it, N.
    pub load: f64,
    /// The part of it that slides or hangs on the icing instead of pressing on it, N.
    pub hangs: f64,
    /// Area that is stuck together, mm².
    pub area: f64,
}

impl Carried {
    /// The stress that the icing takes by sticking, N/mm².
    pub fn stress(&self) -> f64 {
        if self.area > 0.0 { self.hangs / self.area } else { 0.0 }
    }
}

/// What goes through every joint that bears something: the weight of each piece, and of what rests on it, goes to what stood
/// before it, in proportion to the length of the joints. Ridges and hips bear only where nothing is under a piece, for icing
/// in a seam may have cracked. What presses slopes apart at their feet is told of the walls (`push`).
pub fn carried(site: &Site<'_>) -> Vec<Carried> {
    let count = site.pieces().len();
    let mut load: Vec<f64> = site.weights.iter().map(|w| w.done().newton()).collect();
    let mut order: Vec<usize> = (0..count).filter(|&k| site.when[k].is_some()).collect();
    order.sort_by_key(|&k| std::cmp::Reverse(site.when[k]));
    let mut through = vec![(0.0, 0.0); site.about.solved.joints.len()];
    for piece in order {
        let bears = bearers(site, piece);
        let whole: f64 = bears.iter().map(|(_, joint, _)| length(joint)).sum();
        for (j, joint, other) in bears {
            let force = load[piece] * length(joint) / whole.max(1e-9);
            let normal = seat_normal(site, piece, joint);
            through[j].0 += force;
            through[j].1 += force * (V3::z() - normal * normal.z).norm();
            other.into_iter().for_each(|o| load[o] += force);
        }
    }
    let one = |(joint, (load, hangs)): (usize, (f64, f64))| {
        let area = site.seat(&site.about.solved.joints[joint]);
        (load > 0.0).then_some(Carried { joint, load, hangs, area })
    };
    through.into_iter().enumerate().filter_map(one).collect()
}

fn length(joint: &Joint) -> f64 {
    (joint.line[1] - joint.line[0]).norm()
}

/// The joints on which a piece rests: those over what is under it, or else all with what stood before.
fn bearers<'s>(site: &'s Site<'_>, piece: usize) -> Vec<(usize, &'s Joint, Option<usize>)> {
    let before = |o: &Option<usize>| o.is_none_or(|o| site.stands(o, piece));
    let all: Vec<_> = site.joints(piece).filter(|(_, _, other)| before(other)).collect();
    let under = |joint: &Joint| {
        matches!(joint.kind, JointKind::Base | JointKind::Eave | JointKind::Rake | JointKind::Layer)
            || joint.ends.contains(&JointEnd::Board)
    };
    let below: Vec<_> = all.iter().copied().filter(|(_, joint, _)| under(joint)).collect();
    if below.is_empty() { all } else { below }
}

/// The unit direction square to the face on which a piece is stuck at a joint.
fn seat_normal(site: &Site<'_>, piece: usize, joint: &Joint) -> V3 {
    let own = &site.pieces()[piece];
    let normal = own.house_from_piece * V3::z();
    match joint.kind {
        JointKind::Base => V3::z(),
        JointKind::Eave | JointKind::Rake | JointKind::Layer => normal,
        JointKind::Abutment | JointKind::Corner => match &joint.ends[0] {
            JointEnd::Piece(k) if *k != piece => site.pieces()[*k].house_from_piece * V3::z(),
            _ => edge_normal(joint, &normal),
        },
        JointKind::Ridge | JointKind::Hip | JointKind::Knee | JointKind::Valley => edge_normal(joint, &normal),
    }
}

fn edge_normal(joint: &Joint, normal: &V3) -> V3 {
    (joint.line[1] - joint.line[0]).cross(normal).try_normalize(1e-9).unwrap_or(*normal)
}

/// The joints that are asked for much, and the one that is asked for most.
pub(super) fn told(site: &Site<'_>, icing: &Icing) -> Vec<Told> {
    let share = |c: &Carried| Range::exactly(c.stress()) / icing.cured;
    let mut all = carried(site);
    all.sort_by(|a, b| b.stress().total_cmp(&a.stress()).then(a.joint.cmp(&b.joint)));
    let told = all.iter().enumerate().filter(|(k, c)| *k == 0 || Class::of(share(c)) > Class::Sound);
    told.map(|(k, c)| one(site, c, share(c), k == 0)).collect()
}

fn one(site: &Site<'_>, own: &Carried, share: Range, most: bool) -> Told {
    let joint = &site.about.solved.joints[own.joint];
    let grams = |n: f64| Range::exactly(n / GRAVITY * 1000.0);
    let class = Class::of(share);
    let first = if most { tr!("of all joints it is asked for most: ") } else { "" };
    let reason = tr!(
        "{first}{} hang on its icing, {} of what it holds when it has cured",
        between(grams(own.hangs), "g"),
        said(share)
    );
    let remedy =
        if class == Class::Sound { "" } else { tr!("strengthen it with icing inside, and let it cure overnight") };
    let names: Vec<&str> = joint
        .ends
        .iter()
        .filter_map(|e| if let JointEnd::Piece(k) = e { Some(site.pieces()[*k].name.as_str()) } else { None })
        .collect();
    let name = tr!("Joint {}, {} ({})", joint.letter, joint.kind.words(), names.join(tr!(" and ")));
    let at = Some(nalgebra::center(&joint.line[0], &joint.line[1]));
    let place = Spot { piece: None, joint: Some(own.joint), at, name };
    let answer = Answer { class, number: grams(own.hangs), share, reason, place };
    Told { matter: Matter::Carries, answer, unit: "g", remedy: remedy.to_owned() }
}
