//! Signs on pieces that are coloured, and the key to them: colour is never the only thing that tells.

use super::letters::{Shot, is_seen};
use crate::marks::{Mark, Marks, Tone};
use crate::theme::{BOLD, Palette};
use egui::{Align2, FontId, Galley, Painter, Pos2, Rect, Stroke, StrokeKind, vec2};
use gable_mesh::Surface;
use gable_plane::{P2, P3};
use std::sync::Arc;

/// Where a sign is, what it says and in which colour.
pub(super) type Sign = (Pos2, String, Tone);

/// Places on a piece that are tried for its sign.
const TRIED: usize = 6;
/// Half the size of a sign, in points.
const HALF: f32 = 9.5;
/// Height of a line of the key, in points.
const LINE: f32 = 22.0;
/// How far in the words of the key begin, in points.
const INDENT: f32 = 38.0;

/// A sign on each piece of which something is told and of which something can be seen.
pub(super) fn signs(shot: &Shot<'_>, marks: &[Option<Mark>]) -> Vec<Sign> {
    let told = marks.iter().enumerate().filter_map(|(k, mark)| Some((k, mark.as_ref()?)));
    let sign = |(k, mark): (usize, &Mark)| Some((place(shot, k, mark.at)?, mark.sign.clone(), mark.tone));
    told.filter_map(sign).collect()
}

/// Where something is told of a piece: at its place, or in the middle of a large triangle, if that is seen.
fn place(shot: &Shot<'_>, k: usize, at: Option<P2>) -> Option<Pos2> {
    if shot.chosen.get(k).copied().unwrap_or(false) {
        return None;
    }
    let (body, pose) = (shot.model.bodies.get(k)?, shot.pose.get(k)?);
    let seen = match at {
        Some(at) => Some(pose * P3::new(at.x, at.y, 0.0)).filter(|p| is_seen(shot, *p, &[k]))?,
        None => {
            let area = |t: &[P3; 3]| (t[1] - t[0]).cross(&(t[2] - t[0])).norm();
            let outer = body.triangles.iter().filter(|(_, s)| *s != Surface::Edge);
            let mut faces: Vec<&[P3; 3]> = outer.map(|(t, _)| t).collect();
            faces.sort_by(|a, b| area(b).total_cmp(&area(a)));
            let middle = |t: &&[P3; 3]| pose * P3::from((t[0].coords + t[1].coords + t[2].coords) / 3.0);
            faces.iter().take(TRIED).map(middle).find(|p| is_seen(shot, *p, &[k]))?
        }
    };
    shot.camera.at(shot.picture, seen).filter(|at| shot.picture.contains(*at))
}

/// Paints signs, and the key in a corner of the picture.
pub(super) fn paint<'a>(
    painter: &Painter,
    picture: Rect,
    (signs, marks): (impl Iterator<Item = &'a Sign>, &Marks),
    palette: &Palette,
) {
    for (at, words, tone) in signs {
        one(painter, *at, (words, *tone), palette);
    }
    let corner = picture.left_top() + vec2(10.0, 10.0);
    let room = (picture.width() - 20.0 - INDENT - 12.0).max(40.0);
    let set = |words: &str| painter.layout(words.to_owned(), FontId::proportional(13.5), palette.ink, room);
    let rows: Vec<_> = marks.key.iter().map(|(mark, words)| (mark, set(words))).collect();
    let title = title(painter, marks.title, room);
    let wide = rows.iter().map(|(_, words)| words.size().x).fold(title.size().x, f32::max);
    let high = |words: &Galley| (words.size().y + 4.0).max(LINE);
    let all = rows.iter().map(|(_, words)| high(words)).sum::<f32>() + high(&title);
    let sheet = Rect::from_min_size(corner, vec2(wide + INDENT + 12.0, all + 8.0));
    painter.rect(sheet, 6.0, palette.panel, Stroke::new(1.0, palette.edge), StrokeKind::Inside);
    let mut top = corner.y + 4.0;
    let next = high(&title);
    painter.galley(egui::pos2(corner.x + 10.0, top + (next - title.size().y) / 2.0), title, palette.ink);
    top += next;
    for (mark, words) in rows {
        let next = high(&words);
        if let Some(mark) = mark {
            one(painter, egui::pos2(corner.x + 20.0, top + next / 2.0), (&mark.sign, mark.tone), palette);
        }
        painter.galley(egui::pos2(corner.x + INDENT, top + (next - words.size().y) / 2.0), words, palette.ink);
        top += next;
    }
}

fn title(painter: &Painter, words: &str, room: f32) -> Arc<Galley> {
    let font = FontId::new(13.5, egui::FontFamily::Name(BOLD.into()));
    painter.layout(words.to_owned(), font, painter.ctx().global_style().visuals.text_color(), room)
}

/// A sign on paper in a rim of its colour: round, or as wide as its words.
fn one(painter: &Painter, at: Pos2, (words, tone): (&str, Tone), palette: &Palette) {
    let size = if words.chars().count() > 1 { 12.5 } else { 15.0 };
    let words = painter.layout_no_wrap(words.to_owned(), FontId::proportional(size), palette.ink);
    let sheet = Rect::from_center_size(at, vec2((words.size().x + 10.0).max(2.0 * HALF), 2.0 * HALF));
    let rim = Stroke::new(2.0, tone.colour(palette));
    painter.rect(sheet, HALF, palette.paper, rim, StrokeKind::Middle);
    painter.galley(Align2::CENTER_CENTER.anchor_size(at, words.size()).min, words, palette.ink);
}
