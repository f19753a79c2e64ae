use super::sizes::Sizes;
use crate::file::limits;
use crate::{Before, House, Raised};
use gable_words::tr;
use std::collections::BTreeMap;

/// Wishes about the order name two different things each, and say so once. Whether there are such pieces, and whether it
/// can be done, is told of the house as it is worked out: a wish must not keep a file from being read.
pub(super) fn check(house: &House, sizes: &mut Sizes) {
    sizes.list("order", house.order.len(), limits::MOST_WISHES);
    let mut said: BTreeMap<&Before, usize> = BTreeMap::new();
    for (k, before) in house.order.iter().enumerate() {
        let path = format!("order[{k}]");
        let names = [("first", &before.first), ("then", &before.then)];
        let bad: Vec<&str> = names.into_iter().filter(|(_, raised)| !is_name(raised)).map(|(key, _)| key).collect();
        for key in &bad {
            let what = tr!("this names no part and no piece").to_owned();
            sizes.note(&format!("{path}.{key}"), what, tr!("write a part, such as \"porch\", or \"porch/roof\""));
        }
        let first = *said.entry(before).or_insert(k);
        if !bad.is_empty() {
            continue;
        }
        if before.first == before.then {
            sizes.note(&path, tr!("nothing comes before itself").to_owned(), tr!("name two different things"));
        } else if first < k {
            sizes.note(&path, tr!("order[{first}] says the same"), tr!("keep one of them"));
        }
    }
}

fn is_name(raised: &Raised) -> bool {
    let text = raised.to_string();
    let plain = |c: char| c.is_ascii_alphanumeric() || "-_".contains(c);
    let words: Vec<&str> = text.split('/').collect();
    text.len() <= limits::LONGEST_PIECE
        && words.len() <= 2
        && words.iter().all(|w| !w.is_empty() && w.chars().all(plain))
}
