//! The cover: what the house is, what the lines mean, which templates there are, and what to mind.

use super::clip::Window;
use super::flow::{Flow, row};
use super::label::arrow;
use super::sheet::{Heading, Sheet, scaled};
use super::template::Template;
use super::words::{LARGE, PLAIN};
use super::{Draft, PackOptions, overall, takes, thicknesses, title};
use crate::Way;
use gable_drawing::{Anchor, Drawing, Item, Layer, LineRole, Text};
use gable_dress::Dressed;
use gable_measure::{Angle, Length};
use gable_mesh::{Pose, View};
use gable_plane::{P2, V2};
use gable_shell::{House, Solved};

/// What the cover speaks of.
pub(super) struct About<'a> {
    /// The house worked out.
    pub(super) solved: &'a Solved,
    /// What is put on it.
    pub(super) dressed: &'a Dressed,
    /// The house as it was given.
    pub(super) house: &'a House,
    /// What was chosen.
    pub(super) options: &'a PackOptions,
    /// The templates.
    pub(super) templates: &'a [Template],
}

const TITLE: f64 = 7.0;
/// Height of the picture and of the legend beside it, mm.
const PICTURE: f64 = 78.0;
/// Share of the width that the picture takes.
const PICTURE_SHARE: f64 = 0.52;
/// Length of the lines in the legend, mm.
const SPECIMEN: f64 = 20.0;
/// Where the columns of the table begin, as shares of the width: number, pieces, count, size, dough, pages.
const COLUMNS: [f64; 6] = [0.0, 0.05, 0.45, 0.62, 0.78, 0.93];

/// The cover, on as many pages as it takes.
pub(super) fn pages(about: &About<'_>, picture: &Drawing, sheet: &Sheet, patterns: &[Draft]) -> Vec<Draft> {
    let mut flow = Flow::new(sheet);
    let owner = &about.house.owner;
    flow.paragraph(TITLE, true, &title(about.house));
    let mut facts = vec![format!("Overall {}", overall(about.solved)), thicknesses(about.solved, about.house)];
    if !owner.edition.is_empty() {
        facts.insert(0, format!("Edition {}", owner.edition));
    }
    flow.paragraph(PLAIN, false, &(facts.join(". ") + "."));
    for line in [owner.credits(), owner.licence.clone()] {
        flow.paragraph(PLAIN, false, &line);
    }
    flow.space(2.0);
    picture_and_legend(&mut flow, about, picture);
    cautions(&mut flow, about);
    if !owner.notes.trim().is_empty() {
        flow.heading("Notes");
        owner.notes.lines().for_each(|line| flow.paragraph(PLAIN, false, line));
    }
    takes::add(&mut flow, about);
    // The table says on which page a pattern is, and so needs to know how many pages the cover has itself.
    let mut before = 1;
    for _ in 0..4 {
        let trial = table(flow.clone(), about, patterns, before);
        if trial.pages.len() == before {
            break;
        }
        before = trial.pages.len();
    }
    let done = table(flow, about, patterns, before);
    let draft = |(k, items): (usize, Vec<Item>)| Draft {
        sheet: *sheet,
        items,
        heading: Heading { what: format!("for paper {}", about.options.paper), ..Heading::default() },
        templates: Vec::new(),
        bookmark: (k == 0).then(|| "Cover".to_owned()),
        is_cover: k == 0,
    };
    done.pages.into_iter().enumerate().map(draft).collect()
}

fn picture_and_legend(flow: &mut Flow, about: &About<'_>, picture: &Drawing) {
    let foot = flow.take(PICTURE);
    let x = flow.room.low.x;
    let split = x + flow.width() * PICTURE_SHARE;
    let space = Window { low: P2::new(x, foot), high: P2::new(split - 6.0, foot + PICTURE) };
    for item in fitted(picture, &space) {
        flow.put(item);
    }
    let guided = about.templates.iter().any(|t| !t.guides.is_empty());
    let trimmed = about.options.purpose.spread().is_some_and(|s| s.way == Way::TrimWarm);
    let leave_out = [(!guided).then_some(LineRole::Fine), (!trimmed).then_some(LineRole::Blank)];
    for item in legend(P2::new(split, foot + PICTURE), &leave_out) {
        flow.put(item);
    }
}

/// The house as it stands.
pub(super) fn picture(about: &About<'_>) -> Drawing {
    let view = View { board: false, ..View::from(Angle::degrees(32.0), Angle::degrees(24.0)) };
    gable_mesh::dressed_picture(about.solved, about.dressed, Pose::Standing, &view)
}

/// A picture in a space on the page, as large as it fits.
fn fitted(picture: &Drawing, space: &Window) -> Vec<Item> {
    let room = space.size();
    let scale = (room.x / picture.width).min(room.y / picture.height);
    if !scale.is_finite() {
        return Vec::new();
    }
    let corner = space.low + (room - V2::new(picture.width, picture.height) * scale) / 2.0;
    picture.items.iter().map(|item| scaled(item, scale, corner)).collect()
}

