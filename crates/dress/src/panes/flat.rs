//! Flat areas: grown, put together and taken apart, through the library.

use gable_plane::{P2, ring_area};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::{LineJoin, OutlineStyle};

/// A rim, counter-clockwise, and holes, clockwise.
pub(crate) type Area = Vec<Vec<P2>>;

/// Corners sharper than this lose their tips when they grow, radians: the tip would be five times the distance away.
const SHARPEST: f64 = 0.4;
/// Less area than this is nothing, mm².
const NOTHING: f64 = 1e-6;

/// A simple ring let out by a distance, or taken in where it is negative; largest first. Corners stay sharp.
pub(crate) fn grown(ring: &[P2], distance: f64) -> Vec<Area> {
    let style = OutlineStyle::new(distance).line_join(LineJoin::Miter(SHARPEST));
    areas(plain(&[counter_clockwise(ring)]).outline_as::<i64>(&style))
}

/// What is in both, or in the first one alone, or in any; largest first.
pub(crate) fn overlaid(a: &[Vec<P2>], b: &[Vec<P2>], rule: OverlayRule) -> Vec<Area> {
    areas(plain(a).overlay_as::<i64>(&plain(b), rule, FillRule::NonZero))
}

pub(crate) fn area(area: &[Vec<P2>]) -> f64 {
    area.iter().map(|r| ring_area(r)).sum()
}

pub(crate) fn counter_clockwise(ring: &[P2]) -> Vec<P2> {
    let mut ring = ring.to_vec();
    if ring_area(&ring) < 0.0 {
        ring.reverse();
    }
    ring
}

fn plain(rings: &[Vec<P2>]) -> Vec<Vec<[f64; 2]>> {
    rings.iter().map(|r| r.iter().map(|p| [p.x, p.y]).collect()).collect()
}

fn areas(shapes: Vec<Vec<Vec<[f64; 2]>>>) -> Vec<Area> {
    let points = |ring: Vec<[f64; 2]>| ring.into_iter().map(|[x, y]| P2::new(x, y)).collect::<Vec<P2>>();
    let mut found: Vec<Area> = shapes.into_iter().map(|s| s.into_iter().map(points).collect()).collect();
    found.retain(|a| area(a) > NOTHING);
    found.sort_by(|a, b| area(b).total_cmp(&area(a)));
    found
}

/// Convex pieces of an area: it is cut along level lines through its corners.
pub(crate) fn convex_pieces(rings: &[Vec<P2>]) -> Vec<Vec<P2>> {
    /// Corners nearer in height than this are on one line, mm.
    const LEVEL: f64 = 1e-4;
    let mut levels: Vec<f64> = rings.iter().flatten().map(|p| p.y).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|a, b| *a - *b < LEVEL);
    let edges: Vec<[P2; 2]> =
        rings.iter().flat_map(|r| (0..r.len()).map(move |k| [r[k], r[(k + 1) % r.len()]])).collect();
    let mut found = Vec::new();
    for band in levels.windows(2) {
        let (low, high) = (band[0], band[1]);
        let middle = (low + high) / 2.0;
        let at = |[a, b]: &[P2; 2], y: f64| a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y)).clamp(0.0, 1.0);
        let mut crossing: Vec<&[P2; 2]> = edges.iter().filter(|[a, b]| (a.y > middle) != (b.y > middle)).collect();
        crossing.sort_by(|e, f| at(e, middle).total_cmp(&at(f, middle)));
        for pair in crossing.chunks_exact(2) {
            let corner = |edge: &[P2; 2], y: f64| P2::new(at(edge, y), y);
            let ring = [corner(pair[0], low), corner(pair[1], low), corner(pair[1], high), corner(pair[0], high)];
            let ring = gable_plane::convex_hull(&ring);
            if ring.len() > 2 {
                found.push(ring);
            }
        }
    }
    found
}
