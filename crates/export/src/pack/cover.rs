//! The cover: what the house is, what the lines mean, which templates there are, and what to mind.

use super::clip::Window;
use super::label::arrow;
use super::sheet::{Heading, Sheet, scaled};
use super::template::Template;
use super::words::{LARGE, LEADING, PLAIN, fitted, wrapped};
use super::{Draft, PackOptions, overall, thicknesses, title};
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
pub(super) fn pages(about: &About<'_>, sheet: &Sheet, patterns: &[Draft]) -> Vec<Draft> {
    let mut flow = Flow::new(sheet);
    let owner = &about.house.owner;
    flow.paragraph(TITLE, true, &title(about.house));
    let mut facts = vec![format!("Overall {}", overall(about.solved)), thicknesses(about.solved, about.house)];
    if !owner.edition.is_empty() {
        facts.insert(0, format!("Edition {}", owner.edition));
    }
    flow.paragraph(PLAIN, false, &(facts.join(". ") + "."));
    for line in [&owner.credit, &owner.licence] {
        flow.paragraph(PLAIN, false, line);
    }
    flow.space(2.0);
    picture_and_legend(&mut flow, about);
    cautions(&mut flow);
    if !owner.notes.trim().is_empty() {
        flow.heading("Notes");
        owner.notes.lines().for_each(|line| flow.paragraph(PLAIN, false, line));
    }
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
        heading: Heading { what: format!("for paper {}", about.options.paper.name()), ..Heading::default() },
        templates: Vec::new(),
        bookmark: (k == 0).then(|| "Cover".to_owned()),
    };
    done.pages.into_iter().enumerate().map(draft).collect()
}

/// Items set from the top down over as many pages as it takes.
#[derive(Clone)]
struct Flow {
    room: Window,
    pages: Vec<Vec<Item>>,
    y: f64,
}

impl Flow {
    fn new(sheet: &Sheet) -> Self {
        Self { room: sheet.content, pages: vec![Vec::new()], y: sheet.content.high.y }
    }

    fn width(&self) -> f64 {
        self.room.size().x
    }

    /// Goes down by `height`, on the next page if this one is full, and gives the lower edge.
    fn take(&mut self, height: f64) -> f64 {
        if self.y - height < self.room.low.y && self.y < self.room.high.y {
            self.pages.push(Vec::new());
            self.y = self.room.high.y;
        }
        self.y -= height;
        self.y
    }

    fn space(&mut self, height: f64) {
        self.y -= height;
    }

    fn put(&mut self, item: impl Into<Item>) {
        if let Some(page) = self.pages.last_mut() {
            page.push(item.into());
        }
    }

    fn paragraph(&mut self, height: f64, bold: bool, text: &str) {
        for line in wrapped(text, height, bold, self.width()) {
            let y = self.take(height * LEADING) + height * (LEADING - 1.0) / 2.0;
            let at = P2::new(self.room.low.x, y);
            self.put(Text { bold, ..Text::note(at, height, Anchor::Start, line) });
        }
    }

    fn heading(&mut self, text: &str) {
        self.space(2.0);
        // Never alone at the foot of a page.
        if self.y - 25.0 < self.room.low.y {
            self.take(self.room.size().y);
            self.y = self.room.high.y;
        }
        self.paragraph(LARGE, true, text);
    }

    fn point(&mut self, text: &str) {
        let indent = 4.0;
        for (k, line) in wrapped(text, PLAIN, false, self.width() - indent).into_iter().enumerate() {
            let y = self.take(PLAIN * LEADING) + PLAIN * (LEADING - 1.0) / 2.0;
            if k == 0 {
                self.put(Text::note(P2::new(self.room.low.x, y), PLAIN, Anchor::Start, "•"));
            }
            self.put(Text::note(P2::new(self.room.low.x + indent, y), PLAIN, Anchor::Start, line));
        }
    }
}

fn picture_and_legend(flow: &mut Flow, about: &About<'_>) {
    let foot = flow.take(PICTURE);
    let x = flow.room.low.x;
    let split = x + flow.width() * PICTURE_SHARE;
    let space = Window { low: P2::new(x, foot), high: P2::new(split - 6.0, foot + PICTURE) };
    for item in picture(about, &space) {
        flow.put(item);
    }
    let guided = about.templates.iter().any(|t| !t.guides.is_empty());
    for item in legend(P2::new(split, foot + PICTURE), guided) {
        flow.put(item);
    }
}

/// The house in a space on the page, as large as it fits.
fn picture(about: &About<'_>, space: &Window) -> Vec<Item> {
    let view = View { board: false, ..View::from(Angle::degrees(32.0), Angle::degrees(24.0)) };
    let picture = gable_mesh::dressed_picture(about.solved, about.dressed, Pose::Standing, &view);
    let room = space.size();
    let scale = (room.x / picture.width).min(room.y / picture.height);
    if !scale.is_finite() {
        return Vec::new();
    }
    let corner = space.low + (room - V2::new(picture.width, picture.height) * scale) / 2.0;
    picture.items.iter().map(|item| scaled(item, scale, corner)).collect()
}

