use super::super::parts::side_name;
use super::heading;
use crate::adapters::sentence;
use crate::fields::Form;
use crate::selection::Selection;
use egui::Ui;
use gable_shell::{House, NotMoved, OpeningId, OpeningLine, PartId, SideId, Surface};
use gable_words::tr;

/// What can be done with an opening as a whole.
enum Deed {
    Copy(SideId),
    Mirror,
    Align(PartId, OpeningId, OpeningLine),
    Remove,
}

/// Copies, mirror images, lines shared with others, and the way out.
pub(super) fn arrange(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    (k, index): (usize, usize),
    selection: &mut Selection,
) {
    heading(ui, tr!("Arrange"));
    let mut chosen = None;
    ui.horizontal_wrapped(|ui| {
        ui.menu_button(tr!("Copy to"), |ui| copies(ui, house, k, &mut chosen));
        if ui.button(tr!("Mirror")).on_hover_text(tr!("Its mirror image at the other end of the wall")).clicked() {
            chosen = Some(Deed::Mirror);
        }
        ui.menu_button(tr!("Line up with"), |ui| lines(ui, house, (k, index), &mut chosen));
    });
    ui.add_space(6.0);
    if ui.button(tr!("Remove this opening")).clicked() {
        chosen = Some(Deed::Remove);
    }
    let place = format!("parts[{k}].openings[{index}]");
    form.remarks(ui, &format!("{place}.arrange"));
    if let Some(deed) = chosen {
        perform(form, house, (k, index), deed, selection);
    }
}

fn copies(ui: &mut Ui, house: &House, k: usize, chosen: &mut Option<Deed>) {
    for side in house.parts.get(k).map_or(&[][..], |p| &p.sides) {
        if side.wall && ui.button(side_name(&side.id.0)).clicked() {
            *chosen = Some(Deed::Copy(side.id.clone()));
            ui.close();
        }
    }
}

/// Sill or head of every other opening in a wall.
fn lines(ui: &mut Ui, house: &House, (k, index): (usize, usize), chosen: &mut Option<Deed>) {
    egui::ScrollArea::vertical().max_height(320.0).show(ui, |ui| {
        for (p, part) in house.parts.iter().enumerate() {
            for (o, opening) in part.openings.iter().enumerate() {
                if (p, o) == (k, index) || opening.face != Surface::Wall || opening.shape.is_whole_face() {
                    continue;
                }
                for (line, word) in [(OpeningLine::Sill, "sill"), (OpeningLine::Head, "head")] {
                    if ui.button(tr!("{word} of {}: {}", part.name, opening.name)).clicked() {
                        *chosen = Some(Deed::Align(part.id.clone(), opening.id.clone(), line));
                        ui.close();
                    }
                }
            }
        }
    });
}

fn perform(form: &mut Form<'_>, house: &mut House, (k, index): (usize, usize), deed: Deed, selection: &mut Selection) {
    let Some(part) = house.parts.get_mut(k) else { return };
    let (part_id, id) = (part.id.clone(), part.openings[index].id.clone());
    let here = format!("parts[{k}].openings[{index}]");
    let (made, name): (Result<OpeningId, NotMoved>, &str) = match deed {
        Deed::Remove => {
            let side = part.openings.remove(index).side;
            *selection = Selection::Side(part_id, side);
            return form.touch(&here, tr!("removed opening"));
        }
        Deed::Copy(side) => (house.copy_opening(&part_id, &id, &side), tr!("copied opening")),
        Deed::Mirror => (house.mirror_opening(&part_id, &id), tr!("mirrored opening")),
        Deed::Align(other_part, other, line) => {
            let done = house.align_opening((&part_id, &id), (&other_part, &other), line);
            (done.map(|()| id), tr!("opening lined up"))
        }
    };
    match made {
        Ok(id) => {
            *selection = Selection::Opening(part_id, id);
            form.touch(&here, name);
        }
        Err(reason) => form.fields.say(&format!("{here}.arrange"), sentence(&reason.to_string())),
    }
}
