use super::border::Border;
use super::tiles::Tiles;
use super::*;
use gable_shell::{Bond, Share, Stuff, TileShape, Tint};
use proptest::prelude::*;

const INCH: f64 = 25.4;

fn rectangle(width: f64, height: f64) -> Border {
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    Border::new(&corners.map(|(x, y)| P2::new(x, y)), &[])
}

/// Tiles per 100 square feet, counted on a rectangle of whole tiles: even courses whole, odd ones with a half at each end.
fn per_square(width: f64, length: f64, exposure: f64) -> f64 {
    let (columns, courses) = (20.0, 20.0);
    let tiles =
        Tiles { shape: TileShape::Square, width: width * INCH, length: length * INCH, exposure: exposure * INCH };
    let border = rectangle(columns * tiles.width, courses * tiles.exposure);
    let (low, high) = border.bounds();
    let (placed, _) = cut_to(&border, tiles::lay(&tiles, low, high));
    let full = placed.iter().filter(|p| (p.shape.area() - tiles.width * tiles.exposure).abs() < 1e-6).count();
    let halves = placed.len() - full;
    assert_eq!(halves, 20, "two in every second course");
    (full as f64 + halves as f64 / 2.0) * 14_400.0 / (columns * width * courses * exposure)
}

#[test]
fn slates_per_square_are_those_of_the_trade_tables() {
    // Building Trades Pocketbook (1899), 'Slating', and Architectural Review and Builders' Journal 1 (1869) p. 451:
    // width, length, slates per 100 sq ft at 3 in of head lap; printed values are cut or rounded.
    let rows = [
        (6.0, 12.0, 533.0),
        (7.0, 12.0, 457.0),
        (8.0, 12.0, 400.0),
        (9.0, 12.0, 355.0),
        (7.0, 14.0, 374.0),
        (8.0, 14.0, 327.0),
        (9.0, 14.0, 291.0),
        (10.0, 14.0, 261.0),
        (8.0, 16.0, 277.0),
        (9.0, 16.0, 246.0),
        (10.0, 18.0, 192.0),
        (12.0, 18.0, 160.0),
        (10.0, 20.0, 169.0),
        (12.0, 20.0, 141.0),
        (14.0, 20.0, 121.0),
        (12.0, 22.0, 126.0),
        (12.0, 24.0, 114.0),
        (16.0, 24.0, 86.0),
    ];
    for (width, length, printed) in rows {
        let counted = per_square(width, length, (length - 3.0) / 2.0);
        assert!((counted - printed).abs() < 1.0, "{width} x {length}: {counted}, printed {printed}");
    }
}

#[test]
fn shingles_per_square_are_those_of_the_trade_tables() {
    // Building Trades Pocketbook (1899), 'Shingles': exposure, per 100 sq ft 4 in and 6 in wide.
    for (exposure, narrow, wide) in
        [(4.0, 900.0, 600.0), (5.0, 720.0, 480.0), (6.0, 600.0, 400.0), (7.0, 514.0, 343.0), (8.0, 450.0, 300.0)]
    {
        assert!((per_square(4.0, 18.0, exposure) - narrow).abs() < 1.0);
        assert!((per_square(6.0, 18.0, exposure) - wide).abs() < 1.0);
    }
}

#[test]
fn plain_tiles_per_square_metre() {
    // Roofapedia Tile Guide: plain tiles of 265 x 165 mm, about 60 per square metre with a third showing.
    let tiles = Tiles { shape: TileShape::Square, width: 165.0, length: 265.0, exposure: 100.0 };
    let border = rectangle(1650.0, 1000.0);
    let (low, high) = border.bounds();
    let (placed, _) = cut_to(&border, tiles::lay(&tiles, low, high));
    let area: f64 = placed.iter().map(|p| p.shape.area()).sum();
    let count = area / (165.0 * 100.0) / 1.65;
    assert!((count - 60.0).abs() < 1.0, "{count}");
    // The tile body reaches 165 mm under the courses above: those of the top two courses are cut at the ridge.
    assert_eq!(placed.iter().filter(|p| p.whole).count(), 10 * 4 + 9 * 4);
}

