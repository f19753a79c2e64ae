//! A first layout at once: large pieces first, each in the lowest free place of the first sheet that has one.

use crate::Job;
use crate::arena::{Arena, Spot};
use crate::pose::Pose;
use crate::sample::room;
use crate::shape::HAIR;
use fastrand::Rng;
use jagua_rs::geometry::primitives::{Rect, SPolygon};
use std::f32::consts::FRAC_PI_2;

/// Places tried for a piece on each sheet: at random, and its box in the corners of others' boxes.
const TRIED: usize = 150;
/// Turns tried of a piece that may be turned freely when its edges give too few: every 6 degrees.
const TURNS: usize = 60;
/// Orders tried beside the one by size, and how wrong sizes are taken for them.
const ORDERS: usize = 3;
pub(crate) const SHUFFLE: f32 = 0.8;
/// Steps across the free room when a piece is laid alone on a sheet.
const GRID: usize = 6;

/// Pieces on as many sheets as that takes: the best of a few orders, or the first that needs no more than `least` sheets.
pub(crate) fn first(job: &Job, least: usize, rng: &mut Rng) -> Arena {
    let paid = |arena: &Arena| arena.layout(job).sheets_paid(job);
    let mut best = in_order(job, 0.0, rng);
    for _ in 0..ORDERS {
        if paid(&best) <= least {
            break;
        }
        let other = in_order(job, SHUFFLE, rng);
        if paid(&other) < paid(&best) {
            best = other;
        }
    }
    best
}

/// Pieces laid one after the other, large ones first; sizes are taken up to a share wrong, for other orders.
pub(crate) fn in_order(job: &Job, wrong: f32, rng: &mut Rng) -> Arena {
    let counted = job.sheets().iter().enumerate().filter_map(|(k, s)| Some((k, s.at_most?)));
    let free: Vec<usize> =
        counted.flat_map(|(k, count)| std::iter::repeat_n(k, count.min(job.items().len()))).collect();
    let mut arena = Arena::new(job, &free);
    let size = |k: usize| job.shapes[k].weight * job.shapes[k].diameter();
    let mut order: Vec<(f32, usize)> =
        (0..job.items().len()).map(|k| (size(k) * (1.0 + wrong * (rng.f32() - 0.5)), k)).collect();
    order.sort_by(|a, b| b.0.total_cmp(&a.0));
    for (_, item) in order {
        let spot = (0..arena.boards()).find_map(|board| lowest(job, &arena, item, board, rng));
        let spot = spot.or_else(|| on_new_sheet(job, &mut arena, item));
        if let Some(spot) = spot {
            arena.put(job, item, spot);
        }
    }
    arena
}

fn on_new_sheet(job: &Job, arena: &mut Arena, item: usize) -> Option<Spot> {
    let (sheet, pose) = job.endless().find_map(|sheet| Some((sheet, alone(job, item, sheet)?)))?;
    arena.open(sheet, job.outers[sheet].polygon.clone());
    Some(Spot { board: arena.boards() - 1, pose })
}

/// A pose in which a piece lies alone on a sheet, low and to the left.
pub(crate) fn alone(job: &Job, item: usize, sheet: usize) -> Option<Pose> {
    let arena = Arena::new(job, &[sheet]);
    let mut copy = job.shapes[item].copy();
    for turn in turns(job, item) {
        let Some(inner) = room(&job.shapes[item], turn, arena.outer(0).bbox()) else { continue };
        for k in 0..GRID * GRID {
            let share = |k: usize| k as f32 / (GRID - 1) as f32;
            let x = inner.x_min + share(k % GRID) * (inner.x_max - inner.x_min);
            let y = inner.y_min + share(k / GRID) * (inner.y_max - inner.y_min);
            let pose = within(Pose { turn, x, y }, inner);
            job.shapes[item].lay(&mut copy, pose);
            if arena.is_free(item, &copy, 0) {
                return Some(pose);
            }
        }
    }
    None
}

/// A hair inside the room, since touching the rim is a collision for the library.
fn within(pose: Pose, inner: Rect) -> Pose {
    let hair = |low: f32, high: f32| (0.25 * (high - low)).min(2e-4);
    let (dx, dy) = (hair(inner.x_min, inner.x_max), hair(inner.y_min, inner.y_max));
    let x = pose.x.clamp(inner.x_min + dx, inner.x_max - dx);
    let y = pose.y.clamp(inner.y_min + dy, inner.y_max - dy);
    Pose { x, y, ..pose }
}

