//! Panes and doors as things in the picture.

use super::camera::Camera;
use super::decal::Decal;
use super::thing::Thing;
use crate::Token;
use crate::colour::Theme;
use crate::glazing::{BAR, door_lines, door_piece, line_colour, to_piece};
use crate::ornament::{darker, plate, strip};
use gable_drawing::{LineRole, Shade};
use gable_dress::{DoorPiece, OpeningLine, Pane};
use gable_plane::{P2, P3, Rigid, V3, bounds};
use gable_shell::{Glass, Piece};

/// How far chords may be off the arcs of panes, mm.
const CHORD: f64 = 0.02;

impl Thing {
    /// A pane with the bars on it. Sugar is drawn as its inner face, level with that of its piece: a body within the
    /// opening would hide some of the opening while other parts of it hide the body.
    pub(crate) fn pane(pane: &Pane, lines: &[OpeningLine], piece: &Piece, pose: &Rigid, camera: &Camera) -> Self {
        let thin = gable_dress::glass_facts(Glass::Leaf).thickness;
        let ring = pane.outline.flatten(CHORD);
        let inner = if piece.reference_is_outside() { piece.thickness.mm() } else { -thin.mm() };
        let place = pose * to_piece(piece, &pane.house_from_pane);
        let level = (to_piece(piece, &pane.house_from_pane).inverse() * P3::new(0.0, 0.0, inner)).z;
        let place = place * Rigid::translation(0.0, 0.0, level);
        let mut thing = Self::piece(&plate(&pane.id, &ring, thin, false), &place, false, camera);
        let colour = Token::of_glass(pane.glass).srgb(Theme::Light);
        let glass = |shade: Shade| match shade {
            Shade::Biscuit { light } => Shade::Glass { rgb: [colour.r, colour.g, colour.b], light },
            other => other,
        };
        // The edge of a leaf is a tenth of a millimetre: a line says all.
        thing.facets.retain(|f| f.is_face());
        for facet in thing.facets.iter_mut().chain(&mut thing.coarse) {
            facet.shade = glass(facet.shade);
            facet.roles.iter_mut().flatten().for_each(|role| *role = Some(LineRole::Fine));
        }
        let own = lines
            .iter()
            .filter(|l| !l.pressed && (l.piece, &l.opening, l.copy) == (pane.piece, &pane.opening, pane.copy));
        let box_round = bounds(&ring).unwrap_or_default();
        let bars: Vec<Vec<P2>> = own.filter_map(|l| strip(&l.ends, BAR.0)).map(|s| in_box(&s, box_round)).collect();
        thing.decals = face_decals(&bars, (&place, thin.mm()), line_colour(false), camera);
        thing
    }

    /// A door where the finished house has it.
    pub(crate) fn door(door: &DoorPiece, camera: &Camera) -> Self {
        let place = &door.house_from_door;
        let mut thing = Self::piece(&door_piece(door), place, false, camera);
        let (strips, z, out) = door_lines(door);
        let normal = place * (V3::z() * out);
        if camera.sees(&normal) {
            let biscuit = Token::BiscuitWall.srgb(Theme::Light);
            let rgb = darker([biscuit.r, biscuit.g, biscuit.b]);
            let shade = Shade::Coloured { rgb, light: camera.light(&normal) };
            let lift = |p: P2| place * P3::new(p.x, p.y, z);
            let decal = |s: [P2; 4]| Decal { rings: vec![s.map(lift).to_vec()], shade, lined: false };
            thing.decals = strips.into_iter().map(decal).collect();
        }
        thing
    }
}

/// Patches on whichever face of a thin plate is seen.
fn face_decals(rings: &[Vec<P2>], (place, thick): (&Rigid, f64), rgb: [u8; 3], camera: &Camera) -> Vec<Decal> {
    let up = place * V3::z();
    let (z, normal) = if camera.sees(&up) { (thick, up) } else { (0.0, -up) };
    if !camera.sees(&normal) {
        return Vec::new();
    }
    let shade = Shade::Coloured { rgb, light: camera.light(&normal) };
    let lift = |ring: &Vec<P2>| ring.iter().map(|p| place * P3::new(p.x, p.y, z)).collect::<Vec<P3>>();
    let kept = rings.iter().filter(|r| r.len() > 2);
    kept.map(|ring| Decal { rings: vec![lift(ring)], shade, lined: false }).collect()
}

/// What of a convex ring lies in an upright box: where a pane is cut, each half has half of the bar over the cut.
fn in_box(ring: &[P2], (low, high): (P2, P2)) -> Vec<P2> {
    let corners = [low, P2::new(high.x, low.y), high, P2::new(low.x, high.y)];
    let sides: Vec<[P2; 2]> = (0..4).map(|k| [corners[k], corners[(k + 1) % 4]]).collect();
    super::paint::clipped_to(ring, &sides)
}
