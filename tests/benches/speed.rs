//! How long the pipeline takes: solving, meshing and the pack of each demo, growth from 3 to 24 sides, and a street of 50 to
//! 500 parts, with the slope of its growth.
//!
//! Every group starts with a baseline measured in the same run: the same work by an independent solid library
//! (all pieces of the house extruded and united by `manifold-rust`). Compare ratios, not seconds.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use gable_export::{PackOptions, Paper, Section, Sections, pack, pack_pdf};
use gable_measure::{Angle, Length, Pitch};
use gable_shell::{Covering, Faces, Finish, House, Outline, Side, SideId, Solved, Top, Where, demo, solve};
use gable_tests::{Body, street};
use manifold_rust::manifold::Manifold;
use mimalloc::MiMalloc;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// The same as in the program; the baseline has it too.
#[global_allocator]
static MEMORY: MiMalloc = MiMalloc;

fn demos() -> Vec<(&'static str, House)> {
    demo::names().filter_map(|name| Some((name, demo::house(name)?))).collect()
}

/// All pieces united, two and two, then two and two of those.
fn united_by_library(solved: &Solved) -> f64 {
    let mut solids: Vec<Manifold> = solved.pieces.iter().map(|p| Body::of_piece(p).solid().clone()).collect();
    while solids.len() > 1 {
        solids = solids.chunks(2).map(|pair| pair.iter().skip(1).fold(pair[0].clone(), |a, b| a.union(b))).collect();
    }
    solids.first().map_or(0.0, Manifold::volume)
}

fn stages(c: &mut Criterion) {
    for (name, house) in demos() {
        let solved = solve(&house);
        let mut group = c.benchmark_group(name);
        group
            .bench_function("baseline: union by a solid library", |b| b.iter(|| united_by_library(black_box(&solved))));
        group.bench_function("solve", |b| b.iter(|| solve(black_box(&house))));
        group.bench_function("mesh", |b| {
            b.iter(|| black_box(&solved).pieces.iter().map(gable_mesh::solid_of).collect::<Vec<_>>())
        });
        let options = PackOptions { paper: Paper::A4, ..PackOptions::default() };
        group.bench_function("pack", |b| b.iter(|| pack_pdf(black_box(&solved), &house, &options)));
        group.finish();
    }
}

fn spire(sides: u8) -> Option<House> {
    let mut house = demo::house("lookout")?;
    let part = house.parts.first_mut()?;
    part.outline = Outline::Polygon { sides, side: Length::mm_of(40.0) };
    part.openings.clear();
    let pitch = Pitch::Angle(Angle::degrees(58.0));
    let top = Top::Eave { height: Length::mm_of(130.0), pitch, overhang: Length::mm_of(10.0) };
    part.sides = (1..=sides).map(|k| Side { id: SideId(k.to_string()), wall: true, posts: None, top }).collect();
    Some(house)
}

fn growth(c: &mut Criterion) {
    let mut group = c.benchmark_group("sides");
    for sides in [3u8, 6, 12, 24] {
        let Some(house) = spire(sides) else { continue };
        let solved = solve(&house);
        let at = |what: &str| BenchmarkId::new(what, sides);
        group.bench_function(at("baseline: union by a solid library"), |b| b.iter(|| united_by_library(&solved)));
        group.bench_function(at("solve"), |b| b.iter(|| solve(black_box(&house))));
    }
    group.finish();
}

/// A plain wall of about 3,000 bricks, and everything on the pilot house.
fn finishes(c: &mut Criterion) {
    let mut group = c.benchmark_group("finishes");
    if let Some(pilot) = demo::house("pilot-house") {
        let solved = solve(&pilot);
        group.bench_function("baseline: union by a solid library", |b| b.iter(|| united_by_library(&solved)));
        group.bench_function("pilot house", |b| b.iter(|| gable_dress::dress(black_box(&pilot), &solved)));
    }
    let mut wall = House::simple(gable_measure::Unit::Millimetre);
    if let Some(part) = wall.parts.first_mut() {
        part.outline = Outline::Rectangle { width: Length::mm_of(530.0), depth: Length::mm_of(200.0) };
        for side in &mut part.sides {
            if let Top::Eave { height, .. } = &mut side.top {
                *height = Length::mm_of(230.0);
            }
        }
    }
    let front = wall.parts.first().and_then(|p| p.sides.first()).map(|s| s.id.clone());
    let faces = Faces { part: wall.parts.first().map(|p| p.id.clone()), which: Where::Walls, side: front };
    let brick = Covering::USUAL.iter().find(|(word, _)| *word == "brick").map(|(_, covering)| *covering);
    wall.dressing.finishes.extend(brick.map(|covering| Finish::usual(covering, faces)));
    let solved = solve(&wall);
    let bricks: usize = gable_dress::dress(&wall, &solved).finishes.iter().map(|f| f.units.len()).sum();
    group.bench_function(format!("wall of {bricks} bricks"), |b| {
        b.iter(|| gable_dress::dress(black_box(&wall), &solved))
    });
    group.finish();
}

