use crate::{P2, Rest, V2, ring_area, ring_contains};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::{LineJoin, OutlineStyle};

/// An edge of a result lies on an edge that went in when both its ends are within this of that edge's line, mm.
const ON_LINE: f64 = 1e-5;
/// Shorter edges are not told apart, mm.
const SHORT: f64 = 1e-6;
/// Tips sharper than this lose their ends when a region is opened, radians: 4°.
const SHARPEST: f64 = std::f64::consts::PI / 45.0;
/// How much further than it was taken in a region is let out again when it is opened, mm.
const MORE: f64 = 1e-4;
/// Less area than this is nothing, mm².
const NOTHING: f64 = 1e-6;

/// One connected area: a rim, counter-clockwise, and holes, clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Region<L> {
    /// Outer ring, counter-clockwise.
    pub rim: Rest<L>,
    /// Inner rings, clockwise.
    pub holes: Vec<Rest<L>>,
}

impl<L> Region<L> {
    /// Area, mm².
    pub fn area(&self) -> f64 {
        ring_area(&self.rim.corners) + self.holes.iter().map(|h| ring_area(&h.corners)).sum::<f64>()
    }

    /// Whether it has neither holes nor corners that point inwards.
    pub fn is_convex(&self) -> bool {
        let corners = &self.rim.corners;
        let count = corners.len();
        let at = |k: usize| corners[k % count];
        self.holes.is_empty() && (0..count).all(|k| (at(k + 1) - at(k)).perp(&(at(k + 2) - at(k + 1))) >= 0.0)
    }
}

impl<L: Copy + PartialEq> Region<L> {
    /// What is left outside all of the tools (simple rings, counter-clockwise); largest first. Edges are labelled as in
    /// [`Rest::without`].
    pub fn without(&self, tools: &[Rest<L>]) -> Vec<Self> {
        overlay(&self.rings(), tools, OverlayRule::Difference)
    }

    /// The region without its hooks and bridges narrower than `width` mm; largest first. Corners stay sharp (tips sharper
    /// than 4° lose their ends), nothing is added, and new edges have the label `cut`.
    pub fn opened(&self, width: f64, cut: L) -> Vec<Self> {
        self.within(self.broad(width), cut)
    }

    /// The same; `None` when nothing comes off, which takes less time to tell.
    pub fn without_hooks(&self, width: f64, cut: L) -> Option<Vec<Self>> {
        let broad = self.broad(width);
        (!covered(&self.rings(), &broad)).then(|| self.within(broad, cut))
    }

    fn rings(&self) -> Vec<&Rest<L>> {
        std::iter::once(&self.rim).chain(&self.holes).collect()
    }

    /// Rings round what is at least `width` mm wide, and a little more: they lie beyond the region's own edges, not on them
    /// with rounding.
    fn broad(&self, width: f64) -> Vec<Vec<P2>> {
        let shape: Vec<_> = self.rings().iter().map(|r| plain(r)).collect();
        let style = |offset: f64| OutlineStyle::new(offset).line_join(LineJoin::Miter(SHARPEST));
        let core = shape.outline_as::<i64>(&style(-width / 2.0));
        let grown = core.outline_as::<i64>(&style(width / 2.0 + MORE));
        grown.into_iter().flatten().map(points).collect()
    }

    fn within(&self, loops: Vec<Vec<P2>>, cut: L) -> Vec<Self> {
        let loops = loops.into_iter().map(|corners| Rest { labels: vec![cut; corners.len()], corners });
        overlay(&self.rings(), &loops.collect::<Vec<_>>(), OverlayRule::Intersect)
    }
}

impl<L: Copy + PartialEq> Rest<L> {
    /// What is left of a simple ring outside all of the tools (simple rings, counter-clockwise); largest first.
    ///
    /// Edges keep the label of the edge that they lie on: the ring's own before a tool's, an earlier tool's before a later
    /// one's. An edge that lies on edges of several labels one after the other is split between them.
    pub fn without(&self, tools: &[Self]) -> Vec<Region<L>> {
        overlay(&[self], tools, OverlayRule::Difference)
    }

    /// What two simple rings have in common; largest first. Edges are labelled as in [`Self::without`].
    pub fn common(&self, other: &Self) -> Vec<Region<L>> {
        overlay(&[self], std::slice::from_ref(other), OverlayRule::Intersect)
    }

