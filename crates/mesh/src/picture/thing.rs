use super::camera::Camera;
use super::facet::{Facet, Kind, facets};
use crate::chunk::chunk_solids;
use crate::region::Region;
use gable_drawing::{LineRole, Shade};
use gable_plane::{P3, Rigid, Solid};
use gable_shell::{Mode, Piece};

/// How far chords may be off arcs in a picture at full size, mm.
const CHORD: f64 = 0.02;
/// The same in pieces that had to be cut up; equal to that of the convex solids, so that faces match.
const COARSE: f64 = crate::chunk::CHORD;
/// Thickness of the drawn base board and how far it reaches past the house, mm.
const BOARD: f64 = 6.0;
const RIM: f64 = 22.0;
/// Share of the light that reaches the inside of a finished house.
const INDOORS: f64 = 0.55;

/// Something in the picture.
pub(crate) struct Thing {
    /// Convex solids in the house that cover it.
    pub(crate) solids: Vec<Solid>,
    /// Faces that are seen, in an order that is right when nothing else comes between.
    pub(crate) facets: Vec<Facet>,
    /// The same faces with the corners of the solids, for when it is cut up.
    pub(crate) coarse: Vec<Facet>,
    /// Outlines pressed into a face that is seen.
    pub(crate) pressed: Vec<Vec<P3>>,
}

impl Thing {
    pub(crate) fn piece(piece: &Piece, pose: &Rigid, finished: bool, camera: &Camera) -> Self {
        let thickness = piece.thickness.mm();
        let shaded = |region: &Region| {
            let mut found = facets(region, thickness, pose, camera);
            for facet in &mut found {
                dim(facet, piece, finished);
            }
            found
        };
        let facets = shaded(&Region::of(piece, CHORD));
        let outside = if piece.reference_is_outside() { (Kind::Reference, 0.0) } else { (Kind::Back, thickness) };
        let seen = facets.iter().any(|f| f.kind == outside.0);
        let lifted = |p: &gable_plane::P2| pose * P3::new(p.x, p.y, outside.1);
        let outlines = piece.openings.iter().filter(|o| seen && o.mode == Mode::Pressed);
        Self {
            solids: chunk_solids(piece).iter().map(|s| s.moved(pose)).collect(),
            facets,
            coarse: shaded(&Region::of(piece, COARSE).with_coarse_notches(COARSE)),
            pressed: outlines.map(|o| o.contour.flatten(CHORD).iter().map(lifted).collect()).collect(),
        }
    }

    /// A body of icing: white, without lines of its own.
    pub(crate) fn icing(solid: &Solid, camera: &Camera) -> Self {
        Self::convex(solid.clone(), camera, |_| Shade::Paper, None)
    }

    /// The base board under some points; nothing without points.
    pub(crate) fn board(corners: &[P3], camera: &Camera) -> Option<Self> {
        let low = corners.iter().copied().reduce(|a, b| a.coords.inf(&b.coords).into())?;
        let high = corners.iter().copied().reduce(|a, b| a.coords.sup(&b.coords).into())?;
        let top = low.z.min(0.0);
        let solid = Solid::block(
            P3::new(low.x - RIM, low.y - RIM, top - BOARD),
            P3::new(high.x + RIM, high.y + RIM, top),
        );
        Some(Self::convex(solid, camera, |_| Shade::Tint, Some(LineRole::Thin)))
    }

    fn convex(solid: Solid, camera: &Camera, shade: impl Fn(&Facet) -> Shade, role: Option<LineRole>) -> Self {
        let seen = solid.faces().iter().filter(|f| camera.sees(&f.normal));
        let facet = |f: &gable_plane::Face| {
            let (rings, roles) = (vec![f.corners.clone()], vec![vec![role; f.corners.len()]]);
            Facet { kind: Kind::Side, rings, roles, normal: f.normal, shade: Shade::Paper }
        };
        let mut facets: Vec<Facet> = seen.map(facet).collect();
        for facet in &mut facets {
            facet.shade = shade(facet);
        }
        Self { solids: vec![solid], coarse: facets.clone(), facets, pressed: Vec::new() }
    }
}

/// Roofs are baked a little darker, and the inside of a finished house lies in shade.
fn dim(facet: &mut Facet, piece: &Piece, finished: bool) {
    let Shade::Biscuit { light } = facet.shade else { return };
    let outside = match facet.kind {
        Kind::Reference => piece.reference_is_outside(),
        Kind::Back => !piece.reference_is_outside(),
        Kind::Side | Kind::Opening(_) => true,
    };
    let indoors = if finished && !outside { INDOORS } else { 1.0 };
    facet.shade = Shade::Biscuit { light: light * indoors };
}
