//! What every layout must be, and how good it must be where that is known.

#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise, helpers included")]

use gable_measure::Length;
use gable_nest::{Fault, Item, Job, Layout, Placed, Refused, Search, Sheet, Strip, Turns};
use gable_plane::{P2, convex_hull, ring_area};
use proptest::prelude::*;

fn mm(value: f64) -> Length {
    Length::mm_of(value)
}

fn ring(corners: &[(f64, f64)]) -> Vec<P2> {
    corners.iter().map(|(x, y)| P2::new(*x, *y)).collect()
}

fn block(width: f64, height: f64, turns: Turns) -> Item {
    Item::new(ring(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]), turns)
}

fn search(items: Vec<Item>, sheet: (f64, f64), gap: f64) -> Search {
    Search::new(Job::new(items, vec![Sheet::rectangle(mm(sheet.0), mm(sheet.1))], mm(gap)).unwrap(), 1)
}

/// Closed form: a sheet of 2 x 3 squares holds six of them, exactly.
#[test]
fn squares_that_fill_a_sheet_exactly() {
    let mut search = search(vec![block(50.0, 50.0, Turns::None); 12], (100.0, 150.0), 0.0);
    search.improve(400);
    assert_eq!(search.best().sheets.len(), 2);
    assert_eq!(search.best().faults(search.job()), []);
    assert!((search.best().density(search.job()) - 1.0).abs() < 1e-12);
}

/// Closed form: two right triangles make a rectangle, if they may be turned end for end.
#[test]
fn triangles_are_turned_end_for_end() {
    let triangle = Item::new(ring(&[(0.0, 0.0), (80.0, 0.0), (0.0, 50.0)]), Turns::Half);
    let mut search = search(vec![triangle; 2], (84.0, 53.0), 1.0);
    search.improve(2000);
    assert_eq!((search.best().sheets.len(), search.best().faults(search.job())), (1, vec![]));
}

