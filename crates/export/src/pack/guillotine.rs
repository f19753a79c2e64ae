//! The baseline for shared pages: boxes packed by guillotine cuts.

use super::lying::Lying;
use super::place::BETWEEN;
use super::sheet::Sheet;
use super::template::Template;
use gable_plane::V2;
use guillotiere::{AtlasAllocator, size2};

/// The packer counts in whole numbers: tenths of a mm.
const PER_MM: f64 = 10.0;

/// Boxes of a template, upright and turned.
type Boxes = [V2; 2];

/// Pages for the templates whose boxes fit on one, and how many those are.
pub(super) fn pages(templates: &[Template], sheet: &Sheet) -> (usize, usize) {
    let room = sheet.content.size();
    let boxes = templates.iter().map(|t| [0, 1].map(|turns| Lying::new(t, turns).whole().size));
    let fits = |b: &Boxes| b.iter().any(|s| s.x <= room.x && s.y <= room.y);
    let boxes: Vec<Boxes> = boxes.filter(fits).collect();
    let orders: [fn(V2) -> f64; 3] = [|s| s.y.max(s.x), |s| s.x * s.y, |s| s.y];
    let ways = [[0, 0], [0, 1], [1, 0]];
    let tries = ways.iter().flat_map(|w| orders.iter().map(|o| pack_one_way(&boxes, room, *o, *w)));
    (tries.flatten().min().unwrap_or_default(), boxes.len())
}

fn whole(mm: f64) -> i32 {
    (mm * PER_MM).ceil().clamp(1.0, 1e8) as i32
}

/// Packs in one order, each box in the first of two ways that finds room; `None` if one finds none on an empty page.
fn pack_one_way(boxes: &[Boxes], room: V2, order: fn(V2) -> f64, ways: [usize; 2]) -> Option<usize> {
    // One gap more than the room, as every piece carries a gap at its right and lower side.
    let page = size2(whole(room.x + BETWEEN) - 1, whole(room.y + BETWEEN) - 1);
    let mut sorted = boxes.to_vec();
    sorted.sort_by(|a, b| order(b[0]).total_cmp(&order(a[0])));
    let mut pages: Vec<AtlasAllocator> = Vec::new();
    for sizes in sorted {
        if !pages.iter_mut().any(|free| settle(free, &sizes, ways)) {
            let mut fresh = AtlasAllocator::new(page);
            if !settle(&mut fresh, &sizes, ways) {
                return None;
            }
            pages.push(fresh);
        }
    }
    Some(pages.len())
}

fn settle(free: &mut AtlasAllocator, sizes: &Boxes, ways: [usize; 2]) -> bool {
    let need = ways.map(|way| sizes[way].map(|s| whole(s + BETWEEN - 0.1)));
    need.into_iter().any(|s| free.allocate(size2(s.x, s.y)).is_some())
}
