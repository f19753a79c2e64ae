//! What a part encloses, worked out from the house alone.

use crate::hull::{Hull, Plane, Tag};
use crate::plan::{own_corners, plan_corners};
use gable_measure::Pitch;
use gable_plane::{P2, P3, Rigid, V2, V3};
use gable_shell::{Batch, FloorKind, House, Part, Steps, StepsHigh, Tier, Top};

/// Thicknesses and gap that matter to a part, mm.
#[derive(Clone, Copy, Debug)]
pub struct Sizes {
    /// Baked walls.
    pub wall: f64,
    /// Parapet: walls as planned, whatever became of the baked ones.
    pub strip: f64,
    /// Baked roof.
    pub roof: f64,
    /// Floor, of baked plates with the gap between them; 0 without one.
    pub floor: f64,
    /// Gap for icing.
    pub gap: f64,
}

/// The bodies that bound the shell of a part.
///
/// A roof lies one gap above the theoretical underside that passes through the outer top edges of the walls, so that
/// the walls keep their typed sizes. Where a side has no wall the shell has no thickness there.
#[derive(Clone, Debug)]
pub struct Envelope {
    /// Plan corners in the house.
    pub plan: Vec<P2>,
    /// Sizes.
    pub sizes: Sizes,
    /// Outer wall planes and theoretical undersides: where typed sizes are measured.
    pub theory: Hull,
    /// Outer wall planes and upper faces of the roof.
    pub outer: Hull,
    /// Inner wall planes and undersides of the roof, above the floor.
    pub inner: Hull,
    /// Outer and inner faces of the parapet, from the top of the lid to its own.
    pub parapet: Option<[Hull; 2]>,
}

impl Envelope {
    /// The envelope of one part on the ground.
    pub fn of(house: &House, part: &Part) -> Self {
        let plan = plan_corners(part);
        let planes = planes(part, &plan);
        Self::within(plan, planes, sizes(house, part), part, 0.0)
    }

    /// The envelope of a part that stands where a motion puts it; its walls reach down to `foot` in its own coordinates.
    pub(crate) fn standing(house: &House, part: &Part, house_from_part: &Rigid, foot: f64) -> Self {
        let (plan, planes) = Self::own_planes(part);
        let sizes = sizes(house, part);
        let planes = planes.into_iter().chain(open_sky(part, &sizes)).collect();
        let own = Self::within(plan, planes, sizes, part, -foot);
        let level = |p: &P2| (house_from_part * P3::new(p.x, p.y, 0.0)).xy();
        Self {
            plan: own.plan.iter().map(level).collect(),
            theory: own.theory.moved(house_from_part),
            outer: own.outer.moved(house_from_part),
            inner: own.inner.moved(house_from_part),
            sizes: own.sizes,
            parapet: own.parapet.map(|ring| ring.map(|hull| hull.moved(house_from_part))),
        }
    }

    fn within(plan: Vec<P2>, mut theory: Vec<Plane>, sizes: Sizes, part: &Part, base: f64) -> Self {
        theory.iter_mut().filter(|p| p.tag == Tag::Base).for_each(|p| p.offset = base);
        let moved = |wall: f64, roof: f64, base: f64| {
            let by = |tag: Tag| match tag {
                Tag::Wall(k) if part.sides[k].wall => wall,
                Tag::Wall(_) => 0.0,
                Tag::Slope(..) | Tag::Lid => roof,
                Tag::Base => base,
            };
            Hull::new(theory.iter().map(|p| Plane { offset: p.offset + by(p.tag), ..*p }).collect())
        };
        let outer = moved(0.0, sizes.gap + sizes.roof, 0.0);
        let inner = moved(-sizes.wall, sizes.gap, -sizes.floor);
        let parapet = parapet(part, &theory, &sizes);
        Self { outer, inner, theory: Hull::new(theory), plan, sizes, parapet }
    }

    /// Plan and planes of a part in its own coordinates.
    pub(crate) fn own_planes(part: &Part) -> (Vec<P2>, Vec<Plane>) {
        let plan: Vec<P2> = own_corners(&part.outline).into_iter().map(P2::from).collect();
        let planes = planes(part, &plan);
        (plan, planes)
    }

    /// Turn of the plan at corner k, radians: 0 straight on, a right angle for a rectangle.
    pub fn turn(&self, k: usize) -> f64 {
        let count = self.plan.len();
        let (before, after) = (
            self.plan[k % count] - self.plan[(k + count - 1) % count],
            self.plan[(k + 1) % count] - self.plan[k % count],
        );
        before.perp(&after).atan2(before.dot(&after))
    }
}

/// The parapet stands on the rim of the lid, on all sides. `None` also where slopes cut the lid short of its overhang.
fn parapet(part: &Part, theory: &[Plane], sizes: &Sizes) -> Option<[Hull; 2]> {
    let lid = part.lid.as_ref()?;
    let strip = lid.parapet.as_ref()?.height.mm();
    if theory.iter().any(|p| matches!(p.tag, Tag::Slope(..))) {
        return None;
    }
    let foot = lid.height.mm() + sizes.gap + sizes.roof;
    let ring = |out: f64| {
        let moved = |p: &Plane| match p.tag {
            Tag::Wall(_) => Plane { offset: p.offset + out, ..*p },
            Tag::Base => Plane { offset: -foot, ..*p },
            Tag::Slope(..) | Tag::Lid => Plane { offset: foot + sizes.gap + strip, ..*p },
        };
        Hull::new(theory.iter().map(moved).collect())
    };
    let overhang = lid.overhang.mm();
    Some([ring(overhang), ring(overhang - sizes.strip)])
}

