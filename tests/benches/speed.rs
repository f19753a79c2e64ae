//! How long the pipeline takes: solving, meshing and the pack of each demo, and growth from 3 to 24 sides.
//!
//! Every group starts with a baseline measured in the same run: the same work by an independent solid library
//! (all pieces of the house extruded and united by `manifold-rust`). Compare ratios, not seconds.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use gable_export::{PackOptions, Paper, pack_pdf};
use gable_measure::{Angle, Length, Pitch};
use gable_shell::{Covering, Faces, Finish, House, Outline, Side, SideId, Solved, Top, Where, demo, solve};
use gable_tests::Body;
use std::hint::black_box;

fn demos() -> Vec<(&'static str, House)> {
    demo::names().filter_map(|name| Some((name, demo::house(name)?))).collect()
}

fn united_by_library(solved: &Solved) -> f64 {
    let solids = solved.pieces.iter().map(|p| Body::of_piece(p).solid().clone());
    solids.reduce(|a, b| a.union(&b)).map_or(0.0, |m| m.volume())
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
    part.sides = (1..=sides).map(|k| Side { id: SideId(k.to_string()), wall: true, top }).collect();
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
        part.outline = Outline::Rectangle { width: Length::mm_of(1100.0), depth: Length::mm_of(200.0) };
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

criterion_group!(benches, stages, growth, finishes);
criterion_main!(benches);
