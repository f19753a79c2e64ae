use gable_plane::{HalfSpace, P3, SAME_POINT, Solid, V3};
use std::sync::OnceLock;

/// A convex solid with its half-spaces, the box round it and more at hand.
#[derive(Clone, Debug)]
pub(super) struct Lump {
    pub(super) solid: Solid,
    pub(super) halves: Vec<HalfSpace>,
    low: V3,
    high: V3,
    /// Grown by this many mm.
    rounded: OnceLock<(f64, Vec<HalfSpace>)>,
}

impl Lump {
    pub(super) fn new(solid: Solid) -> Self {
        let (low, high) = solid.bounds();
        let halves = solid.half_spaces();
        Self { halves, solid, low, high, rounded: OnceLock::new() }
    }

    /// The solid with everything added that is within `distance` mm of it; always asked for with the same distance.
    pub(super) fn rounded(&self, distance: f64) -> std::borrow::Cow<'_, [HalfSpace]> {
        let (kept, halves) = self.rounded.get_or_init(|| (distance, self.solid.rounded(distance)));
        if *kept == distance { halves.into() } else { self.solid.rounded(distance).into() }
    }

    /// Least and greatest coordinates.
    pub(super) fn bounds(&self) -> (V3, V3) {
        (self.low, self.high)
    }

    /// Whether the two come within `room` mm of each other, as far as boxes and planes of faces tell.
    pub(super) fn near(&self, other: &Self, room: f64) -> bool {
        let boxes = (0..3).all(|k| self.low[k] < other.high[k] + room && other.low[k] < self.high[k] + room);
        boxes && !self.parts_from(other, room) && !other.parts_from(self, room)
    }

    /// Whether one of the faces has all of another solid `room` mm or more beyond it.
    fn parts_from(&self, other: &Self, room: f64) -> bool {
        let corners = other.solid.corners();
        self.halves.iter().any(|half| corners.iter().all(|p| half.excess(p) >= room - SAME_POINT))
    }

    /// Least and greatest extent along a direction, mm.
    pub(super) fn reach(&self, along: &V3) -> (f64, f64) {
        let heights = self.solid.corners().iter().map(|p| along.dot(&p.coords));
        heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), h| (low.min(h), high.max(h)))
    }

    /// Distance of a point from the faces' planes, mm; negative inside. Off an edge it is a little too small.
    pub(super) fn excess(&self, p: &P3) -> f64 {
        self.halves.iter().map(|h| h.excess(p)).fold(f64::NEG_INFINITY, f64::max)
    }

    /// Whether a point is inside. Faces of a crumb too small for planes say nothing, so the box round it is asked too.
    pub(super) fn holds(&self, p: &P3) -> bool {
        (0..3).all(|k| self.low[k] < p[k] && p[k] < self.high[k]) && self.excess(p) < 0.0
    }

    /// What of a solid is outside, as convex solids larger than `crumb` mm³; the solid itself when the two are apart.
    pub(super) fn taken_from(&self, from: Self, crumb: f64) -> Vec<Self> {
        if !self.near(&from, 0.0) {
            return vec![from];
        }
        let Some((_, outside)) = from.solid.divided(&self.halves) else { return vec![from] };
        outside.into_iter().filter(|s| s.volume() > crumb).map(Self::new).collect()
    }
}
