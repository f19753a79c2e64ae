use gable_plane::{Contour, P2, PathError, SvgPath, ring_contains};

/// Arcs are followed within this share of the height.
const FLAT: f64 = 0.0005;

/// Rim and holes of an outline in SVG path data, made so high, standing on y = 0 with its middle at x = 0.
pub(super) fn outline(data: &str, height: f64) -> Result<(Vec<P2>, Vec<Vec<P2>>), PathError> {
    let path = SvgPath::read(data)?;
    let half = height * path.proportion() / 2.0;
    let contours = path.contours(P2::new(-half, 0.0), P2::new(half, height));
    let mut rings = contours.iter().map(|c| tidy(c, height * FLAT)).filter(|ring| ring.len() >= 3);
    let rim = rings.next().ok_or(PathError::Empty)?;
    let mut holes: Vec<Vec<P2>> = rings.collect();
    if holes.iter().flatten().any(|p| !ring_contains(&rim, *p)) {
        return Err(PathError::Several(holes.len() + 1));
    }
    holes.iter_mut().for_each(|hole| hole.reverse());
    Ok((rim, holes))
}

/// The corners of an outline, without those that are there twice.
fn tidy(contour: &Contour, tolerance: f64) -> Vec<P2> {
    let mut ring = contour.flatten(tolerance);
    ring.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
    while ring.len() > 1 && (ring[0] - ring[ring.len() - 1]).norm() < 1e-6 {
        ring.pop();
    }
    ring
}
