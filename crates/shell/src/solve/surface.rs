//! A part for itself, as whatever is to stand by it sees it.

use super::findings::Findings;
use super::heights::{Heights, TopLine};
use super::part::{self, PartSolution};
use super::place::{self, Stand};
use crate::{House, Part};
use gable_plane::{P2, Rigid};

/// The plan of a part and the roof over it, in its own coordinates; heights count from its foot.
pub(crate) struct Surface<'a> {
    part: &'a Part,
    solution: PartSolution,
}

impl<'a> Surface<'a> {
    /// `None` for a part that cannot be built even for itself.
    pub(crate) fn of(house: &'a House, part: &'a Part) -> Option<Self> {
        let stand = Stand { house_from_part: Rigid::identity(), foot: 0.0, on_board: true };
        let solution = part::solve(house, part, stand, &mut Findings::new(house, 0));
        solution.roof.is_some().then_some(Self { part, solution })
    }

    /// Length of a side, mm.
    pub(crate) fn length(&self, side: usize) -> f64 {
        self.solution.sides[side].length()
    }

    /// The point at a share of a side's length and so many mm in from it.
    pub(crate) fn inside(&self, side: usize, share: f64, depth: f64) -> P2 {
        let side = &self.solution.sides[side];
        side.start + (side.end - side.start) * share + side.inward * depth
    }

    /// How deep the plan is behind a side, mm.
    pub(crate) fn depth(&self, side: usize) -> f64 {
        let side = &self.solution.sides[side];
        self.solution.plan.iter().map(|&p| side.depth(p)).fold(0.0, f64::max)
    }

    /// Height of the roof's underside over a point, mm, also beyond the plan.
    pub(crate) fn under(&self, p: P2) -> f64 {
        self.heights().map_or(0.0, |h| h.under(p))
    }

    /// Height of the roof's upper face over a point, mm, also beyond the plan.
    pub(crate) fn upper(&self, p: P2) -> f64 {
        self.heights().map_or(0.0, |h| h.upper(p))
    }

    /// The highest line of the roof.
    pub(crate) fn top(&self) -> Option<TopLine> {
        self.heights().map(|h| h.top())
    }

    /// Where a guest would stand; `None` if it cannot.
    pub(crate) fn stand(&self, guest: &Part) -> Option<Rigid> {
        place::place(guest, Some((self.part, &self.solution))).ok().map(|s| s.house_from_part)
    }

    fn heights(&self) -> Option<Heights<'_>> {
        self.solution.roof_heights()
    }
}
