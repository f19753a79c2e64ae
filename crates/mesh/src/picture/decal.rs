use super::camera::Camera;
use crate::glazing::{BAR, line_colour};
use crate::ornament::{LINE, strip};
use gable_drawing::Shade;
use gable_dress::{Covered, OpeningLine};
use gable_plane::{P2, P3, Rigid, V3};
use gable_shell::Piece;

/// A flat patch of colour on a face of a piece: a unit of a finish, or what shows between them.
#[derive(Clone, Debug)]
pub(crate) struct Decal {
    /// Rim and holes, in the house.
    pub(crate) rings: Vec<Vec<P3>>,
    pub(crate) shade: Shade,
    /// Whether a fine line runs round it.
    pub(crate) lined: bool,
}

/// The patches of a finish where its piece stands; none when the face looks away from the eye.
pub(crate) fn decals(covered: &Covered, pose: &Rigid, camera: &Camera) -> Vec<Decal> {
    let out = if covered.faces_up { V3::z() } else { -V3::z() };
    let normal = pose * out;
    if !camera.sees(&normal) {
        return Vec::new();
    }
    let light = camera.light(&normal);
    let lift = |ring: &Vec<P2>| ring.iter().map(|p| pose * P3::new(p.x, p.y, covered.z.mm())).collect::<Vec<P3>>();
    let coloured = |rgb: [u8; 3]| Shade::Coloured { rgb, light };
    let ground = covered.ground.map(|tint| Decal {
        rings: covered.area.iter().map(lift).collect(),
        shade: coloured(tint.rgb()),
        lined: false,
    });
    let units = covered.units.iter().map(|unit| Decal {
        rings: std::iter::once(&unit.outline).chain(&unit.holes).map(lift).collect(),
        shade: coloured(covered.tints.get(unit.shade).copied().unwrap_or_default().rgb()),
        lined: true,
    });
    ground.into_iter().chain(units).collect()
}

/// Whether a line of an opening lies on the biscuit, not on a pane.
pub(crate) fn on_biscuit(line: &OpeningLine, piece: &Piece) -> bool {
    let outside = if piece.reference_is_outside() { 0.0 } else { piece.thickness.mm() };
    (line.z.mm() - outside).abs() < 1e-9
}

/// A bar or a pressed line as a patch on the face that it lies on; none when the face looks away from the eye.
pub(crate) fn line_decal(line: &OpeningLine, pose: &Rigid, camera: &Camera) -> Option<Decal> {
    let normal = pose * if line.faces_up { V3::z() } else { -V3::z() };
    let width = if line.pressed { LINE } else { BAR.0 };
    let ring = strip(&line.ends, width).filter(|_| camera.sees(&normal))?;
    let shade = Shade::Coloured { rgb: line_colour(line.pressed), light: camera.light(&normal) };
    let lift = |p: P2| pose * P3::new(p.x, p.y, line.z.mm());
    Some(Decal { rings: vec![ring.map(lift).to_vec()], shade, lined: false })
}
