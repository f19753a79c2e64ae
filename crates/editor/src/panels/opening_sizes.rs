use super::part_sizes::words;
use super::parts::side_name;
use super::sizes::heading;
use crate::fields::Form;
use crate::selection::Selection;
use egui::Ui;
use gable_measure::Length;
use gable_shell::{House, Mode, OpeningId, Placing, Shape, SideId};

/// Sizes of a door or window.
pub(super) fn opening(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    k: usize,
    id: &OpeningId,
    selection: &mut Selection,
) {
    let Some(part) = house.parts.get_mut(k) else { return };
    let walls: Vec<(SideId, String)> =
        part.sides.iter().filter(|s| s.wall).map(|s| (s.id.clone(), side_name(&s.id.0))).collect();
    let Some(index) = part.openings.iter().position(|o| &o.id == id) else { return };
    let place = format!("parts[{k}].openings[{index}]");
    let at = |what: &str| format!("{place}.{what}");
    let opening = &mut part.openings[index];
    form.words(ui, (&at("name"), "Name", "change of the name"), &mut opening.name);
    form.choice(ui, (&at("side"), "In the wall", "move to another wall"), &mut opening.side, &walls);
    let shapes = words(&[(Shape::Rectangle, "Rectangle"), (Shape::RoundHeaded, "Round-headed")]);
    form.choice(ui, (&at("shape"), "Shape", "change of shape"), &mut opening.shape, &shapes);
    let modes = words(&[(Mode::Cut, "Cut through"), (Mode::Pressed, "Only pressed in")]);
    form.choice(ui, (&at("mode"), "Made by", "change of how it is made"), &mut opening.mode, &modes);
    heading(ui, "Size and place");
    form.length(ui, (&at("width"), "Width", "change of width"), &mut opening.width);
    form.length(ui, (&at("height"), "Height", "change of height"), &mut opening.height);
    form.length(ui, (&at("sill"), "Above the ground", "change of the sill"), &mut opening.sill);
    placing(ui, form, &mut opening.placing, &at("placing"));
    ui.add_space(10.0);
    if ui.button("Remove this opening").clicked() {
        let side = part.openings.remove(index).side;
        *selection = Selection::Side(part.id.clone(), side);
        form.touch(&place, "removed opening");
    }
}

/// Where something is along a wall.
pub(super) fn placing(ui: &mut Ui, form: &mut Form<'_>, placing: &mut Placing, place: &str) {
    let kinds = words(&[(0, "From the middle"), (1, "From the left corner"), (2, "From the right corner")]);
    let old = match placing {
        Placing::Centred { .. } => 0,
        Placing::FromLeft { .. } => 1,
        Placing::FromRight { .. } => 2,
    };
    let mut kind = old;
    form.choice(ui, (&format!("{place}.kind"), "Measured", "change of placing"), &mut kind, &kinds);
    if kind != old {
        let distance = crate::table::rounded(Length::mm_of(15.0), form.unit);
        *placing = match kind {
            0 => Placing::Centred { offset: Length::ZERO },
            1 => Placing::FromLeft { distance },
            _ => Placing::FromRight { distance },
        };
    }
    match placing {
        Placing::Centred { offset } => form.length(ui, (place, "Right of the middle", "move of an opening"), offset),
        Placing::FromLeft { distance } | Placing::FromRight { distance } => {
            form.length(ui, (place, "Distance", "move of an opening"), distance);
        }
    }
}
