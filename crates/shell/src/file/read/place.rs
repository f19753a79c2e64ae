use super::entries::Entries;
use super::log::Log;
use super::opening::placing;
use super::tree::Tree;
use super::values::{angle, length, text};
use crate::{Behind, PartId, Place, SideId, Spot};
use gable_measure::{Angle, Length};
use gable_words::tr;

/// The ways to stand by another part, as their keys; the first three keys of a place are those of the base board.
const WAYS: [&str; 4] = ["against", "on-slope", "astride", "on-top"];
const SPOT: [&str; 3] = ["x", "y", "turn"];

/// The place; `None` when it cannot be told.
pub(super) fn read(tree: &Tree, path: &str, log: &mut Log) -> Option<Place> {
    let mut entries = Entries::open(tree, path, log)?;
    let ground = Place::Ground(spot(&mut entries, log));
    let given: Vec<(&str, &Tree)> = WAYS.iter().filter_map(|way| Some((*way, entries.get(way)?))).collect();
    let place = match given.as_slice() {
        [] => Some(ground),
        [(way, tree)] => {
            for key in SPOT.iter().filter(|key| entries.find(key).is_some()) {
                let hint = tr!("take it away, or put it into \"{way}\" if it belongs there");
                log.add(&entries.path_of(key), tr!("\"{way}\" says where it stands already"), &hint);
            }
            guest(way, tree, &entries.path_of(way), log)
        }
        several => {
            let ways: Vec<&str> = several.iter().map(|(way, _)| *way).collect();
            log.add(path, tr!("it stands in several ways: {}", ways.join(", ")), tr!("keep one of them"));
            None
        }
    };
    entries.close(log);
    place
}

fn guest(way: &str, tree: &Tree, path: &str, log: &mut Log) -> Option<Place> {
    let mut entries = Entries::open(tree, path, log)?;
    let host = PartId(entries.needed("part", text, String::new(), log));
    let place = match way {
        "against" => Place::Against {
            host,
            side: side(&mut entries, log),
            along: placing(&mut entries, log),
            out: entries.needed("out", length, Length::ZERO, log),
            turn: turn(&mut entries, log),
        },
        "on-slope" => Place::OnSlope {
            host,
            side: side(&mut entries, log),
            along: placing(&mut entries, log),
            up: entries.needed("up", length, Length::ZERO, log),
            turn: turn(&mut entries, log),
        },
        "astride" => {
            let along = entries.value("along", length, Length::ZERO, log);
            Place::Astride { host, along, turn: turn(&mut entries, log) }
        }
        _ => Place::OnTop { host, spot: spot(&mut entries, log) },
    };
    entries.close(log);
    Some(place)
}

fn spot(entries: &mut Entries<'_>, log: &mut Log) -> Spot {
    Spot {
        x: entries.value("x", length, Length::ZERO, log),
        y: entries.value("y", length, Length::ZERO, log),
        turn: turn(entries, log),
    }
}

fn side(entries: &mut Entries<'_>, log: &mut Log) -> SideId {
    SideId(entries.needed("side", text, String::new(), log))
}

fn turn(entries: &mut Entries<'_>, log: &mut Log) -> Angle {
    entries.value("turn", angle, Angle::ZERO, log)
}

/// What hosts do behind a part; `None` when it cannot be told.
pub(super) fn behind(tree: &Tree, path: &str, log: &mut Log) -> Option<Behind> {
    const KINDS: [(&str, bool); 2] = [("whole", false), ("passage", true)];
    let mut entries = Entries::open(tree, path, log)?;
    entries.need_with("kind", tr!("it may be whole or passage"), log)?;
    let behind = if entries.word("kind", &KINDS, log)? {
        Behind::Passage { rim: entries.needed("rim", length, Length::ZERO, log) }
    } else {
        if entries.get("rim").is_some() {
            let hint = tr!("take it away, or make the kind passage");
            log.add(&entries.path_of("rim"), tr!("what stays whole has no rim"), hint);
        }
        Behind::Whole
    };
    entries.close(log);
    Some(behind)
}
