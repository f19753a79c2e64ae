//! What stands free beside the house, seen from above: to be selected and moved in the plan.

use super::Desk;
use super::dimension::{label, label_width};
use super::draw::drawing;
use super::members::Member;
use super::paper::Paper;
use crate::layout::name_of;
use crate::selection::Selection;
use crate::theme::Palette;
use egui::Ui;
use gable_drawing::{Drawing, Fill, Layer, LineRole, Shade, Stroke};
use gable_dress::{Dressed, OrnamentPiece};
use gable_plane::{Contour, P2, convex_hull};
use gable_shell::House;
use std::collections::BTreeMap;

/// What each piece of each thing covers of the board seen from above, with the place of the thing in the list.
fn rings(dressed: &Dressed) -> impl Iterator<Item = (usize, Vec<P2>)> + '_ {
    let corners = |piece: &OrnamentPiece| {
        let solids = piece.solids();
        solids.iter().flat_map(|s| s.corners().iter().map(|p| p.xy()).collect::<Vec<_>>()).collect::<Vec<_>>()
    };
    let rings = dressed.extras.iter().map(move |piece| (piece.ornament, convex_hull(&corners(piece))));
    rings.filter(|(_, ring)| ring.len() >= 3)
}

/// The box round each thing.
fn boxes(dressed: &Dressed) -> Vec<(usize, (P2, P2))> {
    let mut corners: BTreeMap<usize, Vec<P2>> = BTreeMap::new();
    rings(dressed).for_each(|(k, ring)| corners.entry(k).or_default().extend(ring));
    corners.into_iter().filter_map(|(k, points)| Some((k, gable_plane::bounds(&points)?))).collect()
}

/// Corners of all of it with room for names below, so many mm high.
pub(super) fn corners(dressed: &Dressed, names: f64) -> impl Iterator<Item = P2> {
    boxes(dressed).into_iter().flat_map(move |(_, (low, high))| [P2::new(low.x, low.y - names), high])
}

/// What of it can be moved: all.
pub(super) fn members(dressed: &Dressed, house: &House) -> Vec<Member> {
    let there = boxes(dressed).into_iter().filter(|(k, _)| *k < house.dressing.extras.len());
    there.map(|(k, bounds)| Member::free(Selection::Extra(k), bounds)).collect()
}

/// Draws it, with names where they find room.
pub(super) fn show(ui: &Ui, paper: &Paper, desk: &Desk<'_, '_>) {
    let mut sheet = Drawing::new(0.0, 0.0);
    for (_, ring) in rings(desk.dressed) {
        sheet.push(Stroke::contour(Layer::Picture, LineRole::Edge, &Contour::polygon(&ring)));
        sheet.push(Fill { layer: Layer::Picture, shade: Shade::Tint, rings: vec![ring] });
    }
    drawing(ui.painter(), &sheet, paper, &desk.palette);
    for (k, (low, high)) in boxes(desk.dressed).into_iter().filter(|(k, _)| *k < desk.house.dressing.extras.len()) {
        let words = name_of(&Selection::Extra(k), desk.house);
        let below = P2::new((low.x + high.x) / 2.0, low.y);
        // Names wider than what they are of would cover what stands beside it.
        if label_width(ui.painter(), &words) <= (high.x - low.x) as f32 * paper.scale + 30.0 {
            let faint = Palette { ink: desk.palette.faint_ink, ..desk.palette };
            label(ui.painter(), paper.at(below) + egui::vec2(0.0, 11.0), &words, &faint);
        }
    }
}

/// Room for a name below what it is of, in points.
pub(super) const NAME: f32 = 20.0;
