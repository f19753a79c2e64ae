//! What is baked already stays what it is, and the rest is worked out to fit it.
//!
//! The house is worked out as planned, then once more with the sizes of the baked walls as they stand. What differs has
//! to be printed anew. A baked piece lies in the room that is worked out for it; what does not fit is a finding.

mod apart;
mod ease;
mod fill;
mod fit;
mod precedence;
mod record;
mod room;
mod shape;
mod stand;
mod tell;
#[cfg(test)]
mod tests;

use super::{plain, settle};
use crate::{Altered, Batch, Extent, House, Piece, Solved};
use ease::{Eased, Eases};
use gable_measure::{Finding, Length};
use std::collections::BTreeMap;

/// Works out a house of which something is baked; its sizes are settled.
pub(super) fn solve(house: &House, told: Vec<Finding>) -> Solved {
    let planned = without(house);
    let (house, plan, kept) = precedence::keep(house, plain(&planned, told));
    let shapes = shape::shapes(&house, &plan);
    let Eased { house: stands, mut solved, eases } = ease::ease(&house, &shapes);
    let settled = fill::settle(&house, &stands, &eases, &shapes, &mut solved);
    solved.changes = changes(&plan, &solved);
    solved.findings.extend(tell::tell(&house, &solved, &kept, &settled));
    solved
}

/// The house with the sizes of its baked walls as they stand, and whatever follows them.
///
/// Its doughs are those of the plan: [`House::dough_of`] tells how thick a batch came out. Working it out once more
/// would fit it to the same pieces a second time.
pub fn as_it_stands(house: &House) -> House {
    let settled = if house.relations.is_empty() { house.clone() } else { settle(house).0 };
    let (house, plan, _) = precedence::keep(&settled, plain(&without(&settled), Vec::new()));
    ease::ease(&house, &shape::shapes(&house, &plan)).house
}

/// The house as it was planned.
fn without(house: &House) -> House {
    House { baked: Vec::new(), ..house.clone() }
}

/// The house as it stands when its parts give way so much, and what keeps sizes from following.
fn fitted(house: &House, eases: &Eases) -> (House, Vec<Finding>) {
    let planned = without(house);
    let mut new = house.clone();
    for part in &mut new.parts {
        let ease = eases.get(&part.id).copied().unwrap_or_default();
        if let Some(fitted) = fit::part(&planned, house, part, &ease) {
            *part = fitted;
        }
        fit::moved(part, &ease);
    }
    // What is baked follows nothing any more; what follows it still does.
    new.relations.retain(|r| house.baked_batch(&r.follower.part, Batch::Walls).is_none());
    let (settled, told) = settle(&new);
    (House { relations: Vec::new(), ..settled }, told)
}

impl Extent {
    fn of(piece: &Piece) -> Self {
        let (width, height) = piece.size();
        Self { width, height, thickness: piece.thickness }
    }

    fn differs(&self, other: &Self) -> bool {
        let apart = |a: Length, b: Length| (a - b).abs().mm() > apart::SAME;
        apart(self.width, other.width) || apart(self.height, other.height) || apart(self.thickness, other.thickness)
    }
}

/// Every piece that is not as planned: those of the house as it stands in their order, then those that are gone.
fn changes(plan: &Solved, solved: &Solved) -> Vec<Altered> {
    let before: BTreeMap<_, &Piece> = plan.pieces.iter().map(|p| (&p.id, p)).collect();
    let after: BTreeMap<_, &Piece> = solved.pieces.iter().map(|p| (&p.id, p)).collect();
    let gone = plan.pieces.iter().filter(|p| !after.contains_key(&p.id)).map(|p| change(p, Some(p), None));
    let there = solved.pieces.iter().map(|p| change(p, before.get(&p.id).copied(), Some(p)));
    there.chain(gone).filter(is_change).collect()
}

fn change(piece: &Piece, before: Option<&Piece>, after: Option<&Piece>) -> Altered {
    let moved = match (before, after) {
        (Some(before), Some(after)) => apart::between(&apart::rings(before), &apart::rings(after)),
        _ => 0.0,
    };
    Altered {
        piece: piece.id.clone(),
        name: piece.name.clone(),
        part: piece.part.clone(),
        baked: after.is_some_and(|p| p.baked),
        before: before.map(Extent::of),
        after: after.map(Extent::of),
        moved: Length::mm_of(moved),
    }
}

fn is_change(change: &Altered) -> bool {
    match (&change.before, &change.after) {
        (Some(before), Some(after)) => before.differs(after) || change.moved.mm() > apart::SAME,
        _ => true,
    }
}
