//! Line-and-shade pictures, painted from the farthest to the nearest.

mod camera;
mod facet;
mod paint;
mod sort;
mod thing;

pub use camera::View;

use crate::{Pose, pose};
use camera::Camera;
use gable_drawing::Drawing;
use gable_plane::{P3, Rigid};
use gable_shell::Solved;
use paint::Painter;
use sort::Sprite;
use thing::Thing;

/// A picture of a house in a pose.
pub fn picture(solved: &Solved, at: Pose, view: &View) -> Drawing {
    picture_of(solved, &pose(solved, at), at == Pose::Standing, view)
}

/// A picture of pieces that stand where `poses` says, in the order of [`Solved::pieces`]; pieces beyond its end are left
/// out. Icing is drawn when the house stands finished.
pub fn picture_of(solved: &Solved, poses: &[Rigid], finished: bool, view: &View) -> Drawing {
    let camera = Camera::new(view);
    let things = things(solved, poses, finished, view, &camera);
    let axes = camera.axes();
    let whole = |(k, thing): (usize, &Thing)| Sprite::whole(k, thing.solids.clone(), &axes);
    let sprites = things.iter().enumerate().map(whole).collect();
    let ordered = sort::sorted(sprites, &camera.to_eye, &axes);
    let corners: Vec<P3> = things.iter().flat_map(|t| t.solids.iter().flat_map(|s| s.corners())).collect();
    let mut painter = Painter::new(camera, view, &corners);
    for sprite in &ordered {
        painter.paint(&things[sprite.thing], sprite);
    }
    painter.finished()
}

fn things(solved: &Solved, poses: &[Rigid], finished: bool, view: &View, camera: &Camera) -> Vec<Thing> {
    let shown = std::iter::zip(&solved.pieces, poses);
    let mut things: Vec<Thing> = shown.map(|(piece, pose)| Thing::piece(piece, pose, finished, camera)).collect();
    if view.icing && finished {
        let bodies = solved.joints.iter().flat_map(|j| &j.icing);
        things.extend(bodies.map(|solid| Thing::icing(solid, camera)));
    }
    if view.board {
        let corners: Vec<P3> = things.iter().flat_map(|t| t.solids.iter().flat_map(|s| s.corners())).collect();
        things.extend(Thing::board(&corners, camera));
    }
    things
}
