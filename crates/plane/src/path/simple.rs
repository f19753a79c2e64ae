//! Whether an outline goes round once.

use super::{PathError, SvgPath};
use crate::{P2, V2};

/// Longer side of the box in which an outline is looked at, mm.
const SIZE: f64 = 100.0;
/// How closely arcs are followed there, mm.
const LOOK: f64 = 0.01;
/// Edges nearer than this touch, mm.
const TOUCH: f64 = 1e-4;

pub(super) fn check(path: &SvgPath) -> Result<(), PathError> {
    let size = path.high - path.low;
    let scale = SIZE / size.max();
    let contours = path.as_drawn(P2::origin(), P2::from(size * scale));
    let contour = contours.first().ok_or(PathError::Empty)?;
    let mut ring = contour.flatten(LOOK);
    ring.dedup_by(|a, b| (*a - *b).norm() < TOUCH);
    while ring.len() > 1 && (ring[0] - ring[ring.len() - 1]).norm() < TOUCH {
        ring.pop();
    }
    match meeting(&ring) {
        None if contour.area().abs() < SIZE * TOUCH => Err(PathError::Empty),
        None => Ok(()),
        Some(p) => {
            let drawn: V2 = path.low.coords + p.coords / scale;
            // Adding nought turns -0 into 0.
            Err(PathError::Crosses(P2::new(drawn.x, 0.0 - drawn.y)))
        }
    }
}

/// Where two edges of a ring meet that do not follow each other, or one runs back along the last.
fn meeting(ring: &[P2]) -> Option<P2> {
    let count = ring.len();
    let edge = |k: usize| [ring[k], ring[(k + 1) % count]];
    let mut order: Vec<usize> = (0..count).collect();
    let least = |k: usize| edge(k)[0].x.min(edge(k)[1].x);
    let most = |k: usize| edge(k)[0].x.max(edge(k)[1].x);
    order.sort_by(|a, b| least(*a).total_cmp(&least(*b)));
    let mut open: Vec<usize> = Vec::new();
    for k in order {
        open.retain(|j| most(*j) >= least(k) - TOUCH);
        for j in &open {
            let (first, last) = (k.min(*j), k.max(*j));
            let follows = last == first + 1 || (first == 0 && last == count - 1);
            let met = if follows {
                let (one, next) = if last == first + 1 { (first, last) } else { (last, first) };
                back(edge(one), edge(next))
            } else {
                touch(edge(first), edge(last))
            };
            if met.is_some() {
                return met;
            }
        }
        open.push(k);
    }
    None
}

/// The corner between an edge and the next one, when that runs straight back.
fn back([a, b]: [P2; 2], [_, c]: [P2; 2]) -> Option<P2> {
    let (one, next) = ((b - a).normalize(), (c - b).normalize());
    (one.dot(&next) < 0.0 && one.perp(&next).abs() < 1e-9).then_some(b)
}

fn touch(one: [P2; 2], other: [P2; 2]) -> Option<P2> {
    let side = |[a, b]: [P2; 2], p: P2| (b - a).perp(&(p - a));
    let splits = |e: [P2; 2], f: [P2; 2]| side(e, f[0]) * side(e, f[1]) < 0.0;
    if splits(one, other) && splits(other, one) {
        let (from, to) = (side(one, other[0]), side(one, other[1]));
        return Some(other[0] + (other[1] - other[0]) * (from / (from - to)));
    }
    let near = |[a, b]: [P2; 2], p: P2| {
        let along = b - a;
        let share = ((p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        ((p - (a + along * share)).norm() < TOUCH).then_some(p)
    };
    let ends = other.map(|p| near(one, p)).into_iter().chain(one.map(|p| near(other, p)));
    ends.flatten().next()
}
