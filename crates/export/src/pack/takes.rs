//! What the house takes besides dough: glazing and finishes.

use super::cover::About;
use super::flow::{Flow, row};
use super::said;
use super::template::Template;
use gable_dress::{FinishAmount, GlassAmount, duration, finish_amounts, glass_amounts, glass_facts};
use gable_shell::Glass;

/// Where the columns of the table of finishes begin, as shares of the width: what, faces, shade, whole, cut, piping, mass,
/// time.
const COLUMNS: [f64; 8] = [0.0, 0.24, 0.32, 0.5, 0.58, 0.66, 0.79, 0.89];

/// Sections on glazing and finishes, where there are any.
pub(super) fn add(flow: &mut Flow, about: &About<'_>) {
    glazing(flow, about);
    finishes(flow, about);
}

fn glazing(flow: &mut Flow, about: &About<'_>) {
    let amounts = glass_amounts(about.dressed);
    if amounts.is_empty() {
        return;
    }
    flow.heading("Glazing");
    for amount in &amounts {
        let facts = glass_facts(amount.glass);
        flow.point(&format!("{}: {}. {}", capital(facts.name), counted(amount, about), facts.pass));
    }
    if about.dressed.opening_lines.iter().any(|l| !l.pressed) {
        flow.point("Glazing bars: pipe them along the finest lines on panes and patterns, from the outer side.");
    }
    let cautions = amounts.iter().flat_map(|a| glass_facts(a.glass).cautions);
    let mut told: Vec<&str> = Vec::new();
    for caution in cautions {
        if !told.contains(caution) {
            told.push(caution);
            flow.point(&format!("Caution: {caution}"));
        }
    }
}

/// '12 panes (templates 31 to 34) from 5 leaves of 230 × 70 mm', '3 openings to fill, 24 g in all'.
fn counted(amount: &GlassAmount, about: &About<'_>) -> String {
    let (unit, glazier) = (about.solved.unit, &about.house.dressing.glazier);
    if amount.glass != Glass::Leaf {
        let openings = if amount.panes == 1 { "opening" } else { "openings" };
        return format!("{} {openings} to fill, about {:.0} g in all", amount.panes, amount.mass.unwrap_or(0.0).ceil());
    }
    let is_pane = |t: &&Template| t.dough_name == glass_facts(Glass::Leaf).name;
    let numbers: Vec<usize> = about.templates.iter().filter(is_pane).map(|t| t.number).collect();
    let panes = if amount.panes == 1 { "pane" } else { "panes" };
    let size = format!("{} × {}", unit.print_bare(glazier.leaf_length), unit.print(glazier.leaf_width));
    let leaves = match crate::leaves(about.dressed, glazier) {
        Some(1) => format!("from one leaf of {size}"),
        Some(count) => format!("from {count} leaves of {size}"),
        None => format!("of which some fit on no leaf of {size}"),
    };
    let margin = unit.print(glazier.margin);
    format!("{} {panes} ({}) {leaves}; {margin} of each is for glue", amount.panes, said("template", &numbers))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

fn finishes(flow: &mut Flow, about: &About<'_>) {
    let amounts = finish_amounts(about.house, about.dressed);
    if amounts.is_empty() {
        return;
    }
    flow.heading("Finishes");
    let head = ["Finish", "Faces", "Shade", "Whole", "Cut", "Piping", "Mass", "Work"].map(String::from);
    row(flow, true, &COLUMNS, &[0], &head);
    for amount in &amounts {
        shades(flow, amount, about);
    }
    let minutes: f64 = amounts.iter().map(|a| a.tally.minutes).sum();
    let rates = &about.house.dressing.rates;
    flow.paragraph(
        super::words::PLAIN,
        false,
        &format!(
            "About {} of work in all, at {} s to set a piece, {} s more to cut one and {} s to pipe 100 mm.",
            duration(minutes),
            rates.set,
            rates.cut,
            rates.pipe
        ),
    );
}

/// A row for each shade; what holds for all of them stands in the first one.
fn shades(flow: &mut Flow, amount: &FinishAmount, about: &About<'_>) {
    let tally = &amount.tally;
    for (k, share) in amount.shades.iter().enumerate() {
        let count = |counts: &[usize]| counts.get(k).map_or_else(String::new, usize::to_string);
        let once = |text: String| if k == 0 { text } else { String::new() };
        let cells = [
            once(format!("{}, {}", amount.name, amount.stuff.words())),
            once(amount.faces.to_string()),
            share.tint.word().replace('-', " "),
            count(&tally.whole),
            count(&tally.cut),
            once(about.solved.unit.print(tally.piping)),
            once(format!("{:.0} g", tally.mass.ceil())),
            once(duration(tally.minutes)),
        ];
        row(flow, false, &COLUMNS, &[0], &cells);
    }
}
