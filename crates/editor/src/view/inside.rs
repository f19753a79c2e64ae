//! What is set below the picture's switches: where the house is cut, and how much of it stands.

use super::View;
use super::section::{Section, Through};
use crate::fields::Form;
use crate::theme::bold;
use crate::view::Shown;
use egui::{Button, ScrollArea, Slider, Ui, WidgetInfo};
use gable_measure::Length;
use gable_shell::House;
use gable_words::tr;

/// Highest the words of a stage may stand before they scroll, in points.
const WORDS: f32 = 118.0;
/// A heading and two lines of it are always seen, in points.
const LEAST_WORDS: f32 = 60.0;

impl View {
    /// Cuts the house through its middle, or no longer.
    pub(crate) fn switch_cut(&mut self) {
        self.cut = match self.cut {
            None => Some(Section { through: Through::FromLeft, at: f64::INFINITY }),
            Some(_) => None,
        };
    }

    /// Lets walls be seen through, or no longer.
    pub(crate) fn switch_clear(&mut self) {
        self.clear = !self.clear;
    }

    /// Shows the house as it is put up, from the first stage on, or the finished one.
    pub(crate) fn switch_stages(&mut self) {
        self.stage = if self.stage.is_none() { Some(1) } else { None };
        if self.stage.is_some() {
            self.fold = 1.0;
        }
    }

    /// Controls of the cut and of the stages, while they are shown.
    pub(crate) fn inside(&mut self, ui: &mut Ui, form: &mut Form<'_>, house: &House, shown: &Shown) {
        self.where_cut(ui, form, shown);
        self.how_far_up(ui, house, shown);
    }

    fn where_cut(&mut self, ui: &mut Ui, form: &mut Form<'_>, shown: &Shown) {
        let pose = self.pose_of(shown);
        let Some((section, bounds)) = self.cut.as_mut().zip(shown.model.bounds(&pose)) else { return };
        let ways = [(Through::FromLeft, tr!("Cut from the left")), (Through::FromFront, tr!("Cut from the front"))];
        ui.horizontal_wrapped(|ui| {
            for (through, words) in ways {
                if ui.add(Button::selectable(section.through == through, words)).clicked() && section.through != through
                {
                    *section = Section { through, at: f64::INFINITY };
                }
            }
            let (low, high) = section.through.span(bounds);
            let whole = high - low;
            if !section.at.is_finite() {
                section.at = crate::table::rounded(Length::mm_of(whole / 2.0), form.unit).mm();
            }
            section.at = section.at.clamp(0.0, whole);
            ui.spacing_mut().slider_width = (ui.available_width() - 16.0).clamp(80.0, 220.0);
            let slider = ui.add(Slider::new(&mut section.at, 0.0..=whole).show_value(false));
            let at = section.at;
            slider.widget_info(|| WidgetInfo::slider(true, at, tr!("Where the house is cut")));
            slider.on_hover_text(tr!(
                "The half towards you is taken away. Page up and page down on the picture move the cut too"
            ));
        });
        let label = if section.through == Through::FromLeft { tr!("From the left") } else { tr!("From the front") };
        let shown_at = Some(Length::mm_of((section.at * 10.0).round() / 10.0));
        if let Some(at) = form.length_of(ui, ("view.cut", label, tr!("move of the cut")), shown_at) {
            section.at = at.mm();
        }
    }

    fn how_far_up(&mut self, ui: &mut Ui, house: &House, shown: &Shown) {
        let Some(stage) = self.stage.as_mut() else { return };
        let guide = match shown.guide() {
            Some(Ok(guide)) if !guide.stages.is_empty() => guide,
            Some(_) => {
                ui.label(tr!("No order was found in which this house can be put up: see 'Putting it up' below."));
                return;
            }
            None => {
                ui.label(tr!("Looking for an order…"));
                return;
            }
        };
        let count = guide.stages.len();
        *stage = (*stage).clamp(1, count);
        ui.horizontal(|ui| {
            if ui.add_enabled(*stage > 1, Button::new(tr!("Stage before"))).clicked() {
                *stage -= 1;
            }
            if ui.add_enabled(*stage < count, Button::new(tr!("Next stage"))).clicked() {
                *stage += 1;
            }
            ui.spacing_mut().slider_width = (ui.available_width() - 16.0).clamp(60.0, 260.0);
            let slider = ui.add(Slider::new(stage, 1..=count).show_value(false));
            let (now, words) = (*stage as f64, tr!("Stages that are put up, of {count}"));
            slider.widget_info(|| WidgetInfo::slider(true, now, &words));
            slider.on_hover_text(tr!("How much of the house stands; what is new has coloured edges"));
        });
        let words = gable_export::stage_words((house, &shown.solved, &shown.dressed), guide, *stage - 1);
        // In a low window the picture needs the room.
        let high = WORDS.min(ui.available_height() * 0.26).max(LEAST_WORDS);
        ScrollArea::vertical().id_salt(("stage words", *stage)).max_height(high).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 12.0);
            for (n, text) in words.into_iter().enumerate() {
                if n == 0 {
                    ui.label(bold(text))
                } else {
                    ui.label(text)
                };
            }
        });
        ui.add_space(4.0);
    }

    /// Which pieces stand before the stage that is shown and with it, if a stage is shown.
    pub(super) fn standing(&self, shown: &Shown) -> Option<Vec<Standing>> {
        let guide = shown.guide().and_then(|g| g.as_ref().ok())?;
        let stage = self.stage?.clamp(1, guide.stages.len().max(1));
        Some((0..shown.solved.pieces.len()).map(|k| Standing::at(stage, guide.stage_of(k))).collect())
    }

    /// Moves the cut by so many steps, or goes to another stage.
    pub(super) fn page(&mut self, steps: f64) {
        if steps == 0.0 {
            return;
        }
        if let Some(section) = &mut self.cut {
            section.at += steps * 5.0;
        } else if let Some(stage) = &mut self.stage {
            *stage = if steps > 0.0 { stage.saturating_add(1) } else { stage.saturating_sub(1) };
        }
    }
}

/// Whether a piece stands while the house is put up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Standing {
    /// Not yet.
    Not,
    /// It stood before this stage.
    Before,
    /// It is put up in this stage.
    New,
}

impl Standing {
    /// How a piece stands at a stage, counted from 1, that is put up in its own, counted from 0, or in none.
    fn at(stage: usize, own: Option<usize>) -> Self {
        match own {
            Some(own) if own + 1 < stage => Self::Before,
            Some(own) if own + 1 == stage => Self::New,
            _ => Self::Not,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Standing::{self, Before, New, Not};

    #[test]
    fn what_is_put_up_in_a_stage_is_new_in_it_and_stands_in_later_ones() {
        let second = [1, 2, 3].map(|stage| Standing::at(stage, Some(1)));
        assert_eq!(second, [Not, New, Before]);
        assert_eq!(Standing::at(1, Some(0)), New);
        assert_eq!(Standing::at(9, None), Not, "in no stage, never");
    }
}
