use super::carry::{carry, choose};
use super::dimension::{label_width, typed_over};
use super::face::Lay;
use super::handle::{Handle, pull};
use super::paper::Paper;
use super::{Desk, guides, opening_handles};
use crate::openings::as_typed;
use crate::selection::{Selection, is_face};
use egui::{CursorIcon, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role as Named};
use gable_measure::{Length, Pitch};
use gable_plane::{P2, V2};
use gable_shell::{Part, Piece, PieceOpening, Role, SideId, Top};
use gable_words::tr;

/// Handles of a face: openings to move, the top of the wall, the peak of the gable.
pub(super) fn show(
    ui: &mut Ui,
    paper: &Paper,
    desk: &mut Desk<'_, '_>,
    piece: &Piece,
    lay: &Lay,
    background: &Response,
) {
    let Some(index) = desk.house.parts.iter().position(|p| p.id == piece.part) else { return };
    let (Role::Wall(side) | Role::Slope(side, _)) = &piece.role else { return };
    if background.clicked() {
        desk.company.dismiss();
        *desk.selection = Selection::Side(piece.part.clone(), side.clone());
    }
    sizes(ui, paper, desk, index, piece, lay);
    if desk.house.parts[index].locked {
        return;
    }
    for opening in piece.openings.iter().chain(&piece.notches) {
        move_opening(ui, paper, desk, index, opening, lay);
    }
    for opening in unbuilt(&desk.house.parts[index], piece) {
        let colour = desk.palette.blocking;
        let ring = opening.contour.flatten(0.1).into_iter().map(|p| paper.at(lay.table(p))).collect::<Vec<_>>();
        ui.painter().extend(egui::Shape::dashed_line(&closed(ring), Stroke::new(2.0, colour), 7.0, 4.0));
        move_opening(ui, paper, desk, index, &opening, lay);
    }
    let corners: Vec<P2> = piece.outline.iter().map(|p| lay.table(*p)).collect();
    if !matches!(piece.role, Role::Wall(_)) {
        return;
    }
    let Some((low, high)) = gable_plane::bounds(&corners) else { return };
    let top = desk.house.parts[index].sides.iter().find(|s| &s.id == side).map(|s| s.top);
    match top {
        Some(Top::Eave { height, .. } | Top::Knee { height, .. }) => {
            let at = P2::new((low.x + high.x) / 2.0, high.y);
            wall_top(ui, paper, desk, index, (at, height));
        }
        Some(Top::Gable { .. }) => peak(ui, paper, desk, index, side, &corners),
        Some(Top::HalfHip { .. }) | None => {}
    }
}

/// Width and height of each opening, on one line where there is room.
fn sizes(ui: &Ui, paper: &Paper, desk: &Desk<'_, '_>, index: usize, piece: &Piece, lay: &Lay) {
    let (part, unit) = (&desk.house.parts[index], desk.house.unit);
    for shown in piece.openings.iter().chain(&piece.notches) {
        let Some(opening) = part.openings.iter().find(|o| o.id == shown.id) else { continue };
        let ring: Vec<P2> = shown.contour.flatten(0.5).into_iter().map(|p| lay.table(p)).collect();
        let Some((low, high)) = gable_plane::bounds(&ring) else { continue };
        if opening.shape.is_whole_face() {
            continue;
        }
        let words = format!("{} × {}", unit.print(opening.width), unit.print(opening.height));
        let room = (high.x - low.x) as f32 * paper.scale;
        let middle = P2::new((low.x + high.x) / 2.0, (low.y + high.y) / 2.0);
        let fits = label_width(ui.painter(), &words) + 8.0 <= room;
        let lines = if fits { words } else { words.replacen(" × ", "\n× ", 1) };
        let widest = lines.lines().map(|l| label_width(ui.painter(), l)).fold(1.0, f32::max);
        let size = 13.5 * ((room - 6.0) / widest).min(1.0);
        if size >= SMALLEST {
            let font = egui::FontId::proportional(size);
            ui.painter().text(paper.at(middle), egui::Align2::CENTER_CENTER, lines, font, desk.palette.ink);
        }
    }
}

/// Sizes of openings in smaller letters than this could not be read; who steps nearer sees them.
const SMALLEST: f32 = 8.5;

/// Openings of a wall that cannot be built where they are: they are in no piece, but can be seen and moved.
fn unbuilt(part: &Part, piece: &Piece) -> Vec<PieceOpening> {
    let built =
        |o: &PieceOpening| piece.openings.iter().chain(&piece.notches).any(|p| p.id == o.id && p.copy == o.copy);
    let drawn = part.openings.iter().filter(|o| is_face(&piece.role, o)).flat_map(|o| {
        let copies = as_typed(part, o).into_iter().enumerate();
        let (id, name, mode) = (&o.id, &o.name, o.mode);
        copies.map(move |(copy, contour)| PieceOpening { id: id.clone(), copy, name: name.clone(), contour, mode })
    });
    drawn.filter(|o| !built(o)).collect()
}

fn closed(mut ring: Vec<egui::Pos2>) -> Vec<egui::Pos2> {
    ring.extend(ring.first().copied());
    ring
}

