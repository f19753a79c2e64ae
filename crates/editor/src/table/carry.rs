//! What is picked up goes where the pointer or an arrow key takes it, and all that is selected with it.

use super::handle::{keys, rounded, step, whole_drag};
use super::members::{Member, SAME, movers};
use super::paper::Paper;
use super::snap::{self, Axis, Held};
use super::{Desk, guides};
use crate::selection::Selection;
use crate::several::count_words;
use egui::{Response, Ui};
use gable_measure::Length;
use gable_plane::{P2, V2};
use gable_words::tr;

/// Lower than this above the ground is meant to be on it, mm.
const ON_THE_GROUND: f64 = 3.0;

/// A drag of less than this along an axis is not meant, in points.
const MEANT: f32 = 3.0;

/// Makes something the one whose sizes are shown. A click with Ctrl or Shift takes it to what is selected or out of it, a
/// plain one selects it alone; a drag or the keyboard leaves the rest selected.
pub(super) fn choose(ui: &Ui, desk: &mut Desk<'_, '_>, response: &Response, what: &Selection) {
    if response.clicked() || response.drag_started() {
        response.request_focus();
    }
    let adds = ui.input(|i| i.modifiers.command || i.modifiers.shift);
    if response.clicked() && adds {
        desk.company.toggle(desk.selection, what.clone(), desk.house);
    } else if response.clicked() {
        desk.company.dismiss();
        *desk.selection = what.clone();
    } else if response.drag_started() || response.gained_focus() {
        desk.company.follow(desk.selection, what);
        *desk.selection = what.clone();
    }
}

/// What was picked up: each thing with its numbers, and where the one in hand was on the drawing.
#[derive(Clone)]
struct Start {
    numbers: Vec<(Selection, V2)>,
    bounds: (P2, P2),
}

impl Start {
    fn of(&self, what: &Selection) -> Option<V2> {
        self.numbers.iter().find(|(own, _)| own == what).map(|(_, numbers)| *numbers)
    }
}

/// Moves what is in hand, and whatever is selected with it, by a drag or by arrow keys. What is dragged holds on to lines of
/// other things and of its wall, unless Alt is held.
///
/// A drag counts from where all of it was when it was picked up, so that a picture that lags behind does no harm.
pub(super) fn carry(ui: &Ui, paper: &Paper, desk: &mut Desk<'_, '_>, response: &Response, lead: &Member) {
    let all = desk.company.with(desk.selection);
    let taken: Vec<Member> = if all.contains(&lead.what) {
        desk.members.iter().filter(|m| all.contains(&m.what)).cloned().collect()
    } else {
        vec![lead.clone()]
    };
    let movers = movers(&taken, desk.house);
    let start = start(ui, desk, response, lead, &movers);
    let (way, gesture) = match whole_drag(ui, response) {
        Some(drag) => (paper.span(drag), Some(response.id)),
        None => match keys(ui, response) {
            Some(steps) if steps != V2::zeros() => (steps * step(desk.house.unit).mm(), None),
            _ => return,
        },
    };
    let free = gesture.is_none() || ui.input(|i| i.modifiers.alt);
    let held = if free { Vec::new() } else { holds(paper, desk, lead, &movers, (&start, way)) };
    let way = settled(desk, &movers, &start, lead, (way, &held, gesture.is_some()));
    for member in &movers {
        if let Some(from) = start.of(&member.what) {
            member.put(desk.house, tidy(from + member.growth(way)));
        }
    }
    let (low, high) = start.bounds;
    for (_, held) in &held {
        snap::paint(ui.painter(), paper, (low + way, high + way), held, &desk.palette);
    }
    let names: Vec<Selection> = movers.iter().map(|m| m.what.clone()).collect();
    let article = match (names.len(), names.first()) {
        (1, Some(Selection::Opening(..))) => "an ",
        (1, _) => "a ",
        _ => "",
    };
    desk.form.touch("", &tr!("move of {article}{}", count_words(&names)));
    desk.gesture.0 = gesture;
}

/// Where all of it was when it was picked up; for keys, where it is.
fn start(ui: &Ui, desk: &Desk<'_, '_>, response: &Response, lead: &Member, movers: &[&Member]) -> Start {
    let now = || {
        let numbers = movers.iter().filter_map(|m| Some((m.what.clone(), m.numbers(desk.house)?))).collect();
        Start { numbers, bounds: lead.bounds }
    };
    let id = response.id.with(tr!("picked up together"));
    if response.drag_started() {
        let start = now();
        ui.data_mut(|d| d.insert_temp(id, start));
    }
    let kept = response.dragged().then(|| ui.data(|d| d.get_temp::<Start>(id))).flatten();
    kept.unwrap_or_else(now)
}

/// What the one in hand holds on to, across and upwards, where it can go that way at all.
fn holds(
    paper: &Paper,
    desk: &Desk<'_, '_>,
    lead: &Member,
    movers: &[&Member],
    (start, way): (&Start, V2),
) -> Vec<(Axis, Held)> {
    let (others, lines) = guides::around(desk, lead, movers);
    let own = (start.bounds.0 + way, start.bounds.1 + way);
    let reach = f64::from(snap::REACH / paper.scale);
    // Whoever moves something along a line does not mean to move it off that line.
    let meant = |axis: &Axis| way.dot(&axis.way()).abs() * f64::from(paper.scale) > f64::from(MEANT);
    let axes = [Axis::Across, Axis::Up].into_iter().filter(|axis| meant(axis) && lead.can_go(axis.way()));
    axes.filter_map(|axis| Some((axis, snap::hold(own, axis, &others, &lines, reach)?))).collect()
}

/// How far all of it goes, so that what is in hand comes to where it holds on, else to a whole number of steps, and no
/// opening below the ground.
fn settled(
    desk: &Desk<'_, '_>,
    movers: &[&Member],
    start: &Start,
    lead: &Member,
    (way, held, dragged): (V2, &[(Axis, Held)], bool),
) -> V2 {
    let unit = desk.house.unit;
    let round = |mm: f64| rounded(Length::mm_of(mm), unit).mm();
    let way: V2 = way + held.iter().map(|(axis, held)| axis.way() * held.by).sum::<V2>();
    let Some(from) = start.of(&lead.what) else {
        // Its host is in the same hand: it only goes along.
        return V2::new(round(way.x), round(way.y));
    };
    let by = lead.growth(way);
    // Which of its numbers grow along what is held on to.
    let fixed = held.iter().map(|(axis, _)| lead.growth(axis.way())).fold(V2::zeros(), |sum, g| sum + g.abs());
    let whole = |from: f64, by: f64, fixed: f64| match by.abs() > SAME {
        true if fixed > SAME => tidy(V2::new(from + by, 0.0)).x,
        true => round(from + by),
        false => from,
    };
    let mut to = V2::new(whole(from.x, by.x, fixed.x), whole(from.y, by.y, fixed.y));
    if matches!(lead.what, Selection::Opening(..)) {
        if dragged && to.y < ON_THE_GROUND {
            to.y = 0.0;
        }
        let lowest = movers.iter().filter_map(|m| start.of(&m.what)).map(|at| at.y).fold(from.y, f64::min);
        to.y = to.y.max(from.y - lowest);
    }
    lead.way(to - from)
}

/// Without what sums of binary fractions leave.
fn tidy(numbers: V2) -> V2 {
    numbers.map(|mm| (mm * 1e6).round() / 1e6)
}
