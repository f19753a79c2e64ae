//! Ingredients with their weights.
//!
//! USDA Agricultural Research Service, National Nutrient Database, SR release, WEIGHT table, cross-checked with FoodData
//! Central SR Legacy portions (2018); the number behind each name is its NDB number there. Water: the same database.
//! Where it has no water, the figure is from memory and the ingredient says so. Allergens follow from what a thing is made
//! of; 'may' where only some makers' hold it.

use super::Allergen::{Eggs, Fish, Milk, Nuts, OtherGluten, Soya, Sulphites, Wheat};
use super::Presence::{Contains, May};
use super::{Allergen, Family, Ingredient, Presence};
use crate::{Basis, Mass};
use gable_words::{mark, say, tr};

/// id, name, family, g per cup, g per tablespoon, g per teaspoon, g each, water in %, NDB number, allergens.
type Row = (
    &'static str,
    &'static str,
    Family,
    Option<f64>,
    Option<f64>,
    Option<f64>,
    Option<f64>,
    Option<f64>,
    &'static str,
    &'static [(Allergen, Presence)],
);

/// id, name, family, g per teaspoon, water in %, where that comes from.
type Unlisted = (&'static str, &'static str, Family, Option<f64>, f64, &'static str);

const NO: Option<f64> = None;

const fn of(grams: f64) -> Option<f64> {
    Some(grams)
}

const ROWS: [Row; 37] = [
    (
        "flour",
        mark!("Wheat flour, plain"),
        Family::Flour,
        of(125.0),
        NO,
        NO,
        NO,
        of(11.92),
        "20081",
        &[(Wheat, Contains)],
    ),
    (
        "bread-flour",
        mark!("Wheat flour, for bread"),
        Family::Flour,
        of(137.0),
        NO,
        NO,
        NO,
        NO,
        "20083",
        &[(Wheat, Contains)],
    ),
    (
        "rye-flour",
        mark!("Rye flour, medium"),
        Family::Flour,
        of(102.0),
        NO,
        NO,
        NO,
        NO,
        "20064",
        &[(OtherGluten, Contains)],
    ),
    (
        "rye-flour-dark",
        mark!("Rye flour, dark"),
        Family::Flour,
        of(128.0),
        NO,
        NO,
        NO,
        NO,
        "20063",
        &[(OtherGluten, Contains)],
    ),
    ("sugar", mark!("Sugar"), Family::Sugar, of(200.0), NO, of(4.2), NO, of(0.02), "19335", &[]),
    ("brown-sugar", mark!("Brown sugar, packed"), Family::Sugar, of(220.0), NO, of(4.6), NO, of(1.34), "19334", &[]),
    (
        "icing-sugar",
        mark!("Icing sugar, unsifted"),
        Family::Sugar,
        of(120.0),
        of(8.0),
        of(2.5),
        NO,
        of(0.23),
        "19336",
        &[],
    ),
    (
        "molasses",
        mark!("Molasses"),
        Family::Syrup,
        of(337.0),
        of(20.0),
        NO,
        NO,
        of(21.87),
        "19304",
        &[(Sulphites, May)],
    ),
    ("honey", mark!("Honey"), Family::Syrup, of(339.0), of(21.0), NO, NO, of(17.10), "19296", &[]),
    (
        "light-syrup",
        mark!("Glucose or light corn syrup"),
        Family::Syrup,
        of(341.0),
        of(22.0),
        NO,
        NO,
        of(22.81),
        "19350",
        &[(Sulphites, May)],
    ),
    (
        "dark-syrup",
        mark!("Dark corn syrup"),
        Family::Syrup,
        of(328.0),
        of(20.0),
        NO,
        NO,
        of(22.01),
        "19349",
        &[(Sulphites, May)],
    ),
    (
        "malt-syrup",
        mark!("Malt syrup"),
        Family::Syrup,
        of(332.0),
        of(21.0),
        NO,
        NO,
        NO,
        "19352",
        &[(OtherGluten, Contains)],
    ),
    (
        "butter",
        mark!("Butter, salted"),
        Family::Fat,
        of(227.0),
        of(14.2),
        NO,
        NO,
        of(15.87),
        "01001",
        &[(Milk, Contains)],
    ),
    (
        "butter-unsalted",
        mark!("Butter, unsalted"),
        Family::Fat,
        of(227.0),
        of(14.2),
        NO,
        NO,
        of(17.94),
        "01145",
        &[(Milk, Contains)],
    ),
    (
        "margarine",
        mark!("Margarine, 80 % fat"),
        Family::Fat,
        of(227.0),
        of(14.0),
        of(4.7),
        NO,
        of(16.52),
        "04610",
        &[(Milk, May), (Soya, May)],
    ),
    (
        "shortening",
        mark!("Vegetable shortening"),
        Family::Fat,
        of(205.0),
        of(12.8),
        NO,
        NO,
        of(0.0),
        "04615",
        &[(Soya, May)],
    ),
    ("lard", mark!("Lard"), Family::Fat, of(205.0), of(12.8), NO, NO, of(0.0), "04002", &[]),
    ("egg", mark!("Eggs, large"), Family::Egg, of(243.0), NO, NO, of(50.0), of(76.15), "01123", &[(Eggs, Contains)]),
    (
        "egg-white",
        mark!("Whites of large eggs, pasteurised"),
        Family::Egg,
        of(243.0),
        NO,
        NO,
        of(33.0),
        of(87.57),
        "01124",
        &[(Eggs, Contains)],
    ),
    (
        "egg-yolk",
        mark!("Yolks of large eggs"),
        Family::Egg,
        of(243.0),
        NO,
        NO,
        of(17.0),
        NO,
        "01125",
        &[(Eggs, Contains)],
    ),
    (
        "dried-white",
        mark!("Dried egg white"),
        Family::Setting,
        of(107.0),
        of(7.0),
        NO,
        NO,
        of(8.54),
        "01136",
        &[(Eggs, Contains)],
    ),
    ("milk", mark!("Milk, whole"), Family::Milk, of(244.0), of(15.0), NO, NO, NO, "01077", &[(Milk, Contains)]),
    ("water", mark!("Water"), Family::Liquid, of(237.0), NO, NO, NO, of(100.0), "14411", &[]),
    ("lemon-juice", mark!("Lemon juice"), Family::Liquid, of(244.0), NO, NO, NO, NO, "09152", &[]),
    ("ginger", mark!("Ginger, ground"), Family::Spice, NO, of(5.2), of(1.8), NO, NO, "02021", &[]),
    ("cinnamon", mark!("Cinnamon, ground"), Family::Spice, NO, of(7.8), of(2.6), NO, NO, "02010", &[]),
    ("cloves", mark!("Cloves, ground"), Family::Spice, NO, of(6.5), of(2.1), NO, NO, "02011", &[]),
    ("allspice", mark!("Allspice, ground"), Family::Spice, NO, of(6.0), of(1.9), NO, NO, "02001", &[]),
    ("cardamom", mark!("Cardamom, ground"), Family::Spice, NO, of(5.8), of(2.0), NO, NO, "02006", &[]),
    ("baking-soda", mark!("Baking soda"), Family::Raising, NO, NO, of(4.6), NO, of(0.0), "18372", &[]),
    ("baking-powder", mark!("Baking powder"), Family::Raising, NO, NO, of(4.6), NO, NO, "18369", &[]),
    ("cream-of-tartar", mark!("Cream of tartar"), Family::Raising, NO, NO, of(3.0), NO, NO, "18373", &[]),
    ("salt", mark!("Salt"), Family::Raising, of(292.0), of(18.0), of(6.0), NO, of(0.0), "02047", &[]),
    ("cornflour", mark!("Cornflour"), Family::Setting, of(128.0), NO, NO, NO, NO, "20027", &[]),
    (
        "cocoa",
        mark!("Cocoa"),
        Family::Spice,
        of(86.0),
        of(5.4),
        NO,
        NO,
        NO,
        "19165",
        &[(Milk, May), (Nuts, May), (Soya, May)],
    ),
    ("gelatine", mark!("Gelatine powder"), Family::Setting, NO, of(7.0), NO, NO, of(13.0), "19177", &[(Fish, May)]),
    ("vanilla", mark!("Vanilla extract"), Family::Spice, of(208.0), of(13.0), of(4.2), NO, NO, "02050", &[]),
];

/// What the table has no water for, and more that it does not know at all. From memory, in % and g per teaspoon.
const WATER_FROM_MEMORY: [(&str, f64); 17] = [
    ("bread-flour", 12.0),
    ("rye-flour", 11.0),
    ("rye-flour-dark", 11.0),
    ("malt-syrup", 22.0),
    ("egg-yolk", 52.0),
    ("milk", 88.0),
    ("lemon-juice", 92.0),
    ("ginger", 10.0),
    ("cinnamon", 10.0),
    ("cloves", 10.0),
    ("allspice", 8.5),
    ("cardamom", 8.5),
    ("baking-powder", 5.0),
    ("cream-of-tartar", 2.0),
    ("cornflour", 8.0),
    ("cocoa", 3.0),
    ("vanilla", 53.0),
];

/// What is sold ready or has no record there: weights from memory.
const UNLISTED: [Unlisted; 3] = [
    ("glycerine", mark!("Glycerine, for food"), Family::Setting, of(6.2), 0.0, "density 1.26 g/ml, from memory"),
    ("gum", mark!("CMC or tragacanth, for food"), Family::Setting, of(3.0), 8.0, "from memory; weigh it"),
    (
        "potash",
        mark!("Potash, for baking"),
        Family::Raising,
        of(4.5),
        0.0,
        "4 to 5 g a teaspoon, from memory; weigh it",
    ),
];

pub(super) fn ingredients() -> Vec<Ingredient> {
    ROWS.iter().map(listed).chain(UNLISTED.iter().map(unlisted)).collect()
}

fn listed(row: &Row) -> Ingredient {
    let (id, name, family, cup, tablespoon, teaspoon, each, water, ndb, allergens) = *row;
    let remembered = WATER_FROM_MEMORY.iter().find(|(known, _)| *known == id).map(|(_, water)| *water);
    let source = format!("USDA ARS SR, NDB {ndb}");
    let from_memory = water.is_none() && remembered.is_some();
    Ingredient {
        id: id.to_owned(),
        name: say(name).to_owned(),
        family,
        cup: cup.map(Mass::grams),
        tablespoon: tablespoon.map(Mass::grams),
        teaspoon: teaspoon.map(Mass::grams),
        each: each.map(Mass::grams),
        water: water.or(remembered).map(|percent| percent / 100.0),
        allergens: allergens.to_vec(),
        note: note(id),
        basis: Basis::Published,
        source: if from_memory { source + "; its water from memory" } else { source },
    }
}

fn unlisted(row: &Unlisted) -> Ingredient {
    let (id, name, family, teaspoon, water, source) = *row;
    Ingredient {
        id: id.to_owned(),
        name: say(name).to_owned(),
        family,
        cup: None,
        tablespoon: None,
        teaspoon: teaspoon.map(Mass::grams),
        each: None,
        water: Some(water / 100.0),
        allergens: Vec::new(),
        note: note(id),
        basis: Basis::Memory,
        source: source.to_owned(),
    }
}

fn note(id: &str) -> Option<&'static str> {
    match id {
        "honey" => Some(tr!("Never for infants under 12 months, not even baked.")),
        "egg-white" => Some(tr!("Raw whites can carry salmonella: take pasteurised or dried ones.")),
        "egg" | "egg-yolk" => Some(tr!("Keep eggs cold, and wash your hands after raw egg.")),
        "flour" | "bread-flour" | "rye-flour" | "rye-flour-dark" => Some(tr!("Flour is raw: do not taste the dough.")),
        "gelatine" => Some(tr!("From pigs, cattle or fish: say so to whoever does not eat them.")),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn ids_are_unique_and_every_ingredient_has_water_and_a_weight() {
        let all = ingredients();
        assert_eq!(all.iter().map(|i| &i.id).collect::<BTreeSet<_>>().len(), all.len());
        for ingredient in &all {
            assert!(ingredient.water.is_some_and(|w| (0.0..=1.0).contains(&w)), "{}", ingredient.id);
            assert!(ingredient.cup.or(ingredient.tablespoon).or(ingredient.teaspoon).is_some(), "{}", ingredient.id);
        }
    }

    /// Cup, tablespoon and teaspoon of one thing agree within what rounding and packing do: a mistyped row would not.
    #[test]
    fn cups_and_spoons_of_one_thing_agree() {
        for i in ingredients() {
            for (large, small, times) in
                [(i.cup, i.tablespoon, 16.0), (i.tablespoon, i.teaspoon, 3.0), (i.cup, i.teaspoon, 48.0)]
            {
                if let (Some(large), Some(small)) = (large, small) {
                    let ratio = small.g() * times / large.g();
                    assert!((0.9..1.15).contains(&ratio), "{}: {ratio}", i.id);
                }
            }
        }
    }
}
