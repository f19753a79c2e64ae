//! What is baked stays whole, also where the house says otherwise by now.

use super::{apart, without};
use crate::solve::plain;
use crate::{Baked, Batch, Behind, Decided, House, PartId, Solved};
use std::collections::BTreeSet;

/// A house and its plan, in which baked pieces keep the shape that they were cut in as far as it is only a question of
/// which part stays whole; also the parts that stay whole for that.
pub(super) fn keep(house: &House, plan: Solved) -> (House, Solved, Vec<PartId>) {
    let mut kept = (house.clone(), plan, Vec::new());
    let parts: BTreeSet<&PartId> = house.baked.iter().map(|b| &b.part).collect();
    for part in parts {
        let now = clash(&kept.0, &kept.1, part);
        if now <= apart::SAME {
            continue;
        }
        let other = whole(&kept.0, part);
        let plan = plain(&without(&other), Vec::new());
        if clash(&other, &plan, part) < now - apart::SAME {
            kept.2.push(part.clone());
            (kept.0, kept.1) = (other, plan);
        }
    }
    kept
}

/// How far the plan is from what was cut of a part, mm; pieces that are gone count as much as they measure.
fn clash(house: &House, plan: &Solved, part: &PartId) -> f64 {
    let own = house.baked.iter().filter(|b| &b.part == part);
    own.flat_map(|b: &Baked| &b.cut).map(|cut| apart::from_cut(plan, cut)).sum()
}

/// The house in which a part stays whole where it meets parts of which nothing is baked, and no passages go through it.
fn whole(house: &House, part: &PartId) -> House {
    let mut house = house.clone();
    let is_raw = |id: &PartId| Batch::ALL.iter().all(|&b| house.baked_batch(id, b).is_none());
    let raw: Vec<PartId> = house.parts.iter().map(|p| p.id.clone()).filter(is_raw).collect();
    house.decided.retain(|d| !(&d.cut == part && raw.contains(&d.whole)));
    house.decided.extend(raw.into_iter().map(|cut| Decided { whole: part.clone(), cut }));
    for guest in house.parts.iter_mut().filter(|p| p.place.host() == Some(part)) {
        guest.behind = Behind::Whole;
    }
    house
}
