//! Trays for all houses of a bake: laid once for as many copies as may be, and baked again and again.

use crate::oven::classes;
use crate::{Figures, Lots, OnTray, OvenNote, Ovenfuls, ToBake};
use gable_shell::kitchen::Kitchen;
use std::collections::BTreeMap;
use std::ops::Range;

/// Pieces that are laid on trays at once; the time that takes grows faster than their number.
const AT_ONCE: usize = 200;

/// So many copies of each house, laid on trays once and baked so many times.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Round {
    copies: Vec<usize>,
    times: usize,
}

/// The ovenfuls of all houses; `one` is what each takes once.
pub(super) fn ovenfuls(
    lots: &Lots<'_>,
    one: &[Vec<ToBake>],
    kitchen: &Kitchen,
    (figures, log): (&Figures, &[OvenNote]),
) -> Ovenfuls {
    let every: Vec<ToBake> = one.iter().flatten().cloned().collect();
    let classes = classes(&every, figures, log);
    let lay = |some: &[ToBake]| Ovenfuls::of_classes(some, &classes, kitchen, figures);
    let (copies, sizes): (Vec<usize>, Vec<usize>) =
        (lots.iter().map(|lot| lot.copies).collect(), one.iter().map(Vec::len).collect());
    let mut done = vec![0; copies.len()];
    let mut all: Option<Ovenfuls> = None;
    for round in rounds(copies, &sizes) {
        let some = |from: &[usize]| -> Vec<ToBake> {
            let range = |k: usize| -> Range<usize> { from[k]..from[k] + round.copies[k] };
            lots.iter().zip(one).enumerate().flat_map(|(k, (lot, one))| lot.copied(one, range(k))).collect()
        };
        let first = some(&done);
        let laid = lay(&first);
        for _ in 0..round.times {
            let now = some(&done);
            let names: BTreeMap<&str, &str> =
                first.iter().zip(&now).map(|(a, b)| (a.id.as_str(), b.id.as_str())).collect();
            add(&mut all, &laid, &names);
            done.iter_mut().zip(&round.copies).for_each(|(done, copies)| *done += copies);
        }
    }
    let mut all = all.unwrap_or_else(|| lay(&[]));
    // Alike ones are baked one after the other.
    all.trays.sort_by_key(|tray| tray.class);
    all.too_large.sort_unstable();
    all.too_large.dedup();
    all
}

/// Adds what is laid once more, for pieces of other ids.
fn add(all: &mut Option<Ovenfuls>, laid: &Ovenfuls, names: &BTreeMap<&str, &str>) {
    let mut laid = laid.clone();
    let renamed = |on: &mut OnTray| {
        if let Some(name) = names.get(on.id.as_str()) {
            on.id = (*name).to_owned();
        }
    };
    laid.trays.iter_mut().flat_map(|tray| &mut tray.pieces).for_each(renamed);
    laid.rolled.iter_mut().flat_map(|sheet| &mut sheet.pieces).for_each(renamed);
    match all {
        None => *all = Some(laid),
        Some(all) => {
            all.trays.append(&mut laid.trays);
            all.rolled.append(&mut laid.rolled);
            all.too_large.append(&mut laid.too_large);
        }
    }
}

/// In which rounds so many copies of houses of so many pieces are laid: as few as may be, as often the same as may be.
fn rounds(mut left: Vec<usize>, sizes: &[usize]) -> Vec<Round> {
    let mut rounds = Vec::new();
    while left.iter().any(|copies| *copies > 0) {
        let pieces: usize = left.iter().zip(sizes).map(|(copies, size)| copies * size).sum();
        let times = pieces.div_ceil(AT_ONCE).max(1);
        let mut copies: Vec<usize> = left.iter().map(|copies| copies / times).collect();
        let times = if copies.iter().any(|copies| *copies > 0) { times } else { 1 };
        if times == 1 {
            copies = first(&left, sizes);
        }
        left.iter_mut().zip(&copies).for_each(|(left, copies)| *left -= copies * times);
        rounds.push(Round { copies, times });
    }
    rounds
}

/// As many copies as are laid at once, one at least, houses in their order.
fn first(left: &[usize], sizes: &[usize]) -> Vec<usize> {
    let mut room = AT_ONCE;
    let mut any = false;
    let some = |(left, size): (&usize, &usize)| {
        let least = usize::from(!any && *left > 0);
        let copies = (room / (*size).max(1)).clamp(least.min(*left), *left);
        any |= copies > 0;
        room = room.saturating_sub(copies * size);
        copies
    };
    left.iter().zip(sizes).map(some).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sum(rounds: &[Round]) -> Vec<usize> {
        let count = rounds.first().map_or(0, |round| round.copies.len());
        (0..count).map(|k| rounds.iter().map(|round| round.copies[k] * round.times).sum()).collect()
    }

    #[test]
    fn every_copy_is_laid_once_and_not_too_many_at_once() {
        for (left, sizes) in [
            (vec![1], vec![30]),
            (vec![12], vec![40]),
            (vec![200], vec![17]),
            (vec![1], vec![900]),
            (vec![3], vec![0]),
            (vec![4, 6], vec![20, 35]),
            (vec![1; 26], vec![30; 26]),
            (vec![1, 50, 1], vec![250, 9, 1]),
        ] {
            let found = rounds(left.clone(), &sizes);
            assert_eq!(sum(&found), left, "{found:?}");
            for round in &found {
                let pieces: usize = round.copies.iter().zip(&sizes).map(|(copies, size)| copies * size).sum();
                assert!(pieces <= AT_ONCE || round.copies.iter().sum::<usize>() == 1, "{round:?}");
            }
        }
        assert_eq!(rounds(vec![12], &[40]), [Round { copies: vec![4], times: 3 }]);
        assert_eq!(rounds(vec![4, 2], &[20, 30]), [Round { copies: vec![4, 2], times: 1 }]);
    }
}
