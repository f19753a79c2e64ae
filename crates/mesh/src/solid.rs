use crate::region::Region;
use crate::triangulate::triangulate;
use gable_plane::{P2, P3, ring_area};
use gable_shell::{OpeningId, Piece};
use std::collections::BTreeMap;

/// How far the chords of a round opening may be off its arc, mm: a fifth of what a knife can follow.
const CHORD: f64 = 0.02;

/// Which surface of a piece a triangle belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Surface {
    /// The face at z = 0.
    Reference,
    /// The face at z = thickness.
    Back,
    /// Cut edges, round the piece and in its openings.
    Edge,
}

/// The closed triangle mesh of one piece, in piece coordinates, with its measures.
///
/// Every directed side of a triangle is met by exactly one in the other direction. Triangles run counter-clockwise seen
/// from outside.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceSolid {
    /// Corners, each place once, mm.
    pub positions: Vec<P3>,
    /// Indices of corners.
    pub triangles: Vec<[u32; 3]>,
    /// `surfaces[k]` is where `triangles[k]` belongs.
    pub surfaces: Vec<Surface>,
    /// Volume of the biscuit with openings cut and arcs exact, mm³.
    pub volume_mm3: f64,
    /// Area of the reference face with openings cut and arcs exact, mm².
    pub area_mm2: f64,
    /// Cut openings that meet another one or the outline: they are not cut in this mesh.
    pub left_out: Vec<OpeningId>,
}

/// The closed mesh of a piece.
///
/// Cut openings go straight through, pressed ones stay closed. A piece whose outline crosses itself, which the
/// solver never gives, has no triangles.
pub fn solid_of(piece: &Piece) -> PieceSolid {
    let region = Region::of(piece, CHORD);
    let thickness = piece.thickness.mm();
    let mut mesh = Mesh::default();
    mesh.add(&region, thickness);
    let caps: f64 = region.cut.iter().map(|&k| between_arcs_and_chords(piece, k)).sum();
    PieceSolid {
        positions: mesh.positions,
        triangles: mesh.triangles,
        surfaces: mesh.surfaces,
        volume_mm3: (mean_area(&region) - caps) * thickness,
        area_mm2: rings_area(&region.front) - caps,
        left_out: region.left_out.iter().map(|&k| piece.openings[k].id.clone()).collect(),
    }
}

fn between_arcs_and_chords(piece: &Piece, opening: usize) -> f64 {
    let contour = &piece.openings[opening].contour;
    contour.area().abs() - ring_area(&contour.flatten(CHORD)).abs()
}

fn rings_area(rings: &[Vec<P2>]) -> f64 {
    rings.iter().map(|r| ring_area(r)).sum()
}

/// Simpson's rule over the thickness; exact, because corners move along straight lines and so the area is quadratic in z.
fn mean_area(region: &Region) -> f64 {
    let middle: Vec<Vec<P2>> = std::iter::zip(&region.front, &region.back)
        .map(|(f, b)| std::iter::zip(f, b).map(|(p, q)| nalgebra::center(p, q)).collect())
        .collect();
    (rings_area(&region.front) + 4.0 * rings_area(&middle) + rings_area(&region.back)) / 6.0
}

#[derive(Default)]
struct Mesh {
    positions: Vec<P3>,
    triangles: Vec<[u32; 3]>,
    surfaces: Vec<Surface>,
    known: BTreeMap<[u64; 3], u32>,
}

impl Mesh {
    fn add(&mut self, region: &Region, thickness: f64) {
        let (Some(front), Some(back)) = (triangulate(&region.front), triangulate_merged(&region.back)) else { return };
        let low = self.corners(&region.front, 0.0);
        let high = self.corners(&region.back, thickness);
        for [a, b, c] in front {
            self.triangle([low[a], low[c], low[b]], Surface::Reference);
        }
        for [a, b, c] in back {
            self.triangle([high[a], high[b], high[c]], Surface::Back);
        }
        let mut start = 0;
        for ring in &region.front {
            for k in 0..ring.len() {
                let (here, next) = (start + k, start + (k + 1) % ring.len());
                self.triangle([low[here], low[next], high[next]], Surface::Edge);
                self.triangle([low[here], high[next], high[here]], Surface::Edge);
            }
            start += ring.len();
        }
    }

    fn corners(&mut self, rings: &[Vec<P2>], z: f64) -> Vec<u32> {
        rings.iter().flatten().map(|p| self.corner(P3::new(p.x, p.y, z))).collect()
    }

    fn corner(&mut self, p: P3) -> u32 {
        // Adding zero turns -0 into 0, which would else be another place.
        let key = [p.x, p.y, p.z].map(|c| (c + 0.0).to_bits());
        let next = self.positions.len() as u32;
        let index = *self.known.entry(key).or_insert(next);
        if index == next {
            self.positions.push(p);
        }
        index
    }

    fn triangle(&mut self, corners: [u32; 3], surface: Surface) {
        let [a, b, c] = corners;
        if a != b && b != c && c != a {
            self.triangles.push(corners);
            self.surfaces.push(surface);
        }
    }
}

