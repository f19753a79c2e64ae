use crate::theme::Palette;
use egui::{Frame, Margin, RichText, Ui};

/// Something to tell the person once, at the foot of the window.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Notice {
    /// Whether something went wrong.
    pub(crate) bad: bool,
    /// What happened and what to do.
    pub(crate) words: String,
}

impl Notice {
    /// Something was done.
    pub(crate) fn done(words: impl Into<String>) -> Self {
        Self { bad: false, words: words.into() }
    }

    /// Something went wrong.
    pub(crate) fn trouble(words: impl Into<String>) -> Self {
        Self { bad: true, words: words.into() }
    }
}

/// Shows a notice; true once the person has put it away.
pub(crate) fn notice(ui: &mut Ui, notice: &Notice) -> bool {
    let palette = Palette::of(ui.ctx());
    let colour = if notice.bad { palette.blocking } else { palette.ink };
    let mut away = false;
    Frame::new().inner_margin(Margin::symmetric(12, 6)).show(ui, |ui| {
        ui.horizontal(|ui| {
            let word = if notice.bad { "Sorry: " } else { "" };
            away = ui.button("Put away").clicked();
            ui.add(egui::Label::new(RichText::new(format!("{word}{}", notice.words)).color(colour)).wrap());
        });
    });
    away
}
