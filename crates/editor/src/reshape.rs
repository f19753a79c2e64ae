//! Changes of a part: an outline of another kind, another corner, another opening.

use gable_measure::Length;
use gable_shell::Outline;

/// An outline of another kind (0 rectangle, 1 polygon, 2 half polygon, 3 free) of about the same size.
pub(crate) fn converted(outline: &Outline, kind: i32) -> Outline {
    let (width, depth) = extent(outline);
    match kind {
        0 => Outline::Rectangle { width, depth },
        // A hexagon is twice as wide as its side.
        1 => Outline::Polygon { sides: 6, side: width / 2.0 },
        2 => Outline::HalfPolygon { sides: 3, width },
        _ => {
            let (x, y) = (width / 2.0, depth / 2.0);
            Outline::Free { corners: vec![(-x, -y), (x, -y), (x, y), (-x, y)] }
        }
    }
}

/// About how wide and deep an outline is.
fn extent(outline: &Outline) -> (Length, Length) {
    match outline {
        Outline::Rectangle { width, depth } => (*width, *depth),
        Outline::Polygon { sides, side } => {
            let across = *side / (std::f64::consts::PI / f64::from(*sides)).sin();
            (across, across)
        }
        Outline::HalfPolygon { width, .. } => (*width, *width / 2.0),
        Outline::Free { corners } => {
            let span = |pick: fn(&(Length, Length)) -> Length| {
                let low = corners.iter().map(pick).fold(Length::mm_of(f64::MAX), Length::min);
                let high = corners.iter().map(pick).fold(Length::mm_of(f64::MIN), Length::max);
                high - low
            };
            (span(|c| c.0), span(|c| c.1))
        }
    }
}

/// Puts a corner half-way along the last side, a tenth of its length outside.
pub(crate) fn add_corner(corners: &mut Vec<(Length, Length)>) {
    let (Some(&a), Some(&b)) = (corners.last(), corners.first()) else { return };
    let (along_x, along_y) = (b.0 - a.0, b.1 - a.1);
    corners.push(((a.0 + b.0) / 2.0 + along_y / 10.0, (a.1 + b.1) / 2.0 - along_x / 10.0));
}