/// What lines and signs mean, from an upper left corner down.
fn legend(corner: P2, guided: bool) -> Vec<Item> {
    let mut sheet = Drawing::new(0.0, 0.0);
    let lines = [
        (LineRole::Edge, "cut here"),
        (LineRole::Pressed, "press in, do not cut through"),
        (LineRole::Hidden, "edge on the other face, bevelled"),
        (LineRole::Centre, "an edge with the same letter stands here"),
        (LineRole::Neighbour, "two sheets join: cut the paper"),
        (LineRole::Thin, "bars, marks, arrows, pointers"),
        (LineRole::Fine, "guide of tiles, bricks or boards"),
    ];
    let mut y = corner.y - LARGE;
    let heading = Text { bold: true, ..Text::note(P2::new(corner.x, y), LARGE, Anchor::Start, "What the lines mean") };
    sheet.push(heading);
    y -= 8.0;
    for (role, meaning) in lines.into_iter().filter(|(role, _)| guided || *role != LineRole::Fine) {
        let at = P2::new(corner.x, y);
        sheet.line(Layer::Notes, role, at, at + V2::new(SPECIMEN, 0.0));
        sheet.push(Text::note(at + V2::new(SPECIMEN + 4.0, -PLAIN / 2.0), PLAIN, Anchor::Start, meaning));
        y -= 5.6;
    }
    let signs = ["A", "A / C", "a"];
    let meanings = [
        "edges (or edge and line) of one letter meet",
        "letters of the pieces, in the order named",
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

fn cautions(flow: &mut Flow) {
    flow.heading("Before you cut");
    for text in [
        "Measure both bars on every sheet. If they are not as long as they say, print again at 100 % ('actual size'): \
         on a sheet printed at 97 % every piece is 3 % too small, and nothing closes.",
        "Order of work: 1. Cut the patterns out of the paper. 2. Roll out the dough, put baking paper on it, lay the \
         pattern on that, cut round it and lift both off. 3. Bake. 4. While the piece is warm, put baking paper and \
         pattern on it again and trim what has grown: the outlines are those of the finished biscuit.",
        "Ink and printed paper are not food: they never touch dough or biscuit, baking paper always lies between.",
        "The face that you see on the pattern is the one named on it; 'turned over' means the paper, not the good face.",
        "Raw dough holds raw flour and often raw egg: do not taste it, and wash hands, boards and knives.",
        "Trays and melted sugar burn, knives cut: keep children away from both.",
        "Where the house is shown, given away or sold, the local food rules come first.",
    ] {
        flow.point(text);
    }
}

/// Every template with its pages; `before` is the number of pages of the cover itself.
fn table(mut flow: Flow, about: &About<'_>, patterns: &[Draft], before: usize) -> Flow {
    flow.heading("Templates");
    row(&mut flow, true, &["No.", "Pieces", "Cut", "Size", "Dough", "Page"].map(String::from));
    let unit = about.solved.unit;
    for template in about.templates {
        let size = template.size;
        let said = |mm: f64| Length::mm_of(mm);
        let pages: Vec<usize> =
            (0..patterns.len()).filter(|k| patterns[*k].templates.contains(&template.number)).collect();
        let pages = match (pages.first(), pages.last()) {
            (Some(a), Some(b)) if a != b => format!("{}–{}", a + 1 + before, b + 1 + before),
            (Some(a), _) => (a + 1 + before).to_string(),
            _ => String::new(),
        };
        let cells = [
            template.number.to_string(),
            template.name.clone(),
            template.count.clone(),
            format!("{} × {}", unit.print_bare(said(size.x)), unit.print(said(size.y))),
            template.dough_name.clone(),
            pages,
        ];
        row(&mut flow, false, &cells);
    }
    flow
}

/// One row: the name and the count may take several lines, the other cells take one.
fn row(flow: &mut Flow, bold: bool, cells: &[String; 6]) {
    let width = flow.width();
    let end = |k: usize| COLUMNS.get(k + 1).copied().unwrap_or(1.0);
    let room = |k: usize| (end(k) - COLUMNS[k]) * width - 2.0;
    let wraps = |k: usize| k == 1 || k == 2;
    let lines: Vec<Vec<(String, f64)>> = cells
        .iter()
        .enumerate()
        .map(|(k, cell)| match wraps(k) {
            true => wrapped(cell, PLAIN, bold, room(k)).into_iter().map(|l| (l, PLAIN)).collect(),
            false => vec![fitted(cell, PLAIN, bold, room(k))],
        })
        .collect();
    let count = lines.iter().map(Vec::len).max().unwrap_or(1);
    let step = PLAIN * LEADING;
    let foot = flow.take(step * count as f64 + 0.8);
    let x = flow.room.low.x;
    for (k, cell) in lines.into_iter().enumerate() {
        for (n, (text, height)) in cell.into_iter().enumerate() {
            let y = foot + step * (count - n) as f64 - step + PLAIN * (LEADING - 1.0) / 2.0 + 0.4;
            let at = P2::new(x + COLUMNS[k] * width, y);
            flow.put(Text { bold, ..Text::note(at, height, Anchor::Start, text) });
        }
    }
    let line =
        gable_drawing::Stroke::polyline(Layer::Notes, LineRole::Thin, &[P2::new(x, foot), P2::new(x + width, foot)]);
    flow.put(line);
}
