use super::dressing;
use super::entries::Entries;
use super::log::{Log, too_many};
use super::opening_parts::glazier;
use super::tree::Tree;
use super::values::{length, list, number, text};
use super::{baked, part, relation};
use crate::file::{FORMAT, OLDEST, VERSION, limits};
use crate::{Before, Decided, Dough, DoughId, House, Owner, PartId, Raised};
use gable_measure::{InchStep, Length, Unit};
use gable_words::tr;

/// A house, as well as it can be read; `None` when the file is not one at all.
pub(super) fn read(tree: &Tree, log: &mut Log) -> Option<House> {
    let looks_like_one = |entries: &Entries<'_>| ["format", "parts"].iter().any(|key| entries.find(key).is_some());
    let entries = if let Tree::Map(_) = tree { Entries::open(tree, "", log) } else { None };
    let Some(mut entries) = entries.filter(looks_like_one) else {
        log.add("file", tr!("this is not a Gablewright house"), tr!("open another file"));
        return None;
    };
    is_ours(&mut entries, log)?;
    let owner = owner(&mut entries, log);
    log.unit = entries.word("unit", &UNITS, log).unwrap_or_default();
    let gap = entries.value("gap", length, House::USUAL_GAP, log);
    let doughs = match entries.get("doughs") {
        Some(tree) => items(tree, "doughs", limits::MOST_DOUGHS, log, dough),
        None => Dough::usual(),
    };
    let parts = entries.need_with("parts", tr!("describe at least one part"), log);
    let read_part = |tree: &Tree, path: &str, log: &mut Log| part::read(tree, path, &doughs, log);
    let parts = parts.map(|tree| items(tree, "parts", limits::MOST_PARTS, log, read_part)).unwrap_or_default();
    let decided = entries.get("decided");
    let decided = decided.map(|tree| items(tree, "decided", limits::MOST_DECIDED, log, decision)).unwrap_or_default();
    let relations = entries.get("relations");
    let relations =
        relations.map(|tree| items(tree, "relations", limits::MOST_RELATIONS, log, relation::read)).unwrap_or_default();
    let order = entries.get("order");
    let order = order.map(|tree| items(tree, "order", limits::MOST_WISHES, log, before)).unwrap_or_default();
    let baked = entries.get("baked");
    let baked = baked.map(|tree| items(tree, "baked", limits::MOST_BAKED, log, baked::read)).unwrap_or_default();
    let dressing = entries.get("dressing");
    let mut dressing = dressing.and_then(|tree| dressing::read(tree, "dressing", log)).unwrap_or_default();
    dressing.glazier = entries.get("glazing").and_then(|tree| glazier(tree, "glazing", log)).unwrap_or_default();
    entries.close(log);
    Some(House { owner, unit: log.unit, gap, doughs, parts, decided, relations, order, baked, dressing })
}

const UNITS: [(&str, Unit); 3] =
    [("mm", Unit::Millimetre), ("in", Unit::Inch(InchStep::Sixteenth)), ("in/32", Unit::Inch(InchStep::ThirtySecond))];

/// Marker and version; `None` when going on would only produce noise.
fn is_ours(entries: &mut Entries<'_>, log: &mut Log) -> Option<()> {
    let marked = matches!(entries.need_with("format", tr!("a house says \"format\": \"gablewright-house\""), log), Some(Tree::Text(marker)) if marker == FORMAT);
    if !marked && entries.find("format").is_some() {
        let what = tr!("this is not a Gablewright house; one says \"{FORMAT}\" here");
        log.add("format", what, tr!("open another file"));
        return None;
    }
    let Some(version) = entries.need_with("version", &tr!("write \"version\": {VERSION}"), log) else {
        return Some(());
    };
    match version {
        Tree::Number(number) if (OLDEST..=VERSION).any(|known| *number == f64::from(known)) => {}
        Tree::Number(number) if *number > f64::from(VERSION) => {
            let what = tr!(
                "this house was saved by a newer version of Gablewright (file version {number}; this one reads up to {VERSION})"
            );
            log.add("version", what, tr!("open it with the newer version"));
            return None;
        }
        other => {
            let what = tr!("expected a whole number from {OLDEST} to {VERSION}, found {}", other.words());
            log.add("version", what, "");
        }
    }
    Some(())
}

fn owner(entries: &mut Entries<'_>, log: &mut Log) -> Owner {
    let mut line = |key| entries.value(key, text, String::new(), log);
    Owner {
        title: line("title"),
        edition: line("edition"),
        credit: line("credit"),
        after: line("after"),
        licence: line("licence"),
        notes: line("notes"),
    }
}

/// A list of groups, each with its index in its path. Ends before the first one that cannot be read at all, so that
/// every item keeps its index; those after it are still read for their faults.
pub(super) fn items<T>(
    tree: &Tree,
    path: &str,
    most: usize,
    log: &mut Log,
    mut read: impl FnMut(&Tree, &str, &mut Log) -> Option<T>,
) -> Vec<T> {
    let items = list(tree, path, log).unwrap_or_default();
    if items.len() > most {
        log.add(path, too_many(items.len(), most), "");
        return Vec::new();
    }
    let read: Vec<Option<T>> =
        items.iter().enumerate().map(|(k, item)| read(item, &format!("{path}[{k}]"), log)).collect();
    read.into_iter().map_while(|item| item).collect()
}

fn dough(tree: &Tree, path: &str, log: &mut Log) -> Option<Dough> {
    let mut entries = Entries::open(tree, path, log)?;
    let dough = Dough {
        id: DoughId(entries.needed("id", text, String::new(), log)),
        rolled: entries.needed("rolled", length, Length::mm_of(6.0), log),
        rise: entries.value("rise", number, Dough::USUAL_RISE, log),
    };
    entries.close(log);
    Some(dough)
}

fn before(tree: &Tree, path: &str, log: &mut Log) -> Option<Before> {
    let mut entries = Entries::open(tree, path, log)?;
    let mut raised = |key| Raised::read(&entries.needed(key, text, String::new(), log));
    let (first, then) = (raised("first"), raised("then"));
    entries.close(log);
    Some(Before { first, then })
}

fn decision(tree: &Tree, path: &str, log: &mut Log) -> Option<Decided> {
    let mut entries = Entries::open(tree, path, log)?;
    let whole = PartId(entries.needed("whole", text, String::new(), log));
    let cut = PartId(entries.needed("cut", text, String::new(), log));
    entries.close(log);
    Some(Decided { whole, cut })
}