#[test]
fn a_ring_takes_all_that_lies_within_it_unless_its_hole_is_a_sheet() {
    let hole = Sheet { outline: ring(&[(0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (0.0, 30.0)]), at_most: Some(1) };
    let items = vec![block(100.0, 100.0, Turns::None), block(28.0, 28.0, Turns::None)];
    let job = Job::new(items, vec![hole, Sheet::rectangle(mm(100.0), mm(100.0))], mm(0.5)).unwrap();
    let search = Search::new(job, 1);
    assert_eq!(search.best().sheets_paid(search.job()), 1);
    assert_eq!(search.best().faults(search.job()), []);
}

#[test]
fn the_same_seed_gives_the_same_layout() {
    let items: Vec<Item> = (1..12).map(|k| block(20.0 + 5.0 * f64::from(k), 60.0, Turns::Free)).collect();
    let run = || {
        let mut search = search(items.clone(), (210.0, 297.0), 2.0);
        search.improve(20);
        search.best().clone()
    };
    assert_eq!(run(), run());
}

#[test]
fn what_cannot_be_begun_is_said() {
    let sheet = Sheet::rectangle(mm(100.0), mm(100.0));
    let bow = Item::new(ring(&[(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)]), Turns::None);
    let refused = |items: Vec<Item>, sheets: Vec<Sheet>, gap: f64| Job::new(items, sheets, mm(gap)).unwrap_err();
    assert_eq!(refused(vec![bow], vec![sheet.clone()], 1.0), [Refused::Item { item: 0 }]);
    let long = block(101.0, 10.0, Turns::Quarter);
    assert_eq!(refused(vec![long], vec![sheet.clone()], 1.0), [Refused::TooLarge { item: 0 }]);
    assert_eq!(refused(vec![], vec![sheet.clone()], f64::NAN), [Refused::Gap]);
    assert_eq!(refused(vec![], vec![], 1.0), [Refused::NoSheet]);
    let text = Refused::TooLarge { item: 3 }.to_string();
    assert_eq!(text, "piece 3 is larger than every sheet; use a larger sheet, or make the piece smaller or of two");
}

/// Closed form: 101 mm along the diagonal of a square of 100 mm.
#[test]
fn a_long_piece_lies_across_a_sheet_if_it_may_be_turned() {
    let search = search(vec![block(120.0, 10.0, Turns::Free)], (100.0, 100.0), 1.0);
    assert_eq!(search.best().faults(search.job()), []);
}

/// Closed form: 2 x 8 squares of 20 mm with 2 mm between them take 8 x 20 + 7 x 2 mm of a strip.
#[test]
fn a_strip_becomes_shorter() {
    let mut strip = Strip::new(vec![block(20.0, 20.0, Turns::None); 16], mm(42.2), mm(2.0), 1).unwrap();
    let at_first = strip.length();
    strip.improve(300);
    assert!(strip.length() <= at_first && strip.length().mm() < 176.0, "{}", strip.length().mm());
    assert!(strip.length().mm() >= 174.0);
    assert_eq!(strip.best().faults(strip.job()), []);
}

#[test]
fn faults_are_found() {
    let search = search(vec![block(40.0, 40.0, Turns::None); 2], (100.0, 100.0), 1.0);
    let job = search.job();
    let moved = |item: usize, x: f64| Placed { item, sheet_from_item: nalgebra::Isometry2::translation(x, 5.0) };
    let faults = |placed: Vec<Placed>| {
        let mut layout: Layout = search.best().clone();
        layout.sheets.truncate(1);
        layout.sheets[0].placed = placed;
        layout.faults(job)
    };
    assert_eq!(faults(vec![moved(0, 1.0), moved(1, 42.0)]), []);
    let near = faults(vec![moved(0, 1.0), moved(1, 41.5)]);
    assert!(matches!(near[..], [Fault::Near { items: [0, 1], distance }] if (distance.mm() - 0.5).abs() < 1e-9));
    assert!(matches!(faults(vec![moved(0, 1.0), moved(1, 1.0)])[..], [Fault::Near { .. }]));
    assert!(matches!(faults(vec![moved(0, 1.0), moved(1, 61.0)])[..], [Fault::Beyond { item: 1, .. }]));
    assert!(matches!(faults(vec![moved(0, 1.0)])[..], [Fault::Count { item: 1, times: 0 }]));
}

/// Corners about a point, at random distances: often with corners that point inwards, never crossing.
fn star() -> impl Strategy<Value = Item> {
    (prop::collection::vec(8.0..45.0, 3..9), 0..4u8).prop_map(|(reach, turns)| {
        let step = std::f64::consts::TAU / reach.len() as f64;
        let corner = |(k, r): (usize, &f64)| P2::new(r * (step * k as f64).cos(), r * (step * k as f64).sin());
        let turns = [Turns::None, Turns::Half, Turns::Quarter, Turns::Free][usize::from(turns)];
        Item::new(reach.iter().enumerate().map(corner).collect(), turns)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn layouts_have_no_faults(items in prop::collection::vec(star(), 1..14), gap in 0.0..4.0f64) {
        let mut search = search(items, (120.0, 160.0), gap);
        prop_assert_eq!(search.best().faults(search.job()), vec![]);
        let before = search.best().sheets.len();
        search.improve(15);
        prop_assert_eq!(search.best().faults(search.job()), vec![]);
        prop_assert!(search.best().sheets.len() <= before);
    }

    /// Of convex pieces the area within the gap is known: area + perimeter x gap / 2 + pi (gap / 2)^2 (Steiner).
    #[test]
    fn never_fewer_sheets_than_the_area_needs(items in prop::collection::vec(star(), 1..20)) {
        let hull = |i: Item| Item::new(convex_hull(i.outline()), i.turns());
        let items: Vec<Item> = items.into_iter().map(hull).collect();
        let area: f64 = items.iter().map(|i| ring_area(i.outline())).sum();
        let mut search = search(items, (110.0, 110.0), 1.0);
        search.improve(10);
        prop_assert!(search.best().sheets.len() as f64 >= area / (110.0 * 110.0));
    }
}
