use super::entries::Entries;
use super::house::items;
use super::log::Log;
use super::tree::Tree;
use super::values::{angle, flag, length, number, text, wrong};
use crate::file::limits;
use crate::{
    Bond, Covering, Dressing, Extra, ExtraKind, Faces, Finish, OpeningId, Ornament, OrnamentKind, PartId, Rates, Share,
    SideId, Spot, Stuff, Style, TileShape, Tint, Where,
};
use gable_words::tr;

const WHERE: [(&str, Where); 3] = [("walls", Where::Walls), ("slopes", Where::Slopes), ("lids", Where::Lids)];
const SHAPES: [(&str, TileShape); 4] = [
    ("square", TileShape::Square),
    ("rounded", TileShape::Rounded),
    ("pointed", TileShape::Pointed),
    ("staggered", TileShape::Staggered),
];
const BONDS: [(&str, Bond); 3] =
    [("stretcher", Bond::Stretcher), ("english", Bond::English), ("flemish", Bond::Flemish)];
const STUFFS: [(&str, Stuff); 5] = [
    ("dough", Stuff::Dough),
    ("fondant", Stuff::Fondant),
    ("gum-paste", Stuff::GumPaste),
    ("icing", Stuff::Icing),
    ("sweets", Stuff::Sweets),
];
const STYLES: [(&str, Style); 4] =
    [("plain", Style::Plain), ("slatted", Style::Slatted), ("boarded", Style::Boarded), ("battened", Style::Battened)];

/// Everything that is put onto the house.
pub(super) fn read(tree: &Tree, path: &str, log: &mut Log) -> Option<Dressing> {
    let mut entries = Entries::open(tree, path, log)?;
    let mut dressing = Dressing::default();
    if let Some(tree) = entries.get("finishes") {
        dressing.finishes = items(tree, &entries.path_of("finishes"), limits::MOST_FINISHES, log, finish);
    }
    if let Some(tree) = entries.get("ornaments") {
        dressing.ornaments = items(tree, &entries.path_of("ornaments"), limits::MOST_ORNAMENTS, log, ornament);
    }
    if let Some(tree) = entries.get("extras") {
        dressing.extras = items(tree, &entries.path_of("extras"), limits::MOST_ORNAMENTS, log, extra);
    }
    if let Some(tree) = entries.get("rates") {
        dressing.rates = rates(tree, &entries.path_of("rates"), log).unwrap_or_default();
    }
    entries.close(log);
    Some(dressing)
}

fn rates(tree: &Tree, path: &str, log: &mut Log) -> Option<Rates> {
    let mut entries = Entries::open(tree, path, log)?;
    let usual = Rates::default();
    let rates = Rates {
        set: entries.value("set", number, usual.set, log),
        cut: entries.value("cut", number, usual.cut, log),
        pipe: entries.value("pipe", number, usual.pipe, log),
    };
    entries.close(log);
    Some(rates)
}

fn finish(tree: &Tree, path: &str, log: &mut Log) -> Option<Finish> {
    let mut entries = Entries::open(tree, path, log)?;
    let kind = entries.needed_word("kind", &Covering::USUAL, log);
    let faces = Faces {
        which: entries.word("on", &WHERE, log).unwrap_or_default(),
        part: entries.maybe("part", text, String::new(), log).map(PartId),
        side: entries.maybe("side", text, String::new(), log).map(SideId),
    };
    let covering = covering(&mut entries, kind, log);
    let mut finish = Finish::usual(covering, faces);
    finish.stuff = entries.word("made_of", &STUFFS, log).unwrap_or(finish.stuff);
    finish.thickness = entries.value("thickness", length, finish.thickness, log);
    if let Some(tree) = entries.get("shades") {
        finish.shades = items(tree, &entries.path_of("shades"), limits::MOST_SHADES, log, share);
    }
    finish.seed = entries.value("seed", seed, finish.seed, log);
    entries.close(log);
    Some(finish)
}

/// Every key that belongs to some coverings only.
const OWN: [&str; 15] = [
    "shape", "bond", "braces", "width", "length", "height", "exposure", "joint", "size", "board", "batten", "timber",
    "bay", "depth", "tongue",
];

