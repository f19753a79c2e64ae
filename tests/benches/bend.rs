//! How long it takes to bend every roof and lid of the demos, and again when nothing has changed.
//!
//! The baseline of each group is the solver on the same house, measured in the same run. Compare ratios, not seconds.

use criterion::{Criterion, criterion_group, criterion_main};
use gable_bake::{About, Notebook};
use gable_dress::dress;
use gable_shell::{demo, solve};
use gable_stand::Site;
use gable_stand::bend::{Ask, Kept, bends};
use std::hint::black_box;

fn bend(c: &mut Criterion) {
    for name in ["boat-hut", "pilot-house"] {
        let Some(house) = demo::house(name) else { continue };
        let solved = solve(&house);
        let dressed = dress(&house, &solved);
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
        let notebook = Notebook::default();
        let site = Site::new(about, &notebook);
        let mut group = c.benchmark_group(name);
        group.sample_size(20);
        group.bench_function("solve (baseline)", |b| b.iter(|| solve(black_box(&house))));
        group.bench_function("bend all", |b| b.iter(|| bends(&site, &Ask::default(), &mut Kept::default())));
        let mut kept = Kept::default();
        group.bench_function("bend all, kept", |b| b.iter(|| bends(&site, &Ask::default(), &mut kept)));
        group.finish();
    }
}

criterion_group!(benches, bend);
criterion_main!(benches);
