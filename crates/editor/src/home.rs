use crate::notes::Notes;
use crate::view::Shown;
use gable_export::{Baker, notebook_file, read_text, save};
use gable_measure::Finding;
use gable_shell::kitchen::{self, Kitchen};
use gable_words::tr;
use std::path::{Path, PathBuf};

/// What the program keeps for a person between houses, in a file of the person's own. House files know nothing of it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Home {
    /// Where it is kept; without a place it lasts as long as the window.
    file: Option<PathBuf>,
    kitchen: Kitchen,
    /// The notebook beside it.
    pub(crate) notes: Notes,
}

impl Home {
    /// Where this machine keeps such files.
    pub(crate) fn usual_file() -> Option<PathBuf> {
        Some(dirs::config_dir()?.join("gablewright").join("kitchen.json"))
    }

    /// What is kept in a file, and the notebook beside it; nothing yet when there is none. With reasons for what cannot be read: it
    /// then stays as it is until the person says anew what there is.
    pub(crate) fn kept_in(file: PathBuf) -> (Self, Vec<String>) {
        let (notes, unread) = Notes::kept_in(notebook_file(&file));
        let empty = |file, notes| Self { file: Some(file), kitchen: Kitchen::default(), notes };
        if !file.exists() {
            return (empty(file, notes), unread.into_iter().collect());
        }
        let text = read_text(&file).map_err(|e| e.to_string());
        match text.and_then(|text| kitchen::read(&text).map_err(|e| format!("{}: {e}", file.display()))) {
            Ok(kitchen) => (Self { file: Some(file), kitchen, notes }, unread.into_iter().collect()),
            Err(error) => {
                let own = tr!("your kitchen could not be read, so the usual one is taken: {error}");
                (empty(file, notes), std::iter::once(own).chain(unread).collect())
            }
        }
    }

    /// What the person bakes with.
    pub(crate) fn kitchen(&self) -> &Kitchen {
        &self.kitchen
    }

    /// What goes into the bake plan.
    pub(crate) fn baker(&self) -> Baker {
        Baker { kitchen: self.kitchen.clone(), notebook: self.notes.notebook().clone(), ..Baker::default() }
    }

    /// Takes another kitchen and keeps it.
    ///
    /// # Errors
    /// When it cannot be written; it counts all the same until the window is closed.
    pub(crate) fn furnish(&mut self, kitchen: Kitchen) -> Result<(), String> {
        self.kitchen = kitchen;
        let Some(file) = &self.file else { return Ok(()) };
        let folder = file.parent().unwrap_or(Path::new("."));
        std::fs::create_dir_all(folder).map_err(|e| gable_export::plain_reason(&e)).map_err(|why| {
            tr!("your kitchen is known until you close the window, but {} cannot be made: {why}", folder.display())
        })?;
        save(file, kitchen::write(&self.kitchen).as_bytes())
            .map_err(|e| tr!("your kitchen is known until you close the window, but could not be kept: {e}"))
    }

    /// Everything that was noticed: about the house and how it is put up, then about the house in this kitchen.
    pub(crate) fn findings(&self, shown: &Shown) -> Vec<Finding> {
        // Remedies go by the number of the solver's findings, so these come first.
        let house = shown.solved.findings.iter().chain(&shown.dressed.findings).cloned();
        let house = house.chain(shown.raising_findings().iter().cloned());
        house.chain(kitchen::check(&shown.solved, &self.kitchen)).collect()
    }
}
