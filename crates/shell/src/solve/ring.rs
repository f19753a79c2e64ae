//! A ring of upright plates: the walls of a part, or the parapet on its lid.

use super::plan::{PlanSide, turn};
use super::plate::{Bound, Cause, Cut, NoPlate, Plate, cut_plate};
use crate::Corners;
use gable_plane::{ClipLine, ConvexPolygon, HalfSpace, P2, V2, V3, convex_hull, ring_area};

/// A square-cut mitre is allowed up to this turn: beyond it the V outside is wider than the plate is thick.
const SQUARE_MITRE_TURN: f64 = 60.0 * std::f64::consts::PI / 180.0 + 1e-9;
/// Heights at a corner that differ by less than this are equal, mm.
const SAME_HEIGHT: f64 = 0.01;

/// A shadow edge that runs along an edge of the plate within this is on it, mm: well above rounding, well below a cut.
const ON_EDGE: f64 = 1e-4;

/// What a ring is made from.
pub(super) struct RingOf<'a> {
    pub(super) sides: &'a [PlanSide],
    /// Whether a plate stands on each side.
    pub(super) stands: Vec<bool>,
    /// Whether each side's plate goes first where two are equally high (gables).
    pub(super) first: Vec<bool>,
    /// Height of the feet.
    pub(super) base: f64,
    /// Whether it stands by a host.
    pub(super) hosted: bool,
    /// What the plates must stay under.
    pub(super) tops: Vec<(HalfSpace, Cause)>,
    pub(super) thickness: f64,
    pub(super) gap: f64,
    pub(super) corners: Corners,
}

/// How two plates meet at a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Meeting {
    /// Fewer than two plates.
    Alone,
    /// `through` runs to the corner, `cut` stops against it.
    Lap { through: usize, cut: usize },
    /// Both stop at the plane that halves the angle.
    Mitre(Cut),
}

/// The plates as cut.
pub(super) struct Ring {
    /// Per side; `None` where none stands or nothing is left.
    pub(super) plates: Vec<Option<Plate>>,
    /// Per corner k, between side k - 1 and side k.
    pub(super) meetings: Vec<Meeting>,
    /// Corners that asked for a square-cut mitre but turn too far for it.
    pub(super) too_sharp: Vec<usize>,
    /// Sides whose plate falls apart, with the area of what fell off, mm².
    pub(super) lost: Vec<(usize, f64)>,
}

