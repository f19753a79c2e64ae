//! What each builder of a workshop is given.

use super::BakePlan;
use crate::{Allergen, Consistency, Figures, HandOver, Lot, Mass, Needs, Presence, ToBake};
use gable_measure::Unit;
use gable_shell::Tint;
use gable_words::tr;
use std::collections::BTreeSet;

/// One house in a box: its pieces, its icing, and a slip that says what is in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Kit {
    /// How many pieces stand already.
    pub standing: usize,
    /// Names and numbers of templates, and how many pieces of each; without a template at the end.
    pub pieces: Vec<(String, Option<usize>, usize)>,
    /// Bags of icing.
    pub icing: Vec<(Consistency, Tint, usize, Mass)>,
    /// What some people must not eat.
    pub allergens: Vec<(Allergen, Presence)>,
}

impl Kit {
    /// What is in it; who must not eat it is said afterwards.
    pub(super) fn of(lot: &Lot<'_>, one: &[ToBake], figures: &Figures, until: HandOver) -> Self {
        let mut pieces: Vec<(String, Option<usize>, usize)> = Vec::new();
        // Of finished houses the label says what they are made of.
        let raised = if until == HandOver::Finished { BTreeSet::new() } else { lot.raised(until) };
        let standing: BTreeSet<&str> =
            raised.iter().filter_map(|&k| lot.about.solved.pieces.get(k)).map(|own| own.id.0.as_str()).collect();
        for piece in one.iter().filter(|piece| !standing.contains(piece.id.as_str())) {
            let alike = |(name, template, _): &&mut (String, Option<usize>, usize)| match piece.template {
                Some(number) => *template == Some(number),
                None => *name == piece.name,
            };
            match pieces.iter_mut().find(alike) {
                Some((.., count)) => *count += 1,
                None => pieces.push((piece.name.clone(), piece.template, 1)),
            }
        }
        // Stable: numbered ones by number, the rest in their order.
        pieces.sort_by_key(|(_, template, _)| template.unwrap_or(usize::MAX));
        Self {
            standing: standing.len(),
            pieces,
            icing: Needs::icing_left(lot, until, figures)
                .iter()
                .map(|i| (i.consistency, i.tint, i.bags, i.to_make))
                .collect(),
            allergens: Vec::new(),
        }
    }

    /// What is in it, a line each: pieces with the numbers of their patterns, then bags of icing.
    pub fn contents(&self, unit: Unit) -> Vec<String> {
        let piece = |(name, template, count): &(String, Option<usize>, usize)| {
            let pattern = template.map_or_else(String::new, |number| tr!(" (pattern {number})"));
            format!("{count} × {name}{pattern}")
        };
        let icing = |(consistency, tint, bags, mass): &(Consistency, Tint, usize, Mass)| {
            let (stiff, colour, mass) = (consistency.words(), tint.words(), mass.print(unit));
            match *bags {
                0 => tr!("{stiff} icing, {colour}, {mass}"),
                bags => {
                    tr!("{n} bag, {stiff} icing, {colour}, {mass}" | "{n} bags, {stiff} icing, {colour}, {mass}" % bags)
                }
            }
        };
        let standing = match self.standing {
            0 => None,
            pieces => Some(tr!("{n} piece stands on the base board" | "{n} pieces stand on the base board" % pieces)),
        };
        standing.into_iter().chain(self.pieces.iter().map(piece)).chain(self.icing.iter().map(icing)).collect()
    }

    /// The slip: 'Contains wheat (gluten), eggs. May contain soybeans.'
    pub fn slip(&self) -> String {
        let of = |presence: Presence| -> Vec<&str> {
            self.allergens.iter().filter(|(_, p)| *p == presence).map(|(a, _)| a.words()).collect()
        };
        let (contains, may) = (of(Presence::Contains).join(", "), of(Presence::May).join(", "));
        let contains = (!contains.is_empty()).then(|| tr!("Contains {contains}."));
        let may = (!may.is_empty()).then(|| tr!("May contain {may}."));
        contains.into_iter().chain(may).collect::<Vec<_>>().join(" ")
    }
}

impl BakePlan {
    /// The slip of each house; one without a name where that of all is the same.
    pub fn slips(&self) -> Vec<String> {
        let slips: Vec<String> = self.houses.iter().map(|house| house.kit.slip()).collect();
        let same = slips.windows(2).all(|pair| pair[0] == pair[1]);
        if same {
            return slips.into_iter().take(1).collect();
        }
        self.houses.iter().zip(slips).map(|(house, slip)| format!("{}: {slip}", house.title)).collect()
    }
}
