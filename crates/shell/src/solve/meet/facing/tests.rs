use super::*;
use gable_plane::HalfSpace;
use proptest::prelude::*;
use std::f64::consts::TAU;

fn block(low: [f64; 3], high: [f64; 3]) -> Lump {
    Lump::new(Solid::block(low.into(), high.into()))
}

#[test]
fn ends_are_drawn_in_to_where_both_pieces_are() {
    let long = block([0.0, 0.0, 0.0], [100.0, 10.0, 8.0]);
    let short = block([12.0, 10.5, 0.0], [70.0, 20.0, 8.0]);
    let line = [P3::new(0.0, 10.0, 0.0), P3::new(100.0, 10.0, 0.0)];
    let [from, to] = facing(&[&long], &[&short], line, Room::even(0.6), 3.0)[0];
    assert!((from.x - 12.0).abs() < 2.0 * CLOSE && (to.x - 70.0).abs() < 2.0 * CLOSE, "{from} {to}");
    assert!(facing(&[&long], &[&short], line, Room::even(0.4), 3.0).is_empty());
    assert!(facing(&[&long], &[&short], line, Room::even(0.6), 60.0).is_empty());
}

#[test]
fn ends_that_are_right_stay_as_they_are() {
    let (one, other) = (block([0.0; 3], [50.0, 10.0, 8.0]), block([0.0, 10.8, 0.0], [50.0, 20.0, 8.0]));
    let line = [P3::new(0.0, 10.0, 0.0), P3::new(50.0, 10.0, 0.0)];
    assert_eq!(facing(&[&one], &[&other], line, Room::even(0.81), 3.0), vec![line]);
}

#[test]
fn pieces_that_meet_twice_along_a_line_have_two_stretches() {
    let wall = block([0.0; 3], [100.0, 10.0, 8.0]);
    let legs = [[5.0, 30.0], [60.0, 90.0]].map(|[from, to]| block([from, 10.8, 0.0], [to, 20.0, 8.0]));
    let line = [P3::new(0.0, 10.0, 0.0), P3::new(100.0, 10.0, 0.0)];
    let found = facing(&[&wall], &[&legs[0], &legs[1]], line, Room::even(0.85), 3.0);
    let ends: Vec<[f64; 2]> = found.iter().map(|s| s.map(|p| (p.x * 10.0).round() / 10.0)).collect();
    assert_eq!(ends, [[5.0, 30.0], [60.0, 90.0]]);
}

#[test]
fn a_stretch_in_the_middle_is_found() {
    let wall = block([0.0; 3], [100.0, 10.0, 8.0]);
    // Its lower face bends: one gap away at x = 37, more to both sides.
    let points = [[0.0, 15.0], [37.0, 10.8], [100.0, 14.0], [100.0, 20.0], [0.0, 20.0]];
    let bent =
        Lump::new(Solid::prism(&points.map(|[x, y]| P3::new(x, y, 0.0)), &points.map(|[x, y]| P3::new(x, y, 8.0))));
    let line = [P3::new(0.0, 10.0, 0.0), P3::new(100.0, 10.0, 0.0)];
    let [from, to] = facing(&[&wall], &[&bent], line, Room::even(1.0), 3.0)[0];
    // 0.2 mm more at 4.2 mm in 37 and 3.2 mm in 63.
    assert!((from.x - (37.0 - 0.2 * 37.0 / 4.2)).abs() < 0.05, "{from}");
    assert!((to.x - (37.0 + 0.2 * 63.0 / 3.2)).abs() < 0.05, "{to}");
}

#[test]
fn off_an_edge_of_what_stays_whole_there_may_be_more_room() {
    let whole = block([0.0; 3], [50.0, 10.0, 8.0]);
    let line = [P3::new(0.0, 10.0, 0.0), P3::new(50.0, 10.0, 0.0)];
    let room = Room { faces: 0.85, edges: 1.2 };
    let cut = |y: f64, z: f64| block([0.0, y, z], [50.0, y + 9.0, z + 9.0]);
    let meets = |cut: &Lump| !facing(&[&whole], &[cut], line, room, 3.0).is_empty();
    assert!(meets(&cut(10.8, 3.0)) && !meets(&cut(11.0, 3.0)));
    assert!(meets(&cut(10.8, 8.8)) && !meets(&cut(10.9, 8.9)));
}

/// A block of 10 by 8 mm has four edges in a slice, 36 mm round, one of which begins, and one ends, at each corner.
#[test]
fn a_slice_has_the_edges_of_the_lump() {
    let lump = block([0.0; 3], [50.0, 10.0, 8.0]);
    let ruler = Ruler::new(P3::origin(), V3::x());
    let mut edges = Section::new();
    assert!(ruler.seen(&lump).section(20.0, &mut edges));
    assert_eq!(edges.len(), 4);
    assert!((edges.iter().map(|e| (e[1] - e[0]).norm()).sum::<f64>() - 36.0).abs() < 1e-9);
    let ends_at = |p: &P2| edges.iter().filter(|e| (e[1] - p).norm() < 1e-9).count();
    assert!(edges.iter().all(|e| ends_at(&e[0]) == 1));
}

