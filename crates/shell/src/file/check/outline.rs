use super::sizes::Sizes;
use crate::Outline;
use crate::file::limits;
use gable_measure::Length;
use gable_plane::{P2, bounds, ring_area};
use gable_words::tr;
use std::f64::consts::TAU;

/// Notes what is wrong; true when nothing is.
pub(super) fn check(outline: &Outline, path: &str, sizes: &mut Sizes) -> bool {
    let before = sizes.noted.len();
    let at = |key: &str| format!("{path}.{key}");
    let (smallest, largest) = (limits::SMALLEST_PART, limits::LARGEST_PART);
    match outline {
        Outline::Rectangle { width, depth } => {
            sizes.check(&at("width"), *width, smallest, largest);
            sizes.check(&at("depth"), *depth, smallest, largest);
        }
        Outline::Polygon { sides, side } => {
            count(*sides, limits::FEWEST_SIDES, limits::MOST_SIDES, &at("sides"), sizes);
            sizes.check(&at("side"), *side, limits::SHORTEST_SIDE, largest);
        }
        Outline::HalfPolygon { sides, width } => {
            count(*sides, limits::FEWEST_BAY_SIDES, limits::MOST_BAY_SIDES, &at("sides"), sizes);
            sizes.check(&at("width"), *width, smallest, largest);
        }
        Outline::Free { corners } => free(corners, &at("corners"), sizes),
    }
    if sizes.noted.len() == before {
        whole(outline, path, sizes);
    }
    sizes.noted.len() == before
}

fn count(sides: u8, fewest: u8, most: u8, path: &str, sizes: &mut Sizes) {
    if !(fewest..=most).contains(&sides) {
        sizes.note(path, tr!("it can have {fewest} to {most} sides, not {sides}"), "");
    }
}

/// Sizes that follow from what was typed.
fn whole(outline: &Outline, path: &str, sizes: &mut Sizes) {
    let corners = outline.corners();
    let Some((low, high)) = bounds(&corners) else { return };
    let (widest, narrowest) = ((high - low).max(), narrowest(outline));
    // The rectangle's own sizes are within bounds already.
    let slack = 1e-9;
    if widest > limits::LARGEST_PART.mm() + slack {
        let what = tr!("it is {} across, more than 3 m", sizes.shown(Length::mm_of(widest)));
        sizes.note(path, what, tr!("is the unit right?"));
    } else if narrowest < limits::SMALLEST_PART.mm() - slack {
        let what = tr!("it is only {} across, less than 5 mm", sizes.shown(Length::mm_of(narrowest)));
        sizes.note(path, what, tr!("is the unit right?"));
    }
}

/// Least width of a convex outline in any direction, mm: over the edges, how far the farthest corner is from the edge.
pub(super) fn narrowest(outline: &Outline) -> f64 {
    let corners = outline.corners();
    let width = |k: usize| {
        let (a, b) = (corners[k], corners[(k + 1) % corners.len()]);
        let along = (b - a).normalize();
        corners.iter().map(|p| along.perp(&(p - a))).fold(0.0, f64::max)
    };
    (0..corners.len()).map(width).fold(f64::INFINITY, f64::min)
}

fn free(corners: &[(Length, Length)], path: &str, sizes: &mut Sizes) {
    let (fewest, most) = (usize::from(limits::FEWEST_SIDES), usize::from(limits::MOST_SIDES));
    if !(fewest..=most).contains(&corners.len()) {
        return sizes.note(path, tr!("there can be {fewest} to {most} corners, not {}", corners.len()), "");
    }
    let (before, far) = (sizes.noted.len(), limits::FARTHEST_PLACE);
    for (k, (x, y)) in corners.iter().enumerate() {
        sizes.check(&format!("{path}[{k}][0]"), *x, -far, far);
        sizes.check(&format!("{path}[{k}][1]"), *y, -far, far);
    }
    let ring: Vec<P2> = corners.iter().map(|(x, y)| P2::new(x.mm(), y.mm())).collect();
    if sizes.noted.len() == before {
        short_sides(&ring, path, sizes);
    }
    if sizes.noted.len() == before {
        bends(&ring, path, sizes);
    }
}

fn short_sides(ring: &[P2], path: &str, sizes: &mut Sizes) {
    for (k, corner) in ring.iter().enumerate() {
        let next = (k + 1) % ring.len();
        let length = (ring[next] - corner).norm();
        if length < limits::SHORTEST_SIDE.mm() {
            let what = tr!("it is only {} from corner [{k}]", sizes.shown(Length::mm_of(length)));
            sizes.note(&format!("{path}[{next}]"), what, tr!("leave one of the two out"));
        }
    }
}

/// Every corner must turn left, and all of them together once round.
fn bends(ring: &[P2], path: &str, sizes: &mut Sizes) {
    let count = ring.len();
    let turn = |k: usize| {
        let (before, after) = (ring[k] - ring[(k + count - 1) % count], ring[(k + 1) % count] - ring[k]);
        before.perp(&after).atan2(before.dot(&after))
    };
    let turns: Vec<f64> = (0..count).map(turn).collect();
    let rounds: f64 = turns.iter().sum::<f64>() / TAU;
    // Whole numbers but for rounding.
    if (rounds.abs() - 1.0).abs() > 0.1 {
        return sizes.note(
            path,
            tr!("the outline crosses itself").to_owned(),
            tr!("list the corners in order round the part"),
        );
    }
    let clockwise = ring_area(ring) < 0.0;
    if clockwise {
        sizes.note(
            path,
            tr!("the corners run clockwise").to_owned(),
            tr!("list them in the other order, counter-clockwise"),
        );
    }
    for (k, turn) in turns.iter().map(|t| if clockwise { -t } else { *t }).enumerate() {
        let own = format!("{path}[{k}]");
        if turn.abs() < limits::LEAST_TURN.rad() {
            sizes.note(&own, tr!("it lies straight between its neighbours").to_owned(), tr!("leave it out"));
        } else if turn < 0.0 {
            let hint = tr!("a part has no corner that points inwards; make two parts of it");
            sizes.note(&own, tr!("the outline bends inwards here").to_owned(), hint);
        }
    }
}
