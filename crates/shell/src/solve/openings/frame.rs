//! A whole face as a frame: fields between posts and rails, in what is left inside the frame.

use super::super::draft::Draft;
use super::super::part::Job;
use super::super::plate::Cause;
use gable_plane::{ClipLine, Contour, ConvexPolygon, P2, V2, bounds, ring_area};

/// Fields narrower than this are left whole, mm: no blade goes round in them.
const NARROWEST: f64 = 4.0;

/// The fields of a face with their numbers: from the left of the piece to its right, then the next row above.
///
/// The frame is `bar` mm wide along the edges of the piece, and wide enough to cover the walls behind it. Fields are as
/// wide as each other; where the face slants they are cut along it.
pub(super) fn fields(
    job: &Job<'_>,
    side: usize,
    draft: &Draft,
    (across, up): (u8, u8),
    bar: f64,
) -> Vec<(usize, Contour)> {
    let Some(inside) = inside(job, side, draft, bar) else { return Vec::new() };
    let Some((low, high)) = bounds(&inside.corners) else { return Vec::new() };
    let share = |length: f64, count: u8| (length - bar * (f64::from(count) - 1.0)) / f64::from(count);
    let (width, height) = (share(high.x - low.x, across), share(high.y - low.y, up));
    if !(width > NARROWEST && height > NARROWEST) {
        return Vec::new();
    }
    let field = |column: u8, row: u8| {
        let corner = low + V2::new(f64::from(column) * (width + bar), f64::from(row) * (height + bar));
        let lines =
            [(-V2::x(), -corner.x), (V2::x(), corner.x + width), (-V2::y(), -corner.y), (V2::y(), corner.y + height)];
        let clipped = lines
            .into_iter()
            .try_fold(inside.clone(), |p, (normal, offset)| p.clip(&ClipLine { normal, offset, label: Cause::Open }))?;
        (least_width(&clipped.corners) > NARROWEST).then(|| Contour::polygon(&from_lowest_left(clipped.corners)))
    };
    let numbered = (0..up).flat_map(|row| (0..across).map(move |column| (column, row))).enumerate();
    numbered.filter_map(|(number, (column, row))| Some((number, field(column, row)?))).collect()
}

/// What is left of a face within the frame.
fn inside(job: &Job<'_>, side: usize, draft: &Draft, bar: f64) -> Option<ConvexPolygon<Cause>> {
    let plate = &draft.plate;
    let own_wall = draft.reference_is_outside();
    let mut lines: Vec<ClipLine<Cause>> = Vec::new();
    for ring in [&plate.front, &plate.back] {
        for k in 0..ring.len() {
            let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
            let Some(along) = (b - a).try_normalize(gable_plane::SAME_POINT) else { continue };
            let normal = V2::new(along.y, -along.x);
            lines.push(ClipLine { normal, offset: normal.dot(&a.coords) - bar, label: Cause::Open });
        }
    }
    for (k, plan) in job.sides.iter().enumerate() {
        if !job.part.sides[k].wall || (own_wall && k == side) {
            continue;
        }
        let half = plan.half_space(-job.wall_thickness());
        lines.extend([0.0, plate.thickness].iter().filter_map(|&d| plate.frame.line(&half, d, Cause::Open).ok()));
    }
    let whole = ConvexPolygon { corners: plate.front.clone(), labels: plate.causes.clone() };
    let found = lines.iter().try_fold(whole, |polygon, line| polygon.clip(line))?;
    (ring_area(&found.corners) > 0.0).then_some(found)
}

/// Least width of a convex ring between parallel lines, one of them along an edge.
fn least_width(ring: &[P2]) -> f64 {
    let width = |k: usize| {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        let along = (b - a).try_normalize(f64::MIN_POSITIVE).unwrap_or_default();
        ring.iter().map(|p| along.perp(&(p - a))).fold(0.0, f64::max)
    };
    (0..ring.len()).map(width).fold(f64::INFINITY, f64::min)
}

/// The ring started at its lowest corner, of those the leftmost.
fn from_lowest_left(mut ring: Vec<P2>) -> Vec<P2> {
    let key = |p: &P2| ((p.y * 1e6).round(), (p.x * 1e6).round());
    let first = (0..ring.len()).min_by(|&a, &b| {
        let (a, b) = (key(&ring[a]), key(&ring[b]));
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    ring.rotate_left(first.unwrap_or(0));
    ring
}
