use gable_plane::{P2, ring_area, ring_contains};
use kurbo::{BezPath, PathEl, Shape};

/// Curves are flattened within this share of the height.
const FLAT: f64 = 0.0005;
/// Most corners of an outline.
const MOST: usize = 5000;

/// Rim and holes of an outline in SVG path data, made so high, standing on y = 0 with its middle at x = 0.
pub(super) fn outline(data: &str, height: f64) -> Result<(Vec<P2>, Vec<Vec<P2>>), String> {
    let path = BezPath::from_svg(data).map_err(|error| format!("the path cannot be read: {error}"))?;
    let bounds = path.bounding_box();
    if !(bounds.height() > 0.0 && bounds.width() > 0.0 && bounds.width().is_finite() && bounds.height().is_finite()) {
        return Err("the path encloses nothing".to_owned());
    }
    let scale = height / bounds.height();
    let middle = (bounds.x0 + bounds.x1) / 2.0;
    let place = |p: kurbo::Point| P2::new((p.x - middle) * scale, (bounds.y1 - p.y) * scale);
    let mut rings: Vec<Vec<P2>> = Vec::new();
    kurbo::flatten(&path, bounds.height() * FLAT, |step| match step {
        PathEl::MoveTo(p) => rings.push(vec![place(p)]),
        PathEl::LineTo(p) => rings.last_mut().into_iter().for_each(|ring| ring.push(place(p))),
        _ => {}
    });
    rings.iter_mut().for_each(tidy);
    rings.retain(|ring| ring.len() >= 3 && ring_area(ring).abs() > 1e-6);
    if rings.iter().map(Vec::len).sum::<usize>() > MOST {
        return Err(format!("the path has more than {MOST} corners"));
    }
    rings.sort_by(|a, b| ring_area(b).abs().total_cmp(&ring_area(a).abs()));
    let mut rings = rings.into_iter();
    let mut rim = rings.next().ok_or("the path encloses nothing")?;
    if ring_area(&rim) < 0.0 {
        rim.reverse();
    }
    let mut holes: Vec<Vec<P2>> = Vec::new();
    for mut hole in rings {
        if !hole.iter().all(|p| ring_contains(&rim, *p)) {
            return Err("the path has more than one outline".to_owned());
        }
        if ring_area(&hole) > 0.0 {
            hole.reverse();
        }
        holes.push(hole);
    }
    Ok((rim, holes))
}

/// Without corners that are there twice.
fn tidy(ring: &mut Vec<P2>) {
    ring.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
    while ring.len() > 1 && (ring[0] - ring[ring.len() - 1]).norm() < 1e-6 {
        ring.pop();
    }
}
