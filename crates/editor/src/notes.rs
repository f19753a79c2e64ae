//! The person's notebook, read and kept beside the kitchen's file.

use gable_bake::{Notebook, notebook};
use gable_export::{keep, read_notebook};
use gable_words::tr;
use std::path::PathBuf;

/// The notebook and where it lies.
#[derive(Clone, Debug, Default)]
pub(crate) struct Notes {
    /// Without a place it lasts as long as the window.
    file: Option<PathBuf>,
    notebook: Notebook,
    /// The file as it was read or written last; nothing if there was none.
    seen: Option<String>,
    /// Why the file cannot be read. It is then left for the person to look at.
    unreadable: Option<String>,
}

impl Notes {
    /// What is kept in a file, and what is wrong with it.
    pub(crate) fn kept_in(file: PathBuf) -> (Self, Option<String>) {
        let mut notes = Self { file: Some(file), ..Self::default() };
        let trouble = notes.reread();
        (notes, trouble)
    }

    /// What is written down.
    pub(crate) fn notebook(&self) -> &Notebook {
        &self.notebook
    }

    /// Reads the file again if something else has written it; what is wrong with it then.
    pub(crate) fn reread(&mut self) -> Option<String> {
        let file = self.file.as_ref()?;
        let text = std::fs::read_to_string(file).ok();
        if text == self.seen && self.unreadable.is_none() {
            return None;
        }
        self.seen = text;
        match read_notebook(file) {
            Ok(notebook) => (self.notebook, self.unreadable) = (notebook, None),
            Err(error) => self.unreadable = Some(error),
        }
        let why = self.unreadable.as_ref()?;
        Some(tr!("your notebook could not be read, so nothing is written into it: {why}"))
    }

    /// Takes a changed notebook and keeps it at once.
    ///
    /// # Errors
    /// When it cannot be written; it counts all the same until the window is closed. When the file was changed by something
    /// else meanwhile, that is read, and the change is not taken.
    pub(crate) fn note(&mut self, changed: Notebook) -> Result<(), String> {
        let Some(file) = self.file.clone() else {
            self.notebook = changed;
            return Ok(());
        };
        if std::fs::read_to_string(&file).ok() != self.seen {
            return Err(self.reread().unwrap_or_else(|| {
                tr!("Your notebook was changed by something else meanwhile and has been read again. Your last change is not in it: \
                 make it again.")
                    .to_owned()
            }));
        }
        if let Some(why) = &self.unreadable {
            return Err(tr!("Nothing is written into your notebook, because it cannot be read: {why}"));
        }
        let text = notebook::write(&changed);
        self.notebook = changed;
        keep(&file, &text).map_err(|e| tr!("this is known until you close the window, but could not be kept: {e}"))?;
        self.seen = Some(text);
        Ok(())
    }
}
