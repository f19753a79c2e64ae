//! What each builder of a workshop is given.

use crate::words::white;
use crate::{Allergen, Consistency, Mass, Needs, Presence, ToBake};
use gable_measure::Unit;
use gable_shell::Tint;
use std::collections::BTreeMap;

/// One house in a box: its pieces, its icing, and a slip that says what is in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Kit {
    /// Names and numbers of templates, and how many pieces of each; without a template at the end.
    pub pieces: Vec<(String, Option<usize>, usize)>,
    /// Bags of icing.
    pub icing: Vec<(Consistency, Tint, usize, Mass)>,
    /// What some people must not eat.
    pub allergens: Vec<(Allergen, Presence)>,
}

impl Kit {
    pub(super) fn of(one: &[ToBake], needs: &Needs, allergens: &BTreeMap<Allergen, Presence>) -> Self {
        let mut pieces: Vec<(String, Option<usize>, usize)> = Vec::new();
        for piece in one {
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
            pieces,
            icing: needs.icing.iter().map(|i| (i.consistency, i.tint, i.bags, i.to_make)).collect(),
            allergens: allergens.iter().map(|(a, p)| (*a, *p)).collect(),
        }
    }

    /// What is in it, a line each: pieces with the numbers of their patterns, then bags of icing.
    pub fn contents(&self, unit: Unit) -> Vec<String> {
        let piece = |(name, template, count): &(String, Option<usize>, usize)| {
            let pattern = template.map_or_else(String::new, |number| format!(" (pattern {number})"));
            format!("{count} × {name}{pattern}")
        };
        let icing = |(consistency, tint, bags, mass): &(Consistency, Tint, usize, Mass)| {
            let bags = match bags {
                0 => String::new(),
                1 => "1 bag, ".to_owned(),
                bags => format!("{bags} bags, "),
            };
            format!("{bags}{} icing, {}, {}", consistency.word(), white(*tint), mass.print(unit))
        };
        self.pieces.iter().map(piece).chain(self.icing.iter().map(icing)).collect()
    }

    /// The slip: 'Contains wheat (gluten), eggs. May contain soybeans.'
    pub fn slip(&self) -> String {
        let of = |presence: Presence| -> Vec<&str> {
            self.allergens.iter().filter(|(_, p)| *p == presence).map(|(a, _)| a.words()).collect()
        };
        let said = |words: &str, list: Vec<&str>| match list.is_empty() {
            true => String::new(),
            false => format!("{words} {}.", list.join(", ")),
        };
        let lines = [said("Contains", of(Presence::Contains)), said("May contain", of(Presence::May))];
        lines.into_iter().filter(|l| !l.is_empty()).collect::<Vec<_>>().join(" ")
    }
}
