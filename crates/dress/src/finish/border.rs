use gable_plane::{P2, V2, ring_area};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;

/// A unit may reach this far over the border, mm: rounding, a thousandth of what a knife can do.
const OVER: f64 = 1e-6;
/// Of what is cut off less than this share, nothing is cut off: rounding. A corner of a tile is then 1e-4 mm over at most.
const SAME_AREA: f64 = 1e-11;
/// Fewest and most bands that the edges are sorted into.
const BANDS: (usize, usize) = (1, 256);

/// The border of a face in its own coordinates, sorted for quick questions: most units lie far from it.
pub(crate) struct Border {
    /// Rim, counter-clockwise, and holes, clockwise.
    rings: Vec<Vec<[f64; 2]>>,
    edges: Vec<(P2, P2)>,
    /// Edges by level bands of one height, from `low.y` up.
    bands: Vec<Vec<usize>>,
    band: f64,
    low: P2,
    high: P2,
}

/// A clipped shape: rim and holes.
pub(crate) struct Clipped {
    pub(crate) rim: Vec<P2>,
    pub(crate) holes: Vec<Vec<P2>>,
}

impl Clipped {
    /// Area, mm².
    pub(crate) fn area(&self) -> f64 {
        ring_area(&self.rim).abs() - self.holes.iter().map(|h| ring_area(h).abs()).sum::<f64>()
    }
}

/// What became of a shape.
pub(crate) enum Kept {
    /// All of it lies on the face.
    Whole,
    /// Only so much; nothing when empty.
    Parts(Vec<Clipped>),
}

impl Border {
    /// From a rim and holes that lie within it and apart from each other.
    pub(crate) fn new(rim: &[P2], holes: &[Vec<P2>]) -> Self {
        let turned = |ring: &[P2], positive: bool| -> Vec<[f64; 2]> {
            let points = ring.iter().map(|p| [p.x, p.y]);
            if (ring_area(ring) > 0.0) == positive { points.collect() } else { points.rev().collect() }
        };
        let rings = std::iter::once(turned(rim, true)).chain(holes.iter().map(|h| turned(h, false)));
        Self::of_rings(rings.filter(|r| r.len() >= 3).collect())
    }

    fn of_rings(rings: Vec<Vec<[f64; 2]>>) -> Self {
        let point = |p: [f64; 2]| P2::new(p[0], p[1]);
        let edges: Vec<(P2, P2)> =
            rings.iter().flat_map(|r| (0..r.len()).map(|k| (point(r[k]), point(r[(k + 1) % r.len()])))).collect();
        let (low, high) = gable_plane::bounds(edges.iter().map(|e| &e.0)).unwrap_or_default();
        let count = edges.len().clamp(BANDS.0, BANDS.1);
        let band = ((high.y - low.y) / count as f64).max(OVER);
        let mut border = Self { rings, edges, bands: vec![Vec::new(); count], band, low, high };
        for k in 0..border.edges.len() {
            let (a, b) = border.edges[k];
            for band in border.band_of(a.y.min(b.y))..=border.band_of(a.y.max(b.y)) {
                border.bands[band].push(k);
            }
        }
        border
    }

    fn band_of(&self, y: f64) -> usize {
        // Saturates below zero and is cut above.
        (((y - self.low.y) / self.band) as usize).min(self.bands.len() - 1)
    }

    /// Lowest and highest corner of the box round the face.
    pub(crate) fn bounds(&self) -> (P2, P2) {
        (self.low, self.high)
    }

    /// Area, mm².
    pub(crate) fn area(&self) -> f64 {
        let ring = |r: &Vec<[f64; 2]>| ring_area(&r.iter().map(|p| P2::new(p[0], p[1])).collect::<Vec<_>>());
        self.rings.iter().map(ring).sum()
    }

    /// Whether a point lies on the face; either for a point of its border.
    pub(crate) fn contains(&self, p: P2) -> bool {
        if p.y < self.low.y || p.y > self.high.y {
            return false;
        }
        let crosses = |k: &&usize| {
            let (a, b) = self.edges[**k];
            (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)
        };
        self.bands[self.band_of(p.y)].iter().filter(crosses).count() % 2 == 1
    }

    /// Edges that reach into a box, without repeats.
    fn crossing(&self, low: P2, high: P2) -> Vec<usize> {
        let mut found = Vec::new();
        for band in &self.bands[self.band_of(low.y)..=self.band_of(high.y)] {
            for &k in band {
                let (a, b) = self.edges[k];
                if !found.contains(&k) && reaches_into(a, b, low, high) {
                    found.push(k);
                }
            }
        }
        found
    }

    /// Whether a box lies on the face, border included.
    pub(crate) fn holds(&self, low: P2, high: P2) -> bool {
        let inset = V2::new(OVER, OVER);
        self.crossing(low + inset, high - inset).is_empty() && self.contains(nalgebra::center(&low, &high))
    }

