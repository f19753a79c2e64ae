//! Paints a [`Drawing`] into the window: the same lines and tones that go on paper.

use super::paper::Paper;
use crate::theme::Palette;
use egui::epaint::{Mesh, Vertex, WHITE_UV};
use egui::{Align2, Color32, FontId, Galley, Painter, Pos2, Shape, Stroke};
use gable_drawing::{Anchor, Drawing, Fill, Item, LineRole, Shade, Text};
use gable_mesh::{Token, lit_biscuit};
use gable_plane::{P2, Segment, V2};
use lyon_tessellation::geom::Point;
use lyon_tessellation::path::Path;
use lyon_tessellation::{BuffersBuilder, FillOptions, FillTessellator, FillVertex, VertexBuffers};
use std::sync::Arc;

/// How far the chords of an arc may be off on the screen, in points.
const CHORD: f64 = 0.2;

/// Paints a drawing onto a paper.
pub(crate) fn drawing(painter: &Painter, drawing: &Drawing, paper: &Paper, palette: &Palette) {
    drawing.items.iter().for_each(|one| item(painter, one, paper, palette));
}

/// Paints one thing of a drawing.
pub(super) fn item(painter: &Painter, item: &Item, paper: &Paper, palette: &Palette) {
    match item {
        Item::Fill(area) => fill(painter, area, paper, palette),
        Item::Stroke(line) => stroke(painter, line, paper, palette),
        Item::Text(words) => text(painter, words, paper, palette),
    }
}

fn fill(painter: &Painter, area: &Fill, paper: &Paper, palette: &Palette) {
    let mut path = Path::builder();
    for ring in area.rings.iter().filter(|r| r.len() >= 3) {
        let mut points = ring.iter().map(|p| paper.at(*p)).map(|p| Point::new(p.x, p.y));
        if let Some(first) = points.next() {
            path.begin(first);
            points.for_each(|p| {
                path.line_to(p);
            });
            path.end(true);
        }
    }
    let colour = tone(area.shade, palette);
    let mut buffers: VertexBuffers<Vertex, u32> = VertexBuffers::new();
    let vertex = |v: FillVertex<'_>| {
        let at = v.position();
        Vertex { pos: Pos2::new(at.x, at.y), uv: WHITE_UV, color: colour }
    };
    let made = FillTessellator::new().tessellate_path(
        &path.build(),
        &FillOptions::even_odd().with_tolerance(CHORD as f32),
        &mut BuffersBuilder::new(&mut buffers, vertex),
    );
    if made.is_ok() {
        painter.add(Mesh { indices: buffers.indices, vertices: buffers.vertices, ..Mesh::default() });
    }
}

/// The colour of a tone.
pub(crate) fn tone(shade: Shade, palette: &Palette) -> Color32 {
    match shade {
        Shade::Paper => palette.paper,
        Shade::Biscuit { light } => {
            let colour = lit_biscuit(Token::BiscuitWall, light, palette.theme);
            Color32::from_rgb(colour.r, colour.g, colour.b)
        }
        Shade::Coloured { rgb, light } => {
            let [r, g, b] = Shade::lit(rgb, light);
            Color32::from_rgb(r, g, b)
        }
        Shade::Glass { rgb, light } => {
            let [r, g, b] = Shade::lit(rgb, light);
            Color32::from_rgb(r, g, b).gamma_multiply(Shade::GLASS_COVERS as f32)
        }
        Shade::Tint => palette.dough.gamma_multiply(0.6),
        Shade::Ink => palette.ink,
    }
}

fn stroke(painter: &Painter, line: &gable_drawing::Stroke, paper: &Paper, palette: &Palette) {
    let mut points = vec![line.start];
    let mut from = line.start;
    for segment in &line.segments {
        if let Segment::Arc { centre, sweep, .. } = *segment {
            points.extend(arc(from, centre, sweep, f64::from(paper.scale)));
        }
        from = segment.to();
        points.push(from);
    }
    if line.closed {
        points.push(line.start);
    }
    let points: Vec<Pos2> = points.into_iter().map(|p| paper.at(p)).collect();
    painter.extend(dashed(&points, line.role, paper.scale, palette.ink));
}

fn arc(from: P2, centre: P2, sweep: f64, scale: f64) -> impl Iterator<Item = P2> {
    let arm: V2 = from - centre;
    // s = r (1 - cos(a/2)), with s in points.
    let half = (1.0 - (CHORD / (arm.norm() * scale)).clamp(1e-6, 1.0)).acos();
    let steps = (sweep.abs() / (2.0 * half)).ceil().clamp(1.0, 512.0) as u32;
    (1..steps).map(move |k| {
        let (sin, cos) = (sweep * f64::from(k) / f64::from(steps)).sin_cos();
        centre + V2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos)
    })
}

/// A line in the dashes of its role. Widths never fall below what a screen can show.
pub(crate) fn dashed(points: &[Pos2], role: LineRole, scale: f32, ink: Color32) -> Vec<Shape> {
    let width = role.width() as f32;
    // The finest lines stay visible.
    let least = width * 2.0 + 0.4;
    let width = (width * scale).clamp(least, least.max(width * 4.0));
    let pen = Stroke::new(width, ink);
    let pattern = role.dashes();
    if pattern.is_empty() {
        return vec![Shape::line(points.to_vec(), pen)];
    }
    // Dashes are so many widths long; on the screen as on paper.
    let grow = width / role.width() as f32;
    let every = |start: usize| pattern.iter().skip(start).step_by(2).map(|l| *l as f32 * grow).collect::<Vec<_>>();
    Shape::dashed_line_with_offset(points, pen, &every(0), &every(1), 0.0)
}

fn text(painter: &Painter, words: &Text, paper: &Paper, palette: &Palette) {
    let (at, galley) = text_shape(painter, words, paper, palette);
    painter.galley(at, galley, palette.ink);
}

/// Words as they are painted, and where their upper left corner comes to lie.
pub(super) fn text_shape(painter: &Painter, words: &Text, paper: &Paper, palette: &Palette) -> (Pos2, Arc<Galley>) {
    // Capitals are about seven tenths of the size of a font.
    let size = (words.height as f32 * paper.scale / 0.7).clamp(6.0, 60.0);
    let align = match words.anchor {
        Anchor::Start => Align2::LEFT_BOTTOM,
        Anchor::Middle => Align2::CENTER_BOTTOM,
        Anchor::End => Align2::RIGHT_BOTTOM,
    };
    let galley = painter.layout_no_wrap(words.text.clone(), FontId::proportional(size), palette.ink);
    (align.anchor_size(paper.at(words.at), galley.size()).min, galley)
}
