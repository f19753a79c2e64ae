//! A cut through the house: the half towards the eye is taken away, and what is cut is shown filled.

use super::model::{Body, Model};
use super::{PoseKey, Shown};
use gable_mesh::{Marked, cut, cut_line};
use gable_plane::{HalfSpace, P3, Rigid, V3};
use std::sync::Arc;
use three_d::{CpuMesh, InnerSpace, Positions, Srgba, Vec3, vec3};

/// The way from one end of the house to the other along which a cut is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Through {
    /// From the left to the right: the plane goes from front to back.
    FromLeft,
    /// From the front to the back: the plane goes from side to side.
    FromFront,
}

/// A cut: which way, and how far from that end of the house, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Section {
    /// Which way.
    pub(crate) through: Through,
    /// How far from the end.
    pub(crate) at: f64,
}

/// What a house that is cut depends on: the house and its fold, the plane, and which half is kept.
type Key = (PoseKey, Section, bool);

/// The house as it was cut last.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    key: Key,
    /// Another number for each cut.
    pub(super) number: u64,
    shown: Shown,
}

impl Through {
    /// The unit direction from the end.
    fn along(self) -> V3 {
        if self == Self::FromLeft { V3::x() } else { V3::y() }
    }

    /// Where the house begins and ends this way, mm.
    pub(super) fn span(self, (low, high): (P3, P3)) -> (f64, f64) {
        let along = self.along();
        (along.dot(&low.coords), along.dot(&high.coords))
    }
}

/// The house with the half towards `eye` cut off; `kept` is what was cut before. Nothing where there is nothing to cut.
pub(super) fn cut_off(
    shown: &Shown,
    (pose_key, pose): (PoseKey, &[Rigid]),
    section: Section,
    eye: P3,
    kept: &mut Option<Kept>,
) -> Option<Shown> {
    let along = section.through.along();
    let offset = section.through.span(shown.model.bounds(pose)?).0 + section.at;
    let beyond = along.dot(&eye.coords) > offset;
    let key = (pose_key, section, beyond);
    if kept.as_ref().is_none_or(|k| k.key != key) {
        let (normal, offset) = if beyond { (along, offset) } else { (-along, -offset) };
        let model = Arc::new(cut_model(&shown.model, pose, &HalfSpace { normal, offset }));
        let number = kept.as_ref().map_or(1, |k| k.number + 1);
        *kept = Some(Kept { key, number, shown: Shown { model, ..shown.clone() } });
    }
    kept.as_ref().map(|k| k.shown.clone())
}

/// What is left of all bodies, each in its own coordinates.
fn cut_model(model: &Arc<Model>, pose: &[Rigid], keep: &HalfSpace) -> Model {
    let local: Vec<HalfSpace> = pose.iter().map(|place| seen_from(keep, place)).collect();
    let own = |meshes: &[Option<Arc<CpuMesh>>]| {
        let cut = meshes.iter().zip(&local).map(|(mesh, keep)| Some(Arc::new(cut_mesh(mesh.as_deref()?, keep))));
        cut.collect()
    };
    Model {
        bodies: model.bodies.iter().zip(&local).map(|(body, keep)| cut_body(body, keep)).collect(),
        relief: own(&model.relief),
        panes: own(&model.panes),
        ornaments: model.ornaments.as_deref().map(|mesh| Arc::new(cut_mesh(mesh, keep))),
        things: model.things.iter().map(|(what, own)| (*what, cut_icing(own, keep))).collect(),
        icing: model.icing.iter().map(|solid| cut_icing(solid, keep)).collect(),
        uncut: Some(Arc::clone(model)),
    }
}

/// A half-space of the house in the coordinates of a piece.
fn seen_from(keep: &HalfSpace, place: &Rigid) -> HalfSpace {
    let point = P3::from(keep.normal * keep.offset);
    HalfSpace::through(place.inverse() * point, place.inverse() * keep.normal)
}

fn cut_body(body: &Body, keep: &HalfSpace) -> Body {
    let left = cut(&body.triangles, keep);
    let edges = body.edges.iter().filter_map(|edge| cut_line(*edge, keep)).chain(left.rims);
    Body {
        triangles: left.kept,
        crumb: left.faces.into_iter().map(|(t, _)| t).collect(),
        edges: edges.collect(),
        token: body.token,
    }
}

fn cut_icing(solid: &[[P3; 3]], keep: &HalfSpace) -> Vec<[P3; 3]> {
    let marked: Vec<Marked<()>> = solid.iter().map(|t| (*t, ())).collect();
    let left = cut(&marked, keep);
    left.kept.into_iter().chain(left.faces).map(|(t, ())| t).collect()
}

/// What is left of a mesh of loose triangles, with the faces of whatever of it is closed.
fn cut_mesh(mesh: &CpuMesh, keep: &HalfSpace) -> CpuMesh {
    let Positions::F32(positions) = &mesh.positions else { return CpuMesh::default() };
    let double = |p: &Vec3| P3::new(f64::from(p.x), f64::from(p.y), f64::from(p.z));
    let colour = |k: usize| mesh.colors.as_ref().and_then(|c| c.get(k)).copied().unwrap_or(Srgba::WHITE);
    let triangles = positions.chunks_exact(3).enumerate();
    let marked: Vec<Marked<Srgba>> =
        triangles.map(|(k, t)| ([double(&t[0]), double(&t[1]), double(&t[2])], colour(3 * k))).collect();
    let left = cut(&marked, keep);
    let (mut corners, mut normals, mut colours) = (Vec::new(), Vec::new(), Vec::new());
    for (triangle, colour) in left.kept.into_iter().chain(left.faces) {
        let [a, b, c] = triangle.map(|p| vec3(p.x as f32, p.y as f32, p.z as f32));
        let across = (b - a).cross(c - a);
        let normal = if across.magnitude2() > 0.0 { across.normalize() } else { vec3(0.0, 0.0, 1.0) };
        for corner in [a, b, c] {
            corners.push(corner);
            normals.push(normal);
            colours.push(colour);
        }
    }
    CpuMesh { positions: Positions::F32(corners), normals: Some(normals), colors: Some(colours), ..CpuMesh::default() }
}
