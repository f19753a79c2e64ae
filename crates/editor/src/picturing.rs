//! The picture of the house as it is seen: taken from the window, so that whatever is switched on is in it.

use crate::adapters;
use crate::app::Editor;
use crate::errands::Errand;
use crate::panels::Notice;
use egui::{ColorImage, Context, Rect};
use gable_export::{Pixels, pack_png, save};
use gable_words::tr;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// How far saving a picture has come. While it lasts, nothing lies over the view.
#[derive(Debug, Default)]
pub(crate) enum Picturing {
    /// Nothing is saved.
    #[default]
    Not,
    /// It is to be saved there.
    Wanted(PathBuf),
    /// The window was asked for what it shows, with the view at this place of it; for this file.
    Asked(PathBuf, Rect, Receiver<Arc<ColorImage>>),
    /// It is being written.
    Written(PathBuf, Errand<Result<(), String>>),
}

impl Editor {
    /// Saves what is seen of the house, as soon as nothing lies over it.
    pub(crate) fn begin_picture(&mut self, ctx: &Context, path: PathBuf) {
        self.notice = None;
        self.layout.turn_to_view();
        self.picturing = Picturing::Wanted(path);
        ctx.request_repaint();
    }

    /// Before anything is drawn: takes away what lies over the view while its picture is taken.
    pub(crate) fn clear_picture(&mut self) {
        self.view.show_bare(matches!(self.picturing, Picturing::Wanted(_) | Picturing::Asked(..)));
    }

    /// After all is drawn: asks the window for what it shows, and writes what it has answered.
    pub(crate) fn take_picture(&mut self, ctx: &Context) {
        self.picturing = match std::mem::take(&mut self.picturing) {
            Picturing::Wanted(path) => match self.view.drawn_bare() {
                Some(picture) => {
                    let (send, image) = channel();
                    let awake = ctx.clone();
                    ctx.request_screenshot(move |image| {
                        // Nobody waits any more if the window is gone.
                        let _ = send.send(image);
                        awake.request_repaint();
                    });
                    ctx.request_repaint();
                    Picturing::Asked(path, picture, image)
                }
                None => Picturing::Wanted(path),
            },
            Picturing::Asked(path, picture, image) => match image.try_recv() {
                Ok(image) => {
                    let (scale, file) = (ctx.pixels_per_point(), path.clone());
                    let write = move || written(&cut_out(&image, picture, scale), &file);
                    Picturing::Written(path, Errand::start(ctx, write))
                }
                Err(TryRecvError::Empty) => Picturing::Asked(path, picture, image),
                Err(TryRecvError::Disconnected) => {
                    self.notice = Some(Notice::trouble(tr!(
                        "The picture could not be taken: the window gave none. Try it once more."
                    )));
                    Picturing::Not
                }
            },
            Picturing::Written(path, errand) => self.hear_of_picture(path, errand),
            Picturing::Not => Picturing::Not,
        };
    }

    fn hear_of_picture(&mut self, path: PathBuf, errand: Errand<Result<(), String>>) -> Picturing {
        use crate::errands::Progress;
        self.notice = Some(match errand.look() {
            Progress::Under => return Picturing::Written(path, errand),
            Progress::Done(Ok(()), _) => Notice::passing(tr!("The picture is in {}.", path.display())),
            Progress::Done(Err(why), _) => Notice::trouble(why),
            Progress::Lost => {
                Notice::trouble(tr!("The picture could not be written, which is a fault of the program."))
            }
        });
        Picturing::Not
    }
}

/// The pixels of a place of the window, as far as the window reaches.
fn cut_out(image: &ColorImage, place: Rect, scale: f32) -> Pixels {
    let [wide, high] = image.size;
    let within = |at: f32, most: usize| ((at * scale).round().max(0.0) as usize).min(most);
    let (left, right) = (within(place.left(), wide), within(place.right(), wide));
    let (top, bottom) = (within(place.top(), high), within(place.bottom(), high));
    let rows = (top..bottom).flat_map(|row| &image.pixels[row * wide + left..row * wide + right]);
    let rgba = rows.flat_map(|pixel| pixel.to_array()).collect();
    Pixels { width: (right - left) as u32, height: bottom.saturating_sub(top) as u32, rgba }
}

fn written(pixels: &Pixels, path: &Path) -> Result<(), String> {
    let png = pack_png(pixels.clone()).map_err(|e| adapters::sentence(&e.to_string()))?;
    save(path, &png).map_err(|e| adapters::sentence(&e.to_string()))
}
