//! Small pieces share pages: rectangles packed by guillotine cuts.

use super::lying::{Art, Lying, shift};
use super::sheet::Sheet;
use super::template::Template;
use gable_drawing::Item;
use gable_plane::V2;
use guillotiere::{AtlasAllocator, size2};

/// Space between two pieces, mm.
const BETWEEN: f64 = 4.0;
/// The packer counts in whole numbers: tenths of a mm.
const PER_MM: f64 = 10.0;

/// A template drawn both ways.
pub(super) struct Small<'a> {
    /// Which.
    pub(super) template: &'a Template,
    art: [Art; 2],
}

impl<'a> Small<'a> {
    /// Both ways of drawing a template.
    pub(super) fn new(template: &'a Template) -> Self {
        Self { template, art: [false, true].map(|turned| Lying::new(template, turned).whole()) }
    }

    /// Whether it fits a page in one of both ways.
    pub(super) fn fits(&self, sheet: &Sheet) -> bool {
        let room = sheet.content.size();
        self.art.iter().any(|art| art.size.x <= room.x && art.size.y <= room.y)
    }
}

/// Where a piece comes to lie.
#[derive(Clone, Copy, Debug)]
struct Spot {
    piece: usize,
    turned: bool,
    /// Upper left corner, from the upper left corner of the room, mm.
    corner: V2,
}

/// A packing: pages of spots.
type Packing = Vec<Vec<Spot>>;

/// The pieces on as few pages as the packer finds: numbers of the templates and what is drawn.
pub(super) fn packed(pieces: &[Small<'_>], sheet: &Sheet) -> Vec<(Vec<usize>, Vec<Item>)> {
    let room = sheet.content.size();
    let orders: [fn(V2) -> f64; 3] = [|s| s.y.max(s.x), |s| s.x * s.y, |s| s.y];
    let ways = [[false, false], [false, true], [true, false]];
    let tries = ways.iter().flat_map(|w| orders.iter().map(|o| pack_one_way(pieces, room, *o, *w)));
    let best = tries.flatten().min_by_key(Vec::len).unwrap_or_default();
    best.iter().map(|spots| drawn(pieces, sheet, spots)).collect()
}

fn whole(mm: f64) -> i32 {
    (mm * PER_MM).ceil().clamp(1.0, 1e8) as i32
}

/// Packs in one order, each piece in the first of two ways that finds room; `None` if one finds none on an empty page.
fn pack_one_way(pieces: &[Small<'_>], room: V2, order: fn(V2) -> f64, ways: [bool; 2]) -> Option<Packing> {
    // One gap more than the room, as every piece carries a gap at its right and lower side.
    let page = size2(whole(room.x + BETWEEN) - 1, whole(room.y + BETWEEN) - 1);
    let mut sorted: Vec<usize> = (0..pieces.len()).collect();
    sorted.sort_by(|&a, &b| order(pieces[b].art[0].size).total_cmp(&order(pieces[a].art[0].size)));
    let mut pages: Vec<(AtlasAllocator, Vec<Spot>)> = Vec::new();
    for piece in sorted {
        let found = pages.iter_mut().any(|(free, spots)| settle(free, spots, &pieces[piece], piece, ways));
        if !found {
            let mut fresh = (AtlasAllocator::new(page), Vec::new());
            if !settle(&mut fresh.0, &mut fresh.1, &pieces[piece], piece, ways) {
                return None;
            }
            pages.push(fresh);
        }
    }
    Some(pages.into_iter().map(|(_, spots)| spots).collect())
}

fn settle(free: &mut AtlasAllocator, spots: &mut Vec<Spot>, small: &Small<'_>, piece: usize, ways: [bool; 2]) -> bool {
    for turned in ways {
        let need = small.art[usize::from(turned)].size;
        let Some(got) = free.allocate(size2(whole(need.x + BETWEEN - 0.1), whole(need.y + BETWEEN - 0.1))) else {
            continue;
        };
        let corner = V2::new(f64::from(got.rectangle.min.x), f64::from(got.rectangle.min.y)) / PER_MM;
        spots.push(Spot { piece, turned, corner });
        return true;
    }
    false
}

fn drawn(pieces: &[Small<'_>], sheet: &Sheet, spots: &[Spot]) -> (Vec<usize>, Vec<Item>) {
    let mut items = Vec::new();
    for spot in spots {
        let art = &pieces[spot.piece].art[usize::from(spot.turned)];
        let low = V2::new(sheet.content.low.x + spot.corner.x, sheet.content.high.y - spot.corner.y - art.size.y);
        for item in &art.items {
            let mut item = item.clone();
            shift(&mut item, low);
            items.push(item);
        }
    }
    let mut numbers: Vec<usize> = spots.iter().map(|s| pieces[s.piece].template.number).collect();
    numbers.sort_unstable();
    (numbers, items)
}
