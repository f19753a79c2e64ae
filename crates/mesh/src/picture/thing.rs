use super::camera::Camera;
use super::decal::Decal;
use super::facet::{Facet, Kind, facets};
use crate::chunk::chunk_solids;
use crate::order::middle;
use crate::ornament::{as_piece, darker, pressed_strips};
use crate::region::{Region, distance};
use gable_drawing::{LineRole, Shade};
use gable_dress::OrnamentPiece;
use gable_plane::{Face, HalfSpace, P2, P3, Rigid, Solid, V3};
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
/// Faces of icing that turn less than this (cosine) show no line between them: icing is smoothed with a finger.
const SOFT: f64 = 0.3;
/// What counts as close to an edge, mm: past it, and behind it.
const CLOSE: (f64, [f64; 3]) = (0.4, [0.3, 1.2, 2.4]);

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
    /// Patches of its finish, later ones over earlier ones.
    pub(crate) decals: Vec<Decal>,
    /// Whether it is icing, whose cuts nobody sees.
    pub(crate) soft: bool,
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
            solids: chunk_solids(piece, COARSE).iter().map(|s| s.moved(pose)).collect(),
            facets,
            coarse: shaded(&Region::of(piece, COARSE).with_coarse_notches(COARSE)),
            pressed: outlines.map(|o| o.contour.flatten(CHORD).iter().map(lifted).collect()).collect(),
            decals: Vec::new(),
            soft: false,
        }
    }

    /// An ornament where the finished house has it.
    pub(crate) fn ornament(ornament: &OrnamentPiece, camera: &Camera) -> Self {
        let place = &ornament.house_from_piece;
        let mut thing = Self::piece(&as_piece(ornament), place, false, camera);
        let coloured = |shade: Shade, rgb: [u8; 3]| match shade {
            Shade::Biscuit { light } => Shade::Coloured { rgb, light },
            other => other,
        };
        for facet in thing.facets.iter_mut().chain(&mut thing.coarse) {
            facet.shade = coloured(facet.shade, ornament.tint.rgb());
            // Ornaments are small: thick lines would hide them.
            for role in facet.roles.iter_mut().flatten().flatten() {
                *role = LineRole::Thin;
            }
        }
        let out = place * V3::z();
        if camera.sees(&out) {
            let shade = Shade::Coloured { rgb: darker(ornament.tint.rgb()), light: camera.light(&out) };
            let lift = |p: P2| place * P3::new(p.x, p.y, ornament.thickness.mm());
            let strips = pressed_strips(ornament);
            thing.decals = strips.map(|s| Decal { rings: vec![s.map(lift).to_vec()], shade, lined: false }).collect();
        }
        thing
    }

    /// The icing of one joint: white, with thin lines where it ends or turns.
    pub(crate) fn icing(solids: &[Solid], camera: &Camera) -> Self {
        let halves: Vec<Vec<HalfSpace>> = solids.iter().map(Solid::half_spaces).collect();
        let inside = |p: P3| halves.iter().any(|solid| solid.iter().all(|h| h.excess(&p) < 0.0));
        // Where two bodies of the joint touch there is no face, only icing.
        let bare = |f: &Face| !inside(middle_of(f) + f.normal * 0.02);
        let seen = solids.iter().flat_map(|s| s.faces()).filter(|f| camera.sees(&f.normal));
        let mut faces: Vec<Face> = seen.filter(bare).collect();
        let nearness = |f: &Face| camera.nearness(&middle_of(f));
        faces.sort_by(|a, b| nearness(a).total_cmp(&nearness(b)));
        let role = |face: &Face, k: usize| {
            let middle = nalgebra::center(&face.corners[k], &face.corners[(k + 1) % face.corners.len()]);
            let others = faces.iter().filter(|other| !std::ptr::eq(*other, face));
            let goes_on = others.clone().any(|f| face.normal.dot(&f.normal) > SOFT && on_rim(f, &middle));
            (!goes_on).then_some(LineRole::Thin)
        };
        let facet = |f: &Face| Facet {
            kind: Kind::Side,
            rings: vec![f.corners.clone()],
            roles: vec![(0..f.corners.len()).map(|k| role(f, k)).collect()],
            normal: f.normal,
            shade: Shade::Paper,
        };
        let facets: Vec<Facet> = faces.iter().map(facet).collect();
        Self {
            solids: solids.to_vec(),
            coarse: facets.clone(),
            facets,
            pressed: Vec::new(),
            decals: Vec::new(),
            soft: true,
        }
    }

    /// The base board under some points; nothing without points.
    pub(crate) fn board(corners: &[P3], camera: &Camera) -> Option<Self> {
        let low = corners.iter().copied().reduce(|a, b| a.coords.inf(&b.coords).into())?;
        let high = corners.iter().copied().reduce(|a, b| a.coords.sup(&b.coords).into())?;
        let top = low.z.min(0.0);
        let solid =
            Solid::block(P3::new(low.x - RIM, low.y - RIM, top - BOARD), P3::new(high.x + RIM, high.y + RIM, top));
        Some(Self::block(&solid, camera))
    }

    /// A convex solid in a tint, with thin lines.
    pub(crate) fn block(solid: &Solid, camera: &Camera) -> Self {
        let seen = solid.faces().filter(|f| camera.sees(&f.normal));
        let facet = |f: &Face| {
            let (rings, roles) = (vec![f.corners.clone()], vec![vec![Some(LineRole::Thin); f.corners.len()]]);
            Facet { kind: Kind::Side, rings, roles, normal: f.normal, shade: Shade::Tint }
        };
        let facets: Vec<Facet> = seen.map(|f| facet(&f)).collect();
        Self {
            coarse: facets.clone(),
            facets,
            solids: vec![solid.clone()],
            pressed: Vec::new(),
            decals: Vec::new(),
            soft: false,
        }
    }

    /// Makes thick lines thin where the edge lies against a neighbour: there it is a joint, not the end of something.
    pub(crate) fn thin_out(&mut self, neighbours: &[Vec<HalfSpace>], camera: &Camera) {
        for facet in self.facets.iter_mut().chain(&mut self.coarse) {
            for (ring, roles) in std::iter::zip(&facet.rings, &mut facet.roles) {
                for k in 0..roles.len() {
                    let side = [ring[k], ring[(k + 1) % ring.len()]];
                    if roles[k] == Some(LineRole::Edge) && lies_against(side, &facet.normal, neighbours, camera) {
                        roles[k] = Some(LineRole::Thin);
                    }
                }
            }
        }
    }
}

/// Whether something is close behind an edge, on the far side from its facet, along most of it.
fn lies_against([a, b]: [P3; 2], normal: &V3, neighbours: &[Vec<HalfSpace>], camera: &Camera) -> bool {
    let Some(out) = (b - a).cross(normal).try_normalize(1e-9) else { return false };
    let met = |share: f64| {
        let edge = a + (b - a) * share + out * CLOSE.0;
        CLOSE.1.iter().any(|depth| {
            let probe = edge - camera.to_eye * *depth;
            neighbours.iter().any(|solid| solid.iter().all(|half| half.excess(&probe) < 0.0))
        })
    };
    [0.2, 0.5, 0.8].into_iter().filter(|s| met(*s)).count() >= 2
}

fn middle_of(face: &Face) -> P3 {
    middle(&face.corners)
}

/// Whether a point lies on the rim of a face.
fn on_rim(face: &Face, p: &P3) -> bool {
    let count = face.corners.len();
    (0..count).any(|k| {
        let (a, b) = (face.corners[k], face.corners[(k + 1) % count]);
        distance(*p, [a, b]) < 0.02
    })
}

/// The inside of a finished house lies in shade.
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
