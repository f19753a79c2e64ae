//! New doors and windows, each at a free place of its wall, and where those stand that cannot be built.

use crate::table::rounded;
use gable_measure::{Length, Severity, Unit};
use gable_plane::{Contour, P2};
use gable_shell::{House, Mode, Opening, OpeningId, Part, Place, Placing, SideId, Surface, Tier, Top};
use gable_words::tr;

/// What may be added to a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum New {
    /// A window half-way up.
    Window,
    /// A door on the ground.
    Door,
    /// A window in the slope.
    Skylight,
}

/// Adds a door or window where its wall has room for it, the nearer to the middle the better, and gives its name.
/// `None`, and nothing added, when there is no room.
pub(crate) fn add(house: &mut House, part: usize, side: &SideId, what: New) -> Option<OpeningId> {
    let fresh = new(house.parts.get(part)?, side, what, house.unit);
    let id = fresh.id.clone();
    let found = free_place(house, part, &fresh)?;
    house.parts.get_mut(part)?.openings.push(found);
    Some(id)
}

fn new(part: &Part, side: &SideId, what: New, unit: Unit) -> Opening {
    let (word, title) = match what {
        New::Window => ("window", tr!("Window")),
        New::Door => ("door", tr!("Door")),
        New::Skylight => ("skylight", tr!("Skylight")),
    };
    let free = |k: &usize| part.openings.iter().all(|o| o.id.0 != format!("{word}-{k}"));
    let number = (1..).find(free).unwrap_or(1);
    let mm = Length::mm_of;
    let inches = Length::inches;
    let (width, height, sill) = match (what, unit) {
        (New::Window | New::Skylight, Unit::Millimetre) => (mm(24.0), mm(28.0), mm(30.0)),
        (New::Door, Unit::Millimetre) => (mm(30.0), mm(55.0), Length::ZERO),
        (New::Window | New::Skylight, Unit::Inch(_)) => (inches(1.0), inches(1.125), inches(1.25)),
        (New::Door, Unit::Inch(_)) => (inches(1.25), inches(2.25), Length::ZERO),
    };
    Opening {
        id: OpeningId(format!("{word}-{number}")),
        name: format!("{title} {number}"),
        side: side.clone(),
        face: if what == New::Skylight { slope(part, side) } else { Surface::Wall },
        width,
        height,
        sill,
        mode: if what == New::Door { Mode::Cut } else { Mode::Glazed },
        ..Opening::default()
    }
}

/// The slope of a side that has most of its roof.
fn slope(part: &Part, side: &SideId) -> Surface {
    let knee = part.sides.iter().any(|s| &s.id == side && matches!(s.top, Top::Knee { .. }));
    Surface::Slope(if knee { Tier::Lower } else { Tier::Single })
}

/// Most places that are tried through the solver.
const MOST_TRIED: usize = 60;

/// The opening at the first place where the checks have nothing against it; else where they only warn.
fn free_place(house: &House, part: usize, opening: &Opening) -> Option<Opening> {
    // The part for itself: whatever stands against it is not the opening's doing.
    let mut alone = house.clone();
    alone.parts = vec![Part { place: Place::default(), ..house.parts.get(part)?.clone() }];
    alone.forget_lost();
    let there = alone.parts.first()?.openings.clone();
    let wall = wall_length(alone.parts.first()?, &opening.side)?;
    let mut second = None;
    let free = tries(opening, wall, house.unit).filter(|o| there.iter().all(|p| apart(o, p, wall)));
    for tried in free.take(MOST_TRIED) {
        match worst(&mut alone, &tried) {
            None => return Some(tried),
            Some(Severity::Blocking) => {}
            Some(_) => second = second.or(Some(tried)),
        }
    }
    second
}

