//! Unsaved work is kept beside the file of the house, so that a program that is killed costs about a second of it.
//!
//! Every window has a record in a folder of the person's own: a lock, which the system lets go of when the program ends in
//! whatever way, and the name of the file that is open there. A record that nobody holds is what a killed window left.
//! Copies are house files like any other. Nothing of this is done without such a folder.

mod record;
mod watch;
mod writer;

use gable_words::tr;
pub(crate) use record::Left;

use crate::document::Document;
use record::Record;
use std::path::{Path, PathBuf};
use watch::Watch;
use writer::{Places, Writer};

/// What keeps the unsaved work of one window.
#[derive(Debug, Default)]
pub(crate) struct Keep {
    record: Option<Record>,
    writer: Writer,
    watch: Watch,
    places: Option<Places>,
    /// The record of a killed window whose work goes on here; it is no window of its own.
    adopted: Option<String>,
    /// Revision of the house in the copy; `None` while there is no copy.
    kept: Option<u64>,
}

impl Keep {
    /// Where this machine keeps such files.
    pub(crate) fn usual_folder() -> Option<PathBuf> {
        Some(dirs::data_local_dir()?.join("gablewright").join("windows"))
    }

    /// Keeps work with records in this folder, beside the window if there is one to be woken.
    ///
    /// # Errors
    /// When the folder cannot be made.
    pub(crate) fn in_folder(folder: &Path, woken: Option<&egui::Context>) -> Result<Self, String> {
        let record = Record::claim(folder).map_err(|e| {
            let why = gable_export::plain_reason(&e);
            tr!("unsaved work is not kept, because {} cannot be written: {why}. Save often.", folder.display())
        })?;
        let (writer, watch) = woken.map_or_else(Default::default, |ctx| (Writer::aside(ctx), Watch::aside(ctx)));
        Ok(Self { record: Some(record), writer, watch, ..Self::default() })
    }

    /// Unsaved work that killed windows left.
    pub(crate) fn left(&self) -> Vec<Left> {
        self.record.as_ref().map(Record::left).unwrap_or_default()
    }

    /// Unsaved work that was left of this file.
    pub(crate) fn left_of(&self, file: &Path) -> Option<Left> {
        let own = self.places.as_ref().and_then(|p| p.beside.as_deref());
        self.record.as_ref()?.left_of(file).filter(|left| Some(left.copy.as_path()) != own)
    }

    /// The process that has another window with this file.
    pub(crate) fn who_has(&self, file: &Path) -> Option<u32> {
        self.record.as_ref()?.who_has(file, self.adopted.as_deref())
    }

    /// The work that was left goes on in this window.
    pub(crate) fn adopt(&mut self, left: &Left) {
        self.adopted = left.id().map(str::to_owned);
    }

    /// Another house is in the window, or the same one has another file. What was kept of the last one is not needed any
    /// more.
    pub(crate) fn turn_to(&mut self, file: Option<&Path>) -> Result<(), String> {
        let Some(record) = &self.record else { return Ok(()) };
        if let Some(places) = self.places.take() {
            self.writer.remove(places);
        }
        // Two windows must not write one copy.
        let shared = file.is_some_and(|file| record.who_has(file, self.adopted.as_deref()).is_some());
        self.places = Some(record.places(file.filter(|_| !shared)));
        self.kept = None;
        self.watch.turn_to(file);
        record.name(file)
    }

    /// Sees to it that what is kept is the house as it is now. Says what went wrong with it since the last call.
    pub(crate) fn note(&mut self, document: Option<&Document>) -> Option<String> {
        let (document, places) = (document?, self.places.as_ref()?);
        let wanted = document.is_changed().then(|| document.revision());
        if wanted != self.kept {
            match wanted {
                Some(_) => self.writer.keep(places.clone(), document.house()),
                None => self.writer.remove(places.clone()),
            }
            self.kept = wanted;
        }
        self.writer.trouble()
    }

    /// Waits until the copy is on the disk.
    pub(crate) fn flush(&self) {
        self.writer.flush();
    }

    /// Whether the file has become another one since it was read or saved here.
    pub(crate) fn file_changed(&self) -> bool {
        self.watch.has_changed()
    }

    /// The same, looked at now and not some seconds ago.
    pub(crate) fn file_changed_now(&self) -> bool {
        self.watch.differs()
    }

    /// The file as it is on the disk is known here.
    pub(crate) fn file_seen(&self, file: &Path) {
        self.watch.turn_to(Some(file));
    }

    /// The window closes, and nothing of it needs to be kept.
    pub(crate) fn close(&mut self) {
        if let Some(places) = self.places.take() {
            self.writer.remove(places);
        }
        self.writer.flush();
        if let Some(record) = self.record.take() {
            record.remove();
        }
    }
}
