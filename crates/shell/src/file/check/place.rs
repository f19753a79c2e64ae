use super::Names;
use super::sizes::Sizes;
use crate::file::limits;
use crate::file::read::{meant_or_known, shown};
use crate::{PartId, Place, Placing, SideId, Spot};
use gable_measure::Length;
use gable_words::tr;

/// The place of part `index`, whose path is `part`.
pub(super) fn check(names: &Names<'_>, index: usize, part: &str, sizes: &mut Sizes) {
    let place = &names.house.parts[index].place;
    let path = path_of(part, place);
    let at = |key: &str| format!("{path}.{key}");
    let far = limits::LARGEST_PART;
    match place {
        Place::Ground(own) => spot(own, &path, sizes),
        Place::Against { host, side, along, out, turn } => {
            beside(names, index, (host, side), &path, sizes);
            sizes.check(&at("distance"), distance(*along), -far, far);
            sizes.check(&at("out"), *out, -far, far);
            sizes.turn(&at("turn"), *turn);
        }
        Place::OnSlope { host, side, along, up, turn } => {
            beside(names, index, (host, side), &path, sizes);
            sizes.check(&at("distance"), distance(*along), -far, far);
            sizes.check(&at("up"), *up, -far, far);
            sizes.turn(&at("turn"), *turn);
        }
        Place::Astride { host, along, turn } => {
            other(names, index, host, &path, sizes);
            sizes.check(&at("along"), *along, -far, far);
            sizes.turn(&at("turn"), *turn);
        }
        Place::OnTop { host, spot: own } => {
            other(names, index, host, &path, sizes);
            spot(own, &path, sizes);
        }
    }
}

/// Path of what a place says.
fn path_of(part: &str, place: &Place) -> String {
    let way = match place {
        Place::Ground(_) => "",
        Place::Against { .. } => ".against",
        Place::OnSlope { .. } => ".on-slope",
        Place::Astride { .. } => ".astride",
        Place::OnTop { .. } => ".on-top",
    };
    format!("{part}.place{way}")
}

fn spot(spot: &Spot, path: &str, sizes: &mut Sizes) {
    let far = limits::FARTHEST_PLACE;
    sizes.check(&format!("{path}.x"), spot.x, -far, far);
    sizes.check(&format!("{path}.y"), spot.y, -far, far);
    sizes.turn(&format!("{path}.turn"), spot.turn);
}

fn distance(along: Placing) -> Length {
    match along {
        Placing::Centred { offset } => offset,
        Placing::FromLeft { distance } | Placing::FromRight { distance } => distance,
    }
}

/// The part that part `index` stands by; a note when it is not there or is that part itself.
fn other(names: &Names<'_>, index: usize, host: &PartId, path: &str, sizes: &mut Sizes) -> Option<usize> {
    let path = format!("{path}.part");
    let found = names.find(host, &path, sizes)?;
    if found == index {
        sizes.note(
            &path,
            tr!("a part cannot stand by itself").to_owned(),
            tr!("name another part, or place it on the base board"),
        );
        return None;
    }
    Some(found)
}

/// The part and the side that part `index` stands by.
fn beside(names: &Names<'_>, index: usize, (host, side): (&PartId, &SideId), path: &str, sizes: &mut Sizes) {
    let Some(found) = other(names, index, host, path, sizes) else { return };
    let sides = names.house.parts[found].outline.side_names();
    if sides.contains(&side.0) {
        return;
    }
    let known: Vec<&str> = sides.iter().map(String::as_str).collect();
    let hint = meant_or_known(&side.0, &known, tr!("its sides are"));
    let what = tr!("part \"{}\" has no side \"{}\"", shown(&host.0), shown(&side.0));
    sizes.note_resting(&format!("{path}.side"), what, &hint, &super::plan_of(&format!("parts[{found}]")));
}

/// Notes every circle of parts that stand by each other once, at the first of its parts.
pub(super) fn circles(names: &Names<'_>, sizes: &mut Sizes) {
    let parts = &names.house.parts;
    let host = |k: usize| parts[k].place.host().and_then(|id| names.index(id)).filter(|&host| host != k);
    // From which start each part was first reached.
    let mut reached: Vec<Option<usize>> = vec![None; parts.len()];
    for start in 0..parts.len() {
        let mut at = Some(start);
        while let Some(k) = at.filter(|&k| reached[k].is_none()) {
            reached[k] = Some(start);
            at = host(k);
        }
        let Some(again) = at.filter(|&k| reached[k] == Some(start)) else { continue };
        let next = |k: &usize| host(*k).filter(|&next| next != again);
        let circle: Vec<usize> = std::iter::successors(Some(again), next).collect();
        note_circle(names, &circle, sizes);
    }
}

fn note_circle(names: &Names<'_>, circle: &[usize], sizes: &mut Sizes) {
    let Some((first, &lowest)) = circle.iter().enumerate().min_by_key(|(_, k)| **k) else { return };
    let part = |k: &usize| &names.house.parts[*k];
    let round = circle[first..].iter().chain(&circle[..=first]);
    let round: Vec<String> = round.map(|k| shown(&part(k).id.0)).collect();
    let path = path_of(&format!("parts[{lowest}]"), &part(&lowest).place) + ".part";
    let what = tr!("these parts stand by each other in a circle: {}", round.join(", "));
    sizes.note(&path, what, tr!("place one of them on the base board"));
}
