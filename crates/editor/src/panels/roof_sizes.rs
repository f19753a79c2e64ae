use super::part_sizes::{lid, ridge_choices};
use super::sizes::heading;
use super::whole::{self, Common};
use crate::adapters;
use crate::fields::Form;
use crate::table::{Paper, drawing};
use crate::theme::Palette;
use egui::{Align2, Rect, Sense, Stroke, StrokeKind, TextStyle, Ui, Vec2, WidgetInfo, accesskit::Role, vec2};
use gable_measure::{Angle, Length, Pitch, Unit};
use gable_plane::P2;
use gable_shell::{Part, RoofForm, Top};
use gable_words::tr;

/// Walls and roof of a part: what all its sides share.
pub(super) fn roof(ui: &mut Ui, form: &mut Form<'_>, part: &mut Part, k: usize) {
    heading(ui, tr!("Walls and roof"));
    forms(ui, form, part, k);
    let at = |what: &str| format!("parts[{k}].sides.{what}");
    length(ui, form, part, (&at("height"), tr!("Wall height"), tr!("change of wall height")), whole::height);
    pitch(ui, form, part, (&at("pitch"), tr!("Roof pitch"), tr!("change of pitch")), whole::pitch);
    length(ui, form, part, (&at("start"), tr!("Half-hip starts at"), tr!("change of the half-hip")), whole::start);
    pitch(ui, form, part, (&at("hip_pitch"), tr!("Half-hip pitch"), tr!("change of the half-hip")), whole::hip_pitch);
    pitch(ui, form, part, (&at("lower"), tr!("Pitch below knee"), tr!("change of the lower pitch")), whole::lower);
    length(ui, form, part, (&at("knee"), tr!("Knee at height"), tr!("change of the knee")), whole::knee);
    pitch(ui, form, part, (&at("upper"), tr!("Pitch above knee"), tr!("change of the upper pitch")), whole::upper);
    length(ui, form, part, (&at("overhang"), tr!("Overhang"), tr!("change of overhang")), whole::overhang);
    let field = format!("parts[{k}].level_eaves");
    form.tick(ui, (&field, tr!("Eaves all at one height"), tr!("change of the eaves")), &mut part.level_eaves);
    let field = format!("parts[{k}].ridges");
    form.choice(ui, (&field, tr!("Ridges"), tr!("change of the ridges")), &mut part.ridges, &ridge_choices());
    lid(ui, form, part, k);
}

fn forms(ui: &mut Ui, form: &mut Form<'_>, part: &mut Part, k: usize) {
    let place = format!("parts[{k}].roof_form");
    form.row(ui, tr!("Roof form"), |form, ui| {
        let now = RoofForm::ALL.into_iter().find(|roof| is_already(*roof, part, form.unit));
        let inner = egui::ComboBox::from_id_salt(&place)
            .selected_text(now.map_or(tr!("One of my own"), RoofForm::name))
            .width(ui.available_width())
            .truncate()
            .height(440.0)
            .show_ui(ui, |ui| {
                let outline = part.outline.clone();
                for roof in RoofForm::ALL.into_iter().filter(|roof| roof.fits(&outline)) {
                    if form_row(ui, roof, now == Some(roof)) {
                        roof.apply_in(part, form.unit);
                        form.touch(&place, tr!("change of roof form"));
                    }
                }
            });
        inner.response
    });
    form.remarks(ui, &place);
}

/// A roof form with its picture, to click on.
fn form_row(ui: &mut Ui, roof: RoofForm, chosen: bool) -> bool {
    let palette = Palette::of(ui.ctx());
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width().max(190.0), 58.0), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, chosen, roof.name()));
    if !ui.is_rect_visible(rect) {
        return response.clicked();
    }
    let busy = response.hovered() || response.has_focus();
    let (fill, ink) = if chosen { (palette.chosen, palette.on_chosen) } else { (palette.panel, palette.ink) };
    let edge = Stroke::new(1.5, if busy { palette.accent } else { fill });
    ui.painter().rect(rect, 6.0, fill, edge, StrokeKind::Inside);
    let place = Rect::from_min_size(rect.min, vec2(76.0, rect.height())).shrink(5.0);
    if let Some(picture) = adapters::picture_of_form(roof) {
        let whole = (P2::origin(), P2::new(picture.width, picture.height));
        drawing(
            &ui.painter().with_clip_rect(place.intersect(ui.clip_rect())),
            picture,
            &Paper::fitted(place, whole, Vec2::ZERO),
            &palette,
        );
    }
    let font = TextStyle::Button.resolve(ui.style());
    ui.painter().text(place.right_center() + vec2(10.0, 0.0), Align2::LEFT_CENTER, roof.name(), font, ink);
    response.clicked()
}

/// Whether a part has the kinds of tops and walls that a roof form would give it, whatever its sizes.
fn is_already(roof: RoofForm, part: &Part, unit: Unit) -> bool {
    let mut given = part.clone();
    roof.apply_in(&mut given, unit);
    let kinds = |part: &Part| part.sides.iter().map(|s| std::mem::discriminant(&s.top)).collect::<Vec<_>>();
    let level = |part: &Part| matches!(whole::common(part, whole::height), Common::Same(_));
    roof.fits(&part.outline)
        && names_it(roof, part)
        && kinds(&given) == kinds(part)
        && level(&given) == level(part)
        && given.lid.is_some() == part.lid.is_some()
}

/// Slopes on every side have three names: a spire is steep, a pavilion stands over a regular plan, the rest are hips.
fn names_it(roof: RoofForm, part: &Part) -> bool {
    // Steeper than 50 degrees, as people speak; no source.
    let is_steep = |pitch: Pitch| match pitch {
        Pitch::Angle(angle) => angle.deg() > 50.0,
        Pitch::RiseInRun { rise, run } => Angle::of_slope(rise, run).deg() > 50.0,
        Pitch::RidgeHeight(_) => false,
    };
    let steep = matches!(whole::common(part, whole::pitch), Common::Same(pitch) if is_steep(pitch));
    let regular = RoofForm::Pavilion.fits(&part.outline);
    match roof {
        RoofForm::Spire => steep,
        RoofForm::Pavilion => !steep,
        RoofForm::Hip => !regular,
        _ => true,
    }
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
