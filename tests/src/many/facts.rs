//! What a guest must know of its host, from typed sizes.

use crate::envelope::Envelope;
use crate::hull::{Plane, Tag};
use gable_plane::{P2, V2};
use gable_shell::{Part, Top};

/// A part in its own coordinates.
pub(super) struct Facts {
    pub(super) plan: Vec<P2>,
    roof: Vec<Plane>,
}

impl Facts {
    pub(super) fn of(part: &Part) -> Self {
        let (plan, planes) = Envelope::own_planes(part);
        Self { plan, roof: planes.into_iter().filter(|p| matches!(p.tag, Tag::Slope(..) | Tag::Lid)).collect() }
    }

    /// Height of the underside of the roof over a point.
    pub(super) fn height(&self, p: P2) -> f64 {
        let over = self.roof.iter().map(|r| (r.offset - r.normal.xy().dot(&p.coords)) / r.normal.z);
        over.fold(f64::INFINITY, f64::min)
    }

    pub(super) fn length(&self, side: usize) -> f64 {
        (self.corner(side + 1) - self.corner(side)).norm()
    }

    pub(super) fn corner(&self, k: usize) -> P2 {
        self.plan[k % self.plan.len()]
    }

    /// A point at a share of a side's length and so far in from it.
    pub(super) fn inside(&self, side: usize, share: f64, depth: f64) -> P2 {
        let along = self.corner(side + 1) - self.corner(side);
        let inward = V2::new(-along.y, along.x).normalize();
        self.corner(side) + along * share + inward * depth
    }

    /// How deep the plan is behind the middle of a side.
    pub(super) fn depth(&self, side: usize) -> f64 {
        let along = (self.corner(side + 1) - self.corner(side)).normalize();
        self.plan.iter().map(|p| along.perp(&(p - self.corner(side)))).fold(0.0, f64::max)
    }

    /// The lowest height of a wall's top.
    pub(super) fn wall_top(&self, side: usize) -> f64 {
        [0.0, 0.5, 1.0].map(|s| self.height(self.inside(side, s, 0.0))).into_iter().fold(f64::INFINITY, f64::min)
    }

    /// The first highest point behind the middle of a side: how far in, and its height.
    pub(super) fn ridge(&self, side: usize) -> (f64, f64) {
        let depth = self.depth(side);
        let steps = (0..=64).map(|k| depth * f64::from(k) / 64.0);
        let heights = steps.map(|d| (d, self.height(self.inside(side, 0.5, d))));
        heights.fold((0.0, f64::NEG_INFINITY), |best, h| if h.1 > best.1 + 1e-6 { h } else { best })
    }

    /// The highest point of the roof.
    pub(super) fn top(&self) -> f64 {
        (0..self.plan.len()).map(|k| self.ridge(k).1).fold(0.0, f64::max)
    }

    /// Distance from the middle of the plan to its nearest side.
    pub(super) fn inradius(&self) -> f64 {
        (0..self.plan.len()).map(|k| self.depth(k) / 2.0).fold(f64::INFINITY, f64::min)
    }
}

/// Whether a slope rises from a side.
pub(super) fn slopes_up(part: &Part, side: usize) -> bool {
    matches!(part.sides[side].top, Top::Eave { .. } | Top::Knee { .. })
}