fn bricks(bond: Bond) -> brick::Bricks {
    brick::Bricks { bond, length: 215.0, height: 65.0, joint: 10.0 }
}

/// Bricks per square metre, in whole ones, over the middle of a wide wall.
fn brick_density(bond: Bond) -> f64 {
    let (length, courses) = (225.0 * 24.0 - 10.0, 40.0);
    let border = rectangle(length, 75.0 * courses);
    let (low, high) = border.bounds();
    let laid = brick::lay(&bricks(bond), &brick::Run { length, side: 0 }, 0.0, low, high);
    // Whole headers count as bricks, as in the printed rows.
    let (from, to) = (225.0 * 3.0, 225.0 * 9.0);
    let window = Border::new(
        &[(from, 0.0), (to, 0.0), (to, 75.0 * courses), (from, 75.0 * courses)].map(|(x, y)| P2::new(x, y)),
        &[],
    );
    let share = |slab: &Slab| {
        let full = ring_area(&slab.ring);
        match window.clip(&slab.ring, true) {
            Kept::Whole => 1.0,
            Kept::Parts(parts) => parts.iter().map(Clipped::area).sum::<f64>() / full,
        }
    };
    laid.slabs.iter().map(share).sum::<f64>() / ((to - from) * 75.0 * courses / 1e6)
}

#[test]
fn bricks_per_square_metre_are_those_of_the_handbooks() {
    // Stretcher bond of 215 x 102.5 x 65 mm: 60 as printed (trade encyclopaedia, 'Brickwork'), 59.26 exact. English 89 and
    // Flemish 79: usual handbook figures, from memory; exact 88.89 and 79.01 by the repeat of the bond.
    for (bond, printed) in [(Bond::Stretcher, 60.0), (Bond::English, 89.0), (Bond::Flemish, 79.0)] {
        let counted = brick_density(bond);
        assert!((counted - printed).abs() < 1.0, "{bond:?}: {counted}");
    }
}

/// Joints of two courses at the corner, against the bond rules.
fn lap_of(bond: Bond, length: f64, side: usize) -> f64 {
    let [even, odd] = brick::places(&bricks(bond), &brick::Run { length, side });
    fill::lap(&even, &odd)
}

#[test]
fn joints_lap_by_a_quarter_or_more_on_walls_of_any_length() {
    // IXL Brick, 'Bond patterns': stretchers move by half a brick, English and Flemish joints lap by a quarter of a
    // stretcher and its joint. Where a wall is no whole number of bricks, cut ones in its middle keep to a quarter too
    // (common practice, no source).
    for bond in [Bond::Stretcher, Bond::English, Bond::Flemish] {
        let mut worst = f64::INFINITY;
        for side in 0..2 {
            for step in 0..400 {
                let length = 225.0 * (4.0 + f64::from(step) * 0.037);
                let lap = lap_of(bond, length, side);
                worst = worst.min(lap);
            }
        }
        assert!(worst > 0.25 - 1e-9, "{bond:?}: {worst}");
    }
}

#[test]
fn walls_of_whole_bricks_need_no_cut_ones() {
    // Half a module more than whole ones: a stretcher at one end shows as a header round the corner at the other.
    let [even, odd] = brick::places(&bricks(Bond::Stretcher), &brick::Run { length: 225.0 * 7.5 - 10.0, side: 0 });
    let lengths = |places: &[f64]| places.windows(2).map(|w| w[1] - w[0]).collect::<Vec<f64>>();
    assert!(lengths(&even).iter().chain(&lengths(&odd)).all(|l| (l - 1.0).abs() < 1e-9 || (l - 0.5).abs() < 1e-9));
    assert!((lap_of(Bond::Stretcher, 225.0 * 7.5 - 10.0, 0) - 0.5).abs() < 1e-9, "half a brick");
}

