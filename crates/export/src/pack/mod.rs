//! The printed set: a cover and the patterns of every piece at true scale.

mod bake;
mod biscuits;
mod board;
mod calibration;
mod clip;
mod closing;
mod cover;
mod days;
mod each;
mod flow;
mod footprint;
mod gauges;
mod ground;
mod grown;
mod guide;
#[cfg(test)]
mod guillotine;
mod label;
mod lying;
mod making;
mod mockup;
mod ornaments;
mod patterns;
mod place;
mod ruler;
mod runs;
mod section;
mod sheet;
mod single;
mod stage_words;
mod stand;
mod tables;
mod takes;
mod template;
mod tile;
mod travel;
mod view;
mod words;

use crate::store::HOUSE_ENDING;
use crate::{DocInfo, Enclosure, Margins, Page, Paper, PdfError, Purpose, Spread, Way, file_name, write_pdf};
pub use board::board_size;
use gable_bake::Notebook;
use gable_drawing::Item;
use gable_dress::Dressed;
use gable_measure::{Length, Severity, Unit};
use gable_shell::kitchen::Kitchen;
use gable_shell::{Dough, House, Solved};
use gable_words::tr;
use jiff::civil::DateTime;
use patterns::patterns;
use rayon::prelude::*;
pub use section::{MockUpSize, Section, Sections};
use sheet::{Heading, Sheet, Stamp};
pub use single::{TemplateDrawing, template_drawings};
pub use stage_words::stage_words;
use std::borrow::Cow;
use template::Template;
use thiserror::Error;
pub(crate) use view::seen_from_outside;

/// What a person chooses about the pack.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PackOptions {
    /// Which pages there are.
    pub sections: Sections,
    /// Whom it is for.
    pub purpose: Purpose,
    /// What it is printed on.
    pub paper: Paper,
    /// What the printer cannot reach.
    pub margins: Margins,
    /// Whether the guides of finishes (courses, joints, boards) are left out.
    pub without_guides: bool,
    /// Whether the patterns of what is baked already are left out.
    pub without_baked: bool,
    /// How large the paper mock-up is.
    pub mock_up: MockUpSize,
    /// Whether there is a pattern for every single piece, not one for all that are alike.
    pub every_piece: bool,
    /// Whether fewer pattern pages are looked for, which takes a quarter of a minute or so; words may then be read from the right.
    /// Paper from a roll is laid the same way without it.
    pub fewer_pages: bool,
}

impl PackOptions {
    /// Width and height of the upright page that patterns can fill.
    ///
    /// # Errors
    /// When the margins are no lengths, or leave too little of the page, upright or lying.
    pub fn room(&self) -> Result<(Length, Length), PackError> {
        let upright = Sheet::new(self, false)?.content.size();
        Sheet::new(self, true)?;
        Ok((Length::mm_of(upright.x), Length::mm_of(upright.y)))
    }
}

/// Why there is no pack.
#[derive(Debug, Error)]
pub enum PackError {
    /// The checks found what cannot be built.
    #[error("{}", tr!(
        "one finding must be put right before a pack can be printed; 'check' lists it"
            | "{n} findings must be put right before a pack can be printed; 'check' lists them" % .0
    ))]
    Blocking(usize),
    /// There is nothing to print.
    #[error("{}", tr!("the house has no pieces; give it a part with walls or a roof"))]
    NoPieces,
    /// No section is chosen.
    #[error("{}", tr!("nothing is chosen for the pack; choose at least one kind of page"))]
    Nothing,
    /// A house to share that still holds what somebody baked.
    #[error("{}", tr!("a pack to share is made of the house as planned, and this one holds what has been baked of it"))]
    Baked,
    /// A margin is negative or no number.
    #[error("{}", tr!("margins must be lengths of 0 or more"))]
    Margins,
    /// Margins and strips leave too little of the page.
    #[error("{}", tr!("the margins leave {width:.0} × {height:.0} mm for patterns; at least {least:.0} mm each way are needed"))]
    NoRoom {
        /// What is left, mm.
        width: f64,
        /// What is left, mm.
        height: f64,
        /// What it takes, mm.
        least: f64,
    },
    /// A piece is far larger than anything that is baked.
    #[error("{}", tr!("{name}: {tiles} sheets of paper for one piece are too many, {most} at most; is a size in the wrong unit?"))]
    TooLarge {
        /// Which piece.
        name: String,
        /// How many sheets it would take.
        tiles: usize,
        /// How many are allowed.
        most: usize,
    },
    /// The file could not be written.
    #[error(transparent)]
    Pdf(#[from] PdfError),
}

