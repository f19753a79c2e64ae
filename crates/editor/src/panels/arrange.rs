use super::add_part::Added;
use crate::adapters::sentence;
use crate::fields::Form;
use crate::hosts;
use crate::selection::Selection;
use egui::{Button, Ui};
use gable_shell::{House, Mirror, NotArranged, PartId};
use gable_words::tr;

/// What can be done with a part as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Deed {
    Copy,
    Mirror(Mirror),
    Repeat(usize),
    Earlier,
    Later,
    Lock(bool),
    Remove,
}

/// The button that folds out what can be done with the part that is selected.
pub(crate) fn arrange(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, selection: &Selection) -> Option<Added> {
    let id = selection.part().filter(|id| house.part(id).is_some()).cloned();
    let mut chosen = None;
    ui.add_enabled_ui(id.is_some(), |ui| {
        ui.menu_button(tr!("Arrange"), |ui| {
            if let Some(id) = &id {
                chosen = deeds(ui, house, id);
            }
        })
        .response
        .on_hover_text(tr!("Copy, mirror, repeat, lock or remove the part that is selected"))
        .on_disabled_hover_text(tr!("Choose a part first"));
    });
    perform(form, house, &id?, chosen?)
}

fn deeds(ui: &mut Ui, house: &House, id: &PartId) -> Option<Deed> {
    ui.set_width(240.0);
    let part = house.part(id)?;
    let index = house.parts.iter().position(|p| &p.id == id)?;
    let mut chosen = None;
    let mut item = |ui: &mut Ui, words: &str, tip: &str, possible: bool, deed: Deed| {
        if ui.add_enabled(possible, Button::new(words)).on_hover_text(tip).clicked() {
            chosen = Some(deed);
            ui.close();
        }
    };
    item(ui, tr!("Copy"), tr!("Once more, beside it, with all that stand by it"), true, Deed::Copy);
    let by = part.place.host().is_some();
    let tip = tr!("Its mirror image at the other end of the same side or ridge");
    item(ui, tr!("Mirror to the other end"), tip, by, Deed::Mirror(Mirror::OtherEnd));
    let tip = tr!("Its mirror image at the same place of the opposite side");
    item(ui, tr!("Mirror to the opposite side"), tip, by, Deed::Mirror(Mirror::OppositeSide));
    ui.separator();
    repeat(ui, by && !part.locked, &mut item);
    ui.separator();
    let tip = tr!("Parts that come earlier stay whole where they meet later ones");
    item(ui, tr!("Earlier in the list"), tip, index > 0, Deed::Earlier);
    item(ui, tr!("Later in the list"), tip, index + 1 < house.parts.len(), Deed::Later);
    ui.separator();
    let tip = tr!("A locked part cannot be moved or changed by accident");
    item(ui, if part.locked { tr!("Unlock") } else { tr!("Lock") }, tip, true, Deed::Lock(!part.locked));
    item(ui, tr!("Remove"), tr!("And whatever stands by it"), hosts::can_go(house, id), Deed::Remove);
    chosen
}

/// How many shall stand in a row.
fn repeat(ui: &mut Ui, possible: bool, item: &mut impl FnMut(&mut Ui, &str, &str, bool, Deed)) {
    ui.label(tr!("Repeat in a row, with equal spaces:"));
    ui.horizontal(|ui| {
        for count in 2..=6 {
            let tip = tr!("{count} in a row");
            item(ui, &format!("  {count}  "), &tip, possible, Deed::Repeat(count));
        }
    });
}

fn perform(form: &mut Form<'_>, house: &mut House, id: &PartId, deed: Deed) -> Option<Added> {
    let index = house.parts.iter().position(|p| &p.id == id)?;
    let done = |form: &mut Form<'_>, name: &str| form.touch(&format!("parts[{index}]"), name);
    let made: Result<PartId, NotArranged> = match deed {
        Deed::Copy => house.copy_part(id).inspect(|_| done(form, tr!("copied part"))),
        Deed::Mirror(at) => house.mirror_part(id, at).inspect(|_| done(form, tr!("mirrored part"))),
        Deed::Repeat(count) => {
            let row = house.repeat_part(id, count).inspect(|_| done(form, tr!("row of parts")));
            row.map(|_| id.clone())
        }
        Deed::Earlier | Deed::Later => {
            house.parts.swap(index, if deed == Deed::Earlier { index - 1 } else { index + 1 });
            done(form, tr!("change of order"));
            return None;
        }
        Deed::Lock(locked) => {
            house.parts[index].locked = locked;
            done(form, if locked { tr!("locked part") } else { tr!("unlocked part") });
            return None;
        }
        Deed::Remove => {
            hosts::remove(house, id);
            done(form, tr!("removed part"));
            return Some(Added::Part(Selection::House));
        }
    };
    Some(match made {
        Ok(id) => Added::Part(Selection::Part(id)),
        Err(reason) => Added::Refused(sentence(&reason.to_string())),
    })
}
