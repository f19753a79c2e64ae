//! What is selected of what is stuck on or stands free, in the picture.

use super::camera::Camera;
use super::model::{Model, Thing};
use egui::{Painter, Pos2, Rect, Shape, Stroke};
use gable_plane::{P2, convex_hull};

/// How wide the line is, in points.
const WIDTH: f32 = 2.5;

/// Draws a line round each of these, as they are seen.
pub(super) fn outline(
    painter: &Painter,
    (camera, picture): (&Camera, Rect),
    (model, things): (&Model, &[Thing]),
    pen: egui::Color32,
) {
    for (what, triangles) in &model.things {
        if !things.contains(what) {
            continue;
        }
        let seen = triangles.iter().flatten().filter_map(|corner| camera.at(picture, *corner));
        let ring = convex_hull(&seen.map(|p| P2::new(p.x.into(), p.y.into())).collect::<Vec<_>>());
        let ring: Vec<Pos2> = ring.iter().map(|p| Pos2::new(p.x as f32, p.y as f32)).collect();
        if ring.len() >= 3 {
            painter.add(Shape::closed_line(ring, Stroke::new(WIDTH, pen)));
        }
    }
}
