//! Boxes laid out on the table in rows, so that the whole is about as wide as it is deep.

use crate::travel::{Bounds, ROOM};
use gable_plane::V3;

/// How far each box moves, level, for all to lie in rows. The first one stays.
pub(crate) fn rows(boxes: &[Bounds]) -> Vec<V3> {
    // Deep ones first, so that a row wastes little; equal ones in their order.
    let mut order: Vec<usize> = (0..boxes.len()).collect();
    order.sort_by(|&a, &b| boxes[b].plan().1.total_cmp(&boxes[a].plan().1));
    let whole: f64 = boxes.iter().map(|b| b.plan().0 + ROOM).sum();
    let tries = (1..=boxes.len()).map(|count| shelved(boxes, &order, whole / count as f64));
    let longest = |layout: &(Vec<V3>, (f64, f64))| layout.1.0.max(layout.1.1);
    let best = tries.min_by(|a, b| longest(a).total_cmp(&longest(b)));
    let spots = best.map(|(spots, _)| spots).unwrap_or_default();
    let moved: Vec<V3> = std::iter::zip(&spots, boxes).map(|(spot, b)| spot - b.low.coords).collect();
    let first = moved.first().copied().unwrap_or_default();
    moved.iter().map(|m| V3::new(m.x - first.x, m.y - first.y, 0.0)).collect()
}

/// Lower left corners in rows that are not much wider than `width`, and the size of the whole. Rows follow each other
/// towards the front.
fn shelved(boxes: &[Bounds], order: &[usize], width: f64) -> (Vec<V3>, (f64, f64)) {
    let mut spots = vec![V3::zeros(); boxes.len()];
    let (mut x, mut top, mut depth, mut widest) = (0.0_f64, 0.0_f64, 0.0_f64, 0.0_f64);
    for &k in order {
        let (w, d) = boxes[k].plan();
        if x > 0.0 && x + w > width * 1.05 {
            (x, top, depth) = (0.0, top - depth - ROOM, 0.0);
        }
        spots[k] = V3::new(x, top - d, 0.0);
        x += w + ROOM;
        depth = depth.max(d);
        widest = widest.max(x - ROOM);
    }
    (spots, (widest, depth - top))
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::P3;

    #[test]
    fn nine_equal_boxes_are_three_rows_of_three_and_the_first_stays() {
        let boxes: Vec<Bounds> = (0..9)
            .map(|k| {
                let low = P3::new(f64::from(k) * 7.0, 5.0, 0.0);
                Bounds { low, high: low + V3::new(100.0, 100.0, 30.0) }
            })
            .collect();
        let moved = rows(&boxes);
        assert_eq!(moved[0], V3::zeros());
        let at: Vec<V3> = std::iter::zip(&boxes, &moved).map(|(b, m)| b.low.coords + m).collect();
        let reach = |axis: usize| {
            let all = at.iter().map(|p| p[axis]);
            all.clone().fold(f64::MIN, f64::max) - all.fold(f64::MAX, f64::min)
        };
        assert_eq!((reach(0), reach(1)), (224.0, 224.0));
        for a in 0..9 {
            for b in a + 1..9 {
                let gap = (at[a] - at[b]).abs();
                assert!(gap.x >= 112.0 - 1e-9 || gap.y >= 112.0 - 1e-9);
            }
        }
    }
}
