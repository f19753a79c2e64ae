//! What closes openings, as triangles: panes, bars and doors.

use crate::ornament::{ABOVE, LINE, darker, plate, strip};
use crate::solid::solid_of;
use crate::triangulate::triangulate;
use crate::{Theme, Token};
use gable_dress::{DoorPiece, OpeningLine, Pane};
use gable_plane::{P2, P3, Rigid};
use gable_shell::Piece;

/// Width of a piped bar, mm (common practice, no source: a fine plain nozzle), and how far it stands out.
pub(crate) const BAR: (f64, f64) = (1.2, 0.6);
/// How far chords of panes and doors may be off their arcs, mm.
const CHORD: f64 = 0.02;

/// The middle of a pane as triangles in the coordinates of its piece: glazing is seen from both sides.
pub fn pane_of(pane: &Pane, piece: &Piece) -> Vec<[P3; 3]> {
    let ring = pane.outline.flatten(CHORD);
    let place = to_piece(piece, &pane.house_from_pane);
    let lift = |k: usize| place * P3::new(ring[k].x, ring[k].y, pane.thickness.mm() / 2.0);
    let found = triangulate(std::slice::from_ref(&ring)).unwrap_or_default();
    found.into_iter().map(|t| t.map(lift)).collect()
}

/// Where something is in the coordinates of its piece.
pub(crate) fn to_piece(piece: &Piece, house_from_thing: &Rigid) -> Rigid {
    piece.house_from_piece.inverse() * house_from_thing
}

/// A line on an opening as triangles with their colours, in the coordinates of its piece: a bar of icing stands out, a
/// pressed line is only shown.
pub fn bar_of(line: &OpeningLine) -> Vec<([P3; 3], [u8; 3])> {
    let (width, height) = if line.pressed { (LINE, ABOVE) } else { BAR };
    let out = if line.faces_up { 1.0 } else { -1.0 };
    let Some(ring) = strip(&line.ends, width) else { return Vec::new() };
    let at = |k: usize, h: f64| P3::new(ring[k % 4].x, ring[k % 4].y, line.z.mm() + out * h);
    let turned = |[a, b, c]: [P3; 3]| if out > 0.0 { [a, b, c] } else { [a, c, b] };
    let mut triangles =
        vec![[at(0, height), at(1, height), at(2, height)], [at(0, height), at(2, height), at(3, height)]];
    if !line.pressed {
        triangles.extend((0..4).flat_map(|k| {
            [[at(k, 0.0), at(k + 1, 0.0), at(k + 1, height)], [at(k, 0.0), at(k + 1, height), at(k, height)]]
        }));
    }
    let rgb = line_colour(line.pressed);
    triangles.into_iter().map(|t| (turned(t), rgb)).collect()
}

/// The colour of a bar or a pressed line.
pub(crate) fn line_colour(pressed: bool) -> [u8; 3] {
    let colour = if pressed { Token::Pressed } else { Token::Icing }.srgb(Theme::Light);
    [colour.r, colour.g, colour.b]
}

/// A door as a piece of its own, in its own coordinates.
pub(crate) fn door_piece(door: &DoorPiece) -> Piece {
    plate(&door.id, &door.outline.flatten(CHORD), door.thickness, door.reference_is_outside)
}

/// Lines pressed into a door: strips in its plane, and where their face is along z and which way that looks.
pub(crate) fn door_lines(door: &DoorPiece) -> (Vec<[P2; 4]>, f64, f64) {
    let strips = door.pressed.iter().filter_map(|line| strip(line, LINE)).collect();
    if door.reference_is_outside { (strips, 0.0, -1.0) } else { (strips, door.thickness.mm(), 1.0) }
}

/// A door as triangles with their colours, in the house.
pub fn door_of(door: &DoorPiece) -> Vec<([P3; 3], [u8; 3])> {
    let solid = solid_of(&door_piece(door));
    let place = |p: P3| door.house_from_door * p;
    let biscuit = Token::BiscuitWall.srgb(Theme::Light);
    let tint = [biscuit.r, biscuit.g, biscuit.b];
    let corner = |k: u32| solid.positions.get(k as usize).copied().unwrap_or_default();
    let mut triangles: Vec<([P3; 3], [u8; 3])> =
        solid.triangles.iter().map(|t| (t.map(|k| place(corner(k))), tint)).collect();
    let (strips, z, out) = door_lines(door);
    for strip in strips {
        let [a, b, c, d] = strip.map(|p| place(P3::new(p.x, p.y, z + out * ABOVE)));
        let pair = if out > 0.0 { [[a, b, c], [a, c, d]] } else { [[a, c, b], [a, d, c]] };
        triangles.extend(pair.map(|t| (t, darker(tint))));
    }
    triangles
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_shell::{demo, solve};

    fn area([a, b, c]: &[P3; 3]) -> f64 {
        (b - a).cross(&(c - a)).norm() / 2.0
    }

    /// Area of the triangles against that of the outline, which is exact; bars lie on the outer side of their pane.
    #[test]
    fn panes_keep_their_area_and_bars_stand_out_of_them() {
        for name in demo::names() {
            let house = demo::house(name).unwrap();
            let solved = solve(&house);
            let dressed = gable_dress::dress(&house, &solved);
            for pane in &dressed.panes {
                let piece = &solved.pieces[pane.piece];
                let sum: f64 = pane_of(pane, piece).iter().map(area).sum();
                assert!((sum - pane.outline.area()).abs() < 5e-3 * sum, "{name} {} {sum}", pane.name);
            }
            for line in dressed.opening_lines.iter().filter(|l| !l.pressed) {
                let pane = dressed
                    .panes
                    .iter()
                    .find(|p| (p.piece, &p.opening, p.copy) == (line.piece, &line.opening, line.copy));
                let Some(pane) = pane else { continue };
                let piece = &solved.pieces[pane.piece];
                let ends = [0.0, pane.thickness.mm()]
                    .map(|z| (to_piece(piece, &pane.house_from_pane) * P3::new(0.0, 0.0, z)).z);
                let outer = if line.faces_up { ends[0].max(ends[1]) } else { ends[0].min(ends[1]) };
                assert!((line.z.mm() - outer).abs() < 1e-9, "{name} {}", pane.name);
            }
        }
    }
}
