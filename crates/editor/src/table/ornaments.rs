//! What is stuck on, as it lies on a face: to be selected, made larger or smaller, copied and taken away there.

use super::Desk;
use super::carry::choose;
use super::draw::drawing;
use super::face::Lay;
use super::handle::{keys, step, whole_drag};
use super::members::Member;
use super::paper::Paper;
use crate::layout::name_of;
use crate::selection::Selection;
use crate::theme::TARGET;
use egui::{
    CursorIcon, Rect, Response, Sense, Stroke as Pen, StrokeKind, Ui, Vec2, WidgetInfo, accesskit::Role as Named,
};
use gable_drawing::{Drawing, Fill, Layer, LineRole, Shade, Stroke};
use gable_dress::{Dressed, OrnamentPiece};
use gable_measure::Length;
use gable_plane::{Contour, P2, P3, V2, convex_hull};
use gable_shell::{House, OrnamentKind, Piece, Solved};
use gable_words::tr;

/// Part of the usual step by which a size goes: ornaments are small.
const FINE: f64 = 0.5;

/// Least size, mm, however far it is dragged.
const LEAST: f64 = 0.2;

/// The pieces of ornaments that are stuck on a piece.
fn stuck_on<'a>(solved: &'a Solved, dressed: &'a Dressed, piece: &'a Piece) -> impl Iterator<Item = &'a OrnamentPiece> {
    let on = |o: &&OrnamentPiece| o.host.and_then(|k| solved.pieces.get(k)).is_some_and(|p| p.id == piece.id);
    dressed.ornaments.iter().filter(on)
}

/// Whether an ornament, by its place in the list, is stuck on a piece.
pub(crate) fn is_on(solved: &Solved, dressed: &Dressed, k: usize, piece: &Piece) -> bool {
    stuck_on(solved, dressed, piece).any(|o| o.ornament == k)
}

/// What an ornament covers of the face it lies on, seen square to the face.
fn ring(ornament: &OrnamentPiece, piece: &Piece) -> Vec<P2> {
    let (lay, piece_from_house) = (Lay::of(piece), piece.house_from_piece.inverse());
    let lift = |z: f64| ornament.outline.iter().map(move |p| P3::new(p.x, p.y, z));
    let corners = lift(0.0).chain(lift(ornament.thickness.mm()));
    let seen = corners.map(|p| (piece_from_house * (ornament.house_from_piece * p)).xy());
    convex_hull(&seen.map(|p| lay.table(p)).collect::<Vec<_>>())
}

/// A hole of it, where it lies flat on the face.
fn hole(ornament: &OrnamentPiece, piece: &Piece, hole: &[P2]) -> Vec<P2> {
    let (lay, piece_from_house) = (Lay::of(piece), piece.house_from_piece.inverse());
    let seen = hole.iter().map(|p| (piece_from_house * (ornament.house_from_piece * P3::new(p.x, p.y, 0.0))).xy());
    seen.map(|p| lay.table(p)).collect()
}

/// What of a face are ornaments: each once, however many pieces it has there.
pub(super) fn members(solved: &Solved, dressed: &Dressed, piece: &Piece) -> Vec<Member> {
    let mut numbers: Vec<usize> = stuck_on(solved, dressed, piece).map(|o| o.ornament).collect();
    numbers.sort_unstable();
    numbers.dedup();
    numbers.into_iter().filter_map(|k| member(solved, dressed, piece, k)).collect()
}

fn member(solved: &Solved, dressed: &Dressed, piece: &Piece, k: usize) -> Option<Member> {
    let own = stuck_on(solved, dressed, piece).filter(|o| o.ornament == k);
    let corners: Vec<P2> = own.flat_map(|o| ring(o, piece)).collect();
    Some(Member::stuck(Selection::Ornament(k), gable_plane::bounds(&corners)?))
}

/// An ornament on whichever face has it.
pub(crate) fn anywhere(solved: &Solved, dressed: &Dressed, what: Selection) -> Option<Member> {
    let Selection::Ornament(k) = what else { return None };
    solved.pieces.iter().find_map(|piece| member(solved, dressed, piece, k))
}

/// The opening or part that an ornament belongs to.
pub(crate) fn bearer(house: &House, k: usize) -> Selection {
    let Some(own) = house.dressing.ornaments.get(k) else { return Selection::House };
    match &own.opening {
        Some(opening) => Selection::Opening(own.part.clone(), opening.clone()),
        None => Selection::Part(own.part.clone()),
    }
    .within(house)
}

/// Whether the part that an ornament belongs to is locked.
pub(crate) fn is_locked(house: &House, what: &Selection) -> bool {
    let Selection::Ornament(k) = what else { return false };
    house.dressing.ornaments.get(*k).and_then(|o| house.part(&o.part)).is_some_and(|p| p.locked)
}

