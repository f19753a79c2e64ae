use super::icon::{severity_colour, severity_icon, severity_word};
use crate::adapters::sentence;
use crate::theme::{Palette, bold};
use egui::{RichText, ScrollArea, Ui};
use gable_measure::Finding;

/// What the checks noticed, worst first. Returns the place of the finding that was clicked.
pub(crate) fn findings(ui: &mut Ui, findings: &[Finding], name_of: impl Fn(&str) -> String) -> Option<String> {
    if findings.is_empty() {
        ui.label("Nothing stands out.");
        return None;
    }
    let mut sorted: Vec<&Finding> = findings.iter().collect();
    sorted.sort_by_key(|f| std::cmp::Reverse(f.severity));
    let mut chosen = None;
    ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]).show(ui, |ui| {
        for (k, finding) in sorted.iter().enumerate() {
            ui.push_id(k, |ui| {
                if row(ui, finding, &name_of(&finding.place)) {
                    chosen = Some(finding.place.clone());
                }
            });
        }
    });
    chosen
}

fn row(ui: &mut Ui, finding: &Finding, place: &str) -> bool {
    let palette = Palette::of(ui.ctx());
    let mut clicked = false;
    ui.horizontal_top(|ui| {
        severity_icon(ui, finding.severity);
        let word = bold(severity_word(finding.severity)).color(severity_colour(&palette, finding.severity));
        ui.label(word);
        let show = ui.button(place).on_hover_text("Show where this is");
        clicked = show.clicked();
        ui.vertical(|ui| {
            ui.add(egui::Label::new(sentence(&finding.what)).wrap());
            if !finding.remedy.is_empty() {
                ui.add(egui::Label::new(RichText::new(sentence(&finding.remedy)).color(palette.faint_ink)).wrap());
            }
        });
    });
    clicked
}
