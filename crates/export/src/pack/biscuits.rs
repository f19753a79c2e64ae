//! The page of the two test biscuits: to cut out at true scale, with room for what is measured.

use super::Draft;
use super::cover::About;
use super::flow::{Flow, row};
use super::sheet::Sheet;
use super::words::{HEADING, PLAIN};
use gable_bake::TestBiscuits;
use gable_drawing::{Anchor, Layer, LineRole, Stroke, Text};
use gable_measure::Length;
use gable_plane::{Contour, P2, V2};

/// Width of the strip, mm.
const STRIP_WIDTH: f64 = 30.0;
/// What is left round the hole, mm.
const ROUND: f64 = 20.0;
/// Between the two, mm.
const APART: f64 = 12.0;

/// The page. Both lie upright, along the rolling.
pub(super) fn page(about: &About<'_>, sheet: &Sheet) -> Vec<Draft> {
    let unit = about.solved.unit;
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Two test biscuits");
    flow.paragraph(
        PLAIN,
        false,
        "Cut both from dough that is rolled as for the house, along the arrow, and bake them with nothing else on the tray. \
         Measure them when they are cold. Tell the program what came out: from then on it knows how your dough rises, grows \
         and dries. Nobody tastes raw dough.",
    );
    let hole = TestBiscuits::HOLE.mm();
    let strip = TestBiscuits::STRIP.mm();
    let foot = flow.take(strip + APART);
    let x = flow.room.low.x;
    let low = P2::new(x, foot + APART / 2.0);
    let cut = |low: P2, size: V2| Stroke::contour(Layer::Cut, LineRole::Edge, &Contour::rectangle(low, low + size));
    let with_hole = V2::new(hole + 2.0 * ROUND, hole + 2.0 * ROUND);
    let beside = low + V2::new(STRIP_WIDTH + APART, 0.0);
    flow.put(cut(low, V2::new(STRIP_WIDTH, strip)));
    flow.put(cut(beside, with_hole));
    flow.put(cut(beside + V2::new(ROUND, ROUND), V2::new(hole, hole)));
    let said = |mm: f64| unit.print(Length::mm_of(mm));
    let note = |at: P2, text: String| Text::note(at, PLAIN, Anchor::Middle, text);
    flow.put(note(low + V2::new(STRIP_WIDTH / 2.0, strip / 2.0), format!("strip, {}", said(strip))));
    flow.put(note(beside + V2::new(with_hole.x / 2.0, ROUND + hole / 2.0), format!("hole, {}", said(hole))));
    arrow(&mut flow, low + V2::new(STRIP_WIDTH / 2.0, strip * 0.6), strip * 0.25);
    arrow(&mut flow, beside + V2::new(ROUND / 2.0, ROUND), hole);
    measures(&mut flow, about, strip);
    flow.drafts(sheet, "test biscuits", "Two test biscuits")
}

/// An arrow upwards: the way in which dough is rolled.
fn arrow(flow: &mut Flow, foot: P2, length: f64) {
    let head = foot + V2::new(0.0, length);
    for line in [vec![foot, head], vec![head + V2::new(-1.6, -4.0), head, head + V2::new(1.6, -4.0)]] {
        flow.put(Stroke::polyline(Layer::Notes, LineRole::Thin, &line));
    }
}

/// What to measure, and room for it, for each thickness of dough.
fn measures(flow: &mut Flow, about: &About<'_>, strip: f64) {
    const COLUMNS: [f64; 3] = [0.0, 0.6, 0.8];
    let unit = about.solved.unit;
    flow.heading("What came out");
    let mut sorts: Vec<(Length, Vec<&str>)> = Vec::new();
    for dough in &about.house.doughs {
        match sorts.iter_mut().find(|(rolled, _)| (*rolled - dough.rolled).mm().abs() < 1e-9) {
            Some((_, names)) => names.push(&dough.id.0),
            None => sorts.push((dough.rolled, vec![&dough.id.0])),
        }
    }
    for (rolled, names) in sorts {
        let name =
            if names.len() > 1 { format!("Doughs '{}'", names.join("', '")) } else { format!("Dough '{}'", names[0]) };
        row(flow, true, &COLUMNS, &[0], &[name, "Cut".to_owned(), "Baked".to_owned()]);
        for (what, before) in [
            ("Thickness", unit.print(rolled)),
            ("Length of the strip", unit.print(Length::mm_of(strip))),
            ("Width of the hole, along the arrow", unit.print(TestBiscuits::HOLE)),
            ("Mass of both", String::new()),
            ("Minutes in the oven", "–".to_owned()),
        ] {
            row(flow, false, &COLUMNS, &[0], &[what.to_owned(), before, String::new()]);
        }
    }
}
