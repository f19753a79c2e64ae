//! Floors, steps and posts.

use super::types::{FloorEntry, FloorKindEntry, PostsEntry, StepsEntry};
use super::write::length;
use crate::{Floor, FloorKind, Posts, Steps, StepsHigh};
use gable_measure::Unit;

pub(super) fn floor(floor: &Floor, unit: Unit) -> FloorEntry {
    let kind = match floor.kind {
        FloorKind::None => FloorKindEntry::None,
        FloorKind::Inside => FloorKindEntry::Inside,
        FloorKind::Under => FloorKindEntry::Under,
    };
    FloorEntry { kind, dough: floor.dough.0.clone(), steps: floor.steps.as_ref().map(|s| steps(s, unit)) }
}

fn steps(steps: &Steps, unit: Unit) -> StepsEntry {
    let (count, height) = match steps.high {
        StepsHigh::Count(count) => (Some(count), None),
        StepsHigh::Height(height) => (None, Some(length(height, unit))),
    };
    let sides = steps.sides.iter().map(|side| side.0.clone()).collect();
    StepsEntry { count, height, plates: steps.plates, tread: length(steps.tread, unit), sides }
}

pub(super) fn posts(posts: &Posts, unit: Unit) -> PostsEntry {
    PostsEntry { count: posts.count, width: length(posts.width, unit), strips: posts.strips, at_ends: posts.at_ends }
}
