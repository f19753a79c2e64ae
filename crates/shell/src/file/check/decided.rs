use super::Names;
use super::sizes::Sizes;
use crate::file::limits;
use crate::file::read::shown;
use crate::{Decided, PartId};
use gable_words::tr;
use std::collections::BTreeMap;

/// Each pair names two parts of the house, and is settled once.
pub(super) fn check(names: &Names<'_>, sizes: &mut Sizes) {
    let decided = &names.house.decided;
    sizes.list("decided", decided.len(), limits::MOST_DECIDED);
    let mut settled: BTreeMap<[&PartId; 2], usize> = BTreeMap::new();
    for (k, Decided { whole, cut }) in decided.iter().enumerate() {
        let path = format!("decided[{k}]");
        let whole_found = names.find(whole, &format!("{path}.whole"), sizes);
        let cut_found = names.find(cut, &format!("{path}.cut"), sizes);
        if whole_found.is_none() || cut_found.is_none() {
            continue;
        }
        if whole == cut {
            let what = tr!("it is the part that stays whole").to_owned();
            sizes.note_resting(
                &format!("{path}.cut"),
                what,
                tr!("name two different parts"),
                &[format!("{path}.whole")],
            );
            continue;
        }
        let first = *settled.entry([whole.min(cut), whole.max(cut)]).or_insert(k);
        if first < k {
            again(&decided[first], first, &decided[k], &path, sizes);
        }
    }
}

/// Notes that a pair is settled already.
fn again(first: &Decided, index: usize, second: &Decided, path: &str, sizes: &mut Sizes) {
    let what = if first == second {
        tr!("decided[{index}] says the same")
    } else {
        let (whole, cut) = (shown(&first.whole.0), shown(&first.cut.0));
        tr!("decided[{index}] says the opposite: \"{whole}\" stays whole and \"{cut}\" is cut to fit")
    };
    sizes.note(path, what, tr!("keep one of them"));
}
