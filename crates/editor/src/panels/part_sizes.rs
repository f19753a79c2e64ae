use super::sizes::heading;
use super::{follow, place_sizes, posts, roof_sizes};
use crate::adapters;
use crate::fields::Form;
use crate::hosts;
use crate::reshape;
use crate::selection::Selection;
use egui::Ui;
use gable_measure::Length;
use gable_shell::{Corners, DoughId, FloorKind, House, Outline, Part, Ridges};
use gable_words::tr;

/// Sizes of a part: plan, walls, roof, floor, doughs.
pub(super) fn part(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) {
    let doughs: Vec<(DoughId, String)> = house.doughs.iter().map(|d| (d.id.clone(), d.id.words().to_owned())).collect();
    let Some(part) = house.parts.get_mut(k) else { return };
    let at = |what: &str| format!("parts[{k}].{what}");
    form.words(ui, (&at("name"), tr!("Name"), tr!("change of the name")), &mut part.name);
    heading(ui, tr!("Plan"));
    let mut outline = part.outline.clone();
    plan_kind(ui, form, &mut outline, &at("outline"));
    plan(ui, form, &mut outline, &at("outline"));
    if outline != part.outline {
        let id = part.id.clone();
        house.set_outline(&id, outline);
    }
    place_sizes::place(ui, form, house, k);
    let Some(part) = house.parts.get_mut(k) else { return };
    roof_sizes::roof(ui, form, part, k);
    follow::ridge(ui, form, house, k);
    follow::part(ui, form, house, k);
    let Some(part) = house.parts.get_mut(k) else { return };
    heading(ui, tr!("Corners and floor"));
    let corners = words(&[
        (Corners::Lap, tr!("Lapped, front and back whole")),
        (Corners::LapAround, tr!("Lapped, all walls alike")),
        (Corners::Mitre, tr!("Bevelled mitre")),
        (Corners::SquareMitre, tr!("Straight-cut mitre")),
    ]);
    form.choice(ui, (&at("corners"), tr!("Corners"), tr!("change of the corners")), &mut part.corners, &corners);
    posts::floor(ui, form, house, k);
    let Some(part) = house.parts.get_mut(k) else { return };
    heading(ui, tr!("Doughs"));
    form.choice(ui, (&at("wall_dough"), tr!("Walls"), tr!("change of the wall dough")), &mut part.wall_dough, &doughs);
    form.choice(ui, (&at("roof_dough"), tr!("Roof"), tr!("change of the roof dough")), &mut part.roof_dough, &doughs);
    if part.floor.kind != FloorKind::None {
        form.choice(
            ui,
            (&at("floor.dough"), tr!("Floor"), tr!("change of the floor dough")),
            &mut part.floor.dough,
            &doughs,
        );
    }
}

/// The button that takes a part away, with all that stand by it.
pub(super) fn remove(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize, next: &mut Selection) {
    let Some(id) = house.parts.get(k).map(|p| p.id.clone()) else { return };
    if !hosts::can_go(house, &id) {
        return;
    }
    ui.add_space(10.0);
    if ui.button(tr!("Remove this part")).on_hover_text(tr!("And whatever stands by it")).clicked() {
        hosts::remove(house, &id);
        *next = Selection::House;
        form.touch(&format!("parts[{k}]"), tr!("removed part"));
    }
}

/// Choices with their words.
pub(super) fn words<T: Copy>(choices: &[(T, &str)]) -> Vec<(T, String)> {
    choices.iter().map(|&(value, words)| (value, words.to_owned())).collect()
}

/// How roof pieces may meet.
pub(super) fn ridge_choices() -> Vec<(Ridges, String)> {
    words(&[
        (Ridges::Open, tr!("Cut straight, filled with icing")),
        (Ridges::Bevelled, tr!("Bevelled")),
        (Ridges::Lapped, tr!("Lapped where they are level")),
    ])
}

