use std::path::{Path, PathBuf};

/// Where they are kept.
pub(super) const FILE: &str = "recent.json";
/// So many are kept; those that are gone from the disk count too, for they may be on one that is not plugged in.
const MOST: usize = 24;

/// Files that were open, the latest first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Recent(Vec<PathBuf>);

impl Recent {
    /// What a file holds. The list is no work of anybody's: one that cannot be read begins anew.
    pub(super) fn read(file: &Path) -> Self {
        let text = gable_export::read_text(file).unwrap_or_default();
        Self(serde_json::from_str(&text).unwrap_or_default())
    }

    pub(super) fn write(&self) -> String {
        // A name that is no text is not kept.
        let names: Vec<&str> = self.0.iter().filter_map(|p| p.to_str()).collect();
        serde_json::to_string_pretty(&names).unwrap_or_default() + "\n"
    }

    pub(super) fn files(&self) -> &[PathBuf] {
        &self.0
    }

    /// Puts a file first; whether that changes anything.
    pub(super) fn note(&mut self, file: &Path) -> bool {
        let file = std::path::absolute(file).unwrap_or_else(|_| file.to_owned());
        if self.0.first() == Some(&file) {
            return false;
        }
        self.0.retain(|other| other != &file);
        self.0.insert(0, file);
        self.0.truncate(MOST);
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_there_once_and_the_latest_is_first() {
        let mut recent = Recent::default();
        for name in ["/a", "/b", "/a"] {
            assert!(recent.note(Path::new(name)));
        }
        assert!(!recent.note(Path::new("/a")));
        assert_eq!(recent.files(), [PathBuf::from("/a"), PathBuf::from("/b")]);
        (0..40).for_each(|k| assert!(recent.note(&PathBuf::from(format!("/{k}")))));
        assert_eq!(recent.files().len(), MOST);
    }
}
