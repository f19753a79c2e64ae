//! Where a piece that is too large can be cut in two.

use crate::Piece;
use gable_measure::Unit;
use gable_plane::{ClipLine, ConvexPolygon, P2, V2, convex_hull};
use gable_words::tr;

/// Both halves keep at least this share of the piece's reach across the cut: a strip would break.
const LEAST: f64 = 0.2;
/// Places at which a cut is tried, each way from the middle.
const TRIES: u32 = 30;
/// A cut stays this far from openings, mm: what is left beside them would break (common practice, no source).
const BESIDE: f64 = 8.0;

/// Says in words where to cut, as near the middle as may be, so that both halves pass; openings stay whole.
pub(super) fn in_two(piece: &Piece, unit: Unit, passes: impl Fn(&[P2]) -> bool) -> Option<String> {
    let [right, up] = [to_the_right(piece), piece.up];
    let words = if piece.role.is_level() {
        [
            tr!("a line from front to back"),
            tr!("its left edge, seen from above"),
            tr!("a line from side to side"),
            tr!("its front edge"),
        ]
    } else {
        [tr!("an upright line"), tr!("its left end, seen from outside"), tr!("a level line"), tr!("its foot")]
    };
    let across = place(piece, &right, &passes).map(|at| (at, words[0], words[1]));
    let (at, line, from) = across.or_else(|| place(piece, &up, &passes).map(|at| (at, words[2], words[3])))?;
    Some(tr!("cut it in two along {line} {} from {from}", unit.print(gable_measure::Length::mm_of(at))))
}

/// The direction to the right, seen from outside the house, of level pieces from above.
fn to_the_right(piece: &Piece) -> V2 {
    // What looks at the viewer: z of the piece runs into the house for walls and strips.
    let towards = if piece.role.is_upright() { -1.0 } else { 1.0 };
    V2::new(piece.up.y, -piece.up.x) * towards
}

/// How far along a direction from the piece's end a cut square to it may be.
fn place(piece: &Piece, along: &V2, passes: &impl Fn(&[P2]) -> bool) -> Option<f64> {
    let points: Vec<P2> = piece.outline.iter().chain(&piece.outline_back).copied().collect();
    let reach = |points: &mut dyn Iterator<Item = P2>| {
        points.map(|p| p.coords.dot(along)).fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), s| (l.min(s), h.max(s)))
    };
    let (low, high) = reach(&mut points.iter().copied());
    let taken: Vec<(f64, f64)> = piece
        .openings
        .iter()
        .chain(&piece.notches)
        .map(|o| {
            let (a, b) = o.contour.bounds();
            reach(&mut [a, b, P2::new(a.x, b.y), P2::new(b.x, a.y)].into_iter())
        })
        .collect();
    let hull = convex_hull(&points);
    let step = (0.5 - LEAST) * (high - low) / f64::from(TRIES);
    let offsets = (0..=TRIES).flat_map(|k| [-step * f64::from(k), step * f64::from(k)]);
    let mut places = offsets.map(|off| ((high - low) / 2.0 + off).round());
    let fits = |from_end: f64| {
        let at = low + from_end;
        let free = taken.iter().all(|(from, to)| at < from - BESIDE || at > to + BESIDE);
        free && [*along, -along]
            .iter()
            .all(|normal| half(&hull, normal, at * normal.dot(along)).is_some_and(|h| passes(&h)))
    };
    places.find(|from_end| fits(*from_end))
}

/// What lies behind a line.
fn half(hull: &[P2], normal: &V2, offset: f64) -> Option<Vec<P2>> {
    let whole = ConvexPolygon { labels: vec![(); hull.len()], corners: hull.to_vec() };
    whole.clip(&ClipLine { normal: *normal, offset, label: () }).map(|h| h.corners)
}
