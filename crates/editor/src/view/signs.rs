//! Signs on pieces that are coloured, and the key to them: colour is never the only thing that tells.

use super::letters::{Shot, is_seen};
use crate::marks::sign;
use crate::panels::severity_colour;
use crate::theme::Palette;
use egui::{Align2, FontId, Painter, Pos2, Rect, Shape, Stroke, vec2};
use gable_measure::Severity;
use gable_mesh::Surface;
use gable_plane::P3;

/// Where a sign is, and of what severity.
pub(super) type Sign = (Pos2, Severity);

/// Places on a piece that are tried for its sign.
const TRIED: usize = 6;
/// Half the size of a sign, in points.
const HALF: f32 = 9.5;
/// Height of a line of the key, in points.
const LINE: f32 = 22.0;

/// A sign on each piece of which something is told and of which something can be seen.
pub(super) fn signs(shot: &Shot<'_>, marks: &[Option<Severity>]) -> Vec<Sign> {
    let told = marks.iter().enumerate().filter_map(|(k, mark)| Some((k, (*mark)?)));
    told.filter_map(|(k, severity)| Some((place(shot, k)?, severity))).collect()
}

/// The middle of a large triangle of a piece that is seen.
fn place(shot: &Shot<'_>, k: usize) -> Option<Pos2> {
    if shot.chosen.get(k).copied().unwrap_or(false) {
        return None;
    }
    let (body, pose) = (shot.model.bodies.get(k)?, shot.pose.get(k)?);
    let area = |t: &[P3; 3]| (t[1] - t[0]).cross(&(t[2] - t[0])).norm();
    let mut faces: Vec<&[P3; 3]> = body.triangles.iter().filter(|(_, s)| *s != Surface::Edge).map(|(t, _)| t).collect();
    faces.sort_by(|a, b| area(b).total_cmp(&area(a)));
    let middle = |t: &&[P3; 3]| pose * P3::from((t[0].coords + t[1].coords + t[2].coords) / 3.0);
    let seen = faces.iter().take(TRIED).map(middle).find(|p| is_seen(shot, *p, &[k]))?;
    shot.camera.at(shot.picture, seen).filter(|at| shot.picture.contains(*at))
}

/// Paints signs, and the key in a corner of the picture.
pub(super) fn paint<'a>(
    painter: &Painter,
    picture: Rect,
    (signs, key): (impl Iterator<Item = &'a Sign>, &[(Severity, String)]),
    palette: &Palette,
) {
    for (at, severity) in signs {
        one(painter, *at, *severity, palette);
    }
    let corner = picture.left_top() + vec2(10.0, 10.0);
    let font = FontId::proportional(13.5);
    let rows: Vec<_> =
        key.iter().map(|(s, w)| (*s, painter.layout_no_wrap(w.clone(), font.clone(), palette.ink))).collect();
    let wide = rows.iter().map(|(_, words)| words.size().x).fold(0.0, f32::max);
    let sheet = Rect::from_min_size(corner, vec2(wide + 42.0, LINE * rows.len() as f32 + 8.0));
    painter.rect(sheet, 6.0, palette.panel, Stroke::new(1.0, palette.edge), egui::StrokeKind::Inside);
    for (k, (severity, words)) in rows.into_iter().enumerate() {
        let middle = corner + vec2(18.0, 4.0 + LINE * (k as f32 + 0.5));
        if severity != Severity::Note {
            one(painter, middle, severity, palette);
        }
        let at = Align2::LEFT_CENTER.anchor_size(middle + vec2(16.0, 0.0), words.size());
        painter.galley(at.min, words, palette.ink);
    }
}

fn one(painter: &Painter, at: Pos2, severity: Severity, palette: &Palette) {
    painter.add(Shape::circle_filled(at, HALF, palette.paper));
    painter.add(Shape::circle_stroke(at, HALF, Stroke::new(2.0, severity_colour(palette, severity))));
    painter.text(at, Align2::CENTER_CENTER, sign(severity), FontId::proportional(15.0), palette.ink);
}
