//! What a person keeps between houses, in files of their own: the kitchen, and the notebook beside it.

use crate::{plain_reason, read_text, save};
use gable_bake::{Notebook, notebook};
use std::path::{Path, PathBuf};

/// Where this machine keeps a person's kitchen.
pub fn usual_kitchen_file() -> Option<PathBuf> {
    Some(dirs::config_dir()?.join("gablewright").join("kitchen.json"))
}

/// The notebook that lies beside a kitchen.
pub fn notebook_file(kitchen: &Path) -> PathBuf {
    kitchen.with_file_name("notebook.json")
}

/// Reads a notebook; an empty one if there is no such file yet.
///
/// # Errors
/// When there is a file and it cannot be read: where, what is wrong, what to do.
pub fn read_notebook(file: &Path) -> Result<Notebook, String> {
    if !file.exists() {
        return Ok(Notebook::default());
    }
    let text = read_text(file).map_err(|e| e.to_string())?;
    notebook::read(&text).map_err(|e| format!("{}: {e}", file.display()))
}

/// Writes something of a person's own, with the folder that it needs.
///
/// # Errors
/// When the folder cannot be made or the file not be written; what stood there is then untouched.
pub fn keep(file: &Path, text: &str) -> Result<(), String> {
    if let Some(folder) = file.parent().filter(|folder| !folder.as_os_str().is_empty()) {
        let why = |e| format!("{}: the folder cannot be made: {}", folder.display(), plain_reason(&e));
        std::fs::create_dir_all(folder).map_err(why)?;
    }
    save(file, text.as_bytes()).map_err(|e| e.to_string())
}