impl RingOf<'_> {
    fn count(&self) -> usize {
        self.sides.len()
    }

    /// Side before corner k.
    pub(super) fn before(&self, k: usize) -> usize {
        (k + self.count() - 1) % self.count()
    }

    /// The plane that halves the angle at corner k, keeping side k, drawn back by half the gap.
    fn halving(&self, k: usize) -> HalfSpace {
        let (a, b) = (&self.sides[self.before(k)], &self.sides[k]);
        let outward = super::plan::flat(b.inward - a.inward);
        HalfSpace::through(super::plan::level(b.start, 0.0), outward).moved(-self.gap / 2.0)
    }

    /// Bounds of side i before corners are decided.
    fn bounds(&self, i: usize) -> Vec<Bound> {
        let foot = HalfSpace { normal: -V3::z(), offset: -self.base };
        let mut bounds = vec![Bound { half: foot, cut: Cut::Tighter, cause: Cause::Base }];
        for (j, side) in self.sides.iter().enumerate().filter(|(j, _)| *j != i) {
            // Where a host closes a side without a wall, the ends of the walls beside it are left for the host to cut.
            let cut = if self.hosted && !self.stands[j] { Cut::Looser } else { Cut::Tighter };
            bounds.push(Bound { half: side.half_space(0.0), cut, cause: Cause::WallPlane(j) });
        }
        let top = |&(half, cause): &(HalfSpace, Cause)| Bound { half, cut: Cut::Tighter, cause };
        bounds.extend(self.tops.iter().map(top));
        bounds
    }

    /// Cuts the plates.
    pub(super) fn cut(&self) -> Result<Ring, (usize, NoPlate)> {
        let frame = |i: usize| self.sides[i].wall_frame();
        let mut whole = Vec::new();
        for i in 0..self.count() {
            let plate = self.stands[i].then(|| cut_plate(frame(i), self.thickness, &self.bounds(i)));
            whole.push(plate.transpose().map_err(|why| (i, why))?);
        }
        let mut too_sharp = Vec::new();
        let meetings: Vec<Meeting> = (0..self.count()).map(|k| self.meeting(k, &whole, &mut too_sharp)).collect();
        let (mut plates, mut lost) = (Vec::new(), Vec::new());
        for i in 0..self.count() {
            let Some(plate) = &whole[i] else {
                plates.push(None);
                continue;
            };
            let mitred = self.mitred(i, plate, &meetings).map_err(|why| (i, why))?;
            let (plate, missing) = self.lapped(i, mitred, &meetings, &whole).ok_or((i, NoPlate::Nothing))?;
            if missing > 0.0 {
                lost.push((i, missing));
            }
            plates.push(Some(plate));
        }
        Ok(Ring { plates, meetings, too_sharp, lost })
    }

    /// Decides corner k: the plate that stands higher there runs through, gables before eaves, then the rule.
    fn meeting(&self, k: usize, whole: &[Option<Plate>], too_sharp: &mut Vec<usize>) -> Meeting {
        let (a, b) = (self.before(k), k);
        let (Some(before), Some(after)) = (&whole[a], &whole[b]) else { return Meeting::Alone };
        match self.corners {
            Corners::Mitre => return Meeting::Mitre(Cut::Bevel),
            Corners::SquareMitre if turn(&self.sides[a], &self.sides[b]) <= SQUARE_MITRE_TURN => {
                return Meeting::Mitre(Cut::Tighter);
            }
            Corners::SquareMitre => too_sharp.push(k),
            Corners::Lap | Corners::LapAround => {}
        }
        // x of a wall's frame runs against its side: its least x is at the end of the side, its greatest at the start.
        let higher = height_at(before, false) - height_at(after, true);
        let a_through = if higher.abs() > SAME_HEIGHT {
            higher > 0.0
        } else if self.first[a] != self.first[b] {
            self.first[a]
        } else {
            self.by_rule(k)
        };
        let (through, cut) = if a_through { (a, b) } else { (b, a) };
        Meeting::Lap { through, cut }
    }

    /// Whether the side before corner k runs through by the part's rule.
    fn by_rule(&self, k: usize) -> bool {
        let (a, b) = (self.before(k), k);
        let around = self.corners == Corners::LapAround;
        // With an odd number of sides two even ones meet at corner 0: there the first side runs through.
        if around { true } else { a % 2 == 0 && b % 2 == 1 }
    }

    fn mitred(&self, i: usize, plate: &Plate, meetings: &[Meeting]) -> Result<Plate, NoPlate> {
        let next = (i + 1) % self.count();
        let mut bounds = self.bounds(i);
        let corners = [(i, self.before(i), self.halving(i)), (next, next, self.other_side(next))];
        for (corner, neighbour, half) in corners {
            if let Meeting::Mitre(cut) = meetings[corner] {
                // Within the halving plane a plate is within its neighbour's outer plane too.
                bounds.retain(|b| b.cause != Cause::WallPlane(neighbour));
                bounds.push(Bound { half, cut, cause: Cause::Corner(corner) });
            }
        }
        if bounds.iter().any(|b| matches!(b.cause, Cause::Corner(_))) {
            cut_plate(plate.frame, self.thickness, &bounds)
        } else {
            Ok(plate.clone())
        }
    }

    /// The halving plane of corner k for the side before it.
    fn other_side(&self, k: usize) -> HalfSpace {
        self.halving(k).moved(self.gap / 2.0).flipped().moved(-self.gap / 2.0)
    }

    /// Cuts side i to the plates that run through at its two corners; also the area lost in small pieces.
    fn lapped(&self, i: usize, plate: Plate, meetings: &[Meeting], whole: &[Option<Plate>]) -> Option<(Plate, f64)> {
        let mut lost = 0.0;
        let mut plate = plate;
        for corner in [i, (i + 1) % self.count()] {
            let Meeting::Lap { through, cut } = meetings[corner] else { continue };
            let Some(host) = whole[through].as_ref().filter(|_| cut == i) else { continue };
            let Some(shadow) = shadow(&plate, host, self.gap) else { continue };
            lost += subtract(&mut plate, &shadow, Cause::Corner(corner))?;
        }
        Some((plate, lost))
    }
}

