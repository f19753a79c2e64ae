//! The plan in words: chapters with their lines, the same on screen and on paper.

use crate::{Amount, BakePlan, Batch, Figure, Ingredient, Known, Notebook, Ovenful, PieceSize};
use gable_measure::{Unit, decimal};
use gable_shell::{Glass, Stuff, Tint};

/// Some lines under a heading.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Chapter {
    /// The heading.
    pub title: String,
    /// A line each.
    pub lines: Vec<String>,
}

impl Chapter {
    fn new(title: impl Into<String>, lines: Vec<String>) -> Self {
        Self { title: title.into(), lines }
    }

    /// As plain text, lines indented, with an empty line at the end; nothing without lines.
    pub fn text(&self) -> String {
        if self.lines.is_empty() {
            return String::new();
        }
        let lines: String = self.lines.iter().map(|line| format!("  {line}\n")).collect();
        format!("{}\n{lines}\n", self.title)
    }
}

impl BakePlan {
    /// Dough, icing, and what else one house takes.
    pub fn amounts(&self, notebook: &Notebook, unit: Unit) -> Vec<Chapter> {
        let each = if self.copies > 1 { ", for each" } else { "" };
        let mut chapters = vec![
            Chapter::new(format!("Dough{each}"), dough(self, notebook, unit)),
            Chapter::new(format!("Icing{each}"), icing(self, unit)),
            Chapter::new(format!("Glazing and decoration{each}"), others(self, unit)),
        ];
        if self.copies > 1 {
            chapters.push(Chapter::new(format!("Kits: {}, in each", self.copies), self.kit.contents(unit)));
        }
        chapters
    }

    /// A card for each recipe that is made: what goes in, what to do.
    pub fn recipe_cards(&self, notebook: &Notebook, unit: Unit) -> Vec<Chapter> {
        self.batches.iter().map(|batch| recipe(batch, notebook, unit)).collect()
    }

    /// What lies on which tray, and how dough is rolled.
    pub fn trays(&self, unit: Unit) -> Vec<Chapter> {
        let assumed = if self.ovenfuls.assumed_tray { ", on a usual tray" } else { "" };
        let trays = (0..self.ovenfuls.trays.len()).map(|k| self.ovenful(k, unit)).collect();
        let rolled = self.ovenfuls.rolled.iter().map(|sheet| {
            let size = format!("{} × {}", unit.print_bare(sheet.width), unit.print(sheet.depth));
            let scraps = decimal(sheet.scraps * 100.0, 0);
            let (name, rolled, mass) = (&sheet.dough, unit.print(sheet.rolled), sheet.mass.print(unit));
            format!("{name}: {size}, {rolled} thick, {mass}, {scraps} % scraps to roll again")
        });
        vec![
            Chapter::new(format!("Ovenfuls: {}{assumed}", self.ovenfuls.trays.len()), trays),
            Chapter::new("Dough to roll", rolled.collect()),
        ]
    }

    /// One ovenful on a line.
    pub fn ovenful(&self, k: usize, unit: Unit) -> String {
        let Some(tray) = self.ovenfuls.trays.get(k) else { return String::new() };
        let Some(class) = self.ovenfuls.classes.get(tray.class) else { return String::new() };
        let size = if class.size == PieceSize::Large { "large" } else { "small" };
        let [least, usual, most] = [class.minutes.least, class.minutes.usual, class.minutes.most].map(f64::round);
        let (rolled, mass) = (unit.print(class.thickest), tray.mass.print(unit));
        format!(
            "{}: {}, {size} pieces rolled {rolled}, {usual} min (look from {least}, out by {most}), {mass}: {}",
            k + 1,
            tray.tray.name,
            on_tray(tray)
        )
    }

    /// What everything costs that has a price; no lines without prices.
    pub fn cost_words(&self, notebook: &Notebook) -> Chapter {
        let (cost, unpriced) = self.shopping.cost();
        let rest = if unpriced > 0 { format!(", and {unpriced} things without a price") } else { String::new() };
        let line = format!("{cost:.2} {}{rest}", notebook.cupboard.currency);
        Chapter::new("Cost", if notebook.cupboard.prices.is_empty() { Vec::new() } else { vec![line] })
    }

    /// Where someone could be hurt or made ill, and who must not eat it.
    pub fn caution_words(&self) -> Vec<Chapter> {
        let line = |caution: &crate::Caution| format!("{}: {}", caution.title(), caution.words());
        vec![
            Chapter::new("Who must not eat it", vec![self.kit.slip()]),
            Chapter::new("Cautions (local rules come first)", self.cautions.iter().map(line).collect()),
        ]
    }

    /// Every figure that nobody has measured.
    pub fn assumption_words(&self) -> Chapter {
        let line = |(figure, value): &(Figure, f64)| taken_as(&figure.known(), *value);
        Chapter::new("Taken as, until your notebook says otherwise", self.assumed.iter().map(line).collect())
    }
}