    /// What either of two simple rings covers; largest first. Edges are labelled as in [`Self::without`].
    pub fn joined(&self, other: &Self) -> Vec<Region<L>> {
        overlay(&[self], std::slice::from_ref(other), OverlayRule::Union)
    }

    /// The edges: start, end and label.
    pub fn edges(&self) -> impl Iterator<Item = (P2, P2, L)> + '_ {
        let count = self.corners.len();
        (0..count).map(move |k| (self.corners[k], self.corners[(k + 1) % count], self.labels[k]))
    }
}

fn overlay<L: Copy + PartialEq>(subject: &[&Rest<L>], tools: &[Rest<L>], rule: OverlayRule) -> Vec<Region<L>> {
    let edges: Vec<(P2, P2, L)> = subject.iter().copied().chain(tools).flat_map(|r| r.edges()).collect();
    let subject: Vec<_> = subject.iter().map(|r| plain(r)).collect();
    let tools: Vec<_> = tools.iter().map(plain).collect();
    // Whole numbers of 64 bits: over a metre its grid is finer than f64 itself.
    let shapes = subject.overlay_as::<i64>(&tools, rule, FillRule::NonZero);
    let mut regions: Vec<Region<L>> = shapes
        .into_iter()
        .filter_map(|shape| {
            let mut rings = shape.into_iter().map(points);
            let rim = labelled(turned(rings.next()?, true), &edges)?;
            let holes = rings.filter_map(|ring| labelled(turned(ring, false), &edges)).collect();
            Some(Region { rim, holes })
        })
        .filter(|region| region.area() > NOTHING)
        .collect();
    regions.sort_by(|a, b| b.area().total_cmp(&a.area()));
    regions
}

/// Whether a region lies within loops: no edges cross, all its rings are inside, and no loop is.
fn covered<L: Copy + PartialEq>(rings: &[&Rest<L>], loops: &[Vec<P2>]) -> bool {
    let within = |p: P2, all: &mut dyn Iterator<Item = &Vec<P2>>| all.filter(|r| ring_contains(r, p)).count() % 2 == 1;
    let around = |ring: &Vec<P2>| ring.first().is_some_and(|p| within(*p, &mut rings.iter().map(|r| &r.corners)));
    let inside = |ring: &&Rest<L>| ring.corners.first().is_some_and(|p| within(*p, &mut loops.iter()));
    rings.iter().all(inside)
        && !loops.iter().any(around)
        && rings.iter().flat_map(|ring| ring.edges()).all(|(a, b, _)| {
            loops.iter().all(|ring| (0..ring.len()).all(|k| !cross([a, b], [ring[k], ring[(k + 1) % ring.len()]])))
        })
}

/// Whether two edges cross or touch.
fn cross([a, b]: [P2; 2], [p, q]: [P2; 2]) -> bool {
    let apart = |k: usize| a[k].max(b[k]) < p[k].min(q[k]) || p[k].max(q[k]) < a[k].min(b[k]);
    if apart(0) || apart(1) {
        return false;
    }
    let side = |from: P2, to: P2, at: P2| (to - from).perp(&(at - from));
    side(a, b, p) * side(a, b, q) <= 0.0 && side(p, q, a) * side(p, q, b) <= 0.0
}

fn plain<L>(ring: &Rest<L>) -> Vec<[f64; 2]> {
    ring.corners.iter().map(|p| [p.x, p.y]).collect()
}

fn points(ring: Vec<[f64; 2]>) -> Vec<P2> {
    ring.into_iter().map(P2::from).collect()
}

/// The ring running counter-clockwise, or clockwise.
fn turned(mut ring: Vec<P2>, counter_clockwise: bool) -> Vec<P2> {
    if (ring_area(&ring) > 0.0) != counter_clockwise {
        ring.reverse();
    }
    ring
}