/// A page before it is known how many there are.
struct Draft {
    sheet: Sheet,
    items: Vec<Item>,
    heading: Heading,
    /// Numbers of the templates on it.
    templates: Vec<usize>,
    bookmark: Option<String>,
    /// Whether it is the first of all.
    is_cover: bool,
}

/// What a person bakes with and has written down, for the bake plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Baker {
    /// Their trays.
    pub kitchen: Kitchen,
    /// Their recipes and figures, hours, and what is done.
    pub notebook: Notebook,
    /// Other houses that are baked with the house in question, and how many of each.
    pub others: Vec<(House, usize)>,
    /// The moment of asking, from which on days are planned; without it none are.
    pub now: Option<DateTime>,
}

/// The pages of the pack: cover, shared pages, tiled pages; the bake plan with usual recipes on a usual tray.
pub fn pack(solved: &Solved, house: &House, options: &PackOptions) -> Result<Vec<Page>, PackError> {
    pack_for(solved, house, options, &Baker::default())
}

/// The pages of the pack, with the bake plan of one person. A pack to share holds nobody's kitchen.
pub fn pack_for(solved: &Solved, house: &House, options: &PackOptions, baker: &Baker) -> Result<Vec<Page>, PackError> {
    let anybody = Baker::default();
    let baker = if options.purpose == Purpose::Share { &anybody } else { baker };
    let blocking = solved.findings.iter().filter(|f| f.severity == Severity::Blocking).count();
    if blocking > 0 {
        return Err(PackError::Blocking(blocking));
    }
    if options.sections.is_empty() {
        return Err(PackError::Nothing);
    }
    if options.purpose == Purpose::Share && !house.baked.is_empty() {
        return Err(PackError::Baked);
    }
    // A roll lies one way only.
    let sheets = [Sheet::new(options, false)?, Sheet::new(options, !options.paper.is_endless())?];
    if solved.groups.is_empty() {
        return Err(PackError::NoPieces);
    }
    let dressed = gable_dress::dress(house, solved);
    let templates = all_templates(solved, &dressed, options);
    let about = cover::About { solved, house, dressed: &dressed, options, templates: &templates };
    let drafts = making::Making { about, sheets: &sheets, baker }.drafts()?;
    Ok(finished(drafts, &stamp(solved, house, options), options.paper.is_endless()))
}

/// The templates as they are printed: of all pieces if wanted, and for dough that spreads.
fn printed(about: &cover::About<'_>) -> Vec<Template> {
    let options = about.options;
    let mut templates = about.templates.to_vec();
    if options.every_piece {
        templates = each::every_piece(&templates, about.solved, about.dressed, !options.without_guides);
        templates.retain(|t| !(options.without_baked && t.baked));
    }
    match options.purpose.spread() {
        None => templates,
        Some(spread) => templates.into_iter().map(|t| t.spread(&spread)).collect(),
    }
}

/// One template for each shape: pieces, doors, panes, ornaments.
fn all_templates(solved: &Solved, dressed: &Dressed, options: &PackOptions) -> Vec<Template> {
    let mut templates: Vec<Template> = Vec::new();
    let mut others: Vec<Template> = Vec::new();
    for group in &solved.groups {
        let template = Template::of_group(solved, group).into_iter();
        let mut made = template.flat_map(|t| t.with_lines(solved, dressed, group, !options.without_guides));
        templates.extend(made.next());
        others.extend(made);
    }
    for other in others {
        let number = next_number(&templates);
        templates.push(Template { number, ..other });
    }
    let next = next_number(&templates);
    templates.extend(closing::doors(dressed, solved, next));
    let next = next_number(&templates);
    templates.extend(closing::panes(dressed, solved, next));
    let next = next_number(&templates);
    templates.extend(ornaments::templates(dressed, solved.unit, next));
    if options.without_baked {
        templates.retain(|t| !t.baked);
    }
    templates
}

