//! Cutting one flat plate out of half-spaces: the square-cut rule.

use gable_plane::{ClipLine, ConvexPolygon, HalfSpace, P2, P3, Rigid, SAME_POINT, Solid, V2, V3};

/// Half side of the square that stands for 'everywhere', mm: thirty times the largest part.
const REACH: f64 = 1e5;

/// Why an edge of a plate is where it is. Sides, slopes and corners are indices within the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Cause {
    /// The edge of everywhere: such a plate has no end.
    Reach,
    /// The foot of the part.
    Base,
    /// The outer plane of another side's wall, or the inner one for a floor.
    WallPlane(usize),
    /// Cut against the wall on the other side of corner k.
    Corner(usize),
    /// Under, or beside, a slope.
    Slope(usize),
    /// The end of the overhang of a side.
    Rim(usize),
    /// The table, below which nothing may reach.
    Table,
    /// Cut to another part.
    Met,
    /// Nothing meets it: the top of a parapet, the side of a door.
    Open,
}

/// Where a plate lies: reference face in x and y, thickness along z.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub(super) origin: P3,
    pub(super) x: V3,
    pub(super) y: V3,
    pub(super) z: V3,
}

impl Frame {
    /// A level frame at a height, x and y as in the plan.
    pub(super) fn level(height: f64) -> Self {
        Self { origin: P3::new(0.0, 0.0, height), x: V3::x(), y: V3::y(), z: V3::z() }
    }

    /// The point of the part at plate coordinates `p` and depth `depth`.
    pub(super) fn point(&self, p: P2, depth: f64) -> P3 {
        self.origin + self.x * p.x + self.y * p.y + self.z * depth
    }

    /// Plate coordinates of a point of the part.
    pub(super) fn flat(&self, p: P3) -> P2 {
        P2::new((p - self.origin).dot(&self.x), (p - self.origin).dot(&self.y))
    }

    /// The motion that puts plate coordinates into the part.
    pub(super) fn rigid(&self) -> Rigid {
        let turn = nalgebra::Rotation3::from_basis_unchecked(&[self.x, self.y, self.z]);
        Rigid::from_parts(self.origin.coords.into(), nalgebra::UnitQuaternion::from_rotation_matrix(&turn))
    }

    /// The two faces of a plate of this frame, as half-spaces that keep the plate.
    pub(super) fn slab(&self, thickness: f64) -> [HalfSpace; 2] {
        let reference = HalfSpace::through(self.origin, -self.z);
        [reference, reference.flipped().moved(thickness)]
    }

    /// The line in which a half-space meets the plane at `depth`; `Err(inside)` when they are parallel.
    pub(super) fn line<L>(&self, half: &HalfSpace, depth: f64, label: L) -> Result<ClipLine<L>, bool> {
        let flat = V2::new(half.normal.dot(&self.x), half.normal.dot(&self.y));
        let length = flat.norm();
        let offset = half.offset - half.normal.dot(&self.origin.coords) - depth * half.normal.dot(&self.z);
        if length < 1e-9 {
            return Err(offset >= -SAME_POINT);
        }
        Ok(ClipLine { normal: flat / length, offset: offset / length, label })
    }
}

/// How a plate is cut along a half-space.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Cut {
    /// Straight down, clear of the half-space with both faces: the tighter of the two lines.
    Tighter,
    /// Straight down, so that at least one face reaches the half-space: the looser of the two lines.
    Looser,
    /// Along the half-space itself.
    Bevel,
}

/// A half-space that a plate must keep to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bound {
    pub(super) half: HalfSpace,
    pub(super) cut: Cut,
    pub(super) cause: Cause,
}

/// A plate as cut: the ring on the reference face, the ring on the other, and what made each edge.
#[derive(Clone, Debug)]
pub(super) struct Plate {
    pub(super) frame: Frame,
    pub(super) thickness: f64,
    pub(super) front: Vec<P2>,
    pub(super) back: Vec<P2>,
    pub(super) causes: Vec<Cause>,
    /// A bevel was asked for but would have changed the number of corners, so the plate is cut straight.
    pub(super) bevel_given_up: bool,
}

/// Why there is no plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoPlate {
    /// The bounds leave nothing.
    Nothing,
    /// The bounds do not close.
    Endless,
}

