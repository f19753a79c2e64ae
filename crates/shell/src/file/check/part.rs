use super::sizes::Sizes;
use super::{floor, opening, outline, side, twice};
use crate::file::limits;
use crate::file::read::{meant_or_known, shown};
use crate::{Batch, Behind, DoughId, House, Part};
use gable_measure::Length;
use gable_words::tr;

pub(super) fn check(house: &House, part: &Part, path: &str, sizes: &mut Sizes) {
    sizes.line(&format!("{path}.name"), &part.name);
    let sound = outline::check(&part.outline, &format!("{path}.outline"), sizes);
    sizes.check(&format!("{path}.raised"), part.raised, Length::ZERO, limits::LARGEST_PART);
    if let Behind::Passage { rim } = part.behind {
        sizes.check(&format!("{path}.behind.rim"), rim, Length::ZERO, limits::WIDEST_RIM);
    }
    dough(house, &part.wall_dough, &format!("{path}.wall_dough"), sizes);
    dough(house, &part.roof_dough, &format!("{path}.roof_dough"), sizes);
    dough(house, &part.floor.dough, &format!("{path}.floor.dough"), sizes);
    floor::check(part, &format!("{path}.floor"), sizes);
    if sound {
        walls_apart(house, part, path, sizes);
    }
    sides(part, path, sizes);
    lid(part, path, sizes);
    sizes.list(&format!("{path}.openings"), part.openings.len(), limits::MOST_OPENINGS);
    for (k, opening) in part.openings.iter().enumerate() {
        let own = format!("{path}.openings[{k}]");
        if let Some(first) = part.openings[..k].iter().position(|other| other.id == opening.id) {
            twice(sizes, &own, &opening.id.0, &format!("{path}.openings[{first}]"));
        }
        opening::check(part, opening, path, &own, sizes);
    }
}

fn dough(house: &House, id: &DoughId, path: &str, sizes: &mut Sizes) {
    if house.dough(id).is_some() {
        return;
    }
    let known: Vec<&str> = house.doughs.iter().map(|d| d.id.0.as_str()).collect();
    let hint = meant_or_known(&id.0, &known, tr!("its doughs are"));
    let what = tr!("the house has no dough \"{}\"", shown(&id.0));
    sizes.note_resting(path, what, &hint, &["doughs".to_owned()]);
}

/// Opposite walls must leave something between them.
fn walls_apart(house: &House, part: &Part, path: &str, sizes: &mut Sizes) {
    let Some(dough) = house.dough_of(part, Batch::Walls) else { return };
    let (apart, thick) = (Length::mm_of(outline::narrowest(&part.outline)), dough.baked() * 2.0);
    if part.sides.iter().any(|s| s.wall) && apart <= thick {
        let what =
            tr!("it is {} across, not more than two walls of {} baked", sizes.shown(apart), sizes.shown(dough.baked()));
        let rests_on = ["doughs".to_owned(), "baked".to_owned(), format!("{path}.wall_dough"), "unit".to_owned()];
        sizes.note_resting(
            &format!("{path}.outline"),
            what,
            tr!("make the part wider, or roll the dough thinner"),
            &rests_on,
        );
    }
}

fn sides(part: &Part, path: &str, sizes: &mut Sizes) {
    let (names, own): (Vec<String>, Vec<String>) =
        (part.outline.side_names(), part.sides.iter().map(|s| s.id.0.clone()).collect());
    if names != own {
        let what = tr!("the sides are {}, but the outline has {}", own.join(", "), names.join(", "));
        sizes.note_resting(&format!("{path}.sides"), what, "", &super::plan_of(path));
    }
    for side in &part.sides {
        side::check(side, &format!("{path}.sides.{}", side.id.0), sizes);
    }
}

fn lid(part: &Part, path: &str, sizes: &mut Sizes) {
    let Some(lid) = &part.lid else { return };
    sizes.check(&format!("{path}.lid.height"), lid.height, limits::SMALLEST_PART, limits::LARGEST_PART);
    sizes.check(&format!("{path}.lid.overhang"), lid.overhang, Length::ZERO, limits::WIDEST_OVERHANG);
    if let Some(parapet) = &lid.parapet {
        let path = format!("{path}.lid.parapet.height");
        sizes.check(&path, parapet.height, limits::LOWEST_PARAPET, limits::HIGHEST_PARAPET);
    }
}
