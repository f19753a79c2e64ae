use super::entries::Entries;
use super::log::Log;
use super::tree::Tree;
use super::values::{flag, length, text};
use super::{floor, house, opening, outline, place, side};
use crate::file::limits;
use crate::{Corners, Dough, DoughId, Floor, FloorKind, Lid, Outline, Parapet, Part, PartId, Ridges};
use gable_measure::Length;

pub(super) fn read(tree: &Tree, path: &str, doughs: &[Dough], log: &mut Log) -> Option<Part> {
    let mut entries = Entries::open(tree, path, log)?;
    let id = entries.needed("id", text, String::new(), log);
    let name = entries.value("name", text, id.clone(), log);
    let plan = entries.need("outline", log).and_then(|tree| outline::read(tree, &entries.path_of("outline"), log));
    let place = entries.get("place").and_then(|tree| place::read(tree, &entries.path_of("place"), log));
    let raised = entries.value("raised", length, Length::ZERO, log);
    let stays_whole = entries.value("stays_whole", flag, false, log);
    let locked = entries.value("locked", flag, false, log);
    let behind = entries.get("behind").and_then(|tree| place::behind(tree, &entries.path_of("behind"), log));
    let wall_dough = dough(&mut entries, "wall_dough", "walls", doughs, log);
    let roof_dough = dough(&mut entries, "roof_dough", "roofs", doughs, log);
    let floor = entries.get("floor").and_then(|tree| floor::read(tree, &entries.path_of("floor"), &wall_dough, log));
    let no_floor = Floor { kind: FloorKind::None, dough: wall_dough.clone(), steps: None };
    let corners = entries.word("corners", &CORNERS, log).unwrap_or_default();
    let ridges = entries.word("ridges", &RIDGES, log).unwrap_or_default();
    let level_eaves = entries.value("level_eaves", flag, false, log);
    let sides = entries.need("sides", log);
    let sides = sides.map(|tree| side::read_all(tree, &entries.path_of("sides"), plan.as_ref(), log));
    let lid = entries.get("lid").and_then(|tree| lid(tree, &entries.path_of("lid"), log));
    let openings = entries.get("openings");
    let openings = openings
        .map(|tree| house::items(tree, &entries.path_of("openings"), limits::MOST_OPENINGS, log, opening::read));
    entries.close(log);
    Some(Part {
        id: PartId(id),
        name,
        outline: plan.unwrap_or(STAND_IN),
        place: place.unwrap_or_default(),
        raised,
        stays_whole,
        locked,
        behind: behind.unwrap_or_default(),
        wall_dough,
        roof_dough,
        floor: floor.unwrap_or(no_floor),
        corners,
        ridges,
        level_eaves,
        sides: sides.unwrap_or_default(),
        lid,
        openings: openings.unwrap_or_default(),
    })
}

/// Stands in for an outline that cannot be read.
const STAND_IN: Outline = Outline::Rectangle { width: Length::mm_of(160.0), depth: Length::mm_of(120.0) };

const CORNERS: [(&str, Corners); 4] = [
    ("lap", Corners::Lap),
    ("lap-around", Corners::LapAround),
    ("mitre", Corners::Mitre),
    ("square-mitre", Corners::SquareMitre),
];

const RIDGES: [(&str, Ridges); 3] =
    [("open", Ridges::Open), ("bevelled", Ridges::Bevelled), ("lapped", Ridges::Lapped)];

/// The dough that is named; else the one with the usual name, or the first one.
fn dough(entries: &mut Entries<'_>, key: &'static str, usual: &str, doughs: &[Dough], log: &mut Log) -> DoughId {
    let named_so = doughs.iter().find(|d| d.id.0 == usual);
    let default = named_so.or(doughs.first()).map_or(usual, |d| d.id.0.as_str());
    DoughId(entries.value(key, text, default.to_owned(), log))
}

fn lid(tree: &Tree, path: &str, log: &mut Log) -> Option<Lid> {
    let mut entries = Entries::open(tree, path, log)?;
    let height = entries.needed("height", length, Length::mm_of(100.0), log);
    let overhang = entries.value("overhang", length, Length::ZERO, log);
    let parapet = entries.get("parapet").and_then(|tree| parapet(tree, &entries.path_of("parapet"), log));
    entries.close(log);
    Some(Lid { height, overhang, parapet })
}

fn parapet(tree: &Tree, path: &str, log: &mut Log) -> Option<Parapet> {
    let mut entries = Entries::open(tree, path, log)?;
    let parapet = Parapet { height: entries.needed("height", length, Length::mm_of(10.0), log) };
    entries.close(log);
    Some(parapet)
}
