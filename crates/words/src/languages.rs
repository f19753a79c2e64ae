//! Which languages there are.

use crate::{Catalogue, Tongue};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

const FILES: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/catalogues.rs"));

/// Languages that come with the program, read once.
pub fn built_in() -> &'static [Catalogue] {
    static READ: OnceLock<Vec<Catalogue>> = OnceLock::new();
    // A check reads each of them; one that cannot be read is not offered.
    READ.get_or_init(|| FILES.iter().filter_map(|(code, text)| Catalogue::read(code, text).ok()).collect())
}

/// Catalogues that a person keeps in a folder, in the order of their names, and why others cannot be read. They last as long
/// as the program.
pub fn kept_in(folder: &Path) -> (Vec<&'static Catalogue>, Vec<String>) {
    let files = std::fs::read_dir(folder).into_iter().flatten().flatten().map(|file| file.path());
    let mut files: Vec<PathBuf> = files.filter(|file| file.extension().is_some_and(|e| e == "po")).collect();
    files.sort();
    let (mut found, mut troubles) = (Vec::new(), Vec::new());
    for file in files {
        let code = file.file_stem().unwrap_or_default().to_string_lossy();
        let read = std::fs::read_to_string(&file).map_err(|e| e.to_string());
        match read.and_then(|text| Catalogue::read(&code, &text).map_err(|e| e.to_string())) {
            Ok(catalogue) => {
                troubles.extend(catalogue.faults().iter().map(|fault| format!("{}: {fault}", file.display())));
                found.push(&*Box::leak(Box::new(catalogue)));
            }
            Err(why) => troubles.push(format!("{}: {why}", file.display())),
        }
    }
    (found, troubles)
}

/// The language of the system among some; English where there is no better one.
pub fn system<'a>(all: impl IntoIterator<Item = &'a Catalogue> + Clone) -> Option<&'a Catalogue> {
    for wanted in sys_locale::get_locales() {
        if let Some(found) = suits(&wanted, all.clone()) {
            return Some(found);
        }
        if wanted.get(..2) == Some("en") {
            return None;
        }
    }
    None
}

/// The catalogue for a language such as `pt-BR`: of that country, else of the same language. What is English already needs
/// none but its own country's.
pub fn suits<'a>(wanted: &str, all: impl IntoIterator<Item = &'a Catalogue> + Clone) -> Option<&'a Catalogue> {
    // Systems say `pt_BR.UTF-8` and `de_DE@euro`.
    let plain = |code: &str| code.split(['.', '@']).next().unwrap_or_default().replace('_', "-").to_lowercase();
    let tongue = |code: &str| plain(code).split('-').next().map(str::to_owned);
    let exact = all.clone().into_iter().find(|c| plain(c.code()) == plain(wanted));
    let is_english = tongue(wanted).as_deref() == Some("en");
    exact.or_else(|| all.into_iter().find(|c| !is_english && tongue(c.code()) == tongue(wanted)))
}

impl Tongue {
    /// The language as systems name it; `en` for English.
    #[must_use]
    pub fn code(self) -> &'static str {
        self.catalogue().map_or("en", Catalogue::code)
    }
}
