use super::entries::Entries;
use super::log::Log;
use super::opening_parts::{door, free_corners, glazing, repeat};
use super::tree::Tree;
use super::values::{count, flag, length, number, text};
use crate::file::types::ShapeEntry as Kind;
use crate::{Mode, Opening, OpeningId, Placing, Shape, SideId, Surface, Tier};
use gable_measure::Length;

#[derive(Clone, Copy, Default)]
enum From {
    #[default]
    Middle,
    Left,
    Right,
}

const FROM: [(&str, From); 3] = [("middle", From::Middle), ("left", From::Left), ("right", From::Right)];
const KINDS: [(&str, Kind); 11] = [
    ("rectangle", Kind::Rectangle),
    ("round-headed", Kind::RoundHeaded),
    ("segmental", Kind::Segmental),
    ("pointed", Kind::Pointed),
    ("circle", Kind::Circle),
    ("ellipse", Kind::Ellipse),
    ("fanlight", Kind::Fanlight),
    ("regular", Kind::Regular),
    ("free", Kind::Free),
    ("path", Kind::Path),
    ("whole-face", Kind::WholeFace),
];
const MODES: [(&str, Mode); 3] = [("cut", Mode::Cut), ("glazed", Mode::Glazed), ("pressed", Mode::Pressed)];
const FACES: [(&str, Surface); 4] = [
    ("wall", Surface::Wall),
    ("slope", Surface::Slope(Tier::Single)),
    ("lower-slope", Surface::Slope(Tier::Lower)),
    ("upper-slope", Surface::Slope(Tier::Upper)),
];

pub(super) fn read(tree: &Tree, path: &str, log: &mut Log) -> Option<Opening> {
    let mut entries = Entries::open(tree, path, log)?;
    let id = entries.needed("id", text, String::new(), log);
    let kind = entries.word("shape", &KINDS, log).unwrap_or_default();
    let mut opening = Opening {
        name: entries.value("name", text, id.clone(), log),
        id: OpeningId(id),
        side: SideId(entries.needed("side", text, String::new(), log)),
        face: entries.word("face", &FACES, log).unwrap_or_default(),
        shape: shape(kind, &mut entries, log),
        mode: entries.word("mode", &MODES, log).unwrap_or_default(),
        glazing: glazing(&mut entries, log),
        door: door(&mut entries, log),
        ..Opening::default()
    };
    if kind != Kind::WholeFace {
        place(&mut opening, &mut entries, log);
    }
    entries.close(log);
    Some(opening)
}

fn place(opening: &mut Opening, entries: &mut Entries<'_>, log: &mut Log) {
    let stand_in = Length::mm_of(20.0);
    opening.width = entries.needed("width", length, stand_in, log);
    opening.height = match opening.shape.height_of(opening.width) {
        None => entries.needed("height", length, stand_in, log),
        Some(follows) => {
            let given = entries.value("height", length, follows, log);
            // A file may say it again, rounded.
            if (given - follows).abs() < Length::mm_of(0.001) { follows } else { given }
        }
    };
    opening.sill = entries.value("sill", length, Length::ZERO, log);
    opening.placing = placing(entries, log);
    opening.repeat = repeat(entries, log);
}

/// The shape with the sizes of its own.
fn shape(kind: Kind, entries: &mut Entries<'_>, log: &mut Log) -> Shape {
    match kind {
        Kind::Rectangle => Shape::Rectangle,
        Kind::RoundHeaded => Shape::RoundHeaded,
        Kind::Segmental => Shape::Segmental { rise: entries.needed("rise", length, Length::mm_of(4.0), log) },
        Kind::Pointed => Shape::Pointed { radius: entries.value("radius", number, 1.0, log) },
        Kind::Circle => Shape::Circle,
        Kind::Ellipse => Shape::Ellipse,
        Kind::Fanlight => Shape::Fanlight,
        Kind::Regular => Shape::Regular { corners: entries.needed("sides", count, 6, log) },
        Kind::Free => Shape::Free { corners: free_corners(entries, log) },
        Kind::Path => Shape::Path {
            data: entries.needed("path", text, "M0 0 L10 0 L5 -10 Z".to_owned(), log),
            mirrored: entries.value("mirrored", flag, false, log),
        },
        Kind::WholeFace => Shape::WholeFace {
            across: entries.needed("across", count, 3, log),
            up: entries.needed("up", count, 3, log),
            bar: entries.needed("bar", length, Length::mm_of(8.0), log),
        },
    }
}

/// Where along a side, seen from outside.
pub(super) fn placing(entries: &mut Entries<'_>, log: &mut Log) -> Placing {
    let from = entries.word("from", &FROM, log).unwrap_or_default();
    let distance = entries.value("distance", length, Length::ZERO, log);
    match from {
        From::Middle => Placing::Centred { offset: distance },
        From::Left => Placing::FromLeft { distance },
        From::Right => Placing::FromRight { distance },
    }
}
