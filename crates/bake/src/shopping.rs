//! What to buy, shelf by shelf.

use crate::{Family, Ingredient, Mass, Pantry};
use gable_measure::{Length, Unit, decimal};
use gable_shell::Tint;
use gable_words::tr;
use std::collections::{BTreeMap, BTreeSet};

/// Where something stands in a shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shelf {
    /// Flour, sugar, syrup, raising agents.
    Baking,
    /// Spices and flavours.
    Spices,
    /// Butter, eggs, milk.
    Chilled,
    /// Fondant, gum paste, gelatine, colours.
    CakeDecoration,
    /// Sweets.
    Sweets,
    /// Paper, bags, board, lights.
    Household,
}

/// One line of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct ToBuy {
    /// Stable id, by which it is ticked off.
    pub id: String,
    /// Where it stands.
    pub shelf: Shelf,
    /// What it is.
    pub name: String,
    /// How much of it.
    pub amount: Quantity,
    /// What to look for.
    pub note: String,
    /// Whether there is enough of it at home.
    pub at_home: bool,
    /// What it costs, in the person's currency, if they have said.
    pub cost: Option<f64>,
}

/// How much is bought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// By weight.
    Mass(Mass),
    /// By the piece.
    Count(usize),
    /// So wide and so deep.
    Size(Length, Length),
}

/// The list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shopping {
    /// Its lines, by shelf.
    pub lines: Vec<ToBuy>,
}

/// What a person has said of their cupboard and their shops.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cupboard {
    /// Ids of what there is enough of.
    pub at_home: BTreeSet<String>,
    /// Price of a kilogram, or of one where it is counted, by id.
    pub prices: BTreeMap<String, f64>,
    /// Name of the currency.
    pub currency: String,
}

impl Shelf {
    /// Every shelf, in the order of the list.
    pub const ALL: [Self; 6] =
        [Self::Baking, Self::Spices, Self::Chilled, Self::CakeDecoration, Self::Sweets, Self::Household];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Baking => tr!("Baking"),
            Self::Spices => tr!("Spices"),
            Self::Chilled => tr!("Chilled"),
            Self::CakeDecoration => tr!("Cake decoration"),
            Self::Sweets => tr!("Sweets"),
            Self::Household => tr!("Household"),
        }
    }

    fn of(ingredient: &Ingredient) -> Self {
        match ingredient.family {
            Family::Fat if ingredient.id == "shortening" => Self::Baking,
            Family::Flour | Family::Sugar | Family::Syrup | Family::Raising => Self::Baking,
            Family::Spice => Self::Spices,
            Family::Fat | Family::Egg | Family::Milk | Family::Liquid => Self::Chilled,
            Family::Setting => Self::CakeDecoration,
        }
    }
}

impl Quantity {
    /// As it stands on the list.
    pub fn print(self, unit: Unit) -> String {
        match self {
            Self::Mass(mass) => mass.print(unit),
            Self::Count(count) => count.to_string(),
            Self::Size(width, depth) => format!("{} × {}", unit.print_bare(width), unit.print(depth)),
        }
    }
}

impl Shopping {
    /// The same list for what a person has at home now, at their prices.
    #[must_use]
    pub fn of(mut self, cupboard: &Cupboard) -> Self {
        for line in &mut self.lines {
            line.at_home = cupboard.at_home.contains(&line.id);
            let price = cupboard.prices.get(&line.id);
            line.cost = price.map(|price| match line.amount {
                Quantity::Mass(mass) => mass.g() / 1000.0 * price,
                Quantity::Count(count) => count as f64 * price,
                Quantity::Size(..) => *price,
            });
        }
        self
    }

    /// What is still to be bought.
    pub fn to_buy(&self) -> impl Iterator<Item = &ToBuy> {
        self.lines.iter().filter(|line| !line.at_home)
    }

    /// What all that is to be bought costs, and how many lines have no price.
    pub fn cost(&self) -> (f64, usize) {
        let priced = self.to_buy().filter_map(|line| line.cost).sum();
        (priced, self.to_buy().filter(|line| line.cost.is_none()).count())
    }