/// Finds the label of every edge of a ring; `None` when it has no size.
fn labelled<L: Copy + PartialEq>(ring: Vec<P2>, known: &[(P2, P2, L)]) -> Option<Rest<L>> {
    let mut corners: Vec<P2> = Vec::new();
    for p in ring {
        if corners.last().is_none_or(|q| (p - q).norm() > SHORT) {
            corners.push(p);
        }
    }
    while corners.len() > 1 && (corners[0] - corners[corners.len() - 1]).norm() <= SHORT {
        corners.pop();
    }
    while let Some(tip) = spike(&corners) {
        corners.remove(tip);
        let (here, before) = (tip % corners.len(), (tip + corners.len() - 1) % corners.len());
        if (corners[here] - corners[before]).norm() <= SHORT {
            corners.remove(here);
        }
    }
    if corners.len() < 3 {
        return None;
    }
    let mut out = Rest { corners: Vec::new(), labels: Vec::new() };
    for k in 0..corners.len() {
        let (from, to) = (corners[k], corners[(k + 1) % corners.len()]);
        for (start, label) in spans(from, to, known) {
            let repeated = out.labels.last() == Some(&label) && start > 0.0;
            if !repeated {
                out.corners.push(from + (to - from) * start);
                out.labels.push(label);
            }
        }
    }
    (out.corners.len() >= 3).then_some(out)
}

/// A corner at which a ring turns back on itself, so that nothing of any width lies there.
fn spike(corners: &[P2]) -> Option<usize> {
    let count = corners.len();
    (0..count).filter(|_| count > 2).find(|&k| {
        let (to, from) = (corners[k] - corners[(k + count - 1) % count], corners[(k + 1) % count] - corners[k]);
        let longer = to.norm().max(from.norm());
        to.dot(&from) < 0.0 && to.perp(&from).abs() < ON_LINE * longer
    })
}

/// The labels along an edge, each with the share of the edge at which it starts.
fn spans<L: Copy>(from: P2, to: P2, known: &[(P2, P2, L)]) -> Vec<(f64, L)> {
    let length = (to - from).norm();
    let along = (to - from) / length;
    let mut on: Vec<(f64, f64, L)> = Vec::new();
    for &(a, b, label) in known {
        let direction = (b - a).normalize();
        let off = |p: P2| direction.perp(&(p - a)).abs();
        let (s, t) = ((a - from).dot(&along), (b - from).dot(&along));
        let (low, high) = (s.min(t).max(0.0), s.max(t).min(length));
        if high - low > SHORT && off(from) < ON_LINE && off(to) < ON_LINE {
            on.push((low, high, label));
        }
    }
    let mut stops: Vec<f64> = on.iter().flat_map(|s| [s.0, s.1]).filter(|&s| s > SHORT && s < length - SHORT).collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|a, b| *a - *b < SHORT);
    stops.insert(0, 0.0);
    let ends = stops.iter().skip(1).copied().chain([length]);
    let mut found = Vec::new();
    for (start, end) in stops.iter().copied().zip(ends) {
        let middle = (start + end) / 2.0;
        if let Some(span) = on.iter().find(|s| s.0 < middle && s.1 > middle) {
            found.push((start / length, span.2));
        }
    }
    // Rounding may leave an edge that is on none exactly: then the nearest is its own.
    if found.is_empty() {
        let middle = nalgebra::center(&from, &to);
        let nearest = known.iter().min_by(|a, b| off_edge(middle, a).total_cmp(&off_edge(middle, b)));
        found.extend(nearest.map(|n| (0.0, n.2)));
    }
    if let Some(first) = found.first_mut() {
        first.0 = 0.0;
    }
    found
}

