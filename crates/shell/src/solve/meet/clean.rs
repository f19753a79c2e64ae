//! What is too thin to be cut or held comes off an outline.

use super::recut::{Cut, SCRAP, SCRAP_SHARE};
use super::tool::Mark;
use gable_plane::{ConvexPolygon, P2, Region, Rest, ring_area};

/// Hooks and bridges narrower than this are thinner than a blade, mm (common practice, no source).
const BLADE: f64 = 1.0;
/// Less than this comes off by rounding, mm².
const NO_HOOK: f64 = 1e-3;
/// Where an outline comes this near to itself it touches itself, mm: no blade follows it, and no triangles fill it.
const TOUCH: f64 = 1e-3;
/// Corners nearer to each other than this along the outline are beside each other and do not touch, mm.
const BESIDE: f64 = 0.1;

/// Takes hooks and bridges thinner than a blade off straight-cut outlines, as long as it is little, and parts what touches
/// in a point; convex parts of what was taken off.
pub(super) fn clean(cuts: &mut Vec<Cut>, whole: f64) -> Vec<Vec<P2>> {
    let mut off = Vec::new();
    let mut left = SCRAP.min(SCRAP_SHARE * whole);
    let old = std::mem::take(cuts);
    for cut in old {
        if cut.back.is_some() || cut.front.is_convex() {
            cuts.push(cut);
            continue;
        }
        let (opened, scraps) = match without_hooks(&cut.front, left) {
            Some(opened) => {
                left -= opened.lost;
                (opened.kept, opened.scraps)
            }
            None => (vec![cut.front], Vec::new()),
        };
        off.extend(scraps);
        for region in opened {
            let nicks = nicks(&region);
            let parted = if nicks.is_empty() { vec![region] } else { region.without(&nicks) };
            off.extend(nicks.into_iter().map(|nick| nick.corners));
            cuts.extend(parted.into_iter().map(|front| Cut { front, back: None }));
        }
    }
    cuts.sort_by(|a, b| b.front.area().total_cmp(&a.front.area()));
    off
}

/// A region without what was too thin.
struct Opened {
    kept: Vec<Region<Mark>>,
    /// Convex parts of what came off.
    scraps: Vec<Vec<P2>>,
    /// Area of what came off, mm².
    lost: f64,
}

/// The region without hooks; `None` when nothing comes off, or more than `most` mm², or something that does not fall into
/// convex parts.
fn without_hooks(region: &Region<Mark>, most: f64) -> Option<Opened> {
    let opened = region.without_hooks(BLADE, Mark::Clean)?;
    let lost = region.area() - opened.iter().map(Region::area).sum::<f64>();
    if lost > most || lost < NO_HOOK {
        return None;
    }
    let kept: Vec<Rest<Mark>> = opened.iter().map(|r| r.rim.clone()).collect();
    let scraps = region
        .rim
        .without(&kept)
        .into_iter()
        .flat_map(|region| ConvexPolygon { corners: region.rim.corners, labels: region.rim.labels }.convex_parts());
    let scraps: Vec<Vec<P2>> = scraps.map(|p| p.corners).collect();
    let taken: f64 = scraps.iter().map(|p| ring_area(p)).sum();
    ((taken - lost).abs() <= NO_HOOK).then_some(Opened { kept: opened, scraps, lost })
}

/// Whether an outline touches itself on either face.
pub(super) fn pinched(cut: &Cut) -> bool {
    std::iter::once(&cut.front).chain(&cut.back).any(|region| !pinches(region).is_empty())
}

/// A square as wide as a blade at every point where a region touches itself.
fn nicks(region: &Region<Mark>) -> Vec<Rest<Mark>> {
    let half = BLADE / 2.0;
    let square = |p: P2| {
        let corner = |x: f64, y: f64| P2::new(p.x + x * half, p.y + y * half);
        let corners = vec![corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)];
        Rest { labels: vec![Mark::Clean; corners.len()], corners }
    };
    pinches(region).into_iter().map(square).collect()
}

/// Corners at which a region touches itself.
fn pinches(region: &Region<Mark>) -> Vec<P2> {
    let rings: Vec<&[P2]> = std::iter::once(&region.rim).chain(&region.holes).map(|r| &r.corners[..]).collect();
    let mut found: Vec<P2> = Vec::new();
    for (k, ring) in rings.iter().enumerate() {
        for (c, &corner) in ring.iter().enumerate() {
            let touched = rings.iter().enumerate().any(|(o, other)| {
                (0..other.len()).any(|e| touches(corner, other, e) && (o != k || !beside(ring, c, e)))
            });
            if touched && found.iter().all(|p| (p - corner).norm() > BLADE) {
                found.push(corner);
            }
        }
    }
    found
}

/// Whether a corner lies on edge `e` of a ring.
fn touches(corner: P2, ring: &[P2], e: usize) -> bool {
    let (a, b) = (ring[e], ring[(e + 1) % ring.len()]);
    let outside = |k: usize| corner[k] < a[k].min(b[k]) - TOUCH || corner[k] > a[k].max(b[k]) + TOUCH;
    if outside(0) || outside(1) {
        return false;
    }
    let along = b - a;
    let share = ((corner - a).dot(&along) / along.norm_squared()).clamp(0.0, 1.0);
    (a + along * share - corner).norm() < TOUCH
}

/// Whether an edge begins or ends next to a corner of its ring, along the ring.
fn beside(ring: &[P2], corner: usize, edge: usize) -> bool {
    let count = ring.len();
    let length = |from: usize, to: usize| {
        let steps = (to + count - from) % count;
        (0..steps).map(|s| (ring[(from + s + 1) % count] - ring[(from + s) % count]).norm()).sum::<f64>()
    };
    length((edge + 1) % count, corner) < BESIDE || length(corner, edge) < BESIDE
}

#[cfg(test)]
mod tests {
    use super::*;

    fn region(corners: &[(f64, f64)]) -> Region<Mark> {
        let corners: Vec<P2> = corners.iter().map(|&(x, y)| P2::new(x, y)).collect();
        Region { rim: Rest { labels: (0..corners.len()).map(Mark::Own).collect(), corners }, holes: vec![] }
    }

    /// A block of 40 by 80 with a hole whose corner lies on its right edge.
    const TOUCHING: [(f64, f64); 9] =
        [(0., 0.), (40., 0.), (40., 30.), (30., 25.), (25., 35.), (35., 45.), (40., 30.), (40., 80.), (0., 80.)];

    #[test]
    fn what_touches_in_a_point_is_parted_by_a_blade() {
        let mut cuts = vec![Cut { front: region(&TOUCHING), back: None }];
        assert!(pinched(&cuts[0]));
        let off = clean(&mut cuts, 3200.0);
        assert_eq!((off.len(), cuts.len()), (1, 1));
        assert!(!pinched(&cuts[0]) && cuts[0].front.holes.is_empty());
        let lost = region(&TOUCHING).area() - cuts[0].front.area();
        assert!(lost > 0.1 && lost < BLADE * BLADE, "{lost}");
    }

    #[test]
    fn short_edges_and_sharp_tips_do_not_touch_themselves() {
        let short = [(0., 0.), (10., 0.), (10., 5.), (9.9999, 5.0001), (9., 9.), (0., 9.)];
        assert!(pinches(&region(&short)).is_empty());
        assert!(pinches(&region(&[(0., 0.), (100., 0.), (0., 0.5)])).is_empty());
    }
}
