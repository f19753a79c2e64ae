//! The languages that the window can speak.

use gable_words::{Catalogue, Tongue, built_in, kept_in, suits, system};
use std::path::Path;

/// Where a person keeps catalogues, beside the settings.
const FOLDER: &str = "words";

/// Catalogues that come with the program, and the person's own, which come first.
#[derive(Debug, Default)]
pub(crate) struct Languages {
    own: Vec<&'static Catalogue>,
}

impl Languages {
    /// Those in a person's folder besides the built-in ones, and what is wrong with them.
    pub(super) fn kept_in(folder: &Path) -> (Self, Vec<String>) {
        let (own, troubles) = kept_in(&folder.join(FOLDER));
        (Self { own }, troubles)
    }

    fn all(&self) -> impl Iterator<Item = &'static Catalogue> + Clone {
        self.own.iter().copied().chain(built_in())
    }

    /// Codes and names of all languages besides English, in the order of their names.
    pub(crate) fn names(&self) -> Vec<(&'static str, &'static str)> {
        let mut names: Vec<(&str, &str)> = Vec::new();
        for one in self.all() {
            if names.iter().all(|(code, _)| *code != one.code()) {
                names.push((one.code(), one.name()));
            }
        }
        names.sort_unstable_by_key(|(_, name)| *name);
        names
    }

    /// What is spoken: the language that is asked for, else that of the system, else English.
    pub(crate) fn tongue(&self, asked: Option<&str>) -> Tongue {
        let found = match asked {
            Some(code) => suits(code, self.all()),
            // Only where there is something to choose; looking at the system is not free.
            None => self.all().next().and_then(|_| system(self.all())),
        };
        found.map_or(Tongue::ENGLISH, Tongue::of)
    }
}
