use super::heading;
use crate::fields::Form;
use egui::Ui;
use gable_measure::Length;
use gable_shell::{Opening, Repeat};
use gable_words::tr;

/// Copies in a row or grid.
pub(super) fn row(ui: &mut Ui, form: &mut Form<'_>, opening: &mut Opening, place: &str) {
    let at = |what: &str| format!("{place}.repeat.{what}");
    heading(ui, tr!("Rows"));
    let mut repeat = opening.repeat.unwrap_or_default();
    for (value, key, label) in
        [(&mut repeat.across, "across", tr!("Beside each other")), (&mut repeat.up, "up", tr!("Over each other"))]
    {
        if let Some(n) = form.count(ui, (&at(key), label, tr!("change of the row")), 1..=40, *value) {
            *value = n;
        }
    }
    if repeat.count() > 1 {
        spaces(ui, form, &mut repeat, opening.width, place);
    }
    opening.repeat = (repeat.count() > 1).then_some(repeat);
}

fn spaces(ui: &mut Ui, form: &mut Form<'_>, repeat: &mut Repeat, width: Length, place: &str) {
    let at = |what: &str| format!("{place}.repeat.{what}");
    let mut margins = repeat.gap.is_none();
    let choices = super::words(&[(true, tr!("Equal, to the corners")), (false, tr!("As typed"))]);
    form.choice(ui, (&at("kind"), tr!("Spaces"), tr!("change of the spaces")), &mut margins, &choices);
    repeat.gap = if margins { None } else { Some(repeat.gap.unwrap_or(crate::table::rounded(width / 2.0, form.unit))) };
    if let Some(gap) = &mut repeat.gap {
        form.length(ui, (&at("gap"), tr!("Between two"), tr!("change of the spaces")), gap);
    }
    if repeat.up > 1 {
        form.length(ui, (&at("gap_up"), tr!("From row to row"), tr!("change of the spaces")), &mut repeat.gap_up);
    }
}
