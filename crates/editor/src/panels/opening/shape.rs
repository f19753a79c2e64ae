use super::words;
use crate::fields::Form;
use crate::table::rounded;
use egui::Ui;
use gable_measure::Length;
use gable_shell::{Opening, Shape};
use gable_words::{mark, say, tr};

/// The shapes as they are offered, with the number of each.
const NAMES: [(u8, &str); 14] = [
    (0, mark!("Rectangle")),
    (1, mark!("Round-headed")),
    (2, mark!("Segmental head")),
    (3, mark!("Pointed: equilateral")),
    (4, mark!("Pointed: drop arch")),
    (5, mark!("Pointed: lancet")),
    (6, mark!("Circle")),
    (7, mark!("Ellipse")),
    (8, mark!("Fanlight: half circle")),
    (9, mark!("Regular polygon")),
    (10, mark!("Free polygon")),
    (11, mark!("Whole face as a frame")),
    (12, mark!("Pointed: own radius")),
    (13, mark!("Drawn outline (SVG path)")),
];

fn number(shape: &Shape) -> u8 {
    match shape {
        Shape::Rectangle => 0,
        Shape::RoundHeaded => 1,
        Shape::Segmental { .. } => 2,
        Shape::Pointed { radius } => {
            [(1.0, 3), (DROP, 4), (LANCET, 5)].iter().find(|r| r.0 == *radius).map_or(12, |r| r.1)
        }
        Shape::Circle => 6,
        Shape::Ellipse => 7,
        Shape::Fanlight => 8,
        Shape::Regular { .. } => 9,
        Shape::Free { .. } => 10,
        Shape::WholeFace { .. } => 11,
        Shape::Path { .. } => 13,
    }
}

/// Radius of a drop arch and of a lancet over the width, as they are offered.
const DROP: f64 = 0.75;
const LANCET: f64 = 1.5;

/// Shape and the sizes of its own.
pub(super) fn shape(ui: &mut Ui, form: &mut Form<'_>, opening: &mut Opening, place: &str) {
    let at = |what: &str| format!("{place}.{what}");
    let old = number(&opening.shape);
    let mut new = old;
    form.choice(
        ui,
        (&at("shape"), tr!("Shape"), tr!("change of shape")),
        &mut new,
        &words(&NAMES.map(|(number, name)| (number, say(name)))),
    );
    if new != old {
        change(opening, new, form.unit);
    }
    match &mut opening.shape {
        Shape::Segmental { rise } => form.length(ui, (&at("rise"), tr!("Arc rises"), tr!("change of the arc")), rise),
        Shape::Pointed { radius } => {
            form.number(ui, (&at("radius"), tr!("Radius over width"), tr!("change of the pointed arch")), radius);
        }
        Shape::Regular { corners } => {
            if let Some(n) =
                form.count(ui, (&at("sides"), tr!("Sides"), tr!("change of the polygon")), 3..=24, *corners)
            {
                *corners = n;
            }
        }
        Shape::Free { corners } => free(ui, form, corners, (opening.width, opening.height), place),
        Shape::Path { data, mirrored } => {
            drawn(ui, form, (data, mirrored), (opening.width, &mut opening.height), place)
        }
        Shape::WholeFace { across, up, bar } => {
            for (value, key, label) in [(across, "across", tr!("Fields across")), (up, "up", tr!("Fields up"))] {
                if let Some(n) = form.count(ui, (&at(key), label, tr!("change of the fields")), 1..=40, *value) {
                    *value = n;
                }
            }
            form.length(ui, (&at("bar"), tr!("Posts and rails"), tr!("change of the bars")), bar);
        }
        _ => {}
    }
}

/// Gives an opening another shape, with sizes that it can have.
fn change(opening: &mut Opening, kind: u8, unit: gable_measure::Unit) {
    let size = |mm: f64| rounded(Length::mm_of(mm), unit);
    if opening.shape.is_whole_face() {
        (opening.width, opening.height, opening.sill) = (size(24.0), size(36.0), size(25.0));
    }
    let width = opening.width;
    opening.shape = match kind {
        0 => Shape::Rectangle,
        1 => Shape::RoundHeaded,
        2 => Shape::Segmental { rise: size(width.mm() / 6.0).max(Length::mm_of(1.0)) },
        3 | 12 => Shape::Pointed { radius: if kind == 3 { 1.0 } else { 1.25 } },
        4 => Shape::Pointed { radius: DROP },
        5 => Shape::Pointed { radius: LANCET },
        6 => Shape::Circle,
        7 => Shape::Ellipse,
        8 => Shape::Fanlight,
        9 => Shape::Regular { corners: 6 },
        13 => Shape::Path { data: HEART.to_owned(), mirrored: false },
        10 => Shape::Free { corners: vec![[0.0, 0.0], [1.0, 0.0], [1.0, 0.6], [0.5, 1.0], [0.0, 0.6]] },
        _ => Shape::WholeFace { across: 3, up: 3, bar: size(7.0) },
    };
    if let Some(head) = opening.shape.head(width).filter(|head| *head > opening.height) {
        opening.height = crate::table::rounded(head + Length::mm_of(0.5), unit).max(head);
    }
    opening.settle();
}

