use super::camera::Camera;
use gable_drawing::Shade;
use gable_dress::Covered;
use gable_plane::{P2, P3, Rigid, V3};

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
