use super::camera::Camera;
use crate::region::{Region, distance, edges};
use gable_drawing::{LineRole, Shade};
use gable_plane::{P2, P3, Rigid, V3};

/// Side faces that meet at a flatter angle are chords of one round face: no line between them (cosine of 30 degrees).
const SMOOTH: f64 = 0.866;

/// Which face of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// Face at z = 0.
    Reference,
    /// Face at z = thickness.
    Back,
    /// Cut edge round the outside.
    Side,
    /// Cut edge in the opening with this ring.
    Opening(usize),
}

/// One flat face as it is drawn, in the house.
#[derive(Clone, Debug)]
pub(crate) struct Facet {
    pub(crate) kind: Kind,
    /// First the outside, counter-clockwise seen from outside the piece, then holes.
    pub(crate) rings: Vec<Vec<P3>>,
    /// `roles[i][k]` is the line along the side from corner k of ring i.
    pub(crate) roles: Vec<Vec<Option<LineRole>>>,
    pub(crate) normal: V3,
    pub(crate) shade: Shade,
}

impl Facet {
    /// Whether it is a face, not a cut edge.
    pub(crate) fn is_face(&self) -> bool {
        matches!(self.kind, Kind::Reference | Kind::Back)
    }
}

/// The faces of a piece that the camera sees, those farther inside first: walls of openings, cut edges, then the face.
///
/// The face last is right for any plate: a line from the eye meets the plane of the face that it sees before anything else.
pub(crate) fn facets(region: &Region, thickness: f64, pose: &Rigid, camera: &Camera) -> Vec<Facet> {
    let lift = |rings: &[Vec<P2>], z: f64| -> Vec<Vec<P3>> {
        rings.iter().map(|r| r.iter().map(|p| pose * P3::new(p.x, p.y, z)).collect()).collect()
    };
    let (front, back) = (lift(&region.front, 0.0), lift(&region.back, thickness));
    let walls: Vec<Vec<V3>> = std::iter::zip(&front, &back).map(|(f, b)| side_normals(f, b)).collect();
    let seen: Vec<Vec<bool>> = walls.iter().map(|ring| ring.iter().map(|n| camera.sees(n)).collect()).collect();
    let down = pose * -V3::z();
    let edge_on = !camera.sees(&down) && !camera.sees(&-down);
    let mut found = Vec::new();
    for ring in (0..front.len()).rev() {
        let ends = [&front[ring], &back[ring]].map(Vec::as_slice);
        found.extend(side_facets(ring, ends, &walls[ring], &seen[ring], edge_on, camera));
    }
    let mut face = |kind: Kind, rings: Vec<Vec<P3>>, normal: V3| {
        if camera.sees(&normal) {
            let roles = seen.iter().enumerate().map(|(ring, seen)| face_roles(ring, seen)).collect();
            let shade = Shade::Biscuit { light: camera.light(&normal) };
            found.push(Facet { kind, rings, roles, normal, shade });
        }
    };
    face(Kind::Reference, front, down);
    face(Kind::Back, back, -down);
    found
}

/// Thick where the piece ends, thin where it goes on round the edge and round openings.
fn face_roles(ring: usize, seen: &[bool]) -> Vec<Option<LineRole>> {
    seen.iter().map(|&side| Some(if side || ring > 0 { LineRole::Thin } else { LineRole::Edge })).collect()
}

fn side_normals(front: &[P3], back: &[P3]) -> Vec<V3> {
    (0..front.len())
        .map(|k| {
            let next = (k + 1) % front.len();
            let across = (back[next] - front[k]).cross(&(back[k] - front[next]));
            across.try_normalize(1e-12).unwrap_or_else(V3::zeros)
        })
        .collect()
}

fn side_facets(
    ring: usize,
    [front, back]: [&[P3]; 2],
    normals: &[V3],
    seen: &[bool],
    edge_on: bool,
    camera: &Camera,
) -> Vec<Facet> {
    let count = front.len();
    let kind = if ring == 0 { Kind::Side } else { Kind::Opening(ring) };
    let ends = if ring == 0 { LineRole::Edge } else { LineRole::Thin };
    // Between two sides: nothing on a round one, thin on a crease, thick where the piece ends.
    let between = |k: usize, other: usize| match seen[other] {
        true if normals[k].dot(&normals[other]) > SMOOTH => None,
        true => Some(LineRole::Thin),
        false => Some(ends),
    };
    let facet = |k: usize| {
        let next = (k + 1) % count;
        // The near long side belongs to the face, unless neither face is seen.
        let near = edge_on.then_some(ends);
        let mut roles = vec![near, between(k, next), Some(ends), between(k, (k + count - 1) % count)];
        let mut ring = vec![front[k], front[next], back[next], back[k]];
        // Which one that is depends on the eye.
        if camera.nearness(&back[k]) > camera.nearness(&front[k]) {
            roles.swap(0, 2);
        }
        ring.dedup();
        roles.truncate(ring.len().max(1));
        let shade = Shade::Biscuit { light: camera.light(&normals[k]) };
        Facet { kind, rings: vec![ring], roles: vec![roles], normal: normals[k], shade }
    };
    (0..count).filter(|&k| seen[k]).map(facet).collect()
}

/// The lines of a facet, sides of one role joined to runs: role, corners, whether it closes.
pub(crate) fn runs(ring: &[P3], roles: &[Option<LineRole>]) -> Vec<(LineRole, Vec<P3>, bool)> {
    let count = ring.len().min(roles.len());
    let starts: Vec<usize> = (0..count).filter(|&k| roles[k] != roles[(k + count - 1) % count]).collect();
    if starts.is_empty() {
        return roles.first().copied().flatten().map(|role| (role, ring.to_vec(), true)).into_iter().collect();
    }
    let run = |i: usize| {
        let (from, to) = (starts[i], starts[(i + 1) % starts.len()]);
        let length = (to + count - from - 1) % count + 1;
        let role = roles[from]?;
        Some((role, (0..=length).map(|k| ring[(from + k) % count]).collect(), false))
    };
    (0..starts.len()).filter_map(run).collect()
}

/// The role of a line that lies along a side of the facet; `None` for a cut through it.
pub(crate) fn role_along(facet: &Facet, a: &P3, b: &P3) -> Option<LineRole> {
    let on = |p: &P3, side: [P3; 2]| distance(*p, side) < 1e-5;
    std::iter::zip(&facet.rings, &facet.roles).find_map(|(ring, roles)| {
        let sides = (0..ring.len()).map(|k| [ring[k], ring[(k + 1) % ring.len()]]);
        std::iter::zip(sides, roles).find(|(side, _)| on(a, *side) && on(b, *side)).map(|(_, role)| *role)?
    })
}

/// Whether a counter-clockwise ring is convex: all its corners lie on the left of every side.
pub(crate) fn is_convex(ring: &[P2]) -> bool {
    edges(ring).all(|[a, b]| ring.iter().all(|p| (b - a).perp(&(p - a)) >= -1e-9 * (b - a).norm().max(1.0)))
}