/// Distance of a point from an edge, mm.
fn off_edge<L>(p: P2, (a, b, _): &(P2, P2, L)) -> f64 {
    let along: V2 = b - a;
    let share = ((p - a).dot(&along) / along.norm_squared()).clamp(0.0, 1.0);
    (p - (a + along * share)).norm()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(corners: &[(f64, f64)], label: u8) -> Rest<u8> {
        let corners: Vec<P2> = corners.iter().map(|&(x, y)| P2::new(x, y)).collect();
        Rest { labels: vec![label; corners.len()], corners }
    }

    #[test]
    fn a_ring_that_turns_back_on_itself_loses_the_spike() {
        let ring = [(0., 0.), (9., 0.), (9., 8.), (9., 5.), (0., 5.)].map(|(x, y)| P2::new(x, y));
        assert_eq!(spike(&ring), Some(2));
        let known = [(P2::new(0., 0.), P2::new(9., 0.), 1u8)];
        assert_eq!(labelled(ring.to_vec(), &known).unwrap().corners.len(), 4);
    }

    fn block(x: f64, y: f64, w: f64, h: f64, label: u8) -> Rest<u8> {
        ring(&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)], label)
    }

    #[test]
    fn a_bite_a_hole_and_a_cut_in_two() {
        let whole = block(0.0, 0.0, 10.0, 10.0, 1);
        let bitten = whole.without(&[block(8.0, 8.0, 5.0, 5.0, 2)]);
        assert_eq!((bitten.len(), bitten[0].rim.corners.len()), (1, 6));
        assert!((bitten[0].area() - 96.0).abs() < 1e-9);
        let pierced = whole.without(&[block(4.0, 4.0, 2.0, 2.0, 2)]);
        assert_eq!((pierced.len(), pierced[0].holes.len()), (1, 1));
        assert!(pierced[0].holes[0].labels.iter().all(|&l| l == 2) && (pierced[0].area() - 96.0).abs() < 1e-9);
        let halves = whole.without(&[block(6.0, -1.0, 1.0, 12.0, 2)]);
        let areas: Vec<f64> = halves.iter().map(Region::area).collect();
        assert!(areas.len() == 2 && (areas[0] - 60.0).abs() < 1e-9 && (areas[1] - 30.0).abs() < 1e-9);
    }

    #[test]
    fn a_hook_goes_and_corners_stay() {
        // A block with a hook of 0.5 by 6 at its upper right corner.
        let corners = [(0.0, 0.0), (10.0, 0.0), (10.0, 9.5), (16.0, 9.5), (16.0, 10.0), (0.0, 10.0)];
        let region = Region { rim: ring(&corners, 1), holes: vec![] };
        let opened = region.opened(1.0, 9);
        assert_eq!(region.without_hooks(1.0, 9).as_ref(), Some(&opened));
        assert_eq!(opened.len(), 1);
        assert!((opened[0].area() - 100.0).abs() < 0.01, "{}", opened[0].area());
        assert!(opened[0].rim.labels.contains(&9) && opened[0].rim.corners.contains(&P2::new(0.0, 10.0)));
        let wide = Region { rim: block(0.0, 0.0, 10.0, 2.0, 1), holes: vec![] };
        assert_eq!((wide.without_hooks(1.0, 9), wide.without_hooks(3.0, 9)), (None, Some(vec![])));
        // Two blocks with a bridge of 0.5 between them that is narrow from edge to edge: no corner tells.
        let corners = [
            (0., 0.),
            (9., 0.),
            (9., 4.),
            (11., 4.),
            (11., 0.),
            (20., 0.),
            (20., 9.),
            (11., 9.),
            (11., 4.5),
            (9., 4.5),
            (9., 9.),
            (0., 9.),
        ];
        let bridged = Region { rim: ring(&corners, 1), holes: vec![] };
        assert_eq!(bridged.without_hooks(1.0, 9).map(|parts| parts.len()), Some(2));
        // A frame as wide as a blade and a little more loses nothing, though a hole is in it.
        let mut hole = block(1.1, 1.1, 7.8, 7.8, 1);
        hole.corners.reverse();
        let frame = Region { rim: block(0.0, 0.0, 10.0, 10.0, 1), holes: vec![hole] };
        assert_eq!(frame.without_hooks(1.0, 9), None);
    }

    #[test]
    fn an_edge_along_two_tools_is_split_between_them() {
        let whole = block(0.0, 0.0, 10.0, 10.0, 1);
        let cut = whole.without(&[block(8.0, -1.0, 5.0, 5.0, 2), block(8.0, 4.0, 5.0, 9.0, 3)]);
        let right: Vec<(P2, P2, u8)> = cut[0].rim.edges().filter(|e| e.2 != 1).collect();
        assert_eq!(right.iter().map(|e| e.2).collect::<Vec<_>>(), [2, 3]);
        assert!((right[0].1 - P2::new(8.0, 4.0)).norm() < 1e-9);
    }

    #[test]
    fn what_two_rings_share_keeps_both_their_edges() {
        let shared = block(0.0, 0.0, 10.0, 10.0, 1).common(&block(5.0, 5.0, 10.0, 10.0, 2));
        let mut labels = shared[0].rim.labels.clone();
        labels.sort_unstable();
        assert_eq!(labels, [1, 1, 2, 2]);
    }

    #[test]
    fn a_tool_that_only_touches_leaves_the_edge_its_label() {
        let touched = block(0.0, 0.0, 10.0, 10.0, 1).without(&[block(10.0, 2.0, 5.0, 5.0, 2)]);
        assert!(touched[0].rim.labels.iter().all(|&l| l == 1) && touched[0].rim.corners.len() == 4);
    }
}
