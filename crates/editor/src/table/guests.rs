//! Parts that stand by others, to be moved along their hosts: in the plan, and on the wall or slope they stand by.

use super::carry::{carry, choose};
use super::face::Lay;
use super::members::{Member, SAME, of_part, right_of, set_right_of};
use super::paper::Paper;
use super::{Desk, Sheet, draw};
use crate::selection::Selection;
use crate::theme::TARGET;
use egui::{CursorIcon, Rect, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, accesskit::Role as Named};
use gable_drawing::LineRole;
use gable_measure::Length;
use gable_plane::{P2, V2, V3, convex_hull};
use gable_shell::{House, Part, Piece, Place, Role, Solved, SolvedPart, Spot};
use gable_words::tr;

/// Lets every part that has room to move be picked up in the plan, the smaller over the larger.
pub(super) fn in_plan(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>) {
    let area = |m: &Member| {
        let size = m.bounds.1 - m.bounds.0;
        size.x * size.y
    };
    let mut members: Vec<&Member> = desk.members.iter().filter(|m| m.is_movable()).collect();
    members.sort_by(|a, b| area(b).total_cmp(&area(a)));
    for member in members {
        pick_up(ui, paper, desk, member);
    }
}

/// The parts on the plan. What is locked, or alone on the board, cannot be moved there.
pub(super) fn members_in_plan(solved: &Solved, house: &House) -> Vec<Member> {
    let on_plan = |solved_part: &SolvedPart| {
        let k = house.parts.iter().position(|p| p.id == solved_part.id)?;
        let (along, out) = directions((solved, house), k).filter(|_| is_movable(house, k)).unwrap_or_default();
        of_part(&house.parts[k], &solved_part.plan, [(along, 1.0), (out, 1.0)])
    };
    solved.parts.iter().filter_map(on_plan).collect()
}

/// The parts that stand by a wall or on a slope: they go along it, on a slope also up and down.
pub(super) fn members_on_face(solved: &Solved, house: &House, piece: &Piece) -> Vec<Member> {
    let lay = Lay::of(piece);
    let guests = house.parts.iter().filter(|part| stands_by(part, piece));
    let on_face = |part: &Part| {
        let ring: Vec<P2> = shape_on(solved, part, piece).into_iter().map(|p| lay.table(p)).collect();
        // What is level in the house is longer up a slope.
        let level = (piece.house_from_piece * V3::z()).z.abs();
        let up = if matches!(part.place, Place::OnSlope { .. }) { level } else { 0.0 };
        of_part(part, &ring, [(V2::x(), 1.0), (V2::y(), up)]).filter(|_| ring.len() >= 3)
    };
    guests.filter_map(on_face).collect()
}

/// Whether moving a part does anything: alone on the board it only takes the whole house along.
fn is_movable(house: &House, k: usize) -> bool {
    let on_board = |p: &&Part| p.place.host().is_none();
    house.parts[k].place.host().is_some() || house.parts.iter().filter(on_board).count() > 1
}

/// Shows what stands by a wall or on a slope, and lets it be moved along it, on a slope also up and down.
pub(super) fn on_face(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, piece: &Piece, table: impl Fn(P2) -> P2) {
    for member in desk.members {
        let Selection::Part(id) = &member.what else { continue };
        let Some(part) = desk.house.part(id) else { continue };
        let ring: Vec<P2> = shape_on(desk.solved, part, piece).into_iter().map(&table).collect();
        outline(ui, paper, desk, &ring);
        if member.is_movable() {
            pick_up(ui, paper, desk, member);
        }
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
fn pick_up(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, member: &Member) {
    if !matches!(member.what, Selection::Part(_) | Selection::Extra(_)) {
        return;
    }
    let name = tr!("{}, to be moved", crate::layout::name_of(&member.what, desk.house));
    let key = format!("{:?}", member.what);
    let rect = Rect::from_two_pos(paper.at(member.bounds.0), paper.at(member.bounds.1));
    // A fence seen from above is thinner than a finger.
    let room = Rect::from_center_size(rect.center(), rect.size().max(Vec2::splat(TARGET)));
    let response = ui.interact(room, ui.scope_id().with(("move", key)), Sense::click_and_drag());
    response.widget_info(|| WidgetInfo::labeled(Named::Button, true, &name));
    let response = response.on_hover_and_drag_cursor(CursorIcon::Move);
    // In the plan a smaller part may stand within the box of this one.
    let is_part = matches!(member.what, Selection::Part(_));
    let under = response
        .interact_pointer_pos()
        .filter(|_| is_part)
        .filter(|_| response.clicked() && *desk.sheet == Sheet::Plan);
    let under = under.and_then(|at| super::plan::under(desk.solved, paper.place(at)));
    choose(ui, desk, &response, &under.map_or_else(|| member.what.clone(), Selection::Part));
    // A part alone has its outline coloured.
    let shown = *desk.selection == member.what && !(is_part && desk.company.is_empty());
    let chosen = desk.company.holds(&member.what);
    if shown || chosen || response.hovered() || response.has_focus() {
        let width = if shown {
            3.0
        } else if chosen {
            2.0
        } else {
            1.5
        };
        let pen = Stroke::new(width, desk.palette.selected);
        ui.painter().rect_stroke(rect.expand(3.0), 4.0, pen, StrokeKind::Outside);
    }
    carry(ui, paper, desk, &response, member);
}

/// Where a part is: along its host, and out, up or back.
pub(super) fn there(place: &Place) -> V2 {
    match place {
        Place::Ground(spot) | Place::OnTop { spot, .. } => V2::new(spot.x.mm(), spot.y.mm()),
        Place::Against { along, out, .. } => V2::new(right_of(along), out.mm()),
        Place::OnSlope { along, up, .. } => V2::new(right_of(along), up.mm()),
        Place::Astride { along, .. } => V2::new(along.mm(), 0.0),
    }
}

fn set(value: &mut Length, new: f64) {
    if (new - value.mm()).abs() > SAME {
        *value = Length::mm_of(new);
    }
}

/// Puts something elsewhere; what did not move stays as it was typed.
pub(super) fn set_spot(spot: &mut Spot, to: V2) {
    set(&mut spot.x, to.x);
    set(&mut spot.y, to.y);
}

/// Puts a part where [`there`] tells these numbers; what did not move stays as it was typed.
pub(super) fn set_place(place: &mut Place, to: V2) {
    match place {
        Place::Ground(spot) | Place::OnTop { spot, .. } => set_spot(spot, to),
        Place::Against { along, out: other, .. } | Place::OnSlope { along, up: other, .. } => {
            set_right_of(along, to.x);
            set(other, to.y);
        }
        Place::Astride { along, .. } => set(along, to.x),
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
