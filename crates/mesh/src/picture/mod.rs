//! Line-and-shade pictures, painted from the farthest to the nearest.

mod camera;
mod closing;
mod decal;
mod facet;
mod paint;
mod sort;
mod stage;
#[cfg(test)]
mod tests;
mod thing;

pub use camera::View;
pub use stage::{Shown, StageScene, stage_picture};

use crate::{Pose, pose};
use camera::Camera;
use decal::{decals, line_decal, on_biscuit};
use gable_drawing::Drawing;
use gable_dress::Dressed;
use gable_plane::{HalfSpace, P3, Rigid};
use gable_shell::Solved;
use paint::Painter;
use sort::{Eye, Sprite};
use thing::Thing;

/// A picture of a house in a pose.
pub fn picture(solved: &Solved, at: Pose, view: &View) -> Drawing {
    picture_of(solved, &pose(solved, at), at == Pose::Standing, view)
}

/// A picture of a house in a pose, with what is put on its pieces.
pub fn dressed_picture(solved: &Solved, dressed: &Dressed, at: Pose, view: &View) -> Drawing {
    dressed_picture_of(solved, dressed, &pose(solved, at), at == Pose::Standing, view)
}

/// A picture of pieces that stand where `poses` says, in the order of [`Solved::pieces`]; pieces beyond its end are left
/// out. Icing is drawn when the house stands finished.
pub fn picture_of(solved: &Solved, poses: &[Rigid], finished: bool, view: &View) -> Drawing {
    dressed_picture_of(solved, &Dressed::default(), poses, finished, view)
}

/// The same with what is put on the pieces.
pub fn dressed_picture_of(solved: &Solved, dressed: &Dressed, poses: &[Rigid], finished: bool, view: &View) -> Drawing {
    let camera = Camera::new(view);
    let mut things = things(solved, dressed, poses, finished, view, &camera);
    for covered in &dressed.finishes {
        if let (Some(thing), Some(pose)) = (things.get_mut(covered.piece), poses.get(covered.piece)) {
            thing.decals.extend(decals(covered, pose, &camera));
        }
    }
    for line in &dressed.opening_lines {
        let (Some(piece), Some(pose)) = (solved.pieces.get(line.piece), poses.get(line.piece)) else { continue };
        if let Some(thing) = things.get_mut(line.piece).filter(|_| on_biscuit(line, piece)) {
            thing.decals.extend(line_decal(line, pose, &camera));
        }
    }
    if finished {
        things
            .extend(dressed.ornaments.iter().chain(&dressed.extras).map(|ornament| Thing::ornament(ornament, &camera)));
    }
    let eye = Eye { to_eye: camera.to_eye, axes: camera.axes() };
    let whole = |(k, thing): (usize, &Thing)| Sprite::whole(k, thing.solids.clone(), thing.soft, &eye);
    let sprites = things.iter().enumerate().map(whole).collect();
    let ordered = sort::sorted(sprites, &eye);
    let corners: Vec<P3> = things.iter().flat_map(|t| t.solids.iter().flat_map(|s| s.corners()).copied()).collect();
    let mut painter = Painter::new(camera, view, &corners);
    for run in ordered.chunk_by(|a, b| a.thing == b.thing) {
        painter.paint(&things[run[0].thing], run);
    }
    painter.finished()
}

fn things(
    solved: &Solved,
    dressed: &Dressed,
    poses: &[Rigid],
    finished: bool,
    view: &View,
    camera: &Camera,
) -> Vec<Thing> {
    let shown = std::iter::zip(&solved.pieces, poses);
    let mut things: Vec<Thing> = shown.map(|(piece, pose)| Thing::piece(piece, pose, finished, camera)).collect();
    if view.icing && finished {
        let iced = solved.joints.iter().filter(|j| !j.icing.is_empty());
        things.extend(iced.map(|joint| Thing::icing(&joint.icing, camera)));
    }
    if finished {
        things.extend(dressed.doors.iter().map(|door| Thing::door(door, camera)));
    }
    thin_out(&mut things, camera);
    things.extend(dressed.panes.iter().filter_map(|pane| {
        let (piece, pose) = (solved.pieces.get(pane.piece)?, poses.get(pane.piece)?);
        Some(Thing::pane(pane, &dressed.opening_lines, piece, pose, camera))
    }));
    if view.board {
        let corners: Vec<P3> = things.iter().flat_map(|t| t.solids.iter().flat_map(|s| s.corners()).copied()).collect();
        things.extend(Thing::board(&corners, camera));
    }
    things
}

fn thin_out(things: &mut [Thing], camera: &Camera) {
    let halves: Vec<Vec<Vec<HalfSpace>>> =
        things.iter().map(|t| t.solids.iter().map(|s| s.half_spaces()).collect()).collect();
    for (k, thing) in things.iter_mut().enumerate() {
        let others: Vec<Vec<HalfSpace>> =
            halves.iter().enumerate().filter(|(o, _)| *o != k).flat_map(|(_, h)| h.iter().cloned()).collect();
        thing.thin_out(&others, camera);
    }
}
