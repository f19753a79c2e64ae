use super::*;
use crate::{About, Basis};
use gable_plane::{V2, ring_area, ring_contains};
use gable_shell::{House, demo, solve};

fn to_bake(house: &House) -> Vec<ToBake> {
    let solved = solve(house);
    let dressed = gable_dress::dress(house, &solved);
    ToBake::all(&About { house, solved: &solved, dressed: &dressed, guide: None, board: None })
}

fn usual() -> Kitchen {
    Kitchen { trays: Tray::usual().to_vec(), ..Kitchen::default() }
}

/// Least distance of two rings, edge by edge; a corner within the other ring counts as 0. Shares nothing with the search.
fn distance(a: &[P2], b: &[P2]) -> f64 {
    let edges =
        |ring: &[P2]| -> Vec<[P2; 2]> { (0..ring.len()).map(|k| [ring[k], ring[(k + 1) % ring.len()]]).collect() };
    let to_edge = |p: P2, [from, to]: [P2; 2]| {
        let way: V2 = to - from;
        let share = ((p - from).dot(&way) / way.norm_squared().max(1e-300)).clamp(0.0, 1.0);
        (from + way * share - p).norm()
    };
    if ring_contains(a, b[0]) || ring_contains(b, a[0]) {
        return 0.0;
    }
    let crossing = |[a, b]: [P2; 2], [c, d]: [P2; 2]| {
        let side = |p: P2, q: P2, r: P2| (q - p).perp(&(r - p));
        side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
    };
    let (of_a, of_b) = (edges(a), edges(b));
    if of_a.iter().any(|e| of_b.iter().any(|f| crossing(*e, *f))) {
        return 0.0;
    }
    let corners = |ring: &[P2], edges: &[[P2; 2]]| {
        ring.iter()
            .flat_map(|p| edges.iter().map(|e| to_edge(*p, *e)).collect::<Vec<_>>())
            .fold(f64::INFINITY, f64::min)
    };
    corners(a, &of_b).min(corners(b, &of_a))
}

#[test]
fn trays_of_the_demos_are_sound_and_few() {
    let figures = Figures::default();
    for name in demo::names() {
        let all = to_bake(&demo::house(name).unwrap());
        for kitchen in [usual(), Kitchen { trays: Tray::usual()[1..2].to_vec(), ..Kitchen::default() }] {
            let baked = Ovenfuls::of(&all, &kitchen, &figures, &[]);
            let mut ids: Vec<&str> = baked.trays.iter().flat_map(|t| &t.pieces).map(|p| p.id.as_str()).collect();
            ids.sort_unstable();
            let mut expected: Vec<&str> = all.iter().map(|one| one.id.as_str()).collect();
            expected.sort_unstable();
            assert_eq!(baked.too_large, [""; 0], "{name}");
            assert_eq!(ids, expected, "{name}: every piece once");
            for tray in &baked.trays {
                sound(name, tray, figures.get(Figure::TraySpace));
                assert!(
                    tray.trim_minutes <= figures.get(Figure::WarmMinutes) * 1.3 || tray.pieces.len() == 1,
                    "{name}"
                );
            }
            bounded(name, &all, &kitchen, &baked, &figures);
        }
    }
}

/// Inside the tray, at least the space apart, of one class by thickness and size.
fn sound(name: &str, tray: &Ovenful, space: f64) {
    for (k, piece) in tray.pieces.iter().enumerate() {
        let inside = |p: &P2| {
            p.x >= space / 2.0 - 0.01
                && p.y >= space / 2.0 - 0.01
                && p.x <= tray.tray.width.mm() - space / 2.0 + 0.01
                && p.y <= tray.tray.depth.mm() - space / 2.0 + 0.01
        };
        assert!(piece.outline.iter().all(inside), "{name}: {} hangs over {}", piece.id, tray.tray.name);
        for other in &tray.pieces[k + 1..] {
            let apart = distance(&piece.outline, &other.outline);
            assert!(apart >= space - 0.01, "{name}: {} and {} are {apart} apart", piece.id, other.id);
        }
    }
}

/// Per class as many trays as the area of its pieces, or the time to trim them, asks for, and one more at most.
fn bounded(name: &str, all: &[ToBake], kitchen: &Kitchen, baked: &Ovenfuls, figures: &Figures) {
    let largest = kitchen.trays.iter().map(|t| t.width.mm() * t.depth.mm()).fold(0.0, f64::max);
    for (class, _) in baked.classes.iter().enumerate() {
        let trays: Vec<&Ovenful> = baked.trays.iter().filter(|t| t.class == class).collect();
        let ids: Vec<&str> = trays.iter().flat_map(|t| &t.pieces).map(|p| p.id.as_str()).collect();
        let own = || all.iter().filter(|one| ids.contains(&one.id.as_str()));
        let area = (own().map(|one| ring_area(&one.outline)).sum::<f64>() / largest).ceil();
        let warm = (trays.iter().map(|t| t.trim_minutes).sum::<f64>() / figures.get(Figure::WarmMinutes)).ceil();
        println!("{name}, {:?}: {} trays, by area {area}, by warmth {warm}", baked.classes[class].size, trays.len());
        assert!(trays.len() as f64 <= area.max(warm) + 1.0, "{name}");
    }
}