/// Places along the wall from the middle outwards, then the same for smaller openings.
fn tries(opening: &Opening, wall: f64, unit: Unit) -> impl Iterator<Item = Opening> {
    let step = match unit {
        Unit::Millimetre => Length::mm_of(4.0),
        Unit::Inch(_) => Length::inches(0.25),
    };
    let count = (wall / 2.0 / step.mm()).clamp(0.0, 400.0) as i32;
    let steps = std::iter::once(0).chain((1..=count).flat_map(|k| [-k, k]));
    let offsets: Vec<Length> = steps.map(|k| step * f64::from(k)).collect();
    let opening = opening.clone();
    [1.0, 0.75, 0.5].into_iter().flat_map(move |share| {
        let sized = Opening {
            width: rounded(opening.width * share, unit),
            height: rounded(opening.height * share, unit),
            ..opening.clone()
        };
        let at = move |offset| Opening { placing: Placing::Centred { offset }, ..sized.clone() };
        offsets.clone().into_iter().map(at)
    })
}

/// Whether an opening is within its wall and none of its copies shares a place with one of another.
fn apart(a: &Opening, b: &Opening, wall: f64) -> bool {
    let within = |(low, high): &(P2, P2)| low.x >= 0.0 && high.x <= wall;
    let (own, others) = (a.layout(wall).boxes, b.layout(wall).boxes);
    let clear = |(low, high): &(P2, P2), (other_low, other_high): &(P2, P2)| {
        high.x <= other_low.x || other_high.x <= low.x || high.y <= other_low.y || other_high.y <= low.y
    };
    let elsewhere = a.side != b.side || a.face != b.face;
    own.iter().all(within) && (elsewhere || own.iter().all(|o| others.iter().all(|p| clear(o, p))))
}

/// The worst that the checks say of an opening in the only part of a house.
fn worst(alone: &mut House, opening: &Opening) -> Option<Severity> {
    let part = alone.parts.first_mut()?;
    let place = format!("parts[0].openings[{}]", part.openings.len());
    part.openings.push(opening.clone());
    let findings = gable_shell::solve(alone).findings;
    alone.parts.first_mut()?.openings.pop();
    findings.iter().filter(|f| f.place == place).map(|f| f.severity).filter(|s| *s != Severity::Note).max()
}

/// Length of the wall of a side, mm.
pub(crate) fn wall_length(part: &Part, side: &SideId) -> Option<f64> {
    let k = part.sides.iter().position(|s| &s.id == side)?;
    let corners = part.outline.corners();
    Some((corners.get((k + 1) % corners.len().max(1))? - corners.get(k)?).norm())
}

/// Outlines of an opening in its piece as it was typed, whether it can be built or not. In the piece of a wall x runs from
/// the right corner to the left one, seen from outside; in that of a slope from the left to the right.
pub(crate) fn as_typed(part: &Part, opening: &Opening) -> Vec<Contour> {
    let Some(length) = wall_length(part, &opening.side) else { return Vec::new() };
    let outline = |(low, high): (P2, P2)| {
        let seen = opening.shape.contour(low, high).unwrap_or_else(|| Contour::rectangle(low, high));
        match opening.face {
            Surface::Wall => seen.mapped(true, |p| P2::new(length - p.x, p.y)).reversed(),
            Surface::Slope(_) => seen,
        }
    };
    opening.layout(length).boxes.into_iter().map(outline).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn new_openings_go_beside_those_that_are_there_until_the_wall_is_full() {
        for unit in [Unit::Millimetre, Unit::Inch(gable_measure::InchStep::Sixteenth)] {
            let mut house = House::simple(unit);
            let side = SideId("front".to_owned());
            let mut added = 0;
            while add(&mut house, 0, &side, New::Window).is_some() {
                added += 1;
                assert!(added < 20, "the wall never fills");
                assert!(gable_shell::solve(&house).blocking().next().is_none());
            }
            for opening in &house.parts[0].openings {
                let Placing::Centred { offset } = opening.placing else { panic!("{opening:?}") };
                for size in [opening.width, opening.height, opening.sill, offset] {
                    let steps = unit.number(size) * if unit == Unit::Millimetre { 1.0 } else { 16.0 };
                    assert!((steps - steps.round()).abs() < 1e-9, "{opening:?}");
                }
            }
            assert!(added >= 2, "a window on each side of the door");
            let before = house.clone();
            assert_eq!(add(&mut house, 0, &side, New::Window), None);
            assert_eq!(house, before);
        }
    }
}