fn plan_kind(ui: &mut Ui, form: &mut Form<'_>, outline: &mut Outline, place: &str) {
    let kinds = words(&[
        (0, tr!("Rectangle")),
        (1, tr!("Regular polygon")),
        (2, tr!("Half polygon")),
        (3, tr!("Free corners")),
    ]);
    let old = match outline {
        Outline::Rectangle { .. } => 0,
        Outline::Polygon { .. } => 1,
        Outline::HalfPolygon { .. } => 2,
        Outline::Free { .. } => 3,
    };
    let mut kind = old;
    form.choice(ui, (place, tr!("Shape"), tr!("change of the plan")), &mut kind, &kinds);
    if kind != old {
        *outline = reshape::converted(outline, kind);
    }
}

fn plan(ui: &mut Ui, form: &mut Form<'_>, outline: &mut Outline, place: &str) {
    let at = |what: &str| format!("{place}.{what}");
    match outline {
        Outline::Rectangle { width, depth } => {
            form.length(ui, (&at("width"), tr!("Width"), tr!("change of width")), width);
            form.length(ui, (&at("depth"), tr!("Depth"), tr!("change of depth")), depth);
        }
        Outline::Polygon { sides, side } => {
            if let Some(new) = form.count(ui, (&at("sides"), tr!("Sides"), tr!("change of sides")), 3..=24, *sides) {
                *sides = new;
            }
            form.length(ui, (&at("side"), tr!("Length of a side"), tr!("change of side length")), side);
        }
        Outline::HalfPolygon { sides, width } => {
            if let Some(new) =
                form.count(ui, (&at("sides"), tr!("Sides of the bulge"), tr!("change of sides")), 2..=12, *sides)
            {
                *sides = new;
            }
            form.length(ui, (&at("width"), tr!("Width of the back"), tr!("change of width")), width);
        }
        Outline::Free { corners } => free(ui, form, place, corners),
    }
}

fn free(ui: &mut Ui, form: &mut Form<'_>, place: &str, corners: &mut Vec<(Length, Length)>) {
    for (k, corner) in corners.iter_mut().enumerate() {
        let at = |axis: usize| format!("{place}.corners[{k}][{axis}]");
        let name = k + 1;
        form.length(ui, (&at(0), &tr!("Corner {name}: x"), tr!("move of a corner")), &mut corner.0);
        form.length(ui, (&at(1), &tr!("Corner {name}: y"), tr!("move of a corner")), &mut corner.1);
    }
    ui.horizontal(|ui| {
        let add = ui.button(tr!("Add a corner")).on_hover_text(tr!("Half-way along the last side, a little outside"));
        if add.clicked() {
            reshape::add_corner(corners);
            form.touch(place, tr!("added corner"));
        }
        let enough = corners.len() > 3;
        if ui.add_enabled(enough, egui::Button::new(tr!("Remove the last corner"))).clicked() {
            corners.pop();
            form.touch(place, tr!("removed corner"));
        }
    });
}

/// Height of the lid and of the parapet on it.
pub(super) fn lid(ui: &mut Ui, form: &mut Form<'_>, part: &mut Part, k: usize) {
    let at = |what: &str| format!("parts[{k}].lid.{what}");
    let mut has = part.lid.is_some();
    form.tick(ui, (&format!("parts[{k}].lid"), tr!("A flat plate on top"), tr!("change of the lid")), &mut has);
    if has != part.lid.is_some() {
        part.lid = has.then(|| adapters::lid_for(part));
    }
    let Some(lid) = &mut part.lid else { return };
    form.length(ui, (&at("height"), tr!("Plate at height"), tr!("change of the lid's height")), &mut lid.height);
    form.length(ui, (&at("overhang"), tr!("Plate overhang"), tr!("change of the lid's overhang")), &mut lid.overhang);
    let mut rim = lid.parapet.is_some();
    form.tick(ui, (&at("parapet"), tr!("A parapet round it"), tr!("change of the parapet")), &mut rim);
    if rim != lid.parapet.is_some() {
        lid.parapet = rim.then(|| gable_shell::Parapet { height: Length::mm_of(15.0) });
    }
    if let Some(parapet) = &mut lid.parapet {
        form.length(
            ui,
            (&at("parapet.height"), tr!("Parapet height"), tr!("change of the parapet")),
            &mut parapet.height,
        );
    }
}
