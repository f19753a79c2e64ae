use crate::P2;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;

/// `subject` without the union of `tools`: outlines, each with its holes (first ring outside, counter-clockwise).
///
/// The library works on an integer grid laid over the box of the input, so corners are off by up to
/// 1e-6 mm for a house of a metre; callers that need more put corners back on the lines they came from.
pub fn difference(subject: &[P2], tools: &[Vec<P2>]) -> Vec<Vec<Vec<P2>>> {
    let plain = |ring: &[P2]| ring.iter().map(|p| [p.x, p.y]).collect::<Vec<_>>();
    let tools: Vec<Vec<[f64; 2]>> = tools.iter().map(|t| plain(t)).collect();
    let shapes = plain(subject).overlay(&tools, OverlayRule::Difference, FillRule::NonZero);
    let ring = |r: Vec<[f64; 2]>| r.into_iter().map(|[x, y]| P2::new(x, y)).collect();
    shapes.into_iter().map(|shape| shape.into_iter().map(ring).collect()).collect()
}
