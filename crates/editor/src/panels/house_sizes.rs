use super::sizes::heading;
use crate::fields::Form;
use egui::{RichText, Ui};
use gable_measure::{InchStep, Length, Unit};
use gable_shell::{Dough, DoughId, House};
use gable_words::tr;

/// What belongs to the house as a whole.
pub(super) fn house(ui: &mut Ui, form: &mut Form<'_>, house: &mut House) {
    let owner = &mut house.owner;
    form.words(ui, ("title", tr!("Name"), tr!("change of the name")), &mut owner.title);
    form.words(ui, ("edition", tr!("Edition"), tr!("change of the edition")), &mut owner.edition);
    form.words(ui, ("credit", tr!("Drawn by"), tr!("change of the credit")), &mut owner.credit);
    form.words(ui, ("after", tr!("After a design by"), tr!("change of whom it is after")), &mut owner.after);
    form.words(ui, ("licence", tr!("Licence"), tr!("change of the licence")), &mut owner.licence);
    form.story(ui, ("notes", tr!("Notes for the builder"), tr!("change of the notes")), &mut owner.notes);
    heading(ui, tr!("Measures"));
    form.choice(ui, ("unit", tr!("Unit"), tr!("change of unit")), &mut house.unit, &units());
    form.length(ui, ("gap", tr!("Gap for icing"), tr!("change of the icing gap")), &mut house.gap);
    doughs(ui, form, house);
}

/// The units there are, with their names.
pub(crate) fn units() -> [(Unit, String); 3] {
    [
        (Unit::Millimetre, tr!("Millimetres").to_owned()),
        (Unit::Inch(InchStep::Sixteenth), tr!("Inches to 1/16").to_owned()),
        (Unit::Inch(InchStep::ThirtySecond), tr!("Inches to 1/32").to_owned()),
    ]
}

fn doughs(ui: &mut Ui, form: &mut Form<'_>, house: &mut House) {
    let unit = house.unit;
    for (k, dough) in house.doughs.iter_mut().enumerate() {
        heading(ui, &tr!("Dough: {}", dough.id.words()));
        let at = |what: &str| format!("doughs[{k}].{what}");
        form.length(ui, (&at("rolled"), tr!("Rolled to"), tr!("change of the rolled thickness")), &mut dough.rolled);
        form.number(ui, (&at("rise"), tr!("Baked thickness over rolled"), tr!("change of the rise")), &mut dough.rise);
        let (rolled, baked) = (unit.print(dough.rolled), unit.print(dough.baked()));
        let words = tr!("Rolled to {rolled} it comes out of the oven {baked} thick, {} times as thick.", dough.rise);
        ui.label(RichText::new(words).small());
    }
    if ui.button(tr!("Add a dough")).on_hover_text(tr!("One more thickness, say for the roof")).clicked() {
        house.doughs.push(another(&house.doughs));
        form.touch("doughs", tr!("added dough"));
    }
}

/// A dough like the first with a name that is not taken.
fn another(doughs: &[Dough]) -> Dough {
    let name = (2..).map(|k| format!("dough-{k}")).find(|n| doughs.iter().all(|d| &d.id.0 != n));
    let (rolled, rise) = doughs.first().map_or((Length::mm_of(5.0), 1.2), |d| (d.rolled, d.rise));
    Dough { id: DoughId(name.unwrap_or_default()), rolled, rise }
}
