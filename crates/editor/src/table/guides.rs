//! What something that is dragged may hold on to: what else is on the drawing, and heights of what is elsewhere.

use super::face::Lay;
use super::members::Member;
use super::snap::{Axis, Lines, Named};
use super::{Desk, Sheet};
use crate::layout::name_of;
use crate::openings::wall_length;
use crate::selection::Selection;
use gable_measure::Length;
use gable_plane::{P2, V2};
use gable_shell::{House, Outline, PartId, Piece, Solved, Surface, Top};
use gable_words::tr;

/// Boxes and lines for one that is dragged with others; `lead` is as it was when it was picked up.
pub(super) fn around(desk: &Desk<'_, '_>, lead: &Member, movers: &[&Member]) -> (Vec<Named>, Lines) {
    let moves = |what: &Selection| movers.iter().any(|m| m.what == *what);
    let goes_along = |what: &Selection| {
        let Selection::Part(id) = what else { return false };
        movers.iter().any(|m| matches!(&m.what, Selection::Part(own) if desk.house.with_guests(own).contains(id)))
    };
    let still = desk.members.iter().filter(|m| !moves(&m.what) && !goes_along(&m.what) && m.what != lead.what);
    // A house is not built by where its trees stand.
    let is_extra = |what: &Selection| matches!(what, Selection::Extra(_));
    let still = still.filter(|m| is_extra(&lead.what) || !is_extra(&m.what));
    // Nor by what is stuck on, which goes where its opening goes.
    let still = still.filter(|m| !matches!(m.what, Selection::Ornament(_)));
    let others = still.map(|m| (m.bounds, name_of(&m.what, desk.house))).collect();
    let Sheet::Face(id) = desk.sheet else { return (others, Lines::default()) };
    let Some(piece) = desk.solved.pieces.iter().find(|p| &p.id == id) else { return (others, Lines::default()) };
    (others, on_face(desk, piece, lead))
}

/// The middle and the ends of a face, and for openings of a wall the heights of openings of other walls.
fn on_face(desk: &Desk<'_, '_>, piece: &Piece, lead: &Member) -> Lines {
    let mut lines = Lines::default();
    let part = desk.house.part(&piece.part);
    let length = part.zip(piece.role.side()).and_then(|(part, side)| wall_length(part, side));
    if let Some(length) = length {
        let lay = Lay::of(piece);
        let [a, b] = [0.0, length].map(|x| lay.table(P2::new(x, 0.0)).x);
        let middle = if piece.role.is_upright() { tr!("middle of the wall") } else { tr!("middle of the slope") };
        lines.middles.push((Axis::Across, (a + b) / 2.0, middle.to_owned()));
        lines.ends = Some((a.min(b), a.max(b)));
    }
    if let Selection::Opening(own, _) = &lead.what
        && piece.role.is_upright()
        && let Some(sill) = lead.numbers(desk.house).map(|n| n.y)
    {
        let foot = lead.now(desk).map_or(lead.bounds.0.y, |b| b.0.y) - sill;
        let side = piece.role.side();
        for part in &desk.house.parts {
            let Some(lift) = height(desk.solved, &part.id).zip(height(desk.solved, own)).map(|(a, b)| a - b) else {
                continue;
            };
            let elsewhere = part.openings.iter().filter(|o| &part.id != own || Some(&o.side) != side);
            for opening in elsewhere.filter(|o| o.face == Surface::Wall && !o.shape.is_whole_face()) {
                let name = format!("{}: {}", part.name, opening.name);
                let low = foot + lift + opening.sill.mm();
                lines.edges.push((Axis::Up, low, tr!("sill of {name}")));
                lines.edges.push((Axis::Up, low + opening.height.mm(), tr!("head of {name}")));
            }
        }
    }
    lines
}

/// Height of the foot of a part over the board, mm.
fn height(solved: &Solved, part: &PartId) -> Option<f64> {
    solved.parts.iter().find(|p| &p.id == part).map(|p| p.house_from_part.translation.z)
}

/// Heights of walls and ridges of the other parts, counted from the foot of this one, and what to say of each.
pub(super) fn heights(house: &House, solved: &Solved, own: &PartId) -> Vec<(Length, String)> {
    let Some(foot) = height(solved, own) else { return Vec::new() };
    let mut found = Vec::new();
    for part in house.parts.iter().filter(|p| &p.id != own) {
        let Some(solved_part) = solved.parts.iter().find(|p| p.id == part.id) else { continue };
        let lift = Length::mm_of(solved_part.house_from_part.translation.z - foot);
        for side in &part.sides {
            if let Top::Eave { height, .. } | Top::Knee { height, .. } = side.top {
                let line = (height + lift, tr!("top of the walls of {}", part.name));
                if !found.contains(&line) {
                    found.push(line);
                }
            }
        }
        found.push((solved_part.ridge_height + lift, tr!("ridge of {}", part.name)));
    }
    found
}

/// Boxes of the parts that stay where they are when one changes its size in the plan: all but itself and what stands by it.
pub(super) fn beside(desk: &Desk<'_, '_>, own: &PartId) -> Vec<Named> {
    let goes_along = desk.house.with_guests(own);
    let stays = |what: &Selection| matches!(what, Selection::Part(id) if !goes_along.contains(id));
    let still = desk.members.iter().filter(|m| stays(&m.what));
    still.map(|m| (m.bounds, name_of(&m.what, desk.house))).collect()
}

/// Widths or depths that a part in the plan holds on to, where it grows one way by half of what it grows in all: so large that its edge
/// comes to one of another part, and sizes of other parts. `middle` stays where it is; nothing but sizes counts where it does not.
pub(super) fn sizes_in_plan(desk: &Desk<'_, '_>, own: &PartId, middle: Option<P2>, grows: V2) -> Vec<(Length, String)> {
    let mut found = Vec::new();
    let level = grows.x.abs() > 1.0 - 1e-9;
    if let Some(middle) = middle.filter(|_| level || grows.y.abs() > 1.0 - 1e-9) {
        for ((low, high), name) in beside(desk, own) {
            let words = match level {
                true => [tr!("left edge of {name}"), tr!("right edge of {name}")],
                false => [tr!("lower edge of {name}"), tr!("upper edge of {name}")],
            };
            for (words, corner) in words.into_iter().zip([low, high]) {
                let half = (corner - middle).dot(&grows);
                if half > 0.0 {
                    found.push((Length::mm_of((half * 2e6).round() / 1e6), words));
                }
            }
        }
    }
    for part in desk.house.parts.iter().filter(|p| &p.id != own) {
        let name = &part.name;
        match part.outline {
            Outline::Rectangle { width, depth } => {
                found.extend([(width, tr!("as wide as {name}")), (depth, tr!("as deep as {name}"))]);
            }
            Outline::HalfPolygon { width, .. } => found.push((width, tr!("as wide as {name}"))),
            Outline::Polygon { .. } | Outline::Free { .. } => {}
        }
    }
    found
}
