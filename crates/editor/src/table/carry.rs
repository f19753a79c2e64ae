//! What is picked up goes where the pointer or an arrow key takes it, and all that is selected with it.

use super::Desk;
use super::handle::{keys, rounded, step, whole_drag};
use super::members::{Member, movers};
use super::paper::Paper;
use crate::selection::Selection;
use crate::several::count_words;
use egui::{Response, Ui};
use gable_measure::Length;
use gable_plane::V2;

/// Lower than this above the ground is meant to be on it, mm.
const ON_THE_GROUND: f64 = 3.0;

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

/// Moves what is in hand, and whatever is selected with it, by a drag or by arrow keys.
///
/// A drag counts from where all of it was when it was picked up, so that a picture that lags behind does no harm.
pub(super) fn carry(ui: &Ui, paper: &Paper, desk: &mut Desk<'_, '_>, response: &Response, lead: &Member) {
    let all = desk.company.with(desk.selection);
    let taken: Vec<Member> = match all.contains(&lead.what) {
        true => desk.members.iter().filter(|m| all.contains(&m.what)).cloned().collect(),
        false => vec![lead.clone()],
    };
    let movers = movers(&taken, desk.house);
    let starts = starts(ui, desk, response, &movers);
    let (way, gesture) = match whole_drag(ui, response) {
        Some(drag) => (paper.span(drag), Some(response.id)),
        None => match keys(ui, response) {
            Some(steps) if steps != V2::zeros() => (steps * step(desk.house.unit).mm(), None),
            _ => return,
        },
    };
    let Some(way) = settled(desk, &movers, &starts, lead, way, gesture.is_some()) else { return };
    for member in &movers {
        let Some((_, start)) = starts.iter().find(|(what, _)| *what == member.what) else { continue };
        member.put(desk.house, tidy(start + member.growth(way)));
    }
    let names: Vec<Selection> = movers.iter().map(|m| m.what.clone()).collect();
    let article = match (names.len(), names.first()) {
        (1, Some(Selection::Opening(..))) => "an ",
        (1, _) => "a ",
        _ => "",
    };
    desk.form.touch("", &format!("move of {article}{}", count_words(&names)));
    desk.gesture.0 = gesture;
}

/// Where each of these was when it was picked up; for keys, where it is.
fn starts(ui: &Ui, desk: &Desk<'_, '_>, response: &Response, movers: &[&Member]) -> Vec<(Selection, V2)> {
    let now = || movers.iter().filter_map(|m| Some((m.what.clone(), m.numbers(desk.house)?))).collect();
    let id = response.id.with("picked up together");
    if response.drag_started() {
        let starts: Vec<(Selection, V2)> = now();
        ui.data_mut(|d| d.insert_temp(id, starts));
    }
    let kept = response.dragged().then(|| ui.data(|d| d.get_temp::<Vec<(Selection, V2)>>(id))).flatten();
    kept.unwrap_or_else(now)
}

/// How far all of it goes, so that what is in hand comes to a whole number of steps and no opening below the ground.
fn settled(
    desk: &Desk<'_, '_>,
    movers: &[&Member],
    starts: &[(Selection, V2)],
    lead: &Member,
    way: V2,
    dragged: bool,
) -> Option<V2> {
    let unit = desk.house.unit;
    let round = |mm: f64| rounded(Length::mm_of(mm), unit).mm();
    let Some((_, start)) = starts.iter().find(|(what, _)| *what == lead.what) else {
        // Its host is in the same hand: it only goes along.
        return Some(V2::new(round(way.x), round(way.y)));
    };
    let by = lead.growth(way);
    let whole = |start: f64, by: f64| if by.abs() > super::members::SAME { round(start + by) } else { start };
    let mut to = V2::new(whole(start.x, by.x), whole(start.y, by.y));
    if matches!(lead.what, Selection::Opening(..)) {
        if dragged && to.y < ON_THE_GROUND {
            to.y = 0.0;
        }
        let lowest = movers.iter().filter_map(|m| starts.iter().find(|(w, _)| *w == m.what));
        let lowest = lowest.map(|(_, at)| at.y).fold(start.y, f64::min);
        to.y = to.y.max(start.y - lowest);
    }
    Some(lead.way(to - start))
}

/// Without what sums of binary fractions leave.
fn tidy(numbers: V2) -> V2 {
    numbers.map(|mm| (mm * 1e6).round() / 1e6)
}
