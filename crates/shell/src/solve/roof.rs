//! From the tops of the sides to slope planes.

use super::findings::Findings;
use super::plan::{PlanSide, flat, level};
use crate::{Part, Tier, Top};
use gable_measure::{Angle, Pitch};
use gable_plane::{ClipLine, ConvexPolygon, HalfSpace, P2, V2, V3, ring_area, ring_centroid};
use gable_words::tr;

/// A slope that owns less of the plan than this is no slope, mm².
const OWNS_NOTHING: f64 = 1.0;
/// A slope that lies over less of a side than this does not lie on its wall, mm.
const COVERS_NOTHING: f64 = 0.1;
/// The pitches that a slope may have, degrees. Flatter ones are lids; steeper ones are walls.
const PITCHES: std::ops::RangeInclusive<f64> = 4.999..=80.001;
/// Two planes nearer than this are one: mm of height, and its slope per mm.
const SAME_PLANE: f64 = 1e-6;

/// One sloping (or, for a lid, level) plane of a roof.
#[derive(Clone, Debug)]
pub(super) struct Slope {
    /// Side it rises from; none for a lid.
    pub(super) side: Option<usize>,
    pub(super) tier: Tier,
    /// What is below the underside, icing gap not counted.
    pub(super) plane: HalfSpace,
}

impl Slope {
    fn rising(side: usize, tier: Tier, from: &PlanSide, height: f64, run: f64, pitch: Angle) -> Self {
        let normal = V3::z() * pitch.cos() - flat(from.inward) * pitch.sin();
        let foot = level(from.start + from.inward * run, height);
        Self { side: Some(side), tier, plane: HalfSpace::through(foot, normal) }
    }

    /// Height of the underside above a point of the plan.
    pub(super) fn height_at(&self, p: P2) -> f64 {
        let n = self.plane.normal;
        (self.plane.offset - n.x * p.x - n.y * p.y) / n.z
    }

    /// The slope whose underside is this one's raised along its normal.
    pub(super) fn raised(&self, by: f64) -> Self {
        Self { plane: self.plane.moved(by), ..self.clone() }
    }

    /// Slope of the underside in x and y, mm per mm.
    fn gradient(&self) -> V2 {
        let n = self.plane.normal;
        V2::new(-n.x / n.z, -n.y / n.z)
    }

    /// Where in plan this slope is lower than another.
    pub(super) fn lower_than(&self, other: &Self) -> Option<ClipLine<()>> {
        let rise = self.gradient() - other.gradient();
        let offset = other.height_at(P2::origin()) - self.height_at(P2::origin());
        let length = rise.norm();
        (length > SAME_PLANE).then(|| ClipLine { normal: rise / length, offset: offset / length, label: () })
    }

    fn same_plane(&self, other: &Self) -> bool {
        self.lower_than(other).is_none()
            && (self.height_at(P2::origin()) - other.height_at(P2::origin())).abs() < SAME_PLANE
    }
}

/// Baked thickness of what lies on a part, mm.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct RoofThickness {
    pub(super) slopes: f64,
    pub(super) lid: f64,
}

impl RoofThickness {
    pub(super) fn of(&self, slope: &Slope) -> f64 {
        if slope.side.is_some() { self.slopes } else { self.lid }
    }
}

/// The slopes of a part and how far each side's overhang reaches.
pub(super) struct Roof {
    pub(super) slopes: Vec<Slope>,
    /// Per side: how far slopes reach past the wall's outer plane, measured level on the raised underside.
    pub(super) rims: Vec<f64>,
    /// The same for the lid, all round.
    pub(super) lid_rim: f64,
    /// Height of the highest point of the underside.
    pub(super) ridge_height: f64,
}

/// A side's slopes before they are known to own anything.
struct SideRoof {
    slopes: Vec<Slope>,
    overhang: f64,
    /// Height and pitch of the lowest slope.
    eave: Option<(f64, Angle)>,
}