#[test]
fn classes_are_not_mixed() {
    let all = to_bake(&demo::house("pilot-house").unwrap());
    let figures = Figures::default();
    let baked = Ovenfuls::of(&all, &usual(), &figures, &[]);
    let of = |id: &str| all.iter().find(|one| one.id == id).unwrap();
    for tray in &baked.trays {
        let rolled: Vec<f64> = tray.pieces.iter().map(|p| of(&p.id).rolled.mm()).collect();
        let (low, high) = rolled.iter().fold((f64::MAX, 0.0_f64), |(l, h), r| (l.min(*r), h.max(*r)));
        assert!(high - low <= 0.8 + 1e-9, "{low} and {high} mm on one tray");
        let longest = |ring: &[P2]| gable_plane::bounds(ring).map_or(0.0, |(low, high)| (high - low).max());
        let small: Vec<bool> =
            tray.pieces.iter().map(|p| longest(&of(&p.id).outline) <= figures.get(Figure::SmallPiece)).collect();
        assert!(small.iter().all(|s| *s == small[0]), "small and large on one tray");
    }
}

/// Doughs that differ by no more than 0.8 mm bake together, and take the time of the thicker one (common practice, no source).
#[test]
fn doughs_of_about_one_thickness_bake_together() {
    let all = to_bake(&demo::house("boat-hut").unwrap());
    let large = all.iter().max_by(|a, b| a.area.total_cmp(&b.area)).unwrap();
    let of = |mm: f64| ToBake { rolled: Length::mm_of(mm), ..large.clone() };
    let count = |mm: f64| classes(&[of(6.0), of(mm)], &Figures::default(), &[]);
    assert_eq!((count(6.75).len(), count(6.85).len()), (1, 2));
    let thick = Minutes::of(Length::mm_of(6.75), PieceSize::Large, &Figures::default(), &[]);
    assert_eq!(count(6.75)[0].minutes, thick);
}

/// Published recipes for panels at 175 to 180 °C: 3 mm 8 min, 5 mm 12 min, 1/4 in about 15 min (derived from those that give
/// a thickness). Practice: 16 to 20 min for large pieces of 1/4 in, so ours are a fifth longer and in proportion.
#[test]
fn thicker_pieces_bake_in_proportion_to_published_times() {
    let figures = Figures::default();
    let time = |mm: f64| Minutes::of(Length::mm_of(mm), PieceSize::Large, &figures, &[]).usual;
    let published = [(3.0, 8.0), (5.0, 12.0), (6.35, 14.7)];
    for (mm, minutes) in published {
        assert!((time(mm) / time(6.35) - minutes / 14.7).abs() < 0.01, "{mm} mm: {}", time(mm));
    }
    assert_eq!(time(6.35), 18.0);
    let small = Minutes::of(Length::inches(0.25), PieceSize::Small, &figures, &[]);
    assert!((small.least, small.most) == (5.0, 8.0) && small.basis == Basis::Practice);
}

/// Two trays that took a tenth longer than planned: from then on all of that size do, whatever their thickness.
#[test]
fn what_the_person_writes_of_their_oven_counts() {
    let figures = Figures::default();
    let note = |minutes: f64| OvenNote { rolled: Length::inches(0.25), size: PieceSize::Large, minutes };
    let log = [note(18.0 * 1.1), note(18.0 * 1.1), note(40.0)];
    let at = |mm: f64, log: &[OvenNote]| Minutes::of(Length::mm_of(mm), PieceSize::Large, &figures, log);
    assert!((at(4.0, &log).usual / at(4.0, &[]).usual - 1.1).abs() < 1e-9);
    assert_eq!(at(4.0, &log).basis, Basis::Own);
    assert!(at(4.0, &log).most >= at(4.0, &log).usual && at(4.0, &log).least <= at(4.0, &log).usual);
    let small = Minutes::of(Length::mm_of(4.0), PieceSize::Small, &figures, &log);
    assert_eq!(small.basis, Basis::Practice, "small pieces were not baked yet");
}

