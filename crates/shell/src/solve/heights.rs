//! How high a roof is over each point of its plan: what stands on it asks.

use super::roof::{Roof, RoofThickness, Slope};
use gable_plane::{ConvexPolygon, P2, V2};

/// Points within this of the greatest height belong to the ridge, mm.
const LEVEL: f64 = 1e-6;

/// A roof as a surface over a plan.
pub(super) struct Heights<'a> {
    pub(super) roof: &'a Roof,
    pub(super) plan: &'a [P2],
    pub(super) thickness: RoofThickness,
    pub(super) gap: f64,
}

/// The highest level line of a roof's upper face, or its highest point.
pub(crate) struct TopLine {
    pub(crate) height: f64,
    pub(crate) middle: P2,
    /// Unit, towards the right, or the back.
    pub(crate) direction: V2,
    /// Nought for a point.
    pub(crate) length: f64,
}

impl Heights<'_> {
    /// Height of the raised underside over a point, also beyond the plan.
    pub(super) fn under(&self, p: P2) -> f64 {
        self.lowest(p, |_| self.gap)
    }

    /// Height of the upper face over a point, also beyond the plan.
    pub(super) fn upper(&self, p: P2) -> f64 {
        self.lowest(p, |s| self.gap + self.thickness.of(s))
    }

    fn lowest(&self, p: P2, raised: impl Fn(&Slope) -> f64) -> f64 {
        let heights = self.roof.slopes.iter().map(|s| s.height_at(p) + raised(s) / s.plane.normal.z);
        heights.fold(f64::INFINITY, f64::min)
    }

    /// Upper face of the lid, when the roof has one.
    pub(super) fn lid_top(&self) -> Option<f64> {
        let lid = self.roof.slopes.iter().find(|s| s.side.is_none())?;
        Some(lid.plane.offset + self.gap + self.thickness.lid)
    }

    /// The highest line of the upper face.
    pub(super) fn top(&self) -> TopLine {
        let raised: Vec<Slope> = self.roof.slopes.iter().map(|s| s.raised(self.gap + self.thickness.of(s))).collect();
        let mut corners: Vec<(f64, P2)> = Vec::new();
        for slope in &raised {
            let whole = ConvexPolygon { corners: self.plan.to_vec(), labels: vec![(); self.plan.len()] };
            let lines = raised.iter().filter_map(|other| slope.lower_than(other));
            let region = lines.into_iter().try_fold(whole, |region, line| region.clip(&line));
            corners.extend(region.iter().flat_map(|r| &r.corners).map(|&p| (slope.height_at(p), p)));
        }
        let height = corners.iter().map(|c| c.0).fold(f64::NEG_INFINITY, f64::max);
        let highest: Vec<P2> = corners.iter().filter(|c| c.0 > height - LEVEL).map(|c| c.1).collect();
        let first = highest.first().copied().unwrap_or_else(P2::origin);
        let far_from = |from: P2| highest.iter().copied().fold(from, |best, p| farther(from, best, p));
        let one = far_from(first);
        let other = far_from(one);
        let along = (other - one).try_normalize(LEVEL).unwrap_or_else(V2::x);
        let right = along.x > LEVEL || (along.x > -LEVEL && along.y > 0.0);
        let direction = if right { along } else { -along };
        TopLine { height, middle: nalgebra::center(&one, &other), direction, length: (other - one).norm() }
    }
}

fn farther(from: P2, best: P2, p: P2) -> P2 {
    if (p - from).norm() > (best - from).norm() + LEVEL { p } else { best }
}
