use super::Desk;
use super::handle::{Handle, Pulled, pull, rounded, shift};
use super::paper::Paper;
use egui::Ui;
use gable_measure::Length;
use gable_plane::{P2, V2};
use gable_shell::Outline;
use gable_words::tr;

/// The handles of a part on the plan. A part grows about its middle, so that what stands round it keeps its place.
pub(super) fn show(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, k: usize) {
    let Some(part) = desk.solved.parts.get(k) else { return };
    let Some(index) = desk.house.parts.iter().position(|p| p.id == part.id) else { return };
    let plan = part.plan.clone();
    if desk.house.parts[index].locked || plan.len() != desk.house.parts[index].outline.count() {
        return;
    }
    match desk.house.parts[index].outline.clone() {
        Outline::Rectangle { .. } => rectangle(ui, paper, desk, index, &plan),
        Outline::Polygon { sides, side } => polygon(ui, paper, desk, index, &plan, (sides, side)),
        Outline::HalfPolygon { sides, width } => half(ui, paper, desk, index, &plan, (sides, width)),
        Outline::Free { .. } => free(ui, paper, desk, index, &plan),
    }
}

fn side(plan: &[P2], k: usize) -> (P2, V2) {
    let (a, b) = (plan[k], plan[(k + 1) % plan.len()]);
    let along = (b - a).normalize();
    (a + (b - a) / 2.0, V2::new(along.y, -along.x))
}

fn set(
    desk: &mut Desk<'_, '_>,
    index: usize,
    name: &str,
    pulled: Option<Pulled<Length>>,
    make: impl Fn(&mut Outline, Length),
) {
    let Some(pulled) = pulled else { return };
    make(&mut desk.house.parts[index].outline, pulled.value);
    desk.form.touch(&format!("parts[{index}].outline"), name);
    desk.gesture.0 = pulled.gesture;
}

fn rectangle(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, index: usize, plan: &[P2]) {
    for (k, name) in ["front", "right", "back", "left"].into_iter().enumerate() {
        let Outline::Rectangle { width, depth } = desk.house.parts[index].outline else { return };
        let (at, grows) = side(plan, k);
        let is_depth = k % 2 == 0;
        let (value, undo) = if is_depth { (depth, tr!("change of depth")) } else { (width, tr!("change of width")) };
        let label = tr!("Handle of the {name} wall, {}", if is_depth { "depth" } else { "width" });
        let handle = Handle { key: name, name: &label, at, grows, rate: 2.0, value, undo, marks: &[] };
        let pulled = pull(ui, paper, desk.house.unit, &handle);
        set(desk, index, undo, pulled, |outline, new| {
            if let Outline::Rectangle { width, depth } = outline {
                *(if is_depth { depth } else { width }) = new;
            }
        });
    }
}

fn polygon(
    ui: &mut Ui,
    paper: &Paper,
    desk: &mut Desk<'_, '_>,
    index: usize,
    plan: &[P2],
    (sides, value): (u8, Length),
) {
    let (at, grows) = side(plan, 0);
    // Side over the distance of its middle from the centre.
    let rate = 2.0 * (std::f64::consts::PI / f64::from(sides)).tan();
    let undo = tr!("change of side length");
    let handle =
        Handle { key: "side", name: tr!("Handle of the front, side length"), at, grows, rate, value, undo, marks: &[] };
    let pulled = pull(ui, paper, desk.house.unit, &handle);
    set(desk, index, undo, pulled, |outline, new| {
        if let Outline::Polygon { side, .. } = outline {
            *side = new;
        }
    });
}

fn half(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, index: usize, plan: &[P2], (sides, value): (u8, Length)) {
    let back = usize::from(sides);
    let (from, to) = (plan[back], plan[(back + 1) % plan.len()]);
    let grows = (from - to).normalize();
    let undo = tr!("change of width");
    let handle = Handle {
        key: "back",
        name: tr!("Handle of the back, width"),
        at: from,
        grows,
        rate: 2.0,
        value,
        undo,
        marks: &[],
    };
    let pulled = pull(ui, paper, desk.house.unit, &handle);
    set(desk, index, undo, pulled, |outline, new| {
        if let Outline::HalfPolygon { width, .. } = outline {
            *width = new;
        }
    });
}

fn free(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, index: usize, plan: &[P2]) {
    let unit = desk.house.unit;
    let turn = desk.house.parts[index].place.turn().rad();
    for (k, at) in plan.iter().enumerate() {
        let name = tr!("Corner {}", k + 1);
        let Outline::Free { corners } = &mut desk.house.parts[index].outline else { return };
        let Some(corner) = corners.get_mut(k) else { return };
        let now = turned(V2::new(corner.0.mm(), corner.1.mm()), turn);
        let Some(pulled) = shift(ui, paper, unit, (&name, &name), *at, now) else { continue };
        let local = turned(pulled.value, -turn);
        *corner = (rounded(Length::mm_of(local.x), unit), rounded(Length::mm_of(local.y), unit));
        desk.form.touch(&format!("parts[{index}].outline"), tr!("move of a corner"));
        desk.gesture.0 = pulled.gesture;
    }
}

fn turned(v: V2, angle: f64) -> V2 {
    let (sin, cos) = angle.sin_cos();
    V2::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}
