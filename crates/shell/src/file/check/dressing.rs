use super::sizes::Sizes;
use super::{Names, plan_of};
use crate::file::limits;
use crate::file::read::{meant_or_known, shown};
use crate::{Covering, Extra, ExtraKind, Finish, Ornament, PartId, SideId, Where};
use gable_measure::Length;
use gable_words::tr;

/// Finishes and ornaments name parts, sides and openings of the house, and have sizes that can be made.
pub(super) fn check(names: &Names<'_>, sizes: &mut Sizes) {
    let dressing = &names.house.dressing;
    sizes.list("dressing.finishes", dressing.finishes.len(), limits::MOST_FINISHES);
    for (k, finish) in dressing.finishes.iter().enumerate() {
        self::finish(names, finish, &format!("dressing.finishes[{k}]"), sizes);
    }
    sizes.list("dressing.ornaments", dressing.ornaments.len(), limits::MOST_ORNAMENTS);
    for (k, ornament) in dressing.ornaments.iter().enumerate() {
        self::ornament(names, ornament, &format!("dressing.ornaments[{k}]"), sizes);
    }
    sizes.list("dressing.extras", dressing.extras.len(), limits::MOST_ORNAMENTS);
    for (k, extra) in dressing.extras.iter().enumerate() {
        self::extra(extra, &format!("dressing.extras[{k}]"), sizes);
    }
    let rates = [("set", dressing.rates.set), ("cut", dressing.rates.cut), ("pipe", dressing.rates.pipe)];
    for (key, seconds) in rates {
        amount(&format!("dressing.rates.{key}"), seconds, 0.0, limits::SLOWEST, sizes);
    }
}

fn amount(path: &str, value: f64, least: f64, most: f64, sizes: &mut Sizes) {
    if !(least..=most).contains(&value) {
        sizes.note(path, tr!("{value} is not from {least} to {most}"), "");
    }
}

fn finish(names: &Names<'_>, finish: &Finish, path: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{path}.{key}");
    match (&finish.faces.part, &finish.faces.side) {
        (Some(part), side) => part_and_side(names, part, side.as_ref(), path, sizes),
        (None, Some(_)) => sizes.note(&at("side"), tr!("it is a side of no part").to_owned(), tr!("say which part")),
        (None, None) => {}
    }
    if finish.faces.which == Where::Lids && finish.faces.side.is_some() {
        sizes.note(&at("side"), tr!("a lid has no sides").to_owned(), tr!("take it away"));
    }
    if matches!(finish.covering, Covering::Snow { .. }) && finish.faces.which != Where::Slopes {
        sizes.note(&at("on"), tr!("snow along the eaves lies on slopes").to_owned(), tr!("write \"on\": \"slopes\""));
    }
    for (key, length) in finish.covering.sizes() {
        let least = if key == "joint" { Length::ZERO } else { limits::SMALLEST_UNIT };
        let most = if key == "joint" { limits::WIDEST_GAP } else { limits::LARGEST_UNIT };
        sizes.check(&at(key), length, least, most);
    }
    together(&finish.covering, path, sizes);
    sizes.check(&at("thickness"), finish.thickness, limits::THINNEST_UNIT, limits::THICKEST_DOUGH);
    sizes.list(&at("shades"), finish.shades.len(), limits::MOST_SHADES);
    if finish.shades.is_empty() {
        sizes.note(&at("shades"), tr!("a finish needs at least one shade").to_owned(), "");
    }
    for (k, share) in finish.shades.iter().enumerate() {
        amount(&at(&format!("shades[{k}].share")), share.share, limits::LEAST_SHARE, limits::MOST_SHARE, sizes);
    }
}

/// Sizes that must not be larger than others.
fn together(covering: &Covering, path: &str, sizes: &mut Sizes) {
    let (key, small, other, large) = match *covering {
        Covering::Tiles { exposure, length, .. } => ("exposure", exposure, "length", length),
        Covering::Brick { joint, length, .. } => ("joint", joint, "length", length / 2.0),
        Covering::Stone { size, joint } => ("joint", joint, "size", size / 2.0),
        Covering::BoardAndBatten { board, batten } => ("batten", batten, "board", board / 1.25),
        Covering::HalfTimber { timber, bay, .. } => ("timber", timber, "bay", bay / 1.25),
        Covering::Weatherboard { .. } | Covering::Snow { .. } => return,
    };
    if small > large {
        let what = tr!("{} is too much for the {other}", sizes.shown(small));
        sizes.note_resting(&format!("{path}.{key}"), what, tr!("make it smaller"), &[format!("{path}.{other}")]);
    }
}

fn part_and_side(names: &Names<'_>, part: &PartId, side: Option<&SideId>, path: &str, sizes: &mut Sizes) {
    let Some(index) = names.find(part, &format!("{path}.part"), sizes) else { return };
    let (Some(part), Some(side)) = (names.house.parts.get(index), side) else { return };
    let own = part.outline.side_names();
    if !own.contains(&side.0) {
        let known: Vec<&str> = own.iter().map(String::as_str).collect();
        let hint = meant_or_known(&side.0, &known, tr!("its sides are"));
        let what = tr!("the part has no side \"{}\"", shown(&side.0));
        sizes.note_resting(&format!("{path}.side"), what, &hint, &plan_of(&format!("parts[{index}]")));
    }
}

fn ornament(names: &Names<'_>, ornament: &Ornament, path: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{path}.{key}");
    part_and_side(names, &ornament.part, ornament.side.as_ref(), path, sizes);
    sizes.check(&at("size"), ornament.size, Length::ZERO, limits::LARGEST_UNIT);
    sizes.check(&at("thickness"), ornament.thickness, limits::THINNEST_UNIT, limits::THICKEST_DOUGH);
    let Some(opening) = &ornament.opening else { return };
    if !ornament.kind.is_at_openings() {
        let what = tr!("a {} belongs to no opening", ornament.kind.word());
        return sizes.note(&at("opening"), what, tr!("take it away"));
    }
    let Some(index) = names.index(&ornament.part) else { return };
    let openings = &names.house.parts[index].openings;
    if !openings.iter().any(|o| o.id == *opening) {
        let known: Vec<&str> = openings.iter().map(|o| o.id.0.as_str()).collect();
        let hint = meant_or_known(&opening.0, &known, tr!("its openings are"));
        let what = tr!("the part has no opening \"{}\"", shown(&opening.0));
        sizes.note_resting(&at("opening"), what, &hint, &[format!("parts[{index}].openings")]);
    }
}

fn extra(extra: &Extra, path: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{path}.{key}");
    let far = limits::FARTHEST_PLACE;
    sizes.check(&at("x"), extra.spot.x, -far, far);
    sizes.check(&at("y"), extra.spot.y, -far, far);
    if !extra.spot.turn.rad().is_finite() {
        sizes.note(&at("turn"), tr!("this is not a number").to_owned(), "");
    }
    sizes.check(&at("height"), extra.height, limits::SMALLEST_PART, limits::LARGEST_UNIT);
    sizes.check(&at("width"), extra.width, limits::SMALLEST_PART, limits::LARGEST_UNIT);
    sizes.check(&at("thickness"), extra.thickness, limits::THINNEST_UNIT, limits::THICKEST_DOUGH);
    sizes.text(&at("path"), &extra.path, limits::LONGEST_NOTES, &[' ', '\n', '\t']);
    if extra.kind != ExtraKind::Outline && !extra.path.is_empty() {
        sizes.note(&at("path"), tr!("a {} has its own outline", extra.kind.word()), tr!("take it away"));
    }
}
