//! How long a hand reaches the inside of a joint.
//!
//! Space is divided into cells. A cell is free for the middle of a hand as long as nothing that stands is nearer than half
//! its thickness; the free cells that hang together with the outside are where the hand can be. A joint is reached from
//! inside when such a cell is no farther from its inner corner than fingers are long, with nothing in between.

use super::site::{Block, Site, half_way};
use gable_plane::{P3, V3};
use gable_shell::{JointEnd, JointKind, Solved};
use std::collections::BTreeMap;

/// Half the thickness of a hand with its fingers together, mm (an assumption).
const HAND: f64 = 25.0;
/// From the middle of the hand to the tips of the fingers, mm (an assumption).
const FINGERS: f64 = 90.0;
/// Edge of a cell, mm.
const CELL: f64 = 10.0;
/// Most cells along one axis; larger houses get larger cells.
const MOST: f64 = 64.0;
/// How far inside the faces of the pieces the inner corner of a joint is aimed at, mm.
const CLEAR: f64 = 2.0;

/// Per joint the last stage after which a hand still reaches it from inside: nothing if it never does once both ends
/// stand. The outer nothing is for joints without an inside.
pub(super) fn last_stages(site: &Site<'_>, when: &[usize], stages: usize) -> Vec<Option<Option<usize>>> {
    let room = Room::new(site, when);
    let shut_off = room.shut_off();
    let last = |j: usize| {
        let (target, sides) = inner_corner(site, j)?;
        let first = site.solved.joints[j].ends.iter().filter_map(piece).map(|k| when[k]).max()?;
        // The first stage in which nothing reaches it: never easier later on.
        let end = room.cells_near(&target, &sides).into_iter().fold(first, |end, (cell, middle)| {
            let dry = shut_off[cell].min(stages);
            if dry > end { end.max(dry.min(hidden(site, when, end, &middle, &target))) } else { end }
        });
        Some((end > first).then(|| end - 1))
    };
    (0..site.solved.joints.len()).map(last).collect()
}

/// Whether a hand reaches points in the house from outside when everything stands.
pub fn hand_reaches(solved: &Solved, points: &[P3]) -> Vec<bool> {
    let site = Site::new(solved, &[]);
    let when = vec![0; solved.pieces.len()];
    let room = Room::new(&site, &when);
    let open = room.shut_off();
    let free = |cell: usize| open[cell] == usize::MAX;
    let reached = |p: &P3| {
        let near = room.cells_near(p, &[]).into_iter().filter(|(cell, _)| free(*cell));
        near.into_iter().any(|(_, middle)| hidden(&site, &when, 0, &middle, p) == usize::MAX)
    };
    points.iter().map(reached).collect()
}

fn piece(end: &JointEnd) -> Option<usize> {
    if let JointEnd::Piece(k) = end { Some(*k) } else { None }
}

/// The inner corner of a joint at its middle, and the half-spaces on the inner sides of its pieces as point and normal.
fn inner_corner(site: &Site<'_>, joint: usize) -> Option<(P3, Vec<(P3, V3)>)> {
    let joint = &site.solved.joints[joint];
    if matches!(joint.kind, JointKind::Layer) {
        return None;
    }
    let ends: Vec<usize> = joint.ends.iter().filter_map(piece).collect();
    // The guest's inside, where pieces of two parts meet.
    let own = &site.piece(*ends.last()?).part;
    let middle = half_way(&joint.line[0], &joint.line[1]);
    let inward = |k: usize| {
        let out = site.outward(k);
        if &site.piece(k).part == own {
            return -out;
        }
        let other = ends.iter().find(|o| **o != k).map_or(middle, |o| site.middle(*o));
        if out.dot(&(other - site.middle(k))) > 0.0 { out } else { -out }
    };
    let mut target = middle;
    let mut sides = Vec::new();
    for &k in &ends {
        let normal = inward(k);
        // From wherever the line lies in the piece to its inner face, and a little beyond.
        let face = site.piece(k).corners().map(|p| normal.dot(&p.coords)).fold(f64::NEG_INFINITY, f64::max);
        let lift = (face - normal.dot(&target.coords)).max(0.0) + CLEAR;
        // Leaning planes push each other's target along; two rounds would be exact, one is near enough.
        target += normal * lift;
        sides.push((target, normal));
    }
    if ends.len() < joint.ends.len() {
        target.z = target.z.max(CLEAR);
    }
    let blocked = site.solids.iter().flatten().any(|block| block.outside(&target) < 0.0);
    (!blocked).then_some((target, sides))
}

/// The first stage in which something stands between two points; any that is not past `enough` when there is one.
fn hidden(site: &Site<'_>, when: &[usize], enough: usize, from: &P3, to: &P3) -> usize {
    let (low, high) = (from.coords.inf(&to.coords), from.coords.sup(&to.coords));
    let mut first = usize::MAX;
    for (blocks, &stage) in site.solids.iter().zip(when).filter(|(_, stage)| **stage < usize::MAX) {
        let between = |block: &Block| {
            let apart = (0..3).any(|a| block.high[a] < low[a] || block.low[a] > high[a]);
            !apart && block.crossed(from, to).is_some()
        };
        if stage < first && blocks.iter().any(between) {
            first = stage;
            if first <= enough {
                break;
            }
        }
    }
    first
}

