//! What belongs to some openings only: copies, glazing, doors; and what the person glazes with.

use super::entries::Entries;
use super::log::{Log, too_many};
use super::tree::Tree;
use super::values::{angle, count, flag, length, list, number};
use crate::file::limits;
use crate::{Bars, Door, Glass, Glazier, Glazing, Hinge, Repeat};
use gable_words::tr;

#[derive(Clone, Copy)]
enum BarKind {
    None,
    Grid,
    Diamond,
    Fan,
}

const BARS: [(&str, BarKind); 4] =
    [("none", BarKind::None), ("grid", BarKind::Grid), ("diamond", BarKind::Diamond), ("fan", BarKind::Fan)];
const GLASS: [(&str, Glass); 3] = [("leaf", Glass::Leaf), ("poured", Glass::Poured), ("crushed", Glass::Crushed)];
const HINGES: [(&str, Hinge); 2] = [("left", Hinge::Left), ("right", Hinge::Right)];

pub(super) fn glazing(entries: &mut Entries<'_>, log: &mut Log) -> Glazing {
    let glass = entries.word("glass", &GLASS, log).unwrap_or_default();
    let path = entries.path_of("bars");
    let bars = entries.get("bars").and_then(|tree| bars(tree, &path, log));
    Glazing { glass, bars: bars.unwrap_or_default() }
}

fn bars(tree: &Tree, path: &str, log: &mut Log) -> Option<Bars> {
    let mut entries = Entries::open(tree, path, log)?;
    entries.need_with("kind", tr!("it may be none, grid, diamond or fan"), log);
    let bars = match entries.word("kind", &BARS, log).unwrap_or(BarKind::None) {
        BarKind::None => Bars::None,
        BarKind::Grid => {
            Bars::Grid { across: entries.value("across", count, 2, log), up: entries.value("up", count, 2, log) }
        }
        BarKind::Diamond => Bars::Diamond { across: entries.value("across", count, 3, log) },
        BarKind::Fan => Bars::Fan { rays: entries.value("rays", count, 4, log) },
    };
    entries.close(log);
    Some(bars)
}

pub(super) fn repeat(entries: &mut Entries<'_>, log: &mut Log) -> Option<Repeat> {
    let path = entries.path_of("repeat");
    let tree = entries.get("repeat")?;
    let mut entries = Entries::open(tree, &path, log)?;
    let usual = Repeat::default();
    let repeat = Repeat {
        across: entries.value("across", count, usual.across, log),
        up: entries.value("up", count, usual.up, log),
        gap: entries.maybe("gap", length, usual.gap_up, log),
        gap_up: entries.value("gap_up", length, usual.gap_up, log),
    };
    entries.close(log);
    Some(repeat)
}

pub(super) fn door(entries: &mut Entries<'_>, log: &mut Log) -> Option<Door> {
    let path = entries.path_of("door");
    let tree = entries.get("door")?;
    let mut entries = Entries::open(tree, &path, log)?;
    let usual = Door::default();
    let door = Door {
        double: entries.value("double", flag, usual.double, log),
        hinge: entries.word("hinge", &HINGES, log).unwrap_or_default(),
        ajar: entries.value("ajar", angle, usual.ajar, log),
        clearance: entries.value("clearance", length, usual.clearance, log),
    };
    entries.close(log);
    Some(door)
}

/// Corners as shares of width and height.
pub(super) fn free_corners(entries: &mut Entries<'_>, log: &mut Log) -> Vec<[f64; 2]> {
    let path = entries.path_of("corners");
    let Some(tree) = entries.need("corners", log) else { return Vec::new() };
    let items = list(tree, &path, log).unwrap_or_default();
    if items.len() > usize::from(limits::MOST_OPENING_CORNERS) {
        log.add(&path, too_many(items.len(), limits::MOST_OPENING_CORNERS.into()), "");
        return Vec::new();
    }
    let corner = |(k, item): (usize, &Tree)| {
        let path = format!("{path}[{k}]");
        match list(item, &path, log)? {
            [x, y] => Some([number(x, &format!("{path}[0]"), log)?, number(y, &format!("{path}[1]"), log)?]),
            other => {
                log.add(&path, tr!("expected two numbers, found {}", other.len()), tr!("write it as [x, y]"));
                None
            }
        }
    };
    let read: Vec<Option<[f64; 2]>> = items.iter().enumerate().map(corner).collect();
    read.into_iter().flatten().collect()
}

/// What the person glazes and cuts with.
pub(super) fn glazier(tree: &Tree, path: &str, log: &mut Log) -> Option<Glazier> {
    let mut entries = Entries::open(tree, path, log)?;
    let usual = Glazier::default();
    let glazier = Glazier {
        leaf_length: entries.value("leaf_length", length, usual.leaf_length, log),
        leaf_width: entries.value("leaf_width", length, usual.leaf_width, log),
        margin: entries.value("margin", length, usual.margin, log),
        blade: entries.value("blade", length, usual.blade, log),
        bridge: entries.maybe("bridge", length, usual.margin, log),
    };
    entries.close(log);
    Some(glazier)
}