/// What lines and signs mean, from an upper left corner down.
fn legend(corner: P2, leave_out: &[Option<LineRole>]) -> Vec<Item> {
    let mut sheet = Drawing::new(0.0, 0.0);
    let lines = [
        (LineRole::Edge, "cut here"),
        (LineRole::Blank, "cut the dough here, trim it to the line within"),
        (LineRole::Pressed, "press in, do not cut through"),
        (LineRole::Hidden, "edge of the other face, or of what is under"),
        (LineRole::Centre, "an edge with the same letter stands here"),
        (LineRole::Neighbour, "two sheets join: cut the paper"),
        (LineRole::Thin, "bars, marks, arrows, pointers"),
        (LineRole::Fine, "guide: tiles, bricks, boards, glazing bars"),
    ];
    let mut y = corner.y - LARGE;
    let heading = Text { bold: true, ..Text::note(P2::new(corner.x, y), LARGE, Anchor::Start, "What the lines mean") };
    sheet.push(heading);
    y -= 8.0;
    for (role, meaning) in lines.into_iter().filter(|(role, _)| !leave_out.contains(&Some(*role))) {
        let at = P2::new(corner.x, y);
        sheet.line(Layer::Notes, role, at, at + V2::new(SPECIMEN, 0.0));
        sheet.push(Text::note(at + V2::new(SPECIMEN + 4.0, -PLAIN / 2.0), PLAIN, Anchor::Start, meaning));
        y -= 5.6;
    }
    let signs = ["A", "A / C", "a"];
    let meanings = [
        "edges (or lines) of one letter meet",
        "of the pieces as named, turned over last",
        "sheets join: like marks on like marks",
    ];
    for (sign, meaning) in signs.iter().zip(meanings) {
        let at = P2::new(corner.x + SPECIMEN / 2.0, y - PLAIN / 2.0);
        sheet.push(Text { bold: true, ..Text::note(at, PLAIN, Anchor::Middle, *sign) });
        let at = P2::new(corner.x + SPECIMEN + 4.0, y - PLAIN / 2.0);
        sheet.push(Text::note(at, PLAIN, Anchor::Start, meaning));
        y -= 6.0;
    }
    y -= 4.0;
    sheet.items.extend(arrow(P2::new(corner.x + SPECIMEN / 2.0, y), V2::y()));
    let at = P2::new(corner.x + SPECIMEN + 4.0, y - PLAIN / 2.0);
    sheet.push(Text::note(at, PLAIN, Anchor::Start, "this way up; floor and lid: to the back"));
    sheet.items
}

fn cautions(flow: &mut Flow, about: &About<'_>) {
    flow.heading("Before you cut");
    for text in [
        "Measure both bars on every sheet. If they are not as long as they say, print again at 100 % ('actual size'): \
         on a sheet printed at 97 % every piece is 3 % too small, and nothing closes.",
        &order_of_work(about),
        "Ink and printed paper are not food: they never touch dough or biscuit, baking paper always lies between.",
        "The face that you see on the pattern is the one named on it; 'turned over' means the paper, not the good face.",
        "Raw dough holds raw flour and often raw egg: do not taste it, and wash hands, boards and knives.",
        "Trays and melted sugar burn, knives cut: keep children away from both.",
        "Where the house is shown, given away or sold, the local food rules come first.",
    ] {
        flow.point(text);
    }
}

/// What to do with the patterns, which depends on how dough that spreads is dealt with.
fn order_of_work(about: &About<'_>) -> String {
    let begin = "Order of work: 1. Cut the patterns out of the paper. 2. Roll out the dough, put baking paper on it, lay the \
                 pattern on that, cut round it and lift both off. 3. Bake.";
    let Some(spread) = about.options.purpose.spread() else {
        return format!(
            "{begin} 4. While the piece is warm, put baking paper and pattern on it again and trim what has grown: the \
             outlines are those of the finished biscuit."
        );
    };
    let words = spread.words(about.solved.unit);
    match spread.way {
        Way::CutOnce => format!(
            "{begin} These patterns are for one oven and one dough, which grows by {words}: they are smaller than the \
             finished biscuit, and its windows larger, so that it grows into its size. They are no use for any other \
             dough. Sizes on the ruler card and in the table below are those of the finished biscuit. Measure the first \
             piece that is baked."
        ),
        Way::TrimWarm => format!(
            "{begin} The dough is cut along the outer line, with dashes and dots, and openings along the inner one. 4. While \
             the piece is warm, cut the pattern back to its full line, put it on again with baking paper, and trim the edges \
             marked 'trim', and the openings. The outer line allows for dough that grows by {words}."
        ),
    }
}

/// Every template with its pages; `before` is the number of pages of the cover itself.
fn table(mut flow: Flow, about: &About<'_>, patterns: &[Draft], before: usize) -> Flow {
    flow.heading("Templates");
    row(&mut flow, true, &COLUMNS, &[1, 2, 5], &["No.", "Pieces", "Cut", "Size", "Dough", "Page"].map(String::from));
    let unit = about.solved.unit;
    for template in about.templates {
        let size = template.size;
        let said = |mm: f64| Length::mm_of(mm);
        let pages: Vec<usize> =
            (0..patterns.len()).filter(|k| patterns[*k].templates.contains(&template.number)).collect();
        let pages = runs_of(&pages.iter().map(|k| k + 1 + before).collect::<Vec<_>>());
        let cells = [
            template.number.to_string(),
            template.name.clone(),
            template.count.clone(),
            format!("{} × {}", unit.print_bare(said(size.x)), unit.print(said(size.y))),
            template.dough_name.clone(),
            pages,
        ];
        row(&mut flow, false, &COLUMNS, &[1, 2, 5], &cells);
    }
    flow
}

/// '4', '4–6', '4, 7–9'.
fn runs_of(pages: &[usize]) -> String {
    let said = |run: &[usize]| match run {
        [one] => one.to_string(),
        _ => format!("{}–{}", run[0], run[run.len() - 1]),
    };
    pages.chunk_by(|a, b| a + 1 == *b).map(said).collect::<Vec<_>>().join(", ")
}
