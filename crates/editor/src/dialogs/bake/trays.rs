//! Every tray from above with its line, and how dough is rolled.

use super::{chapter, picture};
use crate::theme::bold;
use egui::Ui;
use gable_bake::{BakePlan, tray_drawing};
use gable_measure::Unit;
use gable_words::tr;

pub(super) fn show(ui: &mut Ui, plan: &BakePlan, unit: Unit) {
    let [ovenfuls, rolled] = &plan.trays(unit)[..] else { return };
    ui.label(bold(&ovenfuls.title));
    plan.letters().iter().for_each(|letters| _ = ui.label(letters));
    if plan.ovenfuls.assumed_tray {
        ui.label(tr!("Say under House, 'Your kitchen…', which trays you have."));
    }
    for (tray, line) in plan.ovenfuls.trays.iter().zip(&ovenfuls.lines) {
        let (width, depth) = (tray.tray.width, tray.tray.depth);
        // On paper of this size the numbers have the size of text.
        let drawing = tray_drawing(width, depth, &tray.pieces, 100.0 / width.mm());
        picture(ui, &drawing, ui.available_width().min(420.0), &tr!("Picture of tray {line}"));
        ui.label(line);
        ui.add_space(8.0);
    }
    chapter(ui, rolled);
}