#[test]
fn no_slice_touches_a_lump_at_its_ends() {
    let lump = block([0.0; 3], [50.0, 10.0, 8.0]);
    let ruler = Ruler::new(P3::origin(), V3::x());
    assert!([0.0, 50.0, -1.0, 51.0].iter().all(|&at| !ruler.seen(&lump).section(at, &mut Section::new())));
}

/// By hand: the lines from both sides cross at the bend, so four places tell how low it goes.
#[test]
fn a_bend_between_two_places_is_seen_by_the_slopes_on_both_sides() {
    let bend = |x: f64| (x, 10.0 + (x - 50.0).abs() * 0.1);
    let points = [0.0, 40.0, 60.0, 100.0].map(bend);
    assert!(stays_above(points, 9.9) && !stays_above(points, 10.1));
    // Below the limit only at an end that is not looked at itself: the line through the middle ones tells.
    assert!(!stays_above([0.0, 40.0, 60.0, 100.0].map(|x| (x, 10.0 + 0.1 * x)), 10.5));
    assert!(!stays_above([(0.0, f64::INFINITY), bend(40.0), bend(60.0), bend(100.0)], 1.0));
}

/// A convex solid that the plane across `along` at `at` cuts, as the corners there, by clipping from both sides.
fn clipped(solid: &Solid, at: f64) -> Vec<P3> {
    let plane = HalfSpace { normal: V3::x(), offset: at };
    let Some(half) = solid.clip(&plane) else { return Vec::new() };
    half.corners().iter().filter(|p| (p.x - at).abs() < 1e-6).copied().collect()
}

/// How far apart two convex areas are, by the widest strip that fits between them: another way to the same number.
fn strip(a: &[P3], b: &[P3]) -> f64 {
    let width = |turn: f64| {
        let way = V3::new(0.0, turn.cos(), turn.sin());
        let least = b.iter().map(|p| way.dot(&p.coords)).fold(f64::INFINITY, f64::min);
        let most = a.iter().map(|p| way.dot(&p.coords)).fold(f64::NEG_INFINITY, f64::max);
        least - most
    };
    (0..7200).map(|k| width(TAU * f64::from(k) / 7200.0)).fold(f64::NEG_INFINITY, f64::max)
}

/// A block of many shapes: leaning end faces and a bent lower side.
fn leaning(low: f64, high: f64, lift: [f64; 3], above: f64) -> Lump {
    let middle = f64::midpoint(low, high);
    let bottom = [(low, lift[0]), (middle, lift[1].min(f64::midpoint(lift[0], lift[2]))), (high, lift[2])];
    let ring = |z: f64, lean: f64| {
        let lower = bottom.map(|(x, y)| P3::new(x + lean, above + y, z));
        [lower[0], lower[1], lower[2], P3::new(high + lean, above + 30.0, z), P3::new(low + lean, above + 30.0, z)]
    };
    Lump::new(Solid::prism(&ring(0.0, 0.0), &ring(8.0, 3.0)))
}

proptest! {
    /// Whether two lumps are near somewhere on a line is told by a strip between them, which knows no ruler.
    #[test]
    fn stretches_are_where_a_strip_between_the_pieces_is_narrow(
        low in 5.0..40.0f64,
        size in 10.0..80.0f64,
        lift in prop::array::uniform3(0.0..3.0f64),
        gap in 0.3..1.5f64,
    ) {
        let wall = block([0.0; 3], [120.0, 10.0, 8.0]);
        let guest = leaning(low, low + size, lift, 10.2);
        let line = [P3::new(0.0, 10.0, 0.0), P3::new(120.0, 10.0, 0.0)];
        let found = facing(&[&wall], &[&guest], line, Room::even(gap), 0.0);
        for k in 1..120 {
            let at = f64::from(k) + 0.137;
            let [one, other] = [&wall, &guest].map(|lump| clipped(&lump.solid, at));
            let apart = if one.len() < 3 || other.len() < 3 { f64::INFINITY } else { strip(&one, &other) };
            // Not where it turns, within what an end is found to.
            let clear = found.iter().flatten().all(|p| (p.x - at).abs() > 3.0 * CLOSE);
            if clear && (apart - gap).abs() > 0.01 {
                let inside = found.iter().any(|s| s[0].x < at && at < s[1].x);
                prop_assert_eq!(inside, apart < gap, "at {}, {} apart", at, apart);
            }
        }
    }
}