#[test]
fn a_corner_shows_a_head_on_one_side_and_a_long_brick_on_the_other() {
    for bond in [Bond::Stretcher, Bond::Flemish] {
        let this = brick::places(&bricks(bond), &brick::Run { length: 2000.0, side: 0 });
        let next = brick::places(&bricks(bond), &brick::Run { length: 1500.0, side: 1 });
        for course in 0..2 {
            let last = this[course].windows(2).last().unwrap();
            let (end, start) = (last[1] - last[0], next[course][1] - next[course][0]);
            let (head, long) = (end.min(start), end.max(start));
            assert!((head - 0.5).abs() < 1e-9 && long > 0.7, "{bond:?} {course}: {end} {start}");
        }
    }
    let header_course = brick::places(&bricks(Bond::English), &brick::Run { length: 2000.0, side: 0 });
    // Header at the corner, quarter closer next to it (IXL Brick).
    assert!((header_course[1][1] - 0.5).abs() < 1e-9 && (header_course[1][2] - 0.75).abs() < 1e-9);
}

fn gable() -> Vec<P2> {
    [(0.0, 0.0), (220.0, 0.0), (220.0, 100.0), (110.0, 210.0), (0.0, 100.0)].map(|(x, y)| P2::new(x, y)).to_vec()
}

fn window() -> Vec<P2> {
    gable_plane::Contour::round_headed(P2::new(90.3, 30.0), P2::new(121.0, 81.0)).unwrap().flatten(0.02)
}

#[test]
fn tiles_of_every_shape_cover_a_face_without_gap_or_overlap() {
    // Closed form: a tessellation covers all of the face above the first tails.
    for shape in [TileShape::Square, TileShape::Rounded, TileShape::Pointed, TileShape::Staggered] {
        let tiles = Tiles { shape, width: 17.0, length: 30.0, exposure: 11.0 };
        let border = Border::new(&gable(), &[window()]);
        let (low, high) = border.bounds();
        let (placed, _) = cut_to(&border, tiles::lay(&tiles, low, high));
        let sum: f64 = placed.iter().map(|p| p.shape.area()).sum();
        // The course below the face shows in the gaps between the first tails, so nothing is left open.
        assert!((sum - border.area()).abs() < 0.5, "{shape:?}: {sum} of {}", border.area());
    }
}

#[test]
fn bricks_and_mortar_make_up_the_face() {
    // On a rectangle of whole courses: area of mortar by closed form.
    let bricks = brick::Bricks { bond: Bond::Flemish, length: 18.0, height: 6.0, joint: 1.5 };
    let (length, courses) = (19.5 * 9.0 - 1.5, 8.0);
    let border = rectangle(length, 7.5 * courses);
    let (low, high) = border.bounds();
    let places = brick::places(&bricks, &brick::Run { length, side: 0 });
    let (placed, lines) = cut_to(&border, brick::lay(&bricks, &brick::Run { length, side: 0 }, 0.0, low, high));
    let joints: f64 = (0..8).map(|c| (places[c % 2].len() - 2) as f64).sum();
    let mortar = courses * 1.5 * length + joints * 1.5 * 6.0;
    let sum: f64 = placed.iter().map(|p| p.shape.area()).sum();
    assert!((sum + mortar - border.area()).abs() < 1e-6, "{sum} {mortar} {}", border.area());
    let piped: f64 = lines.iter().map(|[a, b]| (b - a).norm()).sum();
    // A level joint over each of eight courses, upright ones from middle to middle of those, in the first from the foot.
    let first = 0.75 * (places[0].len() - 2) as f64;
    assert!((piped - (courses * length + joints * 7.5 - first)).abs() < 1e-6, "{piped}");
}

