//! Floors, steps and posts.

use super::entries::Entries;
use super::log::Log;
use super::tree::Tree;
use super::values::{count, flag, length, list, text};
use crate::file::limits;
use crate::{DoughId, Floor, FloorKind, Posts, SideId, Steps, StepsHigh};
use gable_measure::Length;
use gable_words::tr;

const FLOORS: [(&str, FloorKind); 3] =
    [("none", FloorKind::None), ("inside", FloorKind::Inside), ("under", FloorKind::Under)];

pub(super) fn read(tree: &Tree, path: &str, walls: &DoughId, log: &mut Log) -> Option<Floor> {
    let mut entries = Entries::open(tree, path, log)?;
    let floor = Floor {
        kind: entries.word("kind", &FLOORS, log).unwrap_or_default(),
        dough: DoughId(entries.value("dough", text, walls.0.clone(), log)),
        steps: entries.get("steps").and_then(|tree| steps(tree, &entries.path_of("steps"), log)),
    };
    entries.close(log);
    Some(floor)
}

fn steps(tree: &Tree, path: &str, log: &mut Log) -> Option<Steps> {
    let mut entries = Entries::open(tree, path, log)?;
    let by_count = entries.maybe("count", count, 1, log);
    let by_height = entries.maybe("height", length, Length::mm_of(20.0), log);
    let high = match (by_count, by_height) {
        (Some(count), None) => StepsHigh::Count(count),
        (None, Some(height)) => StepsHigh::Height(height),
        (Some(count), Some(_)) => {
            log.add(&entries.path_of("height"), tr!("both a count and a height are given"), tr!("keep one of them"));
            StepsHigh::Count(count)
        }
        (None, None) => {
            log.add(&entries.path_of("count"), tr!("it is missing"), tr!("give a count of steps, or a height"));
            StepsHigh::Count(1)
        }
    };
    let plates = entries.value("plates", count, 1, log);
    let tread = entries.value("tread", length, limits::USUAL_TREAD, log);
    let own = entries.path_of("sides");
    let sides = entries.get("sides").and_then(|tree| list(tree, &own, log)).unwrap_or_default();
    let name = |(k, tree): (usize, &Tree)| text(tree, &format!("{own}[{k}]"), log).map(SideId);
    let sides = sides.iter().enumerate().filter_map(name).collect();
    entries.close(log);
    Some(Steps { high, plates, tread, sides })
}

/// A stand-in where the row is faulty, so that the side counts as one with posts.
pub(super) fn posts(tree: &Tree, path: &str, log: &mut Log) -> Option<Posts> {
    let mut entries = Entries::open(tree, path, log)?;
    let posts = Posts {
        count: entries.needed("count", count, 2, log),
        width: entries.needed("width", length, Length::mm_of(15.0), log),
        strips: entries.value("strips", count, 1, log),
        at_ends: entries.value("at_ends", flag, true, log),
    };
    entries.close(log);
    Some(posts)
}