/// Cuts a plate to its bounds.
pub(super) fn cut_plate(frame: Frame, thickness: f64, bounds: &[Bound]) -> Result<Plate, NoPlate> {
    let plain = face(&frame, thickness, bounds, 0.0)?;
    let bevelled = bounds.iter().any(|b| b.cut == Cut::Bevel && plain.labels.contains(&b.cause));
    if bevelled && let Some((front, back)) = bevelled_faces(&frame, thickness, bounds) {
        return Ok(Plate::new(frame, thickness, front, back, false));
    }
    let straight: Vec<Bound> = bounds.iter().map(|b| Bound { cut: straight(b.cut), ..*b }).collect();
    let front = face(&frame, thickness, &straight, 0.0)?;
    let back = front.corners.clone();
    Ok(Plate::new(frame, thickness, front, back, bevelled))
}

/// Both faces of a plate with bevelled edges; `None` when they cannot have the same edges.
fn bevelled_faces(frame: &Frame, thickness: f64, bounds: &[Bound]) -> Option<(ConvexPolygon<Cause>, Vec<P2>)> {
    // A bound that shapes neither face of the exact solid need not be kept clear of: a straight cut along it would
    // nibble at corners that the bevels take away on the other face anyway.
    let exact: Vec<Bound> = bounds.iter().map(|b| Bound { cut: exact(b.cut), ..*b }).collect();
    let shaping = [0.0, thickness].map(|depth| face(frame, thickness, &exact, depth).ok().map(|f| f.labels));
    let shapes = |cause: Cause| shaping.iter().flatten().any(|labels| labels.contains(&cause));
    let needed: Vec<Bound> = bounds.iter().filter(|b| shapes(b.cause)).copied().collect();
    let front = face(frame, thickness, &needed, 0.0).ok()?;
    // Only bounds that shape the front may shape the back: others touch at most a corner there.
    let (active, idle): (Vec<Bound>, Vec<Bound>) = needed.iter().partition(|b| front.labels.contains(&b.cause));
    let back = aligned(&front, face(frame, thickness, &active, thickness).ok()?)?;
    clear(frame, thickness, &idle, &back).then_some((front, back))
}

fn exact(cut: Cut) -> Cut {
    if cut == Cut::Tighter { Cut::Bevel } else { cut }
}

fn straight(cut: Cut) -> Cut {
    if cut == Cut::Bevel { Cut::Tighter } else { cut }
}

/// The outline on the face at `depth`.
fn face(frame: &Frame, thickness: f64, bounds: &[Bound], depth: f64) -> Result<ConvexPolygon<Cause>, NoPlate> {
    let mut polygon = ConvexPolygon::square(REACH, Cause::Reach);
    for bound in bounds {
        let at = |depth| frame.line(&bound.half, depth, bound.cause);
        let (near, far) = (at(0.0), at(thickness));
        let line = match (bound.cut, near, far) {
            (Cut::Bevel, ..) => at(depth),
            (Cut::Tighter, Ok(a), Ok(b)) => Ok(if a.offset < b.offset { a } else { b }),
            (Cut::Looser, Ok(a), Ok(b)) => Ok(if a.offset > b.offset { a } else { b }),
            (Cut::Looser, a, b) => Err(a.is_ok() || b.is_ok() || a == Err(true) || b == Err(true)),
            (Cut::Tighter, a, b) => Err(a != Err(false) && b != Err(false)),
        };
        match line {
            Ok(line) => polygon = polygon.clip(&line).ok_or(NoPlate::Nothing)?,
            Err(true) => {}
            Err(false) => return Err(NoPlate::Nothing),
        }
    }
    if polygon.labels.contains(&Cause::Reach) { Err(NoPlate::Endless) } else { Ok(polygon) }
}

/// Whether the back face stays within bevels that do not shape the front: pieces may meet beyond the end of a ridge.
fn clear(frame: &Frame, thickness: f64, idle: &[Bound], back: &[P2]) -> bool {
    let bevels = idle.iter().filter(|b| b.cut == Cut::Bevel);
    bevels.into_iter().all(|b| back.iter().all(|&p| b.half.excess(&frame.point(p, thickness)) <= SAME_POINT))
}

