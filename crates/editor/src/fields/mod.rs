//! Fields that a person types into. What is typed counts on Enter or when the field is left; a wrong entry stays, with
//! the reason under it, and the house stays as it was.

mod form;
mod kinds;

pub(crate) use form::{Form, Touched};

use std::collections::BTreeMap;

/// What is typed in fields that do not show the house's own value, by place in the house.
#[derive(Clone, Debug, Default)]
pub(crate) struct Fields(BTreeMap<String, Entry>);

/// A field that is being typed in, or that holds a wrong entry.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Entry {
    text: String,
    error: Option<String>,
}

impl Fields {
    /// Forgets every entry: fields show the house again.
    pub(crate) fn clear(&mut self) {
        self.0.clear();
    }

    /// Says under a field why its entry cannot be had; the text stays.
    pub(crate) fn refuse(&mut self, place: &str, text: String, error: String) {
        self.0.insert(place.to_owned(), Entry { text, error: Some(error) });
    }

    /// Whether something is typed that does not count yet.
    pub(crate) fn is_typing(&self) -> bool {
        self.0.values().any(|e| e.error.is_none())
    }
}