/// What something is taken as, what is seen in practice, and how well that is founded.
pub(crate) fn taken_as(known: &Known, value: f64) -> String {
    let [value, low, high] = [value, known.range.0, known.range.1].map(|v| decimal(known.shown(v), 2));
    format!("{}: {value} {}, seen {low} to {high} ({})", known.words, known.unit, known.founded())
}

fn dough(plan: &BakePlan, notebook: &Notebook, unit: Unit) -> Vec<String> {
    let needs = &plan.needs.dough;
    let sort = |sort: &crate::DoughNeed| {
        let pieces = if sort.pieces == 1 { "1 piece".to_owned() } else { format!("{} pieces", sort.pieces) };
        format!("{}, rolled {}: {pieces}, {}", sort.name, unit.print(sort.rolled), sort.net.print(unit))
    };
    let mut lines: Vec<String> = needs.sorts.iter().map(sort).collect();
    let trim = decimal(notebook.figures.get(Figure::DoughTrim) * 100.0, 0);
    lines.push(format!("to make: {} with {trim} % for trimming", needs.to_make.print(unit)));
    let biscuit = (plan.baked * (1.0 / plan.copies as f64)).print(unit);
    lines.push(format!("biscuit: {biscuit}; dough loses {} % in the oven", decimal(plan.loss * 100.0, 1)));
    lines
}

pub(crate) fn white(tint: Tint) -> &'static str {
    if tint == Tint::Icing { "white" } else { tint.word() }
}

fn icing(plan: &BakePlan, unit: Unit) -> Vec<String> {
    let line = |icing: &crate::IcingNeed| {
        let uses: Vec<String> = icing.uses.iter().map(|(u, m)| format!("{} {}", u.words(), m.print(unit))).collect();
        let bags = match icing.bags {
            0 => String::new(),
            1 => ", 1 bag".to_owned(),
            bags => format!(", {bags} bags"),
        };
        let (word, tint, mass) = (icing.consistency.word(), white(icing.tint), icing.to_make.print(unit));
        format!("{word}, {tint}: {mass}{bags} ({})", uses.join(", "))
    };
    plan.needs.icing.iter().map(line).collect()
}

fn others(plan: &BakePlan, unit: Unit) -> Vec<String> {
    let needs = &plan.needs;
    let glazing = needs.glazing.iter().map(|g| {
        let mass = g.mass.unwrap_or_default().print(unit);
        match (g.glass, g.leaves) {
            (Glass::Leaf, Some(leaves)) => format!("{leaves} gelatine leaves for {} panes", g.panes),
            (Glass::Leaf, None) => format!("{} panes, one of them larger than a leaf", g.panes),
            (Glass::Poured, _) => format!("{mass} of sugar for {} poured panes", g.panes),
            (Glass::Crushed, _) => format!("{mass} of crushed sweets for {} panes", g.panes),
        }
    });
    let pastes = needs.pastes.iter().map(|p| {
        let name = if p.stuff == Stuff::Fondant { "fondant" } else { "gum paste" };
        let (net, to_make) = (p.net.print(unit), p.to_make.print(unit));
        format!("{name}, {}: {to_make} ({net} on the house)", white(p.tint))
    });
    let sweets = needs.sweets.iter().map(|s| format!("sweets, {}: {}, {}", white(s.tint), s.count, s.mass.print(unit)));
    glazing.chain(pastes).chain(sweets).collect()
}

fn recipe(batch: &Batch, notebook: &Notebook, unit: Unit) -> Chapter {
    let pantry = notebook.pantry();
    let once = (batch.batches - 1.0).abs() < 1e-9;
    let times = if once { "once".to_owned() } else { format!("{} times", decimal(batch.batches, 2)) };
    let ingredient = |line: &crate::WeighedLine| {
        let household = pantry.get(&line.ingredient).and_then(|i: &Ingredient| Amount::household(line.mass, i));
        let household = household.map_or_else(String::new, |amount| format!(" ({})", amount.print()));
        format!("{}{household} {}, {} %", line.mass.print(unit), line.name, decimal(line.percent, 1))
    };
    let mut lines: Vec<String> = batch.weighed.lines.iter().map(ingredient).collect();
    lines.extend(batch.recipe.steps.iter().map(|step| format!("- {step}")));
    lines.push(format!("Proportions: {} ({})", batch.recipe.source, batch.recipe.basis.words()));
    let (made, needed) = (batch.weighed.mass.print(unit), batch.needed.print(unit));
    Chapter::new(format!("{}, {times}: {made} for {needed}", batch.recipe.name), lines)
}

/// 'templates 1, 1, 3 and 14 small ones'.
fn on_tray(tray: &Ovenful) -> String {
    let numbers: Vec<String> = tray.pieces.iter().filter_map(|p| p.template).map(|n| n.to_string()).collect();
    let others = tray.pieces.len() - numbers.len();
    let templates = match numbers.len() {
        0 => String::new(),
        1 => format!("template {}", numbers[0]),
        _ => format!("templates {}", numbers.join(", ")),
    };
    let apart = match others {
        0 => String::new(),
        1 => "1 ornament".to_owned(),
        _ => format!("{others} ornaments"),
    };
    [templates, apart].into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join(" and ")
}