/// Pages of what is cut of paper or card and is no template of a piece.
fn others(templates: &[Template], sheets: &[Sheet; 2], title: &str) -> Result<Vec<Draft>, PackError> {
    let mut drafts = if templates.is_empty() { Vec::new() } else { patterns(templates, sheets, false)? };
    for (k, draft) in drafts.iter_mut().enumerate() {
        draft.templates.clear();
        draft.bookmark = (k == 0).then(|| title.to_owned());
        draft.heading.what = draft.heading.what.replace("templates", title).replace("template", title);
    }
    Ok(drafts)
}

/// The house that a pack is made of: to share, as it was planned, without what anybody has baked.
pub fn house_for<'a>(house: &'a House, options: &PackOptions) -> Cow<'a, House> {
    if options.purpose == Purpose::Share && !house.baked.is_empty() {
        Cow::Owned(House { baked: Vec::new(), ..house.clone() })
    } else {
        Cow::Borrowed(house)
    }
}

/// What the level and the upright bar of the calibration page must measure on the page.
///
/// # Errors
/// As [`PackOptions::room`].
pub fn calibration_bars(options: &PackOptions, unit: Unit) -> Result<(Length, Length), PackError> {
    let bars = calibration::lengths(&Sheet::new(options, false)?, unit);
    Ok((Length::mm_of(bars.x), Length::mm_of(bars.y)))
}

fn next_number(templates: &[Template]) -> usize {
    templates.iter().map(|t| t.number + 1).max().unwrap_or(1)
}

/// The pack as a PDF.
pub fn pack_pdf(solved: &Solved, house: &House, options: &PackOptions) -> Result<Vec<u8>, PackError> {
    pack_pdf_for(solved, house, options, &Baker::default())
}

/// The same with the bake plan of one person.
pub fn pack_pdf_for(
    solved: &Solved,
    house: &House,
    options: &PackOptions,
    baker: &Baker,
) -> Result<Vec<u8>, PackError> {
    let owner = &house.owner;
    let info = DocInfo {
        title: title(house),
        author: owner.credits(),
        subject: "Patterns of a gingerbread house at true scale".into(),
        keywords: vec!["gingerbread".into(), "pattern".into(), options.paper.to_string()],
        rights: owner.licence.clone(),
        enclosure: Some(Enclosure {
            name: file_name(&title(house)) + HOUSE_ENDING,
            about: "The house itself; Gablewright opens this PDF as a house".into(),
            text: gable_shell::file::write(house),
        }),
    };
    Ok(write_pdf(&pack_for(solved, house, options, baker)?, &info)?)
}

fn title(house: &House) -> String {
    let title = house.owner.title.trim();
    if title.is_empty() { "House without a title".into() } else { title.into() }
}

fn finished(drafts: Vec<Draft>, stamp: &Stamp, endless: bool) -> Vec<Page> {
    let total = drafts.len();
    let page = |(k, mut draft): (usize, Draft)| {
        if endless {
            (draft.sheet, draft.items) = draft.sheet.cut_to(draft.items);
        }
        let number = format!("page {} of {total}", k + 1);
        let label = if draft.is_cover { "cover".into() } else { (k + 1).to_string() };
        let drawing = draft.sheet.page(draft.items, stamp, &number, &draft.heading);
        Page { drawing, label, bookmark: draft.bookmark }
    };
    drafts.into_par_iter().enumerate().map(page).collect()
}