/// The turns worth trying, in order.
fn turns(job: &Job, item: usize) -> Vec<f32> {
    let shape = &job.shapes[item];
    if let Some(counted) = shape.turns.counted() {
        return counted.to_vec();
    }
    let level = shape.edges.iter().flat_map(|e| [-e, FRAC_PI_2 - e]);
    let others = (0..TURNS).map(|k| std::f32::consts::TAU * k as f32 / TURNS as f32);
    level.chain(others).collect()
}

/// The free place with the least reach to the right and up.
fn lowest(job: &Job, arena: &Arena, item: usize, board: usize, rng: &mut Rng) -> Option<Spot> {
    let shape = &job.shapes[item];
    let outer = arena.outer(board).bbox();
    let turns: Vec<f32> = turns(job, item).into_iter().take(12).collect();
    let rooms: Vec<(f32, Rect)> = turns.iter().filter_map(|t| Some((*t, room(shape, *t, outer)?))).collect();
    if rooms.is_empty() {
        return None;
    }
    let boxes: Vec<Rect> = arena.on(board).filter_map(|(k, _)| Some(arena.shape(k)?.bbox())).collect();
    let mut copy = shape.copy();
    let mut best: Option<(f32, Pose)> = None;
    for k in 0..TRIED {
        let (turn, inner) = rooms[k % rooms.len()];
        let pose = within(candidate(k, turn, inner, &boxes, outer, rng), inner);
        shape.lay(&mut copy, pose);
        let reach = reach(&copy, outer);
        if best.is_none_or(|(least, _)| reach < least) && arena.is_free(item, &copy, board) {
            best = Some(settled(job, arena, (item, board), pose, inner));
        }
    }
    best.map(|(_, pose)| Spot { board, pose })
}

/// In a corner of the room, beside the box of a piece that lies there, or anywhere.
fn candidate(k: usize, turn: f32, inner: Rect, boxes: &[Rect], outer: Rect, rng: &mut Rng) -> Pose {
    let any = |low: f32, high: f32, rng: &mut Rng| low + rng.f32() * (high - low);
    if k < 8 || boxes.is_empty() {
        let x = if k.is_multiple_of(2) { inner.x_min } else { inner.x_max };
        let y = if (k / 2).is_multiple_of(2) { inner.y_min } else { inner.y_max };
        return Pose { turn, x, y };
    }
    let beside = boxes[rng.usize(..boxes.len())];
    let hair = HAIR as f32 / 2.0;
    // How far the origin is from the left and lower side of the shape's box.
    let (left, low) = (inner.x_min - outer.x_min, inner.y_min - outer.y_min);
    let (x, y) = match rng.u8(..4) {
        0 => (beside.x_max + left + hair, beside.y_min + low),
        1 => (beside.x_min + left, beside.y_max + low + hair),
        2 => (any(inner.x_min, inner.x_max, rng), inner.y_min),
        _ => (any(inner.x_min, inner.x_max, rng), any(inner.y_min, inner.y_max, rng)),
    };
    Pose { turn, x, y }
}

/// How far a shape reaches over its sheet, to the right more than up.
fn reach(shape: &SPolygon, outer: Rect) -> f32 {
    let b = shape.bbox();
    (b.x_max - outer.x_min) + 0.3 * (b.y_max - outer.y_min)
}

/// The pose slid left and down as far as it goes, by ever smaller steps.
fn settled(job: &Job, arena: &Arena, at: (usize, usize), pose: Pose, inner: Rect) -> (f32, Pose) {
    let shape = &job.shapes[at.0];
    let mut copy = shape.copy();
    let mut best = pose;
    let mut step = 0.5 * shape.diameter();
    while step > 0.05 {
        let mut moved = false;
        for (x, y) in [(-step, 0.0), (0.0, -step)] {
            let next = within(best.moved(x, y), inner);
            shape.lay(&mut copy, next);
            if next != best && arena.is_free(at.0, &copy, at.1) {
                best = next;
                moved = true;
            }
        }
        if !moved {
            step *= 0.5;
        }
    }
    shape.lay(&mut copy, best);
    (reach(&copy, arena.outer(at.1).bbox()), best)
}