    /// What of a simple ring lies on the face. `convex` says that the ring has no inward corner.
    pub(crate) fn clip(&self, ring: &[P2], convex: bool) -> Kept {
        let Some((low, high)) = gable_plane::bounds(ring) else { return Kept::Parts(Vec::new()) };
        let inset = V2::new(OVER, OVER);
        match self.crossing(low + inset, high - inset).as_slice() {
            [] if self.contains(nalgebra::center(&low, &high)) => Kept::Whole,
            [] => Kept::Parts(Vec::new()),
            // A single edge crosses the box from side to side: its line alone decides.
            [only] if convex => Kept::Parts(self.beside(ring, *only)),
            _ => self.overlaid(ring),
        }
    }

    /// What of a convex ring lies left of an edge.
    fn beside(&self, ring: &[P2], edge: usize) -> Vec<Clipped> {
        let (a, b) = self.edges[edge];
        let left = |p: &P2| (b - a).perp(&(p - a));
        let mut rim = Vec::with_capacity(ring.len() + 1);
        for k in 0..ring.len() {
            let (p, q) = (ring[k], ring[(k + 1) % ring.len()]);
            let (here, there) = (left(&p), left(&q));
            if here >= 0.0 {
                rim.push(p);
            }
            if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
                rim.push(p + (q - p) * (here / (here - there)));
            }
        }
        if rim.len() < 3 { Vec::new() } else { vec![Clipped { rim, holes: Vec::new() }] }
    }

    fn overlaid(&self, ring: &[P2]) -> Kept {
        let full = ring_area(ring).abs();
        let subject: Vec<[f64; 2]> = ring.iter().map(|p| [p.x, p.y]).collect();
        let shapes = subject.overlay_as::<i64>(&self.rings, OverlayRule::Intersect, FillRule::NonZero);
        let parts: Vec<Clipped> = shapes.into_iter().filter_map(clipped).collect();
        match parts.as_slice() {
            [only] if only.holes.is_empty() && full - only.area() <= SAME_AREA * full => Kept::Whole,
            _ => Kept::Parts(parts),
        }
    }

    /// The border without some areas, counter-clockwise, and without what they enclose.
    pub(crate) fn without(self, areas: &[Vec<P2>]) -> Self {
        let tools: Vec<Vec<[f64; 2]>> = areas.iter().map(|a| a.iter().map(|p| [p.x, p.y]).collect()).collect();
        let nothing: Vec<Vec<[f64; 2]>> = Vec::new();
        let joined = tools.overlay_as::<i64>(&nothing, OverlayRule::Union, FillRule::NonZero);
        let rims: Vec<Vec<[f64; 2]>> = joined.into_iter().filter_map(|shape| shape.into_iter().next()).collect();
        if rims.is_empty() {
            return self;
        }
        let shapes = self.rings.overlay_as::<i64>(&rims, OverlayRule::Difference, FillRule::NonZero);
        Self::of_rings(shapes.into_iter().flatten().collect())
    }

    /// Rims, counter-clockwise, and holes, clockwise.
    pub(crate) fn rings(&self) -> impl Iterator<Item = Vec<P2>> + '_ {
        self.rings.iter().map(|r| r.iter().map(|p| P2::new(p[0], p[1])).collect())
    }

    /// Whether nothing is left.
    pub(crate) fn is_empty(&self) -> bool {
        self.edges.is_empty()
    }

    /// The stretches of a straight line that lie on the face.
    pub(crate) fn spans(&self, from: P2, to: P2) -> Vec<[P2; 2]> {
        let along = to - from;
        let mut cuts = vec![0.0, 1.0];
        let (low, high) = (P2::from(from.coords.inf(&to.coords)), P2::from(from.coords.sup(&to.coords)));
        for k in self.crossing(low - V2::new(OVER, OVER), high + V2::new(OVER, OVER)) {
            let (a, b) = self.edges[k];
            let across = along.perp(&(b - a));
            if across.abs() > f64::EPSILON {
                cuts.push((a - from).perp(&(b - a)) / across);
            }
        }
        cuts.retain(|t| (0.0..=1.0).contains(t));
        cuts.sort_by(f64::total_cmp);
        let at = |t: f64| from + along * t;
        let pieces = cuts.windows(2).filter(|w| w[1] - w[0] > 1e-9 && self.contains(at((w[0] + w[1]) / 2.0)));
        pieces.map(|w| [at(w[0]), at(w[1])]).collect()
    }
}

/// Rim first; what has no size is nothing.
fn clipped(shape: Vec<Vec<[f64; 2]>>) -> Option<Clipped> {
    let mut rings = shape.into_iter().map(|ring| ring.into_iter().map(P2::from).collect::<Vec<P2>>());
    let rim = rings.next()?;
    Some(Clipped { rim, holes: rings.collect() }).filter(|c| c.rim.len() >= 3)
}

/// Whether a segment has a point in a box: its parameters are cut by the four sides in turn.
fn reaches_into(a: P2, b: P2, low: P2, high: P2) -> bool {
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let (from, step) = (a[axis], b[axis] - a[axis]);
        if step.abs() < f64::MIN_POSITIVE {
            if from <= low[axis] || from >= high[axis] {
                return false;
            }
            continue;
        }
        let (t, s) = ((low[axis] - from) / step, (high[axis] - from) / step);
        (first, last) = (first.max(t.min(s)), last.min(t.max(s)));
    }
    first < last
}
