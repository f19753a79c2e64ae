//! Cutting a pane that no leaf covers, along its glazing bars where there are any.

use super::flat::{Area, overlaid};
use gable_plane::{P2, bounds};
use i_overlay::core::overlay_rule::OverlayRule;

/// What a pane is cut into.
pub(crate) struct Split {
    pub(crate) parts: Vec<Area>,
    /// A cut lies where no bar covers it.
    pub(crate) bare: bool,
}

/// Cuts an area into parts that a leaf of `leaf` (length, width) covers either way. `uprights` and `rails` are the places
/// of bars that can hide a cut.
pub(crate) fn split(pane: &Area, leaf: (f64, f64), uprights: &[f64], rails: &[f64]) -> Split {
    let Some((low, high)) = pane.first().and_then(bounds) else {
        return Split { parts: Vec::new(), bare: false };
    };
    let along = |(width, height): (f64, f64)| {
        let columns = cuts(low.x, high.x, width, uprights);
        let rows = cuts(low.y, high.y, height, rails);
        (columns, rows)
    };
    let count = |(columns, rows): &(Cuts, Cuts)| {
        let parts = (columns.at.len() + 1) * (rows.at.len() + 1);
        (usize::from(columns.bare || rows.bare), parts)
    };
    let ways = [along((leaf.1, leaf.0)), along((leaf.0, leaf.1))];
    let Some((columns, rows)) = ways.into_iter().min_by_key(count) else {
        return Split { parts: vec![pane.clone()], bare: false };
    };
    let bare = columns.bare || rows.bare;
    if columns.at.is_empty() && rows.at.is_empty() {
        return Split { parts: vec![pane.clone()], bare };
    }
    let ends = |cuts: &Cuts, low: f64, high: f64| {
        let mut all = vec![low - 1.0];
        all.extend(&cuts.at);
        all.push(high + 1.0);
        all
    };
    let (xs, ys) = (ends(&columns, low.x, high.x), ends(&rows, low.y, high.y));
    let mut parts = Vec::new();
    for row in ys.windows(2) {
        for column in xs.windows(2) {
            let cell = [(column[0], row[0]), (column[1], row[0]), (column[1], row[1]), (column[0], row[1])];
            let cell: Vec<P2> = cell.iter().map(|&(x, y)| P2::new(x, y)).collect();
            parts.extend(overlaid(pane, &[cell], OverlayRule::Intersect));
        }
    }
    Split { parts, bare }
}

struct Cuts {
    at: Vec<f64>,
    bare: bool,
}

/// The fewest cuts, each at a bar, that leave nothing longer than `most`; in equal parts where bars do not do it.
fn cuts(low: f64, high: f64, most: f64, bars: &[f64]) -> Cuts {
    /// A leaf is as long as it is said to be, mm.
    const SAME: f64 = 1e-6;
    let mut at = Vec::new();
    let mut from = low;
    while high - from > most + SAME {
        let reach = bars.iter().copied().filter(|b| *b > from + SAME && *b <= from + most + SAME);
        let Some(next) = reach.reduce(f64::max) else {
            let parts = ((high - low) / most).ceil().clamp(2.0, 1e4) as usize;
            let equal = (1..parts).map(|k| low + (high - low) * k as f64 / parts as f64);
            return Cuts { at: equal.collect(), bare: true };
        };
        at.push(next);
        from = next;
    }
    Cuts { at, bare: false }
}

#[cfg(test)]
mod tests {
    use super::super::flat;
    use super::*;

    fn block(width: f64, height: f64) -> Area {
        vec![[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(|(x, y)| P2::new(x, y)).to_vec()]
    }

    #[test]
    fn panes_are_cut_at_bars_and_only_when_they_must() {
        let fits = split(&block(200.0, 60.0), (230.0, 70.0), &[50.0, 100.0, 150.0], &[]);
        assert_eq!((fits.parts.len(), fits.bare), (1, false));
        let cut = split(&block(160.0, 120.0), (230.0, 70.0), &[40.0, 80.0, 120.0], &[60.0]);
        assert!(!cut.bare && cut.parts.len() == 2);
        let total: f64 = cut.parts.iter().map(|p| flat::area(p)).sum();
        assert!((total - 160.0 * 120.0).abs() < 1e-6);
        let bare = split(&block(160.0, 120.0), (230.0, 70.0), &[], &[]);
        assert!(bare.bare && bare.parts.len() == 2);
    }
}
