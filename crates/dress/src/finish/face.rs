use super::border::Border;
use gable_plane::{P2, P3, V2, V3};
use gable_shell::{House, Piece, Role, Solved, Where};

/// Openings are flattened within this, mm: what solids allow.
const FLAT: f64 = 0.02;

/// The outside of a piece, seen from outside: u to the right, v up.
pub(crate) struct Face {
    origin: P2,
    right: V2,
    up: V2,
    /// z of the face in the piece.
    pub(crate) z: f64,
    /// Whether outside is where z grows.
    pub(crate) faces_up: bool,
    /// Length of the side between the typed corners, for walls: u runs from 0 to here.
    pub(crate) side: Option<f64>,
    /// Number of the side in its part.
    pub(crate) number: usize,
    /// Areas of the piece in the coordinates of the face.
    pub(crate) border: Border,
}

/// Which kind of face a piece shows to the outside, and on which side; `None` for floors and posts.
pub(crate) fn kind_of(role: &Role) -> Option<Where> {
    match role {
        Role::Floor | Role::Layer(_) | Role::Post(..) => None,
        Role::Wall(_) | Role::Parapet(_) => Some(Where::Walls),
        Role::Slope(..) => Some(Where::Slopes),
        Role::Lid => Some(Where::Lids),
    }
}

impl Face {
    /// The outside of a piece; `None` for floors, posts and pieces that are nothing.
    pub(crate) fn of(house: &House, solved: &Solved, piece: &Piece) -> Option<Self> {
        kind_of(&piece.role)?;
        let outside_up = !piece.reference_is_outside();
        let up = piece.up.try_normalize(f64::EPSILON)?;
        // Right is look × up; one looks along z at a wall and against z at a roof.
        let right = if outside_up { V2::new(up.y, -up.x) } else { V2::new(-up.y, up.x) };
        let (ring, z) = if outside_up { (&piece.outline_back, piece.thickness.mm()) } else { (&piece.outline, 0.0) };
        let corner = wall_corner(house, solved, piece);
        let to_face = |origin: P2| move |p: &P2| P2::new((p - origin).dot(&right), (p - origin).dot(&up));
        let origin = match &corner {
            Some(corner) => corner.start,
            None => middle_of_foot(&ring.iter().map(to_face(P2::origin())).collect::<Vec<_>>(), right, up)?,
        };
        let rim: Vec<P2> = ring.iter().map(to_face(origin)).collect();
        let holes: Vec<Vec<P2>> =
            piece.openings.iter().map(|o| o.contour.flatten(FLAT).iter().map(to_face(origin)).collect()).collect();
        let (side, number) = corner.map_or((None, 0), |c| (Some(c.length), c.number));
        Some(Self { origin, right, up, z, faces_up: outside_up, side, number, border: Border::new(&rim, &holes) })
    }

    /// A point of the face in the coordinates of the piece.
    pub(crate) fn to_piece(&self, p: P2) -> P2 {
        self.origin + self.right * p.x + self.up * p.y
    }

    /// The face without what lies behind other parts, or under strips that stand on it.
    pub(crate) fn uncovered(self, house_areas: &[Vec<P3>], piece: &Piece) -> Self {
        let flat = |area: &Vec<P3>| {
            let points = area.iter().map(|p| self.of_piece(piece.house_from_piece.inverse_transform_point(p).xy()));
            gable_plane::convex_hull(&points.collect::<Vec<P2>>())
        };
        let areas: Vec<Vec<P2>> = house_areas.iter().map(flat).filter(|a| a.len() >= 3).collect();
        if areas.is_empty() { self } else { Self { border: self.border.without(&areas), ..self } }
    }

    /// A point of the piece in the coordinates of the face.
    pub(crate) fn of_piece(&self, p: P2) -> P2 {
        P2::new((p - self.origin).dot(&self.right), (p - self.origin).dot(&self.up))
    }

    /// Origin of the face in the house, with right, up and outwards.
    pub(crate) fn frame_in(&self, piece: &Piece) -> (P3, [V3; 3]) {
        let turn = &piece.house_from_piece;
        let out = if self.faces_up { V3::z() } else { -V3::z() };
        let axes = [V3::new(self.right.x, self.right.y, 0.0), V3::new(self.up.x, self.up.y, 0.0), out];
        (turn * P3::new(self.origin.x, self.origin.y, self.z), axes.map(|axis| turn * axis))
    }

    /// A ring of the face in the coordinates of the piece, counter-clockwise there as all rings of pieces.
    pub(crate) fn ring_to_piece(&self, ring: &[P2], counter_clockwise: bool) -> Vec<P2> {
        let mut ring: Vec<P2> = ring.iter().map(|p| self.to_piece(*p)).collect();
        if (gable_plane::ring_area(&ring) > 0.0) != counter_clockwise {
            ring.reverse();
        }
        ring
    }
}

struct Corner {
    start: P2,
    length: f64,
    number: usize,
}

/// Where the typed left corner of a wall's side is in the piece, at the foot of its part.
fn wall_corner(house: &House, solved: &Solved, piece: &Piece) -> Option<Corner> {
    let (Role::Wall(side) | Role::Parapet(side)) = &piece.role else { return None };
    let part = solved.parts.iter().find(|p| p.id == piece.part)?;
    let number = house.part(&piece.part)?.sides.iter().position(|s| &s.id == side)?;
    let (a, b) = (part.plan.get(number)?, part.plan.get((number + 1) % part.plan.len())?);
    let foot = part.house_from_part.translation.z;
    let start = piece.house_from_piece.inverse_transform_point(&P3::new(a.x, a.y, foot));
    let mut start = start.xy();
    if let Role::Parapet(_) = piece.role {
        // Its courses start at its own foot.
        let up = piece.up;
        let lowest = piece.outline.iter().map(|p| (p - start).dot(&up)).fold(f64::INFINITY, f64::min);
        start += up * lowest;
    }
    Some(Corner { start, length: (b - a).norm(), number })
}

/// Middle of the lower edge of a slope or lid, in the piece; the points are given along `right` and `up`.
fn middle_of_foot(points: &[P2], right: V2, up: V2) -> Option<P2> {
    let (low, high) = gable_plane::bounds(points)?;
    Some(P2::from(right * ((low.x + high.x) / 2.0) + up * low.y))
}

#[cfg(test)]
impl Face {
    /// A face on its own.
    pub(crate) fn for_tests(border: Border) -> Self {
        let (origin, right, up) = (P2::origin(), V2::x(), V2::y());
        Self { origin, right, up, z: 0.0, faces_up: true, side: None, number: 0, border }
    }
}
