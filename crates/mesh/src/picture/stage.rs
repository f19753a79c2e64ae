//! The house while it is raised: what is new stands out, what stood before is pale.

use super::camera::{Camera, View};
use super::paint::Painter;
use super::sort::{self, Eye, Sprite};
use super::thing::Thing;
use gable_drawing::{Drawing, LineRole, Shade};
use gable_plane::{P3, Solid, ring_centroid};
use gable_shell::Solved;

/// How a piece is shown in a picture of a stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// Not there yet.
    Not,
    /// Stood before: white, with thin lines.
    Pale,
    /// New: biscuit, with wide lines.
    New,
}

/// What a picture of a stage shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StageScene {
    /// In the order of [`Solved::pieces`].
    pub shown: Vec<Shown>,
    /// What holds pieces for a while: convex solids in the house.
    pub props: Vec<Solid>,
    /// Words in the middle of pieces, by index.
    pub labels: Vec<(usize, String)>,
}

/// A picture of a stage. Every picture of a house from one side has the same scale and size, so that they can be compared.
pub fn stage_picture(solved: &Solved, scene: &StageScene, view: &View) -> Drawing {
    let camera = Camera::new(view);
    let standing = std::iter::zip(&solved.pieces, &scene.shown).filter(|(_, shown)| **shown != Shown::Not);
    let piece = |(piece, shown): (&gable_shell::Piece, &Shown)| {
        let mut thing = Thing::piece(piece, &piece.house_from_piece, true, &camera);
        if *shown == Shown::Pale {
            thing.fade();
        }
        thing
    };
    let mut things: Vec<Thing> = standing.map(piece).collect();
    super::thin_out(&mut things, &camera);
    things.extend(scene.props.iter().map(|prop| Thing::block(prop, &camera)));
    let all: Vec<P3> = solved.pieces.iter().flat_map(gable_shell::Piece::corners).collect();
    if view.board {
        things.extend(Thing::board(&all, &camera));
    }
    let eye = Eye { to_eye: camera.to_eye, axes: camera.axes() };
    let whole = |(k, thing): (usize, &Thing)| Sprite::whole(k, thing.solids.clone(), thing.soft, &eye);
    let ordered = sort::sorted(things.iter().enumerate().map(whole).collect(), &eye);
    let board = things.iter().rev().take(usize::from(view.board)).flat_map(|t| &t.solids);
    let frame: Vec<P3> = all.iter().copied().chain(board.flat_map(|s| s.corners().to_vec())).collect();
    let mut painter = Painter::new(camera, view, &frame);
    for run in ordered.chunk_by(|a, b| a.thing == b.thing) {
        painter.paint(&things[run[0].thing], run);
    }
    for (piece, words) in scene.labels.iter().filter_map(|(k, words)| Some((solved.pieces.get(*k)?, words))) {
        let middle = ring_centroid(&piece.outline);
        let face = if piece.reference_is_outside() { 0.0 } else { piece.thickness.mm() };
        // Of a piece that turns its back its middle is most likely hidden.
        if piece.outward().dot(&eye.to_eye) > 0.05 {
            painter.label(&(piece.house_from_piece * P3::new(middle.x, middle.y, face)), words);
        }
    }
    painter.finished()
}

impl Thing {
    /// White, with thin lines.
    fn fade(&mut self) {
        for facet in self.facets.iter_mut().chain(&mut self.coarse) {
            facet.shade = Shade::Paper;
            for role in facet.roles.iter_mut().flatten().flatten() {
                *role = LineRole::Thin;
            }
        }
    }
}