/// A heart, before another outline is pasted in: half circles on two sides of a square.
const HEART: &str = "M10 20 L0 10 A7.0711 7.0711 0 0 1 10 0 A7.0711 7.0711 0 0 1 20 10 Z";

/// Path data to paste, a file to take it from, and the proportions that it was drawn in.
fn drawn(
    ui: &mut Ui,
    form: &mut Form<'_>,
    (data, mirrored): (&mut String, &mut bool),
    (width, height): (Length, &mut Length),
    place: &str,
) {
    let at = format!("{place}.path");
    let before = data.clone();
    form.story(ui, (&at, tr!("Path data, or a whole SVG, to paste"), tr!("change of the outline")), data);
    if *data != before && data.trim_start().starts_with('<') {
        match crate::adapters::outline_of(data) {
            Ok(found) => *data = found,
            Err(error) => {
                form.fields.refuse(&at, data.clone(), error);
                (*data, form.touched) = (before, None);
            }
        }
    }
    form.remarks(ui, &at);
    ui.horizontal_wrapped(|ui| {
        if ui.button(tr!("From an SVG file…")).on_hover_text(tr!("Takes the outline of the only shape in it")).clicked()
        {
            form.wants_outline = true;
        }
        let proportion = gable_plane::SvgPath::read(data).map_or(1.0, |path| path.proportion());
        let as_drawn = rounded(width / proportion, form.unit);
        let differs = (as_drawn - *height).abs() > Length::mm_of(0.001);
        if ui.add_enabled(differs, egui::Button::new(tr!("As high as drawn"))).clicked() {
            *height = as_drawn;
            form.touch(&format!("{place}.height"), tr!("change of height"));
        }
    });
    let sides = words(&[(false, tr!("As drawn")), (true, tr!("In a mirror"))]);
    form.choice(ui, (&format!("{place}.mirrored"), tr!("Seen"), tr!("mirrored outline")), mirrored, &sides);
}

/// Corners of a free polygon in the house's unit, from the lower left of the box round it.
fn free(ui: &mut Ui, form: &mut Form<'_>, corners: &mut Vec<[f64; 2]>, (width, height): (Length, Length), place: &str) {
    let mut changed = false;
    for (k, corner) in corners.iter_mut().enumerate() {
        for (axis, (size, word)) in [(width, tr!("right")), (height, tr!("up"))].into_iter().enumerate() {
            let key = format!("{place}.corners[{k}][{axis}]");
            let label = tr!("Corner {}, {word}", k + 1);
            let mut value = size * corner[axis];
            let before = value;
            form.length(ui, (&key, &label, tr!("move of a corner")), &mut value);
            if value != before && size > Length::ZERO {
                corner[axis] = (value / size).clamp(0.0, 1.0);
                changed = true;
            }
        }
    }
    ui.horizontal(|ui| {
        if ui.button(tr!("Add a corner")).clicked() && corners.len() < 60 {
            let (last, first) = (corners[corners.len() - 1], corners[0]);
            corners.push([f64::midpoint(last[0], first[0]), f64::midpoint(last[1], first[1])]);
            form.touch(&format!("{place}.corners"), tr!("added corner"));
        }
        if ui.button(tr!("Remove the last")).clicked() && corners.len() > 3 {
            corners.pop();
            changed = true;
            form.touch(&format!("{place}.corners"), tr!("removed corner"));
        }
    });
    if changed {
        fill(corners);
    }
}

/// Stretches the corners so that they fill the box again.
fn fill(corners: &mut [[f64; 2]]) {
    for axis in 0..2 {
        let (low, high) = corners.iter().fold((1.0f64, 0.0f64), |(l, h), c| (l.min(c[axis]), h.max(c[axis])));
        if high - low > 1e-3 {
            corners.iter_mut().for_each(|c| c[axis] = gable_measure::tidy((c[axis] - low) / (high - low)));
        }
    }
}
