//! What is bought for all houses of a bake.

use super::{Batch, HousePlan};
use crate::shopping::{self, Basket};
use crate::words::at_least;
use crate::{Lots, Makes, Mass, Notebook, PasteNeed, Quantity, Shelf, Shopping};
use gable_measure::{Length, Unit};
use gable_shell::{Glass, Stuff, Tint};
use gable_words::tr;
use std::collections::BTreeSet;

/// The list; `houses` are those of `lots`.
pub(super) fn shopping(lots: &Lots<'_>, houses: &[HousePlan], batches: &[Batch], notebook: &Notebook) -> Shopping {
    let pantry = notebook.pantry();
    let mut basket = Basket::new(&pantry, &notebook.cupboard);
    batches.iter().flat_map(|b| &b.weighed.lines).for_each(|line| basket.ingredient(&line.ingredient, line.mass));
    let made = |makes: Makes| batches.iter().any(|b| b.recipe.makes == makes);
    pastes(&mut basket, houses, made);
    colours(&mut basket, houses, made);
    leaves(&mut basket, lots, houses);
    sweets(&mut basket, houses);
    let bags = sum(houses, |house| house.needs.icing.iter().map(|i| i.bags).sum());
    basket.other(Shelf::Household, "bags", tr!("Piping bags"), Quantity::Count(bags), "");
    basket.other(
        Shelf::Household,
        "baking-paper",
        tr!("Baking paper, a roll"),
        Quantity::Count(1),
        tr!("between patterns and dough, and on trays"),
    );
    boards(&mut basket, houses, lots.first().about.house.unit);
    let lit = sum(houses, |house| usize::from(house.needs.lights));
    if lit > 0 {
        let name = tr!("String of LED lights, if it is to be lit");
        basket.other(Shelf::Household, "lights", name, Quantity::Count(lit), tr!("battery box screwed shut"));
    }
    basket.list()
}

/// So many of something for all copies of all houses.
fn sum(houses: &[HousePlan], each: impl Fn(&HousePlan) -> usize) -> usize {
    houses.iter().map(|house| each(house) * house.copies).sum()
}

/// What makes a paste, and how it is called where it is bought.
fn paste(paste: &PasteNeed) -> (Makes, &'static str, &'static str) {
    match paste.stuff {
        Stuff::Fondant => (Makes::Fondant, "fondant", tr!("Fondant")),
        _ => (Makes::GumPaste, "gum-paste", tr!("Gum paste")),
    }
}

fn pastes(basket: &mut Basket<'_>, houses: &[HousePlan], made: impl Fn(Makes) -> bool) {
    let mut all: Vec<(String, String, Mass)> = Vec::new();
    for (house, own) in houses.iter().flat_map(|house| house.needs.pastes.iter().map(move |own| (house, own))) {
        let (makes, id, name) = paste(own);
        if made(makes) {
            continue;
        }
        let (id, mass) = (format!("{id}-{}", own.tint.word()), own.to_make * house.copies as f64);
        match all.iter_mut().find(|(known, ..)| *known == id) {
            Some((.., known)) => *known += mass,
            None => all.push((id, format!("{name}, {}", own.tint.words()), mass)),
        }
    }
    for (id, name, mass) in all {
        basket.other(Shelf::CakeDecoration, &id, name, Quantity::Mass(mass), tr!("or white and a colour"));
    }
}

fn colours(basket: &mut Basket<'_>, houses: &[HousePlan], made: impl Fn(Makes) -> bool) {
    let needs = || houses.iter().map(|house| &house.needs);
    let icing = needs().flat_map(|needs| &needs.icing).map(|icing| icing.tint);
    let pastes = needs().flat_map(|needs| &needs.pastes).filter(|own| made(paste(own).0)).map(|own| own.tint);
    for tint in icing.chain(pastes).collect::<BTreeSet<_>>() {
        if let Some(name) = shopping::colour(tint) {
            let id = format!("colour-{}", tint.word());
            basket.other(Shelf::CakeDecoration, &id, name, Quantity::Count(1), tr!("sold as food"));
        }
    }
}

/// Leaves of one size on a line.
fn leaves(basket: &mut Basket<'_>, lots: &Lots<'_>, houses: &[HousePlan]) {
    let mut sizes: Vec<(String, usize)> = Vec::new();
    for (lot, house) in lots.iter().zip(houses) {
        let glazier = &lot.about.house.dressing.glazier;
        let size = Quantity::Size(glazier.leaf_length, glazier.leaf_width).print(lot.about.house.unit);
        let count: usize = house.needs.glazing.iter().filter(|g| g.glass == Glass::Leaf).filter_map(|g| g.leaves).sum();
        match sizes.iter_mut().find(|(known, _)| *known == size) {
            _ if count == 0 => {}
            Some((_, known)) => *known += count * house.copies,
            None => sizes.push((size, count * house.copies)),
        }
    }
    for (k, (size, count)) in sizes.into_iter().enumerate() {
        let id = if k == 0 { "leaves".to_owned() } else { format!("leaves-{}", k + 1) };
        let name = tr!("Gelatine leaves, {size}");
        basket.other(Shelf::CakeDecoration, &id, name, Quantity::Count(count), tr!("measure one: sizes differ"));
    }
}

fn sweets(basket: &mut Basket<'_>, houses: &[HousePlan]) {
    let crushed = |house: &HousePlan| -> Mass {
        let own = house.needs.glazing.iter().filter(|g| g.glass == Glass::Crushed).filter_map(|g| g.mass);
        own.sum::<Mass>() * house.copies as f64
    };
    let mass: Mass = houses.iter().map(crushed).sum();
    if mass > Mass::ZERO {
        basket.other(Shelf::Sweets, "clear-sweets", tr!("Clear hard sweets to crush"), Quantity::Mass(mass), "");
    }
    let tints: BTreeSet<Tint> = houses.iter().flat_map(|house| &house.needs.sweets).map(|own| own.tint).collect();
    for tint in tints {
        let count =
            sum(houses, |house| house.needs.sweets.iter().filter(|own| own.tint == tint).map(|s| s.count).sum());
        let id = format!("sweets-{}", tint.word());
        basket.other(Shelf::Sweets, &id, tr!("Sweets, {}", tint.words()), Quantity::Count(count), "");
    }
}

/// A base board for each copy, those of one size on a line; sizes as they are asked for in a shop.
fn boards(basket: &mut Basket<'_>, houses: &[HousePlan], unit: Unit) {
    let mut sizes: Vec<((Length, Length), usize)> = Vec::new();
    for house in houses {
        let Some((width, depth)) = house.needs.board else { continue };
        let size = (at_least(width, unit, 2), at_least(depth, unit, 2));
        match sizes.iter_mut().find(|(known, _)| *known == size) {
            Some((_, count)) => *count += house.copies,
            None => sizes.push((size, house.copies)),
        }
    }
    for (k, ((width, depth), count)) in sizes.into_iter().enumerate() {
        let id = if k == 0 { "board".to_owned() } else { format!("board-{}", k + 1) };
        let name = tr!("Base board, at least" | "Base boards, {n}, at least" % count);
        basket.other(
            Shelf::Household,
            &id,
            name,
            Quantity::Size(width, depth),
            tr!("with foil or paper for food over it"),
        );
    }
}