    /// The list as text to take along: a heading for each shelf, a line for each thing that is not at home.
    pub fn text(&self, unit: Unit) -> String {
        let mut text = String::new();
        for shelf in Shelf::ALL {
            let lines: Vec<&ToBuy> = self.to_buy().filter(|line| line.shelf == shelf).collect();
            if lines.is_empty() {
                continue;
            }
            text += &format!("{}\n", shelf.words());
            for line in lines {
                let note = if line.note.is_empty() { String::new() } else { format!(" ({})", line.note) };
                text += &format!("  [ ] {}  {}{note}\n", line.amount.print(unit), line.name);
            }
        }
        text
    }
}

/// Names of the columns of the list as a table.
const HEAD: [&str; 7] = ["shelf", "what", "amount", "note", "at home", "cost", "id"];

impl Shopping {
    /// The whole list as a table for spreadsheets (RFC 4180), what is at home too: a row for each thing. Amounts are in the unit of
    /// the house, costs in the person's currency, empty where no price is known.
    ///
    /// # Errors
    /// When the table cannot be written, which does not happen in memory.
    pub fn csv(&self, unit: Unit) -> Result<String, ::csv::Error> {
        let mut writer = ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(Vec::new());
        writer.write_record(HEAD)?;
        for line in &self.lines {
            let cost = line.cost.map_or_else(String::new, |cost| format!("{cost:.2}"));
            let at_home = if line.at_home { "yes" } else { "no" };
            let amount = line.amount.print(unit);
            writer.write_record([line.shelf.words(), &line.name, &amount, &line.note, at_home, &cost, &line.id])?;
        }
        let bytes = writer.into_inner().map_err(|error| ::csv::Error::from(error.into_error()))?;
        Ok(String::from_utf8_lossy(&bytes).into_owned())
    }
}

/// Puts a list together.
pub(crate) struct Basket<'a> {
    pantry: &'a Pantry,
    cupboard: &'a Cupboard,
    masses: BTreeMap<String, Mass>,
    others: Vec<ToBuy>,
}

impl<'a> Basket<'a> {
    pub(crate) fn new(pantry: &'a Pantry, cupboard: &'a Cupboard) -> Self {
        Self { pantry, cupboard, masses: BTreeMap::new(), others: Vec::new() }
    }

    /// An ingredient of a recipe; of several recipes it is one line.
    pub(crate) fn ingredient(&mut self, id: &str, mass: Mass) {
        *self.masses.entry(id.to_owned()).or_default() += mass;
    }

    pub(crate) fn other(&mut self, shelf: Shelf, id: &str, name: impl Into<String>, amount: Quantity, note: &str) {
        let (id, name, note) = (id.to_owned(), name.into(), note.to_owned());
        self.others.push(ToBuy { id, shelf, name, amount, note, at_home: false, cost: None });
    }

    pub(crate) fn list(self) -> Shopping {
        let mut lines: Vec<ToBuy> = self.masses.iter().filter_map(|(id, mass)| line(self.pantry, id, *mass)).collect();
        lines.extend(self.others);
        // Within a shelf the most first: what is heavy is packed first. Stable, so the same house gives the same list.
        let weight = |line: &ToBuy| if let Quantity::Mass(mass) = line.amount { mass.g() } else { 0.0 };
        lines.sort_by(|a, b| a.shelf.cmp(&b.shelf).then(weight(b).total_cmp(&weight(a))));
        Shopping { lines }.of(self.cupboard)
    }
}

/// An ingredient as it is bought; nothing for water.
fn line(pantry: &Pantry, id: &str, mass: Mass) -> Option<ToBuy> {
    let ingredient = pantry.get(id)?;
    if id == "water" || mass <= Mass::ZERO {
        return None;
    }
    // Eggs are bought whole.
    let counted =
        ingredient.each.filter(|_| id == "egg").map(|each| Quantity::Count((mass / each - 1e-6).ceil() as usize));
    let amount = counted.unwrap_or(Quantity::Mass(mass));
    let each = ingredient.each.filter(|_| counted.is_none());
    let note = each.map_or_else(String::new, |each| tr!("{} of them", decimal((mass / each - 1e-6).ceil(), 0)));
    let shelf = Shelf::of(ingredient);
    Some(ToBuy { id: id.to_owned(), shelf, name: ingredient.name.clone(), amount, note, at_home: false, cost: None })
}

/// What colours something that is not white of itself.
pub(crate) fn colour(tint: Tint) -> Option<String> {
    (tint != Tint::Icing).then(|| tr!("Food colour: {}", tint.words()))
}