/// The height of a wall under an eave can be typed over where it is drawn.
pub(super) fn type_height(ui: &mut Ui, desk: &mut Desk<'_, '_>, piece: &Piece, (at, words): (Pos2, &str)) {
    let Some(index) = desk.house.parts.iter().position(|p| p.id == piece.part && !p.locked) else { return };
    let Role::Wall(side) = &piece.role else { return };
    let top = desk.house.parts[index].sides.iter().find(|s| &s.id == side).map(|s| s.top);
    let Some(Top::Eave { height, .. } | Top::Knee { height, .. }) = top else { return };
    if desk.house.unit.print(height) != words {
        return;
    }
    let place = format!("parts[{index}].sides.height on the drawing");
    let names = (place.as_str(), tr!("On the drawing: wall height"), tr!("change of wall height"));
    if let Some(typed) = typed_over(ui, desk, (at, words), names) {
        set_height(&mut desk.house.parts[index], height, typed);
    }
}

/// All walls that are as high change together, so that a gable stays a gable.
fn set_height(part: &mut Part, value: Length, new: Length) {
    for side in &mut part.sides {
        if let Top::Eave { height, .. } | Top::Knee { height, .. } = &mut side.top
            && *height == value
        {
            *height = new;
        }
    }
}

fn wall_top(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, index: usize, (at, value): (P2, Length)) {
    let undo = tr!("change of wall height");
    let grows = V2::new(0.0, 1.0);
    let marks = guides::heights(desk.house, desk.solved, &desk.house.parts[index].id);
    let name = tr!("Handle of the wall's top, height");
    let handle = Handle { key: "top", name, at, grows, rate: 1.0, value, undo, marks: &marks };
    let Some(pulled) = pull(ui, paper, desk.house.unit, &handle) else { return };
    set_height(&mut desk.house.parts[index], value, pulled.value);
    desk.form.touch(&format!("parts[{index}].sides.height"), undo);
    desk.gesture.0 = pulled.gesture;
}

/// The peak of a gable. Whoever drags it speaks of the height of the ridge, so that is what the slopes then say.
fn peak(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, index: usize, side: &SideId, corners: &[P2]) {
    let Some(at) = corners.iter().copied().max_by(|a, b| a.y.total_cmp(&b.y)) else { return };
    let part = &desk.house.parts[index];
    let Some(solved) = desk.solved.parts.iter().find(|p| p.id == part.id) else { return };
    let typed = part.sides.iter().find_map(|s| match s.top {
        Top::Eave { pitch: Pitch::RidgeHeight(height), .. } => Some(height),
        _ => None,
    });
    let (value, undo) = (typed.unwrap_or(solved.ridge_height), tr!("change of ridge height"));
    let name = tr!("Handle of the {} gable's peak, ridge height", side.words());
    let marks = guides::heights(desk.house, desk.solved, &desk.house.parts[index].id);
    let grows = V2::new(0.0, 1.0);
    let handle = Handle { key: "peak", name: &name, at, grows, rate: 1.0, value, undo, marks: &marks };
    let Some(pulled) = pull(ui, paper, desk.house.unit, &handle) else { return };
    for side in &mut desk.house.parts[index].sides {
        if let Top::Eave { pitch, .. } = &mut side.top {
            *pitch = Pitch::RidgeHeight(pulled.value);
        }
    }
    desk.form.touch(&format!("parts[{index}].sides.pitch"), undo);
    desk.gesture.0 = pulled.gesture;
}

/// An opening can be picked up anywhere and put elsewhere in its wall.
fn move_opening(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, index: usize, shown: &PieceOpening, lay: &Lay) {
    let part = desk.house.parts[index].id.clone();
    let Some(k) = desk.house.parts[index].openings.iter().position(|o| o.id == shown.id) else { return };
    let what = Selection::Opening(part, shown.id.clone());
    let ring: Vec<P2> = shown.contour.flatten(0.1).into_iter().map(|p| lay.table(p)).collect();
    let Some((low, high)) = gable_plane::bounds(&ring) else { return };
    let rect = Rect::from_two_pos(paper.at(low), paper.at(high));
    let response = ui.interact(rect, ui.scope_id().with(("opening", &shown.id.0, shown.copy)), Sense::click_and_drag());
    let name = tr!("{}, to be moved", shown.name);
    response.widget_info(|| WidgetInfo::labeled(Named::Button, true, &name));
    let response = response.on_hover_and_drag_cursor(CursorIcon::Move);
    choose(ui, desk, &response, &what);
    let chosen = *desk.selection == what;
    frame(ui, &response, rect, (chosen, desk.company.holds(&what)), desk);
    if chosen && desk.company.is_empty() && shown.copy == 0 {
        // One opening may have been selected before this one in the same frame.
        let own = (tr!("sizes of"), &shown.id.0);
        ui.push_id(own, |ui| opening_handles::sizes(ui, paper, desk, (index, k), (low, high)));
    }
    if let Some(member) = desk.members.iter().find(|m| m.what == what) {
        carry(ui, paper, desk, &response, member);
    }
}

/// A frame round an opening: the thickest round the one whose sizes are shown.
fn frame(ui: &Ui, response: &Response, rect: Rect, (shown, chosen): (bool, bool), desk: &Desk<'_, '_>) {
    if shown || chosen || response.hovered() || response.has_focus() {
        let pen = Stroke::new(
            if shown {
                3.0
            } else if chosen {
                2.0
            } else {
                1.2
            },
            desk.palette.selected,
        );
        ui.painter().rect_stroke(rect.expand(3.0), 4.0, pen, StrokeKind::Outside);
    }
}