fn sizes(house: &House, part: &Part) -> Sizes {
    let baked = |id| house.dough(id).map_or(0.0, |d| d.baked().mm());
    // What was measured of baked pieces is a fact from outside, as the doughs are.
    let batch = |batch| house.dough_of(part, batch).map_or(0.0, |d| d.baked().mm());
    let (plate, gap) = (baked(&part.floor.dough), house.gap.mm());
    let floor = match (part.floor.kind, &part.floor.steps) {
        (FloorKind::None, _) => 0.0,
        (FloorKind::Under, Some(steps)) => stack(steps, plate, gap),
        _ => plate,
    };
    Sizes { wall: batch(Batch::Walls), strip: baked(&part.wall_dough), roof: batch(Batch::Roof), floor, gap }
}

/// A part that is nothing but a floor ends at its upper face, where the upper face of a roof would be.
fn open_sky(part: &Part, sizes: &Sizes) -> Option<Plane> {
    let offset = sizes.floor - sizes.gap - sizes.roof;
    is_bare_floor(part).then_some(Plane { tag: Tag::Lid, normal: V3::z(), offset })
}

/// Whether a part has neither walls, posts nor a roof.
pub(crate) fn is_bare_floor(part: &Part) -> bool {
    part.lid.is_none() && part.sides.iter().all(|s| !s.wall && s.posts.is_none() && matches!(s.top, Top::Gable { .. }))
}

/// Height of plates on each other: of all steps, or the whole number of plates nearest to a typed height.
fn stack(steps: &Steps, plate: f64, gap: f64) -> f64 {
    let high = |plates: u32| f64::from(plates) * (plate + gap) - gap;
    match steps.high {
        StepsHigh::Count(count) => high(u32::from(count) * u32::from(steps.plates)),
        StepsHigh::Height(wanted) => {
            let off = |plates: &u32| (high(*plates) - wanted.mm()).abs();
            high((1..60).min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(1))
        }
    }
}

fn planes(part: &Part, plan: &[P2]) -> Vec<Plane> {
    let mut planes = vec![Plane { tag: Tag::Base, normal: -V3::z(), offset: 0.0 }];
    for (k, side) in part.sides.iter().enumerate() {
        let (from, to) = (plan[k], plan[(k + 1) % plan.len()]);
        let out = V2::new(to.y - from.y, from.x - to.x).normalize();
        let wall = Plane { tag: Tag::Wall(k), normal: V3::new(out.x, out.y, 0.0), offset: out.dot(&from.coords) };
        planes.push(wall);
        for (tier, height, slope, inset) in slopes(&side.top, inward_reach(plan, &wall)) {
            let normal = V3::new(out.x * slope.sin(), out.y * slope.sin(), slope.cos());
            let offset = (wall.offset - inset) * slope.sin() + height * slope.cos();
            planes.push(Plane { tag: Tag::Slope(k, tier), normal, offset });
        }
    }
    if let Some(lid) = &part.lid {
        planes.push(Plane { tag: Tag::Lid, normal: V3::z(), offset: lid.height.mm() });
    }
    planes
}

/// The slopes of a side: tier, height of a level line on the underside, slope, and how far in from the wall that line is.
fn slopes(top: &Top, reach: f64) -> Vec<(Tier, f64, f64, f64)> {
    match *top {
        Top::Eave { height, pitch, .. } | Top::HalfHip { start: height, pitch, .. } => {
            vec![(Tier::Single, height.mm(), slope(pitch, height.mm(), reach), 0.0)]
        }
        Top::Knee { height, lower, knee, upper, .. } => {
            let low = slope(lower, height.mm(), reach);
            let inset = (knee - height).mm() / low.tan();
            let high = slope(upper, knee.mm(), reach - inset);
            vec![(Tier::Lower, height.mm(), low, 0.0), (Tier::Upper, knee.mm(), high, inset)]
        }
        Top::Gable { .. } => vec![],
    }
}

/// Slope from the level, radians, of a roof that starts at `height` and has its ridge `reach` further in.
fn slope(pitch: Pitch, height: f64, reach: f64) -> f64 {
    match pitch {
        Pitch::Angle(angle) => angle.rad(),
        Pitch::RiseInRun { rise, run } => rise.atan2(run),
        Pitch::RidgeHeight(ridge) => (ridge.mm() - height).atan2(reach),
    }
}

/// Half of how far the plan reaches inwards from a wall: where the ridge is when both slopes are alike.
fn inward_reach(plan: &[P2], wall: &Plane) -> f64 {
    let inward = |p: &P2| wall.offset - wall.normal.xy().dot(&p.coords);
    plan.iter().map(inward).fold(0.0, f64::max) / 2.0
}