/// Works out the slopes of a part; `gap` is the icing gap in mm.
pub(super) fn roof(part: &Part, sides: &[PlanSide], gap: f64, findings: &mut Findings) -> Roof {
    let mut tops: Vec<SideRoof> = (0..sides.len()).map(|k| side_roof(part, sides, k, findings)).collect();
    if part.level_eaves {
        level_eaves(part, &mut tops, findings);
    }
    let mut slopes: Vec<Slope> = tops.iter().flat_map(|t| t.slopes.iter().cloned()).collect();
    if let Some(lid) = part.lid {
        let plane = HalfSpace { normal: V3::z(), offset: lid.height.mm() };
        slopes.push(Slope { side: None, tier: Tier::Single, plane });
    }
    let plan: Vec<P2> = sides.iter().map(|s| s.start).collect();
    let (slopes, ridge_height) = owning(part, slopes, &plan, findings);
    // Raising a slope by the gap moves it out by gap · sin p; its rim moves with it, so that even without overhang
    // the wall's edge has biscuit straight above it.
    // Several slopes may lie on one wall: the one that moves out most sets the rim, and all end flush.
    let moved = |(k, top): (usize, &SideRoof)| {
        let covering = slopes.iter().filter(|s| covers(s, &slopes, &sides[k]));
        top.overhang + gap * covering.map(|s| outward_share(s, &sides[k])).fold(0.0, f64::max)
    };
    Roof {
        rims: tops.iter().enumerate().map(moved).collect(),
        slopes,
        lid_rim: part.lid.map_or(0.0, |lid| lid.overhang.mm()),
        ridge_height,
    }
}

/// How far a slope moves out of a side when it is raised by 1 mm along its normal.
fn outward_share(slope: &Slope, side: &PlanSide) -> f64 {
    -slope.plane.normal.dot(&flat(side.inward))
}

/// Whether a slope is the lowest one over some length of a side, and so lies on its wall.
fn covers(slope: &Slope, slopes: &[Slope], side: &PlanSide) -> bool {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for other in slopes {
        let above = |p: P2| slope.height_at(p) - other.height_at(p);
        let (start, end) = (above(side.start), above(side.end));
        if start > 0.0 && end > 0.0 {
            return false;
        }
        let crossing = start / (start - end);
        if start > 0.0 {
            from = from.max(crossing);
        } else if end > 0.0 {
            to = to.min(crossing);
        }
    }
    (to - from) * side.length() > COVERS_NOTHING
}

fn side_roof(part: &Part, sides: &[PlanSide], k: usize, findings: &mut Findings) -> SideRoof {
    let side = &sides[k];
    let single = |height: f64, pitch: Angle, overhang: f64| SideRoof {
        slopes: vec![Slope::rising(k, Tier::Single, side, height, 0.0, pitch)],
        overhang,
        eave: Some((height, pitch)),
    };
    match part.sides[k].top {
        Top::Gable { overhang } => SideRoof { slopes: Vec::new(), overhang: overhang.mm(), eave: None },
        Top::Eave { height, pitch, overhang } => {
            single(height.mm(), pitch_of(part, sides, k, (pitch, "pitch"), height.mm(), 0.0, findings), overhang.mm())
        }
        Top::HalfHip { start, pitch, overhang } => {
            let pitch = pitch_of(part, sides, k, (pitch, "pitch"), start.mm(), 0.0, findings);
            SideRoof { eave: None, ..single(start.mm(), pitch, overhang.mm()) }
        }
        Top::Knee { height, lower, knee, upper, overhang } => {
            let (height, knee) = (height.mm(), knee.mm());
            let steep = pitch_of(part, sides, k, (lower, "lower"), height, 0.0, findings);
            let run = (knee - height) / steep.tan();
            let flat = pitch_of(part, sides, k, (upper, "upper"), knee, run, findings);
            if flat >= steep {
                let what =
                    tr!("the upper slope ({:.1}°) is not flatter than the lower ({:.1}°)", flat.deg(), steep.deg());
                let place = format!("sides.{}.upper", part.sides[k].id.0);
                findings.block(
                    "knee-not-flatter",
                    &place,
                    what,
                    tr!("make the upper slope flatter or the lower one steeper"),
                );
            }
            let slopes = vec![
                Slope::rising(k, Tier::Lower, side, height, 0.0, steep),
                Slope::rising(k, Tier::Upper, side, knee, run, flat),
            ];
            SideRoof { slopes, overhang: overhang.mm(), eave: Some((height, steep)) }
        }
    }
}

