use super::dimension::{dimension, label, label_width, typed_over};
use super::draw::{dashed, drawing};
use super::paper::Paper;
use super::{Desk, beside, guests, plan_handles};
use crate::selection::Selection;
use crate::theme::Palette;
use egui::{Pos2, Response, Ui};
use gable_drawing::{Drawing, Fill, Layer, LineRole, Shade, Stroke};
use gable_dress::Dressed;
use gable_measure::Length;
use gable_plane::{Contour, P2, V2, convex_hull, ring_area, ring_contains};
use gable_shell::{Outline, PartId, Piece, Role, Solved};
use gable_words::tr;

/// The box round the plan, overhangs and what stands beside the house included.
pub(super) fn bounds(solved: &Solved, dressed: &Dressed) -> Option<(P2, P2)> {
    let roof = solved.pieces.iter().filter(|p| is_roof(p)).flat_map(shadow);
    let points: Vec<P2> = solved.parts.iter().flat_map(|p| p.plan.iter().copied()).chain(roof).collect();
    let beside = beside::corners(dressed, 0.0);
    let points: Vec<P2> = points.into_iter().chain(beside).collect();
    gable_plane::bounds(&points)
}

/// Corners of the plan: of parts, of walls and posts, of the roof over them.
pub(super) fn corners(solved: &Solved) -> Vec<P2> {
    let stand = solved.pieces.iter().filter(|p| stands(p)).flat_map(foot);
    let roof = solved.pieces.iter().filter(|p| is_roof(p)).flat_map(shadow);
    solved.parts.iter().flat_map(|p| p.plan.iter().copied()).chain(stand).chain(roof).collect()
}

/// The plan: where walls and posts stand, steps, the roof over them as a dashed line, sizes and handles.
pub(super) fn show(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, background: &Response) {
    drawing(ui.painter(), &sheet(desk.solved), paper, &desk.palette);
    beside::show(ui, paper, desk);
    for piece in &desk.solved.pieces {
        if desk.selection.holds(piece, desk.house) && stands(piece) {
            let ring: Vec<_> = foot(piece).iter().map(|p| paper.at(*p)).collect();
            ui.painter().add(egui::Shape::convex_polygon(ring, desk.palette.chosen, (2.5, desk.palette.selected)));
        }
    }
    guests::in_plan(ui, paper, desk);
    // Sizes and handles of all parts at once would cover each other.
    let alone = desk.solved.parts.len() == 1;
    for k in 0..desk.solved.parts.len() {
        let part = &desk.solved.parts[k].id;
        let held = desk.company.is_empty() && (alone || desk.selection.part() == Some(part));
        let own = Selection::Part(part.clone());
        let whole = *desk.selection == own || desk.company.holds(&own);
        name(ui, paper, desk, k, whole);
        if held {
            dimensions(ui, paper, desk, k);
            ui.push_id(("part", k), |ui| plan_handles::show(ui, paper, desk, k));
        }
    }
    if background.clicked()
        && let Some(at) = background.interact_pointer_pos()
        && let Some(part) = under(desk.solved, paper.place(at))
    {
        super::carry::choose(ui, desk, background, &Selection::Part(part));
    }
}

/// The smallest part that stands over a place of the plan.
pub(super) fn under(solved: &Solved, at: P2) -> Option<PartId> {
    let over = solved.parts.iter().filter(|p| ring_contains(&p.plan, at));
    over.min_by(|a, b| ring_area(&a.plan).total_cmp(&ring_area(&b.plan))).map(|p| p.id.clone())
}

/// Walls and posts.
fn stands(piece: &Piece) -> bool {
    matches!(piece.role, Role::Wall(_) | Role::Post(..))
}

fn is_roof(piece: &Piece) -> bool {
    matches!(piece.role, Role::Slope(..) | Role::Lid)
}

/// Both faces of a piece seen from above.
fn shadow(piece: &Piece) -> Vec<P2> {
    let rings = [(&piece.outline, 0.0), (&piece.outline_back, piece.thickness.mm())];
    let lift = |p: &P2, z: f64| piece.house_from_piece * gable_plane::P3::new(p.x, p.y, z);
    let points = rings.into_iter().flat_map(|(ring, z)| ring.iter().map(move |p| lift(p, z)));
    let points: Vec<P2> = points.map(|p| P2::new(p.x, p.y)).collect();
    convex_hull(&points)
}

/// What is cut straight through a piece along a ring, seen from above.
fn from_above(piece: &Piece, ring: &[P2]) -> Vec<P2> {
    let lift = |z: f64| ring.iter().map(move |p| piece.house_from_piece * gable_plane::P3::new(p.x, p.y, z));
    let points: Vec<P2> = lift(0.0).chain(lift(piece.thickness.mm())).map(|p| P2::new(p.x, p.y)).collect();
    convex_hull(&points)
}

/// Where a wall or post stands.
fn foot(piece: &Piece) -> Vec<P2> {
    shadow(piece)
}