#[test]
fn whole_tiles_on_a_gable_are_those_whose_corners_and_sides_lie_on_it() {
    // Brute force: points along the rim of each tile.
    let tiles = Tiles { shape: TileShape::Square, width: 13.0, length: 9.0, exposure: 9.0 };
    let (rim, hole) = (gable(), window());
    let border = Border::new(&rim, std::slice::from_ref(&hole));
    let (low, high) = border.bounds();
    let (placed, _) = cut_to(&border, tiles::lay(&tiles, low, high));
    let (mut whole, mut cut) = (0, 0);
    let on_face = |p: P2| gable_plane::ring_contains(&rim, p) && !gable_plane::ring_contains(&hole, p);
    for course in -2..30 {
        for column in -20..40 {
            let shift = if course % 2 == 0 { 0.0 } else { 6.5 };
            let at = P2::new(f64::from(column) * 13.0 + shift, f64::from(course) * 9.0);
            let points =
                (0..=260).flat_map(|i| (0..=180).map(move |j| (i, j))).filter(|(i, j)| i % 10 == 0 || j % 10 == 0);
            let inside = points.map(|(i, j)| {
                let (x, y) = (f64::from(i) / 260.0 * 12.9998 + 0.0001, f64::from(j) / 180.0 * 8.9998 + 0.0001);
                on_face(P2::new(at.x + x, at.y + y))
            });
            let inside: Vec<bool> = inside.collect();
            whole += usize::from(inside.iter().all(|i| *i));
            cut += usize::from(inside.iter().any(|i| *i) && !inside.iter().all(|i| *i));
        }
    }
    assert_eq!(placed.iter().filter(|p| p.whole).count(), whole);
    // A tile that the window cuts in two is counted as two cut pieces, so there may be a few more; crumbs that no point
    // fell on, too.
    let pieces = placed.len() - whole;
    assert!((cut..=cut + 6).contains(&pieces), "{pieces} {cut}");
}

#[test]
fn shades_are_dealt_by_share_and_always_alike() {
    let shares = [(Tint::Caramel, 3.0), (Tint::Cocoa, 1.0)].map(|(tint, share)| Share { tint, share });
    let dealt = deal(&shares, 1000, &mut Chance::new(7, "main/slope-front"));
    assert_eq!(dealt.iter().filter(|s| **s == 1).count(), 250);
    assert_eq!(dealt, deal(&shares, 1000, &mut Chance::new(7, "main/slope-front")));
    assert_ne!(dealt, deal(&shares, 1000, &mut Chance::new(8, "main/slope-front")));
    assert_ne!(dealt, deal(&shares, 1000, &mut Chance::new(7, "main/slope-back")));
    // No long rows of the rarer shade: the longest of 1000 dealt at one in four is about five (log 1000 / log 4).
    let longest = dealt.split(|s| *s == 0).map(<[usize]>::len).max().unwrap();
    assert!((3..=9).contains(&longest), "{longest}");
}

#[test]
fn stones_fill_the_face_without_slivers() {
    let border = Border::new(&gable(), &[window()]);
    let rubble = stone::lay(&border, 16.0, 1.5, &mut Chance::new(3, "wall"));
    let sum: f64 = rubble.stones.iter().map(Clipped::area).sum();
    let mortar: f64 = rubble.lines.iter().map(|[a, b]| (b - a).norm() * 1.5).sum();
    // Mortar is a strip of 1.5 mm along each line; corners where three meet count a little more than once.
    assert!((sum + mortar - border.area()).abs() < 0.02 * border.area(), "{sum} {mortar} {}", border.area());
    let narrowest = rubble.stones.iter().map(|s| narrow::width(&s.rim)).fold(f64::INFINITY, f64::min);
    assert!(narrowest > 3.0, "{narrowest}");
}

