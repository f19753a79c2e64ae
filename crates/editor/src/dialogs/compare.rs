use crate::adapters;
use crate::table::{Paper, drawing};
use crate::theme::Palette;
use egui::{Rect, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, accesskit::Role, vec2};
use gable_drawing::Drawing;
use gable_plane::P2;
use gable_shell::House;
use gable_words::tr;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::SystemTime;

/// A house as one of two to choose between.
#[derive(Clone, Debug)]
pub(crate) struct Side {
    /// What it is and when it was changed.
    pub(crate) words: String,
    /// How it looks; `None` when it cannot be worked out, which may be why the program ended.
    pub(crate) picture: Option<Drawing>,
}

impl Side {
    pub(crate) fn of(words: String, house: &House) -> Self {
        let draw = || adapters::picture(&gable_shell::solve(house));
        Self { words, picture: catch_unwind(AssertUnwindSafe(draw)).ok() }
    }
}

/// Room for one of two pictures, in points.
const WIDEST: f32 = 250.0;

/// Shows houses side by side, or below each other where the window is narrow.
pub(super) fn sides(ui: &mut Ui, sides: &[&Side]) {
    let palette = Palette::of(ui.ctx());
    let width = ((ui.available_width() - 8.0) / 2.0).clamp(120.0, WIDEST);
    ui.horizontal_wrapped(|ui| {
        for side in sides {
            ui.allocate_ui(vec2(width, width), |ui| {
                ui.vertical(|ui| {
                    let (rect, response) = ui.allocate_exact_size(vec2(width, width * 0.72), Sense::hover());
                    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &side.words));
                    let edge = Stroke::new(1.0, palette.edge);
                    ui.painter().rect(rect, 10.0, palette.paper, edge, StrokeKind::Inside);
                    if let Some(picture) = &side.picture {
                        paint(ui, rect.shrink(10.0), picture, &palette);
                    }
                    ui.set_max_width(width);
                    ui.label(&side.words);
                });
            });
        }
    });
}

/// A picture that fills a box.
pub(super) fn paint(ui: &Ui, rect: Rect, sheet: &Drawing, palette: &Palette) {
    let paper = Paper::fitted(rect, (P2::origin(), P2::new(sheet.width, sheet.height)), Vec2::ZERO);
    drawing(&ui.painter().with_clip_rect(rect.intersect(ui.clip_rect())), sheet, &paper, palette);
}

/// How long ago something was, in words. Clocks that disagree are no reason to say nonsense.
pub(super) fn ago(when: SystemTime, now: SystemTime) -> String {
    let seconds = now.duration_since(when).map_or(0, |d| d.as_secs());
    match seconds {
        0..60 => tr!("just now").to_owned(),
        60..3600 => tr!("{n} minute ago" | "{n} minutes ago" % seconds / 60),
        3600..86_400 => tr!("{n} hour ago" | "{n} hours ago" % seconds / 3600),
        _ => tr!("{n} day ago" | "{n} days ago" % seconds / 86_400),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[test]
    fn times_are_told_in_the_largest_whole_unit() {
        let now = SystemTime::UNIX_EPOCH + Duration::from_secs(10_000_000);
        let said = |seconds| ago(now - Duration::from_secs(seconds), now);
        assert_eq!(said(59), "just now");
        assert_eq!(said(60), "1 minute ago");
        assert_eq!(said(7199), "1 hour ago");
        assert_eq!(said(2 * 86_400 + 5), "2 days ago");
        assert_eq!(ago(now + Duration::from_secs(90), now), "just now");
    }
}
