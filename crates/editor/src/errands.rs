//! What takes long or waits for the person elsewhere, done beside the window.

use crate::adapters::NoPack;
use crate::dialogs::PathUse;
use gable_words::tr;
use rfd::FileDialog;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::{Duration, Instant};

/// A result that is still to come.
#[derive(Debug)]
pub(crate) struct Errand<T> {
    result: Receiver<T>,
    begun: Instant,
}

/// What is known of an errand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Progress<T> {
    /// Not done.
    Under,
    /// Done, after so long.
    Done(T, Duration),
    /// It broke off without a result.
    Lost,
}

impl<T: Send + 'static> Errand<T> {
    /// Starts something; the window is woken when it is done.
    pub(crate) fn start(ctx: &egui::Context, work: impl FnOnce() -> T + Send + 'static) -> Self {
        let (send, result) = channel();
        let (ctx, tongue) = (ctx.clone(), gable_words::spoken());
        thread::spawn(move || {
            tongue.speak();
            // Nobody waits any more if the window is gone.
            let _ = send.send(work());
            ctx.request_repaint();
        });
        Self { result, begun: Instant::now() }
    }

    /// Looks whether it is done.
    pub(crate) fn look(&self) -> Progress<T> {
        match self.result.try_recv() {
            Ok(value) => Progress::Done(value, self.begun.elapsed()),
            Err(TryRecvError::Empty) => Progress::Under,
            Err(TryRecvError::Disconnected) => Progress::Lost,
        }
    }
}

/// What is being written into a folder: a pack, or files for other programs.
#[derive(Debug)]
pub(crate) struct Writing {
    /// Which of them.
    pub(crate) purpose: PathUse,
    /// Where it goes.
    pub(crate) folder: PathBuf,
    /// What it comes to, in words.
    pub(crate) errand: Errand<Result<String, NoPack>>,
}

/// Faster than this nobody closes a window for file names: there was none.
pub(crate) const NO_DIALOG: Duration = Duration::from_millis(400);

/// Whether the desktop can be asked for file names at all.
pub(crate) fn desktop_asks() -> bool {
    if !cfg!(target_os = "linux") {
        return true;
    }
    let runtime = std::env::var_os("XDG_RUNTIME_DIR").map(PathBuf::from);
    std::env::var_os("DBUS_SESSION_BUS_ADDRESS").is_some() || runtime.is_some_and(|dir| dir.join("bus").exists())
}

/// Asks the desktop for a file name.
pub(crate) fn ask_desktop(ctx: &egui::Context, purpose: PathUse, begin: &Path) -> Errand<Option<PathBuf>> {
    let mut dialog = FileDialog::new();
    let folder = if begin.is_dir() { Some(begin) } else { begin.parent() };
    if let Some(folder) = folder.filter(|f| f.is_absolute()) {
        dialog = dialog.set_directory(folder);
    }
    let name = begin.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let ask = move || match purpose {
        PathUse::Open | PathUse::Another => dialog.add_filter(tr!("Houses and packs"), &["json", "pdf"]).pick_file(),
        PathUse::Save => dialog.add_filter(tr!("Houses"), &["json"]).set_file_name(name).save_file(),
        PathUse::Picture => dialog.add_filter(tr!("Pictures"), &["png"]).set_file_name(name).save_file(),
        PathUse::KeyCard => dialog.add_filter(tr!("Pages"), &["pdf"]).set_file_name(name).save_file(),
        PathUse::Calendar => dialog.add_filter(tr!("Calendars"), &["ics"]).set_file_name(name).save_file(),
        PathUse::Table | PathUse::ShoppingList => {
            dialog.add_filter(tr!("Tables"), &["csv"]).set_file_name(name).save_file()
        }
        PathUse::Outline => dialog.add_filter(tr!("Drawings"), &["svg"]).pick_file(),
        PathUse::PackFolder | PathUse::FilesFolder => dialog.pick_folder(),
    };
    if cfg!(target_os = "macos") {
        // There only the thread of the window may ask.
        let answer = ask();
        return Errand::start(ctx, move || answer);
    }
    Errand::start(ctx, ask)
}
