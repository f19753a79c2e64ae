use super::entries::Entries;
use super::log::Log;
use super::tree::Tree;
use super::values::{length, text};
use crate::{Mode, Opening, OpeningId, Placing, Shape, SideId};
use gable_measure::Length;

#[derive(Clone, Copy, Default)]
enum From {
    #[default]
    Middle,
    Left,
    Right,
}

const FROM: [(&str, From); 3] = [("middle", From::Middle), ("left", From::Left), ("right", From::Right)];
const SHAPES: [(&str, Shape); 2] = [("rectangle", Shape::Rectangle), ("round-headed", Shape::RoundHeaded)];
const MODES: [(&str, Mode); 2] = [("cut", Mode::Cut), ("pressed", Mode::Pressed)];

pub(super) fn read(tree: &Tree, path: &str, log: &mut Log) -> Option<Opening> {
    let mut entries = Entries::open(tree, path, log)?;
    let id = entries.needed("id", text, String::new(), log);
    let stand_in = Length::mm_of(20.0);
    let opening = Opening {
        name: entries.value("name", text, id.clone(), log),
        id: OpeningId(id),
        side: SideId(entries.needed("side", text, String::new(), log)),
        shape: entries.word("shape", &SHAPES, log).unwrap_or_default(),
        width: entries.needed("width", length, stand_in, log),
        height: entries.needed("height", length, stand_in, log),
        sill: entries.value("sill", length, Length::ZERO, log),
        placing: placing(&mut entries, log),
        mode: entries.word("mode", &MODES, log).unwrap_or_default(),
    };
    entries.close(log);
    Some(opening)
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
