use crate::adapters::for_pack;
use crate::errands::{Errand, Progress};
use crate::theme::Palette;
use egui::{ColorImage, Context, RichText, Sense, Stroke, StrokeKind, TextureHandle, TextureOptions, Ui, WidgetInfo};
use egui::{accesskit::Role, vec2};
use gable_export::{Baker, PackOptions, Page, Pixels, pack_for, pixels};
use gable_shell::House;
use gable_words::{Tongue, tr};
use std::sync::Arc;

/// Pages are drawn this wide, pixels.
const WIDE: u32 = 1000;

/// The pages of the pack that would be made, worked out beside the window.
#[derive(Default)]
pub(crate) struct Preview {
    /// What the pages are made of: revision of the house, and the choice.
    made_of: Option<(u64, PackOptions)>,
    making: Option<Errand<Result<Vec<Page>, String>>>,
    pages: Option<Result<Arc<Vec<Page>>, String>>,
    at: usize,
    drawing: Option<(usize, Errand<Result<Pixels, String>>)>,
    picture: Option<(usize, TextureHandle)>,
}

impl Preview {
    /// Forgets everything; the next time the pages are made anew.
    pub(crate) fn forget(&mut self) {
        *self = Self::default();
    }

    /// Sees to it that the pages are those of a house and a choice.
    pub(super) fn follow(
        &mut self,
        ctx: &Context,
        (house, revision, name): (&House, u64, &str),
        options: &PackOptions,
        baker: &Baker,
    ) {
        if self.made_of != Some((revision, *options)) {
            // One at a time: what is under way is waited for, and thrown away.
            if self.making.is_none() {
                let (house, name, wanted, baker) = (house.clone(), name.to_owned(), *options, baker.clone());
                let make = move || {
                    let (house, baker) = for_pack(&house, &name, (&wanted, &baker))?;
                    // As they will be printed, whatever the window speaks.
                    let pages = || pack_for(&gable_shell::solve(&house), &house, &wanted, &baker);
                    Tongue::ENGLISH.while_speaking(pages).map_err(|e| e.to_string())
                };
                *self = Self { at: self.at, made_of: Some((revision, *options)), ..Self::default() };
                self.making = Some(Errand::start(ctx, make));
            }
        }
        if let Some(errand) = self.making.take() {
            match errand.look() {
                Progress::Under => self.making = Some(errand),
                Progress::Done(made, _) => self.pages = Some(made.map(Arc::new)),
                Progress::Lost => {
                    self.pages = Some(Err(tr!(
                        "the pages could not be made, which is a fault of the program; try it without some of the pages"
                    )
                    .into()))
                }
            }
        }
        self.draw(ctx);
    }

    /// What the page is about: its title in the list of contents, or that of the page before it.
    fn chapter(&self) -> String {
        let Some(Ok(pages)) = &self.pages else { return String::new() };
        let title = pages.iter().take(self.at + 1).rev().find_map(|page| page.bookmark.as_deref());
        title.map_or_else(String::new, |title| format!(": {title}"))
    }

    fn draw(&mut self, ctx: &Context) {
        let Some(Ok(pages)) = &self.pages else { return };
        self.at = self.at.min(pages.len().saturating_sub(1));
        let (at, pages) = (self.at, pages.clone());
        if let Some((page, errand)) = self.drawing.take() {
            match errand.look() {
                Progress::Under => self.drawing = Some((page, errand)),
                Progress::Done(Ok(done), _) => {
                    let size = [done.width as usize, done.height as usize];
                    let image = ColorImage::from_rgba_unmultiplied(size, &done.rgba);
                    self.picture = Some((page, ctx.load_texture("page of the pack", image, TextureOptions::LINEAR)));
                }
                Progress::Done(Err(_), _) | Progress::Lost => {}
            }
        }
        let shown = self.picture.as_ref().is_some_and(|(page, _)| *page == at);
        if !shown && self.drawing.is_none() {
            let make = move || {
                pages
                    .get(at)
                    .map_or_else(|| Err(String::new()), |p| pixels(&p.drawing, WIDE).map_err(|e| e.to_string()))
            };
            self.drawing = Some((at, Errand::start(ctx, make)));
        }
    }

    /// The page that is looked at, as large as there is room, and a way to the others.
    pub(super) fn show(&mut self, ui: &mut Ui, room: egui::Vec2) {
        let palette = Palette::of(ui.ctx());
        let count = match &self.pages {
            Some(Ok(pages)) => pages.len(),
            Some(Err(error)) => {
                ui.label(RichText::new(crate::adapters::sentence(error)).color(palette.blocking));
                return;
            }
            None => 0,
        };
        ui.horizontal(|ui| {
            let back = ui.add_enabled(self.at > 0, egui::Button::new(tr!("Page before")));
            let next = ui.add_enabled(self.at + 1 < count, egui::Button::new(tr!("Next page")));
            self.at -= usize::from(back.clicked());
            self.at += usize::from(next.clicked());
            ui.label(if count == 0 {
                tr!("Making the pages…").into()
            } else {
                tr!("Page {} of {count}{}", self.at + 1, self.chapter())
            });
        });
        let texture = self.picture.as_ref().filter(|(page, _)| *page == self.at).map(|(_, texture)| texture);
        let size = texture.map_or(vec2(210.0, 297.0), TextureHandle::size_vec2);
        let scale = (room.x / size.x).min(room.y / size.y);
        let (area, response) = ui.allocate_exact_size(size * scale, Sense::hover());
        let name = tr!("Page {} of the pack{}", self.at + 1, self.chapter());
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
        let painter = ui.painter();
        painter.rect(area, 2.0, palette.paper, Stroke::new(1.0, palette.ink), StrokeKind::Outside);
        if let Some(texture) = texture {
            let whole = egui::Rect::from_min_max(egui::pos2(0.0, 0.0), egui::pos2(1.0, 1.0));
            painter.image(texture.id(), area, whole, egui::Color32::WHITE);
        }
    }
}
