use super::icon::{severity_colour, severity_icon, severity_word};
use crate::adapters::sentence;
use crate::theme::{Palette, bold};
use egui::accesskit::Role;
use egui::{RichText, ScrollArea, Ui, WidgetInfo};
use gable_measure::Finding;
use gable_shell::{House, Remedy};
use gable_words::tr;

/// What the person did about a finding.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Heeded {
    /// Wants to see its place.
    Show(String),
    /// Takes the remedy.
    Take(Remedy),
    /// Wants to see the house with the remedy, or as it is again.
    Try(Remedy),
}

/// What the checks noticed, worst first, and what the person did about it.
pub(crate) fn findings(
    ui: &mut Ui,
    findings: &[Finding],
    (house, remedies, tried): (&House, &[Remedy], Option<&Remedy>),
    name_of: impl Fn(&str) -> String,
) -> Option<Heeded> {
    if findings.is_empty() {
        ui.label(tr!("Nothing stands out."));
        return None;
    }
    let mut sorted: Vec<(usize, &Finding)> = findings.iter().enumerate().collect();
    sorted.sort_by_key(|(_, f)| std::cmp::Reverse(f.severity));
    let remedy =
        |k: usize| remedies.iter().find(|r| r.finding == k).map(|r| (r, r.change.words(house), tried == Some(r)));
    let mut chosen = None;
    ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]).show(ui, |ui| {
        for (k, finding) in sorted {
            ui.push_id(k, |ui| {
                chosen = row(ui, finding, &name_of(&finding.place), remedy(k)).or(chosen.take());
            });
        }
    });
    chosen
}

fn row(ui: &mut Ui, finding: &Finding, place: &str, remedy: Option<(&Remedy, String, bool)>) -> Option<Heeded> {
    let palette = Palette::of(ui.ctx());
    let mut heeded = None;
    ui.horizontal_top(|ui| {
        severity_icon(ui, finding.severity);
        let word = bold(severity_word(finding.severity)).color(severity_colour(&palette, finding.severity));
        ui.label(word);
        let show = ui.button(place).on_hover_text(tr!("Show where this is"));
        if show.clicked() {
            heeded = Some(Heeded::Show(finding.place.clone()));
        }
        if let Some((remedy, words, tried)) = remedy {
            heeded = cure(ui, remedy, &words, tried).or(heeded.take());
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

/// The buttons that take a remedy or show what it does.
fn cure(ui: &mut Ui, remedy: &Remedy, words: &str, tried: bool) -> Option<Heeded> {
    let take = ui
        .button(words)
        .on_hover_text(tr!("Worked out by trying it: this finding goes and no other comes. Undo takes it back"));
    let show = ui
        .selectable_label(tried, tr!("Try"))
        .on_hover_text(tr!("Show the house with this change; it is not made yet"));
    show.widget_info(|| WidgetInfo::selected(Role::Button, true, tried, tr!("Try: {words}")));
    if take.clicked() {
        return Some(Heeded::Take(remedy.clone()));
    }
    show.clicked().then(|| Heeded::Try(remedy.clone()))
}
