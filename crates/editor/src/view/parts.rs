//! Meshes for the graphics card.

use super::model::{Body, board};
use super::scene::Scene;
use crate::marks::Tone;
use crate::theme::Palette;
use gable_mesh::{Srgb, Surface, Theme, Token};
use gable_plane::{P3, Rigid, V3};
use gable_shell::Glass;
use three_d::{
    Blend, ColorMaterial, Context, CpuMaterial, CpuMesh, Gm, InstancedMesh, Instances, Mat4, Mesh, PhysicalMaterial,
    Positions, Quat, Srgba, Vec3, WriteMask, vec3, vec4,
};

/// A rigid motion as the graphics card takes it.
pub(super) fn matrix(place: &Rigid) -> Mat4 {
    let m = place.to_homogeneous();
    let column = |k: usize| vec4(m[(0, k)] as f32, m[(1, k)] as f32, m[(2, k)] as f32, m[(3, k)] as f32);
    Mat4::from_cols(column(0), column(1), column(2), column(3))
}

fn flat(p: &P3) -> Vec3 {
    vec3(p.x as f32, p.y as f32, p.z as f32)
}

/// A named colour as the graphics card takes it.
pub(super) fn colour(token: Token, theme: Theme) -> Srgba {
    opaque(token.srgb(theme))
}

fn opaque(colour: Srgb) -> Srgba {
    Srgba::new_opaque(colour.r, colour.g, colour.b)
}

/// The colour of a piece; a selected one is paler, beside its coloured edges, and `pale` ones leave colour to others.
pub(super) fn biscuit(token: Token, chosen: bool, pale: bool, theme: Theme) -> Srgba {
    let share = if pale {
        0.75
    } else if chosen {
        0.3
    } else {
        0.0
    };
    opaque(token.srgb(theme).mixed(Token::Icing.srgb(theme), share))
}

/// The colour of a piece of which something is told: that of its sign.
pub(super) fn toned(tone: Tone, theme: Theme) -> Srgba {
    let colour = tone.colour(&Palette::of_theme(theme));
    Srgba::new_opaque(colour.r(), colour.g(), colour.b())
}

/// Cut edges are darker than faces, because the crust ends there.
fn tone_of(surface: Surface) -> Srgba {
    match surface {
        Surface::Reference | Surface::Back => Srgba::WHITE,
        Surface::Edge => Srgba::new_opaque(224, 208, 196),
    }
}

/// The inside of biscuit, where the house is cut through: darker than any face.
const CRUMB: Srgba = Srgba::new_opaque(150, 112, 84);

fn faceted(triangles: impl Iterator<Item = ([P3; 3], Srgba)>) -> CpuMesh {
    let (mut positions, mut normals, mut colours) = (Vec::new(), Vec::new(), Vec::new());
    for ([a, b, c], colour) in triangles {
        let normal = (b - a).cross(&(c - a)).try_normalize(1e-12).unwrap_or_else(V3::z);
        for p in [a, b, c] {
            positions.push(flat(&p));
            normals.push(vec3(normal.x as f32, normal.y as f32, normal.z as f32));
            colours.push(colour);
        }
    }
    CpuMesh {
        positions: Positions::F32(positions),
        normals: Some(normals),
        colors: Some(colours),
        ..CpuMesh::default()
    }
}

/// Triangles of many colours.
pub(super) fn coloured(triangles: Vec<([P3; 3], [u8; 3])>) -> CpuMesh {
    faceted(triangles.into_iter().map(|(t, [r, g, b])| (t, Srgba::new_opaque(r, g, b))))
}

/// Triangles of glazing, each of its material; seen through.
pub(super) fn glazed(triangles: Vec<([P3; 3], Glass)>) -> CpuMesh {
    let cover = (gable_drawing::Shade::GLASS_COVERS * 255.0) as u8;
    let tone = |glass: Glass| {
        let colour = Token::of_glass(glass).srgb(Theme::Light);
        Srgba::new(colour.r, colour.g, colour.b, cover)
    };
    faceted(triangles.into_iter().map(|(t, glass)| (t, tone(glass))))
}

/// Panes of a piece. They are drawn after everything opaque, the farthest first, and hide nothing for good.
pub(super) fn pane_part(context: &Context, panes: &CpuMesh) -> Gm<Mesh, ColorMaterial> {
    let clear = CpuMaterial { albedo: Srgba::WHITE, ..CpuMaterial::default() };
    Gm::new(Mesh::new(context, panes), ColorMaterial::new_transparent(context, &clear))
}

/// What stands out from a piece.
pub(super) fn relief_part(context: &Context, relief: &CpuMesh) -> Gm<Mesh, PhysicalMaterial> {
    Gm::new(Mesh::new(context, relief), matt(context))
}

/// Lets a piece be seen through, or no longer.
pub(super) fn clear(body: &mut Gm<Mesh, PhysicalMaterial>, clear: bool) {
    let material = &mut body.material;
    material.is_transparent = clear;
    material.albedo.a = if clear { CLEAR } else { 255 };
    (material.render_states.write_mask, material.render_states.blend) =
        if clear { (WriteMask::COLOR, Blend::TRANSPARENCY) } else { (WriteMask::COLOR_AND_DEPTH, Blend::Disabled) };
}

/// How much a wall that is seen through covers, of 255.
const CLEAR: u8 = 70;

