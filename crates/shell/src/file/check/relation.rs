use super::Names;
use super::sizes::Sizes;
use crate::file::limits;
use crate::file::read::{meant_or_known, shown};
use crate::{Gives, Measure, Measured};
use gable_words::tr;
use std::collections::BTreeMap;

/// Each relation names two parts of the house, and each size follows one thing. What only their sizes tell, the solver
/// says.
pub(super) fn check(names: &Names<'_>, sizes: &mut Sizes) {
    let relations = &names.house.relations;
    sizes.list("relations", relations.len(), limits::MOST_RELATIONS);
    let mut followers: BTreeMap<&Measured, usize> = BTreeMap::new();
    for (k, relation) in relations.iter().enumerate() {
        let path = format!("relations[{k}]");
        measured(names, &relation.follower, &path, sizes);
        measured(names, &relation.leader, &format!("{path}.follows"), sizes);
        let (follower, leader) = (&relation.follower, &relation.leader);
        if follower.measure.is_height() != leader.measure.is_height() {
            let what = tr!("a height follows heights, and a size of the plan sizes of plans").to_owned();
            sizes.note(&format!("{path}.follows.measure"), what, tr!("choose another size to follow"));
        }
        if follower == leader {
            sizes.note(&format!("{path}.follows"), tr!("it follows itself").to_owned(), tr!("name another size"));
        }
        if relation.gives != Gives::Walls && follower.measure != Measure::Ridge {
            sizes.note(
                &format!("{path}.gives"),
                tr!("only a ridge has something that gives").to_owned(),
                tr!("take it away"),
            );
        }
        sizes.check(&format!("{path}.offset"), relation.offset, -limits::LARGEST_PART, limits::LARGEST_PART);
        let first = *followers.entry(follower).or_insert(k);
        if first < k {
            sizes.note(&path, tr!("relations[{first}] says what this size follows"), tr!("keep one of them"));
        }
    }
}

fn measured(names: &Names<'_>, what: &Measured, path: &str, sizes: &mut Sizes) {
    let found = names.find(&what.part, &format!("{path}.part"), sizes);
    let (Some(k), Measure::Eave(Some(side))) = (found, &what.measure) else { return };
    let known: Vec<&str> = names.house.parts[k].sides.iter().map(|s| s.id.0.as_str()).collect();
    if !known.contains(&side.0.as_str()) {
        let hint = meant_or_known(&side.0, &known, tr!("its sides are"));
        let what = tr!("\"{}\" has no side \"{}\"", shown(&what.part.0), shown(&side.0));
        let rests_on = super::plan_of(&format!("parts[{k}]"));
        sizes.note_resting(&format!("{path}.side"), what, &hint, &rests_on);
    }
}
