use super::part_sizes::{lid, ridge_choices};
use super::sizes::heading;
use super::whole::{self, Common};
use crate::fields::Form;
use egui::Ui;
use gable_measure::{Length, Pitch};
use gable_shell::{Part, RoofForm, Top};

/// Walls and roof of a part: what all its sides share.
pub(super) fn roof(ui: &mut Ui, form: &mut Form<'_>, part: &mut Part, k: usize) {
    heading(ui, "Walls and roof");
    forms(ui, form, part, k);
    let at = |what: &str| format!("parts[{k}].sides.{what}");
    length(ui, form, part, (&at("height"), "Wall height", "change of wall height"), whole::height);
    pitch(ui, form, part, (&at("pitch"), "Roof pitch", "change of pitch"), whole::pitch);
    length(ui, form, part, (&at("start"), "Half-hip starts at", "change of the half-hip"), whole::start);
    pitch(ui, form, part, (&at("hip_pitch"), "Half-hip pitch", "change of the half-hip"), whole::hip_pitch);
    pitch(ui, form, part, (&at("lower"), "Pitch below knee", "change of the lower pitch"), whole::lower);
    length(ui, form, part, (&at("knee"), "Knee at height", "change of the knee"), whole::knee);
    pitch(ui, form, part, (&at("upper"), "Pitch above knee", "change of the upper pitch"), whole::upper);
    length(ui, form, part, (&at("overhang"), "Overhang", "change of overhang"), whole::overhang);
    let field = format!("parts[{k}].level_eaves");
    form.tick(ui, (&field, "Eaves all at one height", "change of the eaves"), &mut part.level_eaves);
    let field = format!("parts[{k}].ridges");
    form.choice(ui, (&field, "Ridges", "change of the ridges"), &mut part.ridges, &ridge_choices());
    lid(ui, form, part, k);
}

fn forms(ui: &mut Ui, form: &mut Form<'_>, part: &mut Part, k: usize) {
    let place = format!("parts[{k}].roof_form");
    form.row(ui, "Roof form", |form, ui| {
        let inner = egui::ComboBox::from_id_salt(&place)
            .selected_text("Change to…")
            .width(ui.available_width())
            .show_ui(ui, |ui| {
                let outline = part.outline.clone();
                for roof in RoofForm::ALL.into_iter().filter(|roof| roof.fits(&outline)) {
                    if ui.selectable_label(false, roof.name()).clicked() {
                        roof.apply_in(part, form.unit);
                        form.touch(&place, "change of roof form");
                    }
                }
            });
        inner.response
    });
    form.remarks(ui, &place);
}

fn length(
    ui: &mut Ui,
    form: &mut Form<'_>,
    part: &mut Part,
    field: (&str, &str, &str),
    pick: fn(&mut Top) -> Option<&mut Length>,
) {
    let new = match whole::common(part, pick) {
        Common::Absent => return,
        Common::Same(value) => form.length_of(ui, field, Some(value)),
        Common::Differs => form.length_of(ui, field, None),
    };
    if let Some(new) = new {
        whole::set(part, pick, new);
    }
}

fn pitch(
    ui: &mut Ui,
    form: &mut Form<'_>,
    part: &mut Part,
    field: (&str, &str, &str),
    pick: fn(&mut Top) -> Option<&mut Pitch>,
) {
    let new = match whole::common(part, pick) {
        Common::Absent => return,
        Common::Same(value) => form.pitch_of(ui, field, Some(value)),
        Common::Differs => form.pitch_of(ui, field, None),
    };
    if let Some(new) = new {
        whole::set(part, pick, new);
    }
}
