//! What the program keeps of a person besides the kitchen: how things shall look, what new houses begin with, and which
//! houses were open last. Two files in the folder that the system has for settings.

mod languages;
mod recent;
mod settings;

pub(crate) use languages::Languages;
pub(crate) use recent::Recent;
pub(crate) use settings::{Look, Settings, TEXT_SIZES};

use gable_export::save;
use gable_words::{Tongue, tr};
use std::path::{Path, PathBuf};

/// Settings and recent houses, with where they are kept.
#[derive(Debug, Default)]
pub(crate) struct Person {
    /// Without a folder all of it lasts as long as the window.
    folder: Option<PathBuf>,
    settings: Settings,
    languages: Languages,
    recent: Recent,
    /// Whether the questions of the first start are still to be asked.
    new: bool,
}

impl Person {
    /// What is kept in a folder, with what could not be read.
    pub(crate) fn kept_in(folder: &Path) -> (Self, Vec<String>) {
        let settings = folder.join(settings::FILE);
        let (new, read) = (!settings.exists(), settings::read(&settings));
        let (languages, mut troubles) = Languages::kept_in(folder);
        let settings = read.unwrap_or_else(|why| {
            troubles.push(tr!("your settings could not be read, so the usual ones are taken: {why}"));
            Settings::default()
        });
        let recent = Recent::read(&folder.join(recent::FILE));
        (Self { folder: Some(folder.to_owned()), settings, languages, recent, new }, troubles)
    }

    /// How things shall be.
    pub(crate) fn settings(&self) -> &Settings {
        &self.settings
    }

    /// The languages that there are.
    pub(crate) fn languages(&self) -> &Languages {
        &self.languages
    }

    /// The language to speak.
    pub(crate) fn tongue(&self) -> Tongue {
        self.languages.tongue(self.settings.language.as_deref())
    }

    /// Whether this person has never been asked anything. Nobody is asked what could not be kept.
    pub(crate) fn is_new(&self) -> bool {
        self.new && self.folder.is_some()
    }

    /// Houses that were open last, the latest first.
    pub(crate) fn recent(&self) -> &[PathBuf] {
        self.recent.files()
    }

    /// Takes other settings and keeps them.
    ///
    /// # Errors
    /// When they cannot be written; they count all the same until the window is closed.
    pub(crate) fn set(&mut self, settings: Settings) -> Result<(), String> {
        self.settings = settings;
        self.new = false;
        self.keep(settings::FILE, &settings::write(&self.settings))
    }

    /// Notes that a file is open.
    ///
    /// # Errors
    /// When the list cannot be written.
    pub(crate) fn note(&mut self, file: &Path) -> Result<(), String> {
        if self.recent.note(file) { self.keep(recent::FILE, &self.recent.write()) } else { Ok(()) }
    }

    fn keep(&self, name: &str, text: &str) -> Result<(), String> {
        let Some(folder) = &self.folder else { return Ok(()) };
        std::fs::create_dir_all(folder).map_err(|e| {
            tr!("{} cannot be made, so nothing is kept: {}", folder.display(), gable_export::plain_reason(&e))
        })?;
        save(&folder.join(name), text.as_bytes()).map_err(|e| tr!("that lasts until you close the window: {e}"))
    }
}
