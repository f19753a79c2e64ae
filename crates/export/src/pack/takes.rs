//! What the house takes besides dough: glazing and finishes.

use super::cover::About;
use super::flow::{Flow, row};
use super::template::Template;
use gable_dress::{FinishAmount, GlassAmount, duration, finish_amounts, glass_amounts, glass_facts};
use gable_measure::{Length, Unit};
use gable_shell::Glass;

/// Where the columns of the table of finishes begin, as shares of the width: what, faces, shade, whole, cut, piping, mass,
/// time.
const COLUMNS: [f64; 8] = [0.0, 0.35, 0.43, 0.57, 0.65, 0.72, 0.81, 0.89];

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
    let leaves = match gable_bake::leaves(about.dressed, glazier) {
        Some(1) => format!("from one leaf of {size}"),
        Some(count) => format!("from {count} leaves of {size}"),
        None => format!("of which some fit on no leaf of {size}"),
    };
    let margin = unit.print(glazier.margin);
    format!("{} {panes} ({}) {leaves}; {margin} of each is for glue", amount.panes, templates(&numbers))
}

/// 'template 3', 'templates 32 to 40', 'templates 3, 5, 8 to 12'.
fn templates(numbers: &[usize]) -> String {
    let run = |run: &[usize]| match run {
        [first, _, .., last] => format!("{first} to {last}"),
        few => few.iter().map(usize::to_string).collect::<Vec<_>>().join(", "),
    };
    let list: Vec<String> = numbers.chunk_by(|a, b| *b == a + 1).map(run).collect();
    format!("template{} {}", if numbers.len() == 1 { "" } else { "s" }, list.join(", "))
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

/// A length far longer than a piece: '6.9 m', '23 ft'.
fn long(length: Length, unit: Unit) -> String {
    match unit {
        Unit::Millimetre => format!("{:.1} m", length.mm() / 1000.0),
        Unit::Inch(_) => format!("{:.0} ft", (length.in_inches() / 12.0).ceil()),
    }
}

/// A row for each shade; what holds for all of them stands in the first one.
fn shades(flow: &mut Flow, amount: &FinishAmount, about: &About<'_>) {
    let tally = &amount.tally;
    for (k, share) in amount.shades.iter().enumerate() {
        let count = |counts: &[usize]| counts.get(k).map_or_else(String::new, usize::to_string);
        let once = |text: String| if k == 0 { text } else { String::new() };
        let cells = [
            once(format!("{}: {}, {}", amount.place(about.house), amount.name, amount.stuff.words())),
            once(amount.faces.to_string()),
            share.tint.word().replace('-', " "),
            count(&tally.whole),
            count(&tally.cut),
            once(long(tally.piping, about.solved.unit)),
            once(format!("{:.0} g", tally.mass.ceil())),
            once(duration(tally.minutes)),
        ];
        row(flow, false, &COLUMNS, &[0], &cells);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_in_turn_are_said_by_their_ends() {
        assert_eq!(templates(&[3]), "template 3");
        assert_eq!(templates(&[3, 4]), "templates 3, 4");
        assert_eq!(templates(&[3, 5, 8, 9, 10, 11]), "templates 3, 5, 8 to 11");
    }

    /// 12 in = 1 ft; 6909.7 mm are 6.9 m.
    #[test]
    fn long_lines_are_said_in_metres_or_feet() {
        assert_eq!(long(Length::mm_of(6909.7), Unit::Millimetre), "6.9 m");
        assert_eq!(long(Length::inches(270.0), Unit::Inch(gable_measure::InchStep::Sixteenth)), "23 ft");
    }
}
