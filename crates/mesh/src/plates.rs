//! What is no piece of the house, as closed meshes: ornaments, doors, panes; each in its own coordinates.

use crate::PieceSolid;
use crate::glazing::door_piece;
use crate::ornament::{ABOVE, LINE, as_piece, darker, plate, strip};
use crate::solid::solid_of;
use crate::{Theme, Token};
use gable_dress::{DoorPiece, OrnamentPiece, Pane};
use gable_plane::{P2, P3};
use gable_shell::{Mode, Piece};

/// How far chords of panes and openings may be off their arcs, mm.
const CHORD: f64 = 0.02;

/// The closed mesh of an ornament or of something that stands free.
pub fn ornament_solid(ornament: &OrnamentPiece) -> PieceSolid {
    solid_of(&as_piece(ornament))
}

/// The closed mesh of a door.
pub fn door_solid(door: &DoorPiece) -> PieceSolid {
    solid_of(&door_piece(door))
}

/// The closed mesh of a pane.
pub fn pane_solid(pane: &Pane) -> PieceSolid {
    solid_of(&plate(&pane.id, &pane.outline.flatten(CHORD), pane.thickness, false))
}

/// Outlines pressed into the outer face of a piece, as triangles with their colours a little above it, in piece
/// coordinates; counter-clockwise seen from outside.
pub fn pressed_of(piece: &Piece) -> Vec<([P3; 3], [u8; 3])> {
    let (z, out) = if piece.reference_is_outside() { (0.0, -1.0) } else { (piece.thickness.mm(), 1.0) };
    let biscuit = Token::of_role(&piece.role).srgb(Theme::Light);
    let rgb = darker([biscuit.r, biscuit.g, biscuit.b]);
    let rings = piece.openings.iter().filter(|o| o.mode == Mode::Pressed).map(|o| o.contour.flatten(CHORD));
    let sides =
        rings.flat_map(|ring| (0..ring.len()).map(move |k| [ring[k], ring[(k + 1) % ring.len()]]).collect::<Vec<_>>());
    let lift = |p: P2| P3::new(p.x, p.y, z + out * ABOVE);
    let strips = sides.filter_map(|side| strip(&side, LINE));
    let triangles = strips.flat_map(|ring| {
        let [a, b, c, d] = ring.map(lift);
        if out > 0.0 { [[a, b, c], [a, c, d]] } else { [[a, c, b], [a, d, c]] }
    });
    triangles.map(|t| (t, rgb)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_shell::{demo, solve};

    /// Area times thickness: all of them are cut straight.
    #[test]
    fn plates_hold_their_area_times_their_thickness() {
        let house = demo::house("pilot-house").unwrap();
        let dressed = gable_dress::dress(&house, &solve(&house));
        let near = |a: f64, b: f64| (a - b).abs() < 1e-3 * b;
        for o in dressed.ornaments.iter().chain(&dressed.extras) {
            assert!(near(ornament_solid(o).volume_mm3, o.area() * o.thickness.mm()), "{}", o.name);
        }
        for pane in &dressed.panes {
            assert!(near(pane_solid(pane).volume_mm3, pane.outline.area() * pane.thickness.mm()), "{}", pane.name);
        }
        for door in &dressed.doors {
            assert!(near(door_solid(door).volume_mm3, door.outline.area() * door.thickness.mm()), "{}", door.name);
        }
    }
}
