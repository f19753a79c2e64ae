use super::entries::Entries;
use super::log::Log;
use super::tree::Tree;
use super::values::{count, length, list};
use crate::Outline;
use crate::file::limits;
use gable_measure::Length;
use gable_words::tr;

#[derive(Clone, Copy)]
enum Kind {
    Rectangle,
    Polygon,
    HalfPolygon,
    Free,
}

const KINDS: [(&str, Kind); 4] = [
    ("rectangle", Kind::Rectangle),
    ("polygon", Kind::Polygon),
    ("half-polygon", Kind::HalfPolygon),
    ("free", Kind::Free),
];

/// The outline; `None` when its sides cannot be told.
pub(super) fn read(tree: &Tree, path: &str, log: &mut Log) -> Option<Outline> {
    let mut entries = Entries::open(tree, path, log)?;
    entries.need_with("kind", tr!("it may be rectangle, polygon, half-polygon or free"), log)?;
    let kind = entries.word("kind", &KINDS, log)?;
    let stand_in = Length::mm_of(100.0);
    let outline = match kind {
        Kind::Rectangle => Some(Outline::Rectangle {
            width: entries.needed("width", length, stand_in, log),
            depth: entries.needed("depth", length, stand_in, log),
        }),
        Kind::Polygon => {
            let side = entries.needed("side", length, Length::mm_of(50.0), log);
            sides(&mut entries, (limits::FEWEST_SIDES, limits::MOST_SIDES), log)
                .map(|sides| Outline::Polygon { sides, side })
        }
        Kind::HalfPolygon => {
            let width = entries.needed("width", length, stand_in, log);
            sides(&mut entries, (limits::FEWEST_BAY_SIDES, limits::MOST_BAY_SIDES), log)
                .map(|sides| Outline::HalfPolygon { sides, width })
        }
        Kind::Free => {
            let path = entries.path_of("corners");
            entries.need("corners", log).and_then(|tree| corners(tree, &path, log))
        }
    };
    entries.close(log);
    outline
}

/// Number of sides. Out of bounds it names no sides that anything else could be compared with.
fn sides(entries: &mut Entries<'_>, (fewest, most): (u8, u8), log: &mut Log) -> Option<u8> {
    let path = entries.path_of("sides");
    let sides = entries.need("sides", log).and_then(|tree| count(tree, &path, log))?;
    if (fewest..=most).contains(&sides) {
        return Some(sides);
    }
    let found = entries.find("sides").map(Tree::words).unwrap_or_default();
    log.add(&path, tr!("it can have {fewest} to {most} sides, not {found}"), "");
    None
}

fn corners(tree: &Tree, path: &str, log: &mut Log) -> Option<Outline> {
    let items = list(tree, path, log)?;
    let (fewest, most) = (usize::from(limits::FEWEST_SIDES), usize::from(limits::MOST_SIDES));
    if !(fewest..=most).contains(&items.len()) {
        log.add(path, tr!("there can be {fewest} to {most} corners, not {}", items.len()), "");
        return None;
    }
    let corners: Vec<_> =
        items.iter().enumerate().filter_map(|(k, item)| corner(item, &format!("{path}[{k}]"), log)).collect();
    (corners.len() == items.len()).then_some(Outline::Free { corners })
}

fn corner(tree: &Tree, path: &str, log: &mut Log) -> Option<(Length, Length)> {
    let Tree::List(numbers) = tree else { return wrong_corner(tree, path, log) };
    let [x, y] = numbers.as_slice() else { return wrong_corner(tree, path, log) };
    let (x, y) = (length(x, &format!("{path}[0]"), log), length(y, &format!("{path}[1]"), log));
    x.zip(y)
}

fn wrong_corner<T>(tree: &Tree, path: &str, log: &mut Log) -> Option<T> {
    super::values::wrong(tree, path, log, tr!("two lengths in square brackets, such as [0, 120]"))
}
