use super::entries::Entries;
use super::log::Log;
use super::tree::Tree;
use super::values::{length, list, text};
use crate::file::limits;
use crate::{Baked, Batch, CutPiece, PartId, PieceId};
use gable_measure::{Length, tidy};
use gable_plane::P2;
use gable_words::tr;

const BATCHES: [(&str, Batch); 3] = [("walls", Batch::Walls), ("roof", Batch::Roof), ("lid", Batch::Lid)];

pub(super) fn read(tree: &Tree, path: &str, log: &mut Log) -> Option<Baked> {
    let mut entries = Entries::open(tree, path, log)?;
    let part = PartId(entries.needed("part", text, String::new(), log));
    let batch = entries.needed_word("batch", &BATCHES, log);
    let mut measure = |key, log: &mut Log| entries.maybe(key, length, STAND_IN, log);
    let thickness = measure("thickness", log);
    let (width, depth, height) = (measure("width", log), measure("depth", log), measure("height", log));
    let cut = entries.get("cut").map(|tree| cut(tree, &entries.path_of("cut"), log)).unwrap_or_default();
    entries.close(log);
    Some(Baked { part, batch: batch?, thickness, width, depth, height, cut })
}

/// Stands in for a size that cannot be read.
const STAND_IN: Length = Length::mm_of(8.0);

/// Pieces by their ids. A house has them in the order of their ids, as the file does.
fn cut(tree: &Tree, path: &str, log: &mut Log) -> Vec<CutPiece> {
    let Some(group) = Entries::open(tree, path, log) else { return Vec::new() };
    let keys: Vec<&str> = group.keys().collect();
    if keys.len() > limits::MOST_CUT {
        log.add(path, super::log::too_many(keys.len(), limits::MOST_CUT), "");
        return Vec::new();
    }
    let piece = |key: &&str| piece(group.find(key)?, key, &group.path_of(key), log);
    let mut pieces: Vec<CutPiece> = keys.iter().filter_map(piece).collect();
    pieces.sort_by(|a, b| a.piece.cmp(&b.piece));
    pieces
}

fn piece(tree: &Tree, id: &str, path: &str, log: &mut Log) -> Option<CutPiece> {
    let mut entries = Entries::open(tree, path, log)?;
    let outline = entries.need("outline", log).and_then(|tree| ring(tree, &entries.path_of("outline"), log));
    let back = entries.get("back").and_then(|tree| ring(tree, &entries.path_of("back"), log));
    let place = entries.path_of("openings");
    let openings = entries.get("openings").and_then(|tree| list(tree, &place, log)).unwrap_or_default();
    let openings = openings.iter().enumerate().filter_map(|(k, tree)| ring(tree, &format!("{place}[{k}]"), log));
    let openings = openings.collect();
    entries.close(log);
    Some(CutPiece { piece: PieceId(id.to_owned()), outline: outline?, back, openings })
}

/// Corners as text.
fn ring(tree: &Tree, path: &str, log: &mut Log) -> Option<Vec<P2>> {
    let hint = tr!("write corners in mm, such as \"0,0 160,0 160,90 0,90\"");
    let given = text(tree, path, log)?;
    let number = |text: &str| text.parse::<f64>().ok().filter(|x| x.is_finite()).map(tidy);
    let corner = |text: &str| {
        let (x, y) = text.split_once(',')?;
        Some(P2::new(number(x)?, number(y)?))
    };
    let mut corners = Vec::new();
    for (k, word) in given.split_whitespace().enumerate() {
        let Some(corner) = corner(word) else {
            let what = tr!("corner {} of the outline, \"{}\", cannot be read", k + 1, super::log::shown(word));
            log.add(path, what, hint);
            return None;
        };
        corners.push(corner);
    }
    Some(corners)
}
