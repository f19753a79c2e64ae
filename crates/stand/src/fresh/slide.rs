//! Whether a slope slides down on fresh icing.

use super::{Icing, Waits};
use crate::stuff::GRAVITY;
use crate::told::{Matter, Spot, Told, between};
use crate::{Answer, Class, Range, Site};
use gable_plane::V3;
use gable_raise::{Prop, PropKind};
use gable_shell::JointKind;
use gable_words::tr;

/// An edge that looks this far down the slope is stopped by what it stands against: the sine of about 20°.
const STOPS: f64 = 0.34;
/// Less than this pulls on nothing that could slide, as the sine of the pitch.
const LEVEL: f64 = 0.01;
/// How biscuit rubs on a tin, a jar or card (from memory, low confidence).
const RUBS: Range = Range { low: 0.3, usual: 0.45, high: 0.6 };
/// Which share of the weight of a slope a prop under its lower edge takes: half of it lies nearer to the foot than to the
/// ridge; how much of that the wall takes is not known.
const PROPPED: Range = Range { low: 0.25, usual: 0.4, high: 0.5 };

/// A slope on fresh icing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Slide {
    /// The piece.
    pub(crate) piece: usize,
    /// What pulls it down the slope, N.
    pub(crate) pull: f64,
    /// What fresh icing holds, N.
    pub(crate) holds: Range,
    /// Whether its lower edge stands against something that has set, or on the board.
    pub(crate) stopped: bool,
    /// The share without any prop.
    pub(crate) alone: Range,
    /// The share with the prop of the guide; the same without one.
    pub(crate) propped: Range,
}

/// Every sloping piece as it is laid, bare of what is put on later.
pub(crate) fn slides(site: &Site<'_>, icing: &Icing) -> Vec<Slide> {
    let sloping = |k: &usize| {
        let out = site.pieces()[*k].outward();
        site.when[*k].is_some()
            && !site.pieces()[*k].role.is_upright()
            && site.downhill(*k).norm() > LEVEL
            && out.z > 0.0
    };
    (0..site.pieces().len()).filter(sloping).map(|k| slide(site, icing, k)).collect()
}

fn slide(site: &Site<'_>, icing: &Icing, piece: usize) -> Slide {
    let down = site.downhill(piece);
    let weight = site.weights[piece].raised().newton();
    let pull = weight * down.norm();
    let met = || site.joints(piece).filter(|(_, _, other)| other.is_none_or(|o| site.stands(o, piece)));
    let seats: f64 = met().map(|(_, joint, _)| site.seat(joint)).sum();
    let stopped = met().any(|(_, joint, other)| match other {
        None => true,
        Some(other) => site.has_set(other, piece) && stops(site, piece, joint, &down.normalize()),
    });
    let holds = icing.fresh * seats;
    let alone = if stopped { Range::exactly(0.0) } else { Range::exactly(pull) / holds };
    let propped = match site.props(piece).map(|p| p.kind).find(|kind| *kind != PropKind::Beside) {
        _ if stopped => alone,
        None => alone,
        Some(PropKind::Before) => Range::exactly(0.0),
        Some(_) => with_prop(pull, weight, down.norm(), holds),
    };
    Slide { piece, pull, holds, stopped, alone, propped }
}

/// A prop under the lower edge takes part of the weight square to the slope, and rubs.
fn with_prop(pull: f64, weight: f64, sine: f64, holds: Range) -> Range {
    let cosine = (1.0 - sine * sine).max(0.0).sqrt();
    let rubbed = |share: f64, rub: f64| (pull - share * rub * weight * cosine).max(0.0);
    Range {
        low: rubbed(PROPPED.high, RUBS.high) / holds.high,
        usual: rubbed(PROPPED.usual, RUBS.usual) / holds.usual,
        high: rubbed(PROPPED.low, RUBS.low) / holds.low,
    }
}

/// Whether the edge of a piece at a joint looks down the slope, so that what is there stops it. What lies under its face does not.
fn stops(site: &Site<'_>, piece: usize, joint: &gable_shell::Joint, down: &V3) -> bool {
    if matches!(joint.kind, JointKind::Eave | JointKind::Rake | JointKind::Layer) {
        return false;
    }
    let Some(along) = (joint.line[1] - joint.line[0]).try_normalize(1e-9) else { return false };
    let normal = site.pieces()[piece].house_from_piece * V3::z();
    let Some(edge) = along.cross(&normal).try_normalize(1e-9) else { return false };
    let Some(middle) = site.weights[piece].biscuit.middle() else { return false };
    let out = if edge.dot(&(joint.line[0] - middle)) > 0.0 { edge } else { -edge };
    out.dot(down) > STOPS
}

pub(super) fn told(site: &Site<'_>, icing: &Icing, waits: &Waits) -> Vec<Told> {
    slides(site, icing).iter().map(|slide| one(site, slide, waits)).collect()
}

fn one(site: &Site<'_>, slide: &Slide, waits: &Waits) -> Told {
    let foot = site.props(slide.piece).find(|p| p.kind != PropKind::Beside);
    let grams = |newton: f64| newton / GRAVITY * 1000.0;
    let pulls = between(Range::exactly(grams(slide.pull)), "g");
    let (class, reason) = if slide.stopped {
        (Class::Sound, tr!("pulls down the slope like {pulls}, and its lower edge stands against what has set"))
    } else {
        let holds = between(slide.holds.map(grams), "g");
        let reason = tr!("pulls down the slope like {pulls}; fresh icing holds {holds}");
        (with_care(slide, foot.is_some()), reason)
    };
    let remedy = match foot {
        _ if class == Class::Sound => String::new(),
        Some(prop) => keep(site, prop, slide, waits),
        None => tr!("hold its lower edge, or stand something before it, for {}", hours(waits.handle)),
    };
    let place = site.piece_spot(slide.piece, foot.map(|p| p.at));
    let number = Range::exactly(grams(slide.pull));
    let answer = Answer::<Spot> { class, number, share: slide.alone, reason, place };
    Told { matter: Matter::Slides, answer, unit: "g", remedy }
}

/// The class of a slope: with a prop that holds it no worse than that it needs the prop.
fn with_care(slide: &Slide, has_prop: bool) -> Class {
    let alone = Class::of(slide.alone);
    if has_prop && Class::of(slide.propped) < Class::Breaks { alone.min(Class::Care) } else { alone }
}

/// What the prop of the guide does.
fn keep(site: &Site<'_>, prop: &Prop, slide: &Slide, waits: &Waits) -> String {
    let (height, wait) = (site.about.solved.unit.print(prop.height), hours(waits.handle));
    match prop.kind {
        PropKind::Before => {
            tr!("let something heavy stand before its lower edge, {height} high or a little more, for {wait}")
        }
        _ if Class::of(slide.propped) == Class::Breaks => tr!(
            "prop it {height} high under its lower edge, and hold that edge for {wait}: what stands under it does not stop it, \
             and there is no level place before it"
        ),
        _ => tr!("keep the prop under its lower edge, {height} high, for {wait}"),
    }
}

/// '2 h', '1 to 3 h'.
pub(super) fn hours(range: Range) -> String {
    between(range, "h")
}
