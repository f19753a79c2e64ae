use super::handle::{Handle, Pulled, pull, rounded, shift};
use super::paper::Paper;
use super::snap::{self, Axis, Held, Lines};
use super::{Desk, guides};
use egui::Ui;
use gable_measure::Length;
use gable_plane::{P2, V2};
use gable_shell::{Outline, SideId};
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

/// What a side holds on to when it is dragged. On the board a part grows about its middle; by another one it may not.
fn marks(desk: &Desk<'_, '_>, index: usize, plan: &[P2], grows: V2) -> Vec<(Length, String)> {
    let part = &desk.house.parts[index];
    let sum = plan.iter().fold(V2::zeros(), |sum, p| sum + p.coords);
    let middle = part.place.host().is_none().then(|| P2::from(sum / plan.len().max(1) as f64));
    guides::sizes_in_plan(desk, &part.id, middle, grows)
}

fn rectangle(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, index: usize, plan: &[P2]) {
    for (k, name) in ["front", "right", "back", "left"].into_iter().enumerate() {
        let Outline::Rectangle { width, depth } = desk.house.parts[index].outline else { return };
        let (at, grows) = side(plan, k);
        let is_depth = k % 2 == 0;
        let (value, undo) = if is_depth { (depth, tr!("change of depth")) } else { (width, tr!("change of width")) };
        let wall = SideId(name.to_owned());
        let label = if is_depth {
            tr!("Handle of the {} wall, depth", wall.words())
        } else {
            tr!("Handle of the {} wall, width", wall.words())
        };
        let marks = marks(desk, index, plan, grows);
        let handle = Handle { key: name, name: &label, at, grows, rate: 2.0, value, undo, marks: &marks };
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
    let marks = guides::sizes_in_plan(desk, &desk.house.parts[index].id, None, grows);
    let name = tr!("Handle of the back, width");
    let handle = Handle { key: "back", name, at: from, grows, rate: 2.0, value, undo, marks: &marks };
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
        let Outline::Free { corners } = &desk.house.parts[index].outline else { return };
        let there: Vec<V2> = corners.iter().map(|c| turned(V2::new(c.0.mm(), c.1.mm()), turn)).collect();
        let Some(now) = there.get(k).copied() else { return };
        let Some(pulled) = shift(ui, paper, unit, (&name, &name), *at, now) else { continue };
        // Another corner tells where the part is; the one in hand may be ahead of the plan.
        let other = (k + 1) % plan.len();
        let base = plan[other].coords - there.get(other).copied().unwrap_or_default();
        let is_free = pulled.gesture.is_none() || ui.input(|i| i.modifiers.alt);
        let goal = P2::from(base + pulled.value);
        let held = if is_free { Vec::new() } else { corner_holds(paper, desk, index, plan, (k, goal)) };
        let way: V2 = held.iter().map(|(axis, held)| axis.way() * held.by).sum();
        for (_, held) in &held {
            snap::paint(ui.painter(), paper, (goal + way, goal + way), held, &desk.palette);
        }
        // What is held on to counts as it is; all else goes in whole steps.
        let round = |mm: f64, axis: Axis| match held.iter().any(|(own, _)| *own == axis) {
            true => (mm * 1e6).round() / 1e6,
            false => rounded(Length::mm_of(mm), unit).mm(),
        };
        let to = pulled.value + way;
        let to = turned(V2::new(round(to.x, Axis::Across), round(to.y, Axis::Up)), -turn);
        if let Outline::Free { corners } = &mut desk.house.parts[index].outline {
            corners[k] = (Length::mm_of(tidy(to.x)), Length::mm_of(tidy(to.y)));
        }
        desk.form.touch(&format!("parts[{index}].outline"), tr!("move of a corner"));
        desk.gesture.0 = pulled.gesture;
    }
}

/// Without what sums of binary fractions leave.
fn tidy(mm: f64) -> f64 {
    (mm * 1e6).round() / 1e6
}

/// What a corner that is dragged holds on to: lines of the other corners and of other parts.
fn corner_holds(
    paper: &Paper,
    desk: &Desk<'_, '_>,
    index: usize,
    plan: &[P2],
    (k, goal): (usize, P2),
) -> Vec<(Axis, Held)> {
    let others = guides::beside(desk, &desk.house.parts[index].id);
    let corners = plan.iter().enumerate().filter(|(n, _)| *n != k);
    let lines = |(n, at): (usize, &P2)| {
        let words = tr!("in line with corner {}", n + 1);
        [(Axis::Across, at.x, words.clone()), (Axis::Up, at.y, words)]
    };
    let lines = Lines { edges: corners.flat_map(lines).collect(), ..Lines::default() };
    let reach = f64::from(snap::REACH / paper.scale);
    let hold = |axis| Some((axis, snap::hold((goal, goal), axis, &others, &lines, reach)?));
    [Axis::Across, Axis::Up].into_iter().filter_map(hold).collect()
}

fn turned(v: V2, angle: f64) -> V2 {
    let (sin, cos) = angle.sin_cos();
    V2::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}
