//! The bake plan: what to mix, what lies on which tray, what to buy.

use super::Draft;
use super::cover::About;
use super::flow::Flow;
use super::sheet::Sheet;
use super::words::{HEADING, LARGE, LEADING, PLAIN, SMALLEST, fitted, wrapped};
use gable_bake::{BakePlan, Chapter, Notebook, Shelf, tray_drawing};
use gable_drawing::{Anchor, Layer, LineRole, Stroke, Text};
use gable_measure::Unit;
use gable_plane::{Contour, P2, V2};

/// Trays beside each other on a page.
const ACROSS: usize = 2;
/// Between two of them, mm.
const APART: f64 = 6.0;
/// A tray is never drawn taller, mm.
const TALLEST: f64 = 75.0;
/// Side of the box that is ticked, mm.
const BOX: f64 = 2.8;

/// The pages of the plan.
pub(super) fn pages(about: &About<'_>, plan: &BakePlan, notebook: &Notebook, sheet: &Sheet) -> Vec<Draft> {
    let unit = about.solved.unit;
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Bake plan");
    if plan.copies() > 1 {
        flow.paragraph(PLAIN, true, &plan.title());
    }
    for problem in &plan.problems {
        flow.paragraph(PLAIN, true, &format!("Cannot be planned: {problem}"));
    }
    plan.amounts(notebook, unit).iter().for_each(|c| chapter(&mut flow, c));
    plan.recipe_cards(notebook, unit).iter().for_each(|c| chapter(&mut flow, c));
    trays(&mut flow, plan, unit);
    shopping(&mut flow, plan, unit);
    chapter(&mut flow, &plan.cost_words(notebook));
    chapter(&mut flow, &plan.assumption_words());
    flow.drafts(sheet, "bake plan", "Bake plan")
}

/// Who must not eat it, and where someone could be hurt.
pub(super) fn cautions(plan: &BakePlan, sheet: &Sheet) -> Vec<Draft> {
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Cautions");
    flow.paragraph(
        PLAIN,
        false,
        "What usually goes wrong, and what is usually done about it. Local rules and licensed practice come first; in doubt \
         ask those who know.",
    );
    flow.heading("Who must not eat it");
    plan.slips().iter().for_each(|slip| flow.paragraph(LARGE, false, slip));
    for caution in &plan.cautions {
        flow.heading(caution.title());
        flow.paragraph(PLAIN, false, caution.words());
        flow.paragraph(SMALLEST, false, &format!("Source: {}.", caution.source()));
    }
    flow.drafts(sheet, "cautions", "Cautions")
}

pub(super) fn chapter(flow: &mut Flow, chapter: &Chapter) {
    if chapter.lines.is_empty() {
        return;
    }
    flow.heading(&chapter.title);
    for line in &chapter.lines {
        flow.point(line.trim_start_matches("- "));
    }
}

/// Every tray from above, and how the dough is rolled.
fn trays(flow: &mut Flow, plan: &BakePlan, unit: Unit) {
    let [ovenfuls, rolled] = &plan.trays(unit)[..] else { return };
    flow.heading(&ovenfuls.title);
    flow.paragraph(PLAIN, false, "Numbers are those of the templates. Nothing of another thickness goes with them.");
    plan.letters().iter().for_each(|letters| flow.paragraph(PLAIN, false, letters));
    let column = (flow.width() - APART * (ACROSS - 1) as f64) / ACROSS as f64;
    let order: Vec<usize> = (0..plan.ovenfuls.trays.len()).collect();
    for pair in order.chunks(ACROSS) {
        let drawn = pair.iter().filter_map(|k| {
            let tray = plan.ovenfuls.trays.get(*k)?;
            let (width, depth) = (tray.tray.width, tray.tray.depth);
            let scale = (column / width.mm()).min(TALLEST / depth.mm());
            let words = wrapped(ovenfuls.lines.get(*k)?, PLAIN, false, column);
            Some((tray_drawing(width, depth, &tray.pieces, scale), words))
        });
        let drawn: Vec<_> = drawn.collect();
        let tall = drawn.iter().map(|(d, words)| d.height + words.len() as f64 * PLAIN * LEADING).fold(0.0, f64::max);
        let foot = flow.take(tall + APART);
        for (k, (drawing, words)) in drawn.into_iter().enumerate() {
            let x = flow.room.low.x + (column + APART) * k as f64;
            let low = V2::new(x, foot + tall + APART / 2.0 - drawing.height);
            for mut item in drawing.items {
                super::lying::shift(&mut item, low);
                flow.put(item);
            }
            for (n, line) in words.into_iter().enumerate() {
                let at = P2::new(x, low.y - PLAIN * LEADING * (n + 1) as f64 + PLAIN * (LEADING - 1.0) / 2.0);
                flow.put(Text::note(at, PLAIN, Anchor::Start, line));
            }
        }
    }
    chapter(flow, rolled);
}

/// The list, shelf by shelf, with a box before each line; what is at home is ticked.
fn shopping(flow: &mut Flow, plan: &BakePlan, unit: Unit) {
    // A page to take along.
    flow.next_page();
    flow.heading(if plan.copies() > 1 { "Shopping, for all" } else { "Shopping" });
    for shelf in Shelf::ALL {
        let lines: Vec<_> = plan.shopping.lines.iter().filter(|line| line.shelf == shelf).collect();
        if lines.is_empty() {
            continue;
        }
        flow.paragraph(PLAIN, true, shelf.words());
        for line in lines {
            let note = if line.note.is_empty() { String::new() } else { format!(" ({})", line.note) };
            let words = format!("{}  {}{note}", line.amount.print(unit), line.name);
            let foot = flow.take(PLAIN * LEADING + 0.6);
            let x = flow.room.low.x;
            let low = P2::new(x, foot + 0.6);
            let square = Contour::rectangle(low, low + V2::new(BOX, BOX));
            flow.put(Stroke::contour(Layer::Notes, LineRole::Thin, &square));
            if line.at_home {
                for ends in [[(0.0, 0.0), (BOX, BOX)], [(0.0, BOX), (BOX, 0.0)]] {
                    let ends = ends.map(|(dx, dy)| low + V2::new(dx, dy));
                    flow.put(Stroke::polyline(Layer::Notes, LineRole::Thin, &ends));
                }
            }
            let (text, height) = fitted(&words, PLAIN, false, flow.width() - BOX - 2.0);
            flow.put(Text::note(P2::new(x + BOX + 2.0, foot + 0.8), height, Anchor::Start, text));
        }
    }
}
