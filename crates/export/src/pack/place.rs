//! Small pieces share pages, nested by their outlines.

use super::footprint::footprint;
use super::lying::{Art, Lying, place, shift};
use super::sheet::Sheet;
use super::template::Template;
use gable_drawing::Item;
use gable_measure::Length;
use gable_nest as nest;
use gable_plane::{P2, V2, bounds, convex_hull, ring_area};
use nalgebra::{Isometry2, Rotation2};
use std::f64::consts::FRAC_PI_2;

/// Space between two pieces, mm.
pub(super) const BETWEEN: f64 = 4.0;
/// Lengths of a roll that are tried, over the least that the pieces' area asks for.
const ROLLED: [f64; 5] = [1.2, 1.35, 1.5, 1.75, 2.2];
/// The search begins the same each time.
const SEED: u64 = 1;
/// Rounds of the search when it may take its time. The pilot house needs 2117 for a page less.
const ROUNDS: usize = 2500;

/// A template as it is laid on shared pages.
pub(super) struct Small<'a> {
    /// Which.
    pub(super) template: &'a Template,
    /// One that may lie as it likes, or both that are drawn with words beside them; the one that takes less paper first.
    ways: Vec<Way>,
}

/// How much is done for fewer pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Care {
    /// The first layout; all words stand level.
    AtOnce,
    /// Words may be read from the right, and layouts on fewer pages are looked for.
    FewerPages,
}

/// A template drawn, and turned to the left by one right angle after the other as far as it may lie so. Letters and names
/// stand level, so each is drawn anew, and takes the same paper only where all words are inside. The others may be turned
/// to the left with their words, if these need not stand level.
struct Way {
    arts: Vec<Art>,
    /// All that is drawn lies in it.
    footprint: nest::Item,
}

impl Way {
    fn new(arts: Vec<Art>, care: Care) -> Self {
        let turns = match arts.len() {
            0 | 1 if care == Care::AtOnce => nest::Turns::None,
            0..=2 => nest::Turns::Left,
            _ => nest::Turns::Quarter,
        };
        Self { footprint: nest::Item::new(arts.first().map(footprint).unwrap_or_default(), turns), arts }
    }

    /// Area of all that is drawn, mm².
    fn area(&self) -> f64 {
        ring_area(self.footprint.outline())
    }

    fn fits(&self, room: V2) -> bool {
        self.arts.iter().any(|art| art.size.x <= room.x && art.size.y <= room.y)
    }

    /// What is drawn where the piece comes to lie.
    fn drawn(&self, on_page: &Isometry2<f64>) -> Vec<Item> {
        let quarters = (on_page.rotation.angle() / FRAC_PI_2).round().rem_euclid(4.0) as usize;
        let Some(first) = self.arts.first() else { return Vec::new() };
        // Drawn as it lies, or turned as it was drawn.
        let (art, left) = self.arts.get(quarters).map_or((first, quarters), |art| (art, 0));
        let turn = Rotation2::new(left as f64 * FRAC_PI_2);
        let here: Vec<P2> = first.faces.iter().flatten().map(|p| on_page * p).collect();
        let own: Vec<P2> = art.faces.iter().flatten().map(|p| turn * p).collect();
        let (Some((low, _)), Some((own, _))) = (bounds(&here), bounds(&own)) else { return Vec::new() };
        let by = Isometry2::new(low - own, turn.angle());
        let mut items = art.items.clone();
        items.iter_mut().for_each(|item| place(item, &by));
        items
    }
}

impl<'a> Small<'a> {
    /// Every way of laying a template.
    pub(super) fn new(template: &'a Template, care: Care) -> Self {
        let drawn = |turns: u8| Lying::new(template, turns).whole();
        let bare = |art: &Art| art.beside.is_empty();
        let mut arts = vec![drawn(0), drawn(1)];
        if arts.iter().all(bare) {
            arts.extend(Some([drawn(2), drawn(3)]).filter(|more| more.iter().all(bare)).into_iter().flatten());
            return Self { template, ways: vec![Way::new(arts, care)] };
        }
        let mut ways: Vec<Way> = arts.into_iter().map(|art| Way::new(vec![art], care)).collect();
        let paper = |way: &Way| ring_area(&convex_hull(way.footprint.outline()));
        ways.sort_by(|a, b| paper(a).total_cmp(&paper(b)));
        Self { template, ways }
    }

    /// The way to lay it in a room: the first that fits.
    fn way(&self, room: V2) -> Option<&Way> {
        self.ways.iter().find(|w| w.fits(room)).or(self.ways.first())
    }
}

/// Which small pieces lie on which page.
pub(super) struct Plan {
    sheet: Sheet,
    pages: Vec<Vec<(usize, Isometry2<f64>)>>,
    /// Pieces that fit on no page.
    pub(super) large: Vec<usize>,
}

