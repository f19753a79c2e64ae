//! The plan of a part in the house, worked out from the sizes alone.

use gable_plane::{P2, V2};
use gable_shell::{Outline, Part, Place, Spot};
use std::f64::consts::{FRAC_PI_2, PI};

/// Outer corners of a part's plan in the house, counter-clockwise; side k runs from corner k to the next.
pub fn plan_corners(part: &Part) -> Vec<P2> {
    let Place::Ground(Spot { x, y, turn }) = part.place else { return vec![] };
    let put = |p: V2| {
        let turned = V2::new(p.x * turn.cos() - p.y * turn.sin(), p.x * turn.sin() + p.y * turn.cos());
        P2::new(x.mm(), y.mm()) + turned
    };
    own_corners(&part.outline).into_iter().map(put).collect()
}

/// Corners of a plan in the part's own coordinates, counter-clockwise.
pub(crate) fn own_corners(outline: &Outline) -> Vec<V2> {
    let on_circle = |radius: f64, angle: f64| V2::new(radius * angle.cos(), radius * angle.sin());
    match outline {
        Outline::Rectangle { width, depth } => {
            let (x, y) = (width.mm() / 2.0, depth.mm() / 2.0);
            vec![V2::new(-x, -y), V2::new(x, -y), V2::new(x, y), V2::new(-x, y)]
        }
        Outline::Polygon { sides, side } => {
            let half = PI / f64::from(*sides);
            let radius = side.mm() / 2.0 / half.sin();
            (0..*sides).map(|k| on_circle(radius, -FRAC_PI_2 - half + 2.0 * half * f64::from(k))).collect()
        }
        // Half of a polygon of 2n sides, cut through two of its corners; the straight cut is the back.
        Outline::HalfPolygon { sides, width } => {
            let step = PI / f64::from(*sides);
            (0..=*sides).map(|k| on_circle(width.mm() / 2.0, PI + step * f64::from(k))).collect()
        }
        Outline::Free { corners } => corners.iter().map(|(x, y)| V2::new(x.mm(), y.mm())).collect(),
    }
}
