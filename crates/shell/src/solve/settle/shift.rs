//! Giving a measure of a part another size.

use super::gauge::{self, eave};
use crate::{Gives, House, Measure, Outline, Part, Side, SideId, Top};
use gable_measure::{Angle, Length, Pitch};

/// A ridge this near to where it is meant to be is there, mm: hundred times finer than what a relation promises.
const THERE: f64 = 1e-8;

/// The part with a measure of another size, mm from its own foot; none when it cannot have it.
pub(super) fn with(
    house: &House,
    part: &Part,
    measure: &Measure,
    gives: Gives,
    (now, target): (f64, f64),
    lid_follows: bool,
) -> Option<Part> {
    let mut new = part.clone();
    match measure {
        Measure::Width | Measure::Depth => set_extent(&mut new.outline, measure, target / now, target)?,
        Measure::Eave(Some(side)) => set_eave(&mut new, side, target)?,
        Measure::Eave(None) => set_eaves(&mut new, target, lid_follows)?,
        Measure::Lid => new.lid.as_mut()?.height = Length::mm_of(target),
        Measure::Ridge => match gives {
            Gives::Walls => new.sides.iter_mut().for_each(|s| lift(&mut s.top, Length::mm_of(target - now))),
            Gives::Pitch => new = steepened(house, part, target)?,
        },
    }
    let there = *measure != Measure::Ridge || gauge::ridge(house, &new).is_some_and(|r| (r - target).abs() < THERE);
    there.then_some(new)
}

/// None for a free outline, whose corners are typed one by one.
fn set_extent(outline: &mut Outline, measure: &Measure, factor: f64, target: f64) -> Option<()> {
    match outline {
        Outline::Rectangle { width, .. } if *measure == Measure::Width => *width = Length::mm_of(target),
        Outline::Rectangle { depth, .. } => *depth = Length::mm_of(target),
        Outline::Polygon { side, .. } => *side = *side * factor,
        Outline::HalfPolygon { width, .. } => *width = *width * factor,
        Outline::Free { .. } => return None,
    }
    Some(())
}

fn set_eave(part: &mut Part, side: &SideId, target: f64) -> Option<()> {
    let side = part.sides.iter_mut().find(|s| &s.id == side)?;
    let by = target - eave(side)?;
    lift(&mut side.top, Length::mm_of(by));
    set_height(side, target);
    Some(())
}

/// All walls to one height; half-hips and lid rise with them.
fn set_eaves(part: &mut Part, target: f64, lid_follows: bool) -> Option<()> {
    let old = part.sides.iter().filter_map(eave).reduce(f64::max)?;
    for side in &mut part.sides {
        let by = target - eave(side).unwrap_or(old);
        lift(&mut side.top, Length::mm_of(by));
        set_height(side, target);
    }
    if let Some(lid) = part.lid.as_mut().filter(|_| !lid_follows) {
        lid.height += Length::mm_of(target - old);
    }
    Some(())
}

/// Exactly, without the noise of adding.
fn set_height(side: &mut Side, target: f64) {
    if let Top::Eave { height, .. } | Top::Knee { height, .. } = &mut side.top {
        *height = Length::mm_of(target);
    }
}

/// Height of the highest wall under a slope; without any, of the lid.
pub(in crate::solve) fn height_of(part: &Part) -> Option<Length> {
    let highest = part.sides.iter().filter_map(eave).reduce(f64::max).map(Length::mm_of);
    highest.or_else(|| part.lid.map(|lid| lid.height))
}

/// The highest wall under a slope to a height, the others in proportion; without any, the lid. Slopes keep their pitch,
/// or the height of the ridge where that is what was typed; what lies higher moves as much as the highest wall.
pub(in crate::solve) fn with_heights(part: &mut Part, height: Length) {
    let Some(old) = height_of(part).map(Length::mm) else { return };
    let by = height - Length::mm_of(old);
    for side in &mut part.sides {
        match &mut side.top {
            Top::Eave { height: own, .. } => *own = *own * (height.mm() / old),
            Top::HalfHip { start, .. } => *start += by,
            Top::Knee { height: own, knee, .. } => {
                let new = *own * (height.mm() / old);
                *knee += new - *own;
                *own = new;
            }
            Top::Gable { .. } => {}
        }
    }
    if let Some(lid) = &mut part.lid {
        lid.height += by;
    }
}

/// Raises a wall with the slopes over it.
pub(in crate::solve) fn lift(top: &mut Top, by: Length) {
    let lift_pitch = |pitch: &mut Pitch| {
        if let Pitch::RidgeHeight(ridge) = pitch {
            *ridge += by;
        }
    };
    match top {
        Top::Eave { height: foot, pitch, .. } | Top::HalfHip { start: foot, pitch, .. } => {
            *foot += by;
            lift_pitch(pitch);
        }
        Top::Knee { height, lower, knee, upper, .. } => {
            *height += by;
            *knee += by;
            lift_pitch(lower);
            lift_pitch(upper);
        }
        Top::Gable { .. } => {}
    }
}

/// The part with every slope steeper, or flatter, in one proportion of rise to run, so that the ridge comes to a height.
fn steepened(house: &House, part: &Part, target: f64) -> Option<Part> {
    /// From 80 degrees to 5, or back, is a factor of 65.
    const MOST: f64 = 70.0;
    /// Enough halvings of that to be down at rounding.
    const STEPS: usize = 100;
    let over = |factor: f64| Some(gauge::ridge(house, &scaled(part, factor))? - target);
    let start = over(1.0)?;
    // What cannot be worked out is too steep on the way up, too flat on the way down.
    let beyond = if start < 0.0 { f64::INFINITY } else { f64::NEG_INFINITY };
    let over = |factor: f64| over(factor).unwrap_or(beyond);
    let (mut low, mut high) = match start < 0.0 {
        true => ((1.0, start), (MOST, beyond)),
        false => ((1.0 / MOST, beyond), (1.0, start)),
    };
    for step in 0..STEPS {
        // The ridge rises evenly with the factor under plain slopes: then the straight line between two points hits.
        // Bends would hold it up, so every other step halves.
        let straight = low.0 - low.1 * (high.0 - low.0) / (high.1 - low.1);
        let hits = step % 2 == 0 && straight > low.0 && straight < high.0;
        let factor = if hits { straight } else { (low.0 * high.0).sqrt() };
        let value = over(factor);
        if value.abs() < THERE / 10.0 {
            return Some(scaled(part, factor));
        }
        *if value < 0.0 { &mut low } else { &mut high } = (factor, value);
    }
    None
}

/// Every slope with its rise over run times a factor.
fn scaled(part: &Part, factor: f64) -> Part {
    let mut part = part.clone();
    for side in &mut part.sides {
        match &mut side.top {
            Top::Eave { height: foot, pitch, .. } | Top::HalfHip { start: foot, pitch, .. } => {
                scale(pitch, *foot, factor);
            }
            Top::Knee { height, lower, knee, upper, .. } => {
                scale(lower, *height, factor);
                scale(upper, *knee, factor);
            }
            Top::Gable { .. } => {}
        }
    }
    part
}

fn scale(pitch: &mut Pitch, foot: Length, factor: f64) {
    *pitch = match *pitch {
        Pitch::Angle(angle) => Pitch::Angle(Angle::of_slope(angle.tan() * factor, 1.0)),
        Pitch::RiseInRun { rise, run } => Pitch::RiseInRun { rise: rise * factor, run },
        Pitch::RidgeHeight(ridge) => Pitch::RidgeHeight(foot + (ridge - foot) * factor),
    };
}
