//! The page to print first: bars as long as the paper holds.

use super::cover::About;
use super::flow::Flow;
use super::sheet::{Heading, Sheet, bar, must_measure, step};
use super::words::{HEADING, PLAIN};
use super::{Draft, clip::Window};
use gable_drawing::Drawing;
use gable_measure::Unit;
use gable_plane::V2;

/// From the edges of the room to the bars, mm: their ticks and words lie there.
const ASIDE: f64 = 8.0;

/// Lengths of the level and of the upright bar of the page, mm: whole centimetres or inches.
pub(super) fn lengths(sheet: &Sheet, unit: Unit) -> V2 {
    (sheet.content.size() - V2::new(ASIDE + 2.0, ASIDE + 2.0)).map(|room| (room / step(unit)).floor() * step(unit))
}

/// The page.
pub(super) fn page(about: &About<'_>, sheet: &Sheet) -> Draft {
    let unit = about.solved.unit;
    let length = lengths(sheet, unit);
    let corner = sheet.content.low + V2::new(ASIDE, ASIDE);
    let mut bars = Drawing::new(0.0, 0.0);
    bar(&mut bars, corner, V2::x(), length.x, unit);
    bar(&mut bars, corner, V2::y(), length.y, unit);
    let room = Window { low: corner + V2::new(12.0, 12.0), high: sheet.content.high };
    let mut flow = Flow::within(room);
    flow.paragraph(HEADING, true, "Print this page first");
    flow.space(2.0);
    let words = |length: f64| must_measure(length, unit);
    let printer = about.options.purpose.printer();
    let last = if printer.is_true() {
        "If the bars still come out wrong, print your own pack with Gablewright: tell it what both bars measure and what \
         they should, and it makes up for your printer."
    } else {
        "These bars are corrected for a printer already. If they come out wrong, take the correction back, print this \
         page again, and enter what its bars measure then."
    };
    for text in [
        "Print it on the printer and with the program that you will use for the rest, at 100 % ('actual size'), not \
         'fit to page'.",
        &format!(
            "Measure from the first tick to the last. The level bar {}, the upright bar {}.",
            words(length.x),
            words(length.y)
        ),
        "If both do, print the rest in just the same way. A millimetre too little here is enough for walls that do not \
         meet.",
        "If they do not, look for a setting that shrinks or enlarges pages, turn it off, and print this page again.",
        last,
    ] {
        flow.point(text);
        flow.space(1.0);
    }
    flow.space(3.0);
    flow.paragraph(
        PLAIN,
        false,
        "Measured:   level bar ______________    upright bar ______________    printer ______________________",
    );
    let mut items = bars.items;
    items.extend(flow.pages.into_iter().next().unwrap_or_default());
    let heading = Heading { what: "calibration page".into(), ..Heading::default() };
    Draft {
        sheet: *sheet,
        items,
        heading,
        templates: Vec::new(),
        bookmark: Some("Calibration page".into()),
        is_cover: false,
    }
}
