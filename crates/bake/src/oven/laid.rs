//! Pieces laid on trays and on dough, by the crate that nests them.

use super::OnTray;
use crate::ToBake;
use gable_measure::Length;
use gable_nest::{Item, Job, Placed, Refused, Search, Sheet, Turns};
use gable_plane::{P2, V2, bounds};
use gable_shell::kitchen::Tray;

/// The search begins the same each time.
const SEED: u64 = 1;
/// Corners are rounded to this many steps of a millimetre, so that pieces of one shape are the same wherever they stand.
const FINENESS: f64 = 1e6;

/// What lies on which tray.
pub(super) struct Laid {
    /// Index of the tray, and on it the pieces by index.
    pub(super) sheets: Vec<(usize, Vec<(usize, OnTray)>)>,
    /// Pieces that fit on none.
    pub(super) too_large: Vec<usize>,
}

/// Lays pieces on as few trays as the search finds, so far from each other and half as far from the rim.
pub(super) fn on_trays(pieces: &[&ToBake], trays: &[Tray], space: Length) -> Laid {
    lay(pieces, trays, space, Turns::Quarter)
}

/// The same for dough, where everything keeps to the direction in which it is rolled.
pub(super) fn on_dough(pieces: &[&ToBake], sheet: &Tray, space: Length) -> Laid {
    lay(pieces, std::slice::from_ref(sheet), space, Turns::Half)
}

fn lay(pieces: &[&ToBake], trays: &[Tray], space: Length, turns: Turns) -> Laid {
    let mut left: Vec<usize> = (0..pieces.len()).collect();
    let mut too_large = Vec::new();
    let sheets: Vec<Sheet> =
        trays.iter().map(|t| Sheet::rectangle(inner(t.width, space), inner(t.depth, space))).collect();
    let items: Vec<Item> = pieces.iter().map(|p| Item::new(alone(p), turns)).collect();
    while !left.is_empty() {
        let items = left.iter().map(|k| items[*k].clone()).collect();
        match Job::new(items, sheets.clone(), space) {
            Ok(job) => {
                let search = Search::new(job, SEED);
                let filled = search.best().sheets.iter();
                let on = |p: &Placed| (left[p.item], placed(pieces[left[p.item]], p, space.mm() / 2.0));
                let sheets = filled.map(|f| (f.sheet, f.placed.iter().map(on).collect())).collect();
                return Laid { sheets, too_large };
            }
            Err(refused) => {
                let gone: Vec<usize> = refused.iter().filter_map(|r| Some(left[item_of(r)?])).collect();
                left.retain(|k| !gone.is_empty() && !gone.contains(k));
                too_large.extend(gone);
            }
        }
    }
    Laid { sheets: Vec::new(), too_large }
}

/// Room between the rims; a tray that is all rim keeps a little, on which nothing fits.
fn inner(side: Length, space: Length) -> Length {
    Length::mm_of((side.mm() - space.mm()).max(1.0))
}

/// The outline wherever it lies in its piece.
fn alone(one: &ToBake) -> Vec<P2> {
    let low = low(one);
    let even = |mm: f64| (mm * FINENESS).round() / FINENESS;
    one.outline.iter().map(|p| P2::from((p.coords - low).map(even))).collect()
}

fn low(one: &ToBake) -> V2 {
    bounds(&one.outline).map_or(V2::zeros(), |(low, _)| low.coords)
}

fn placed(one: &ToBake, place: &Placed, rim: f64) -> OnTray {
    let low = low(one);
    let at = |ring: &Vec<P2>| ring.iter().map(|p| place.sheet_from_item * (p - low) + V2::new(rim, rim)).collect();
    OnTray {
        id: one.id.clone(),
        name: one.name.clone(),
        mark: one.mark,
        template: one.template,
        outline: at(&one.outline),
        holes: one.holes.iter().map(at).collect(),
    }
}

fn item_of(refused: &Refused) -> Option<usize> {
    match refused {
        Refused::Item { item } | Refused::TooLarge { item } => Some(*item),
        Refused::NoSheet | Refused::Gap | Refused::Sheet { .. } => None,
    }
}
