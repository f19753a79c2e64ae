use super::{heading, words};
use crate::fields::Form;
use egui::Ui;
use gable_measure::Angle;
use gable_shell::{Bars, Door, Glass, Hinge, Mode, Opening};

/// How an opening is made and what is in it.
pub(super) fn closing(ui: &mut Ui, form: &mut Form<'_>, opening: &mut Opening, place: &str) {
    let at = |what: &str| format!("{place}.{what}");
    heading(ui, "Glass and door");
    let modes = words(&[
        (Mode::Cut, "Cut through"),
        (Mode::Glazed, "Cut through and glazed"),
        (Mode::Pressed, "Only pressed in"),
    ]);
    form.choice(ui, (&at("mode"), "Made by", "change of how it is made"), &mut opening.mode, &modes);
    if opening.mode == Mode::Glazed {
        let glass = words(&[
            (Glass::Leaf, "Gelatine leaf behind it"),
            (Glass::Poured, "Boiled sugar poured in"),
            (Glass::Crushed, "Crushed sweets melted in"),
        ]);
        form.choice(ui, (&at("glass"), "Glass", "change of the glass"), &mut opening.glazing.glass, &glass);
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
    let kinds = words(&[(0, "None"), (1, "Grid"), (2, "Diamonds"), (3, "Fan")]);
    form.choice(ui, (&at("kind"), "Glazing bars", "change of the bars"), &mut kind, &kinds);
    if kind != old {
        *bars = match kind {
            0 => Bars::None,
            1 => Bars::Grid { across: 2, up: 2 },
            2 => Bars::Diamond { across: 3 },
            _ => Bars::Fan { rays: 5 },
        };
    }
    let mut count = |label: &str, key: &str, least: u8, value: &mut u8| {
        if let Some(n) = form.count(ui, (&at(key), label, "change of the bars"), least..=40, *value) {
            *value = n;
        }
    };
    match bars {
        Bars::None => {}
        Bars::Grid { across, up } => {
            count("Lights across", "across", 1, across);
            count("Lights up", "up", 1, up);
        }
        Bars::Diamond { across } => count("Diamonds across", "across", 1, across),
        Bars::Fan { rays } => count("Lights of the fan", "rays", 2, rays),
    }
}

fn door(ui: &mut Ui, form: &mut Form<'_>, door: &mut Option<Door>, mode: Mode, place: &str) {
    let at = |what: &str| format!("{place}.door.{what}");
    let old = door.map_or(0, |d| if d.double { 2 } else { 1 });
    let mut kind = old;
    let kinds = words(&[(0, "Nothing"), (1, "A door"), (2, "Double doors, one piece")]);
    form.choice(ui, (&at("kind"), "In it hangs", "change of the door"), &mut kind, &kinds);
    if kind != old {
        *door = (kind > 0).then(|| Door { double: kind == 2, ..door.unwrap_or_default() });
    }
    let Some(door) = door.as_mut().filter(|_| mode == Mode::Cut) else { return };
    form.length(ui, (&at("clearance"), "Clearance", "change of the clearance"), &mut door.clearance);
    if door.double {
        return;
    }
    let sides = words(&[(Hinge::Left, "On the left"), (Hinge::Right, "On the right")]);
    form.choice(ui, (&at("hinge"), "Hinges", "change of the hinges"), &mut door.hinge, &sides);
    let mut degrees = door.ajar.deg();
    form.number(ui, (&at("ajar"), "Ajar, degrees", "change of the door"), &mut degrees);
    door.ajar = if degrees == door.ajar.deg() { door.ajar } else { Angle::degrees(degrees.clamp(0.0, 180.0)) };
}
