use super::{baked, beside, dressing, follow, house_sizes, opening, ornament, part_sizes, side_sizes};
use crate::fields::Form;
use crate::selection::Selection;
use crate::theme::bold;
use egui::Ui;
use gable_dress::Dressed;
use gable_shell::House;
use gable_words::tr;

/// The sizes of `what`. Changes `house`; the form tells which field did it. `next` is what is selected from then on.
pub(crate) fn sizes(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    (what, next): (&Selection, &mut Selection),
    dressed: Option<&Dressed>,
) {
    let id = match what {
        Selection::Ornament(k) => house.dressing.ornaments.get(*k).map(|o| o.part.clone()),
        _ => what.part().cloned(),
    };
    if let Some(k) = id.as_ref().and_then(|id| house.parts.iter().position(|p| p.locked && &p.id == id)) {
        locked(ui, form, house, k);
    }
    let is_open = id.and_then(|id| house.part(&id)).is_none_or(|p| !p.locked);
    ui.add_enabled_ui(is_open, |ui| unlocked(ui, form, house, (what, next), dressed));
    follow::let_go(form, house);
}

/// Says that a part is locked, and unlocks it.
fn locked(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) {
    ui.horizontal_wrapped(|ui| {
        ui.label(tr!("This part is locked, so that nothing of it changes by accident."));
        if ui.button(tr!("Unlock it")).clicked() {
            house.parts[k].locked = false;
            form.touch(&format!("parts[{k}].locked"), tr!("unlocked part"));
        }
    });
}

fn unlocked(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    (what, next): (&Selection, &mut Selection),
    dressed: Option<&Dressed>,
) {
    match what.clone() {
        Selection::House => {
            house_sizes::house(ui, form, house);
            dressing::house(ui, form, house, dressed);
        }
        Selection::Extra(k) => beside::one(ui, form, house, k, next),
        Selection::Ornament(k) => ornament::one(ui, form, house, k, next),
        Selection::Part(id) => {
            if let Some(k) = house.parts.iter().position(|p| p.id == id) {
                part_sizes::part(ui, form, house, k);
                baked::part(ui, form, house, k);
                dressing::part(ui, form, house, &id, dressed);
                part_sizes::remove(ui, form, house, k, next);
            }
        }
        Selection::Side(id, side) => {
            if let Some(k) = house.parts.iter().position(|p| p.id == id) {
                side_sizes::side(ui, form, house, k, &side, next);
                dressing::side(ui, form, house, (&id, &side), dressed);
            }
        }
        Selection::Opening(id, opening) => {
            if let Some(k) = house.parts.iter().position(|p| p.id == id) {
                opening::opening(ui, form, house, k, &opening, next);
                dressing::opening(ui, form, house, &id, &opening);
            }
        }
    }
}

/// A heading within the sizes.
pub(super) fn heading(ui: &mut Ui, words: &str) {
    ui.add_space(10.0);
    ui.separator();
    ui.label(bold(words));
}
