use gable_plane::P2;

/// One unit as it would lie on an endless face, in the coordinates of the face.
pub(crate) struct Slab {
    /// What shows of it.
    pub(crate) ring: Vec<P2>,
    /// Whether the ring has no inward corner.
    pub(crate) convex: bool,
    /// How far what is covered by others reaches beyond the upper end of the ring's box, mm.
    pub(crate) covered: f64,
    /// Whether it is a whole one already, before the face cuts it.
    pub(crate) whole: bool,
}

impl Slab {
    /// A whole rectangle.
    pub(crate) fn block(low: P2, high: P2) -> Self {
        let ring = vec![low, P2::new(high.x, low.y), high, P2::new(low.x, high.y)];
        Self { ring, convex: true, covered: 0.0, whole: true }
    }
}

/// Units and lines over the box of a face, not yet cut to it.
#[derive(Default)]
pub(crate) struct Laid {
    /// The units.
    pub(crate) slabs: Vec<Slab>,
    /// Straight lines for the pattern, which are piped too.
    pub(crate) lines: Vec<[P2; 2]>,
}
