//! The plan in words: chapters with their lines, the same on screen and on paper.

use crate::{Amount, BakePlan, Batch, Figure, HandOver, HousePlan, Ingredient, Known, Needs, Notebook, Ovenful};
use gable_measure::{Length, Unit, decimal};
use gable_shell::{Glass, Stuff, dough_words};
use gable_words::tr;

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
    /// Dough, icing, and what else one of each house takes.
    pub fn amounts(&self, notebook: &Notebook, unit: Unit) -> Vec<Chapter> {
        let several = self.houses.len() > 1;
        let of_house = |house: &HousePlan| {
            let each = match (several, house.copies > 1) {
                (true, true) => tr!(", for each {}", house.title),
                (true, false) => tr!(", for {}", house.title),
                (false, true) => tr!(", for each").to_owned(),
                (false, false) => String::new(),
            };
            let mut chapters = vec![
                Chapter::new(tr!("Dough{each}"), dough(self, house, notebook, unit)),
                Chapter::new(tr!("Icing{each}"), icing(&house.needs, unit)),
                Chapter::new(tr!("Glazing and decoration{each}"), others(&house.needs, unit)),
            ];
            if self.has_kits() {
                let of = if several { tr!(" of {}", house.title) } else { String::new() };
                chapters.push(Chapter::new(tr!("Kits{of}: {}, in each", house.copies), house.kit.contents(unit)));
            }
            chapters
        };
        self.houses.iter().flat_map(of_house).collect()
    }

    /// Whether there is a label for each copy: where there are several, or somebody else goes on with it.
    pub fn has_kits(&self) -> bool {
        self.copies() > 1 || self.until != HandOver::Finished
    }

    /// What is baked, as a title: 'Boat hut', 'Boat hut, 4 of them', '4 × Boat hut, 6 × Net store'.
    pub fn title(&self) -> String {
        let of_several = |house: &HousePlan| format!("{} × {}", house.copies, house.title);
        match &self.houses[..] {
            [one] if one.copies == 1 => one.title.clone(),
            [one] => tr!("{}, {} of them", one.title, one.copies),
            several => several.iter().map(of_several).collect::<Vec<_>>().join(", "),
        }
    }

    /// What the letters before the numbers of templates stand for; nothing where there are none.
    pub fn letters(&self) -> Option<String> {
        let letter = |house: &HousePlan| Some(format!("{}: {}", house.mark?, house.title));
        let letters = self.houses.iter().map(letter).collect::<Option<Vec<String>>>()?;
        Some(tr!("Letters before the numbers of templates: {}.", letters.join(", ")))
    }

    /// A card for each recipe that is made: what goes in, what to do.
    pub fn recipe_cards(&self, notebook: &Notebook, unit: Unit) -> Vec<Chapter> {
        self.batches.iter().map(|batch| recipe(batch, notebook, unit)).collect()
    }

    /// What lies on which tray, and how dough is rolled.
    pub fn trays(&self, unit: Unit) -> Vec<Chapter> {
        let assumed = if self.ovenfuls.assumed_tray { tr!(", on a usual tray") } else { "" };
        let trays: Vec<String> = (0..self.ovenfuls.trays.len()).map(|k| self.ovenful(k, unit)).collect();
        let rolled = self.ovenfuls.rolled.iter().map(|sheet| {
            let [width, depth] = [sheet.width, sheet.depth].map(|size| at_least(size, unit, 1));
            let size = format!("{} × {}", unit.print_bare(width), unit.print(depth));
            let scraps = decimal(sheet.scraps * 100.0, 0);
            let (name, rolled, mass) = (dough_words(&sheet.dough), unit.print(sheet.rolled), sheet.mass.print(unit));
            tr!("{name}: {size}, {rolled} thick, {mass}, {scraps} % scraps to roll again")
        });
        vec![
            Chapter::new(tr!("Ovenfuls: {}{assumed}", self.ovenfuls.trays.len()), trays),
            Chapter::new(tr!("Dough to roll"), rolled.collect()),
        ]
    }

    /// One ovenful on a line.
    pub fn ovenful(&self, k: usize, unit: Unit) -> String {
        let Some(tray) = self.ovenfuls.trays.get(k) else { return String::new() };
        let Some(class) = self.ovenfuls.classes.get(tray.class) else { return String::new() };
        let [least, most] = [class.minutes.least, class.minutes.most].map(f64::round);
        let (class, mass) = (class.words(unit), tray.mass.print(unit));
        tr!("{}: {}, {class} (look from {least}, out by {most}), {mass}: {}", k + 1, tray.tray.name, on_tray(tray))
    }

    /// What everything costs that has a price; no lines without prices.
    pub fn cost_words(&self, notebook: &Notebook) -> Chapter {
        let (cost, unpriced) = self.shopping.cost();
        let rest = match unpriced {
            0 => String::new(),
            things => tr!(", and {n} thing without a price" | ", and {n} things without a price" % things),
        };
        let line = format!("{cost:.2} {}{rest}", notebook.cupboard.currency);
        Chapter::new(tr!("Cost"), if notebook.cupboard.prices.is_empty() { Vec::new() } else { vec![line] })
    }

    /// Where someone could be hurt or made ill, and who must not eat it.
    pub fn caution_words(&self) -> Vec<Chapter> {
        let line = |caution: &crate::Caution| format!("{}: {}", caution.title(), caution.words());
        vec![
            Chapter::new(tr!("Who must not eat it"), self.slips()),
            Chapter::new(tr!("Cautions (local rules come first)"), self.cautions.iter().map(line).collect()),
        ]
    }

    /// Every figure that nobody has measured.
    pub fn assumption_words(&self) -> Chapter {
        let line = |(figure, value): &(Figure, f64)| taken_as(&figure.known(), *value);
        Chapter::new(tr!("Taken as, until your notebook says otherwise"), self.assumed.iter().map(line).collect())
    }
}

