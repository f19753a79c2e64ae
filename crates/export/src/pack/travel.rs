//! Will it stand, will it travel: the answers on paper, and the page of the snap test.

use super::Draft;
use super::bake::chapter;
use super::cover::About;
use super::flow::{Flow, row};
use super::sheet::{Sheet, scaled};
use super::words::{HEADING, LEADING, PLAIN, fitted};
use gable_bake::{Notebook, SnapTest};
use gable_drawing::{Anchor, Drawing, Layer, LineRole, Stroke, Text};
use gable_measure::Length;
use gable_plane::{Contour, P2, V2};
use gable_stand::bend::{Bends, Kept, map};
use gable_stand::{ABOUT_CAKE, Ask, Report, Site};

/// Height of the picture of the snap test, mm.
const PICTURE: f64 = 46.0;
/// Pieces that are drawn with their stress, at most.
const MAPS: usize = 6;
/// Highest map with its legend, mm.
const MAP_HEIGHT: f64 = 92.0;
/// White on both sides of a piece on its map together, mm.
const MAP_RIM: f64 = 10.0;
/// Height of the legend of a map, about, mm.
const MAP_KEY: f64 = 28.0;
/// Between two maps, mm.
const BETWEEN: f64 = 6.0;
const MAP_WORDS: &str = "Seen from outside, the upper edge up. The darker, the more is asked of the biscuit where the piece stands in the \
                         finished house, in the room that is named above; thin lines join places that are asked alike, with the share \
                         of what biscuit carries. Thick lines: where joints hold it. A cross: the place that is asked for most, to keep \
                         free of openings, seams and heavy sweets.";
/// Height of the edges that a strip lies on in the picture, mm.
const EDGE: f64 = 22.0;

/// What will stand and travel, what needs care, what is likely to break: in a usual room, on a usual board.
pub(super) fn pages(about: &gable_bake::About<'_>, notebook: &Notebook, sheet: &Sheet) -> Vec<Draft> {
    let site = Site::new(*about, notebook);
    let report = Report::of(&site, &Ask::default(), &mut Kept::default());
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Will it stand, will it travel");
    flow.paragraph(PLAIN, false, ABOUT_CAKE);
    if about.guide.is_none() {
        let none = "No order of assembly was found, so nothing is said of fresh icing and joints.";
        flow.paragraph(PLAIN, true, none);
    }
    report.chapters(&site).iter().for_each(|c| chapter(&mut flow, c));
    maps(&mut flow, about, &report);
    flow.drafts(sheet, "will it stand", "Will it stand, will it travel")
}

/// Pieces that are asked for most, with stress drawn on them; two beside each other.
fn maps(flow: &mut Flow, about: &gable_bake::About<'_>, report: &Report) {
    let worst = report.bent_most(about.solved, MAPS);
    if worst.is_empty() {
        return;
    }
    flow.heading("Where pieces are asked for most");
    flow.paragraph(PLAIN, false, MAP_WORDS);
    flow.space(2.0);
    let column = (flow.width() - BETWEEN) / 2.0;
    let drawn: Vec<(String, Drawing)> = worst.iter().map(|one| map_of(about, one, column)).collect();
    for pair in drawn.chunks(2) {
        let tall = pair.iter().map(|(_, d)| d.height).fold(0.0, f64::max);
        let top = flow.take(tall + PLAIN * LEADING + 3.0) + tall;
        for (k, (name, drawing)) in pair.iter().enumerate() {
            let x = flow.room.low.x + k as f64 * (column + BETWEEN);
            let (text, height) = fitted(name, PLAIN, true, column);
            flow.put(Text { bold: true, ..Text::note(P2::new(x, top + 1.0), height, Anchor::Start, text) });
            let corner = P2::new(x, top - drawing.height);
            drawing.items.iter().for_each(|item| flow.put(scaled(item, 1.0, corner)));
        }
    }
}

/// A map as large as half the width allows, and its heading.
fn map_of(about: &gable_bake::About<'_>, one: &Bends, column: f64) -> (String, Drawing) {
    let piece = &about.solved.pieces[one.standing.piece];
    let name = format!("{} ({})", piece.name, about.solved.template_number(piece));
    // Letters keep their size, so that it takes a second look to fill the room.
    let mut scale: f64 = 1.0;
    let mut drawn = map(piece, one, scale);
    for _ in 0..3 {
        let across = (column - MAP_RIM) / (drawn.width - MAP_RIM);
        let up = (MAP_HEIGHT - MAP_KEY) / (drawn.height - MAP_KEY);
        if across.min(up) > 0.999 {
            break;
        }
        scale *= across.min(up);
        drawn = map(piece, one, scale);
    }
    (name, drawn)
}