/// Shows what is stuck on a face. A click selects, with Ctrl or Shift beside what is selected; a drag or an arrow key changes the
/// size that is its own.
pub(super) fn on_face(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, piece: &Piece) {
    let all: Vec<&OrnamentPiece> = stuck_on(desk.solved, desk.dressed, piece).collect();
    let mut sheet = Drawing::new(0.0, 0.0);
    for ornament in &all {
        let holes = ornament.holes.iter().map(|h| hole(ornament, piece, h));
        let rings: Vec<Vec<P2>> = std::iter::once(ring(ornament, piece)).chain(holes).collect();
        for ring in &rings {
            sheet.push(Stroke::contour(Layer::Picture, LineRole::Thin, &Contour::polygon(ring)));
        }
        sheet.push(Fill { layer: Layer::Picture, shade: Shade::Tint, rings });
    }
    drawing(ui.painter(), &sheet, paper, &desk.palette);
    for ornament in all {
        pick_up(ui, paper, desk, (ornament, piece));
    }
}

fn pick_up(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, (ornament, piece): (&OrnamentPiece, &Piece)) {
    let Some((low, high)) = gable_plane::bounds(&ring(ornament, piece)) else { return };
    let what = Selection::Ornament(ornament.ornament);
    // Houses change while they are worked out.
    let Some(kind) = desk.house.dressing.ornaments.get(ornament.ornament).map(|o| o.kind) else { return };
    let rect = Rect::from_two_pos(paper.at(low), paper.at(high));
    let room = Rect::from_center_size(rect.center(), rect.size().max(Vec2::splat(TARGET)));
    let response = ui.interact(room, ui.scope_id().with(("ornament", &ornament.id)), Sense::click_and_drag());
    let name = tr!("{}, to be made larger or smaller", ornament.name);
    response.widget_info(|| WidgetInfo::labeled(Named::Button, true, &name));
    let grows = grows(desk, (ornament, kind), (low, high));
    let cursor = if grows.x == 0.0 { CursorIcon::ResizeVertical } else { CursorIcon::ResizeHorizontal };
    let response = response.on_hover_and_drag_cursor(cursor).on_hover_text(name_of(&what, desk.house));
    choose(ui, desk, &response, &what);
    let (shown, chosen) = (*desk.selection == what, desk.company.holds(&what));
    if shown || chosen || response.hovered() || response.has_focus() {
        let pen = Pen::new(if shown { 3.0 } else { 1.5 }, desk.palette.selected);
        ui.painter().rect_stroke(rect.expand(2.0), 3.0, pen, StrokeKind::Outside);
    }
    resize(ui, paper, desk, &response, grows);
}

/// The way in which an ornament grows with its size: away from the middle of its opening, out of its corner or over its roof.
fn grows(desk: &Desk<'_, '_>, (ornament, kind): (&OrnamentPiece, OrnamentKind), (low, high): (P2, P2)) -> V2 {
    match kind {
        OrnamentKind::Sill | OrnamentKind::WindowBox => V2::new(0.0, -1.0),
        // Leaves get smaller as the gap round them grows.
        OrnamentKind::Door | OrnamentKind::RidgeCap | OrnamentKind::HipCap => V2::new(0.0, -1.0),
        OrnamentKind::Shutters => {
            let pair = desk.members.iter().find(|m| m.what == Selection::Ornament(ornament.ornament));
            let middle = pair.map_or(0.0, |m| (m.bounds.0.x + m.bounds.1.x) / 2.0);
            V2::new(if (low.x + high.x) / 2.0 < middle { -1.0 } else { 1.0 }, 0.0)
        }
        _ => V2::new(0.0, 1.0),
    }
}

/// Changes the size of what is in hand, and of all ornaments that are selected with it.
fn resize(ui: &Ui, paper: &Paper, desk: &mut Desk<'_, '_>, response: &Response, grows: V2) {
    let held = desk.company.with(desk.selection);
    if held.iter().any(|what| is_locked(desk.house, what)) {
        return;
    }
    let sizes = || -> Vec<(usize, f64)> {
        let size = |what: &Selection| match what {
            Selection::Ornament(k) => Some((*k, desk.house.dressing.ornaments.get(*k)?.size.mm())),
            _ => None,
        };
        held.iter().filter_map(size).collect()
    };
    let id = response.id.with("sizes when it was picked up");
    if response.drag_started() {
        let now = sizes();
        ui.data_mut(|d| d.insert_temp(id, now));
    }
    let unit = step(desk.house.unit).mm() * FINE;
    let (start, by, gesture) = match whole_drag(ui, response) {
        Some(drag) => {
            let by = (paper.span(drag).dot(&grows) / unit).round() * unit;
            (ui.data(|d| d.get_temp(id)).unwrap_or_else(sizes), by, Some(response.id))
        }
        None => match keys(ui, response) {
            Some(way) if way.dot(&grows) != 0.0 => (sizes(), way.dot(&grows) * unit, None),
            _ => return,
        },
    };
    for (k, size) in start {
        if let Some(own) = desk.house.dressing.ornaments.get_mut(k) {
            own.size = Length::mm_of((size + by).max(LEAST));
        }
    }
    desk.form.touch("", tr!("change of an ornament"));
    desk.gesture.0 = gesture;
}
