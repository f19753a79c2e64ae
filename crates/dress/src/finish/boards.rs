use super::laid::{Laid, Slab};
use gable_plane::{ClipLine, ConvexPolygon, P2, V2};

/// Level boards from v = 0 up; their ends lie apart from course to course.
pub(crate) fn weatherboard(exposure: f64, length: f64, low: P2, high: P2) -> Laid {
    let mut laid = Laid::default();
    for course in (low.y / exposure).floor() as i64..(high.y / exposure).ceil() as i64 {
        let y = course as f64 * exposure;
        let mut from = low.x;
        let mut to = low.x + if course.rem_euclid(2) == 0 { length } else { length / 2.0 };
        while from < high.x {
            // A last bit shorter than a quarter of a board goes with the one before.
            let end = if high.x - to < length / 4.0 { high.x } else { to };
            let mut slab = Slab::block(P2::new(from, y), P2::new(end, y + exposure));
            slab.whole = (end - from - length).abs() < 1e-9;
            laid.slabs.push(slab);
            (from, to) = (end, end + length);
        }
        laid.lines.push([P2::new(low.x, y), P2::new(high.x, y)]);
    }
    laid
}

/// Upright boards with battens over their joints, symmetric to the middle of the face.
pub(crate) fn board_and_batten(board: f64, batten: f64, low: P2, high: P2) -> Laid {
    let middle = (low.x + high.x) / 2.0;
    let reach = ((high.x - low.x) / 2.0 / board).ceil() as i64;
    let mut laid = Laid::default();
    for k in -reach..=reach {
        let x = middle + k as f64 * board;
        let strip = |from: f64, to: f64| Slab::block(P2::new(from, low.y), P2::new(to, high.y));
        laid.slabs.push(strip(x - batten / 2.0, x + batten / 2.0));
        laid.slabs.push(strip(x + batten / 2.0, x + board - batten / 2.0));
        for edge in [x - batten / 2.0, x + batten / 2.0] {
            laid.lines.push([P2::new(edge, low.y), P2::new(edge, high.y)]);
        }
    }
    laid
}

/// Sizes of a timber frame, mm.
pub(crate) struct Frame {
    pub(crate) timber: f64,
    pub(crate) bay: f64,
    pub(crate) braces: bool,
}

/// Posts through the height, rails between them, braces in the end bays.
pub(crate) fn half_timber(frame: &Frame, low: P2, high: P2) -> Laid {
    let t = frame.timber;
    let (width, height) = (high.x - low.x - t, high.y - low.y - t);
    let count = |length: f64| (length / frame.bay).ceil().clamp(1.0, 500.0);
    let (bays, rows) = (count(width), count(height));
    let (across, up) = (width / bays, height / rows);
    let mut laid = Laid::default();
    if across <= t || up <= t {
        return laid;
    }
    for bay in 0..=bays as usize {
        let x = low.x + bay as f64 * across;
        laid.slabs.push(Slab::block(P2::new(x, low.y), P2::new(x + t, high.y)));
        if bay == bays as usize {
            continue;
        }
        for row in 0..=rows as usize {
            let y = low.y + row as f64 * up;
            laid.slabs.push(Slab::block(P2::new(x + t, y), P2::new(x + across, y + t)));
            let end = bay == 0 || bay + 1 == bays as usize;
            if frame.braces && end && row < rows as usize {
                laid.slabs.extend(brace(P2::new(x + t, y + t), P2::new(x + across, y + up), bay > 0, t));
            }
        }
    }
    laid
}

/// A brace from corner to corner of a panel; in the last bay it leans the other way.
fn brace(low: P2, high: P2, falls: bool, width: f64) -> Option<Slab> {
    let (from, to) = if falls { (P2::new(low.x, high.y), P2::new(high.x, low.y)) } else { (low, high) };
    let along: V2 = (to - from).normalize();
    let normal = V2::new(-along.y, along.x);
    let line = |normal: V2, offset: f64| ClipLine { normal, offset, label: () };
    let middle = normal.dot(&from.coords);
    let lines = [
        line(V2::x(), high.x),
        line(-V2::x(), -low.x),
        line(V2::y(), high.y),
        line(-V2::y(), -low.y),
        line(normal, middle + width / 2.0),
        line(-normal, width / 2.0 - middle),
    ];
    let ring = ConvexPolygon::within(1e5, (), &lines)?.corners;
    Some(Slab { ring, convex: true, covered: 0.0, whole: true })
}
