use super::{heading, words};
use crate::fields::Form;
use egui::Ui;
use gable_measure::Angle;
use gable_shell::{Bars, Door, Glass, Hinge, Mode, Opening};
use gable_words::tr;

/// How an opening is made and what is in it.
pub(super) fn closing(ui: &mut Ui, form: &mut Form<'_>, opening: &mut Opening, place: &str) {
    let at = |what: &str| format!("{place}.{what}");
    heading(ui, tr!("Glass and door"));
    let modes = words(&[
        (Mode::Cut, tr!("Cut through")),
        (Mode::Glazed, tr!("Cut through and glazed")),
        (Mode::Pressed, tr!("Only pressed in")),
    ]);
    form.choice(ui, (&at("mode"), tr!("Made by"), tr!("change of how it is made")), &mut opening.mode, &modes);
    if opening.mode == Mode::Glazed {
        let glass = words(&[
            (Glass::Leaf, tr!("Gelatine leaf behind it")),
            (Glass::Poured, tr!("Boiled sugar poured in")),
            (Glass::Crushed, tr!("Crushed sweets melted in")),
        ]);
        form.choice(ui, (&at("glass"), tr!("Glass"), tr!("change of the glass")), &mut opening.glazing.glass, &glass);
    }
    if opening.mode != Mode::Cut {
        bars(ui, form, &mut opening.glazing.bars, place);
    }
    if opening.mode != Mode::Glazed && !opening.shape.is_whole_face() {
        door(ui, form, &mut opening.door, opening.mode, place);
    }
}

fn bars(ui: &mut Ui, form: &mut Form<'_>, bars: &mut Bars, place: &str) {
    let at = |what: &str| format!("{place}.bars.{what}");
    let old = match bars {
        Bars::None => 0,
        Bars::Grid { .. } => 1,
        Bars::Diamond { .. } => 2,
        Bars::Fan { .. } => 3,
    };
    let mut kind = old;
    let kinds = words(&[(0, tr!("None")), (1, tr!("Grid")), (2, tr!("Diamonds")), (3, tr!("Fan"))]);
    form.choice(ui, (&at("kind"), tr!("Glazing bars"), tr!("change of the bars")), &mut kind, &kinds);
    if kind != old {
        *bars = match kind {
            0 => Bars::None,
            1 => Bars::Grid { across: 2, up: 2 },
            2 => Bars::Diamond { across: 3 },
            _ => Bars::Fan { rays: 5 },
        };
    }
    let mut count = |label: &str, key: &str, least: u8, value: &mut u8| {
        if let Some(n) = form.count(ui, (&at(key), label, tr!("change of the bars")), least..=40, *value) {
            *value = n;
        }
    };
    match bars {
        Bars::None => {}
        Bars::Grid { across, up } => {
            count(tr!("Lights across"), "across", 1, across);
            count(tr!("Lights up"), "up", 1, up);
        }
        Bars::Diamond { across } => count(tr!("Diamonds across"), "across", 1, across),
        Bars::Fan { rays } => count(tr!("Lights of the fan"), "rays", 2, rays),
    }
}

fn door(ui: &mut Ui, form: &mut Form<'_>, door: &mut Option<Door>, mode: Mode, place: &str) {
    let at = |what: &str| format!("{place}.door.{what}");
    let old = door.map_or(0, |d| if d.double { 2 } else { 1 });
    let mut kind = old;
    let kinds = words(&[(0, tr!("Nothing")), (1, tr!("A door")), (2, tr!("Double doors, one piece"))]);
    form.choice(ui, (&at("kind"), tr!("In it hangs"), tr!("change of the door")), &mut kind, &kinds);
    if kind != old {
        *door = (kind > 0).then(|| Door { double: kind == 2, ..door.unwrap_or_default() });
    }
    let Some(door) = door.as_mut().filter(|_| mode == Mode::Cut) else { return };
    form.length(ui, (&at("clearance"), tr!("Clearance"), tr!("change of the clearance")), &mut door.clearance);
    if door.double {
        return;
    }
    let sides = words(&[(Hinge::Left, tr!("On the left")), (Hinge::Right, tr!("On the right"))]);
    form.choice(ui, (&at("hinge"), tr!("Hinges"), tr!("change of the hinges")), &mut door.hinge, &sides);
    let mut degrees = door.ajar.deg();
    form.number(ui, (&at("ajar"), tr!("Ajar, degrees"), tr!("change of the door")), &mut degrees);
    door.ajar = if degrees == door.ajar.deg() { door.ajar } else { Angle::degrees(degrees.clamp(0.0, 180.0)) };
}
