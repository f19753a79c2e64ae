//! Parts that stand by others, to be moved along their hosts: in the plan, and on the wall or slope they stand by.

use super::handle::{moved_in, rounded};
use super::paper::Paper;
use super::{Desk, draw};
use crate::selection::Selection;
use egui::{CursorIcon, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role as Named};
use gable_drawing::LineRole;
use gable_measure::{Length, Unit};
use gable_plane::{P2, V2, V3, convex_hull, ring_area};
use gable_shell::{House, Part, Piece, Place, Placing, Role, Solved, SolvedPart};

/// Lets every part that has room to move be picked up in the plan, the smaller over the larger.
pub(super) fn in_plan(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>) {
    let mut parts: Vec<&SolvedPart> = desk.solved.parts.iter().collect();
    parts.sort_by(|a, b| ring_area(&b.plan).total_cmp(&ring_area(&a.plan)));
    for solved in parts {
        let Some(k) = desk.house.parts.iter().position(|p| p.id == solved.id) else { continue };
        if desk.house.parts[k].locked || !is_movable(desk.house, k) {
            continue;
        }
        let Some(response) = pick_up(ui, paper, desk, k, &solved.plan) else { continue };
        if response.clicked()
            && let Some(at) = response.interact_pointer_pos()
            && let Some(part) = super::plan::under(desk.solved, paper.place(at))
        {
            *desk.selection = Selection::Part(part);
        }
        let all = (desk.solved, &*desk.house);
        let into = |drag: V2| directions(all, k).map_or_else(V2::zeros, |(e, f)| V2::new(drag.dot(&e), drag.dot(&f)));
        let now = there(&desk.house.parts[k].place);
        let pulled = moved_in(ui, paper, desk.house.unit, &response, now, into);
        put(desk, k, pulled.map(|p| (p.value, p.gesture)));
    }
}

/// Whether moving a part does anything: alone on the board it only takes the whole house along.
fn is_movable(house: &House, k: usize) -> bool {
    let on_board = |p: &&Part| p.place.host().is_none();
    house.parts[k].place.host().is_some() || house.parts.iter().filter(on_board).count() > 1
}

/// Shows what stands by a wall or on a slope, and lets it be moved along it, on a slope also up and down.
pub(super) fn on_face(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, piece: &Piece, table: impl Fn(P2) -> P2) {
    let level = (piece.house_from_piece * V3::z()).z.abs();
    for k in 0..desk.house.parts.len() {
        let part = &desk.house.parts[k];
        if !stands_by(part, piece) {
            continue;
        }
        let ring: Vec<P2> = shape_on(desk.solved, part, piece).into_iter().map(&table).collect();
        if ring.len() < 3 {
            continue;
        }
        outline(ui, paper, desk, &ring);
        if part.locked {
            continue;
        }
        let place = part.place.clone();
        let Some(response) = pick_up(ui, paper, desk, k, &ring) else { continue };
        if response.clicked() {
            *desk.selection = Selection::Part(desk.house.parts[k].id.clone());
        }
        let into = |drag: V2| match place {
            // What is level in the house is longer up a slope.
            Place::OnSlope { .. } => V2::new(drag.x, drag.y * level),
            _ => V2::new(drag.x, 0.0),
        };
        let pulled = moved_in(ui, paper, desk.house.unit, &response, there(&place), into);
        put(desk, k, pulled.map(|p| (p.value, p.gesture)));
    }
}

/// Whether a part stands by the side that a piece is the wall or the slope of.
fn stands_by(part: &Part, piece: &Piece) -> bool {
    match (&part.place, &piece.role) {
        (Place::Against { host, side, .. }, Role::Wall(s)) | (Place::OnSlope { host, side, .. }, Role::Slope(s, _)) => {
            host == &piece.part && side == s
        }
        _ => false,
    }
}

/// What a part covers of a piece: on a slope its plan from above, on a wall all of it from the front.
fn shape_on(solved: &Solved, part: &Part, piece: &Piece) -> Vec<P2> {
    let piece_from_house = piece.house_from_piece.inverse();
    let points: Vec<P2> = match &part.place {
        Place::OnSlope { .. } => {
            let plan = solved.parts.iter().filter(|p| p.id == part.id).flat_map(|p| &p.plan);
            let up = piece_from_house * V3::z();
            plan.map(|p| {
                let at = piece_from_house * gable_plane::P3::new(p.x, p.y, 0.0);
                (at - up * (at.z / up.z)).xy()
            })
            .collect()
        }
        _ => {
            let pieces = solved.pieces.iter().filter(|p| p.part == part.id);
            let corners = pieces.flat_map(|p| p.outline.iter().map(move |c| (p, c)));
            let at = |(p, c): (&Piece, &P2)| p.house_from_piece * gable_plane::P3::new(c.x, c.y, 0.0);
            corners.map(|c| (piece_from_house * at(c)).xy()).collect()
        }
    };
    convex_hull(&points)
}

