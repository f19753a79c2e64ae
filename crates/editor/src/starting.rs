//! How one begins: the four questions, the page to choose from, settings, and files that are dropped on the window.

use crate::adapters;
use crate::app::Editor;
use crate::dialogs::{self, Beginnings, Choice, Dialog, FirstChoice, Heard, PathUse, SettingsChoice, Then, TrayChoice};
use crate::document::Document;
use crate::errands::{Errand, Progress};
use crate::keys;
use crate::panels::Notice;
use crate::person::{Look, Settings};
use crate::theme::Palette;
use egui::{Context, Theme, ThemePreference};
use gable_export::save;
use gable_words::tr;
use std::path::{Path, PathBuf};

/// What there is to start from, as far as it is drawn.
#[derive(Debug, Default)]
pub(crate) struct Offer {
    drawn: Option<Beginnings>,
    coming: Option<Errand<Beginnings>>,
    /// What was chosen on the opening page in this frame.
    pub(crate) chosen: Option<Choice>,
}

impl Offer {
    /// What is drawn already.
    pub(crate) fn drawn(&self) -> Option<&Beginnings> {
        self.drawn.as_ref()
    }

    /// Draws anew at the next time: settings or files have changed.
    pub(crate) fn forget(&mut self) {
        *self = Self::default();
    }
}

impl Editor {
    /// Whether the opening page is all that is there.
    pub(crate) fn is_opening(&self) -> bool {
        self.document.is_none() && matches!(self.dialog, Some(Dialog::New))
    }

    /// Sees to it that there are pictures to choose from: at once, or beside the window.
    pub(crate) fn prepare_offer(&mut self, ctx: &Context) {
        let wanted = self.document.is_none() || matches!(self.dialog, Some(Dialog::New));
        if !wanted || self.offer.drawn.is_some() {
            return;
        }
        let (settings, recent) = (self.person.settings().clone(), self.person.recent().to_vec());
        if self.solver.wakes().is_none() {
            self.offer.drawn = Some(Beginnings::of(&settings, &recent));
            return;
        }
        let coming =
            self.offer.coming.get_or_insert_with(|| Errand::start(ctx, move || Beginnings::of(&settings, &recent)));
        if let Progress::Done(drawn, _) = coming.look() {
            self.offer.drawn = Some(drawn);
            self.offer.coming = None;
        }
    }

    /// What was chosen to start from.
    pub(crate) fn choose_house(&mut self, ctx: &Context) {
        let answer = if self.document.is_none() {
            self.offer.chosen.take()
        } else {
            dialogs::new_house(ctx, self.offer.drawn())
        };
        match answer {
            None => self.dialog = Some(Dialog::New),
            Some(Choice::House(house)) => self.take_up(Document::new(*house)),
            Some(Choice::File(path)) => self.open_this(path),
            Some(Choice::Open) => self.ask_path(ctx, PathUse::Open),
            Some(Choice::Nothing) => {}
        }
    }

    /// Opens a file that was named otherwise than by typing.
    pub(crate) fn open_this(&mut self, path: PathBuf) {
        match adapters::read_house(&path) {
            Ok(house) => self.arrive(Document::from_file(house, path)),
            Err(why) => {
                self.notice = Some(Notice::trouble(adapters::sentence(&why)));
                self.begin_somewhere();
            }
        }
    }

    /// A file that is dropped on the window is opened, unless a question is open.
    pub(crate) fn mind_drops(&mut self, ctx: &Context) {
        let (over, dropped) = ctx.input(|i| (!i.raw.hovered_files.is_empty(), i.raw.dropped_files.clone()));
        let free = self.dialog.is_none() || self.is_opening();
        if over {
            let words = if free { tr!("Drop it to open it") } else { tr!("Answer the question first") };
            show_over(ctx, words);
        }
        let path = dropped.first().map(|file| file.path().to_owned()).filter(|_| free);
        if let Some(path) = path {
            self.unless_changed(ctx, Then::OpenThis(path));
        }
    }

    /// The questions of the first start, unless they have been answered.
    pub(crate) fn ask_first(&mut self) {
        if self.person.is_new() && self.is_opening() {
            self.dialog = Some(Dialog::First(Box::new(FirstChoice::of(self.person.settings()))));
        }
    }

    /// What the person says to the questions of the first start.
    pub(crate) fn settle_first(&mut self, ctx: &Context, mut choice: Box<FirstChoice>) {
        match dialogs::first(ctx, &mut choice) {
            None => self.dialog = Some(Dialog::First(choice)),
            Some(told) => {
                let (settings, tray) = told.unwrap_or_else(|| (self.person.settings().clone(), None));
                self.set(settings);
                if let Some(tray) = tray {
                    let mut kitchen = self.home.kitchen().clone();
                    kitchen.trays.insert(0, tray);
                    self.furnish(kitchen);
                }
                self.begin_somewhere();
            }
        }
    }