/// Triangles of rings in which corners may coincide: a bevelled face can run out to an edge or a point.
fn triangulate_merged(rings: &[Vec<P2>]) -> Option<Vec<[usize; 3]>> {
    let mut kept_rings: Vec<Vec<P2>> = Vec::new();
    let mut origin: Vec<usize> = Vec::new();
    let mut start = 0;
    for ring in rings {
        let kept: Vec<usize> =
            (0..ring.len()).filter(|&k| ring[k] != ring[(k + ring.len() - 1) % ring.len()]).collect();
        if kept.len() >= 3 {
            kept_rings.push(kept.iter().map(|&k| ring[k]).collect());
            origin.extend(kept.iter().map(|k| start + k));
        }
        start += ring.len();
    }
    if kept_rings.is_empty() {
        return Some(Vec::new());
    }
    Some(triangulate(&kept_rings)?.into_iter().map(|t| t.map(|i| origin[i])).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{self, ring};
    use gable_plane::V3;
    use gable_shell::{Role, SideId};
    use std::collections::BTreeMap;

    /// Volume by the divergence theorem, after checking that each directed side has exactly one partner.
    fn closed_volume(mesh: &PieceSolid) -> f64 {
        let mut sides: BTreeMap<(u32, u32), i32> = BTreeMap::new();
        for t in &mesh.triangles {
            for (a, b) in [(t[0], t[1]), (t[1], t[2]), (t[2], t[0])] {
                *sides.entry((a, b)).or_default() += 1;
            }
        }
        assert!(sides.iter().all(|(&(a, b), &n)| n == 1 && sides.get(&(b, a)) == Some(&1)));
        let corner = |i: u32| mesh.positions[i as usize].coords;
        mesh.triangles.iter().map(|t| corner(t[0]).dot(&corner(t[1]).cross(&corner(t[2]))) / 6.0).sum()
    }

    fn piece(front: &[gable_plane::P2], back: &[gable_plane::P2]) -> Piece {
        let role = Role::Wall(SideId("front".into()));
        let mut piece = sample::plate(role, front, 6.0, P3::origin(), V3::x(), V3::y());
        piece.outline_back = back.to_vec();
        piece
    }

    /// Closed forms: a pentagon of 100 x 80 with a triangle 50 tan 40 high on top, less a door 30 wide and 50 high with a
    /// round head of radius 15.
    #[test]
    fn a_gable_wall_with_a_round_headed_door_measures_as_by_hand() {
        let solved = sample::gable();
        let mesh = solid_of(&solved.pieces[0]);
        let door = 30.0 * 35.0 + std::f64::consts::PI * 15.0 * 15.0 / 2.0;
        let area = 100.0 * 80.0 + 50.0 * 50.0 * 40f64.to_radians().tan() - door;
        assert!((mesh.area_mm2 - area).abs() < 1e-9);
        assert!((mesh.volume_mm3 - area * 6.0).abs() < 1e-8);
        // Chords off by 0.02 mm along 47 mm of arc leave less than 1 mm² of the hole standing.
        assert!((closed_volume(&mesh) - area * 6.0).abs() < 6.0);
        assert!(mesh.left_out.is_empty());
    }

    #[test]
    fn every_piece_of_a_house_is_closed_and_pressed_panels_stay() {
        for piece in &sample::gable().pieces {
            let mesh = solid_of(piece);
            assert!((closed_volume(&mesh) - mesh.volume_mm3).abs() < 6.0, "{}", piece.name);
        }
        let left = solid_of(&sample::gable().pieces[3]);
        assert!((left.area_mm2 - 126.0 * 80.0).abs() < 1e-9);
    }

    /// Frustum of a pyramid: h (A + a + √(A a)) / 3; and a wedge that runs out to an edge: half the prism.
    #[test]
    fn bevelled_pieces_measure_as_frustum_and_wedge() {
        let base = ring(&[(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)]);
        let top = ring(&[(5.0, 5.0), (35.0, 5.0), (35.0, 35.0), (5.0, 35.0)]);
        let frustum = solid_of(&piece(&base, &top));
        let volume = 6.0 * (1600.0 + 900.0 + 1200.0) / 3.0;
        assert!((frustum.volume_mm3 - volume).abs() < 1e-9);
        assert!((closed_volume(&frustum) - volume).abs() < 1e-9);
        let edge = ring(&[(0.0, 0.0), (40.0, 0.0), (40.0, 0.0), (0.0, 0.0)]);
        let wedge = solid_of(&piece(&base, &edge));
        assert!((wedge.volume_mm3 - 1600.0 * 3.0).abs() < 1e-9);
        assert!((closed_volume(&wedge) - 1600.0 * 3.0).abs() < 1e-9);
    }

    #[test]
    fn openings_that_meet_are_reported_and_leave_a_closed_mesh() {
        let mut solved = sample::gable();
        let door = solved.pieces[0].openings[0].clone();
        let moved = door.contour.mapped(false, |p| p + gable_plane::V2::new(10.0, 0.0));
        solved.pieces[0].openings.push(gable_shell::PieceOpening {
            id: OpeningId("second".into()),
            contour: moved,
            ..door
        });
        let mesh = solid_of(&solved.pieces[0]);
        assert_eq!(mesh.left_out, [OpeningId("second".into())]);
        assert!((closed_volume(&mesh) - mesh.volume_mm3).abs() < 6.0);
    }
}
