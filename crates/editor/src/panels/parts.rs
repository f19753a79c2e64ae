use crate::selection::Selection;
use crate::several::Company;
use crate::theme::{Palette, bold};
use egui::{Button, RichText, Ui, WidgetInfo, accesskit::Role};
use gable_shell::{House, Ornament, Part, Side, Top};
use gable_words::tr;

/// Height of a row with the space under it, in points.
pub(crate) const PART_ROW: f32 = 28.0;

/// What the list shows as selected, and what is clicked in it.
struct List<'a> {
    selection: &'a Selection,
    company: &'a Company,
    clicked: Option<Selection>,
}

/// The list of parts with their sides and openings, and of ornaments, and of what stands beside the house; a click selects, with Ctrl or Shift
/// beside what is selected.
pub(crate) fn parts(ui: &mut Ui, house: &House, (selection, company): (&mut Selection, &mut Company)) {
    let mut list = List { selection, company, clicked: None };
    rows(ui, house, &mut list);
    let Some(what) = list.clicked else { return };
    if ui.input(|i| i.modifiers.command || i.modifiers.shift) {
        company.toggle(selection, what, house);
    } else {
        company.dismiss();
        *selection = what;
    }
}

fn rows(ui: &mut Ui, house: &House, list: &mut List<'_>) {
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.spacing_mut().interact_size.y = PART_ROW - 2.0;
    let title = if house.owner.title.is_empty() { tr!("The whole house") } else { &house.owner.title };
    row(ui, list, Selection::House, 0, title, ("", ""));
    for part in &house.parts {
        let lock = if part.locked { ("locked", tr!("It cannot be moved or changed by accident.")) } else { ("", "") };
        row(ui, list, Selection::Part(part.id.clone()), 1, &part.name, lock);
        for side in &part.sides {
            side_rows(ui, list, house, (part, side));
        }
        ornament_rows(ui, list, house, 2, |o| o.part == part.id && o.opening.is_none());
    }
    for k in 0..house.dressing.extras.len() {
        let name = super::extra_name(house, k);
        row(
            ui,
            list,
            Selection::Extra(k),
            1,
            &name,
            (tr!("beside"), tr!("It stands on the base board, beside the house.")),
        );
    }
}

/// What is stuck on, of those that are asked for.
fn ornament_rows(ui: &mut Ui, list: &mut List<'_>, house: &House, depth: u8, asked: impl Fn(&Ornament) -> bool) {
    for (k, _) in house.dressing.ornaments.iter().enumerate().filter(|(_, o)| asked(o)) {
        let name = super::ornament_name(house, k);
        row(ui, list, Selection::Ornament(k), depth, &name, (tr!("ornament"), tr!("It is made apart and stuck on.")));
    }
}

fn side_rows(ui: &mut Ui, list: &mut List<'_>, house: &House, (part, side): (&Part, &Side)) {
    let name = side_name(&side.id.0);
    row(ui, list, Selection::Side(part.id.clone(), side.id.clone()), 2, &name, top_words(side));
    for opening in part.openings.iter().filter(|o| o.side == side.id) {
        row(ui, list, Selection::Opening(part.id.clone(), opening.id.clone()), 3, &opening.name, ("", ""));
        ornament_rows(ui, list, house, 4, |o| o.part == part.id && o.opening.as_ref() == Some(&opening.id));
    }
}

fn row(ui: &mut Ui, list: &mut List<'_>, what: Selection, depth: u8, name: &str, (aside, tip): (&str, &str)) {
    let shown = *list.selection == what;
    let chosen = shown || list.company.holds(&what);
    let palette = Palette::of(ui.ctx());
    ui.horizontal(|ui| {
        ui.add_space(f32::from(depth) * 14.0);
        let text = if depth < 2 { bold(name) } else { RichText::new(name) };
        let ink = if chosen { palette.on_chosen } else { palette.faint_ink };
        // The text on the right, even when there is none, keeps the name on the left.
        let button = Button::selectable(chosen, text)
            .truncate()
            .min_size(egui::vec2(ui.available_width() - 12.0, PART_ROW - 2.0))
            .right_text(RichText::new(aside).small().color(ink));
        let mut response = ui.add(button);
        if !tip.is_empty() {
            response = response.on_hover_text(tip);
        }
        let spoken = if aside.is_empty() { name.to_owned() } else { format!("{name}, {aside}") };
        response.widget_info(|| WidgetInfo::selected(Role::Button, true, chosen, &spoken));
        if response.clicked() {
            list.clicked = Some(what);
        } else if shown && is_new(ui, &what) {
            response.scroll_to_me(None);
        }
    });
}

/// Whether a selection was shown by no frame before: then its row is brought into sight.
fn is_new(ui: &Ui, what: &Selection) -> bool {
    let id = egui::Id::unique("selected row");
    ui.data_mut(|d| {
        let old = d.get_temp::<Selection>(id);
        d.insert_temp(id, what.clone());
        old.as_ref() != Some(what)
    })
}

/// What people call a side.
pub(crate) fn side_name(side: &str) -> String {
    match side {
        "front" => tr!("Front").to_owned(),
        "right" => tr!("Right").to_owned(),
        "back" => tr!("Back").to_owned(),
        "left" => tr!("Left").to_owned(),
        number => tr!("Side {number}"),
    }
}

/// What closes a side at the top, in a word and in a sentence.
fn top_words(side: &Side) -> (&'static str, &'static str) {
    if side.posts.is_some() {
        return (tr!("a side" => "posts"), tr!("The roof stands on posts on this side."));
    }
    if !side.wall {
        return (tr!("no wall"), tr!("This side is open."));
    }
    match side.top {
        Top::Eave { .. } => (tr!("a side" => "eave"), tr!("The roof slopes up from the top of this wall.")),
        Top::HalfHip { .. } => (
            tr!("a side" => "half-hip"),
            tr!("The wall runs up between the slopes, and a small slope cuts off its peak."),
        ),
        Top::Knee { .. } => {
            (tr!("a side" => "knee"), tr!("The roof rises steeply from this wall and then goes on less steeply."))
        }
        Top::Gable { .. } => (tr!("a side" => "gable"), tr!("The wall runs up to the slopes of the other sides.")),
    }
}
