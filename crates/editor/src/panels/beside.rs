//! What stands free beside the house.

use super::dressing::tints;
use super::sizes::heading;
use crate::fields::Form;
use crate::selection::Selection;
use crate::theme::bold;
use egui::Ui;
use gable_measure::{Angle, Length};
use gable_shell::{Extra, ExtraKind, House, Spot};
use gable_words::tr;

/// What people call something beside the house.
pub(crate) fn extra_name(house: &House, k: usize) -> String {
    let kind = house.dressing.extras.get(k).map_or("", |e| e.kind.words());
    format!("{} {}", crate::adapters::capital(kind), k + 1)
}

/// All of it, to be added to, changed and taken away.
pub(super) fn list(ui: &mut Ui, form: &mut Form<'_>, house: &mut House) {
    heading(ui, tr!("Beside the house"));
    ui.horizontal_wrapped(|ui| {
        for (_, kind) in ExtraKind::ALL {
            if ui
                .button(crate::adapters::capital(kind.words()))
                .on_hover_text(tr!("Put one on the base board"))
                .clicked()
            {
                let new = beside(house, Extra::usual(kind));
                house.dressing.extras.push(new);
                form.touch("dressing.extras", tr!("new thing beside the house"));
            }
        }
    });
    let mut gone = None;
    for k in 0..house.dressing.extras.len() {
        ui.add_space(6.0);
        ui.label(bold(extra_name(house, k)));
        if extra(ui, form, house, k) {
            gone = Some(k);
        }
    }
    if let Some(k) = gone {
        remove(form, house, k);
    }
}

/// The sizes of one thing; `next` is what is selected from then on.
pub(super) fn one(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize, next: &mut Selection) {
    if k >= house.dressing.extras.len() {
        return;
    }
    if extra(ui, form, house, k) {
        remove(form, house, k);
        *next = Selection::House;
        return;
    }
    if ui.button(tr!("Another like it")).on_hover_text(tr!("Put one more beside it")).clicked() {
        let own = &house.dressing.extras[k];
        let x = own.spot.x + own.width + GAP;
        let new = Extra { spot: Spot { x, ..own.spot }, ..own.clone() };
        *next = Selection::Extra(house.dressing.extras.len());
        house.dressing.extras.push(new);
        form.touch("dressing.extras", tr!("copy of a thing beside the house"));
    }
}

/// From a thing to its copy.
const GAP: Length = Length::mm_of(10.0);

fn remove(form: &mut Form<'_>, house: &mut House, k: usize) {
    house.dressing.extras.remove(k);
    form.touch("dressing.extras", tr!("removed thing beside the house"));
}

/// A new extra, a step further along the front than the last.
fn beside(house: &House, extra: Extra) -> Extra {
    let step = Length::mm_of(70.0);
    let x = house.dressing.extras.iter().map(|e| e.spot.x.mm()).fold(f64::NEG_INFINITY, f64::max);
    let x = if x.is_finite() { Length::mm_of(x) + step } else { -step * 2.0 };
    Extra { spot: Spot { x, y: Length::mm_of(-180.0), ..extra.spot }, ..extra }
}

/// Sizes of an extra; true when it is to go.
fn extra(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) -> bool {
    let at = |key: &str| format!("dressing.extras[{k}].{key}");
    let name = extra_name(house, k);
    let extra = &mut house.dressing.extras[k];
    let change = tr!("change beside the house");
    form.length(ui, (&at("x"), tr!("To the right"), change), &mut extra.spot.x);
    form.length(ui, (&at("y"), tr!("To the back"), change), &mut extra.spot.y);
    let mut turn = extra.spot.turn.deg();
    form.number(ui, (&at("turn"), tr!("Turned by"), change), &mut turn);
    extra.spot.turn = Angle::degrees(turn);
    form.length(ui, (&at("height"), tr!("Height"), change), &mut extra.height);
    if extra.kind == ExtraKind::Outline {
        form.story(ui, (&at("path"), tr!("Path data of SVG"), change), &mut extra.path);
    } else {
        form.length(ui, (&at("width"), tr!("Width"), change), &mut extra.width);
    }
    form.length(ui, (&at("thickness"), tr!("Thickness"), change), &mut extra.thickness);
    form.choice(ui, (&at("tint"), tr!("Colour"), change), &mut extra.tint, &tints());
    ui.button(tr!("Remove {name}")).clicked()
}
