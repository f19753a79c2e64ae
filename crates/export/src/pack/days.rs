//! The timetable drawn over days, and the labels of kits.

use super::flow::Flow;
use super::lying::shift;
use super::sheet::Sheet;
use super::words::{HEADING, LEADING, PLAIN, SMALLEST, wrapped};
use super::{Baker, Draft};
use crate::Together;
use gable_bake::timetable::{Entry, Timetable, Work, plan::ROUNDS};
use gable_bake::{BakePlan, HousePlan};
use gable_drawing::{Anchor, Drawing, Layer, LineRole, Stroke, Text};
use gable_measure::Unit;
use gable_plane::{Contour, P2, V2};

/// Between two drawings, mm.
const APART: f64 = 5.0;
/// A day takes no more of a page than this, mm.
const TALLEST: f64 = 230.0;
/// Labels beside each other.
const ACROSS: usize = 2;
/// Between the rim of a label and its words, mm.
const INSET: f64 = 3.0;

/// What one person bakes, and the days of it once they have said by when the house must stand.
pub(super) fn planned(about: &gable_bake::About<'_>, baker: &Baker) -> (BakePlan, Option<(Work, Timetable)>) {
    let together = Together::of(baker);
    let lots = together.lots(*about, baker);
    let plan = BakePlan::of(&lots, &baker.kitchen, &baker.notebook);
    let work = baker.notebook.build(about.house).zip(baker.now);
    let work = work.and_then(|(build, now)| build.work(&lots, &plan, (&baker.notebook, &baker.kitchen), now));
    let days = work.and_then(|work| {
        let table = Timetable::of(&work.left, &work.ask, ROUNDS).ok()?;
        Some((work, table))
    });
    (plan, days)
}

/// All days on one chart, then each task by task.
pub(super) fn pages(work: &Work, table: &Timetable, sheet: &Sheet) -> Vec<Draft> {
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Timetable");
    table.verdict().iter().for_each(|line| flow.paragraph(PLAIN, false, line));
    flow.paragraph(
        SMALLEST,
        false,
        "Dark is work, pale is waiting. Tick off what is done, and let the rest be planned anew.",
    );
    if let Some(chart) = table.chart(&work.ask, flow.width()) {
        drawn(&mut flow, chart);
    }
    let tall = TALLEST.min(flow.room.size().y - APART);
    let mut dates: Vec<_> = table.entries.iter().filter(|e| !e.who.is_empty()).map(|e| Entry::from(e).date()).collect();
    dates.sort();
    dates.dedup();
    for day in dates {
        table.day_charts(day, flow.width(), tall).into_iter().for_each(|chart| drawn(&mut flow, chart));
    }
    flow.drafts(sheet, "timetable", "Timetable")
}

fn drawn(flow: &mut Flow, drawing: Drawing) {
    let foot = flow.take(drawing.height + APART);
    let low = V2::new(flow.room.low.x, foot + APART / 2.0);
    for mut item in drawing.items {
        shift(&mut item, low);
        flow.put(item);
    }
}

/// Pages of labels for the kits of a workshop, house by house: what is in each, and who must not eat it.
pub(super) fn labels(plan: &BakePlan, unit: Unit, sheet: &Sheet) -> Vec<Draft> {
    plan.houses.iter().flat_map(|house| labels_of(house, unit, sheet)).collect()
}

fn labels_of(house: &HousePlan, unit: Unit, sheet: &Sheet) -> Vec<Draft> {
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, &format!("Labels for the kits: {}", house.title));
    let width = (flow.width() - APART * (ACROSS - 1) as f64) / ACROSS as f64;
    let mut lines: Vec<(String, bool)> = vec![(house.title.clone(), true)];
    lines.extend(house.kit.contents(unit).into_iter().map(|line| (line, false)));
    lines.push((house.kit.slip(), true));
    let lines: Vec<(String, bool)> = lines
        .into_iter()
        .flat_map(|(line, bold)| wrapped(&line, PLAIN, bold, width - 2.0 * INSET).into_iter().map(move |l| (l, bold)))
        .collect();
    let tall = lines.len() as f64 * PLAIN * LEADING + 2.0 * INSET;
    let rows = (((flow.rest().size().y - 12.0) / (tall + APART)).floor() as usize).max(1);
    let times = house.copies.div_ceil(rows * ACROSS);
    let often = if times == 1 { "once".to_owned() } else { format!("{times} times") };
    let all = if house.copies == 1 { "One".to_owned() } else { format!("One for each of the {} kits", house.copies) };
    flow.paragraph(PLAIN, false, &format!("{all}: print this page {often} and cut the labels out."));
    for row in 0..rows.min(house.copies.div_ceil(ACROSS)) {
        let foot = flow.take(tall + APART);
        for k in 0..ACROSS.min(house.copies - row * ACROSS) {
            let low = P2::new(flow.room.low.x + (width + APART) * k as f64, foot + APART / 2.0);
            label(&mut flow, low, (width, tall), &lines);
        }
    }
    flow.drafts(sheet, "kit labels", "Labels for the kits")
}

/// One label with its lines, the bold ones said.
fn label(flow: &mut Flow, low: P2, (width, tall): (f64, f64), lines: &[(String, bool)]) {
    let rim = Contour::rectangle(low, low + V2::new(width, tall));
    flow.put(Stroke::contour(Layer::Cut, LineRole::Thin, &rim));
    for (n, (line, bold)) in lines.iter().enumerate() {
        let y = low.y + tall - INSET - PLAIN * LEADING * (n + 1) as f64 + PLAIN * (LEADING - 1.0) / 2.0;
        let text = Text::note(P2::new(low.x + INSET, y), PLAIN, Anchor::Start, line.clone());
        flow.put(Text { bold: *bold, ..text });
    }
}
