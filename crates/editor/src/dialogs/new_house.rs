use super::asking;
use crate::adapters;
use crate::table::{Paper, drawing};
use crate::theme::Palette;
use egui::{Context, Rect, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, accesskit::Role, vec2};
use gable_drawing::Drawing;
use gable_plane::P2;
use gable_shell::House;

/// A small house to start from.
#[derive(Clone, Debug)]
pub(crate) struct Beginning {
    /// What it is called.
    pub(crate) name: String,
    /// The house.
    pub(crate) house: House,
    /// How it looks.
    pub(crate) picture: Drawing,
}

/// The houses to start from, with their pictures.
pub(crate) fn beginnings() -> Vec<Beginning> {
    let begin = |(name, house)| {
        let picture = adapters::picture(&gable_shell::solve(&house));
        Beginning { name, house, picture }
    };
    adapters::small_houses().into_iter().map(begin).collect()
}

/// What the person chose to begin with.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Choice {
    /// A small house.
    House(Box<House>),
    /// A file of their own.
    Open,
    /// Nothing now.
    Nothing,
}

/// Shows the houses to start from.
pub(crate) fn new_house(ctx: &Context, beginnings: &[Beginning], can_leave: bool) -> Option<Choice> {
    let mut answer = None;
    let room = ctx.content_rect().size();
    let modal = asking(ctx, "new house").show(ctx, |ui| {
        ui.set_width((room.x - 80.0).clamp(260.0, 784.0));
        ui.heading("What shall we bake?");
        ui.label("Start from a small house; everything about it can be changed.");
        ui.add_space(8.0);
        // At once as high as it will be: else it grows for some frames under the pointer.
        let high = (room.y - 220.0).max(0.0);
        let list = egui::ScrollArea::vertical().max_height(high).min_scrolled_height(high);
        list.auto_shrink([false, true]).show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                for beginning in beginnings {
                    if card(ui, beginning) {
                        answer = Some(Choice::House(Box::new(beginning.house.clone())));
                    }
                }
            });
        });
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            if ui.button("Open a house of mine…").clicked() {
                answer = Some(Choice::Open);
            }
            if can_leave && ui.button("Not now").clicked() {
                answer = Some(Choice::Nothing);
            }
        });
    });
    if can_leave && modal.should_close() {
        answer = answer.or(Some(Choice::Nothing));
    }
    answer
}

/// A picture with a name under it, to click on.
fn card(ui: &mut Ui, beginning: &Beginning) -> bool {
    let palette = Palette::of(ui.ctx());
    let (rect, response) = ui.allocate_exact_size(vec2(184.0, 172.0), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &beginning.name));
    let busy = response.hovered() || response.has_focus();
    let edge = if busy { Stroke::new(2.5, palette.accent) } else { Stroke::new(1.0, palette.edge) };
    ui.painter().rect(rect.shrink(1.5), 10.0, palette.paper, edge, StrokeKind::Inside);
    let picture = Rect::from_min_max(rect.min + Vec2::splat(12.0), rect.max - vec2(12.0, 38.0));
    let sheet = &beginning.picture;
    let paper = Paper::fitted(picture, (P2::origin(), P2::new(sheet.width, sheet.height)), Vec2::ZERO);
    drawing(&ui.painter().with_clip_rect(picture.intersect(ui.clip_rect())), sheet, &paper, &palette);
    let at = rect.center_bottom() - vec2(0.0, 20.0);
    ui.painter().text(at, egui::Align2::CENTER_CENTER, &beginning.name, egui::FontId::proportional(15.0), palette.ink);
    response.clicked()
}