fn any_covering() -> impl Strategy<Value = Covering> {
    let mm = |range: std::ops::Range<f64>| range.prop_map(Length::mm_of);
    let shape = prop_oneof![
        Just(TileShape::Square),
        Just(TileShape::Rounded),
        Just(TileShape::Pointed),
        Just(TileShape::Staggered)
    ];
    let bond = prop_oneof![Just(Bond::Stretcher), Just(Bond::English), Just(Bond::Flemish)];
    prop_oneof![
        (shape, mm(3.0..60.0), mm(3.0..80.0), mm(2.0..50.0))
            .prop_map(|(shape, width, length, exposure)| Covering::Tiles { shape, width, length, exposure }),
        (bond, mm(3.0..60.0), mm(2.0..20.0), mm(0.0..3.0)).prop_map(|(bond, length, height, joint)| Covering::Brick {
            bond,
            length,
            height,
            joint
        }),
        (mm(4.0..60.0), mm(0.0..3.0)).prop_map(|(size, joint)| Covering::Stone { size, joint }),
        (mm(2.0..40.0), mm(5.0..300.0)).prop_map(|(exposure, length)| Covering::Weatherboard { exposure, length }),
        (mm(8.0..40.0), mm(1.0..7.0)).prop_map(|(board, batten)| Covering::BoardAndBatten { board, batten }),
        (mm(1.0..20.0), mm(10.0..120.0), any::<bool>()).prop_map(|(timber, bay, braces)| Covering::HalfTimber {
            timber,
            bay,
            braces
        }),
        (mm(1.0..60.0), mm(3.0..60.0)).prop_map(|(depth, tongue)| Covering::Snow { depth, tongue }),
    ]
}

fn star(radii: &[f64]) -> Vec<P2> {
    let step = std::f64::consts::TAU / radii.len() as f64;
    radii.iter().enumerate().map(|(k, r)| P2::new(r * (k as f64 * step).cos(), r * (k as f64 * step).sin())).collect()
}

fn plain_face(border: Border) -> Face {
    Face::for_tests(border)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(120) })]

    #[test]
    fn random_finishes_never_leave_the_face(covering in any_covering(), radii in prop::collection::vec(20.0..150.0_f64, 3..9), seed in 0_u32..99) {
        let rim = star(&radii);
        let hole = vec![P2::new(-4.0, -3.0), P2::new(3.0, -4.0), P2::new(0.0, 3.0)];
        let border = Border::new(&rim, &[]);
        let holes: Vec<Vec<P2>> = if hole.iter().all(|p| border.contains(*p)) && radii.len() > 4 { vec![hole] } else { vec![] };
        let border = Border::new(&rim, &holes);
        let face = plain_face(Border::new(&rim, &holes));
        let mut chance = Chance::new(seed, "face");
        let (placed, lines) = match covering {
            Covering::Stone { size, joint } => {
                let rubble = stone::lay(&border, size.mm(), joint.mm(), &mut chance);
                (rubble.stones.into_iter().map(|shape| Placed { shape, whole: true, laps: 1.0 }).collect(), rubble.lines)
            }
            covering => cut_to(&border, lay(&covering, &face, &mut chance)),
        };
        let outside = |p: &P2| {
            let near = |ring: &Vec<P2>| (0..ring.len()).any(|k| distance(*p, ring[k], ring[(k + 1) % ring.len()]) < 1e-4);
            !border.contains(*p) && !std::iter::once(&rim).chain(&holes).any(near)
        };
        let area: f64 = placed.iter().map(|p| p.shape.area()).sum();
        prop_assert!(area <= border.area() * (1.0 + 1e-6) + 1e-6, "{area} of {}", border.area());
        for p in placed.iter().flat_map(|p| &p.shape.rim) {
            prop_assert!(!outside(p), "{p}");
        }
        for p in lines.iter().flatten() {
            prop_assert!(!outside(p), "{p}");
        }
    }
}

fn distance(p: P2, a: P2, b: P2) -> f64 {
    let along = b - a;
    let share = ((p - a).dot(&along) / along.norm_squared()).clamp(0.0, 1.0);
    (p - a - along * share).norm()
}

