use super::parts::side_name;
use crate::adapters::sentence;
use crate::fields::Form;
use crate::selection::Selection;
use crate::theme::bold;
use egui::{Align, Label, RichText, Ui};
use gable_shell::{GuestKind, House, PartId, SideId};
use gable_words::tr;

/// Room for the reasons in the list, in points.
const WIDTH: f32 = 300.0;

/// What came of asking for a new part.
pub(crate) enum Added {
    /// It is in the house; this selects it.
    Part(Selection),
    /// It cannot be, for this reason.
    Refused(String),
}

/// The button that folds out a list of parts to add to what is selected.
pub(crate) fn add_part(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, selection: &Selection) -> Option<Added> {
    let (host, side) = host(house, selection)?;
    let mut chosen = None;
    let button = ui.menu_button(tr!("Add a part"), |ui| {
        ui.set_width(WIDTH);
        ui.label(bold(heading(house, &host, side.as_ref())));
        for kind in GuestKind::ALL {
            if row(ui, kind, house.offers_guest(kind, &host, side.as_ref()).err().map(|e| sentence(&e.to_string()))) {
                chosen = Some(kind);
                ui.close();
            }
        }
    });
    button.response.on_hover_text(tr!("A wing, a tower, a dormer … by the part that is selected"));
    add(form, house, chosen?, (&host, side.as_ref()))
}

/// A kind that can be chosen, or the reason why not.
fn row(ui: &mut Ui, kind: GuestKind, reason: Option<String>) -> bool {
    let possible = reason.is_none();
    let clicked = ui.add_enabled(possible, egui::Button::new(kind.name())).on_hover_text(words(kind)).clicked();
    if let Some(reason) = reason {
        ui.indent(kind.name(), |ui| ui.add(Label::new(RichText::new(reason).small()).halign(Align::LEFT)));
    }
    clicked
}

fn add(form: &mut Form<'_>, house: &mut House, kind: GuestKind, by: (&PartId, Option<&SideId>)) -> Option<Added> {
    match house.guest(kind, by.0, by.1) {
        Ok(part) => {
            let id = part.id.clone();
            form.touch(&format!("parts[{}]", house.parts.len()), &tr!("added {}", kind.name().to_lowercase()));
            house.parts.push(part);
            Some(Added::Part(Selection::Part(id)))
        }
        Err(reason) => Some(Added::Refused(sentence(&reason.to_string()))),
    }
}

/// The part to stand by and, when one is selected, its side.
fn host(house: &House, selection: &Selection) -> Option<(PartId, Option<SideId>)> {
    let part = selection.part().and_then(|id| house.part(id)).or(house.parts.first())?;
    let side = match selection {
        Selection::Side(_, side) => Some(side.clone()),
        Selection::Opening(_, opening) => part.openings.iter().find(|o| &o.id == opening).map(|o| o.side.clone()),
        Selection::House | Selection::Part(_) | Selection::Extra(_) | Selection::Ornament(_) => None,
    };
    Some((part.id.clone(), side))
}

fn heading(house: &House, host: &PartId, side: Option<&SideId>) -> String {
    let name = house.part(host).map_or("", |p| p.name.as_str());
    match side {
        Some(side) => tr!("By {name}, {}", side_name(&side.0).to_lowercase()),
        None => tr!("By {name}"),
    }
}

/// What a kind is, in a few words.
fn words(kind: GuestKind) -> &'static str {
    match kind {
        GuestKind::Wing => tr!("A lower house at a right angle to a wall"),
        GuestKind::LeanTo => tr!("One slope against a wall"),
        GuestKind::Porch => tr!("A small gable on posts before a door, with a floor"),
        GuestKind::Steps => tr!("Plates of dough laid on each other before a door"),
        GuestKind::Bay => tr!("Three walls that stand out under the eave"),
        GuestKind::Tower => tr!("Eight walls and a spire, let into a corner"),
        GuestKind::Dormer => tr!("A little house with a window on a slope"),
        GuestKind::Chimney => tr!("Astride the ridge, or on a slope"),
        GuestKind::Lantern => tr!("Eight small walls on top of a flat roof or a point"),
    }
}
