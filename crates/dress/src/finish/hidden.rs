use super::face::kind_of;
use crate::OrnamentPiece;
use gable_plane::{P3, V3};
use gable_shell::{Joint, JointEnd, PartId, Piece, Role, Solved, Where};
use std::collections::BTreeMap;

/// How far beyond the gap a face is looked at, mm: what stands on it is cut there.
const BEYOND: f64 = 0.2;

/// What stands on faces: the pieces and the icing of each part, cut by a plane just outside a face.
pub(crate) struct Standing<'a> {
    solved: &'a Solved,
    /// Lowest and highest corner of each part's box.
    boxes: Vec<(V3, V3)>,
}

impl<'a> Standing<'a> {
    pub(crate) fn new(solved: &'a Solved) -> Self {
        let none = (V3::repeat(f64::INFINITY), V3::repeat(f64::NEG_INFINITY));
        let grown = |(low, high): (V3, V3), p: P3| (low.inf(&p.coords), high.sup(&p.coords));
        let boxed = |part: &gable_shell::SolvedPart| {
            let own = solved.pieces.iter().filter(|p| p.part == part.id);
            own.flat_map(|p| corners(p).0.into_iter().chain(corners(p).1)).fold(none, grown)
        };
        Self { solved, boxes: solved.parts.iter().map(boxed).collect() }
    }

    /// Areas in the house that other parts take up on the outside of a piece, each convex: the walls of a part together,
    /// its other pieces one by one.
    pub(crate) fn on(&self, piece: &Piece) -> Vec<Vec<P3>> {
        let cut = Cut::above(piece, self.solved.gap.mm() + BEYOND);
        let own = corners(piece);
        let near = |k: &usize| {
            let (low, high) = self.boxes[*k];
            let heights = (0..8).map(|corner| {
                let pick = |axis: usize| if corner >> axis & 1 == 0 { low[axis] } else { high[axis] };
                cut.height(&P3::new(pick(0), pick(1), pick(2)))
            });
            let (least, most) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), h| (a.min(h), b.max(h)));
            least < 0.0 && most > 0.0 && overlaps(&own.0, low, high)
        };
        let mut areas = Vec::new();
        for k in (0..self.boxes.len()).filter(near) {
            let id = &self.solved.parts[k].id;
            if *id != piece.part {
                self.part(id, &cut, &mut areas);
            } else if kind_of(&piece.role) == Some(Where::Lids) {
                let strips = self.solved.pieces.iter().filter(|p| p.part == *id && matches!(p.role, Role::Parapet(_)));
                areas.extend(strips.map(|p| cut.of_piece(p)));
            }
        }
        areas.extend(self.iced(piece));
        areas.retain(|a| a.len() >= 3);
        areas
    }

    /// Areas within the icing between a piece and each other part.
    fn iced(&self, piece: &Piece) -> Vec<Vec<P3>> {
        let cut = Cut::above(piece, BEYOND);
        let of = |end: &JointEnd| if let JointEnd::Piece(k) = end { self.solved.pieces.get(*k) } else { None };
        let mut areas: BTreeMap<&PartId, Vec<P3>> = BTreeMap::new();
        for joint in &self.solved.joints {
            let other = match (of(&joint.ends[0]), of(&joint.ends[1])) {
                (Some(a), Some(b)) if a.id == piece.id => b,
                (Some(a), Some(b)) if b.id == piece.id => a,
                _ => continue,
            };
            if other.part != piece.part {
                let edges = joint.icing.iter().flat_map(|solid| solid.face_edges());
                areas.entry(&other.part).or_default().extend(edges.filter_map(|[a, b]| cut.of_edge(a, b)));
            }
        }
        areas.into_values().collect()
    }

    fn part(&self, id: &PartId, cut: &Cut, areas: &mut Vec<Vec<P3>>) {
        let pieces = || self.solved.pieces.iter().filter(|p| p.part == *id);
        areas.push(pieces().filter(|p| matches!(p.role, Role::Wall(_))).flat_map(|p| cut.of_piece(p)).collect());
        areas.extend(pieces().filter(|p| !matches!(p.role, Role::Wall(_))).map(|p| cut.of_piece(p)));
        let own = |end: &JointEnd| matches!(end, JointEnd::Piece(k) if self.solved.pieces.get(*k).is_some_and(|p| p.part == *id));
        let joints = self.solved.joints.iter().filter(|j: &&Joint| j.ends.iter().all(own));
        let iced = joints.flat_map(|j| &j.icing);
        areas.extend(iced.map(|solid| solid.face_edges().filter_map(|[a, b]| cut.of_edge(a, b)).collect()));
    }
}

/// Areas that ornaments take up on the outside of a piece, each convex, in the house.
pub(super) fn under_ornaments(piece: &Piece, index: usize, ornaments: &[OrnamentPiece]) -> Vec<Vec<P3>> {
    let cut = Cut::above(piece, BEYOND);
    let solids = ornaments.iter().filter(|o| o.host == Some(index)).flat_map(OrnamentPiece::solids);
    let areas = solids.map(|solid| solid.face_edges().filter_map(|[a, b]| cut.of_edge(a, b)).collect::<Vec<P3>>());
    areas.filter(|a| a.len() >= 3).collect()
}

/// Corners of both faces of a piece, in the house.
fn corners(piece: &Piece) -> (Vec<P3>, Vec<P3>) {
    let lift =
        |ring: &[gable_plane::P2], z: f64| ring.iter().map(|p| piece.house_from_piece * P3::new(p.x, p.y, z)).collect();
    (lift(&piece.outline, 0.0), lift(&piece.outline_back, piece.thickness.mm()))
}

/// Whether the box of some points meets another box.
fn overlaps(points: &[P3], low: V3, high: V3) -> bool {
    (0..3).all(|axis| {
        let along = || points.iter().map(|p| p[axis]);
        along().fold(f64::INFINITY, f64::min) < high[axis] + 1.0
            && along().fold(f64::NEG_INFINITY, f64::max) > low[axis] - 1.0
    })
}

struct Cut {
    at: P3,
    normal: V3,
}

impl Cut {
    /// A plane so far outside the face of a piece.
    fn above(piece: &Piece, distance: f64) -> Self {
        let (z, out) = if piece.reference_is_outside() { (0.0, -1.0) } else { (piece.thickness.mm(), 1.0) };
        let at = P3::new(0.0, 0.0, z + out * distance);
        Self { at: piece.house_from_piece * at, normal: piece.house_from_piece * V3::new(0.0, 0.0, out) }
    }

    fn height(&self, p: &P3) -> f64 {
        (p - self.at).dot(&self.normal)
    }

    fn of_edge(&self, a: &P3, b: &P3) -> Option<P3> {
        let (here, there) = (self.height(a), self.height(b));
        ((here < 0.0) != (there < 0.0)).then(|| a + (b - a) * (here / (here - there)))
    }

    fn of_ring(&self, ring: &[P3]) -> Vec<P3> {
        (0..ring.len()).filter_map(|k| self.of_edge(&ring[k], &ring[(k + 1) % ring.len()])).collect()
    }

    /// Where the edges of a piece go through the plane.
    fn of_piece(&self, piece: &Piece) -> Vec<P3> {
        let (front, back) = corners(piece);
        let mut points = self.of_ring(&front);
        points.extend(self.of_ring(&back));
        points.extend(std::iter::zip(&front, &back).filter_map(|(a, b)| self.of_edge(a, b)));
        points
    }
}