    /// Takes other settings, which count from now on.
    pub(crate) fn set(&mut self, settings: Settings) {
        if settings.paper != self.person.settings().paper {
            self.pack = std::mem::take(&mut self.pack).on(settings.paper);
        }
        self.offer.forget();
        if let Err(why) = self.person.set(settings) {
            self.notice = Some(Notice::trouble(adapters::sentence(&why)));
        }
        self.speak(self.person.tongue());
    }

    /// Asks how the program shall be.
    pub(crate) fn ask_settings(&mut self) {
        self.dialog = Some(Dialog::Settings(Box::new(SettingsChoice::of(self.person.settings()))));
    }

    /// Shows the settings; what is chosen counts at once.
    pub(crate) fn settle_settings(&mut self, ctx: &Context, mut choice: Box<SettingsChoice>) {
        let answer = dialogs::settings(ctx, &mut choice, &self.person.languages().names());
        if &choice.settings != self.person.settings() && choice.settings.unlikely().is_none() {
            self.set(choice.settings.clone());
            ctx.request_repaint();
        }
        match answer {
            None => self.dialog = Some(Dialog::Settings(choice)),
            Some(Heard::Done) => self.begin_somewhere(),
            Some(Heard::Kitchen) => {
                let unit = self.house().map_or(self.person.settings().unit, |h| h.unit);
                self.dialog = Some(Dialog::Trays(TrayChoice::of(self.home.kitchen(), unit)));
            }
        }
    }

    /// Shows all keys.
    pub(crate) fn settle_keys(&mut self, ctx: &Context) {
        match dialogs::key_list(ctx) {
            None => self.dialog = Some(Dialog::Keys),
            Some(card) => {
                self.begin_somewhere();
                if card {
                    self.ask_path(ctx, PathUse::KeyCard);
                }
            }
        }
    }

    /// Writes the page with all keys.
    pub(crate) fn make_key_card(&mut self, ctx: &Context, path: &Path) {
        self.begin_somewhere();
        let made = keys::card(ctx, self.person.settings().paper).map_err(|e| adapters::sentence(&e.to_string()));
        let saved = made.and_then(|pdf| save(path, &pdf).map_err(|e| adapters::sentence(&e.to_string())));
        self.notice = Some(match saved {
            Ok(()) => Notice::done(tr!("The key card is ready: {}.", path.display())),
            Err(why) => Notice::trouble(why),
        });
    }

    /// Another size of text, or the other look.
    pub(crate) fn change_look(&mut self, change: impl FnOnce(&mut Settings)) {
        let mut settings = self.person.settings().clone();
        change(&mut settings);
        if let Some(Dialog::Settings(choice)) = &mut self.dialog {
            **choice = SettingsChoice::of(&settings);
        }
        self.set(settings);
    }

    /// Makes the window look as the settings say.
    pub(crate) fn wear(&mut self, ctx: &Context) {
        let settings = self.person.settings();
        let wanted = (settings.look, settings.text, settings.still);
        if self.worn == Some(wanted) {
            return;
        }
        self.worn = Some(wanted);
        ctx.set_theme(match settings.look {
            Look::System => ThemePreference::System,
            Look::Light => ThemePreference::Light,
            Look::Dark => ThemePreference::Dark,
        });
        ctx.set_zoom_factor(f32::from(settings.text) / 100.0);
        let usual = egui::Style::default().animation_time;
        let time = if settings.still { 0.0 } else { usual };
        let still = settings.still;
        ctx.all_styles_mut(|style| {
            style.animation_time = time;
            style.visuals.text_cursor.blink = !still;
        });
        ctx.request_repaint();
    }
}

/// The look that is not there now.
pub(crate) fn other_look(ctx: &Context) -> Look {
    if ctx.theme() == Theme::Dark { Look::Light } else { Look::Dark }
}

/// Words over the whole window while a file is held over it.
fn show_over(ctx: &Context, words: &str) {
    let palette = Palette::of(ctx);
    let layer = egui::LayerId::new(egui::Order::Foreground, egui::Id::unique("dropping"));
    let (painter, all) = (ctx.layer_painter(layer), ctx.content_rect());
    painter.rect_filled(all, 0.0, palette.panel.gamma_multiply(0.85));
    let edge = egui::Stroke::new(3.0, palette.accent);
    painter.rect_stroke(all.shrink(14.0), 12.0, edge, egui::StrokeKind::Inside);
    let font = egui::FontId::proportional(24.0);
    painter.text(all.center(), egui::Align2::CENTER_CENTER, words, font, palette.ink);
}