/// The corners of `back`, started so that its edges have the causes of `front`'s; `None` when they do not match.
fn aligned(front: &ConvexPolygon<Cause>, back: ConvexPolygon<Cause>) -> Option<Vec<P2>> {
    let count = front.labels.len();
    if back.labels.len() != count {
        return None;
    }
    let matches = |shift: &usize| (0..count).all(|k| front.labels[k] == back.labels[(k + shift) % count]);
    let shift = (0..count).find(matches)?;
    let mut corners = back.corners;
    corners.rotate_left(shift);
    Some(corners)
}

impl Plate {
    fn new(frame: Frame, thickness: f64, front: ConvexPolygon<Cause>, back: Vec<P2>, bevel_given_up: bool) -> Self {
        Self { frame, thickness, front: front.corners, back, causes: front.labels, bevel_given_up }
    }

    /// Number of edges.
    pub(super) fn count(&self) -> usize {
        self.front.len()
    }

    /// Edge k on the reference face, in the plate.
    pub(super) fn edge(&self, k: usize) -> [P2; 2] {
        [self.front[k], self.front[(k + 1) % self.count()]]
    }

    /// Edge k on the reference face, in the part.
    pub(super) fn edge_in_part(&self, k: usize) -> [P3; 2] {
        self.edge(k).map(|p| self.frame.point(p, 0.0))
    }

    /// Indices of the edges that a cause made.
    pub(super) fn edges_of(&self, cause: Cause) -> impl Iterator<Item = usize> + '_ {
        (0..self.count()).filter(move |&k| self.causes[k] == cause)
    }

    /// The half-space along edge k that keeps the plate (when it is convex there).
    pub(super) fn side_of(&self, k: usize) -> HalfSpace {
        let [a, b] = self.edge_in_part(k);
        let up = self.frame.point(self.back[k], self.thickness) - a;
        HalfSpace::through(a, (b - a).cross(&up))
    }

    /// What of a straight-cut plate reaches past one of its own edges, as happens beside a notch, in convex pieces.
    pub(super) fn beyond(&self, edge: &HalfSpace) -> Vec<Self> {
        let polygon = ConvexPolygon { corners: self.front.clone(), labels: self.causes.clone() };
        let Ok(line) = self.frame.line(&edge.flipped(), 0.0, Cause::Open) else { return Vec::new() };
        let parts = polygon.clip(&line).map(|tip| tip.convex_parts()).unwrap_or_default();
        parts.into_iter().map(|p| Self::new(self.frame, self.thickness, p.clone(), p.corners, false)).collect()
    }

    /// The plate as a convex solid in the part; right only while its rings are convex.
    pub(super) fn solid(&self) -> Solid {
        let ring = |ring: &[P2], depth| ring.iter().map(|&p| self.frame.point(p, depth)).collect::<Vec<_>>();
        Solid::prism(&ring(&self.front, 0.0), &ring(&self.back, self.thickness))
    }

    /// The plate as convex solids in the part, also when it has notches.
    pub(super) fn solids(&self) -> Vec<Solid> {
        let polygon = ConvexPolygon { corners: self.front.clone(), labels: self.causes.clone() };
        match &polygon.convex_parts()[..] {
            [] | [_] => vec![self.solid()],
            parts => {
                let solid = |p: &ConvexPolygon<Cause>| {
                    Self::new(self.frame, self.thickness, p.clone(), p.corners.clone(), false).solid()
                };
                parts.iter().map(solid).collect()
            }
        }
    }

    /// Whether an upright plate and this one enclose less than a right angle.
    pub(super) fn is_sharp_to(&self, other: &Self) -> bool {
        self.frame.z.dot(&other.frame.z) < -1e-9
    }

    /// Height, in the plate, of its highest point at `x`; minus infinity beside it.
    pub(super) fn top_at(&self, x: f64) -> f64 {
        let crossing = |k: usize| {
            let [a, b] = self.edge(k);
            let share = (x - a.x) / (b.x - a.x);
            (0.0..=1.0).contains(&share).then(|| a.y + (b.y - a.y) * share)
        };
        (0..self.count()).filter_map(crossing).fold(f64::NEG_INFINITY, f64::max)
    }

    /// Least and greatest coordinate of the reference face along a direction of the plate.
    pub(super) fn extent(&self, direction: V2) -> (f64, f64) {
        let along = self.front.iter().map(|p| p.coords.dot(&direction));
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), a| (low.min(a), high.max(a)))
    }
}
