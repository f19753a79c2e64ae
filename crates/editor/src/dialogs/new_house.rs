use super::asking;
use super::compare::{ago, paint};
use crate::adapters;
use crate::person::Settings;
use crate::theme::{Palette, bold};
use egui::{Context, Rect, ScrollArea, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, accesskit::Role, vec2};
use gable_drawing::Drawing;
use gable_shell::House;
use gable_words::tr;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Something to start from.
#[derive(Clone, Debug)]
struct Beginning {
    /// What it is called.
    name: String,
    /// When it was saved, for a house of the person's own.
    note: String,
    /// What choosing it means.
    choice: Choice,
    /// How it looks.
    picture: Option<Drawing>,
}

/// Everything to start from, with pictures.
#[derive(Clone, Debug)]
pub(crate) struct Beginnings(Vec<(&'static str, Vec<Beginning>)>);

/// So many houses of the person's own are shown.
const RECENT: usize = 8;

impl Beginnings {
    /// Houses of the person's own, the latest first; then what the program brings.
    pub(crate) fn of(settings: &Settings, recent: &[PathBuf]) -> Self {
        let own: Vec<Beginning> = recent.iter().filter_map(|p| recent_house(p)).take(RECENT).collect();
        let brought = adapters::small_houses(settings).into_iter();
        let brought = brought.map(|(group, houses)| (group, houses.into_iter().map(built_in).collect()));
        let groups = std::iter::once((tr!("Your houses"), own)).chain(brought);
        Self(groups.filter(|(_, houses): &(_, Vec<_>)| !houses.is_empty()).collect())
    }
}

fn built_in((name, house): (String, House)) -> Beginning {
    let picture = picture_of(&house);
    Beginning { name, note: String::new(), choice: Choice::House(Box::new(house)), picture }
}

/// A file that can be read; what cannot is not offered, but stays in the list.
fn recent_house(path: &Path) -> Option<Beginning> {
    let house = adapters::read_house(path).ok()?;
    let when = std::fs::metadata(path).and_then(|m| m.modified()).ok()?;
    let title = house.owner.title.trim();
    let file = path.file_name()?.to_string_lossy().into_owned();
    let name = if title.is_empty() { file } else { title.to_owned() };
    let note = tr!("saved {}", ago(when, SystemTime::now()));
    Some(Beginning { name, note, choice: Choice::File(path.to_owned()), picture: picture_of(&house) })
}

/// A fault of the program costs no more than the picture.
fn picture_of(house: &House) -> Option<Drawing> {
    catch_unwind(AssertUnwindSafe(|| adapters::picture(&gable_shell::solve(house)))).ok()
}

/// What the person chose to begin with.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Choice {
    /// A small house.
    House(Box<House>),
    /// A house of their own that was open before.
    File(PathBuf),
    /// Another file of their own.
    Open,
    /// Nothing now.
    Nothing,
}

/// The page that the window opens with.
pub(crate) fn page(ui: &mut Ui, beginnings: Option<&Beginnings>) -> Option<Choice> {
    let mut answer = None;
    let side = ((ui.available_width() - 980.0) / 2.0).max(8.0);
    egui::Frame::new().inner_margin(egui::Margin::symmetric(side as i8, 8)).show(ui, |ui| {
        ui.heading(tr!("What shall we bake?"));
        ui.horizontal_wrapped(|ui| {
            if ui.button(tr!("Open a house of mine…")).clicked() {
                answer = Some(Choice::Open);
            }
            ui.label(tr!("or drop a house file or a pack (PDF) on this window."));
        });
        ui.add_space(4.0);
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            answer = groups(ui, beginnings).or(answer.take());
        });
    });
    answer
}

/// Asks what to start from, while another house is in the window.
pub(crate) fn new_house(ctx: &Context, beginnings: Option<&Beginnings>) -> Option<Choice> {
    let mut answer = None;
    let room = ctx.content_rect().size();
    let modal = asking(ctx, tr!("new house")).show(ctx, |ui| {
        ui.set_width((room.x - 80.0).clamp(260.0, 784.0));
        ui.heading(tr!("What shall we bake?"));
        ui.add_space(8.0);
        // At once as high as it will be: else it grows for some frames under the pointer.
        let high = (room.y - 220.0).max(0.0);
        let list = ScrollArea::vertical().max_height(high).min_scrolled_height(high);
        list.auto_shrink([false, true]).show(ui, |ui| answer = groups(ui, beginnings));
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            if ui.button(tr!("Open a house of mine…")).clicked() {
                answer = Some(Choice::Open);
            }
            if ui.button(tr!("Not now")).clicked() {
                answer = Some(Choice::Nothing);
            }
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(Choice::Nothing));
    }
    answer
}

fn groups(ui: &mut Ui, beginnings: Option<&Beginnings>) -> Option<Choice> {
    let Some(Beginnings(groups)) = beginnings else {
        ui.label(tr!("The pictures are being drawn…"));
        return None;
    };
    let mut answer = None;
    for (heading, houses) in groups {
        ui.add_space(6.0);
        ui.label(bold(*heading));
        ui.horizontal_wrapped(|ui| {
            for beginning in houses {
                if card(ui, beginning) {
                    answer = Some(beginning.choice.clone());
                }
            }
        });
    }
    answer
}

/// A picture with a name under it, to click on.
fn card(ui: &mut Ui, beginning: &Beginning) -> bool {
    let palette = Palette::of(ui.ctx());
    let (rect, response) = ui.allocate_exact_size(vec2(184.0, 172.0), Sense::click());
    let comma = if beginning.note.is_empty() { "" } else { ", " };
    let label = format!("{}{comma}{}", beginning.name, beginning.note);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &label));
    let busy = response.hovered() || response.has_focus();
    let edge = if busy { Stroke::new(2.5, palette.accent) } else { Stroke::new(1.0, palette.edge) };
    ui.painter().rect(rect.shrink(1.5), 10.0, palette.paper, edge, StrokeKind::Inside);
    let low = if beginning.note.is_empty() { 38.0 } else { 52.0 };
    let picture = Rect::from_min_max(rect.min + Vec2::splat(12.0), rect.max - vec2(12.0, low));
    if let Some(sheet) = &beginning.picture {
        paint(ui, picture, sheet, &palette);
    }
    let write = |words: &str, up: f32, size: f32, colour| {
        let font = egui::FontId::proportional(size);
        let mut job = egui::text::LayoutJob::simple_singleline(words.to_owned(), font, colour);
        job.wrap = egui::text::TextWrapping::truncate_at_width(rect.width() - 20.0);
        let galley = ui.painter().layout_job(job);
        let at = rect.center_bottom() - vec2(galley.size().x / 2.0, up + galley.size().y / 2.0);
        ui.painter().galley(at, galley, colour);
    };
    write(&beginning.name, low - 18.0, 15.0, palette.ink);
    write(&beginning.note, 15.0, 12.5, palette.faint_ink);
    response.clicked()
}
