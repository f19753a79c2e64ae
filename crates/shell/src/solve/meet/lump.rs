use gable_plane::{HalfSpace, P3, Solid, V3};

/// A convex solid with its half-spaces and the box round it at hand.
#[derive(Clone, Debug)]
pub(super) struct Lump {
    pub(super) solid: Solid,
    pub(super) halves: Vec<HalfSpace>,
    low: V3,
    high: V3,
}

impl Lump {
    pub(super) fn new(solid: Solid) -> Self {
        let (low, high) = solid.bounds();
        Self { halves: solid.half_spaces(), solid, low, high }
    }

    /// Whether the boxes come within `room` mm of each other.
    pub(super) fn near(&self, other: &Self, room: f64) -> bool {
        (0..3).all(|k| self.low[k] < other.high[k] + room && other.low[k] < self.high[k] + room)
    }

    /// Least and greatest extent along a direction, mm.
    pub(super) fn reach(&self, along: &V3) -> (f64, f64) {
        let heights = self.solid.faces().iter().flat_map(|f| &f.corners).map(|p| along.dot(&p.coords));
        heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), h| (low.min(h), high.max(h)))
    }

    /// Distance of a point from the faces' planes, mm; negative inside. Off an edge it is a little too small.
    pub(super) fn excess(&self, p: &P3) -> f64 {
        self.halves.iter().map(|h| h.excess(p)).fold(f64::NEG_INFINITY, f64::max)
    }

    /// What of a solid is outside, as convex solids; the solid itself when the two are apart.
    pub(super) fn taken_from(&self, from: Self) -> Vec<Self> {
        if !self.near(&from, 0.0) || from.solid.clip_all(&self.halves).is_none() {
            return vec![from];
        }
        from.solid.without(&self.halves).into_iter().map(Self::new).collect()
    }
}