/// The page of the snap test: a strip to cut five times, how it is broken, and room for what was measured.
pub(super) fn snap_test(about: &About<'_>, sheet: &Sheet) -> Vec<Draft> {
    let unit = about.solved.unit;
    let said = |length: Length| unit.print(length);
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Snap test");
    flow.paragraph(
        PLAIN,
        false,
        "How much biscuit carries is hardly published, so the program assumes it until you have broken some of yours. Cut five \
         strips of each dough, roll and bake them as you will the house, and let them lie for a day. Then break them:",
    );
    for text in [
        format!("Lay a strip over two straight edges {} apart, the face that lay on the tray below.", said(SnapTest::SPAN)),
        "Hang a bag on a wide ribbon from its middle, over something soft, and fill it slowly with sugar or water until the \
         strip breaks. Keep fingers and feet away from under it."
            .to_owned(),
        "Weigh the bag with the ribbon. Measure width and thickness where it broke.".to_owned(),
        "If you can, measure how far the middle goes down under a smaller load: from two strips on that tells how stiff it is."
            .to_owned(),
        "What was broken is not eaten after it lay on the floor; and nobody tastes raw dough.".to_owned(),
    ] {
        flow.point(&text);
    }
    drawn(&mut flow, &said);
    measures(&mut flow, about);
    flow.drafts(sheet, "snap test", "Snap test")
}

/// The strip at true scale, and how it is broken.
fn drawn(flow: &mut Flow, said: &dyn Fn(Length) -> String) {
    let size = V2::new(SnapTest::LENGTH.mm(), SnapTest::WIDTH.mm());
    let foot = flow.take(size.y + 8.0);
    let low = P2::new(flow.room.low.x, foot + 4.0);
    flow.put(Stroke::contour(Layer::Cut, LineRole::Edge, &Contour::rectangle(low, low + size)));
    let note = |at: P2, text: String| Text::note(at, PLAIN, Anchor::Middle, text);
    let strips = format!(
        "strip, {} × {}: cut {} of each dough",
        said(SnapTest::LENGTH),
        said(SnapTest::WIDTH),
        SnapTest::STRIPS
    );
    flow.put(note(low + size / 2.0, strips));
    // From the side, at true scale too.
    let foot = flow.take(PICTURE + 6.0);
    let (left, span, thick) = (flow.room.low.x, SnapTest::SPAN.mm(), 6.0);
    let over = (size.x - span) / 2.0;
    let top = foot + 4.0 + EDGE;
    let mut line = |points: &[(f64, f64)]| {
        let points: Vec<P2> = points.iter().map(|(x, y)| P2::new(left + x, top + y)).collect();
        flow.put(Stroke::polyline(Layer::Notes, LineRole::Thin, &points));
    };
    line(&[(0.0, 0.0), (size.x, 0.0), (size.x, thick), (0.0, thick), (0.0, 0.0)]);
    for edge in [over, over + span] {
        line(&[(edge - 6.0, -EDGE), (edge, 0.0), (edge + 6.0, -EDGE), (edge - 6.0, -EDGE)]);
    }
    let middle = size.x / 2.0;
    // The ribbon, the bag, and something soft under it.
    line(&[
        (middle - 3.0, thick + 0.6),
        (middle + 3.0, thick + 0.6),
        (middle + 3.0, -8.0),
        (middle - 3.0, -8.0),
        (middle - 3.0, thick + 0.6),
    ]);
    line(&[
        (middle - 9.0, -8.0),
        (middle + 9.0, -8.0),
        (middle + 7.0, -19.0),
        (middle - 7.0, -19.0),
        (middle - 9.0, -8.0),
    ]);
    let up = top + thick + 4.0;
    line(&[(over, thick + 1.5), (over, thick + 9.0)]);
    line(&[(over + span, thick + 1.5), (over + span, thick + 9.0)]);
    line(&[(over, thick + 6.0), (over + span, thick + 6.0)]);
    let span_words = said(SnapTest::SPAN);
    flow.put(note(P2::new(left + middle, up + 3.2), span_words));
    flow.put(Text::note(P2::new(left + size.x + 6.0, top + 1.0), PLAIN, Anchor::Start, "seen from the side"));
}

/// Room for what each strip said, for each dough.
fn measures(flow: &mut Flow, about: &About<'_>) {
    const COLUMNS: [f64; 6] = [0.0, 0.14, 0.3, 0.46, 0.64, 0.82];
    flow.heading("What it carried");
    for dough in &about.house.doughs {
        let name = format!("Dough '{}', rolled {}", dough.id.0, about.solved.unit.print(dough.rolled));
        flow.paragraph(PLAIN, true, &name);
        let head = ["Strip", "Width", "Thickness", "Broke at", "Smaller load", "Sag under it"].map(str::to_owned);
        row(flow, true, &COLUMNS, &[], &head);
        for strip in 1..=SnapTest::STRIPS {
            let mut cells = [const { String::new() }; 6];
            cells[0] = strip.to_string();
            row(flow, false, &COLUMNS, &[], &cells);
        }
    }
}