/// Height of a plate at the start or end of its side, on the outside.
fn height_at(plate: &Plate, start: bool) -> f64 {
    let (low, high) = plate.extent(V2::x());
    let x = if start { high } else { low };
    let there = plate.front.iter().filter(|p| (p.x - x).abs() < SAME_HEIGHT);
    there.map(|p| p.y).fold(f64::NEG_INFINITY, f64::max)
}

/// The shadow of a host plate on a guest: what of the host, thickened by the gap, lies within the guest's slab,
/// projected onto the guest's plane; its convex hull.
///
/// At corners of 90° and more an edge of the host meets the guest's end: there the guest is thickened, and the hull
/// moved out by the gap. At sharper corners the guest's inner edge meets the host's face: there the host is
/// thickened. Either way the two come to be exactly one gap apart.
fn shadow(guest: &Plate, host: &Plate, gap: f64) -> Option<Vec<ShadowEdge>> {
    let (thicker_host, thicker_guest, out) = if guest.is_sharp_to(host) { (gap, 0.0, 0.0) } else { (0.0, gap, gap) };
    let slab = guest.frame.slab(guest.thickness).map(|face| face.moved(thicker_guest));
    let within = host.solid().grown(thicker_host)?.clip_all(&slab)?;
    let flat: Vec<P2> = within.corners().iter().map(|&p| guest.frame.flat(p)).collect();
    let hull = convex_hull(&flat);
    let edge = |k: usize| {
        let (a, b) = (hull[k], hull[(k + 1) % hull.len()]);
        let along = (b - a).normalize();
        let normal = V2::new(along.y, -along.x);
        let line = ClipLine { normal, offset: normal.dot(&a.coords) + out, label: () };
        ShadowEdge { line, ends: [a, b].map(|p| p + normal * out) }
    };
    (hull.len() >= 3).then(|| (0..hull.len()).map(edge).collect())
}

/// One edge of a shadow.
struct ShadowEdge {
    line: ClipLine<()>,
    ends: [P2; 2],
}

impl ShadowEdge {
    /// The line to cut along: the plate's own edge line where the shadow ends on it, so that rounding along a long plate
    /// does not make a cut of it. `None` when the shadow lies outside of such an edge, and so misses the plate.
    fn cut_line(&self, plate: &Plate, cause: Cause) -> Option<ClipLine<Cause>> {
        for k in 0..plate.count() {
            let [a, b] = plate.edge(k);
            let along = (b - a).normalize();
            let own = ClipLine { normal: V2::new(along.y, -along.x), offset: 0.0, label: cause };
            let own = ClipLine { offset: own.normal.dot(&a.coords), ..own };
            if self.ends.iter().all(|p| own.excess(p).abs() < ON_EDGE) {
                return (own.normal.dot(&self.line.normal) > 0.0).then_some(own);
            }
        }
        Some(self.line.with(cause))
    }
}

/// Takes a convex shadow away from a plate and keeps the largest rest. Returns the area of what fell off beside it;
/// `None` when nothing is left, or when the shadow would cut a hole.
fn subtract(plate: &mut Plate, shadow: &[ShadowEdge], cause: Cause) -> Option<f64> {
    let polygon = ConvexPolygon { corners: plate.front.clone(), labels: plate.causes.clone() };
    let tool: Option<Vec<ClipLine<Cause>>> = shadow.iter().map(|edge| edge.cut_line(plate, cause)).collect();
    let Some(tool) = tool else { return Some(0.0) };
    let mut rests = polygon.without(&tool)?.into_iter();
    let kept = rests.next()?;
    (plate.back, plate.front, plate.causes) = (kept.corners.clone(), kept.corners, kept.labels);
    Some(rests.map(|rest| ring_area(&rest.corners)).sum())
}
