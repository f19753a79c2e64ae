//! Doors: what was cut out, less some clearance, closed or ajar.

use super::bars::within;
use super::flat::grown;
use super::{Job, lifted};
use gable_measure::{Angle, Length};
use gable_plane::{Contour, P2, Rigid, V3, bounds};
use gable_shell::{DoughId, Hinge, Mode, OpeningId};
use gable_words::tr;

/// A door as a piece of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct DoorPiece {
    /// Stable name.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// The piece it hangs in, as an index into [`gable_shell::Solved::pieces`].
    pub piece: usize,
    /// The opening it hangs in.
    pub opening: OpeningId,
    /// Which copy of it.
    pub copy: usize,
    /// Its dough.
    pub dough: DoughId,
    /// Thickness it is rolled to.
    pub rolled: Length,
    /// Its outline at z = 0, counter-clockwise; x and y are those of the piece when it is closed.
    pub outline: Contour,
    /// Lines to press into it.
    pub pressed: Vec<[P2; 2]>,
    /// Thickness of the biscuit.
    pub thickness: Length,
    /// Whether z = 0 is its outer face.
    pub reference_is_outside: bool,
    /// Where the finished house has it.
    pub house_from_door: Rigid,
}

/// The door of an opening that is cut and has one; nothing where the clearance leaves nothing of it.
pub(super) fn piece(job: &Job<'_>) -> Option<DoorPiece> {
    let door = job.opening.door.filter(|_| job.shown.mode == Mode::Cut)?;
    let ring = grown(&job.ring, -door.clearance.mm()).into_iter().next()?.into_iter().next()?;
    let (low, high) = bounds(&ring)?;
    let pressed = if door.double { middle(&ring, (low, high)) } else { Vec::new() };
    let ajar = if door.double { Angle::ZERO } else { door.ajar };
    Some(DoorPiece {
        id: format!("{}-door", job.id()),
        name: tr!("{}: {}, door", job.piece.name, job.shown.name),
        piece: job.index,
        opening: job.shown.id.clone(),
        copy: job.shown.copy,
        dough: job.piece.dough.clone(),
        rolled: job.piece.rolled,
        outline: Contour::polygon(&ring),
        pressed,
        thickness: job.piece.thickness,
        reference_is_outside: job.piece.reference_is_outside(),
        house_from_door: job.piece.house_from_piece * swing(job, door.hinge, ajar, (low, high)),
    })
}

/// Turns about the outer edge on the side of the hinges, outwards.
///
/// Seen from outside, x of a wall's piece runs to the left and its z away from the beholder; x of a slope's piece runs to
/// the right and its z towards him. A turn by +a about y sends x to (cos a, -sin a) in x and z.
fn swing(job: &Job<'_>, hinge: Hinge, ajar: Angle, (low, high): (P2, P2)) -> Rigid {
    let wall = job.piece.reference_is_outside();
    let (outer, x) = match (wall, hinge) {
        (true, Hinge::Left) => (0.0, high.x),
        (true, Hinge::Right) => (0.0, low.x),
        (false, Hinge::Left) => (job.piece.thickness.mm(), low.x),
        (false, Hinge::Right) => (job.piece.thickness.mm(), high.x),
    };
    let sense = if hinge == Hinge::Left { -1.0 } else { 1.0 };
    let at = Rigid::translation(x, 0.0, 0.0) * lifted(outer);
    at * Rigid::rotation(V3::y() * (sense * ajar.rad())) * at.inverse()
}

/// The upright line down the middle of a ring.
pub(super) fn middle(ring: &[P2], (low, high): (P2, P2)) -> Vec<[P2; 2]> {
    let x = (low.x + high.x) / 2.0;
    within(&[P2::new(x, low.y - 1.0), P2::new(x, high.y + 1.0)], ring)
}
