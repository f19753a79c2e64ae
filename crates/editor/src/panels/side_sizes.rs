use super::follow;
use super::part_sizes::words;
use super::posts;
use super::sizes::heading;
use crate::fields::Form;
use crate::openings;
use crate::selection::Selection;
use egui::Ui;
use gable_measure::{Angle, Length, Pitch};
use gable_shell::{Dough, House, SideId, Top};
use gable_words::tr;

/// Sizes of one side: its wall and what is above it.
pub(super) fn side(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    k: usize,
    id: &SideId,
    selection: &mut Selection,
) {
    let Some(part) = house.parts.get_mut(k) else { return };
    let thickness = house.doughs.iter().find(|d| d.id == part.wall_dough).map(Dough::baked).unwrap_or_default();
    let Some(side) = part.sides.iter_mut().find(|s| &s.id == id) else { return };
    let place = format!("parts[{k}].sides.{}", id.0);
    posts::side(ui, form, side, &place, thickness);
    heading(ui, tr!("Above the wall"));
    top_kind(ui, form, &mut side.top, &place);
    top(ui, form, &mut side.top, &place);
    follow::side(ui, form, house, k, id);
    let Some(part) = house.parts.get(k) else { return };
    heading(ui, tr!("Doors and windows"));
    for opening in part.openings.iter().filter(|o| &o.side == id) {
        if ui.button(&opening.name).on_hover_text(tr!("Show its sizes")).clicked() {
            *selection = Selection::Opening(part.id.clone(), opening.id.clone());
        }
    }
    add_openings(ui, form, house, k, id, selection);
}

/// Buttons for a new door or window, and a word when there is no room for it.
fn add_openings(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize, id: &SideId, selection: &mut Selection) {
    let here = format!("parts[{k}].sides.{}.openings", id.0);
    ui.horizontal_wrapped(|ui| {
        use openings::New::{Door, Skylight, Window};
        let side = house.parts[k].sides.iter().find(|s| &s.id == id);
        let wall = side.is_some_and(|s| s.wall);
        let slope = side.is_some_and(|s| !matches!(s.top, Top::Gable { .. }));
        for (what, word, possible) in [(Window, "window", wall), (Door, "door", wall), (Skylight, "skylight", slope)] {
            if !possible {
                continue;
            }
            if !ui.button(tr!("Add a {word}")).clicked() {
                continue;
            }
            form.fields.accept(&here);
            if let Some(added) = openings::add(house, k, id, what) {
                *selection = Selection::Opening(house.parts[k].id.clone(), added);
                form.touch(&here, &tr!("added {word}"));
            } else {
                let words = tr!("There is no room for one more {word} on this side. Move or remove another first.");
                form.fields.say(&here, words);
            }
        }
    });
    form.remarks(ui, &here);
}

fn top_kind(ui: &mut Ui, form: &mut Form<'_>, top: &mut Top, place: &str) {
    let kinds = words(&[
        (0, tr!("Eave: the roof slopes up")),
        (1, tr!("Gable")),
        (2, tr!("Half-hip")),
        (3, tr!("Knee: steep, then flat")),
    ]);
    let old = match top {
        Top::Eave { .. } => 0,
        Top::Gable { .. } => 1,
        Top::HalfHip { .. } => 2,
        Top::Knee { .. } => 3,
    };
    let mut kind = old;
    form.choice(ui, (&format!("{place}.top"), tr!("Closed by"), tr!("change of the top")), &mut kind, &kinds);
    if kind != old {
        *top = converted(top, kind);
    }
}

/// A top of another kind that keeps what both kinds have.
fn converted(top: &Top, kind: i32) -> Top {
    let (height, pitch, overhang) = match *top {
        Top::Eave { height, pitch, overhang } => (height, pitch, overhang),
        Top::HalfHip { start, pitch, overhang } => (start, pitch, overhang),
        Top::Knee { height, upper, overhang, .. } => (height, upper, overhang),
        Top::Gable { overhang } => (Length::mm_of(80.0), Pitch::Angle(Angle::degrees(40.0)), overhang),
    };
    match kind {
        0 => Top::Eave { height, pitch, overhang },
        1 => Top::Gable { overhang },
        2 => Top::HalfHip { start: height + Length::mm_of(30.0), pitch, overhang },
        _ => {
            let degrees = |d| Pitch::Angle(Angle::degrees(d));
            Top::Knee {
                height,
                lower: degrees(65.0),
                knee: height + Length::mm_of(35.0),
                upper: degrees(28.0),
                overhang,
            }
        }
    }
}

fn top(ui: &mut Ui, form: &mut Form<'_>, top: &mut Top, place: &str) {
    let at = |what: &str| format!("{place}.{what}");
    let slope = |ui: &mut Ui, form: &mut Form<'_>, key: &str, label: &str, value: &mut Pitch| {
        if let Some(new) = form.pitch_of(ui, (&at(key), label, tr!("change of pitch")), Some(*value)) {
            *value = new;
        }
    };
    match top {
        Top::Eave { height, pitch, overhang } => {
            form.length(ui, (&at("height"), tr!("Wall height"), tr!("change of wall height")), height);
            slope(ui, form, "pitch", tr!("Pitch"), pitch);
            form.length(ui, (&at("overhang"), tr!("Overhang"), tr!("change of overhang")), overhang);
        }
        Top::HalfHip { start, pitch, overhang } => {
            form.length(ui, (&at("start"), tr!("Slope starts at"), tr!("change of the half-hip")), start);
            slope(ui, form, "pitch", tr!("Pitch"), pitch);
            form.length(ui, (&at("overhang"), tr!("Overhang"), tr!("change of overhang")), overhang);
        }
        Top::Knee { height, lower, knee, upper, overhang } => {
            form.length(ui, (&at("height"), tr!("Wall height"), tr!("change of wall height")), height);
            slope(ui, form, "lower", tr!("Pitch below knee"), lower);
            form.length(ui, (&at("knee"), tr!("Knee at height"), tr!("change of the knee")), knee);
            slope(ui, form, "upper", tr!("Pitch above knee"), upper);
            form.length(ui, (&at("overhang"), tr!("Overhang"), tr!("change of overhang")), overhang);
        }
        Top::Gable { overhang } => {
            form.length(ui, (&at("overhang"), tr!("Overhang"), tr!("change of overhang")), overhang);
        }
    }
}