/// No smaller, and in so many steps of 5 mm or 1/4 in: nobody rolls dough, or buys a board, to a tenth of a millimetre.
pub(crate) fn at_least(size: Length, unit: Unit, steps: u8) -> Length {
    let step = f64::from(steps) * if matches!(unit, Unit::Inch(_)) { 25.4 / 4.0 } else { 5.0 };
    // What is a whole number of steps but for the last bit is one.
    Length::mm_of((size.mm() / step - 1e-6).ceil().max(1.0) * step)
}

/// What something is taken as, what is seen in practice, and how well that is founded.
pub(crate) fn taken_as(known: &Known, value: f64) -> String {
    let [value, low, high] = [value, known.range.0, known.range.1].map(|v| decimal(known.shown(v), 2));
    tr!("{}: {value} {}, seen {low} to {high} ({})", known.words, known.unit, known.founded())
}

fn dough(plan: &BakePlan, house: &HousePlan, notebook: &Notebook, unit: Unit) -> Vec<String> {
    let needs = &house.needs.dough;
    let sort = |sort: &crate::DoughNeed| {
        let pieces = tr!("1 piece" | "{n} pieces" % sort.pieces);
        tr!("{}, rolled {}: {pieces}, {}", dough_words(&sort.name), unit.print(sort.rolled), sort.net.print(unit))
    };
    let mut lines: Vec<String> = needs.sorts.iter().map(sort).collect();
    let trim = decimal(notebook.figures.get(Figure::DoughTrim) * 100.0, 0);
    lines.push(tr!("to make: {} with {trim} % for trimming", needs.to_make.print(unit)));
    let biscuit = house.baked.print(unit);
    lines.push(tr!("biscuit: {biscuit}; dough loses {} % in the oven", decimal(plan.loss * 100.0, 1)));
    lines
}

fn icing(needs: &Needs, unit: Unit) -> Vec<String> {
    let line = |icing: &crate::IcingNeed| {
        let uses: Vec<String> = icing.uses.iter().map(|(u, m)| format!("{} {}", u.words(), m.print(unit))).collect();
        let (word, tint, mass) = (icing.consistency.words(), icing.tint.words(), icing.to_make.print(unit));
        let uses = uses.join(", ");
        match icing.bags {
            0 => format!("{word}, {tint}: {mass} ({uses})"),
            bags => tr!("{word}, {tint}: {mass}, 1 bag ({uses})" | "{word}, {tint}: {mass}, {n} bags ({uses})" % bags),
        }
    };
    needs.icing.iter().map(line).collect()
}