/// The covering with the sizes that are given; a stand-in where its kind is not known.
fn covering(entries: &mut Entries<'_>, kind: Option<Covering>, log: &mut Log) -> Covering {
    let mut covering = kind.unwrap_or(Covering::USUAL[0].1);
    let word = covering.word();
    let mut known: Vec<&str> = covering.sizes().iter().map(|(key, _)| *key).collect();
    for (key, size) in covering.sizes_mut() {
        *size = entries.value(key, length, *size, log);
    }
    match &mut covering {
        Covering::Tiles { shape, .. } => *shape = entries.word("shape", &SHAPES, log).unwrap_or_default(),
        Covering::Brick { bond, .. } => *bond = entries.word("bond", &BONDS, log).unwrap_or_default(),
        Covering::HalfTimber { braces, .. } => *braces = entries.value("braces", flag, true, log),
        _ => {}
    }
    known.extend(match covering {
        Covering::Tiles { .. } => Some("shape"),
        Covering::Brick { .. } => Some("bond"),
        Covering::HalfTimber { .. } => Some("braces"),
        _ => None,
    });
    for key in OWN.iter().filter(|key| !known.contains(key)) {
        if entries.get(key).is_some() && kind.is_some() {
            let hint = tr!("take it away; {word} has {}", known.join(", "));
            log.add(&entries.path_of(key), tr!("{word} has no {key}"), &hint);
        }
    }
    covering
}

fn seed(tree: &Tree, path: &str, log: &mut Log) -> Option<u32> {
    match tree {
        Tree::Number(n) if n.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(n) => Some(*n as u32),
        other => wrong(other, path, log, tr!("a whole number from 0 to 4294967295")),
    }
}

fn share(tree: &Tree, path: &str, log: &mut Log) -> Option<Share> {
    let mut entries = Entries::open(tree, path, log)?;
    entries.need("tint", log);
    let tint = entries.word("tint", &tints(), log).unwrap_or_default();
    let share = Share { tint, share: entries.value("share", number, 1.0, log) };
    entries.close(log);
    Some(share)
}

fn tints() -> [(&'static str, Tint); 12] {
    Tint::ALL.map(|tint| (tint.word(), tint))
}

fn ornament(tree: &Tree, path: &str, log: &mut Log) -> Option<Ornament> {
    let mut entries = Entries::open(tree, path, log)?;
    let kind = entries.needed_word("kind", &OrnamentKind::ALL, log).unwrap_or(OrnamentKind::Sill);
    let part = PartId(entries.needed("part", text, String::new(), log));
    let usual = Ornament::usual(kind, part);
    let ornament = Ornament {
        opening: entries.maybe("opening", text, String::new(), log).map(OpeningId),
        side: entries.maybe("side", text, String::new(), log).map(SideId),
        size: entries.value("size", length, usual.size, log),
        style: entries.word("style", &STYLES, log).unwrap_or(usual.style),
        stuff: entries.word("made_of", &STUFFS, log).unwrap_or(usual.stuff),
        thickness: entries.value("thickness", length, usual.thickness, log),
        tint: entries.word("tint", &tints(), log).unwrap_or(usual.tint),
        ..usual
    };
    entries.close(log);
    Some(ornament)
}

fn extra(tree: &Tree, path: &str, log: &mut Log) -> Option<Extra> {
    let mut entries = Entries::open(tree, path, log)?;
    let usual = Extra::usual(entries.needed_word("kind", &ExtraKind::ALL, log).unwrap_or(ExtraKind::Tree));
    let spot = Spot {
        x: entries.value("x", length, usual.spot.x, log),
        y: entries.value("y", length, usual.spot.y, log),
        turn: entries.value("turn", angle, usual.spot.turn, log),
    };
    let extra = Extra {
        spot,
        height: entries.value("height", length, usual.height, log),
        width: entries.value("width", length, usual.width, log),
        path: entries.value("path", text, usual.path.clone(), log),
        stuff: entries.word("made_of", &STUFFS, log).unwrap_or(usual.stuff),
        thickness: entries.value("thickness", length, usual.thickness, log),
        tint: entries.word("tint", &tints(), log).unwrap_or(usual.tint),
        ..usual
    };
    entries.close(log);
    Some(extra)
}
