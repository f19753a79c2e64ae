use super::sizes::Sizes;
use crate::file::limits;
use crate::file::read::{meant_or_known, shown};
use crate::{Opening, Part, Placing, Shape};
use gable_measure::Length;

/// `path` is that of the part, `own` that of the opening.
pub(super) fn check(part: &Part, opening: &Opening, path: &str, own: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{own}.{key}");
    let largest = limits::LARGEST_PART;
    sizes.id(&at("id"), &opening.id.0);
    sizes.line(&at("name"), &opening.name);
    side(part, opening, path, &at("side"), sizes);
    sizes.check(&at("width"), opening.width, limits::SMALLEST_OPENING, largest);
    sizes.check(&at("height"), opening.height, limits::SMALLEST_OPENING, largest);
    sizes.check(&at("sill"), opening.sill, Length::ZERO, largest);
    let (distance, least) = match opening.placing {
        Placing::Centred { offset } => (offset, -largest),
        Placing::FromLeft { distance } | Placing::FromRight { distance } => (distance, Length::ZERO),
    };
    sizes.check(&at("distance"), distance, least, largest);
    if opening.shape == Shape::RoundHeaded && opening.height * 2.0 < opening.width {
        let what = format!(
            "a round head of {} needs at least {} of height, not {}",
            sizes.shown(opening.width),
            sizes.shown(opening.width / 2.0),
            sizes.shown(opening.height)
        );
        sizes.note_resting(&at("height"), what, "make it taller or narrower", &[at("width")]);
    }
}

fn side(part: &Part, opening: &Opening, path: &str, own: &str, sizes: &mut Sizes) {
    let names = part.outline.side_names();
    if names.contains(&opening.side.0) {
        return;
    }
    let known: Vec<&str> = names.iter().map(String::as_str).collect();
    let hint = meant_or_known(&opening.side.0, &known, "its sides are");
    let what = format!("the outline has no side \"{}\"", shown(&opening.side.0));
    sizes.note_resting(own, what, &hint, &super::plan_of(path));
}
