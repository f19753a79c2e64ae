//! Sizes that follow others, set before anything is worked out.
//!
//! A relation types a size for the person: what it sets lies in the same fields, and everything after it only reads
//! those. Relations are settled one by one, each after all that it reads; those that go round in a circle are left.

mod ask;
mod gauge;
mod order;
mod shift;
mod slots;
mod tell;
#[cfg(test)]
mod tests;

use crate::file;
use crate::{House, Measure, Measured, Outline, Part, Relation};
use gable_measure::Finding;
use gable_words::tr;
use gauge::NoMeasure;
pub(super) use gauge::foot as foot_of;
use order::order;
pub(super) use shift::{height_of, lift, with_heights};

/// Sizes nearer than this to what they follow are left alone, mm, so that settling twice changes nothing.
const SAME: f64 = 1e-9;

/// Why a size cannot follow.
#[derive(Clone, Debug, PartialEq)]
enum Trouble {
    /// A part is not there.
    NoPart(Measured),
    /// A part has no such measure.
    NoMeasure(Measured),
    /// The walls of a part have different heights.
    Differs(Measured),
    /// A height would follow a size of a plan, or the other way round.
    OtherKind,
    /// Something else sets the same size.
    Taken(Relation),
    /// These relations go round in a circle.
    Circle(Vec<Measured>),
    /// The part cannot have the size, mm from its own foot.
    Beyond(f64, String),
    /// A part cannot be placed, and something else says so.
    Lost,
}

/// The house with every size that follows another set to what it follows, and what keeps a size from following; such
/// a size stays as it was typed.
///
/// Settling a settled house changes nothing.
pub fn settle(house: &House) -> (House, Vec<Finding>) {
    let mut settled = house.clone();
    let mut troubles: Vec<(usize, Trouble)> = Vec::new();
    for (relation, trouble) in order(house) {
        let trouble = trouble.or_else(|| obey(&mut settled, &house.relations[relation]).err());
        troubles.extend(trouble.map(|t| (relation, t)));
    }
    troubles.sort_by_key(|(relation, _)| *relation);
    let told = troubles.iter().filter_map(|(r, trouble)| tell::tell(&settled, *r, trouble)).collect();
    (settled, told)
}

/// Sets what follows.
fn obey(house: &mut House, relation: &Relation) -> Result<(), Trouble> {
    let index = |m: &Measured| house.parts.iter().position(|p| p.id == m.part);
    let (Some(follower), Some(leader)) = (index(&relation.follower), index(&relation.leader)) else {
        return Err(Trouble::Lost);
    };
    let own = |k: usize, m: &Measured| {
        gauge::own(house, &house.parts[k], &m.measure).map_err(|why| match why {
            NoMeasure::None => Trouble::NoMeasure(m.clone()),
            NoMeasure::Differs => Trouble::Differs(m.clone()),
        })
    };
    let mut target = own(leader, &relation.leader)? + relation.offset.mm();
    if relation.follower.measure.is_height() && leader != follower {
        let foot = |k: usize| gauge::foot(house, k).ok_or(Trouble::Lost);
        target += foot(leader)? - foot(follower)?;
    }
    let now = match own(follower, &relation.follower) {
        // Set to one height they do not differ any more.
        Err(Trouble::Differs(_)) => f64::NAN,
        now => now?,
    };
    if (now - target).abs() <= SAME {
        return Ok(());
    }
    let part = moved(house, follower, relation, (now, target))?;
    house.parts[follower] = part;
    Ok(())
}

/// The part with its new size, unless that lets it break bounds that it kept.
fn moved(house: &House, k: usize, relation: &Relation, sizes: (f64, f64)) -> Result<Part, Trouble> {
    let Measured { part, measure } = &relation.follower;
    let lid = Measured { part: part.clone(), measure: Measure::Lid };
    let lid_follows = house.followed(&lid).is_some();
    let beyond = |why: String| Trouble::Beyond(sizes.1, why);
    let old = &house.parts[k];
    if matches!(old.outline, Outline::Free { .. }) && !measure.is_height() {
        return Err(Trouble::NoMeasure(relation.follower.clone()));
    }
    let new = shift::with(house, old, measure, relation.gives, sizes, lid_follows);
    let new = new.ok_or_else(|| beyond(tr!("no pitch from 5° to 80° brings the ridge there").to_owned()))?;
    let before = file::faults_of(house, old);
    match file::faults_of(house, &new).into_iter().find(|fault| !before.contains(fault)) {
        Some(fault) => Err(beyond(fault.what)),
        None => Ok(new),
    }
}