#[test]
fn what_is_larger_than_every_tray_is_named_and_the_rest_is_baked() {
    let all = to_bake(&demo::house("boat-hut").unwrap());
    let tray = |mm: f64| Tray { name: "Tin".to_owned(), width: Length::mm_of(mm), depth: Length::mm_of(mm) };
    let small = Kitchen { trays: vec![tray(120.0)], ..Kitchen::default() };
    let baked = Ovenfuls::of(&all, &small, &Figures::default(), &[]);
    let on_trays = baked.trays.iter().map(|t| t.pieces.len()).sum::<usize>();
    assert!(!baked.too_large.is_empty() && on_trays + baked.too_large.len() == all.len());
    let none = Ovenfuls::of(&all, &Kitchen { trays: vec![tray(20.0)], ..Kitchen::default() }, &Figures::default(), &[]);
    assert_eq!(none.too_large.len(), all.len());
    assert!(Ovenfuls::of(&all, &Kitchen::default(), &Figures::default(), &[]).assumed_tray);
    assert_eq!(Ovenfuls::of(&[], &usual(), &Figures::default(), &[]).trays, []);
}

#[test]
fn every_piece_is_cut_from_one_sheet_of_dough() {
    for name in demo::names() {
        let all = to_bake(&demo::house(name).unwrap());
        let baked = Ovenfuls::of(&all, &usual(), &Figures::default(), &[]);
        assert_eq!(baked.rolled.iter().map(|s| s.pieces.len()).sum::<usize>(), all.len(), "{name}");
        for sheet in &baked.rolled {
            println!(
                "{name}: {} {:.0} x {:.0}, scraps {:.2}",
                sheet.dough,
                sheet.width.mm(),
                sheet.depth.mm(),
                sheet.scraps
            );
            assert!((0.0..0.9).contains(&sheet.scraps), "{name}: {}", sheet.scraps);
            let inside = |p: &P2| p.x <= sheet.width.mm() && p.y <= sheet.depth.mm() && p.x >= 0.0 && p.y >= 0.0;
            assert!(sheet.pieces.iter().flat_map(|p| &p.outline).all(inside));
        }
    }
}

#[test]
fn a_tray_is_drawn_with_the_numbers_of_its_pieces() {
    let all = to_bake(&demo::house("boat-hut").unwrap());
    let baked = Ovenfuls::of(&all, &usual(), &Figures::default(), &[]);
    let tray = &baked.trays[0];
    let drawing = tray_drawing(tray.tray.width, tray.tray.depth, &tray.pieces, 0.25);
    let words: Vec<&str> = drawing
        .items
        .iter()
        .filter_map(|i| if let gable_drawing::Item::Text(t) = i { Some(t.text.as_str()) } else { None })
        .collect();
    for piece in &tray.pieces {
        let number = piece.template.unwrap().to_string();
        assert!(words.contains(&number.as_str()), "{number} of {words:?}");
    }
}

#[test]
fn what_bakes_alike_lies_on_trays_of_its_own_and_is_told_in_words() {
    let all = to_bake(&demo::house("pilot-house").unwrap());
    let sorted = alike(&all, &Figures::default(), &[]);
    assert_eq!(sorted.iter().map(|(_, own)| own.len()).sum::<usize>(), all.len(), "every biscuit once");
    let baked = Ovenfuls::of(&all, &usual(), &Figures::default(), &[]);
    for tray in &baked.trays {
        let own = &sorted[tray.class].1;
        assert!(tray.pieces.iter().all(|on| own.iter().any(|one| one.id == on.id)), "{}", tray.tray.name);
    }
    // 1/4 in of large pieces takes the usual time, 12 minutes of common practice.
    let quarter = Minutes::of(Length::inches(0.25), PieceSize::Large, &Figures::default(), &[]);
    let class = BakeClass {
        thinnest: Length::inches(0.25),
        thickest: Length::inches(0.25),
        size: PieceSize::Large,
        minutes: quarter,
    };
    let usual = Figure::LargeMinutes.known().usual;
    assert_eq!(class.words(gable_measure::Unit::Millimetre), format!("large pieces rolled 6.35 mm, {usual} min"));
}

/// One ovenful that took its 18 minutes says nothing of the next; one looks a tenth earlier and takes out a tenth later.
#[test]
fn one_ovenful_leaves_a_tenth_either_way() {
    let rolled = gable_measure::Length::mm_of(6.35);
    let log = [OvenNote { rolled, size: PieceSize::Large, minutes: 18.0 }];
    let found = Minutes::of(rolled, PieceSize::Large, &Figures::default(), &log);
    for (found, expected) in [(found.least, 16.2), (found.usual, 18.0), (found.most, 19.8)] {
        assert!((found - expected).abs() < 1e-9, "{found} {expected}");
    }
}