fn matt(context: &Context) -> PhysicalMaterial {
    let matt = CpuMaterial { roughness: 0.95, metallic: 0.0, ..CpuMaterial::default() };
    PhysicalMaterial::new_opaque(context, &matt)
}

fn body_mesh(body: &Body) -> CpuMesh {
    let crust = body.triangles.iter().map(|(t, s)| (*t, tone_of(*s)));
    faceted(crust.chain(body.crumb.iter().map(|t| (*t, CRUMB))))
}

/// A piece of biscuit, without its colour.
pub(super) fn body_part(context: &Context, body: &Body) -> Gm<Mesh, PhysicalMaterial> {
    Gm::new(Mesh::new(context, &body_mesh(body)), matt(context))
}

/// Makes all that the graphics card is given for a scene, and throws it away; how many corners and rods that is.
pub(super) fn count(scene: &Scene) -> usize {
    let bounds = scene.model.bounds(&scene.pose);
    let size = bounds.map_or(100.0, |(low, high)| (high - low).norm());
    let posed = scene.model.bodies.iter().zip(scene.pose.iter()).zip(&scene.chosen);
    let bodies = posed.map(|((body, place), chosen)| {
        body_mesh(body).positions.len() + rods(body, place, *chosen, size).transformations.len()
    });
    let board = bounds.map_or(0, |bounds| board_mesh(bounds, scene.theme).positions.len());
    bodies.sum::<usize>() + board + icing_mesh(&scene.model.icing, scene.theme).positions.len()
}

fn icing_mesh(solids: &[Vec<[P3; 3]>], theme: Theme) -> CpuMesh {
    faceted(solids.iter().flatten().map(|t| (*t, colour(Token::Icing, theme))))
}

/// Icing; `None` where there is none.
pub(super) fn icing_part(
    context: &Context,
    solids: &[Vec<[P3; 3]>],
    theme: Theme,
) -> Option<Gm<Mesh, PhysicalMaterial>> {
    if solids.iter().all(Vec::is_empty) {
        return None;
    }
    Some(Gm::new(Mesh::new(context, &icing_mesh(solids, theme)), matt(context)))
}

/// The base board under everything.
pub(super) fn board_part(context: &Context, bounds: (P3, P3), theme: Theme) -> Gm<Mesh, PhysicalMaterial> {
    Gm::new(Mesh::new(context, &board_mesh(bounds, theme)), matt(context))
}

fn board_mesh(bounds: (P3, P3), theme: Theme) -> CpuMesh {
    let (a, b) = board(bounds);
    let triangles = box_faces(a, b).into_iter().flat_map(|[p, q, r, s]| [[p, q, r], [p, r, s]]);
    faceted(triangles.map(|t| (t, colour(Token::Board, theme))))
}

fn box_faces(a: P3, b: P3) -> [[P3; 4]; 6] {
    let p = |x: bool, y: bool, z: bool| {
        let pick = |upper: bool, low: f64, high: f64| if upper { high } else { low };
        P3::new(pick(x, a.x, b.x), pick(y, a.y, b.y), pick(z, a.z, b.z))
    };
    let (o, i) = (false, true);
    [
        [p(o, o, i), p(i, o, i), p(i, i, i), p(o, i, i)],
        [p(o, o, o), p(o, i, o), p(i, i, o), p(i, o, o)],
        [p(o, o, o), p(i, o, o), p(i, o, i), p(o, o, i)],
        [p(i, i, o), p(o, i, o), p(o, i, i), p(i, i, i)],
        [p(i, o, o), p(i, i, o), p(i, i, i), p(i, o, i)],
        [p(o, i, o), p(o, o, o), p(o, o, i), p(o, i, i)],
    ]
}

/// The sharp edges of a piece as thin rods; `size` is that of the house, mm.
pub(super) fn edge_part(
    context: &Context,
    body: &Body,
    place: &Rigid,
    (chosen, theme): (bool, Theme),
    size: f64,
) -> Gm<InstancedMesh, ColorMaterial> {
    let instances = rods(body, place, chosen, size);
    let color = colour(if chosen { Token::Selected } else { Token::BiscuitShadow }, theme);
    let material = ColorMaterial { color, ..ColorMaterial::default() };
    Gm::new(InstancedMesh::new(context, &instances, &CpuMesh::cylinder(6)), material)
}

fn rods(body: &Body, place: &Rigid, chosen: bool, size: f64) -> Instances {
    let radius = size * if chosen { 0.0030 } else { 0.0013 };
    let place = matrix(place);
    let transformations = body.edges.iter().map(|edge| place * rod(edge, radius)).collect();
    Instances { transformations, ..Instances::default() }
}

/// The unit cylinder along x, laid along an edge.
fn rod([from, to]: &[P3; 2], radius: f64) -> Mat4 {
    let (a, b) = (flat(from), flat(to));
    let along = b - a;
    let length = (to - from).norm() as f32;
    let turn = if length > 1e-6 {
        Quat::from_arc(vec3(1.0, 0.0, 0.0), along / length, None)
    } else {
        Quat::new(1.0, 0.0, 0.0, 0.0)
    };
    Mat4::from_translation(a) * Mat4::from(turn) * Mat4::from_nonuniform_scale(length, radius as f32, radius as f32)
}