/// What stands on every page.
fn stamp(solved: &Solved, house: &House, options: &PackOptions) -> Stamp {
    let owner = &house.owner;
    let mut first = vec![title(house)];
    if !owner.edition.is_empty() {
        first.push(format!("edition {}", owner.edition));
    }
    first.push(format!("overall {}", overall(solved)));
    let printer = options.purpose.printer();
    if !printer.is_true() {
        let percent = |share: f64| (share * 1000.0).round() / 10.0;
        let (across, along) = (percent(printer.across()), percent(printer.along()));
        first.push(format!("corrected for one printer ({across} % across, {along} % along)"));
    }
    if let Some(spread) = options.purpose.spread() {
        first.push(spread_in_short(&spread, solved.unit));
    }
    let second =
        format!("Print at 100 % ('actual size'), not 'fit to page'.  {}.", thicknesses_in_short(solved, house));
    let made = "made with Gablewright".to_owned();
    let third = [owner.credits(), owner.licence.clone(), made].into_iter().filter(|t| !t.is_empty());
    let lines = [first.join("  ·  "), second, third.collect::<Vec<_>>().join("  ·  ")];
    Stamp { lines, unit: solved.unit }
}

/// What a page says about dough that spreads.
fn spread_in_short(spread: &Spread, unit: Unit) -> String {
    let words = spread.words(unit);
    match spread.way {
        Way::CutOnce => format!("PATTERNS CUT SMALLER for one oven: dough grows by {words}"),
        Way::TrimWarm => format!("trim warm, for one oven: dough grows by {words}"),
    }
}

/// Width, depth and height of the finished house, roof included.
fn overall(solved: &Solved) -> String {
    let [width, depth, height] = solved.overall().unwrap_or([Length::ZERO; 3]);
    let bare = |length| solved.unit.print_bare(length);
    format!("{} × {} × {}", bare(width), bare(depth), solved.unit.print(height))
}

/// Rolled and baked thickness of every dough that is used.
fn thicknesses(solved: &Solved, house: &House) -> String {
    let said = used_doughs(solved, house).map(|d| {
        let baked = baked(solved, d, |l| solved.unit.print(l));
        format!("Dough '{}': rolled {}, baked {baked}", d.id.0, solved.unit.print(d.rolled))
    });
    said.collect::<Vec<_>>().join("; ")
}

/// The same on one line: 'Dough (mm), rolled and baked: walls 5 and 6.3; roofs 5 and 6'.
fn thicknesses_in_short(solved: &Solved, house: &House) -> String {
    let bare = |length| solved.unit.print_bare(length);
    let said = used_doughs(solved, house)
        .map(|d| format!("{} {} and {}", d.id.0, bare(d.rolled), baked(solved, d, |l| solved.unit.print_bare(l))));
    let unit = if solved.unit == Unit::Millimetre { "mm" } else { "in" };
    format!("Dough ({unit}), rolled and baked: {}", said.collect::<Vec<_>>().join("; "))
}

/// How thick a dough is once it is baked: what is planned for what is not, and what came out where that was measured.
fn baked(solved: &Solved, dough: &Dough, print: impl Fn(Length) -> String) -> String {
    let own = solved.pieces.iter().filter(|p| p.dough == dough.id);
    let mut said: Vec<String> = Vec::new();
    for piece in own.clone().filter(|p| !p.baked).chain(own.filter(|p| p.baked)) {
        let planned = (piece.thickness - dough.baked()).mm().abs() < 1e-9;
        let words = print(piece.thickness);
        let words = if planned { words } else { format!("{words} as it came out") };
        if !said.contains(&words) {
            said.push(words);
        }
    }
    said.join(", ")
}

fn used_doughs<'a>(solved: &'a Solved, house: &'a House) -> impl Iterator<Item = &'a Dough> {
    house.doughs.iter().filter(|d| solved.pieces.iter().any(|p| p.dough == d.id))
}

/// a … z, aa, ab … from the letter `first`.
fn letters(index: usize, first: u8) -> String {
    let (mut rest, mut text) = (index, String::new());
    loop {
        text.insert(0, char::from(first + (rest % 26) as u8));
        if rest < 26 {
            return text;
        }
        rest = rest / 26 - 1;
    }
}

#[cfg(test)]
pub(crate) mod sample;
#[cfg(test)]
mod tests;