/// The space round a house in cells.
struct Room {
    low: P3,
    cell: f64,
    count: [usize; 3],
    /// Per cell the stage from which no hand can be there.
    shut: Vec<usize>,
}

impl Room {
    fn new(site: &Site<'_>, when: &[usize]) -> Self {
        let far = (P3::from([f64::INFINITY; 3]), P3::from([f64::NEG_INFINITY; 3]));
        let (low, high) = site.solids.iter().flatten().fold(far, |(low, high), b| {
            (P3::from(low.coords.inf(&b.low.coords)), P3::from(high.coords.sup(&b.high.coords)))
        });
        if !(high - low).iter().all(|c| c.is_finite()) {
            return Self { low: P3::origin(), cell: CELL, count: [0; 3], shut: Vec::new() };
        }
        let around = V3::repeat(HAND + 2.0 * CELL);
        let (low, high) = (low - around, high + around);
        let cell = CELL.max((high - low).max() / MOST);
        let count = [0, 1, 2].map(|a| ((high[a] - low[a]) / cell).ceil() as usize + 1);
        let mut room = Self { low, cell, count, shut: vec![usize::MAX; count.iter().product()] };
        for k in 0..room.shut.len() {
            // No hand comes up through the table.
            if room.middle(k).z < HAND {
                room.shut[k] = 0;
            }
        }
        for (piece, blocks) in site.solids.iter().enumerate() {
            for block in blocks {
                room.shut_round(block, when[piece]);
            }
        }
        room
    }

    fn shut_round(&mut self, block: &Block, stage: usize) {
        let index = |x: f64, a: usize| (((x - self.low[a]) / self.cell).max(0.0) as usize).min(self.count[a] - 1);
        let from = [0, 1, 2].map(|a| index(block.low[a] - HAND, a));
        let to = [0, 1, 2].map(|a| index(block.high[a] + HAND, a) + 1);
        for x in from[0]..to[0].min(self.count[0]) {
            for y in from[1]..to[1].min(self.count[1]) {
                for z in from[2]..to[2].min(self.count[2]) {
                    let k = (z * self.count[1] + y) * self.count[0] + x;
                    if self.shut[k] > stage && block.outside(&self.middle(k)) < HAND {
                        self.shut[k] = stage;
                    }
                }
            }
        }
    }

    fn middle(&self, k: usize) -> P3 {
        let [nx, ny, _] = self.count;
        let at = V3::new((k % nx) as f64, (k / nx % ny) as f64, (k / (nx * ny)) as f64);
        self.low + at * self.cell
    }

    /// Per cell the first stage that, once done, lets no hand be there: the hand comes from the topmost corner through cells
    /// that are not shut. The way that stays open longest counts, so the cells are visited those first that do.
    fn shut_off(&self) -> Vec<usize> {
        let mut until = vec![0; self.shut.len()];
        let Some(start) = self.shut.len().checked_sub(1) else { return until };
        until[start] = usize::MAX;
        let mut open: BTreeMap<usize, Vec<usize>> = BTreeMap::from([(usize::MAX, vec![start])]);
        let [nx, ny, nz] = self.count;
        while let Some((stage, mut cells)) = open.pop_last() {
            while let Some(k) = cells.pop() {
                let (x, y, z) = (k % nx, k / nx % ny, k / (nx * ny));
                let near = [
                    (x > 0).then(|| k - 1),
                    (x + 1 < nx).then(|| k + 1),
                    (y > 0).then(|| k - nx),
                    (y + 1 < ny).then(|| k + nx),
                    (z > 0).then(|| k - nx * ny),
                    (z + 1 < nz).then(|| k + nx * ny),
                ];
                for next in near.into_iter().flatten() {
                    // Whatever was reached before stays open at least as long.
                    if until[next] == 0 && self.shut[next] > 0 {
                        until[next] = self.shut[next].min(stage);
                        if until[next] == stage {
                            cells.push(next)
                        } else {
                            open.entry(until[next]).or_default().push(next)
                        }
                    }
                }
            }
        }
        until
    }

    /// The cells from which fingers are long enough, on the inner side of the pieces; the nearest first.
    fn cells_near(&self, target: &P3, sides: &[(P3, V3)]) -> Vec<(usize, P3)> {
        if self.shut.is_empty() {
            return Vec::new();
        }
        let reach = FINGERS.max(1.5 * self.cell);
        let index = |x: f64, a: usize| (((x - self.low[a]) / self.cell).max(0.0) as usize).min(self.count[a] - 1);
        let from = [0, 1, 2].map(|a| index(target[a] - reach, a));
        let to = [0, 1, 2].map(|a| index(target[a] + reach, a) + 1);
        let mut found = Vec::new();
        for z in from[2]..to[2].min(self.count[2]) {
            for y in from[1]..to[1].min(self.count[1]) {
                for x in from[0]..to[0].min(self.count[0]) {
                    let k = (z * self.count[1] + y) * self.count[0] + x;
                    let middle = self.middle(k);
                    let inner = sides.iter().all(|(p, n)| n.dot(&(middle - p)) > -CLEAR);
                    let far = (middle - target).norm();
                    if inner && far <= reach {
                        found.push((far, k, middle));
                    }
                }
            }
        }
        found.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        found.into_iter().map(|(_, k, middle)| (k, middle)).collect()
    }
}
