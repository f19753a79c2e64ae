//! How much shapes overlap, as one number that falls to nothing as they are moved apart. Not an area: that would tell
//! nothing about the way out. It is made of the circles that fill the shapes, after the published idea of measuring
//! penetration between poles of inaccessibility (arXiv 2509.13329).

use jagua_rs::geometry::geo_traits::{CollidesWith, DistanceTo};
use jagua_rs::geometry::primitives::{Circle, SPolygon};

/// Depth, as a share of the smaller diameter, from which on circles that no longer meet still count a little.
const FADE: f32 = 0.01;

/// Of two shapes that collide, the square root of the summed depth of their circles in each other times the smaller
/// radius. Circles that do not meet add a little that fades, so that the way apart is always downhill.
pub(crate) fn of_two(a: &SPolygon, b: &SPolygon) -> f32 {
    let fade = FADE * a.diameter().min(b.diameter());
    let mut sum = 0.0;
    for p in &a.surrogate().poles {
        for q in &b.surrogate().poles {
            let apart = ((p.center.0 - q.center.0).powi(2) + (p.center.1 - q.center.1).powi(2)).sqrt();
            let depth = p.radius + q.radius - apart;
            let depth = if depth >= fade { depth } else { fade * fade / (2.0 * fade - depth) };
            sum += depth * p.radius.min(q.radius);
        }
    }
    (sum + fade * fade).sqrt()
}

/// The same for a shape that reaches out of a sheet.
pub(crate) fn beyond(shape: &SPolygon, sheet: &SPolygon) -> f32 {
    let fade = FADE * shape.diameter();
    let sum: f32 = shape.surrogate().poles.iter().map(|pole| depth_beyond(pole, sheet, fade) * pole.radius).sum();
    // Corners may be out while every circle is in.
    let box_out = outside(shape, sheet);
    (4.0 * sum + box_out * shape.poi().radius + fade * fade).sqrt()
}

fn depth_beyond(pole: &Circle, sheet: &SPolygon, fade: f32) -> f32 {
    let to_rim = sheet.edge_iter().map(|e| e.sq_distance_to(&pole.center)).fold(f32::INFINITY, f32::min).sqrt();
    let inside = sheet.collides_with(&pole.center);
    let depth = if inside { pole.radius - to_rim } else { pole.radius + to_rim };
    if depth >= fade { depth } else { fade * fade / (2.0 * fade - depth) }
}

/// How far the box of a shape reaches beyond the box of a sheet, added up over the four sides.
fn outside(shape: &SPolygon, sheet: &SPolygon) -> f32 {
    let (a, b) = (shape.bbox(), sheet.bbox());
    let over = [b.x_min - a.x_min, a.x_max - b.x_max, b.y_min - a.y_min, a.y_max - b.y_max];
    over.into_iter().map(|d| d.max(0.0)).sum()
}
