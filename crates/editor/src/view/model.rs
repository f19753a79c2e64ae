use super::parts::{coloured, glazed};
use gable_dress::Dressed;
use gable_mesh::{PieceSolid, Surface, Token, bar_of, door_of, ornament_of, pane_of, relief_of, solid_of};
use gable_plane::{P3, Rigid, V3};
use gable_shell::Solved;
use std::collections::BTreeMap;
use std::sync::Arc;
use three_d::CpuMesh;

/// A solved house as triangles and edges, made once for each answer of the solver.
#[derive(Clone, Debug)]
pub(crate) struct Model {
    /// One body for each piece, in the solver's order, in piece coordinates.
    pub(crate) bodies: Vec<Body>,
    /// What stands out from each piece, in piece coordinates, ready for the graphics card; none on bare pieces.
    pub(crate) relief: Vec<Option<Arc<CpuMesh>>>,
    /// The panes of each piece, in piece coordinates; none where there are none.
    pub(crate) panes: Vec<Option<Arc<CpuMesh>>>,
    /// All ornaments and doors, in the house; none where there are none.
    pub(crate) ornaments: Option<Arc<CpuMesh>>,
    /// Triangles of what is stuck on or stands free, in the house, by what it is.
    pub(crate) things: Vec<(Thing, Vec<[P3; 3]>)>,
    /// Icing of all joints, in the house, a closed body each.
    pub(crate) icing: Vec<Vec<[P3; 3]>>,
    /// The whole house, where this is what a cut has left of it.
    pub(crate) uncut: Option<Arc<Model>>,
}

/// What can be picked besides pieces, by its place in its list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Thing {
    /// Something that is stuck on.
    Ornament(usize),
    /// Something that stands free beside the house.
    Extra(usize),
}

/// A piece as triangles and edges.
#[derive(Clone, Debug)]
pub(crate) struct Body {
    /// Triangles with the surface each lies on, counter-clockwise from outside.
    pub(crate) triangles: Vec<([P3; 3], Surface)>,
    /// Faces where it is cut through, counter-clockwise from outside.
    pub(crate) crumb: Vec<[P3; 3]>,
    /// Sharp edges.
    pub(crate) edges: Vec<[P3; 2]>,
    /// Its colour in full light.
    pub(crate) token: Token,
}

impl Model {
    /// The triangles of a solved house.
    pub(crate) fn of(solved: &Solved, dressed: &Dressed) -> Self {
        let ornaments = dressed.ornaments.iter().map(|o| (Thing::Ornament(o.ornament), ornament_of(o)));
        let extras = dressed.extras.iter().map(|e| (Thing::Extra(e.ornament), ornament_of(e)));
        let made: Vec<_> = ornaments.chain(extras).collect();
        let things = made.iter().map(|(what, own)| (*what, own.iter().map(|(t, _)| *t).collect())).collect();
        let stuck: Vec<_> = made.into_iter().flat_map(|(_, own)| own).collect();
        let doors = dressed.doors.iter().flat_map(door_of);
        let stuck: Vec<_> = stuck.into_iter().chain(doors).collect();
        let ornaments = (!stuck.is_empty()).then(|| Arc::new(coloured(stuck)));
        let bodies = solved.pieces.iter().map(|p| Body::of(&solid_of(p), Token::of_role(&p.role))).collect();
        let solids = solved.joints.iter().flat_map(|joint| &joint.icing);
        let icing = solids.map(|solid| solid.faces().flat_map(|face| fan(&face.corners)).collect());
        Self {
            bodies,
            relief: relief(solved, dressed),
            panes: panes(solved, dressed),
            ornaments,
            things,
            icing: icing.collect(),
            uncut: None,
        }
    }

    /// What a picture of a pose must show: corners of all bodies and of the board under them.
    pub(crate) fn outermost(&self, pose: &[Rigid]) -> Vec<P3> {
        let Some(bounds) = self.bounds(pose) else { return Vec::new() };
        let (low, high) = board(bounds);
        let rim = [(low.x, low.y), (high.x, low.y), (high.x, high.y), (low.x, high.y)];
        let posed = self.bodies.iter().zip(pose);
        let corners = posed.flat_map(|(body, place)| body.edges.iter().flatten().map(move |p| place * p));
        corners.chain(rim.into_iter().map(|(x, y)| P3::new(x, y, low.z))).collect()
    }

