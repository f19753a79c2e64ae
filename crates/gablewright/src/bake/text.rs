//! The plan for people.

use gable_bake::{Amount, BakePlan, Batch, Figure, Ingredient, Notebook, Ovenful, Ovenfuls, PieceSize};
use gable_measure::{Unit, decimal};
use gable_shell::{Glass, House, Stuff, Tint};
use std::fmt::Write;

/// All of it, a heading for each matter.
pub(super) fn plan(house: &House, plan: &BakePlan, notebook: &Notebook) -> String {
    let unit = house.unit;
    let mut text = String::new();
    let title = if house.owner.title.is_empty() { "The house" } else { &house.owner.title };
    let copies = if plan.copies > 1 { format!(", {} of them", plan.copies) } else { String::new() };
    let _ = writeln!(text, "{title}{copies}\n");
    for problem in &plan.problems {
        let _ = writeln!(text, "Cannot be planned: {problem}");
    }
    dough(&mut text, plan, notebook, unit);
    icing(&mut text, plan, unit);
    others(&mut text, plan, unit);
    for batch in &plan.batches {
        recipe(&mut text, batch, notebook, unit);
    }
    ovenfuls(&mut text, &plan.ovenfuls, unit);
    let _ = writeln!(text, "Shopping{}\n{}", if plan.copies > 1 { ", for all" } else { "" }, plan.shopping.text(unit));
    cost(&mut text, plan, notebook);
    let _ = writeln!(text, "Who must not eat it\n  {}\n", plan.kit.slip());
    let _ = writeln!(text, "Cautions (local rules come first)");
    for caution in &plan.cautions {
        let _ = writeln!(text, "  {}: {}", caution.title(), caution.words());
    }
    assumptions(&mut text, plan);
    text
}

fn each(plan: &BakePlan) -> &'static str {
    if plan.copies > 1 { ", for each" } else { "" }
}

fn dough(text: &mut String, plan: &BakePlan, notebook: &Notebook, unit: Unit) {
    let _ = writeln!(text, "Dough{}", each(plan));
    let needs = &plan.needs.dough;
    for sort in &needs.sorts {
        let pieces = if sort.pieces == 1 { "1 piece".to_owned() } else { format!("{} pieces", sort.pieces) };
        let (rolled, mass) = (unit.print(sort.rolled), sort.net.print(unit));
        let _ = writeln!(text, "  {}, rolled {rolled}: {pieces}, {mass}", sort.name);
    }
    let trim = notebook.figures.get(Figure::DoughTrim) * 100.0;
    let _ = writeln!(text, "  to make: {} with {} % for trimming", needs.to_make.print(unit), decimal(trim, 0));
    let biscuit = (plan.baked * (1.0 / plan.copies as f64)).print(unit);
    let _ = writeln!(text, "  biscuit: {biscuit}; dough loses {} % in the oven\n", decimal(plan.loss * 100.0, 1));
}

fn white(tint: Tint) -> String {
    if tint == Tint::Icing { "white".to_owned() } else { tint.word().to_owned() }
}

fn icing(text: &mut String, plan: &BakePlan, unit: Unit) {
    let _ = writeln!(text, "Icing{}", each(plan));
    for icing in &plan.needs.icing {
        let uses: Vec<String> = icing.uses.iter().map(|(u, m)| format!("{} {}", u.words(), m.print(unit))).collect();
        let bags = match icing.bags {
            0 => String::new(),
            1 => ", 1 bag".to_owned(),
            bags => format!(", {bags} bags"),
        };
        let (word, tint, mass) = (icing.consistency.word(), white(icing.tint), icing.to_make.print(unit));
        let _ = writeln!(text, "  {word}, {tint}: {mass}{bags} ({})", uses.join(", "));
    }
    let _ = writeln!(text);
}

