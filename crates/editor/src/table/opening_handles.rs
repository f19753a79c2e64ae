//! Width and height of the opening that is selected, to be dragged.

use super::Desk;
use super::handle::{Handle, pull};
use super::paper::Paper;
use egui::Ui;
use gable_measure::Length;
use gable_plane::{P2, V2};
use gable_shell::{House, Opening, Placing};
use gable_words::tr;

/// Handles at the first copy, whose box on the table is given. `place` is that of the opening in the house.
pub(super) fn sizes(
    ui: &mut Ui,
    paper: &Paper,
    desk: &mut Desk<'_, '_>,
    (index, k): (usize, usize),
    (low, high): (P2, P2),
) {
    let Some(opening) = desk.house.parts.get(index).and_then(|p| p.openings.get(k)) else { return };
    if opening.shape.is_whole_face() {
        return;
    }
    let [widths, heights] = sizes_of_others(desk.house, (index, k));
    let width = Handle { marks: &widths, ..width_handle(opening, low, high) };
    let mut change = |desk: &mut Desk<'_, '_>, handle: &Handle<'_>, key: &str, set: fn(&mut Opening, Length)| {
        let Some(pulled) = pull(ui, paper, desk.house.unit, handle) else { return };
        let opening = &mut desk.house.parts[index].openings[k];
        set(opening, pulled.value.max(Length::mm_of(2.0)));
        opening.settle();
        desk.form.touch(&format!("parts[{index}].openings[{k}].{key}"), handle.undo);
        desk.gesture.0 = pulled.gesture;
    };
    let tall = opening.shape.height_of(opening.width).is_none();
    let height = Handle {
        key: tr!("opening height"),
        name: tr!("Handle of the opening, height"),
        at: P2::new((low.x + high.x) / 2.0, high.y),
        grows: V2::y(),
        rate: 1.0,
        value: opening.height,
        undo: tr!("change of height"),
        marks: &heights,
    };
    change(desk, &width, "width", |o, value| o.width = value);
    if tall {
        change(desk, &height, "height", |o, value| o.height = value);
    }
}

/// At the side that moves when the width changes.
fn width_handle<'a>(opening: &Opening, low: P2, high: P2) -> Handle<'a> {
    let y = (low.y + high.y) / 2.0;
    let (x, way, rate) = match opening.placing {
        Placing::FromRight { .. } => (low.x, -1.0, 1.0),
        Placing::FromLeft { .. } => (high.x, 1.0, 1.0),
        Placing::Centred { .. } => (high.x, 1.0, 2.0),
    };
    Handle {
        key: tr!("opening width"),
        name: tr!("Handle of the opening, width"),
        at: P2::new(x, y),
        grows: V2::new(way, 0.0),
        rate,
        value: opening.width,
        undo: tr!("change of width"),
        marks: &[],
    }
}

/// Widths and heights of the other openings of the house, and what to say of each.
fn sizes_of_others(house: &House, (index, k): (usize, usize)) -> [Vec<(Length, String)>; 2] {
    let all = house
        .parts
        .iter()
        .enumerate()
        .flat_map(|(p, part)| part.openings.iter().enumerate().map(move |(o, opening)| ((p, o), part, opening)));
    let others: Vec<_> = all.filter(|(at, _, o)| *at != (index, k) && !o.shape.is_whole_face()).collect();
    let named = || others.iter().map(|(_, part, o)| (o, format!("{}: {}", part.name, o.name)));
    [
        named().map(|(o, name)| (o.width, tr!("as wide as {name}"))).collect(),
        named().map(|(o, name)| (o.height, tr!("as high as {name}"))).collect(),
    ]
}