fn others(needs: &Needs, unit: Unit) -> Vec<String> {
    let glazing = needs.glazing.iter().map(|g| {
        let mass = g.mass.unwrap_or_default().print(unit);
        match (g.glass, g.leaves) {
            (Glass::Leaf, Some(leaves)) => {
                let panes = tr!("1 pane" | "{n} panes" % g.panes);
                tr!("1 gelatine leaf for {panes}" | "{n} gelatine leaves for {panes}" % leaves)
            }
            (Glass::Leaf, None) => {
                tr!("1 pane, larger than a leaf" | "{n} panes, one of them larger than a leaf" % g.panes)
            }
            (Glass::Poured, _) => {
                tr!("{mass} of sugar for 1 poured pane" | "{mass} of sugar for {n} poured panes" % g.panes)
            }
            (Glass::Crushed, _) => {
                tr!("{mass} of crushed sweets for 1 pane" | "{mass} of crushed sweets for {n} panes" % g.panes)
            }
        }
    });
    let pastes = needs.pastes.iter().map(|p| {
        let name = if p.stuff == Stuff::Fondant { tr!("fondant") } else { tr!("gum paste") };
        let (net, to_make) = (p.net.print(unit), p.to_make.print(unit));
        tr!("{name}, {}: {to_make} ({net} on the house)", p.tint.words())
    });
    let sweets = needs.sweets.iter().map(|s| tr!("sweets, {}: {}, {}", s.tint.words(), s.count, s.mass.print(unit)));
    glazing.chain(pastes).chain(sweets).collect()
}

fn recipe(batch: &Batch, notebook: &Notebook, unit: Unit) -> Chapter {
    let pantry = notebook.pantry();
    let once = (batch.batches - 1.0).abs() < 1e-9;
    let times = if once { tr!("once").to_owned() } else { tr!("{} times", decimal(batch.batches, 2)) };
    let ingredient = |line: &crate::WeighedLine| {
        let household = pantry.get(&line.ingredient).and_then(|i: &Ingredient| Amount::household(line.mass, i));
        let household = household.map_or_else(String::new, |amount| format!(" ({})", amount.print()));
        format!("{}{household} {}, {} %", line.mass.print(unit), line.name, decimal(line.percent, 1))
    };
    let mut lines: Vec<String> = batch.weighed.lines.iter().map(ingredient).collect();
    lines.extend(batch.recipe.steps.iter().map(|step| format!("- {step}")));
    lines.push(tr!("Proportions: {} ({})", batch.recipe.source, batch.recipe.basis.words()));
    let (made, needed) = (batch.weighed.mass.print(unit), batch.needed.print(unit));
    Chapter::new(tr!("{}, {times}: {made} for {needed}", batch.recipe.name), lines)
}

/// 'templates 1, 1, 3 and 14 small ones'.
fn on_tray(tray: &Ovenful) -> String {
    let numbers: Vec<String> = tray.pieces.iter().filter_map(crate::OnTray::number).collect();
    let others = tray.pieces.len() - numbers.len();
    let templates = match numbers.len() {
        0 => String::new(),
        count => tr!("template {numbers}" | "templates {numbers}" % count, numbers = numbers.join(", ")),
    };
    let apart = if others > 0 { tr!("1 ornament" | "{n} ornaments" % others) } else { String::new() };
    match (templates.is_empty(), apart.is_empty()) {
        (false, false) => tr!("{templates} and {apart}"),
        _ => templates + &apart,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_measure::InchStep;

    /// By hand: 475.5 mm is 48 cm; 333.5 mm is 13.13 in, so 13 1/2 in; what is 350 mm stays so.
    #[test]
    fn sizes_are_rounded_up_to_what_people_ask_for() {
        let size = |mm: f64, unit: Unit, steps| unit.print(at_least(Length::mm_of(mm), unit, steps));
        let (mm, inches) = (Unit::Millimetre, Unit::Inch(InchStep::default()));
        assert_eq!([size(475.5, mm, 2), size(350.0, mm, 1), size(419.2, mm, 1)], ["480 mm", "350 mm", "420 mm"]);
        assert_eq!([size(333.5, inches, 2), size(254.0, inches, 1)], ["13 1/2\"", "10\""]);
    }
}