fn sheet(solved: &Solved) -> Drawing {
    let mut sheet = Drawing::new(0.0, 0.0);
    // Plates under a floor show as steps.
    for piece in solved.pieces.iter().filter(|p| matches!(p.role, Role::Layer(_))) {
        sheet.push(Stroke::contour(Layer::Picture, LineRole::Thin, &Contour::polygon(&shadow(piece))));
    }
    for piece in solved.pieces.iter().filter(|p| stands(p)) {
        let ring = foot(piece);
        if ring.len() >= 3 {
            sheet.push(Fill { layer: Layer::Picture, shade: Shade::Tint, rings: vec![ring.clone()] });
            sheet.push(Stroke::contour(Layer::Picture, LineRole::Edge, &Contour::polygon(&ring)));
        }
        for gap in piece.openings.iter().chain(&piece.notches).filter(|o| o.mode.goes_through()) {
            let (low, high) = gap.contour.bounds();
            let ring = from_above(piece, &[low, P2::new(high.x, low.y), high, P2::new(low.x, high.y)]);
            sheet.push(Fill { layer: Layer::Picture, shade: Shade::Paper, rings: vec![ring.clone()] });
            sheet.push(Stroke::contour(Layer::Picture, LineRole::Thin, &Contour::polygon(&ring)));
        }
    }
    for piece in solved.pieces.iter().filter(|p| is_roof(p)) {
        let ring = shadow(piece);
        if ring.len() >= 3 {
            sheet.push(Stroke::contour(Layer::Picture, LineRole::Hidden, &Contour::polygon(&ring)));
        }
    }
    sheet
}

/// Room that handles take at both ends, in points.
const HANDLES: f32 = 26.0;

fn dimensions(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, k: usize) {
    let Some(part) = desk.solved.parts.get(k) else { return };
    let plan = &part.plan;
    let (unit, count) = (desk.house.unit, plan.len());
    let outline = desk.house.part(&part.id).map(|p| p.outline.clone());
    let outline = outline.as_ref();
    // Clear of everything that stands there, other parts too.
    let roof = desk.solved.pieces.iter().filter(|p| is_roof(p));
    let plans = desk.solved.parts.iter().flat_map(|p| p.plan.iter().copied());
    let beside = beside::corners(desk.dressed, f64::from(beside::NAME / paper.scale));
    let rim: Vec<P2> = roof.flat_map(shadow).chain(plans).chain(beside).collect();
    let shown: Vec<usize> = match outline {
        Some(Outline::Rectangle { .. }) => vec![0, 1],
        Some(Outline::Polygon { .. }) => vec![0],
        Some(Outline::HalfPolygon { .. }) => vec![0, count.saturating_sub(1)],
        Some(Outline::Free { .. }) | None => (0..count).collect(),
    };
    for side in shown.into_iter().filter(|s| *s < count) {
        let (a, b) = (plan[side], plan[(side + 1) % count]);
        let along = (b - a).normalize();
        let out = V2::new(along.y, -along.x);
        let stands = unit.print(Length::mm_of((b - a).norm()));
        let corners = outline.map(Outline::corners).unwrap_or_default();
        let ends = corners.get(side).zip(corners.get((side + 1) % count.max(1)));
        let typed = ends.map(|(a, b)| unit.print(Length::mm_of((b - a).norm())));
        // What came out of the oven makes walls stand otherwise than they were typed: both are said.
        let is_typed = typed.as_ref() == Some(&stands);
        let words = match typed {
            Some(typed) if typed != stands && is_baked(desk, k) => tr!("{typed}\nstands {stands}"),
            _ => stands,
        };
        let past = rim.iter().map(|p| (p - a).dot(&out)).fold(0.0, f64::max) as f32 * paper.scale;
        let aside = out.x.abs() as f32 * label_width(ui.painter(), &words) / 2.0;
        let at = dimension(ui.painter(), paper, [a, b], out, past + 20.0 + aside, &words, &desk.palette);
        if is_typed {
            type_over(ui, desk, (k, side), (at, &words));
        }
    }
}

/// Width and depth of a rectangular part can be typed over where they are drawn.
fn type_over(ui: &mut Ui, desk: &mut Desk<'_, '_>, (k, side): (usize, usize), words: (Pos2, &str)) {
    let Some(index) = desk.solved.parts.get(k).and_then(|p| desk.house.parts.iter().position(|h| h.id == p.id)) else {
        return;
    };
    if desk.house.parts[index].locked || !matches!(desk.house.parts[index].outline, Outline::Rectangle { .. }) {
        return;
    }
    let (key, name, undo) = match side {
        0 => ("width", tr!("On the drawing: width"), tr!("change of width")),
        _ => ("depth", tr!("On the drawing: depth"), tr!("change of depth")),
    };
    let place = format!("parts[{index}].outline.{key} on the drawing");
    let Some(typed) = typed_over(ui, desk, words, (&place, name, undo)) else { return };
    if let Outline::Rectangle { width, depth } = &mut desk.house.parts[index].outline {
        *(if side == 0 { width } else { depth }) = typed;
    }
}

/// Whether something of a part is baked.
fn is_baked(desk: &Desk<'_, '_>, k: usize) -> bool {
    let id = desk.solved.parts.get(k).map(|p| &p.id);
    desk.house.baked.iter().any(|b| Some(&b.part) == id)
}

/// The name of a part in its middle, where it finds room; the part that is selected has a coloured outline.
fn name(ui: &Ui, paper: &Paper, desk: &Desk<'_, '_>, k: usize, chosen: bool) {
    let Some(part) = desk.solved.parts.get(k) else { return };
    let (plan, count) = (&part.plan, part.plan.len());
    let middle = plan.iter().fold(V2::zeros(), |sum, p| sum + p.coords) / count.max(1) as f64;
    let colour = if chosen { desk.palette.selected } else { desk.palette.faint_ink };
    let at = paper.at(P2::from(middle));
    let across = gable_plane::bounds(plan).map_or(0.0, |(low, high)| (high.x - low.x) as f32 * paper.scale);
    if label_width(ui.painter(), &part.name) + HANDLES <= across {
        label(ui.painter(), at, &part.name, &Palette { ink: colour, ..desk.palette });
    }
    if chosen {
        let ring: Vec<_> = plan.iter().chain(plan.first()).map(|p| paper.at(*p)).collect();
        ui.painter().extend(dashed(&ring, LineRole::Edge, paper.scale, desk.palette.selected));
    }
}
