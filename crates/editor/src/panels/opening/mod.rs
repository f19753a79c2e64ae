//! Sizes of a door or window.

mod arrange;
mod closing;
mod row;
mod shape;

use super::part_sizes::words;
use super::parts::side_name;
use super::sizes::heading;
use crate::fields::Form;
use crate::selection::Selection;
use egui::Ui;
use gable_measure::Length;
use gable_shell::{House, Opening, OpeningId, Part, Placing, SideId, Surface, Tier, Top};
use gable_words::tr;

/// Everything about a door or window.
pub(super) fn opening(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    k: usize,
    id: &OpeningId,
    selection: &mut Selection,
) {
    let Some(part) = house.parts.get_mut(k) else { return };
    let faces = faces(part);
    let Some(index) = part.openings.iter().position(|o| &o.id == id) else { return };
    let place = format!("parts[{k}].openings[{index}]");
    let at = |what: &str| format!("{place}.{what}");
    let opening = &mut part.openings[index];
    form.words(ui, (&at("name"), tr!("Name"), tr!("change of the name")), &mut opening.name);
    let mut face = (opening.side.clone(), opening.face);
    form.choice(ui, (&at("side"), tr!("In"), tr!("move to another wall or slope")), &mut face, &faces);
    (opening.side, opening.face) = face;
    shape::shape(ui, form, opening, &place);
    if !opening.shape.is_whole_face() {
        heading(ui, tr!("Size and place"));
        sizes(ui, form, opening, &place);
        row::row(ui, form, opening, &place);
    }
    closing::closing(ui, form, opening, &place);
    opening.settle();
    form.remarks(ui, &place);
    arrange::arrange(ui, form, house, (k, index), selection);
}

/// The walls and slopes of a part.
fn faces(part: &Part) -> Vec<((SideId, Surface), String)> {
    let mut found = Vec::new();
    for side in &part.sides {
        let mut add = |face: Surface, words: String| found.push(((side.id.clone(), face), words));
        let name = side_name(&side.id.0);
        if side.wall {
            add(Surface::Wall, tr!("{name} wall"));
        }
        match side.top {
            Top::Eave { .. } | Top::HalfHip { .. } => add(Surface::Slope(Tier::Single), tr!("{name} slope")),
            Top::Knee { .. } => {
                add(Surface::Slope(Tier::Lower), tr!("{name} lower slope"));
                add(Surface::Slope(Tier::Upper), tr!("{name} upper slope"));
            }
            Top::Gable { .. } => {}
        }
    }
    found
}

fn sizes(ui: &mut Ui, form: &mut Form<'_>, opening: &mut Opening, place: &str) {
    let at = |what: &str| format!("{place}.{what}");
    form.length(ui, (&at("width"), tr!("Width"), tr!("change of width")), &mut opening.width);
    if opening.shape.height_of(opening.width).is_none() {
        form.length(ui, (&at("height"), tr!("Height"), tr!("change of height")), &mut opening.height);
    }
    let sill = if opening.face == Surface::Wall { tr!("Above the ground") } else { tr!("Up the slope") };
    form.length(ui, (&at("sill"), sill, tr!("change of the sill")), &mut opening.sill);
    if opening.repeat.is_none_or(|r| r.gap.is_some()) {
        placing(ui, form, &mut opening.placing, &at("placing"));
    }
}

/// Where something is along a wall.
pub(super) fn placing(ui: &mut Ui, form: &mut Form<'_>, placing: &mut Placing, place: &str) {
    let kinds =
        words(&[(0, tr!("From the middle")), (1, tr!("From the left corner")), (2, tr!("From the right corner"))]);
    let old = match placing {
        Placing::Centred { .. } => 0,
        Placing::FromLeft { .. } => 1,
        Placing::FromRight { .. } => 2,
    };
    let mut kind = old;
    form.choice(ui, (&format!("{place}.kind"), tr!("Measured"), tr!("change of placing")), &mut kind, &kinds);
    if kind != old {
        let distance = crate::table::rounded(Length::mm_of(15.0), form.unit);
        *placing = match kind {
            0 => Placing::Centred { offset: Length::ZERO },
            1 => Placing::FromLeft { distance },
            _ => Placing::FromRight { distance },
        };
    }
    match placing {
        Placing::Centred { offset } => {
            form.length(ui, (place, tr!("Right of the middle"), tr!("move of an opening")), offset)
        }
        Placing::FromLeft { distance } | Placing::FromRight { distance } => {
            form.length(ui, (place, tr!("Distance"), tr!("move of an opening")), distance);
        }
    }
}