/// The angle of a pitch. A ridge height is reached over the run from the side to where the ridge will be.
fn pitch_of(
    part: &Part,
    sides: &[PlanSide],
    k: usize,
    (pitch, field): (Pitch, &str),
    height: f64,
    start: f64,
    findings: &mut Findings,
) -> Angle {
    let angle = match pitch {
        Pitch::Angle(angle) => angle,
        Pitch::RiseInRun { rise, run } => Angle::of_slope(rise, run),
        Pitch::RidgeHeight(ridge) => Angle::of_slope(ridge.mm() - height, ridge_run(part, sides, k) - start),
    };
    if PITCHES.contains(&angle.deg()) {
        return angle;
    }
    let what = tr!("the roof would slope by {:.1}°, and slopes go from 5° to 80°", angle.deg());
    let place = format!("sides.{}.{field}", part.sides[k].id.0);
    findings.block(
        "pitch-out-of-range",
        &place,
        what,
        tr!("change the pitch, the ridge height or the height of the wall"),
    );
    Angle::degrees(45.0)
}

/// Level distance from a side to the ridge: half way to an opposite side that slopes too, else all the way across;
/// where every side slopes up to a point, to the centre of the plan.
fn ridge_run(part: &Part, sides: &[PlanSide], k: usize) -> f64 {
    let depth_of = |p: &PlanSide| sides[k].depth(p.start).max(sides[k].depth(p.end));
    let across = sides.iter().map(depth_of).fold(0.0, f64::max);
    let slopes = |j: usize| !matches!(part.sides[j].top, Top::Gable { .. });
    let opposite = (0..sides.len()).find(|&j| sides[j].inward.dot(&sides[k].inward) < -0.9998);
    match opposite {
        Some(j) if slopes(j) => across / 2.0,
        None if (0..sides.len()).all(slopes) => {
            let plan: Vec<P2> = sides.iter().map(|s| s.start).collect();
            sides[k].depth(ring_centroid(&plan))
        }
        _ => across,
    }
}

/// Makes overhangs follow the pitch, so that every eave ends at the height of the first.
fn level_eaves(part: &Part, tops: &mut [SideRoof], findings: &mut Findings) {
    let ends_at = |t: &SideRoof| t.eave.map(|(height, pitch)| height - t.overhang * pitch.tan());
    let Some(end) = tops.iter().find_map(ends_at) else { return };
    for (k, top) in tops.iter_mut().enumerate() {
        let Some((height, pitch)) = top.eave else { continue };
        let overhang = (height - end) / pitch.tan();
        if overhang < 0.0 {
            let what = tr!("this wall is {} too low for level eaves", findings.print(end - height));
            let place = format!("sides.{}.height", part.sides[k].id.0);
            findings.caution(
                "eave-too-low-to-level",
                &place,
                what,
                tr!("make the wall higher, or the first overhang longer"),
            );
        }
        top.overhang = overhang.max(0.0);
    }
}

/// The slopes that own something over the walls, and the height of the ridge.
fn owning(part: &Part, slopes: Vec<Slope>, plan: &[P2], findings: &mut Findings) -> (Vec<Slope>, f64) {
    let (mut kept, mut ridge): (Vec<Slope>, f64) = (Vec::new(), 0.0);
    for slope in &slopes {
        if kept.iter().any(|k| slope.same_plane(k)) {
            continue;
        }
        let lines = slopes.iter().filter_map(|other| slope.lower_than(other));
        let whole = ConvexPolygon { corners: plan.to_vec(), labels: vec![(); plan.len()] };
        let region = lines.into_iter().try_fold(whole, |region, line| region.clip(&line));
        match region {
            Some(region) if ring_area(&region.corners) > OWNS_NOTHING => {
                let tops = region.corners.iter().map(|&p| slope.height_at(p));
                ridge = tops.fold(ridge, f64::max);
                kept.push(slope.clone());
            }
            _ => report_dropped(part, slope, findings),
        }
    }
    (kept, ridge)
}

fn report_dropped(part: &Part, slope: &Slope, findings: &mut Findings) {
    let (place, name) = match slope.side {
        None => ("lid".to_owned(), tr!("the lid")),
        Some(k) => (format!("sides.{}", part.sides[k].id.0), tr!("this slope")),
    };
    let what = tr!("{name} lies above the other slopes everywhere and is left out");
    findings.caution("slope-owns-nothing", &place, what, tr!("lower it, make it flatter, or let this side be a gable"));
}
