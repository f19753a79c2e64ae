//! Floors, steps and posts.

use super::sizes::Sizes;
use crate::file::limits;
use crate::file::read::{meant_or_known, shown};
use crate::{FloorKind, Part, Side, StepsHigh};
use gable_words::tr;

pub(super) fn check(part: &Part, path: &str, sizes: &mut Sizes) {
    let Some(steps) = &part.floor.steps else { return };
    let at = |key: &str| format!("{path}.steps.{key}");
    if part.floor.kind != FloorKind::Under {
        let what = tr!("only a floor under the walls is built up of several plates").to_owned();
        let hint = tr!("make the floor's kind under, or take the steps away");
        sizes.note_resting(&format!("{path}.steps"), what, hint, &[format!("{path}.kind")]);
    }
    match steps.high {
        StepsHigh::Count(count) => sizes.count(&at("count"), count, 1, limits::MOST_STEPS),
        StepsHigh::Height(height) => {
            sizes.check(&at("height"), height, limits::THINNEST_DOUGH, limits::HIGHEST_PARAPET);
        }
    }
    sizes.count(&at("plates"), steps.plates, 1, limits::MOST_PLATES_OF_STEP);
    sizes.check(&at("tread"), steps.tread, limits::NARROWEST_TREAD, limits::WIDEST_TREAD);
    let known: Vec<&str> = part.sides.iter().map(|s| s.id.0.as_str()).collect();
    for (k, side) in steps.sides.iter().enumerate() {
        let own = format!("{}[{k}]", at("sides"));
        if steps.sides[..k].contains(side) {
            sizes.note(&own, tr!("\"{}\" is there twice", shown(&side.0)), tr!("keep one of them"));
        } else if !known.contains(&side.0.as_str()) {
            let hint = meant_or_known(&side.0, &known, tr!("its sides are"));
            let what = tr!("the part has no side \"{}\"", shown(&side.0));
            sizes.note_resting(&own, what, &hint, &super::plan_of(path.trim_end_matches(".floor")));
        }
    }
}

pub(super) fn posts(side: &Side, path: &str, sizes: &mut Sizes) {
    let Some(posts) = &side.posts else { return };
    if side.wall {
        let what = tr!("posts stand only where there is no wall").to_owned();
        sizes.note(path, what, tr!("write \"wall\": false, or take the posts away"));
    }
    sizes.count(&format!("{path}.count"), posts.count, 1, limits::MOST_POSTS);
    sizes.check(&format!("{path}.width"), posts.width, limits::NARROWEST_POST, limits::WIDEST_POST);
    sizes.count(&format!("{path}.strips"), posts.strips, 1, limits::MOST_STRIPS);
}