fn outline(ui: &Ui, paper: &Paper, desk: &Desk<'_, '_>, ring: &[P2]) {
    let closed: Vec<_> = ring.iter().chain(ring.first()).map(|p| paper.at(*p)).collect();
    ui.painter().extend(draw::dashed(&closed, LineRole::Hidden, paper.scale, desk.palette.faint_ink));
}

/// Makes a part something that can be picked up and has the keyboard, with a frame round it.
fn pick_up(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, k: usize, ring: &[P2]) -> Option<Response> {
    let (low, high) = gable_plane::bounds(ring)?;
    let part = &desk.house.parts[k];
    let rect = Rect::from_two_pos(paper.at(low), paper.at(high));
    let response = ui.interact(rect, ui.scope_id().with(("move part", &part.id.0)), Sense::click_and_drag());
    let name = format!("{}, to be moved", part.name);
    response.widget_info(|| WidgetInfo::labeled(Named::Button, true, &name));
    if response.clicked() || response.drag_started() {
        response.request_focus();
    }
    if response.drag_started() || response.gained_focus() {
        *desk.selection = Selection::Part(part.id.clone());
    }
    if response.hovered() || response.has_focus() {
        let pen = Stroke::new(1.5, desk.palette.selected);
        ui.painter().rect_stroke(rect.expand(3.0), 4.0, pen, StrokeKind::Outside);
    }
    Some(response.on_hover_and_drag_cursor(CursorIcon::Move))
}

/// Where a part is: along its host, and out, up or back.
fn there(place: &Place) -> V2 {
    let right = |along: &Placing| match along {
        Placing::Centred { offset } => offset.mm(),
        Placing::FromLeft { distance } => distance.mm(),
        Placing::FromRight { distance } => -distance.mm(),
    };
    match place {
        Place::Ground(spot) | Place::OnTop { spot, .. } => V2::new(spot.x.mm(), spot.y.mm()),
        Place::Against { along, out, .. } => V2::new(right(along), out.mm()),
        Place::OnSlope { along, up, .. } => V2::new(right(along), up.mm()),
        Place::Astride { along, .. } => V2::new(along.mm(), 0.0),
    }
}

/// Puts a part somewhere else, in round steps; what did not move stays as it was typed.
fn put(desk: &mut Desk<'_, '_>, k: usize, to: Option<(V2, Option<egui::Id>)>) {
    let Some((to, gesture)) = to else { return };
    let unit = desk.house.unit;
    set_place(&mut desk.house.parts[k].place, to, unit);
    desk.form.touch(&format!("parts[{k}].place"), "move of a part");
    desk.gesture.0 = gesture;
}

fn set_place(place: &mut Place, to: V2, unit: Unit) {
    let old = there(place);
    let set = |value: &mut Length, old: f64, new: f64, sign: f64| {
        if (new - old).abs() > 1e-9 {
            *value = rounded(Length::mm_of(new * sign), unit);
        }
    };
    let set_along = |along: &mut Placing| match along {
        Placing::Centred { offset: at } | Placing::FromLeft { distance: at } => set(at, old.x, to.x, 1.0),
        Placing::FromRight { distance } => set(distance, old.x, to.x, -1.0),
    };
    match place {
        Place::Ground(spot) | Place::OnTop { spot, .. } => {
            set(&mut spot.x, old.x, to.x, 1.0);
            set(&mut spot.y, old.y, to.y, 1.0);
        }
        Place::Against { along, out, .. } => {
            set_along(along);
            set(out, old.y, to.y, 1.0);
        }
        Place::OnSlope { along, up, .. } => {
            set_along(along);
            set(up, old.y, to.y, 1.0);
        }
        Place::Astride { along, .. } => set(along, old.x, to.x, 1.0),
    }
}

/// The directions in the plan of the house in which both numbers of [`there`] grow.
fn directions((solved, house): (&Solved, &House), k: usize) -> Option<(V2, V2)> {
    let place = &house.parts[k].place;
    let Some(id) = place.host() else { return Some((V2::x(), V2::y())) };
    let (host, found) = (house.part(id)?, solved.parts.iter().find(|p| &p.id == id)?);
    let turned = |v: V2| (found.house_from_part * V3::new(v.x, v.y, 0.0)).xy();
    match place {
        Place::Ground(_) => None,
        Place::Against { side, .. } | Place::OnSlope { side, .. } => {
            let side = host.sides.iter().position(|s| &s.id == side)?;
            let (from, to) = (found.plan.get(side)?, found.plan.get((side + 1) % found.plan.len())?);
            let along = (to - from).try_normalize(1e-9)?;
            let inward = V2::new(-along.y, along.x);
            Some((along, if matches!(place, Place::Against { .. }) { -inward } else { inward }))
        }
        Place::Astride { .. } => Some((turned(house.ridge(id)?.direction), V2::zeros())),
        Place::OnTop { .. } => Some((turned(V2::x()), turned(V2::y()))),
    }
}