/// Parts of the streets.
const STREETS: [usize; 4] = [50, 100, 200, 500];
/// Times that each street is solved.
const TIMES: usize = 20;
/// Times that each pack is made.
const PACKS: usize = 5;

/// The time in the middle by the clock, and the one that 95 of 100 keep below. Work is shared out among processors, so only a quiet
/// machine tells.
fn timed(times: usize, mut work: impl FnMut()) -> [Duration; 2] {
    let mut taken: Vec<Duration> = (0..times)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed()
        })
        .collect();
    taken.sort_unstable();
    [taken[times / 2], taken[(times * 95).div_ceil(100) - 1]]
}

/// Slope of the straight line through points on paper with both scales logarithmic, by least squares.
fn log_log_slope(points: &[(f64, f64)]) -> f64 {
    let logs: Vec<(f64, f64)> = points.iter().map(|(x, y)| (x.ln(), y.ln())).collect();
    let count = logs.len() as f64;
    let middle = |of: fn(&(f64, f64)) -> f64| logs.iter().map(of).sum::<f64>() / count;
    let (x, y) = (middle(|p| p.0), middle(|p| p.1));
    let along: f64 = logs.iter().map(|p| (p.0 - x) * (p.1 - y)).sum();
    along / logs.iter().map(|p| (p.0 - x).powi(2)).sum::<f64>()
}

/// Times of the pilot house and of the streets as a table, each beside the library's own work on the same house.
fn streets(_: &mut Criterion) {
    eprintln!("house, pieces, solve ms (middle, 95th of 100), union by a solid library ms, ratio");
    let mut points = Vec::new();
    let streets = STREETS.iter().filter_map(|&parts| Some((parts, street(parts)?)));
    for (parts, house) in demo::house("pilot-house").map(|house| (0, house)).into_iter().chain(streets) {
        let solved = solve(&house);
        let times = if parts == 0 { 10 * TIMES } else { TIMES };
        let [middle, most] = timed(times, || _ = black_box(solve(black_box(&house)))).map(|t| t.as_secs_f64() * 1e3);
        let library = timed(3, || _ = black_box(united_by_library(black_box(&solved))))[0].as_secs_f64() * 1e3;
        let name = if parts == 0 { "pilot house".to_owned() } else { format!("street of {parts} parts") };
        eprintln!("{name}, {}, {middle:.2}, {most:.2}, {library:.1}, {:.4}", solved.pieces.len(), middle / library);
        points.extend((parts > 0).then_some((parts as f64, middle)));
    }
    eprintln!("log-log slope from 50 to 500 parts: {:.3}", log_log_slope(&points));
}

/// What each kind of page adds to the pack of the pilot house: pages, time, bytes.
fn sections(_: &mut Criterion) {
    let Some(house) = demo::house("pilot-house") else { return };
    let solved = solve(&house);
    let made = |sections: Sections| {
        let options = PackOptions { paper: Paper::A4, sections, ..PackOptions::default() };
        let pages = pack(&solved, &house, &options).map_or(0, |pages| pages.len());
        let bytes = pack_pdf(&solved, &house, &options).map_or(0, |pdf| pdf.len());
        let time = timed(PACKS, || _ = black_box(pack_pdf(black_box(&solved), &house, &options)))[0];
        (pages, time.as_secs_f64() * 1e3, bytes as f64 / 1e3)
    };
    let library = timed(TIMES, || _ = black_box(united_by_library(black_box(&solved))))[0].as_secs_f64() * 1e3;
    let all = made(Sections::default());
    eprintln!("pack of the pilot house: {} pages, {:.1} ms, {:.0} kB; union {library:.1} ms", all.0, all.1, all.2);
    eprintln!("what it has less without one kind of page: pages, ms, kB");
    for section in Section::ALL {
        let (pages, ms, size) = made(Sections::without(&[section]));
        eprintln!("{}: {}, {:.1}, {:.0}", section.title(), all.0 - pages, all.1 - ms, all.2 - size);
    }
    let guide = timed(TIMES, || _ = black_box(gable_raise::Guide::of(black_box(&solved))))[0];
    let order = timed(TIMES, || _ = black_box(gable_raise::order(black_box(&solved))))[0];
    let [guide, order] = [guide, order].map(|t| t.as_secs_f64() * 1e3);
    eprintln!("of the guide: {guide:.1} ms to work it out, of which the order of assembly {order:.1} ms");
}

criterion_group!(benches, streets, sections, stages, growth, finishes);
criterion_main!(benches);
