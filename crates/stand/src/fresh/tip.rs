//! Whether a wall that stands alone tips.

use super::Waits;
use super::slide::hours;
use crate::stuff::GRAVITY;
use crate::told::{Matter, Told, between};
use crate::{Answer, Class, Range, Site};
use gable_plane::V3;
use gable_raise::PropKind;
use gable_words::tr;

/// How far out of plumb a wall stands when it is set by hand, as a slope: 1 to 4° (an assumption).
const LEAN: Range = Range { low: 0.017, usual: 0.035, high: 0.07 };

/// A wall or post that nothing across it steadies yet.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Lone {
    /// The piece.
    pub(super) piece: usize,
    /// How far its weight lies from the middle of its foot, mm: what is stuck on one face draws it over.
    pub(super) off: f64,
    /// Half its thickness, mm.
    pub(super) half: f64,
    /// How high its weight acts above its foot, mm.
    pub(super) middle: f64,
    /// A push at its top that tips it when it stands plumb, N.
    pub(super) push: f64,
}

/// The pieces that the guide props from beside, because nothing across them stands yet.
pub(super) fn lone(site: &Site<'_>) -> Vec<Lone> {
    let propped = |k: &usize| site.props(*k).any(|p| p.kind == PropKind::Beside);
    (0..site.pieces().len()).filter(propped).filter_map(|k| alone(site, k)).collect()
}

fn alone(site: &Site<'_>, k: usize) -> Option<Lone> {
    let piece = &site.pieces()[k];
    let load = site.weights[k].raised();
    let (at, bare) = (load.middle()?, site.weights[k].biscuit.middle()?);
    let out = piece.outward();
    let level = V3::new(out.x, out.y, 0.0).try_normalize(1e-9)?;
    let heights = || piece.corners().map(|p| p.z);
    let (foot, top) = (heights().fold(f64::INFINITY, f64::min), heights().fold(f64::NEG_INFINITY, f64::max));
    let (off, half) = (level.dot(&(at - bare)).abs(), piece.thickness.mm() / 2.0);
    let push = load.newton() * (half - off).max(0.0) / (top - foot).max(1e-9);
    Some(Lone { piece: k, off, half, middle: at.z - foot, push })
}

/// The share of its foot that a lone wall uses up, leaning as it is set: at 1 it tips.
pub(super) fn share(lone: &Lone) -> Range {
    LEAN.map(|lean| (lone.off + lone.middle * lean) / lone.half)
}

pub(super) fn told(site: &Site<'_>, waits: &Waits) -> Vec<Told> {
    let one = |lone: &Lone| {
        let share = share(lone);
        let grams = lone.push / GRAVITY * 1000.0;
        let push = between(Range::exactly(grams), "g");
        let degrees = ((lone.half - lone.off).max(0.0)).atan2(lone.middle).to_degrees();
        let lean = between(Range::exactly(degrees), "°");
        let lean = lean.replace(' ', "");
        let reason = tr!("stands alone: a push of {push} at its top tips it, or leaning by {lean}");
        let prop = site.props(lone.piece).find(|p| p.kind == PropKind::Beside);
        let remedy = prop.map_or_else(String::new, |p| {
            let height = site.about.solved.unit.print(p.height);
            tr!("keep the prop inside, {height} high or more, for {}", hours(waits.handle))
        });
        let place = site.piece_spot(lone.piece, prop.map(|p| p.at));
        // The guide props it, so that it does not come to the worst.
        let class = Class::of(share).min(Class::Care);
        let answer = Answer { class, number: Range::exactly(grams), share, reason, place };
        Told { matter: Matter::Tips, answer, unit: "g", remedy }
    };
    lone(site).iter().map(one).collect()
}
