//! In which order relations are settled.

use super::Trouble;
use super::slots::{Parts, Slot};
use crate::{House, Relation};
use std::collections::{BTreeMap, BTreeSet};

/// The relations in the order in which they can be settled; those that cannot come with the reason.
pub(super) fn order(house: &House) -> Vec<(usize, Option<Trouble>)> {
    let parts = Parts::new(house);
    let relations = &house.relations;
    let mut order = Vec::new();
    let mut setters: BTreeMap<(usize, Slot), usize> = BTreeMap::new();
    let mut waiting: BTreeSet<usize> = BTreeSet::new();
    for (k, relation) in relations.iter().enumerate() {
        let lost = [&relation.follower, &relation.leader].into_iter().find(|m| parts.index(&m.part).is_none());
        let slots = parts.set(relation);
        let taken = slots.iter().find_map(|slot| setters.get(slot).copied());
        let other_kind = relation.follower.measure.is_height() != relation.leader.measure.is_height();
        match (lost, taken) {
            (None, _) if other_kind => order.push((k, Some(Trouble::OtherKind))),
            (Some(lost), _) => order.push((k, Some(Trouble::NoPart(lost.clone())))),
            (None, Some(other)) => order.push((k, Some(Trouble::Taken(relations[other].clone())))),
            (None, None) => {
                setters.extend(slots.into_iter().map(|slot| (slot, k)));
                waiting.insert(k);
            }
        }
    }
    let needs_of = |k: usize| parts.read(&relations[k]).iter().filter_map(|slot| setters.get(slot).copied()).collect();
    let needs: BTreeMap<usize, BTreeSet<usize>> = waiting.iter().map(|&k| (k, needs_of(k))).collect();
    order.extend(ready(&needs, &mut waiting).into_iter().map(|k| (k, None)));
    order.extend(stuck(relations, &needs, waiting));
    order
}

/// Takes out of `waiting`, one after the other, what needs nothing of what still waits.
fn ready(needs: &BTreeMap<usize, BTreeSet<usize>>, waiting: &mut BTreeSet<usize>) -> Vec<usize> {
    let mut open: BTreeMap<usize, usize> = BTreeMap::new();
    let mut needed_by: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for &k in waiting.iter() {
        for &other in needs[&k].iter().filter(|other| waiting.contains(other)) {
            *open.entry(k).or_default() += 1;
            needed_by.entry(other).or_default().push(k);
        }
    }
    let mut next: BTreeSet<usize> = waiting.iter().copied().filter(|k| !open.contains_key(k)).collect();
    let mut order = Vec::new();
    while let Some(k) = next.pop_first() {
        waiting.remove(&k);
        order.push(k);
        for other in needed_by.remove(&k).unwrap_or_default() {
            if let Some(count) = open.get_mut(&other) {
                *count -= 1;
                if *count == 0 {
                    next.insert(other);
                }
            }
        }
    }
    order
}

/// Of relations that wait for each other: those in a circle, and then those that only hang on one.
fn stuck(
    relations: &[Relation],
    needs: &BTreeMap<usize, BTreeSet<usize>>,
    mut waiting: BTreeSet<usize>,
) -> Vec<(usize, Option<Trouble>)> {
    let mut order = Vec::new();
    for k in waiting.clone() {
        if let Some(circle) = circle(k, needs) {
            let circle = circle.into_iter().map(|r| relations[r].follower.clone()).collect();
            order.push((k, Some(Trouble::Circle(circle))));
        }
    }
    waiting.retain(|k| order.iter().all(|(other, _)| other != k));
    order.extend(ready(needs, &mut waiting).into_iter().map(|k| (k, None)));
    order
}

/// The shortest way from a relation back to itself.
fn circle(start: usize, needs: &BTreeMap<usize, BTreeSet<usize>>) -> Option<Vec<usize>> {
    let mut came_from: BTreeMap<usize, usize> = BTreeMap::new();
    let mut near = vec![start];
    while !near.is_empty() {
        let mut far = Vec::new();
        for last in near {
            if needs[&last].contains(&start) {
                let mut way = vec![last];
                while let Some(&before) = way.last().filter(|k| **k != start).and_then(|k| came_from.get(k)) {
                    way.push(before);
                }
                way.reverse();
                return Some(way);
            }
            for &next in &needs[&last] {
                if let std::collections::btree_map::Entry::Vacant(entry) = came_from.entry(next) {
                    entry.insert(last);
                    far.push(next);
                }
            }
        }
        near = far;
    }
    None
}