impl Plan {
    /// The pieces on as few pages as the search finds.
    pub(super) fn new(pieces: &[Small<'_>], sheet: &Sheet, care: Care) -> Self {
        let mut plan = Self { sheet: *sheet, pages: Vec::new(), large: Vec::new() };
        let mut small: Vec<usize> = (0..pieces.len()).collect();
        while !small.is_empty() {
            match job(pieces, &small, sheet) {
                Ok(job) => {
                    plan.pages = laid(job, &small, care);
                    break;
                }
                Err(refused) => {
                    let gone: Vec<usize> = refused.iter().filter_map(|r| Some(small[item_of(r)?])).collect();
                    small.retain(|k| !gone.is_empty() && !gone.contains(k));
                    plan.large.extend(gone);
                }
            }
        }
        plan.large.sort_unstable();
        plan
    }

    /// The pieces on paper from a roll: on as many pages, and the less of each the better.
    pub(super) fn on_roll(pieces: &[Small<'_>], sheet: &Sheet) -> Self {
        let whole = Self::new(pieces, sheet, Care::AtOnce);
        let room = sheet.content.size();
        let area: f64 = pieces.iter().filter_map(|p| Some(p.way(room)?.area())).sum();
        let heights = ROLLED.iter().map(|more| more * area / room.x).filter(|h| *h < room.y);
        let plans = heights.map(|height| Self::new(pieces, &sheet.upper(height), Care::AtOnce));
        let as_good = |p: &Self| p.count() == whole.count() && p.large == whole.large;
        plans.into_iter().find(as_good).unwrap_or(whole)
    }

    /// How many pages small pieces take.
    pub(super) fn count(&self) -> usize {
        self.pages.len()
    }

    /// Numbers of the templates (of those that lie there more than once, as often) and what is drawn, page by page.
    pub(super) fn drawn(&self, pieces: &[Small<'_>]) -> Vec<(Vec<usize>, Vec<Item>)> {
        let low = self.sheet.content.low.coords;
        let page = |page: &Vec<(usize, Isometry2<f64>)>| {
            let mut numbers: Vec<usize> = page.iter().map(|(k, _)| pieces[*k].template.number).collect();
            numbers.sort_unstable();
            let way = |k: usize| pieces[k].way(self.sheet.content.size());
            let mut items: Vec<Item> =
                page.iter().filter_map(|(k, on_page)| Some(way(*k)?.drawn(on_page))).flatten().collect();
            items.iter_mut().for_each(|item| shift(item, low));
            (numbers, items)
        };
        self.pages.iter().map(page).collect()
    }
}

fn job(pieces: &[Small<'_>], small: &[usize], sheet: &Sheet) -> Result<nest::Job, Vec<nest::Refused>> {
    let room = sheet.content.size();
    let items = small.iter().filter_map(|k| Some(pieces[*k].way(room)?.footprint.clone())).collect();
    let paper = nest::Sheet::rectangle(Length::mm_of(room.x), Length::mm_of(room.y));
    nest::Job::new(items, vec![paper], Length::mm_of(BETWEEN))
}

/// A layout that was measured again; if it were wrong, each piece would come on a page of its own.
fn laid(job: nest::Job, small: &[usize], care: Care) -> Vec<Vec<(usize, Isometry2<f64>)>> {
    let mut search = nest::Search::new(job, SEED);
    if care == Care::FewerPages {
        search.improve(ROUNDS);
    }
    let layout = search.best();
    if !layout.faults(search.job()).is_empty() {
        let alone = |k: &usize| vec![(*k, Isometry2::identity())];
        return small.iter().map(alone).collect();
    }
    let page = |filled: &nest::Filled| filled.placed.iter().map(|p| (small[p.item], p.sheet_from_item)).collect();
    layout.sheets.iter().map(page).collect()
}

fn item_of(refused: &nest::Refused) -> Option<usize> {
    match refused {
        nest::Refused::Item { item } | nest::Refused::TooLarge { item } => Some(*item),
        nest::Refused::NoSheet | nest::Refused::Gap | nest::Refused::Sheet { .. } => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{all_templates, guillotine};
    use super::*;
    use crate::{PackOptions, Paper};
    use gable_shell::{demo, solve};

    fn templates(name: &str) -> Vec<Template> {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        all_templates(&solved, &gable_dress::dress(&house, &solved), &PackOptions::default())
    }

    fn sheet(paper: Paper, lying: bool) -> Sheet {
        Sheet::new(&PackOptions { paper, ..PackOptions::default() }, lying).unwrap()
    }

    /// Measured again in double precision by code that knows nothing of the search, and against the baseline: boxes
    /// packed by an independent library.
    #[test]
    fn shared_pages_are_sound_and_no_more_than_boxes_need() {
        for name in demo::names() {
            let templates = templates(name);
            let smalls: Vec<Small<'_>> = templates.iter().map(|t| Small::new(t, Care::AtOnce)).collect();
            for (paper, lying) in [(Paper::A4, false), (Paper::Letter, true)] {
                let sheet = sheet(paper, lying);
                let plan = Plan::new(&smalls, &sheet, Care::AtOnce);
                let fit: Vec<usize> = (0..smalls.len()).filter(|k| !plan.large.contains(k)).collect();
                let search = nest::Search::new(job(&smalls, &fit, &sheet).unwrap(), SEED);
                assert_eq!(search.best().faults(search.job()), [], "{name}");
                let mut found: Vec<usize> = plan.pages.iter().flatten().map(|(k, _)| *k).collect();
                found.sort_unstable();
                assert_eq!(found, fit, "{name}");
                let (pages, boxes) = guillotine::pages(&templates, &sheet);
                println!("{name}: {} pages, {pages} for {boxes} boxes", plan.count());
                assert!(fit.len() >= boxes && plan.count() <= pages, "{name}: {} {pages}", plan.count());
            }
        }
    }

    /// Every corner of the outline is drawn where the search laid it, and words are read from below or from the right.
    #[test]
    fn turned_pieces_are_drawn_where_they_lie() {
        use gable_drawing::{LineRole, Stroke};
        use gable_plane::Segment;
        let ends = |stroke: &Stroke| {
            let to = stroke.segments.iter().map(|(Segment::Line { to } | Segment::Arc { to, .. })| *to);
            std::iter::once(stroke.start).chain(to).collect::<Vec<P2>>()
        };
        let mut sideways = 0;
        for template in templates("boat-hut") {
            let small = Small::new(&template, Care::FewerPages);
            for way in &small.ways {
                let turns = if way.footprint.turns() == nest::Turns::Quarter { 4 } else { 2 };
                for quarter in 0..turns {
                    let on_page = Isometry2::new(V2::new(30.0, 40.0), f64::from(quarter) * FRAC_PI_2);
                    let drawn = way.drawn(&on_page);
                    let edges = drawn.iter().filter_map(|item| match item {
                        Item::Stroke(stroke) if stroke.role == LineRole::Edge => Some(ends(stroke)),
                        _ => None,
                    });
                    let corners: Vec<P2> = edges.flatten().collect();
                    for corner in way.arts[0].faces[0].iter().map(|p| on_page * p) {
                        let off = corners.iter().map(|c| (c - corner).norm()).fold(f64::INFINITY, f64::min);
                        assert!(off < 1e-9, "{}, quarter {quarter}: {off}", template.name);
                    }
                    for item in &drawn {
                        let Item::Text(text) = item else { continue };
                        let is_near = |turn: f64| (text.turn - turn).abs() < 1e-9;
                        assert!(is_near(0.0) || is_near(FRAC_PI_2), "{}: {}", text.text, text.turn);
                        sideways += usize::from(is_near(FRAC_PI_2));
                    }
                }
            }
        }
        assert!(sideways > 10, "{sideways}");
    }

    /// Pages, and how many the area of the small pieces fills: all that is drawn of each, words beside it included, with
    /// half the space round it that two pieces keep (area, perimeter and half space: the formula of Steiner, for the hull),
    /// over the room of a page grown alike.
    #[test]
    fn the_small_pieces_of_the_pilot_house_fill_their_pages() {
        let templates = templates("pilot-house");
        let smalls: Vec<Small<'_>> = templates.iter().map(|t| Small::new(t, Care::FewerPages)).collect();
        let mut best = (usize::MAX, 0.0);
        for lying in [false, true] {
            let sheet = sheet(Paper::A4, lying);
            let plan = Plan::new(&smalls, &sheet, Care::FewerPages);
            let room = sheet.content.size();
            let small: Vec<&Way> =
                (0..smalls.len()).filter(|k| !plan.large.contains(k)).filter_map(|k| smalls[k].way(room)).collect();
            let half = BETWEEN / 2.0;
            let taken = |w: &&Way| {
                let hull = gable_plane::Contour::polygon(&convex_hull(w.footprint.outline()));
                w.area() + hull.length() * half + std::f64::consts::PI * half * half
            };
            let filled = small.iter().map(taken).sum::<f64>() / ((room.x + BETWEEN) * (room.y + BETWEEN));
            println!("{} pages; {filled:.2} filled by {} pieces", plan.count(), small.len());
            best = if plan.count() < best.0 { (plan.count(), filled) } else { best };
        }
        let times = best.0 as f64 / best.1;
        assert!(times < 1.255, "{best:?}: {times:.3} times the pages that they fill");
    }
}
