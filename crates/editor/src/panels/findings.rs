use super::icon::{severity_colour, severity_icon, severity_word};
use crate::adapters::sentence;
use crate::theme::{Palette, bold};
use egui::{RichText, ScrollArea, Ui};
use gable_measure::Finding;
use gable_shell::{Offer, Relation};

/// What the person did about a finding.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Heeded {
    /// Wants to see its place.
    Show(String),
    /// Takes what it offers.
    Take(Relation),
}

/// What the checks noticed, worst first, and what the person did about it.
pub(crate) fn findings(
    ui: &mut Ui,
    findings: &[Finding],
    offers: &[Offer],
    name_of: impl Fn(&str) -> String,
) -> Option<Heeded> {
    if findings.is_empty() {
        ui.label("Nothing stands out.");
        return None;
    }
    let mut sorted: Vec<(usize, &Finding)> = findings.iter().enumerate().collect();
    sorted.sort_by_key(|(_, f)| std::cmp::Reverse(f.severity));
    let offer = |k: usize| offers.iter().find(|o| o.finding == k);
    let mut chosen = None;
    ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]).show(ui, |ui| {
        for (k, finding) in sorted {
            ui.push_id(k, |ui| {
                chosen = row(ui, finding, &name_of(&finding.place), offer(k)).or(chosen.take());
            });
        }
    });
    chosen
}

fn row(ui: &mut Ui, finding: &Finding, place: &str, offer: Option<&Offer>) -> Option<Heeded> {
    let palette = Palette::of(ui.ctx());
    let mut heeded = None;
    ui.horizontal_top(|ui| {
        severity_icon(ui, finding.severity);
        let word = bold(severity_word(finding.severity)).color(severity_colour(&palette, finding.severity));
        ui.label(word);
        let show = ui.button(place).on_hover_text("Show where this is");
        if show.clicked() {
            heeded = Some(Heeded::Show(finding.place.clone()));
        }
        if let Some(offer) = offer
            && ui.button("Make them level").on_hover_text("And keep them so; Undo takes it back").clicked()
        {
            heeded = Some(Heeded::Take(offer.relation.clone()));
        }
        ui.vertical(|ui| {
            ui.add(egui::Label::new(sentence(&finding.what)).wrap());
            if !finding.remedy.is_empty() {
                ui.add(egui::Label::new(RichText::new(sentence(&finding.remedy)).color(palette.faint_ink)).wrap());
            }
        });
    });
    heeded
}
