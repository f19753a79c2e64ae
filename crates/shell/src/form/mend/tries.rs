//! What might put a finding right: small changes first.

use super::Change;
use crate::form::arrange::moved;
use crate::{Decided, House, JointEnd, Measure, Measured, Outline, Part, PartId, Place, Solved};
use gable_measure::{Length, Unit};

/// How much is moved or added, smallest first.
fn steps(unit: Unit) -> [Length; 5] {
    match unit {
        Unit::Millimetre => [1.0, 2.0, 4.0, 8.0, 12.0].map(Length::mm_of),
        Unit::Inch(_) => [0.0625, 0.125, 0.25, 0.375, 0.5].map(Length::inches),
    }
}

/// Small changes that are tried before another part is cut.
const FEW: usize = 16;

/// The changes to try for a finding, in their order; none for kinds of findings that no small change puts right.
pub(super) fn for_finding(house: &House, solved: &Solved, finding: usize) -> Vec<Change> {
    let Some(found) = solved.findings.get(finding) else { return Vec::new() };
    let part = found.place.strip_prefix("parts[").and_then(|rest| rest.split_once(']')).map(|(number, _)| number);
    let Some(part) = part.and_then(|number| house.parts.get(number.parse::<usize>().ok()?)) else { return Vec::new() };
    match found.kind {
        "heights-nearly-level" => {
            let offers = solved.offers.iter().filter(|o| o.finding == finding);
            let level = offers.map(|o| Change::Level(o.relation.clone()));
            // Or more different.
            level.chain(small(house, part)).filter(|c| is_free(house, c)).collect()
        }
        "narrow-bridge" | "hangs-in-the-air" | "opening-behind" => {
            // Whoever is cut is the design's own business: only what is hardly seen comes before it.
            let mut all = small(house, part);
            let larger = all.split_off(FEW.min(all.len()));
            all.extend(swaps(house, solved, part));
            all.into_iter().chain(larger).filter(|c| is_free(house, c)).collect()
        }
        _ => Vec::new(),
    }
}

/// What is locked stays as it is.
fn is_free(house: &House, change: &Change) -> bool {
    house.part(change.part()).is_some_and(|p| !p.locked)
}

/// Small changes of the part itself.
fn small(house: &House, part: &Part) -> Vec<Change> {
    let walls = Measured { part: part.id.clone(), measure: Measure::Eave(None) };
    let walls_are_free =
        house.followed(&walls).is_none() && !house.relations.iter().any(|r| r.follower.part == part.id);
    let mut found = Vec::new();
    for step in steps(house.unit) {
        for by in [step, -step] {
            found.extend(places(&part.place, by).into_iter().map(|to| {
                let from = part.place.clone();
                Change::Move { part: part.id.clone(), from, to }
            }));
            if walls_are_free {
                found.push(Change::Walls { part: part.id.clone(), by });
            }
        }
        found.extend(wider(part, step).into_iter().filter(|_| walls_are_free));
    }
    found
}

/// A place a little aside, and a little farther from or nearer to the host.
fn places(place: &Place, by: Length) -> Vec<Place> {
    if let Place::Ground(_) = place {
        return Vec::new();
    }
    let mut found = vec![moved(place, by)];
    let mut away = place.clone();
    match &mut away {
        Place::Against { out: at, .. } | Place::OnSlope { up: at, .. } => {
            *at += by;
            found.push(away);
        }
        _ => {}
    }
    found
}

fn wider(part: &Part, by: Length) -> Vec<Change> {
    let Outline::Rectangle { width, depth } = part.outline else { return Vec::new() };
    let to = [Outline::Rectangle { width: width + by, depth }, Outline::Rectangle { width, depth: depth + by }];
    to.map(|to| Change::Plan { part: part.id.clone(), from: part.outline.clone(), to }).to_vec()
}

/// For every part that it meets, that the other of the two stays whole.
fn swaps(house: &House, solved: &Solved, part: &Part) -> Vec<Change> {
    let of = |end: &JointEnd| if let JointEnd::Piece(k) = end { solved.pieces.get(*k).map(|p| &p.part) } else { None };
    let mut met: Vec<(PartId, PartId)> = Vec::new();
    for joint in &solved.joints {
        let (Some(whole), Some(cut)) = (of(&joint.ends[0]), of(&joint.ends[1])) else { continue };
        let pair = (whole.clone(), cut.clone());
        if whole != cut && (whole == &part.id || cut == &part.id) && !met.contains(&pair) {
            met.push(pair);
        }
    }
    let stands_by = |guest: &PartId, host: &PartId| house.part(guest).is_some_and(|p| p.place.host() == Some(host));
    // A host cut to what stands on its roof would be a hole.
    let sound = |(whole, cut): &(PartId, PartId)| !stands_by(cut, whole) || on_ground(house, cut);
    let swap = |(whole, cut): (PartId, PartId)| Change::StaysWhole(Decided { whole: cut, cut: whole });
    met.into_iter().filter(sound).map(swap).collect()
}

fn on_ground(house: &House, part: &PartId) -> bool {
    house.part(part).is_some_and(|p| matches!(p.place, Place::Ground(_) | Place::Against { .. }))
}
