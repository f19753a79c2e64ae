use crate::theme::Palette;
use egui::{Frame, Margin, RichText, Ui};
use gable_words::tr;
use std::time::Duration;

/// Something to tell the person once, at the foot of the window.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Notice {
    /// Whether something went wrong.
    bad: bool,
    /// What happened and what to do.
    words: String,
    /// Seconds for which it stays; without end when there is something to read.
    stays: Option<f64>,
    /// When it was first seen, on the clock of the window, s.
    since: Option<f64>,
}

impl Notice {
    /// Something was done.
    pub(crate) fn done(words: impl Into<String>) -> Self {
        Self { bad: false, words: words.into(), stays: None, since: None }
    }

    /// Something was done that needs no more than a glance.
    pub(crate) fn passing(words: impl Into<String>) -> Self {
        Self { stays: Some(6.0), ..Self::done(words) }
    }

    /// Whether it goes away by itself.
    pub(crate) fn passes(&self) -> bool {
        self.stays.is_some()
    }

    /// Something went wrong.
    pub(crate) fn trouble(words: impl Into<String>) -> Self {
        Self { bad: true, ..Self::done(words) }
    }
}

/// Shows a notice; true once it has had its time or the person has closed it.
pub(crate) fn notice(ui: &mut Ui, notice: &mut Notice) -> bool {
    let palette = Palette::of(ui.ctx());
    let colour = if notice.bad { palette.blocking } else { palette.ink };
    let mut away = false;
    Frame::new().inner_margin(Margin::symmetric(12, 2)).show(ui, |ui| {
        ui.horizontal(|ui| {
            let word = if notice.bad { tr!("Sorry: ") } else { "" };
            away = ui.button(tr!("Close")).on_hover_text(tr!("Close this message")).clicked();
            ui.add(egui::Label::new(RichText::new(format!("{word}{}", notice.words)).color(colour)).wrap());
        });
    });
    let now = ui.input(|i| i.time);
    let since = *notice.since.get_or_insert(now);
    if let Some(left) = notice.stays.map(|stays| since + stays - now) {
        away |= left <= 0.0;
        ui.ctx().request_repaint_after(Duration::from_secs_f64(left.max(0.0)));
    }
    away
}
