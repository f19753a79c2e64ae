//! How long a frame of the editor takes while a handle of the largest demo house is dragged: events, layout, the new
//! house taken over and the next one asked for, triangles of the window and meshes of the house; all but the driver of
//! the graphics card. Only frames in which a new house arrives are counted; they are the slow ones.
//!
//! As in the window, the house is solved on a thread of its own; the same with everything on one thread is told, too. The
//! house stands: the way in which it folds is found later, once nothing moves.
//!
//! Told is the processor's time of the thread that draws, which does not depend on what else the machine is doing.
//! The baseline, measured in the same run, is a frame of the toolkit with nothing in it but one button. Compare ratios,
//! not seconds.

#![allow(missing_docs, clippy::expect_used, reason = "a bench says by stopping that it cannot measure")]

use cpu_time::ThreadTime;
use criterion::{Criterion, criterion_group, criterion_main};
use egui::{Context, Event, PointerButton, Pos2, RawInput, Rect, pos2, vec2};
use gable_editor::{Editor, Start};
use gable_shell::{House, file, solve};
use std::hint::black_box;
use std::time::Duration;

/// Frames of which the slowest twentieth is told.
const FRAMES: usize = 200;

/// More than enough to solve a house in, so that each frame brings a new one.
const PAUSE: Duration = Duration::from_millis(120);

fn input(events: Vec<Event>) -> RawInput {
    let size = vec2(1900.0, 1100.0);
    RawInput { screen_rect: Some(Rect::from_min_size(Pos2::ZERO, size)), events, ..RawInput::default() }
}

/// The demo house of the most pieces.
fn largest() -> Option<House> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo");
    let files = std::fs::read_dir(folder).ok()?.filter_map(|entry| std::fs::read_to_string(entry.ok()?.path()).ok());
    files.filter_map(|text| file::parse(&text).ok()).max_by_key(|house| solve(house).pieces.len())
}

/// An editor in which a handle is held.
struct Kitchen {
    ctx: Context,
    editor: Editor,
    handle: Pos2,
    frames: u32,
}

impl Kitchen {
    fn new(house: House, aside: bool) -> Option<Self> {
        let ctx = Context::default();
        let start = Start::House(Box::new(house));
        let editor = if aside { Editor::beside(&ctx, start) } else { Editor::without_window(start) }.ok()?;
        let mut kitchen = Self { ctx, editor, handle: Pos2::ZERO, frames: 0 };
        kitchen.ctx.enable_accesskit();
        for _ in 0..8 {
            kitchen.frame(Vec::new());
            std::thread::sleep(PAUSE);
        }
        kitchen.handle = kitchen.find_handle()?;
        kitchen.ctx.disable_accesskit();
        kitchen.frame(vec![Event::PointerMoved(kitchen.handle)]);
        let press = Event::PointerButton {
            pos: kitchen.handle,
            button: PointerButton::Primary,
            pressed: true,
            modifiers: Default::default(),
        };
        kitchen.frame(vec![press]);
        Some(kitchen)
    }

    /// The middle of the first handle, as assistive technology sees it.
    fn find_handle(&mut self) -> Option<Pos2> {
        let output = self.ctx.run_ui(input(Vec::new()), |ui| self.editor.ui(ui));
        let nodes = output.platform_output.accesskit_update?.nodes;
        let handle = nodes.iter().find(|(_, n)| n.label().is_some_and(|l| l.starts_with("Handle of")))?;
        let place = handle.1.bounds()?;
        Some(pos2((place.x0 + place.x1) as f32 / 2.0, (place.y0 + place.y1) as f32 / 2.0))
    }

    /// One frame, as triangles for the graphics card; how many corners of the house are new.
    fn frame(&mut self, events: Vec<Event>) -> usize {
        let output = self.ctx.run_ui(input(events), |ui| self.editor.ui(ui));
        black_box(self.ctx.tessellate(output.shapes, output.pixels_per_point));
        self.editor.prepare_picture()
    }

    /// A frame in which the handle moves so far that the length changes.
    fn drag(&mut self) -> usize {
        self.frames += 1;
        let by = 6.0 + 6.0 * (self.frames % 4) as f32;
        self.frame(vec![Event::PointerMoved(self.handle + vec2(by, by))])
    }
}

fn empty_frame(ctx: &Context) -> usize {
    let output = ctx.run_ui(input(Vec::new()), |ui| {
        let _ = ui.button("A button");
    });
    ctx.tessellate(output.shapes, output.pixels_per_point).len()
}

/// Median and 95th percentile of the processor's time for those of many runs that count.
fn spread(pause: Duration, mut run: impl FnMut() -> usize) -> (Duration, Duration) {
    let timed = |_| {
        std::thread::sleep(pause);
        let begun = ThreadTime::now();
        let counts = black_box(run()) > 0;
        counts.then(|| begun.elapsed())
    };
    let mut times: Vec<Duration> = (0..FRAMES).filter_map(timed).collect();
    assert!(times.len() > FRAMES / 2, "only {} frames brought a new house", times.len());
    times.sort();
    (times[times.len() / 2], times[times.len() * 95 / 100])
}

fn kitchen(aside: bool) -> Kitchen {
    let mut kitchen = largest().and_then(|house| Kitchen::new(house, aside)).expect("a demo house with a handle");
    let before = kitchen.editor.house().cloned();
    kitchen.drag();
    assert!(kitchen.editor.house() != before.as_ref(), "the drag changes the house");
    kitchen
}

fn frames(c: &mut Criterion) {
    let empty = Context::default();
    let (mut window, mut alone) = (kitchen(true), kitchen(false));
    let (base, _) = spread(Duration::ZERO, || empty_frame(&empty));
    eprintln!("{} pieces; an empty frame takes {base:?}", alone.editor.pieces_shown());
    let tell = |what: &str, (middle, high): (Duration, Duration)| {
        let ratio = high.as_secs_f64() / base.as_secs_f64();
        eprintln!("{what}: median {middle:?}, 95th percentile {high:?}, {ratio:.0} empty frames");
    };
    tell("as in the window", spread(PAUSE, || window.drag()));
    tell("solved on the same thread", spread(Duration::ZERO, || alone.drag()));
    let mut group = c.benchmark_group("frame");
    group.bench_function("baseline: a frame with one button", |b| b.iter(|| empty_frame(&empty)));
    group.bench_function("a handle is dragged, solved on the same thread", |b| b.iter(|| alone.drag()));
    group.finish();
}

criterion_group!(benches, frames);
criterion_main!(benches);