    /// Lowest and highest corner of the box round all bodies in a pose.
    pub(crate) fn bounds(&self, pose: &[Rigid]) -> Option<(P3, P3)> {
        if let Some(whole) = &self.uncut {
            return whole.bounds(pose);
        }
        let posed = self.bodies.iter().zip(pose);
        let points = posed.flat_map(|(body, place)| body.edges.iter().flatten().map(move |p| place * p));
        points.fold(None, |found, p| match found {
            None => Some((p, p)),
            Some((low, high)) => Some((P3::from(low.coords.inf(&p.coords)), P3::from(high.coords.sup(&p.coords)))),
        })
    }
}

/// Lowest and highest corner of the board under what fills a box: a little larger all round.
pub(crate) fn board((low, high): (P3, P3)) -> (P3, P3) {
    let rim = 0.08 * (high - low).norm();
    let thick = 4.0;
    (P3::new(low.x - rim, low.y - rim, -thick), P3::new(high.x + rim, high.y + rim, -0.05))
}

impl Body {
    fn of(solid: &PieceSolid, token: Token) -> Self {
        let corner = |k: u32| solid.positions[k as usize];
        let triangles: Vec<_> = solid.triangles.iter().zip(&solid.surfaces).map(|(t, s)| (t.map(corner), *s)).collect();
        Self { edges: sharp_edges(solid), triangles, crumb: Vec::new(), token }
    }
}

/// Edges where the surface turns by more than 20 degrees, so that chords of an arc do not show.
fn sharp_edges(solid: &PieceSolid) -> Vec<[P3; 2]> {
    let mut sides: BTreeMap<(u32, u32), Vec<V3>> = BTreeMap::new();
    for t in &solid.triangles {
        let [a, b, c] = t.map(|k| solid.positions[k as usize]);
        let normal = (b - a).cross(&(c - a)).normalize();
        for (from, to) in [(t[0], t[1]), (t[1], t[2]), (t[2], t[0])] {
            sides.entry((from.min(to), from.max(to))).or_default().push(normal);
        }
    }
    let sharp = |normals: &[V3]| match normals {
        [a, b] => a.dot(b) < 20_f64.to_radians().cos(),
        _ => true,
    };
    let place = |k: u32| solid.positions[k as usize];
    sides.iter().filter(|(_, n)| sharp(n)).map(|((a, b), _)| [place(*a), place(*b)]).collect()
}

/// A convex polygon as triangles.
fn fan(corners: &[P3]) -> Vec<[P3; 3]> {
    let Some((&first, rest)) = corners.split_first() else { return Vec::new() };
    rest.windows(2).map(|pair| [first, pair[0], pair[1]]).collect()
}

/// What the finishes of each piece add to it.
fn relief(solved: &Solved, dressed: &Dressed) -> Vec<Option<Arc<CpuMesh>>> {
    let mut triangles = vec![Vec::new(); solved.pieces.len()];
    for covered in &dressed.finishes {
        if let (Some(own), Some(piece)) = (triangles.get_mut(covered.piece), solved.pieces.get(covered.piece)) {
            own.extend(relief_of(covered, piece));
        }
    }
    for line in &dressed.opening_lines {
        if let Some(own) = triangles.get_mut(line.piece) {
            own.extend(bar_of(line));
        }
    }
    let mesh = |own: Vec<_>| (!own.is_empty()).then(|| Arc::new(coloured(own)));
    triangles.into_iter().map(mesh).collect()
}

/// The panes of each piece.
fn panes(solved: &Solved, dressed: &Dressed) -> Vec<Option<Arc<CpuMesh>>> {
    let mut triangles = vec![Vec::new(); solved.pieces.len()];
    for pane in &dressed.panes {
        if let (Some(own), Some(piece)) = (triangles.get_mut(pane.piece), solved.pieces.get(pane.piece)) {
            own.extend(pane_of(pane, piece).into_iter().map(|t| (t, pane.glass)));
        }
    }
    let mesh = |own: Vec<_>| (!own.is_empty()).then(|| Arc::new(glazed(own)));
    triangles.into_iter().map(mesh).collect()
}
