use crate::history::History;
use gable_shell::House;
use gable_words::tr;
use std::path::{Path, PathBuf};

/// A house with its file and everything that was done to it.
#[derive(Clone, Debug)]
pub(crate) struct Document {
    house: House,
    /// As it was found.
    opened: House,
    path: Option<PathBuf>,
    saved: Option<House>,
    history: History,
    revision: u64,
}

impl Document {
    /// A house that is in no file yet. Until it is changed nothing of it can be lost.
    pub(crate) fn new(house: House) -> Self {
        Self {
            saved: Some(house.clone()),
            opened: house.clone(),
            house,
            path: None,
            history: History::default(),
            revision: 0,
        }
    }

    /// A house as it was read from a file. A house that rode inside a pack has no file of its own yet, so that the pack
    /// is not written over.
    pub(crate) fn from_file(house: House, path: PathBuf) -> Self {
        let is_pack = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("pdf"));
        Self { path: (!is_pack).then_some(path), ..Self::new(house) }
    }

    /// A house that is in no file as it is, though one may be meant for it.
    pub(crate) fn unsaved(house: House, path: Option<PathBuf>) -> Self {
        Self { path, saved: None, ..Self::new(house) }
    }

    /// The house as it is now.
    pub(crate) fn house(&self) -> &House {
        &self.house
    }

    /// The house as it was found.
    pub(crate) fn opened(&self) -> &House {
        &self.opened
    }

    /// Its file, once it has one.
    pub(crate) fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Grows with every change of the house.
    pub(crate) fn revision(&self) -> u64 {
        self.revision
    }

    /// Whether something would be lost by closing.
    pub(crate) fn is_changed(&self) -> bool {
        self.saved.as_ref() != Some(&self.house)
    }

    /// Whether this is the house that was saved last.
    pub(crate) fn is_saved_as(&self, house: &House) -> bool {
        self.saved.as_ref() == Some(house)
    }

    /// What was saved is not there any more.
    pub(crate) fn forget_saved(&mut self) {
        self.saved = None;
    }

    /// Notes that the house as it is now has been written to `path`.
    pub(crate) fn mark_saved(&mut self, path: PathBuf) {
        self.saved = Some(self.house.clone());
        self.path = Some(path);
    }

    /// Replaces the house; `name` says what was done, as in 'change of width'.
    pub(crate) fn change(&mut self, name: &str, house: House, gesture: Option<egui::Id>) {
        if house != self.house {
            self.history.record(name, &self.house, gesture);
            self.house = house;
            self.revision += 1;
        }
    }

    /// Ends a drag.
    pub(crate) fn end_gesture(&mut self) {
        self.history.end_gesture();
    }

    /// Takes the last step back.
    pub(crate) fn undo(&mut self) {
        self.revision += u64::from(self.history.undo(&mut self.house));
    }

    /// Does the last undone step again.
    pub(crate) fn redo(&mut self) {
        self.revision += u64::from(self.history.redo(&mut self.house));
    }

    /// What was done, for menus.
    pub(crate) fn history(&self) -> &History {
        &self.history
    }

    /// What the title bar calls the house.
    pub(crate) fn title(&self) -> String {
        let title = self.house.owner.title.trim();
        let own = (!title.is_empty()).then(|| title.to_owned());
        own.or_else(|| self.file_name()).unwrap_or_else(|| tr!("House without a name").to_owned())
    }

    /// What its pack is called: after its file, else its title; nothing without either.
    pub(crate) fn pack_name(&self) -> String {
        self.file_name().unwrap_or_else(|| self.house.owner.title.trim().to_owned())
    }

    /// 'my-hut' of 'my-hut.house.json'.
    fn file_name(&self) -> Option<String> {
        let name = self.path.as_deref()?.file_name()?.to_string_lossy();
        let short = name.strip_suffix(".json").unwrap_or(&name);
        let short = short.strip_suffix(".house").unwrap_or(short);
        (!short.is_empty()).then(|| short.to_owned())
    }
}