/// What the parts of a tally must add up to, worked out from the units and lines alone, with the shoelace formula and
/// mass = area x thickness x density (g/cm3, so mm3 / 1000).
#[test]
fn tallies_are_what_units_and_lines_add_up_to() {
    let joint = Length::mm_of(1.0);
    let (length, height) = (Length::mm_of(13.0), Length::mm_of(5.0));
    let covering = Covering::Brick { bond: Bond::Stretcher, length, height, joint };
    let mut house = gable_shell::demo::house("boat-hut").unwrap();
    house.dressing.finishes = vec![Finish::usual(covering, gable_shell::Faces::default())];
    house.dressing.rates = Rates { set: 3.0, cut: 7.0, pipe: 11.0 };
    let dressed = crate::dress(&house, &gable_shell::solve(&house));
    assert_eq!(dressed.finishes.len(), 4, "four walls");
    for covered in &dressed.finishes {
        let rings = covered.units.iter().flat_map(|u| std::iter::once(&u.outline).chain(&u.holes));
        let area: f64 = rings.map(|r| ring_area(r)).sum();
        let lines: f64 = covered.guides.iter().map(|[a, b]| (b - a).norm()).sum();
        let whole = covered.units.iter().filter(|u| u.whole).count();
        let cut = covered.units.len() - whole;
        let tally = &covered.tally;
        assert_eq!((tally.all_whole(), tally.all_cut()), (whole, cut));
        let grams = area * covered.thickness.mm() * 1.4 / 1000.0;
        let seconds = 3.0 * (whole + cut) as f64 + 7.0 * cut as f64 + 11.0 * lines / 100.0;
        for (found, wanted) in
            [(tally.covered, area), (tally.mass, grams), (tally.piping.mm(), lines), (tally.minutes, seconds / 60.0)]
        {
            assert!((found - wanted).abs() < 1e-6 * wanted, "{found} is not {wanted}");
        }
    }
}

/// Closed form: a tile weighs its whole length, the lap included, not what shows of it.
#[test]
fn tiles_weigh_what_laps_too() {
    let tiles = Tiles { shape: TileShape::Square, width: 12.0, length: 15.0, exposure: 10.0 };
    let border = rectangle(240.0, 400.0);
    let (low, high) = border.bounds();
    let (placed, _) = cut_to(&border, tiles::lay(&tiles, low, high));
    let whole: Vec<&Placed> = placed.iter().filter(|p| p.whole).collect();
    assert!(whole.len() > 500);
    for tile in whole {
        assert!((tile.shape.area() * tile.laps - 12.0 * 15.0).abs() < 1e-6);
    }
}

/// How often the note about narrow pieces is made for rows of units of these widths, all on one part.
fn notes_on(widths: &[f64], stuff: Stuff) -> Vec<String> {
    let mut house = gable_shell::demo::house("boat-hut").unwrap();
    house.dressing.finishes.truncate(1);
    let solved = gable_shell::solve(&house);
    let mut covered = finishes(&house, &solved, &[], &mut Vec::new()).remove(0);
    covered.stuff = stuff;
    let unit = |width: &f64| Unit {
        outline: [(0.0, 0.0), (*width, 0.0), (*width, 20.0), (0.0, 20.0)].map(|(x, y)| P2::new(x, y)).to_vec(),
        ..covered.units[0].clone()
    };
    covered.units = widths.iter().map(unit).collect();
    let mut findings = Vec::new();
    narrow::remark(&[covered], &solved.pieces, &house, &mut findings);
    findings.into_iter().map(|f| f.what).collect()
}

#[test]
fn a_few_narrow_pieces_are_left_to_the_baker() {
    let fifth = [2.0, 8.0, 8.0, 8.0, 8.0];
    assert_eq!(notes_on(&fifth, Stuff::Fondant), Vec::<String>::new());
    let more = ["Hut: pieces of finishes narrower than 3 mm: weatherboard 1 of 4".to_owned()];
    assert_eq!(notes_on(&fifth[..4], Stuff::Fondant), more);
    assert_eq!(notes_on(&fifth[..4], Stuff::Icing), Vec::<String>::new());
}

/// A person who opens a demo should see what the program makes of a sound design, not faults to mend.
#[test]
fn there_is_nothing_to_say_about_what_the_demos_wear() {
    for name in gable_shell::demo::names() {
        let house = gable_shell::demo::house(name).unwrap();
        assert!(!house.dressing.finishes.is_empty() && !house.dressing.ornaments.is_empty(), "{name}");
        let said = crate::dress(&house, &gable_shell::solve(&house)).findings;
        assert_eq!(said, [], "{name}");
    }
}
