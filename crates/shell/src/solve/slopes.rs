//! Cutting the roof pieces: each slope owns the region where it is the lowest, out to the rim.

use super::plan::{PlanSide, flat};
use super::plate::{Bound, Cause, Cut, Frame, NoPlate, Plate, cut_plate};
use super::roof::{Roof, RoofThickness, Slope};
use crate::{Ridges, Tier};
use gable_plane::{HalfSpace, P3, V3, ring_area};

/// A lap longer than so many thicknesses is left open instead: it would be a second roof.
const LONGEST_LAP: f64 = 3.0;

/// The share of a covered piece that a lap must leave of it.
const LEAST_COVERED: f64 = 0.5;

/// The roof pieces as cut, one per slope.
pub(super) struct Slopes {
    pub(super) plates: Vec<Result<Plate, NoPlate>>,
    /// Pairs (covers, is covered) that lap.
    pub(super) laps: Vec<(usize, usize)>,
    /// Pairs that run from rim to rim but are left open all the same, because a lap would be too long.
    pub(super) laps_given_up: Vec<(usize, usize)>,
}

/// The raised underside frame of a slope.
fn frame(slope: &Slope, sides: &[PlanSide], gap: f64) -> Frame {
    let raised = slope.plane.moved(gap);
    let Some(side) = slope.side.map(|k| &sides[k]) else { return Frame::level(raised.offset) };
    let foot = P3::new(side.start.x, side.start.y, 0.0);
    // Straight up from the corner of the plan to the raised underside.
    let origin = foot - V3::z() * (raised.excess(&foot) / raised.normal.z);
    let x = flat(side.along);
    Frame { origin, x, y: raised.normal.cross(&x), z: raised.normal }
}

/// The plane that halves the angle between two slopes, keeping the first; the gap not counted.
pub(super) fn halving(slope: &Slope, other: &Slope) -> HalfSpace {
    let normal = other.plane.normal - slope.plane.normal;
    let length = normal.norm();
    HalfSpace { normal: normal / length, offset: (other.plane.offset - slope.plane.offset) / length }
}

/// Cuts all slopes of a roof; the base board is at height `table`.
pub(super) fn cut(
    roof: &Roof,
    sides: &[PlanSide],
    ridges: Ridges,
    thickness: RoofThickness,
    gap: f64,
    table: f64,
) -> Slopes {
    let cutter = Cutter { roof, sides, thickness, gap, table };
    let ridge_cut = if ridges == Ridges::Bevelled { Cut::Bevel } else { Cut::Tighter };
    let count = roof.slopes.len();
    let open: Vec<_> = (0..count).map(|s| cutter.plate(s, ridge_cut, &[])).collect();
    if ridges != Ridges::Lapped {
        return Slopes { plates: open, laps: Vec::new(), laps_given_up: Vec::new() };
    }
    let (mut laps, mut laps_given_up): (Vec<_>, Vec<_>) =
        cutter.laps(&open).into_iter().partition(|&(s, r)| cutter.lap_is_short(s, r));
    loop {
        let plates: Vec<_> = (0..count).map(|s| cutter.plate(s, ridge_cut, &laps)).collect();
        // A covered piece that loses most of itself is not worth covering, and the two must still meet.
        let meets = |s: usize, r: usize| plates[s].as_ref().is_ok_and(|p| p.edges_of(Cause::Slope(r)).next().is_some());
        let fails = |&(s, r): &(usize, usize)| {
            area(&plates[r]) < LEAST_COVERED * area(&open[r]) || !meets(s, r) || !meets(r, s)
        };
        let Some(lap) = laps.iter().position(fails) else { return Slopes { plates, laps, laps_given_up } };
        laps_given_up.push(laps.remove(lap));
    }
}

fn area(plate: &Result<Plate, NoPlate>) -> f64 {
    plate.as_ref().map_or(0.0, |p| ring_area(&p.front))
}

struct Cutter<'a> {
    roof: &'a Roof,
    sides: &'a [PlanSide],
    thickness: RoofThickness,
    gap: f64,
    table: f64,
}

impl Cutter<'_> {
    fn plate(&self, s: usize, ridge_cut: Cut, laps: &[(usize, usize)]) -> Result<Plate, NoPlate> {
        let slope = &self.roof.slopes[s];
        let mut bounds = Vec::new();
        for (j, side) in self.sides.iter().enumerate() {
            let out = if slope.side.is_some() { self.roof.rims[j] } else { self.roof.lid_rim };
            bounds.push(Bound { half: side.half_space(out), cut: Cut::Looser, cause: Cause::Rim(j) });
        }
        let table = HalfSpace { normal: -V3::z(), offset: -self.table };
        bounds.push(Bound { half: table, cut: Cut::Tighter, cause: Cause::Table });
        for r in (0..self.roof.slopes.len()).filter(|&r| r != s) {
            bounds.push(self.against(s, r, ridge_cut, laps));
        }
        cut_plate(frame(slope, self.sides, self.gap), self.thickness.of(slope), &bounds)
    }

    /// What slope s must keep to where it meets slope r.
    fn against(&self, s: usize, r: usize, ridge_cut: Cut, laps: &[(usize, usize)]) -> Bound {
        let (slope, other) = (&self.roof.slopes[s], &self.roof.slopes[r]);
        let cause = Cause::Slope(r);
        if laps.contains(&(s, r)) {
            // Covers: out to where its underside meets the other's top, and a gap more, so that it still lies over
            // the other's edge one gap below.
            let half = other.plane.moved(2.0 * self.gap + self.thickness.of(other));
            return Bound { half, cut: Cut::Looser, cause };
        }
        if laps.contains(&(r, s)) {
            // Is covered: stays a gap below the other's raised underside.
            return Bound { half: other.plane, cut: Cut::Tighter, cause };
        }
        Bound { half: halving(slope, other).moved(-self.gap / 2.0), cut: ridge_cut, cause }
    }

    /// Level lines between two slopes that run from rim to rim on both. The upper slope covers the lower at a knee;
    /// at a ridge the first one covers.
    fn laps(&self, open: &[Result<Plate, NoPlate>]) -> Vec<(usize, usize)> {
        let mut laps = Vec::new();
        for s in 0..open.len() {
            for r in s + 1..open.len() {
                let (Ok(a), Ok(b)) = (&open[s], &open[r]) else { continue };
                if !(rim_to_rim(a, r) && rim_to_rim(b, s)) {
                    continue;
                }
                let upper = self.roof.slopes[r].tier == Tier::Upper && self.roof.slopes[s].tier == Tier::Lower;
                laps.push(if upper || self.roof.slopes[r].side.is_none() { (r, s) } else { (s, r) });
            }
        }
        laps
    }

    /// The cover reaches t / sin(turn) past the line: from the underside line to the other's top plane.
    fn lap_is_short(&self, s: usize, r: usize) -> bool {
        let turn = self.roof.slopes[s].plane.normal.cross(&self.roof.slopes[r].plane.normal).norm();
        1.0 / turn <= LONGEST_LAP
    }
}

/// Whether the edge of a plate against slope `other` runs from rim to rim along a level line.
fn rim_to_rim(plate: &Plate, other: usize) -> bool {
    let Some(k) = plate.edges_of(Cause::Slope(other)).next() else { return false };
    let count = plate.count();
    let rim = |j: usize| matches!(plate.causes[j % count], Cause::Rim(_));
    let [a, b] = plate.edge_in_part(k);
    rim(k + 1) && rim(k + count - 1) && (a.z - b.z).abs() < 1e-6
}