fn others(text: &mut String, plan: &BakePlan, unit: Unit) {
    let needs = &plan.needs;
    let mut lines = Vec::new();
    for glazing in &needs.glazing {
        let what = match (glazing.glass, glazing.leaves, glazing.mass) {
            (Glass::Leaf, Some(leaves), _) => format!("{leaves} gelatine leaves for {} panes", glazing.panes),
            (Glass::Leaf, None, _) => format!("{} panes, one of them larger than a leaf", glazing.panes),
            (Glass::Poured, _, mass) => {
                format!("{} of sugar for {} poured panes", mass.unwrap_or_default().print(unit), glazing.panes)
            }
            (Glass::Crushed, _, mass) => {
                format!("{} of crushed sweets for {} panes", mass.unwrap_or_default().print(unit), glazing.panes)
            }
        };
        lines.push(what);
    }
    for paste in &needs.pastes {
        let name = if paste.stuff == Stuff::Fondant { "fondant" } else { "gum paste" };
        lines.push(format!(
            "{name}, {}: {} ({} on the house)",
            white(paste.tint),
            paste.to_make.print(unit),
            paste.net.print(unit)
        ));
    }
    for sweets in &needs.sweets {
        lines.push(format!("sweets, {}: {}, {}", white(sweets.tint), sweets.count, sweets.mass.print(unit)));
    }
    if lines.is_empty() {
        return;
    }
    let _ = writeln!(text, "Glazing and decoration{}", each(plan));
    for line in lines {
        let _ = writeln!(text, "  {line}");
    }
    let _ = writeln!(text);
}

fn recipe(text: &mut String, batch: &Batch, notebook: &Notebook, unit: Unit) {
    let pantry = notebook.pantry();
    let times = if (batch.batches - 1.0).abs() < 1e-9 {
        "once".to_owned()
    } else {
        format!("{} times", decimal(batch.batches, 2))
    };
    let _ = writeln!(
        text,
        "{}, {times}: {} for {}",
        batch.recipe.name,
        batch.weighed.mass.print(unit),
        batch.needed.print(unit)
    );
    for line in &batch.weighed.lines {
        let household = pantry.get(&line.ingredient).and_then(|i: &Ingredient| Amount::household(line.mass, i));
        let household = household.map_or_else(String::new, |amount| format!(" ({})", amount.print()));
        let _ = writeln!(text, "  {}{household} {}, {} %", line.mass.print(unit), line.name, decimal(line.percent, 1));
    }
    for step in &batch.recipe.steps {
        let _ = writeln!(text, "  - {step}");
    }
    let _ = writeln!(text, "  Proportions: {} ({})\n", batch.recipe.source, batch.recipe.basis.words());
}

fn ovenfuls(text: &mut String, ovenfuls: &Ovenfuls, unit: Unit) {
    let assumed = if ovenfuls.assumed_tray { ", on a usual tray: name yours with --tray" } else { "" };
    let _ = writeln!(text, "Ovenfuls: {}{assumed}", ovenfuls.trays.len());
    for (k, tray) in ovenfuls.trays.iter().enumerate() {
        let Some(class) = ovenfuls.classes.get(tray.class) else { continue };
        let size = if class.size == PieceSize::Large { "large" } else { "small" };
        let [least, usual, most] = [class.minutes.least, class.minutes.usual, class.minutes.most].map(f64::round);
        let (rolled, mass) = (unit.print(class.thickest), tray.mass.print(unit));
        let _ = writeln!(
            text,
            "  {}  {}, {size} pieces rolled {rolled}, {usual} min (look from {least}, out by {most}), {mass}: {}",
            k + 1,
            tray.tray.name,
            on_tray(tray)
        );
    }
    let _ = writeln!(text, "\nDough to roll");
    for sheet in &ovenfuls.rolled {
        let size = format!("{} × {}", unit.print_bare(sheet.width), unit.print(sheet.depth));
        let scraps = decimal(sheet.scraps * 100.0, 0);
        let (name, rolled, mass) = (&sheet.dough, unit.print(sheet.rolled), sheet.mass.print(unit));
        let _ = writeln!(text, "  {name}: {size}, {rolled} thick, {mass}, {scraps} % scraps to roll again");
    }
    let _ = writeln!(text);
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

fn cost(text: &mut String, plan: &BakePlan, notebook: &Notebook) {
    let (cost, unpriced) = plan.shopping.cost();
    if notebook.cupboard.prices.is_empty() {
        return;
    }
    let rest = if unpriced > 0 { format!(", and {unpriced} things without a price") } else { String::new() };
    let _ = writeln!(text, "Cost: {cost:.2} {}{rest}\n", notebook.cupboard.currency);
}

fn assumptions(text: &mut String, plan: &BakePlan) {
    let _ = writeln!(text, "\nTaken as, until your notebook says otherwise");
    for (figure, value) in &plan.assumed {
        let known = figure.known();
        let [value, low, high] = [*value, known.range.0, known.range.1].map(|v| decimal(known.shown(v), 2));
        let (words, unit) = (known.words, known.unit);
        let _ = writeln!(text, "  {words}: {value} {unit}, seen {low} to {high} ({})", known.founded());
    }
}
